/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scale of forces that bars of tension stand on. */
#include "force_axis.h"

#include <math.h>

#define STEPS_MOST 4 /* ticks of the scale, at most */

struct force_axis force_axis_make(double tension, double breaking) {
    double most = fmin(fmax(breaking, tension), tension * 3.0);
    return (struct force_axis){.scale = (BARS_END - BARS) / most, .most = most};
}

double force_axis_at(const struct force_axis *axis, double force) {
    return BARS + force * axis->scale;
}

bool force_axis_holds(const struct force_axis *axis, double force) {
    return force <= axis->most * 1.0001;
}

void force_axis_draw(struct mensur_draw *draw, const struct force_axis *axis, double height) {
    double top = draw->y - 4.0;
    double bottom = draw->y + height;
    double shown = mensur_shown_value(draw->style, MENSUR_FORCE, axis->most);
    double step = mensur_draw_step(shown, STEPS_MOST);
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_NONE};
    for (int i = 0; axis->most > 0.0 && i <= STEPS_MOST && i * step <= shown; i++) {
        double tick = i * step;
        double x = BARS + tick / shown * (BARS_END - BARS);
        mensur_shape_line(&draw->shapes, pen, x, top, x, bottom);
        mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), x, bottom + 14.0,
                          mensur_show_number(tick, step < 1.0 ? 1 : 0, 7).text);
    }
}

void force_break_mark(struct mensur_draw *draw, double x, double y) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.6, MENSUR_DASH_NONE};
    mensur_shape_line(&draw->shapes, pen, x - 3.5, y - 5.0, x + 3.5, y + 5.0);
    mensur_shape_line(&draw->shapes, pen, x - 3.5, y + 5.0, x + 3.5, y - 5.0);
}

void force_say_none(struct mensur_draw *draw) {
    static const char none[] = "No strings are known.";
    mensur_shape_text(&draw->shapes, mensur_draw_letters(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + 8.0, none);
    MENSUR_SHAPE_SAY(&draw->shapes, "%s", none);
    draw->y += 24.0;
}
