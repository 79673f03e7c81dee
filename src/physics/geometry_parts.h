/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shared by the side view and its inverses: the line of the board's top, which depends on all
 * measurements but the bridge. */
#ifndef MENSUR_GEOMETRY_PARTS_H
#define MENSUR_GEOMETRY_PARTS_H

#include <stdbool.h>

#include "geometry.h"
#include "status.h"

/* The board and the nut; symbols of geometry.c. */
struct mensur_board_line {
    double taper;      /* rad, phi */
    double slope;      /* rad, psi */
    double neck_slope; /* rad, theta */
    double cos_taper, sin_slope, cos_slope, sin_neck, cos_neck;
    double rise;         /* m, H */
    double top;          /* m, q */
    double height;       /* m, h: of the string at the nut above the neck's gluing surface */
    double nut_x, nut_y; /* m */
};

/* True where all measurements except bridge, saddle and body_straight lie in their domains. */
bool mensur_is_board_view(const struct mensur_side_view *view);

/* True where all measurements lie in their domains. */
bool mensur_is_side_view(const struct mensur_side_view *view);

/* The board's line of a view in its domain; MENSUR_NO_ANSWER where no slope reaches the
 * projection. */
enum mensur_status mensur_board_line_solve(const struct mensur_side_view *view,
                                           struct mensur_board_line *out);

#endif
