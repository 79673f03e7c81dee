/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * How sure figures are that follow from measurements which are only so sure: the law of
 * propagation of uncertainty, first order, measurements independent of each other.
 *
 * Source: JCGM 100:2008 (the GUM; clauses cited from memory), 5.1.2, equation 10, with numerical
 * derivatives in place of those by hand (5.1.3, note 2): central differences.
 */
#ifndef MENSUR_PROPAGATE_H
#define MENSUR_PROPAGATE_H

#include <stddef.h>

#include "status.h"

/**
 * All the figures that follow from measurements, at once.
 *
 * @param x        the measurements, each in the unit that its uncertainty is in
 * @param context  the caller's own
 * @param[out] y   the figures; NaN where one is unknown
 */
typedef void mensur_evaluation(const double *x, void *context, double *y);

/** Figures, and the measurements that they follow from. */
struct mensur_propagation {
    mensur_evaluation *figures; /**< the figures as a function of the measurements */
    void *context;              /**< handed to figures */
    size_t x_count;             /**< how many measurements */
    const double *x;            /**< measured values, finite */
    const double *u;            /**< their standard uncertainties, >= 0, in the units of x */
    size_t y_count;             /**< how many figures */
    const double *y;            /**< the figures at x; NaN where one is unknown */
    double *work;               /**< room for x_count + 2 y_count numbers */
    double *parts; /**< room for x_count y_count numbers, or NULL: takes (dy_k/dx_i) u(x_i), with
                        its sign, at parts[k * x_count + i] */
};

/**
 * Combined standard uncertainties of figures, and what each measurement adds to them.
 *
 * u(y)^2 = sum over i of (dy/dx_i)^2 u(x_i)^2.
 *
 * Asks for the figures twice for each measurement whose uncertainty is not 0, so that 2 n + 1
 * evaluations, with the one that gave y, serve all figures together. Good to about 1e-8 of itself
 * where the figure is smooth over a few u around x. First order: it stops holding where the figure
 * bends within u, which the tests show by Monte Carlo (JCGM 101:2008).
 *
 * @param from         figures and measurements
 * @param[out] shares  what measurement i adds to u(y_k)^2, in that figure's unit squared, at
 *                     shares[k * x_count + i]; may be NULL
 * @param[out] out     u(y_k) in the figure's unit, y_count of them; NaN where the figure is unknown
 *                     at x, or a hundredth of an uncertainty beside it
 * @return  MENSUR_OK, or MENSUR_DOMAIN where an argument lies outside its range
 *
 * Pinned by tests/physics/test_propagate.c.
 */
enum mensur_status mensur_propagate(const struct mensur_propagation *from, double *shares,
                                    double *out);

#endif
