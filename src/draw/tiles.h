/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What drawings at true size share that are cut into pages: the papers, how many pages an extent
 * takes, the bars that check the printer, the marks by which pages are joined. All in mm. */
#ifndef MENSUR_DRAW_TILES_H
#define MENSUR_DRAW_TILES_H

#include "drawing_style.h"
#include "shapes.h"

/* White on every side, which printers leave. */
#define MENSUR_TILE_MARGIN 10.0

/* The most pages of one drawing. */
#define MENSUR_TILE_PAGES 40

struct mensur_tile_size {
    double width, height;
};

/* A paper that lies on its long side; of a strip, which has none, that of A4. */
struct mensur_tile_size mensur_tile_paper(enum mensur_sheet_paper paper);

/* How many windows cover an extent where neighbours overlap: 1 or more; more than
 * MENSUR_TILE_PAGES stands for all that are too many. */
size_t mensur_tile_count(double extent, double window, double overlap);

/* A bar of `steps` steps from (x, y) to the right, or upwards, with a tick at each and its length
 * as a label. */
void mensur_tile_bar(struct mensur_shapes *shapes, double x, double y, double step, int steps,
                     const char *label);
void mensur_tile_bar_upright(struct mensur_shapes *shapes, double x, double y, double step,
                             int steps, const char *label);

/* A register mark: a cross in a ring, with its name. */
void mensur_tile_cross(struct mensur_shapes *shapes, double x, double y, const char *name);

/* "page 1 of 2" and what follows it ("": nothing) up to `right`, said in words too; nothing where
 * there is one page. */
void mensur_tile_number(struct mensur_shapes *shapes, double right, double y, size_t page,
                        size_t pages, const char *until);

#endif
