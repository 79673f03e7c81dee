/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drawing as data: lines, areas and texts in a list, in the unit of its page, and the words that
 * describe it. svg.c alone turns it into bytes. */
#ifndef MENSUR_DRAW_SHAPES_H
#define MENSUR_DRAW_SHAPES_H

#include <stdbool.h>
#include <stddef.h>

#include "texts.h"

/* Colour or hatch of a line or an area. Colour is never the only distinction: OTHER always comes
 * with dashes, a hatch or a label. */
enum mensur_paint {
    MENSUR_PAINT_NONE,
    MENSUR_PAINT_INK,
    MENSUR_PAINT_SOFT,   /* axes, dimension lines */
    MENSUR_PAINT_OTHER,  /* the second instrument */
    MENSUR_PAINT_SECOND, /* its outline: ink, which a page can dash where its colours are forced */
    MENSUR_PAINT_PAPER,
    MENSUR_PAINT_TINT,        /* light fill: body, board, bars */
    MENSUR_PAINT_HATCH,       /* ink lines, rising */
    MENSUR_PAINT_HATCH_OTHER, /* the second's lines, falling */
    MENSUR_PAINT_COUNT
};

enum mensur_dash { MENSUR_DASH_NONE, MENSUR_DASH_LONG, MENSUR_DASH_DOTS };

struct mensur_pen {
    enum mensur_paint paint;
    double width;
    enum mensur_dash dash;
};

enum mensur_anchor { MENSUR_ANCHOR_START, MENSUR_ANCHOR_MIDDLE, MENSUR_ANCHOR_END };

struct mensur_lettering {
    double size;
    enum mensur_anchor anchor;
    bool bold;
    bool upright; /* turned by 90 degrees, to be read from below upwards */
    enum mensur_paint paint;
};

struct mensur_point {
    double x, y;
};

enum mensur_shape_kind { MENSUR_SHAPE_PATH, MENSUR_SHAPE_DISC, MENSUR_SHAPE_TEXT };

struct mensur_shape {
    enum mensur_shape_kind kind;
    struct mensur_pen pen;
    enum mensur_paint fill;
    bool closed;
    size_t first, count; /* points of a path; other shapes have one, their place */
    double radius;
    struct mensur_lettering lettering;
    char *text; /* owned */
};

struct mensur_shapes {
    struct mensur_shape *items; /* owned */
    size_t count, room;
    struct mensur_point *points; /* owned */
    size_t point_count, point_room;
    double width, height;
    double dash;               /* length of a dash, in the page's unit */
    struct mensur_texts words; /* the description, sentence by sentence */
    enum mensur_status status; /* the first failure; after it nothing is added */
};

void mensur_shapes_clear(struct mensur_shapes *shapes);

/* Whether the shapes at one place of two lists are drawn alike. */
bool mensur_shapes_alike(const struct mensur_shapes *one, const struct mensur_shapes *other,
                         size_t place);

void mensur_shape_line(struct mensur_shapes *shapes, struct mensur_pen pen, double x1, double y1,
                       double x2, double y2);
void mensur_shape_path(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                       const struct mensur_point *points, size_t count, bool closed);
void mensur_shape_box(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                      double x, double y, double width, double height);
void mensur_shape_disc(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                       double x, double y, double radius);
/* Text at its base line; nothing where it is empty. */
void mensur_shape_text(struct mensur_shapes *shapes, struct mensur_lettering lettering, double x,
                       double y, const char *text);
/* Text shortened to a width. */
void mensur_shape_fitted(struct mensur_shapes *shapes, struct mensur_lettering lettering, double x,
                         double y, double width, const char *text);
/* An arrow head at a point, looking along (dx, dy). */
void mensur_shape_head(struct mensur_shapes *shapes, enum mensur_paint paint, double x, double y,
                       double dx, double dy, double size);
/* Adds copies of another drawing's shapes, made smaller or larger about its upper left corner,
 * which comes to (x, y); and what describes it. */
void mensur_shapes_place(struct mensur_shapes *shapes, const struct mensur_shapes *of, double x,
                         double y, double scale);
/* Adds a sentence to the description; formats as mensur_texts_add. */
#define MENSUR_SHAPE_SAY(shapes, ...)                                                              \
    ((shapes)->status = (shapes)->status == MENSUR_OK                                              \
                            ? mensur_texts_add(&(shapes)->words, __VA_ARGS__)                      \
                            : (shapes)->status)

#endif
