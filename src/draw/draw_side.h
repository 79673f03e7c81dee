/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view of one instrument on the page; what was not measured is not drawn. */
#ifndef MENSUR_DRAW_DRAW_SIDE_H
#define MENSUR_DRAW_DRAW_SIDE_H

#include "draw.h"

/* Position and scale of a side view: px of its origin, px per m. */
struct mensur_side_frame {
    double x, y;
    double scale;
};

/* A point of the instrument on the page. */
struct mensur_point mensur_side_at(const struct mensur_side_frame *frame, double x, double y);
/* The end of the board's top. */
struct mensur_point mensur_side_board_end(const struct mensur_side_points *side);
/* Belly, board, nut, bridge, saddle and string. */
void mensur_side_instrument(struct mensur_draw *draw, const struct mensur_side_points *side,
                            const struct mensur_side_frame *frame);

#endif
