/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "playing.h"

/* Z kg/s, v m/s, Delta, beta, R kg/s. */
static const double bowings[][5] = {
    {0.25, 0.1, 0.5, 0.1, 100},   {0.18, 0.2, 0.43, 0.0914, 317},  {1.07, 1.3, 0.31, 0.033, 1e6},
    {0.002, 0.003, 1.9, 0.93, 7}, {1e-55, 1e55, 1e-40, 0.5, 1e50},
};

static void bow_forces(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(bowings); i++) {
        const double *b = bowings[i];
        double most, least;
        check_status("most", mensur_bow_force_greatest(b[0], b[1], b[2], b[3], &most), MENSUR_OK);
        check_status("least", mensur_bow_force_least(b[0], b[1], b[2], b[3], b[4], &least),
                     MENSUR_OK);
        check_close("most", most, 2 * b[0] * b[1] / (b[3] * b[2]), 0, 1e-15);
        /* Their ratio, 4 R beta/Z, depends on neither speed nor friction. */
        check_close("ratio", most / least, 4 * b[4] * b[3] / b[0], 0, 1e-14);
    }
}

/* Tension N, length, clearance, place in mm. The force is the upward component of the
 * tension in the two straight pieces, for small angles. */
static const double pressed[][4] = {
    {77.9, 328, 0.9, 35.8}, {53.7, 375.7, 5.1, 187.3},   {140, 690, 2.2, 3.9},
    {53.7, 328, 0, 100},    {53.7, 328, 5e-7, 327.9999},
};

static void pressing(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(pressed); i++) {
        const double *p = pressed[i];
        double force;
        check_status("press",
                     mensur_press_force(p[0], p[1] * 1e-3, p[2] * 1e-3, p[3] * 1e-3, &force),
                     MENSUR_OK);
        long double x = (long double)(p[3] * 1e-3);
        long double rest = (long double)(p[1] * 1e-3) - x;
        long double c = (long double)(p[2] * 1e-3);
        check_close("press", force, (double)((long double)p[0] * (c / x + c / rest)), 0, 1e-14);
    }
    /* Against the sines of the true angles: they agree to 1 % where the angles are small. */
    double force, x = 0.0358, rest = 0.328 - 0.0358, c = 0.0009;
    check_status("press", mensur_press_force(77.9, 0.328, c, x, &force), MENSUR_OK);
    check_close("angles", force, 77.9 * (sin(atan(c / x)) + sin(atan(c / rest))), 0, 4e-4);
}

static void refuses_bows(void **state) {
    (void)state;
    const double wrong[][5] = {
        {0, 0.2, 0.5, 0.1, 100},           {0.2, 0, 0.5, 0.1, 100},
        {0.2, -0.2, 0.5, 0.1, 100},        {0.2, 0.2, 0, 0.1, 100},
        {0.2, 0.2, NAN, 0.1, 100},         {0.2, 0.2, 0.5, 0, 100},
        {0.2, 0.2, 0.5, 1, 100},           {0.2, 0.2, 0.5, 30, 100},
        {INFINITY, 0.2, 0.5, 0.1, 100},    {NAN, 0.2, 0.5, 0.1, 100},
        {1e60, 1e60, 1e-60, 1e-60, 1e-60},
    };
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        const double *b = wrong[i];
        check_status("least", mensur_bow_force_least(b[0], b[1], b[2], b[3], b[4], &found),
                     MENSUR_DOMAIN);
        if (i + 1 < COUNT_OF(wrong)) {
            check_status("most", mensur_bow_force_greatest(b[0], b[1], b[2], b[3], &found),
                         MENSUR_DOMAIN);
        }
    }
    check_status("R", mensur_bow_force_least(0.2, 0.2, 0.5, 0.1, 0, &found), MENSUR_DOMAIN);
    check_status("R", mensur_bow_force_least(0.2, 0.2, 0.5, 0.1, NAN, &found), MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
}

static void refuses_pressing(void **state) {
    (void)state;
    const double wrong[][4] = {
        {0, 0.328, 0.001, 0.1},   {77.9, 0, 0.001, 0.1},       {77.9, 0.328, -0.001, 0.1},
        {77.9, 0.328, 0.001, 0},  {77.9, 0.328, 0.001, 0.328}, {77.9, 0.328, 0.001, 0.4},
        {NAN, 0.328, 0.001, 0.1}, {77.9, 0.328, NAN, 0.1},     {77.9, 0.328, 0.001, NAN},
    };
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        const double *p = wrong[i];
        check_status("press", mensur_press_force(p[0], p[1], p[2], p[3], &found), MENSUR_DOMAIN);
    }
    check_close("untouched", found, 12.5, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bow_forces),
        cmocka_unit_test(pressing),
        cmocka_unit_test(refuses_bows),
        cmocka_unit_test(refuses_pressing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
