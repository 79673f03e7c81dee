/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * How sure a figure is that follows from measurements which are only so sure: the law of
 * propagation of uncertainty, first order, measurements independent of each other.
 *
 * Source: JCGM 100:2008 (the GUM; clauses cited from memory), 5.1.2, equation 10, with numerical
 * derivatives in place of those by hand (5.1.3, note 2): GSL's adaptive central differences.
 */
#ifndef MENSUR_PROPAGATE_H
#define MENSUR_PROPAGATE_H

#include <stddef.h>

#include "status.h"

/** The most measurements that one figure may follow from. */
#define MENSUR_MEASUREMENTS_MAX 96

/**
 * A figure that follows from measurements.
 *
 * @param x        the measurements, each in the unit that its uncertainty is in
 * @param context  the caller's own
 * @return         the figure; NaN where it is unknown
 */
typedef double mensur_figure(const double *x, void *context);

/**
 * Combined standard uncertainty of a figure, and what each measurement adds to it.
 *
 * u(y)^2 = sum over i of (dy/dx_i)^2 u(x_i)^2.
 *
 * Good to about 1e-6 of itself where the figure is smooth over a few u around x. First order: it
 * stops holding where the figure bends within u, which the tests show by Monte Carlo (JCGM
 * 101:2008).
 *
 * @param figure        the figure as a function of its measurements
 * @param context       handed to figure
 * @param x             the measured values, finite
 * @param u             their standard uncertainties, >= 0, in the units of x; those of 0 are passed
 * over
 * @param count         how many, at most MENSUR_MEASUREMENTS_MAX
 * @param[out] shares   what each adds to u(y)^2, in the figure's unit squared; may be NULL
 * @param[out] out      u(y) in the figure's unit; NaN where the figure is unknown at x or beside it
 * @return  MENSUR_OK, or MENSUR_DOMAIN where an argument lies outside its range
 *
 * Pinned by tests/physics/test_propagate.c.
 */
enum mensur_status mensur_propagate(mensur_figure *figure, void *context, const double *x,
                                    const double *u, size_t count, double *shares, double *out);

#endif
