/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Root of a function of one variable; no other file uses GSL's root finders. The program must
 * switch GSL's error handler off once (gsl_set_error_handler_off); the library does not change it.
 */
#ifndef MENSUR_SOLVE_H
#define MENSUR_SOLVE_H

#include "status.h"

/** How many searches may run one inside the other: a function's own search, and one more in that.
 */
enum { MENSUR_SOLVER_LEVELS = 3 };

/**
 * What finds roots, with the memory that it takes; opaque. It is used by one thread at a time, for
 * as many roots as are wanted.
 */
struct mensur_solver;

/**
 * Makes a solver; nothing else of the physics allocates.
 *
 * @param[out] out  the caller's to free with mensur_solver_free
 *
 * @return  MENSUR_OK or MENSUR_MEMORY
 *
 * Test: tests/physics/test_solve_memory.c
 */
enum mensur_status mensur_solver_make(struct mensur_solver **out);

/**
 * Frees a solver.
 *
 * @param solver  of mensur_solver_make; NULL: nothing is done
 *
 * Test: tests/physics/test_solve_memory.c
 */
void mensur_solver_free(struct mensur_solver *solver);

/**
 * A function of one variable, continuous where it is asked for.
 *
 * @param x        where, in the unit of the interval
 * @param context  the caller's own data
 * @return         its value, in any unit; NaN where it is undefined
 */
typedef double mensur_function(double x, void *context);

/**
 * The place in an interval where a function passes through zero.
 *
 * f(root) = 0
 *
 * An end that is a root is returned, the lower one first. Nothing is allocated. The function may
 * itself ask the same solver for a root.
 *
 * @param solver     of mensur_solver_make
 * @param f          the function; finite in the whole interval
 * @param context    passed to f
 * @param low        lower end, any unit; -1e60 to high
 * @param high       upper end, same unit; low to 1e60
 * @param[out] root  a root, same unit, low to high; any one where there are several
 *
 * Accuracy: 1e-13 of the root, or 1e-30 of the interval where that is more (a root at 0), if f
 * itself is as exact. A jump across zero is returned as a root; a pole is not.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: ends not finite or crossed, no solver, or
 *          MENSUR_SOLVER_LEVELS searches run in it already; MENSUR_NO_ANSWER: f has the same sign
 *          at both ends, is NaN or infinite where it was asked, or does not come near zero
 *
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, as
 * implemented by GSL's gsl_root_fsolver_brent.
 * Test: tests/physics/test_solve.c (finds_roots, refuses, one_inside_another),
 * test_solve_memory.c
 */
enum mensur_status mensur_solve_root(struct mensur_solver *solver, mensur_function *f,
                                     void *context, double low, double high, double *root);

#endif
