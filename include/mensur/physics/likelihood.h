/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * How likely figures lie within ranges, all of them at once, that follow from measurements which
 * are only so sure: the measurements independent and normal, the figures linear in them.
 *
 * Source: JCGM 101:2008, 5.2 and 7, for the model (from memory); the sequence of conditional
 * probabilities, A. Genz, Numerical computation of multivariate normal probabilities, Journal of
 * Computational and Graphical Statistics 1 (1992) (from memory).
 */
#ifndef MENSUR_LIKELIHOOD_H
#define MENSUR_LIKELIHOOD_H

#include <stddef.h>

#include "status.h"

/** Figures, the ranges that they shall lie within, and what each measurement adds to each. */
struct mensur_ranges {
    size_t x_count;      /**< how many measurements */
    size_t y_count;      /**< how many figures */
    const double *parts; /**< (dy_k/dx_i) u(x_i), with its sign, at parts[k * x_count + i], as
                              mensur_propagate gives them; in the unit of figure k */
    const double *y;     /**< the figures at the measured values */
    const double *low;   /**< where the range of each begins, same unit; NaN: open */
    const double *high;  /**< where it ends; NaN: open */
    double *work;        /**< room for y_count (x_count + y_count + 3) numbers */
};

/**
 * Probability that every figure lies within its range, ends included.
 *
 * The figures are normal about y with the covariance P P^T, P being `parts`; figures that share a
 * measurement are not taken for independent. With one direction of P the result is a difference of
 * two values of the normal distribution; with more it is summed over a fixed lattice of 4096
 * points, the last direction in closed form, and is good to 0.002. A figure that no measurement
 * moves is within its range or not. The same arguments give the same result to the last digit.
 *
 * Where the model stops holding: figures that bend within their uncertainty.
 *
 * @param ranges    figures and ranges
 * @param[out] out  0 to 1
 * @return  MENSUR_OK, or MENSUR_DOMAIN where a figure or a part is not finite
 *
 * Pinned by tests/physics/test_likelihood.c.
 */
enum mensur_status mensur_likelihood(const struct mensur_ranges *ranges, double *out);

#endif
