/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "canvas.h"

#include <math.h>

#include "lettering.h"

struct mensur_point mensur_canvas_at(const struct mensur_canvas *canvas, double x, double y) {
    return (struct mensur_point){canvas->page.left + (x - canvas->left),
                                 canvas->page.top + (canvas->top - y)};
}

/* Cuts the part of a line from t0 to t1 where `step` times t leaves `room` behind it: the method of
 * Liang and Barsky. */
static bool cut(double step, double room, double *t0, double *t1) {
    if (step < 0.0) {
        *t0 = fmax(*t0, room / step);
    } else if (step > 0.0) {
        *t1 = fmin(*t1, room / step);
    } else {
        return room >= 0.0;
    }
    return *t0 < *t1;
}

void mensur_canvas_line(const struct mensur_canvas *canvas, struct mensur_pen pen,
                        struct mensur_point from, struct mensur_point to) {
    const struct mensur_area *page = &canvas->page;
    struct mensur_point a = mensur_canvas_at(canvas, from.x, from.y);
    struct mensur_point b = mensur_canvas_at(canvas, to.x, to.y);
    double dx = b.x - a.x, dy = b.y - a.y, t0 = 0.0, t1 = 1.0;
    if (cut(-dx, a.x - page->left, &t0, &t1) && cut(dx, page->left + page->width - a.x, &t0, &t1) &&
        cut(-dy, a.y - page->top, &t0, &t1) && cut(dy, page->top + page->height - a.y, &t0, &t1)) {
        mensur_shape_line(canvas->shapes, pen, a.x + t0 * dx, a.y + t0 * dy, a.x + t1 * dx,
                          a.y + t1 * dy);
    }
}

void mensur_canvas_lines(const struct mensur_canvas *canvas, struct mensur_pen pen,
                         const struct mensur_point *points, size_t count) {
    for (size_t i = 1; i < count; i++) {
        mensur_canvas_line(canvas, pen, points[i - 1], points[i]);
    }
}

static bool holds(const struct mensur_area *page, double left, double top, double right,
                  double bottom) {
    return left >= page->left && right <= page->left + page->width && top >= page->top &&
           bottom <= page->top + page->height;
}

void mensur_canvas_disc(const struct mensur_canvas *canvas, double x, double y, double radius) {
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    struct mensur_point at = mensur_canvas_at(canvas, x, y);
    if (holds(&canvas->page, at.x, at.y, at.x, at.y)) {
        mensur_shape_disc(canvas->shapes, none, MENSUR_PAINT_INK, at.x, at.y, radius);
    }
}

bool mensur_canvas_holds(const struct mensur_canvas *canvas, struct mensur_lettering lettering,
                         double x, double y, const char *text) {
    struct mensur_point at = mensur_canvas_at(canvas, x, y);
    double width = mensur_lettering_width(text, lettering.size);
    double left = lettering.anchor == MENSUR_ANCHOR_START ? at.x
                  : lettering.anchor == MENSUR_ANCHOR_END ? at.x - width
                                                          : at.x - width / 2.0;
    return holds(&canvas->page, left, at.y - lettering.size, left + width, at.y);
}

void mensur_canvas_text(const struct mensur_canvas *canvas, struct mensur_lettering lettering,
                        double x, double y, const char *text) {
    struct mensur_point at = mensur_canvas_at(canvas, x, y);
    if (mensur_canvas_holds(canvas, lettering, x, y, text)) {
        mensur_shape_text(canvas->shapes, lettering, at.x, at.y, text);
    }
}
