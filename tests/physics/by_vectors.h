/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view a second time, in long double and by vectors alone. */
#ifndef MENSUR_TEST_BY_VECTORS_H
#define MENSUR_TEST_BY_VECTORS_H

#include "geometry.h"

struct by_vectors {
    long double nut_x, nut_y, string_length;
    long double taper, slope, neck_slope, front, back, break_angle, down_factor;
    long double off_board; /* how far the board's corner at the nut misses the board's line; 0 */
    /* what the clearance needs */
    long double at_x, at_y;       /* a point of the board's top */
    long double along_x, along_y; /* unit vector along it, towards the bridge */
};

/* Constructs the board as a tangent and the neck as a turned vector: no sine, no cosine, no root
 * but lengths of vectors. The view must have a solution. */
struct by_vectors solve_by_vectors(const struct mensur_side_view *view);

/* Clearance at a distance from the nut, by walking along the board and up to the string. */
long double clearance_by_vectors(const struct mensur_side_view *view, const struct by_vectors *by,
                                 double board_length, double hollow, double distance);

/* Length of the parabola's arc over a chord, less twice its rise, summed up in pieces. */
long double arc_less_rises(long double chord, long double rise);

#endif
