/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How likely figures lie within ranges together: against closed forms, and against Monte Carlo
 * (JCGM 101:2008). */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <stdbool.h>

#include "check.h"
#include "likelihood.h"

enum { MOST = 8, DRAWS = 20000 };

#define OPEN NAN

static double likelihood(const char *row, size_t figures, size_t measurements, const double *parts,
                         const double *low, const double *high) {
    static const double y[MOST];
    double work[MOST * (2 * MOST + 3)];
    double out = NAN;
    const struct mensur_ranges ranges = {.x_count = measurements,
                                         .y_count = figures,
                                         .parts = parts,
                                         .y = y,
                                         .low = low,
                                         .high = high,
                                         .work = work};
    check_status(row, mensur_likelihood(&ranges, &out), MENSUR_OK);
    return out;
}

/* Orthants: 1/4 + asin(r)/2π for two figures, 1/8 + Σ asin(r)/4π for three (Sheppard 1899, David
 * 1953, both from memory). */
static void test_closed(void **state) {
    (void)state;
    const double half = sqrt(0.5);
    const struct {
        const char *row;
        size_t figures, measurements;
        double parts[9], low[3], high[3];
        double want, allowed;
    } rows[] = {
        {"one", 1, 2, {3, -4}, {-5}, {10}, 0.818594614120364, 1e-14},
        {"one, open below", 1, 1, {2}, {OPEN}, {-4}, 0.022750131948179, 1e-14},
        {"one far out", 1, 1, {1}, {9}, {10}, 1.1285122074236006e-19, 1e-32},
        {"nothing moves it, inside", 1, 1, {0}, {0}, {1}, 1, 0},
        {"nothing moves it, outside", 2, 1, {0, 1}, {0.1, OPEN}, {1, OPEN}, 0, 0},
        {"nothing moves it, above", 2, 1, {0, 1}, {OPEN, OPEN}, {-0.1, OPEN}, 0, 0},
        {"one inside, one that moves", 2, 1, {0, 1}, {-1, OPEN}, {1, 0}, 0.5, 1e-15},
        {"two apart", 2, 2, {1, 0, 0, 2}, {-1, -2}, {1, 2}, 0.466064943514650, 1e-4},
        {"two apart, one beyond all numbers", 2, 2, {1, 0, 0, 1}, {60, -1}, {61, 1}, 0, 0},
        {"two that share it", 2, 1, {1, 2}, {-1, -1}, {1, OPEN}, 0.532807207342556, 1e-14},
        {"two that share it the other way",
         2,
         1,
         {1, -2},
         {OPEN, OPEN},
         {1, 1},
         0.532807207342556,
         1e-14},
        {"two that exclude each other", 2, 1, {1, 1}, {1, OPEN}, {OPEN, 0.5}, 0, 0},
        {"two, a half shared", 2, 2, {1, 0, 1, 1}, {0, 0}, {OPEN, OPEN}, 0.375, 1e-4},
        {"three, all shared", 3, 2, {1, 0, 1, 1, 2, 1}, {0, 0, 0}, {OPEN, OPEN, OPEN}, 0.375, 1e-4},
        {"three apart",
         3,
         3,
         {1, 0, 0, 0, 1, 0, 0, 0, 1},
         {0, 0, 0},
         {OPEN, OPEN, OPEN},
         0.125,
         1e-3},
        {"three, halves shared",
         3,
         3,
         {half, half, 0, 0, half, half, half, 0, half},
         {0, 0, 0},
         {OPEN, OPEN, OPEN},
         0.25,
         1e-3},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        check_close(rows[i].row,
                    likelihood(rows[i].row, rows[i].figures, rows[i].measurements, rows[i].parts,
                               rows[i].low, rows[i].high),
                    rows[i].want, rows[i].allowed, 0);
    }
}

/* As many draws as there are, whose share within is good to 1/√DRAWS at two standard deviations. */
static double by_draws(gsl_rng *rng, size_t figures, size_t measurements, const double *parts,
                       const double *low, const double *high) {
    int within = 0;
    for (int d = 0; d < DRAWS; d++) {
        double z[MOST];
        bool met = true;
        for (size_t i = 0; i < measurements; i++) {
            z[i] = gsl_ran_gaussian_ziggurat(rng, 1);
        }
        for (size_t k = 0; k < figures; k++) {
            double y = 0;
            for (size_t i = 0; i < measurements; i++) {
                y += parts[k * measurements + i] * z[i];
            }
            met = met && !(y < low[k]) && !(y > high[k]);
        }
        within += met;
    }
    return (double)within / DRAWS;
}

static void test_drawn(void **state) {
    (void)state;
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(rng, 20261125);
    for (int c = 0; c < 60; c++) {
        double parts[MOST * MOST];
        double low[MOST];
        double high[MOST];
        size_t figures = 1 + gsl_rng_uniform_int(rng, MOST - 1);
        size_t measurements = 1 + gsl_rng_uniform_int(rng, MOST - 1);
        char name[32];
        for (size_t k = 0; k < figures; k++) {
            double square = 0;
            for (size_t i = 0; i < measurements; i++) {
                double part = gsl_rng_uniform(rng) < 0.4 ? 0 : gsl_ran_gaussian_ziggurat(rng, 1);
                parts[k * measurements + i] = part;
                square += part * part;
            }
            double size = sqrt(square) + 0.1;
            low[k] = gsl_rng_uniform(rng) < 0.2 ? OPEN : -2.5 * gsl_rng_uniform(rng) * size;
            high[k] = gsl_rng_uniform(rng) < 0.2 ? OPEN : 2.5 * gsl_rng_uniform(rng) * size;
        }
        snprintf(name, sizeof name, "case %d", c);
        check_close(name, likelihood(name, figures, measurements, parts, low, high),
                    by_draws(rng, figures, measurements, parts, low, high), 0.012, 0);
    }
    gsl_rng_free(rng);
}

/* Widening a range or adding figures that hang on the same measurements moves it as it must. */
static void test_order(void **state) {
    (void)state;
    const double parts[] = {1, 0.5, 1, -0.5, 0.3, 2};
    const double low[] = {-1, -1, -1};
    const double high[] = {1, 1.2, 2};
    const double wide[] = {1, 1.2, 4};
    double one = likelihood("one", 1, 2, parts, low, high);
    double two = likelihood("two", 2, 2, parts, low, high);
    double three = likelihood("three", 3, 2, parts, low, high);
    assert_true(one > two && two > three && three > 0);
    assert_true(likelihood("wide", 3, 2, parts, low, wide) > three);
    check_close("again", likelihood("three", 3, 2, parts, low, high), three, 0, 0);
    check_close("none", likelihood("none", 0, 2, parts, low, high), 1, 0, 0);
    check_close("one", one,
                gsl_cdf_ugaussian_P(1 / sqrt(1.25)) - gsl_cdf_ugaussian_P(-1 / sqrt(1.25)), 1e-14,
                0);
}

static void test_refusals(void **state) {
    (void)state;
    const double parts[] = {1, NAN};
    const double y[] = {0, INFINITY};
    const double low[] = {-1, -1};
    double work[MOST * (2 * MOST + 3)];
    double out = 7;
    struct mensur_ranges ranges = {
        .x_count = 2, .y_count = 1, .parts = parts, .y = y, .low = low, .high = low, .work = work};
    check_status("part", mensur_likelihood(&ranges, &out), MENSUR_DOMAIN);
    ranges.x_count = 1;
    ranges.y = y + 1;
    check_status("figure", mensur_likelihood(&ranges, &out), MENSUR_DOMAIN);
    check_close("untouched", out, 7, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_closed), cmocka_unit_test(test_drawn),
                                       cmocka_unit_test(test_order),
                                       cmocka_unit_test(test_refusals)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
