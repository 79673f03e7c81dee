/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "with_solver.h"

#include <gsl/gsl_errno.h>

static double square_less_two(double x, void *context) {
    (void)context;
    return x * x - 2.0;
}

static double cosine_less_x(double x, void *context) {
    (void)context;
    return cos(x) - x;
}

static double shifted_cube(double x, void *context) {
    const double *shift = context;
    double y = x - *shift;
    return y * y * y;
}

static double shifted(double x, void *context) {
    const double *shift = context;
    return x - *shift;
}

static double steep(double x, void *context) {
    (void)context;
    return atan(1e12 * (x - 0.3));
}

static double flat_then_steep(double x, void *context) {
    (void)context;
    return expm1(700.0 * (x - 0.9));
}

static double pole(double x, void *context) {
    (void)context;
    return 1.0 / (x - 0.3);
}

static double hole(double x, void *context) {
    (void)context;
    return x > 0.1 && x < 0.8 ? NAN : x - 0.5;
}

static double ever_above(double x, void *context) {
    (void)context;
    return x * x + 1e-9;
}

static double root_of_x(double x, void *context) {
    (void)context;
    return sqrt(x) - 0.5; /* NaN under 0 */
}

static double to_infinity(double x, void *context) {
    (void)context;
    return x > 0.9 ? INFINITY : x - 0.5;
}

static double third = 1.0 / 3.0, zero = 0.0, tiny = 3.7e-51, huge = 4.1e57;

/* Roots known independently: square root of two, the fixed point of the cosine (Dottie number,
 * digits from memory), and shifts. */
static const struct {
    const char *name;
    mensur_function *f;
    double *context;
    double low, high, want, absolute, relative;
} roots[] = {
    {"square root of two", square_less_two, NULL, 0.3, 7, 1.4142135623730950488, 0, 2e-16},
    {"its other root", square_less_two, NULL, -7, 1.3, -1.4142135623730950488, 0, 2e-16},
    {"cosine's fixed point", cosine_less_x, NULL, -1.5, 3.1, 0.73908513321516064166, 0, 3e-16},
    {"a third", shifted, &third, -1.5, 3.1, 1.0 / 3.0, 0, 1e-16},
    {"at zero", shifted, &zero, -1.5, 3.1, 0, 1e-29, 0},
    {"triple root at zero", shifted_cube, &zero, -1.5, 3.1, 0, 1e-13, 0},
    {"triple root", shifted_cube, &third, -1.5, 3.1, 1.0 / 3.0, 0, 1e-12},
    {"tiny", shifted, &tiny, 1e-55, 1, 3.7e-51, 1e-30, 0},
    {"tiny root in a tiny interval", shifted, &tiny, 1e-55, 1e-50, 3.7e-51, 0, 1e-15},
    {"huge", shifted, &huge, -1e60, 1e60, 4.1e57, 0, 1e-15},
    {"steep", steep, NULL, -2, 3, 0.3, 0, 1e-15},
    {"flat, then steep", flat_then_steep, NULL, 0, 1.5, 0.9, 0, 1e-15},
    {"lower end", shifted, &third, 1.0 / 3.0, 3, 1.0 / 3.0, 0, 0},
    {"upper end", shifted, &third, -3, 1.0 / 3.0, 1.0 / 3.0, 0, 0},
    {"interval of length 0 at the root", shifted, &third, 1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0, 0, 0},
};

static void finds_roots(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(roots); i++) {
        double found = 12.5;
        check_status(roots[i].name,
                     mensur_solve_root(solver, roots[i].f, roots[i].context, roots[i].low,
                                       roots[i].high, &found),
                     MENSUR_OK);
        check_close(roots[i].name, found, roots[i].want, roots[i].absolute, roots[i].relative);
    }
}

static const struct {
    const char *name;
    mensur_function *f;
    double low, high;
    enum mensur_status want;
} refusals[] = {
    {"crossed ends", square_less_two, 2, 1, MENSUR_DOMAIN},
    {"low unknown", square_less_two, NAN, 2, MENSUR_DOMAIN},
    {"high infinite", square_less_two, 0, INFINITY, MENSUR_DOMAIN},
    {"both ends below", square_less_two, -1, 1, MENSUR_NO_ANSWER},
    {"both ends above", square_less_two, 2, 3, MENSUR_NO_ANSWER},
    {"two roots inside", square_less_two, -2, 2, MENSUR_NO_ANSWER},
    {"no root at all", ever_above, -1, 1, MENSUR_NO_ANSWER},
    {"NaN at the lower end", root_of_x, -1, 1, MENSUR_NO_ANSWER},
    {"infinite at the upper end", to_infinity, 0, 1, MENSUR_NO_ANSWER},
    {"NaN inside", hole, 0, 1, MENSUR_NO_ANSWER},
    {"pole", pole, 0, 1, MENSUR_NO_ANSWER},
    {"interval of length 0, no root", square_less_two, 1, 1, MENSUR_NO_ANSWER},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        double found = 12.5;
        check_status(refusals[i].name,
                     mensur_solve_root(solver, refusals[i].f, NULL, refusals[i].low,
                                       refusals[i].high, &found),
                     refusals[i].want);
        check_close(refusals[i].name, found, 12.5, 0, 0);
    }
}

/* Below x = 1 each call returns a quarter of the value before it, with the same sign: Brent's steps
 * become ever shorter and the interval does not close within the limit of iterations. */
static double quartered_at_each_call(double x, void *context) {
    double *last = context;
    if (x >= 1.0) {
        return 1.0;
    }
    *last *= 0.25;
    return *last;
}

/* A value at both ends, NaN from the third call on. */
static double nan_from_third_call(double x, void *context) {
    double *calls = context;
    *calls += 1.0;
    return *calls > 2.0 ? NAN : x - 0.4;
}

/* A function that does not always return the same value for the same x: the search ends all the
 * same. */
static void refuses_changing_functions(void **state) {
    (void)state;
    double found = 12.5, last = -1.0, calls = 0.0;
    check_status("quartered",
                 mensur_solve_root(solver, quartered_at_each_call, &last, 0, 1, &found),
                 MENSUR_NO_ANSWER);
    check_status("NaN later", mensur_solve_root(solver, nan_from_third_call, &calls, 0, 1, &found),
                 MENSUR_NO_ANSWER);
    check_close("untouched", found, 12.5, 0, 0);
}

/* x for which the square root of x, found by the same solver, is what is wanted; as deep as the
 * solver allows. */
struct nested {
    double wanted;
    int deeper; /* searches inside this one */
};

static double square_less(double x, void *context) {
    const double *wanted = context;
    return x * x - *wanted;
}

static double root_less(double x, void *context) {
    const struct nested *nested = context;
    struct nested inside = {x, nested->deeper - 1};
    double found = NAN;
    (void)(nested->deeper > 1 ? mensur_solve_root(solver, root_less, &inside, 0, 1e4, &found)
                              : mensur_solve_root(solver, square_less, &x, 0, 1e4, &found));
    return found - nested->wanted;
}

static void one_inside_another(void **state) {
    (void)state;
    struct nested twice = {1.7, 1}, thrice = {1.7, 2}, too_deep = {1.7, 3};
    double found = 12.5;
    check_status("two", mensur_solve_root(solver, root_less, &twice, 0, 50, &found), MENSUR_OK);
    check_close("two", found, 1.7 * 1.7, 0, 1e-14);
    check_status("three", mensur_solve_root(solver, root_less, &thrice, 0, 50, &found), MENSUR_OK);
    check_close("three", found, sqrt(1.7), 0, 1e-13);
    check_status("four", mensur_solve_root(solver, root_less, &too_deep, 0, 50, &found),
                 MENSUR_NO_ANSWER);
    check_close("untouched", found, sqrt(1.7), 0, 1e-13);
    check_status("no solver", mensur_solve_root(NULL, square_less_two, NULL, 0, 7, &found),
                 MENSUR_DOMAIN);
    check_status("again", mensur_solve_root(solver, square_less_two, NULL, 0, 7, &found),
                 MENSUR_OK);
    check_close("again", found, 1.4142135623730950488, 0, 2e-16);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_roots),
        cmocka_unit_test(refuses),
        cmocka_unit_test(refuses_changing_functions),
        cmocka_unit_test(one_inside_another),
    };
    return cmocka_run_group_tests(tests, make_solver, free_solver);
}
