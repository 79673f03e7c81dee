/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The domains of numbers in the physics, and the check of a result.
 *
 * Every size lies between 1e-60 and 1e60 of its SI unit: far outside any real size, and within
 * bounds where no intermediate product of the equations underflows to 0. */
#ifndef MENSUR_PHYSICS_DOMAIN_H
#define MENSUR_PHYSICS_DOMAIN_H

#include <math.h>
#include <stdbool.h>

#include "status.h"

#define MENSUR_LEAST 1e-60
#define MENSUR_MOST 1e60

/* ln 2 and pi, which standard C17 does not define. */
#define MENSUR_LN2 0.693147180559945309417232121458176568
#define MENSUR_PI 3.14159265358979323846264338327950288

/* All three are false for NaN. */
static inline bool is_number(double value) {
    return fabs(value) <= MENSUR_MOST;
}

static inline bool is_not_negative(double value) {
    return value >= 0.0 && value <= MENSUR_MOST;
}

static inline bool is_positive(double value) {
    return value >= MENSUR_LEAST && value <= MENSUR_MOST;
}

/* Exact comparison, on purpose: for values as given, not for results. */
static inline bool is_same(double a, double b) {
    return !(a < b) && !(a > b);
}

/* Stores a result; MENSUR_DOMAIN, and nothing stored, where it is infinite or NaN. */
static inline enum mensur_status give(double value, double *out) {
    if (!isfinite(value)) {
        return MENSUR_DOMAIN;
    }
    *out = value;
    return MENSUR_OK;
}

/* log2(high/low) of two positive numbers. Near 1 the rounding of the quotient would cost digits of
 * the logarithm, while the difference is exact there. */
static inline double octaves_between(double low, double high) {
    double ratio = high / low;
    if (ratio > 0.5 && ratio < 2.0) {
        return log1p((high - low) / low) / MENSUR_LN2;
    }
    return log2(ratio);
}

#endif
