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

enum { MOST = 6 };

/* One figure, and the measurements that it follows from. */
static enum mensur_status propagate(mensur_evaluation *figure, const double *x, const double *u,
                                    size_t count, double *shares, double *out) {
    double y;
    double work[MOST + 2];
    struct mensur_propagation from = {
        .figures = figure, .x_count = count, .x = x, .u = u, .y_count = 1, .y = &y, .work = work};
    figure(x, NULL, &y);
    return mensur_propagate(&from, shares, out);
}

static double product_of(const double *x) {
    return 4 * x[0] * x[0] * x[1] * x[1] * x[2];
}

static void product(const double *x, void *context, double *y) {
    (void)context;
    *y = product_of(x);
}

/* T = 4 L^2 f^2 mu: relative uncertainties add as 2, 2, 1. */
static void test_product(void **state) {
    (void)state;
    const double x[] = {0.3619, 440, 0.000431};
    const double u[] = {0.0007, 0.4, 0.000003};
    double shares[3];
    double got;
    double tension = product_of(x);
    double want =
        tension * sqrt(pow(2 * u[0] / x[0], 2) + pow(2 * u[1] / x[1], 2) + pow(u[2] / x[2], 2));
    check_status("product", propagate(product, x, u, 3, shares, &got), MENSUR_OK);
    check_close("product", got, want, 0, 1e-8);
    check_close("share", shares[2], pow(tension * u[2] / x[2], 2), 0, 1e-8);
    check_close("shares add up", sqrt(shares[0] + shares[1] + shares[2]), got, 0, 1e-14);
}

/* A measurement that is exact has no share, and its slope is not asked for. */
static void test_exact(void **state) {
    (void)state;
    const double x[] = {0.3619, 440, 0.000431};
    const double u[] = {0.0007, 0, 0.000003};
    double shares[3];
    double got;
    double want = product_of(x) * sqrt(pow(2 * u[0] / x[0], 2) + pow(u[2] / x[2], 2));
    check_status("exact", propagate(product, x, u, 3, shares, &got), MENSUR_OK);
    check_close("exact", got, want, 0, 1e-8);
    check_close("its share", shares[1], 0, 0, 0);
}

static double string_length_of(const double *x) {
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

static void string_length(const double *x, void *context, double *y) {
    (void)context;
    *y = string_length_of(x);
}

/* 200,000 draws give a standard deviation to 0.16 % (one sigma); five of those are allowed. */
static void test_monte_carlo(void **state) {
    (void)state;
    enum { DRAWS = 200000, N = MOST };
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
        double y = string_length_of(drawn);
        double off = y - mean;
        mean += off / i;
        sum += off * (y - mean);
    }
    gsl_rng_free(rng);
    check_status("length", propagate(string_length, x, u, N, NULL, &got), MENSUR_OK);
    check_close("standard deviation", got, sqrt(sum / (DRAWS - 1)), 0, 5 * 0.0016);
}

/* GUM H.1, calibration of an end gauge (JCGM 100:2008, Annex H.1; figures from memory, so nothing
 * is asserted to the last digit): l = ls + d - ls (da t + as dt); u(ls) = 25 nm, u(d) = 9.7 nm,
 * u(da) = 0.58e-6 per degree, u(dt) = 0.029 degrees, t = -0.1 degrees; the GUM prints 32 nm. */
static void end_gauge(const double *x, void *context, double *y) {
    (void)context;
    *y = x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
}

static void test_end_gauge(void **state) {
    (void)state;
    const double x[] = {50000623, 215, 0, -0.1, 11.5e-6, 0};
    const double u[] = {25, 9.7, 0.58e-6, 0.41, 1.2e-6, 0.029};
    double got;
    check_status("end gauge", propagate(end_gauge, x, u, 6, NULL, &got), MENSUR_OK);
    check_close("end gauge, nm", got, 32, 0.5, 0);
}

static void unknown(const double *x, void *context, double *y) {
    (void)x;
    (void)context;
    *y = NAN;
}

static void test_unknown(void **state) {
    (void)state;
    const double x[] = {1.5};
    const double u[] = {0.25};
    double got = 0;
    check_status("unknown", propagate(unknown, x, u, 1, NULL, &got), MENSUR_OK);
    check_close("unknown", got, NAN, 0, 0);
}

/* Known at x, and on one side of it alone. */
static void half_known(const double *x, void *context, double *y) {
    (void)context;
    *y = sqrt(x[0] - 1.5);
}

static void test_half_known(void **state) {
    (void)state;
    const double x[] = {1.5};
    const double u[] = {0.25};
    double got = 0;
    check_status("half known", propagate(half_known, x, u, 1, NULL, &got), MENSUR_OK);
    check_close("half known", got, NAN, 0, 0);
}

/* Several figures at once, and how often they were asked for. */
struct asked {
    size_t times;
};

enum { FIGURES = 4 };

static void several(const double *x, void *context, double *y) {
    struct asked *asked = context;
    asked->times++;
    y[0] = product_of(x);
    y[1] = x[1] / x[3];
    y[2] = NAN;
    y[3] = 17.5;
}

static void test_several(void **state) {
    (void)state;
    enum { N = 4 };
    const double x[N] = {0.3619, 440, 0.000431, 2.75};
    const double u[N] = {0.0007, 0.4, 0, 0.013};
    struct asked asked = {0};
    double y[FIGURES], got[FIGURES], shares[FIGURES * N];
    double work[N + 2 * FIGURES + 1];
    struct mensur_propagation from = {.figures = several,
                                      .context = &asked,
                                      .x_count = N,
                                      .x = x,
                                      .u = u,
                                      .y_count = FIGURES,
                                      .y = y,
                                      .work = work};
    work[N + 2 * FIGURES] = 7.25;
    several(x, &asked, y);
    check_status("several", mensur_propagate(&from, shares, got), MENSUR_OK);
    /* 2 n + 1, of the three that are not exact */
    assert_int_equal(asked.times, 7);
    check_close("no more room than asked for", work[N + 2 * FIGURES], 7.25, 0, 0);
    const double part[N] = {u[0] / x[0], u[1] / x[1], 0, u[3] / x[3]};
    const double want[FIGURES][N] = {{2 * y[0] * part[0], 2 * y[0] * part[1], 0, 0},
                                     {0, y[1] * part[1], 0, y[1] * part[3]},
                                     {NAN, NAN, 0, NAN},
                                     {0, 0, 0, 0}};
    for (size_t k = 0; k < FIGURES; k++) {
        double sum = 0;
        for (size_t i = 0; i < N; i++) {
            char row[32];
            snprintf(row, sizeof row, "figure %zu by %zu", k, i);
            sum += want[k][i] * want[k][i];
            check_close(row, shares[k * N + i], want[k][i] * want[k][i], 0, 1e-8);
        }
        check_close("in all", got[k], sqrt(sum), 0, 1e-8);
    }
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
        check_status(rows[i].row, propagate(half_known, &rows[i].x, &rows[i].u, 1, NULL, &got),
                     MENSUR_DOMAIN);
        check_close(rows[i].row, got, 7, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_product),    cmocka_unit_test(test_monte_carlo),
        cmocka_unit_test(test_end_gauge),  cmocka_unit_test(test_unknown),
        cmocka_unit_test(test_refusals),   cmocka_unit_test(test_exact),
        cmocka_unit_test(test_half_known), cmocka_unit_test(test_several)};
    gsl_set_error_handler_off();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
