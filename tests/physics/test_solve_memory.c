/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Physics allocates nothing once a solver is made: every result is found while every allocation
 * fails. The linker replaces the allocators of the C library and of GSL by these (--wrap). */
#include "check.h"
#include "geometry.h"
#include "playing.h"
#include "views.h"
#include "with_solver.h"

#include <stdbool.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
gsl_root_fsolver *__real_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type);
gsl_root_fsolver *__wrap_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type);

static bool out_of_memory;
static int left = -1; /* how many of GSL's solvers are given; under 0: all */

void *__wrap_malloc(size_t size) {
    return out_of_memory ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size) {
    return out_of_memory ? NULL : __real_calloc(count, size);
}

gsl_root_fsolver *__wrap_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type) {
    if (out_of_memory || left == 0) {
        return NULL;
    }
    left -= left > 0;
    return __real_gsl_root_fsolver_alloc(type);
}

static double clearance_of_3_mm(double x, void *context) {
    (void)x;
    (void)context;
    return 0.003;
}

static enum mensur_status length(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_length(solver, view, 0.330, out);
}

static enum mensur_status reach(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_left_reach(solver, view, 0.480, out);
}

static enum mensur_status note(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_body_note(solver, view, 8.5, out);
}

static enum mensur_status stop(const struct mensur_side_view *view, double *out) {
    return mensur_stop_for_length(solver, view, 0.330, out);
}

static enum mensur_status bridge(const struct mensur_side_view *view, double *out) {
    return mensur_bridge_for_clearance(solver, view, NAN, 5.0 / 6, 0.005, out);
}

static enum mensur_status place(const struct mensur_side_view *view, double *out) {
    (void)view;
    struct mensur_stopping string = {0.328, 77.9, 0.000417, 10600, 0.328, 0};
    return mensur_true_place(solver, &string, 990.0, clearance_of_3_mm, NULL, out);
}

static const struct {
    const char *name;
    enum mensur_status (*call)(const struct mensur_side_view *, double *);
} solved[] = {
    {"neck for length", length}, {"neck for reach", reach}, {"neck for note", note},
    {"stop for length", stop},   {"bridge", bridge},        {"true place", place},
};

static void takes_none(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    for (size_t i = 0; i < COUNT_OF(solved); i++) {
        double with = 12.5, without = 12.5;
        check_status(solved[i].name, solved[i].call(&view, &with), MENSUR_OK);
        assert_true(with < 1.0);
        out_of_memory = true;
        enum mensur_status status = solved[i].call(&view, &without);
        out_of_memory = false;
        check_status(solved[i].name, status, MENSUR_OK);
        check_close(solved[i].name, without, with, 0, 0);
    }
}

/* Each of GSL's solvers in turn is not to be had, then no memory at all. */
static void makes_none(void **state) {
    (void)state;
    struct mensur_solver *made = solver;
    for (int given = 0; given < MENSUR_SOLVER_LEVELS; given++) {
        left = given;
        check_status("some", mensur_solver_make(&made), MENSUR_MEMORY);
    }
    left = -1;
    out_of_memory = true;
    enum mensur_status status = mensur_solver_make(&made);
    out_of_memory = false;
    check_status("none", status, MENSUR_MEMORY);
    assert_ptr_equal(made, solver);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_none),
        cmocka_unit_test(makes_none),
    };
    return cmocka_run_group_tests(tests, make_solver, free_solver);
}
