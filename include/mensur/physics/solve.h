/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The one door to GSL's root finders. GSL's error handler must be switched off
 * (gsl_set_error_handler_off) once by the program; the library does not touch it.
 */
#ifndef MENSUR_SOLVE_H
#define MENSUR_SOLVE_H

#include "status.h"

/**
 * A function of one variable, continuous where it is asked for.
 *
 * @param x        where, in the unit of the interval
 * @param context  what else it needs; the caller's own
 * @return         its value, in any unit; NaN where it has none
 */
typedef double mensur_function(double x, void *context);

/**
 * The place in an interval where a function passes through zero.
 *
 * f(root) = 0
 *
 * An end that is a root is returned, the lower one first. What GSL keeps of the search stands on
 * the stack: no memory is taken.
 *
 * @param f          the function; finite in the whole interval
 * @param context    handed to f
 * @param low        lower end, any unit; -1e60 to high
 * @param high       upper end, same unit; low to 1e60
 * @param[out] root  a root, same unit, low to high; which one of several is not said
 *
 * Accuracy: 1e-13 of the root, or 1e-30 of the interval where that is more (a root at 0), as far
 * as f itself is so exact. A jump through zero is taken for a root; a pole is not.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: ends not finite or crossed; MENSUR_NO_ANSWER: f has the same
 *          sign at both ends, is NaN or infinite where it was asked, or does not come near zero;
 *          MENSUR_MEMORY: a GSL whose search wants more room than was foreseen (none known)
 *
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, as
 * GSL's gsl_root_fsolver_brent has it.
 * Test: tests/physics/test_solve.c (finds_roots, refuses), test_solve_memory.c
 */
enum mensur_status mensur_solve_root(mensur_function *f, void *context, double low, double high,
                                     double *root);

#endif
