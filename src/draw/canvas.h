/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page at true size as a window on a figure that is larger: lines are cut at the window's edge, a
 * label stands on each page that holds it whole. All in mm; the figure's y goes up. */
#ifndef MENSUR_DRAW_CANVAS_H
#define MENSUR_DRAW_CANVAS_H

#include "shapes.h"

/* What pages that are joined have in common. No label is wider, so that each is whole on one. */
#define MENSUR_CANVAS_OVERLAP 20.0

/* A rectangle of a figure: its left and upper side, and how far it goes right and down. */
struct mensur_area {
    double left, top, width, height;
};

struct mensur_canvas {
    struct mensur_shapes *shapes;
    struct mensur_area page; /* the window on the page, whose y goes down */
    double left, top;        /* what of the figure stands in the window's upper left corner */
};

/* A place of the figure on the page. */
struct mensur_point mensur_canvas_at(const struct mensur_canvas *canvas, double x, double y);
/* The part of a line that the window shows. */
void mensur_canvas_line(const struct mensur_canvas *canvas, struct mensur_pen pen,
                        struct mensur_point from, struct mensur_point to);
/* The same of several, one behind the other. */
void mensur_canvas_lines(const struct mensur_canvas *canvas, struct mensur_pen pen,
                         const struct mensur_point *points, size_t count);
/* A disc whose middle the window shows. */
void mensur_canvas_disc(const struct mensur_canvas *canvas, double x, double y, double radius);
/* Whether the window holds a text whole; and the text, where it does. */
bool mensur_canvas_holds(const struct mensur_canvas *canvas, struct mensur_lettering lettering,
                         double x, double y, const char *text);
void mensur_canvas_text(const struct mensur_canvas *canvas, struct mensur_lettering lettering,
                        double x, double y, const char *text);

#endif
