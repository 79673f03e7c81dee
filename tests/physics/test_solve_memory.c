/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of an answer when GSL gets no memory, and whether GSL gets its memory back. The
 * linker puts these two in the place of GSL's own (--wrap). */
#include "check.h"
#include "geometry.h"
#include "playing.h"
#include "solve.h"
#include "views.h"

#include <stdbool.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

gsl_root_fsolver *__real_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type);
gsl_root_fsolver *__wrap_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type);
void __real_gsl_root_fsolver_free(gsl_root_fsolver *solver);
void __wrap_gsl_root_fsolver_free(gsl_root_fsolver *solver);

static bool out_of_memory;
static int taken, given_back;

gsl_root_fsolver *__wrap_gsl_root_fsolver_alloc(const gsl_root_fsolver_type *type) {
    if (out_of_memory) {
        return NULL;
    }
    taken++;
    return __real_gsl_root_fsolver_alloc(type);
}

void __wrap_gsl_root_fsolver_free(gsl_root_fsolver *solver) {
    given_back++;
    __real_gsl_root_fsolver_free(solver);
}

static double holed(double x, void *context) {
    (void)context;
    return x > 0.1 && x < 0.8 ? NAN : x - 0.5;
}

static double clearance_of_3_mm(double x, void *context) {
    (void)x;
    (void)context;
    return 0.003;
}

static enum mensur_status length(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_length(view, 0.330, out);
}

static enum mensur_status reach(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_left_reach(view, 0.480, out);
}

static enum mensur_status note(const struct mensur_side_view *view, double *out) {
    return mensur_neck_for_body_note(view, 8.5, out);
}

static enum mensur_status stop(const struct mensur_side_view *view, double *out) {
    return mensur_stop_for_length(view, 0.330, out);
}

static enum mensur_status bridge(const struct mensur_side_view *view, double *out) {
    return mensur_bridge_for_clearance(view, NAN, 0.005, out);
}

static enum mensur_status place(const struct mensur_side_view *view, double *out) {
    (void)view;
    struct mensur_stopping string = {0.328, 77.9, 0.000417, 10600, 0.328};
    return mensur_true_place(&string, 990.0, clearance_of_3_mm, NULL, out);
}

static const struct {
    const char *name;
    enum mensur_status (*call)(const struct mensur_side_view *, double *);
} solved[] = {
    {"neck for length", length}, {"neck for reach", reach}, {"neck for note", note},
    {"stop for length", stop},   {"bridge", bridge},        {"true place", place},
};

static void says_so(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    for (size_t i = 0; i < COUNT_OF(solved); i++) {
        double found = 12.5;
        out_of_memory = true;
        check_status(solved[i].name, solved[i].call(&view, &found), MENSUR_MEMORY);
        check_close(solved[i].name, found, 12.5, 0, 0);
        out_of_memory = false;
        check_status(solved[i].name, solved[i].call(&view, &found), MENSUR_OK);
        assert_true(found < 1.0);
    }
}

static void gives_back(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    double found = 12.5;
    check_status("hole", mensur_solve_root(holed, NULL, 0, 1, &found), MENSUR_NO_ANSWER);
    check_status("neck", length(&view, &found), MENSUR_OK);
    assert_true(taken >= 2);
    assert_int_equal(taken, given_back);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_so),
        cmocka_unit_test(gives_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
