/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Root of a function of one variable; no other file uses GSL's root finders.
 *
 * R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, as GSL
 * implements it. Signs and finiteness are checked before GSL is called. */
#include "solve.h"

#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

#include "domain.h"

/* Brent's method needs at most about the square of bisection's steps; in practice ten. */
#define ITERATIONS 400
#define RELATIVE 1e-15
/* Absolute tolerance as a part of the interval, for a root at 0 (no relative tolerance is met). */
#define PART_OF_INTERVAL 1e-30

/* One of GSL's solvers for each search that may run inside another's function. */
struct mensur_solver {
    size_t running;
    gsl_root_fsolver *levels[MENSUR_SOLVER_LEVELS];
};

void mensur_solver_free(struct mensur_solver *solver) {
    for (size_t i = 0; solver != NULL && i < MENSUR_SOLVER_LEVELS; i++) {
        if (solver->levels[i] != NULL) {
            gsl_root_fsolver_free(solver->levels[i]);
        }
    }
    free(solver);
}

enum mensur_status mensur_solver_make(struct mensur_solver **out) {
    struct mensur_solver *solver = calloc(1, sizeof *solver);
    bool made = solver != NULL;
    for (size_t i = 0; made && i < MENSUR_SOLVER_LEVELS; i++) {
        solver->levels[i] = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
        made = solver->levels[i] != NULL;
    }
    if (!made) {
        mensur_solver_free(solver);
        return MENSUR_MEMORY;
    }
    *out = solver;
    return MENSUR_OK;
}

struct call {
    mensur_function *f;
    void *context;
};

static double call_through(double x, void *params) {
    const struct call *call = params;
    return call->f(x, call->context);
}

static enum mensur_status narrow(gsl_root_fsolver *solver, double width) {
    for (int i = 0; i < ITERATIONS; i++) {
        if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS) {
            return MENSUR_NO_ANSWER; /* NaN inside the interval */
        }
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver),
                                   gsl_root_fsolver_x_upper(solver), PART_OF_INTERVAL * width,
                                   RELATIVE) == GSL_SUCCESS) {
            return MENSUR_OK;
        }
    }
    return MENSUR_NO_ANSWER;
}

/* The one of the estimate and the interval's two ends at which the function is nearest to 0. */
static double best(const gsl_root_fsolver *solver, const struct call *call, double *residue) {
    double candidates[] = {gsl_root_fsolver_root(solver), gsl_root_fsolver_x_lower(solver),
                           gsl_root_fsolver_x_upper(solver)};
    double found = candidates[0];
    *residue = fabs(call->f(found, call->context));
    for (int i = 1; i < 3; i++) {
        double other = fabs(call->f(candidates[i], call->context));
        if (other < *residue) {
            *residue = other;
            found = candidates[i];
        }
    }
    return found;
}

static enum mensur_status solve_inside(gsl_root_fsolver *solver, struct call *call, double low,
                                       double high, double highest, double *root) {
    gsl_function function = {.function = call_through, .params = call};
    enum mensur_status status = MENSUR_NO_ANSWER;
    if (gsl_root_fsolver_set(solver, &function, low, high) == GSL_SUCCESS) {
        status = narrow(solver, high - low);
    }
    if (status == MENSUR_OK) {
        double residue;
        double found = best(solver, call, &residue);
        if (residue <= highest) {
            *root = found;
        } else {
            status = MENSUR_NO_ANSWER; /* a pole changes sign too */
        }
    }
    return status;
}

static enum mensur_status solve(gsl_root_fsolver *solver, mensur_function *f, void *context,
                                double low, double high, double *root) {
    if (!is_number(low) || !is_number(high) || low > high) {
        return MENSUR_DOMAIN;
    }
    double at_low = f(low, context);
    double at_high = f(high, context);
    if (!isfinite(at_low) || !isfinite(at_high)) {
        return MENSUR_NO_ANSWER;
    }
    if (is_same(at_low, 0.0) || is_same(at_high, 0.0)) {
        *root = is_same(at_low, 0.0) ? low : high;
        return MENSUR_OK;
    }
    if ((at_low < 0.0) == (at_high < 0.0)) {
        return MENSUR_NO_ANSWER;
    }
    struct call call = {.f = f, .context = context};
    return solve_inside(solver, &call, low, high, fmax(fabs(at_low), fabs(at_high)), root);
}

enum mensur_status mensur_solve_root(struct mensur_solver *solver, mensur_function *f,
                                     void *context, double low, double high, double *root) {
    if (solver == NULL || solver->running == MENSUR_SOLVER_LEVELS) {
        return MENSUR_DOMAIN;
    }
    gsl_root_fsolver *level = solver->levels[solver->running++];
    enum mensur_status status = solve(level, f, context, low, high, root);
    solver->running--;
    return status;
}
