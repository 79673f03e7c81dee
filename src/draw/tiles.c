/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tiles.h"

#include <math.h>
#include <stdio.h>

static const struct mensur_pen fine = {MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};
static const struct mensur_pen bar = {MENSUR_PAINT_INK, 0.3, MENSUR_DASH_NONE};

struct mensur_tile_size mensur_tile_paper(enum mensur_sheet_paper paper) {
    return paper == MENSUR_SHEET_LETTER ? (struct mensur_tile_size){279.4, 215.9}
                                        : (struct mensur_tile_size){297.0, 210.0};
}

size_t mensur_tile_count(double extent, double window, double overlap) {
    double count = ceil((extent - overlap) / (window - overlap));
    return !(count > 1.0) ? 1 : (size_t)fmin(count, MENSUR_TILE_PAGES + 1.0);
}

/* The first and last tick are longer. */
static double tick(int i, int steps) {
    return i == 0 || i == steps ? 4.0 : 2.0;
}

void mensur_tile_bar(struct mensur_shapes *shapes, double x, double y, double step, int steps,
                     const char *label) {
    struct mensur_lettering letters = {.size = 3.2, .paint = MENSUR_PAINT_INK};
    mensur_shape_line(shapes, bar, x, y, x + step * steps, y);
    for (int i = 0; i <= steps; i++) {
        mensur_shape_line(shapes, bar, x + step * i, y - tick(i, steps), x + step * i, y);
    }
    mensur_shape_text(shapes, letters, x, y + 4.2, label);
}

void mensur_tile_bar_upright(struct mensur_shapes *shapes, double x, double y, double step,
                             int steps, const char *label) {
    struct mensur_lettering letters = {.size = 3.2, .upright = true, .paint = MENSUR_PAINT_INK};
    mensur_shape_line(shapes, bar, x, y - step * steps, x, y);
    for (int i = 0; i <= steps; i++) {
        mensur_shape_line(shapes, bar, x, y - step * i, x + tick(i, steps), y - step * i);
    }
    mensur_shape_text(shapes, letters, x - 1.6, y, label);
}

void mensur_tile_cross(struct mensur_shapes *shapes, double x, double y, const char *name) {
    struct mensur_lettering letters = {.size = 3.0, .paint = MENSUR_PAINT_INK};
    mensur_shape_line(shapes, fine, x - 3.0, y, x + 3.0, y);
    mensur_shape_line(shapes, fine, x, y - 3.0, x, y + 3.0);
    mensur_shape_disc(shapes, fine, MENSUR_PAINT_NONE, x, y, 1.8);
    mensur_shape_text(shapes, letters, x + 3.4, y + 1.1, name);
}

void mensur_tile_number(struct mensur_shapes *shapes, double right, double y, size_t page,
                        size_t pages, const char *until) {
    struct mensur_lettering letters = {
        .size = 4.0, .anchor = MENSUR_ANCHOR_END, .bold = true, .paint = MENSUR_PAINT_INK};
    char line[64];
    if (pages < 2) {
        return;
    }
    snprintf(line, sizeof line, "page %zu of %zu%s", page + 1, pages, until);
    mensur_shape_text(shapes, letters, right, y, line);
    MENSUR_SHAPE_SAY(shapes, "This is %s.", line);
}
