/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Printed arithmetic worked out again: a small reader of formulas with numbers, of which the
 * library knows nothing. */
#ifndef MENSUR_TEST_ARITHMETIC_H
#define MENSUR_TEST_ARITHMETIC_H

#include <stdbool.h>

/* A printed formula's value, and how far it may be off because its numbers are rounded: the sum
 * over all of them of what half a unit of their last digit moves. */
struct worked_out {
    bool good; /* false: it could not be read */
    double value;
    double off;
    int numbers; /* how many stand in it */
};

/* Reads + − · / ^ ( ) √ π °, raised digits, sin cos atan asin acos asinh log2 ln min max. */
struct worked_out work_out(const char *text);

/* The number at the start of a result, and half a unit of its last digit. */
struct worked_out read_result(const char *text);

#endif
