/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Propagation of uncertainty against closed derivatives, against Monte Carlo (JCGM 101:2008) on the
 * side view, and on the end-gauge example of the GUM. */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "check.h"
#include "geometry.h"
#include "propagate.h"
#include "taut_string.h"

static double product(const double *x, void *context) {
    (void)context;
    return 4 * x[0] * x[0] * x[1] * x[1] * x[2];
}

/* T = 4 L^2 f^2 mu: relative uncertainties add as 2, 2, 1. */
static void test_product(void **state) {
    (void)state;
    const double x[] = {0.3619, 440, 0.000431};
    const double u[] = {0.0007, 0.4, 0.000003};
    double shares[3];
    double got;
    double tension = product(x, NULL);
    double want =
        tension * sqrt(pow(2 * u[0] / x[0], 2) + pow(2 * u[1] / x[1], 2) + pow(u[2] / x[2], 2));
    check_status("product", mensur_propagate(product, NULL, x, u, 3, shares, &got), MENSUR_OK);
    check_close("product", got, want, 0, 1e-7);
    check_close("share", shares[2], pow(tension * u[2] / x[2], 2), 0, 1e-7);
    check_close("shares add up", sqrt(shares[0] + shares[1] + shares[2]), got, 0, 1e-14);
}

/* A measurement that is exact has no share, and its slope is not asked for. */
static void test_exact(void **state) {
    (void)state;
    const double x[] = {0.3619, 440, 0.000431};
    const double u[] = {0.0007, 0, 0.000003};
    double shares[3];
    double got;
    double want = product(x, NULL) * sqrt(pow(2 * u[0] / x[0], 2) + pow(u[2] / x[2], 2));
    check_status("exact", mensur_propagate(product, NULL, x, u, 3, shares, &got), MENSUR_OK);
    check_close("exact", got, want, 0, 1e-7);
    check_close("its share", shares[1], 0, 0, 0);
}

static double string_length(const double *x, void *context) {
    (void)context;
    struct mensur_side_view view = {.body_straight = NAN,
                                    .stop = x[0],
                                    .neck = x[1],
                                    .overstand = x[2],
                                    .board = 0.0096,
                                    .board_nut = 0.0078,
                                    .nut = 0.0005,
                                    .arch = x[3],
                                    .projection = x[4],
                                    .bridge = x[5],
                                    .saddle = 0.005};
    struct mensur_geometry geometry;
    return mensur_geometry_solve(&view, &geometry) == MENSUR_OK ? geometry.string_length : NAN;
}

/* 200,000 draws give a standard deviation to 0.16 % (one sigma); five of those are allowed. */
static void test_monte_carlo(void **state) {
    (void)state;
    enum { DRAWS = 200000, N = 6 };
    const double x[N] = {0.2143, 0.1437, 0.0081, 0.0136, 0.0322, 0.0391};
    const double u[N] = {0.0005, 0.0004, 0.0003, 0.0005, 0.0006, 0.0004};
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    double mean = 0;
    double sum = 0;
    double got;
    gsl_rng_set(rng, 101);
    for (int i = 1; i <= DRAWS; i++) {
        double drawn[N];
        for (int k = 0; k < N; k++) {
            drawn[k] = x[k] + gsl_ran_gaussian_ziggurat(rng, u[k]);
        }
        double y = string_length(drawn, NULL);
        double off = y - mean;
        mean += off / i;
        sum += off * (y - mean);
    }
    gsl_rng_free(rng);
    check_status("length", mensur_propagate(string_length, NULL, x, u, N, NULL, &got), MENSUR_OK);
    check_close("standard deviation", got, sqrt(sum / (DRAWS - 1)), 0, 5 * 0.0016);
}

/* GUM H.1, calibration of an end gauge (JCGM 100:2008, Annex H.1; figures from memory, so nothing
 * is asserted to the last digit): l = ls + d - ls (da t + as dt); u(ls) = 25 nm, u(d) = 9.7 nm,
 * u(da) = 0.58e-6 per degree, u(dt) = 0.029 degrees, t = -0.1 degrees; the GUM prints 32 nm. */
static double end_gauge(const double *x, void *context) {
    (void)context;
    return x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
}

static void test_end_gauge(void **state) {
    (void)state;
    const double x[] = {50000623, 215, 0, -0.1, 11.5e-6, 0};
    const double u[] = {25, 9.7, 0.58e-6, 0.41, 1.2e-6, 0.029};
    double got;
    check_status("end gauge", mensur_propagate(end_gauge, NULL, x, u, 6, NULL, &got), MENSUR_OK);
    check_close("end gauge, nm", got, 32, 0.5, 0);
}

static double unknown(const double *x, void *context) {
    (void)x;
    (void)context;
    return NAN;
}

static void test_unknown(void **state) {
    (void)state;
    const double x[] = {1.5};
    const double u[] = {0.25};
    double got = 0;
    check_status("unknown", mensur_propagate(unknown, NULL, x, u, 1, NULL, &got), MENSUR_OK);
    check_close("unknown", got, NAN, 0, 0);
}

static void test_refusals(void **state) {
    (void)state;
    static const struct {
        const char *row;
        double x, u;
    } rows[] = {{"no value", NAN, 0.1},
                {"endless", INFINITY, 0.1},
                {"less than nothing", 1.5, -0.1},
                {"unsure how sure", 1.5, NAN}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        double got = 7;
        check_status(rows[i].row,
                     mensur_propagate(product, NULL, &rows[i].x, &rows[i].u, 1, NULL, &got),
                     MENSUR_DOMAIN);
        check_close(rows[i].row, got, 7, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_product),   cmocka_unit_test(test_monte_carlo),
        cmocka_unit_test(test_end_gauge), cmocka_unit_test(test_unknown),
        cmocka_unit_test(test_refusals),  cmocka_unit_test(test_exact)};
    gsl_set_error_handler_off();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
