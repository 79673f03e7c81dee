/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view computed independently: in long double, with vectors. */
#ifndef MENSUR_TEST_BY_VECTORS_H
#define MENSUR_TEST_BY_VECTORS_H

#include "geometry.h"

struct by_vectors {
    long double nut_x, nut_y, string_length;
    long double taper, slope, neck_slope, front, back, break_angle, down_factor;
    long double
        off_board; /* distance of the board's corner at the nut from the board's line; must be 0 */
    /* what the clearance needs */
    long double at_x, at_y;       /* a point of the board's top */
    long double along_x, along_y; /* unit vector along it, towards the bridge */
};

/* Constructs the board as a tangent and the neck as a rotated vector, without sine and cosine. The
 * view must have a solution. */
struct by_vectors solve_by_vectors(const struct mensur_side_view *view);

/* Clearance at a distance from the nut along the board, square to it up to the string. */
long double clearance_by_vectors(const struct mensur_side_view *view, const struct by_vectors *by,
                                 double board_length, double hollow, double distance);

/* Length of the parabola's arc over a chord, less twice its rise, summed up in pieces. */
long double arc_less_rises(long double chord, long double rise);

#endif
