/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The one door to GSL's root finders. GSL's error handler must be switched off
 * (gsl_set_error_handler_off) once by the program; the library does not touch it.
 */
#ifndef MENSUR_SOLVE_H
#define MENSUR_SOLVE_H

#include "status.h"

/** A function of one variable; NaN where it has no value. */
typedef double mensur_function(double x, void *context);

/** Root of f between low and high (Brent), to 1e-13 relative; MENSUR_NO_ANSWER where f has no change of sign there; an end that is a root is returned. */
enum mensur_status mensur_solve_root(mensur_function *f, void *context, double low, double high,
                                     double *root);

#endif
