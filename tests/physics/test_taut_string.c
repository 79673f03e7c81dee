/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "taut_string.h"

/* Strings, among them extreme ones: m, Hz, kg/m, then E in Pa, core in m2, strength in Pa. */
static const struct string {
    const char *name;
    double length, frequency, density, modulus, area, strength;
} strings[] = {
    {"violin's steel E", 0.328, 659.2551, 0.000416779, 200e9, 5.3093e-8, 2.668e9},
    {"viola's gut A", 0.3757, 440, 0.00071, 5.5e9, 5.46e-7, 3.14e8},
    {"cello's C", 0.6895, 65.2, 0.0178, 200e9, 3.1e-7, 2.4e9},
    {"a bridge's cable", 37.1, 3.3, 9.7, 165e9, 0.00125, 1.77e9},
    {"rubber thread", 0.081, 97, 0.000031, 2.1e6, 3.2e-8, 2.5e7},
    {"near the smallest sizes", 1e-58, 1e-57, 1e-59, 1e-55, 1e-57, 1e-60},
    {"near the largest sizes", 1e59, 1e58, 1e57, 1e59, 1e58, 1e60},
};

static long double square(long double x) {
    return x * x;
}

static void laws(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(strings); i++) {
        const struct string *s = &strings[i];
        double tension, density, frequency;
        long double want =
            4.0L * square(s->length) * square(s->frequency) * (long double)s->density;
        check_status(s->name, mensur_tension(s->length, s->frequency, s->density, &tension),
                     MENSUR_OK);
        check_close(s->name, tension, (double)want, 0, 1e-15);
        if (tension < 1e-60 || tension > 1e60) {
            continue; /* beyond the domain of the others */
        }
        check_status(s->name,
                     mensur_density_for_tension(s->length, s->frequency, tension, &density),
                     MENSUR_OK);
        check_close(s->name, density, s->density, 0, 1e-15);
        check_status(s->name, mensur_string_frequency(s->length, tension, s->density, &frequency),
                     MENSUR_OK);
        check_close(s->name, frequency, s->frequency, 0, 1e-15);
    }
}

/* Tension and tuned density together must fulfil the law of the taut string; the other form of the
 * quadratic's solution, in long double, is the independent computation. */
static void slack(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(strings); i++) {
        const struct string *s = &strings[i];
        double tension, tuned, back;
        long double stiff = (long double)s->modulus * (long double)s->area;
        long double b = 4.0L * square(s->length) * square(s->frequency) * (long double)s->density;
        check_status(s->name,
                     mensur_tension_slack(s->length, s->frequency, s->density, s->modulus, s->area,
                                          &tension),
                     MENSUR_OK);
        long double want = stiff / 2.0L * expm1l(0.5L * log1pl(4.0L * b / stiff));
        check_close(s->name, tension, (double)want, 0, 1e-14);
        if (tension < 1e-60 || tension > 1e60) {
            continue;
        }
        check_status(s->name,
                     mensur_tuned_density(s->density, tension, s->modulus, s->area, &tuned),
                     MENSUR_OK);
        assert_true(tuned < s->density);
        check_status(s->name, mensur_tension(s->length, s->frequency, tuned, &back), MENSUR_OK);
        check_close(s->name, back, tension, 0, 1e-14);
    }
}

/* The gauge of plain gut: the printed form of the equation in long double; and such a string has
 * that tension by the law of the slack string. Rows of 1300 kg/m3 and 5.5 GPa on 328 mm and 1058
 * mm, and one so elastic that it thins to a third. */
static void gauges(void **state) {
    (void)state;
    static const struct {
        const char *name;
        double length, frequency, density, modulus, tension;
    } rows[] = {{"violin E", 0.328, 660.0, 1300, 5.5e9, 59.6},
                {"violin G", 0.328, 195.55555555555556, 1300, 5.5e9, 42.0},
                {"bass E", 1.058, 41.203, 1300, 5.5e9, 290.0},
                {"rubber", 0.4, 300.0, 1100, 1.2e7, 9.0},
                {"like steel", 0.6, 130.8, 7850, 2.06e11, 130.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const long double pi = 3.14159265358979323846264338327950288L;
        double gauge, tension;
        double l = rows[i].length, f = rows[i].frequency, rho = rows[i].density;
        long double e = (long double)rows[i].modulus;
        long double b = (long double)rho * square(2.0 * l * f);
        long double sigma = e / 2.0L * expm1l(0.5L * log1pl(4.0L * b / e));
        check_status(rows[i].name,
                     mensur_slack_diameter(l, f, rho, rows[i].modulus, rows[i].tension, &gauge),
                     MENSUR_OK);
        check_close(rows[i].name, gauge,
                    (double)sqrtl(4.0L * (long double)rows[i].tension / (pi * sigma)), 0, 1e-14);
        double area = (double)pi / 4.0 * gauge * gauge;
        check_status(rows[i].name,
                     mensur_tension_slack(l, f, rho * area, rows[i].modulus, area, &tension),
                     MENSUR_OK);
        check_close(rows[i].name, tension, rows[i].tension, 0, 1e-14);
    }
}

static void strengths(void **state) {
    (void)state;
    double stress, margin, highest, octave_up;
    check_status("stress", mensur_stress(53.7, 2.5e-7, &stress), MENSUR_OK);
    check_close("stress", stress, 214.8e6, 0, 1e-15);
    check_status("margin", mensur_breaking_margin(1.3e8, 5.2e8, &margin), MENSUR_OK);
    check_close("two octaves of stress", margin, 12, 0, 1e-15);
    check_status("margin", mensur_breaking_margin(5.2e8, 1.3e8, &margin), MENSUR_OK);
    check_close("breaks", margin, -12, 0, 1e-15);
    check_status("margin", mensur_breaking_margin(1.3e8, 1.3e8, &margin), MENSUR_OK);
    check_close("at breaking", margin, 0, 0, 0);
    check_status("margin", mensur_breaking_margin(1.0, 1.0 + 0x1p-50, &margin), MENSUR_OK);
    check_close("at breaking", margin, 6 * 0x1p-50 / 0.69314718055994530942, 0, 1e-14);
    /* At the highest pitch the stress is the strength; an octave is 12 semitones of margin. */
    check_status("highest", mensur_highest_frequency(0.3757, 3.14e8, 1300, &highest), MENSUR_OK);
    check_status("octave", mensur_tension(0.3757, highest / 2, 1300 * 5.46e-7, &octave_up),
                 MENSUR_OK);
    check_status("octave", mensur_stress(octave_up, 5.46e-7, &stress), MENSUR_OK);
    check_status("octave", mensur_breaking_margin(stress, 3.14e8, &margin), MENSUR_OK);
    check_close("octave", margin, 12, 0, 1e-14);
}

/* The two published forms of B must agree: pi^3 E d^4/(64 T L^2) and, for a plain round wire at
 * pitch, pi^2 E d^2/(64 rho f^2 L^4) (topic 4 of the check values). */
static void stiff(void **state) {
    (void)state;
    const double diameters[] = {0.00026, 0.000773, 0.0131, 3.7e-7};
    const double pi = 3.14159265358979323846;
    for (size_t i = 0; i < COUNT_OF(diameters); i++) {
        double d = diameters[i], length = 0.3283, f = 659.2551, modulus = 2.03e11, rho = 7850;
        double tension, b;
        check_status("tension", mensur_tension(length, f, pi / 4 * d * d * rho, &tension),
                     MENSUR_OK);
        check_status("B",
                     mensur_inharmonicity(length, tension, modulus, pi / 64 * d * d * d * d, &b),
                     MENSUR_OK);
        check_close("from tension", b,
                    pi * pi * pi * modulus * pow(d, 4) / (64 * tension * length * length), 0,
                    1e-12);
        check_close("from pitch", b,
                    pi * pi * modulus * d * d / (64 * rho * f * f * pow(length, 4)), 0, 1e-12);
    }
    double partial;
    check_status("f7", mensur_partial_frequency(196.3, 0.00037, 7, &partial), MENSUR_OK);
    check_close("f7", partial, (double)(7.0L * 196.3L * sqrtl(1.0L + 0.00037L * 49.0L)), 0, 1e-15);
    check_status("f5", mensur_partial_frequency(196.3, 0, 5, &partial), MENSUR_OK);
    check_close("f5 of a flexible string", partial, 981.5, 0, 1e-15);
}

/* Z = sqrt(T mu) = T/c = mu c = 2 L f mu. */
static void impedances(void **state) {
    (void)state;
    for (size_t i = 0; i < 5; i++) {
        const struct string *s = &strings[i];
        double tension, z;
        double speed = 2 * s->length * s->frequency;
        check_status(s->name, mensur_tension(s->length, s->frequency, s->density, &tension),
                     MENSUR_OK);
        check_status(s->name, mensur_impedance(tension, s->density, &z), MENSUR_OK);
        check_close(s->name, z, tension / speed, 0, 1e-15);
        check_close(s->name, z, s->density * speed, 0, 1e-15);
    }
}

static void belly(void **state) {
    (void)state;
    const double factors[] = {0.3816, 2, -0.17, 0};
    for (size_t i = 0; i < COUNT_OF(factors); i++) {
        double force;
        check_status("belly", mensur_force_on_belly(53.7, factors[i], &force), MENSUR_OK);
        check_close("belly", force, 53.7 * factors[i], 0, 1e-15);
    }
}

/* Calls function number `which` with the arguments a. */
static enum mensur_status with_arguments(size_t which, const double *a, double *out) {
    switch (which) {
    case 0:
        return mensur_tension(a[0], a[1], a[2], out);
    case 1:
        return mensur_density_for_tension(a[0], a[1], a[2], out);
    case 2:
        return mensur_string_frequency(a[0], a[1], a[2], out);
    case 3:
        return mensur_tension_slack(a[0], a[1], a[2], a[3], a[4], out);
    case 4:
        return mensur_tuned_density(a[0], a[1], a[2], a[3], out);
    case 5:
        return mensur_stress(a[0], a[1], out);
    case 6:
        return mensur_breaking_margin(a[0], a[1], out);
    case 7:
        return mensur_highest_frequency(a[0], a[1], a[2], out);
    case 8:
        return mensur_inharmonicity(a[0], a[1], a[2], a[3], out);
    case 9:
        return mensur_impedance(a[0], a[1], out);
    case 10:
        return mensur_force_on_belly(a[0], 0.38, out);
    case 11:
        return mensur_slack_diameter(a[0], a[1], a[2], a[3], a[4], out);
    default:
        return mensur_partial_frequency(a[0], 0.0001, 3, out);
    }
}

/* Every argument of every function in turn is 0, negative, NaN, infinite, too large, too small. */
static void refuses(void **state) {
    (void)state;
    const size_t counts[] = {3, 3, 3, 5, 4, 2, 2, 3, 4, 2, 1, 5, 1};
    const double wrong[] = {0, -1.7, NAN, INFINITY, 1e61, 1e-61};
    for (size_t i = 0; i < COUNT_OF(counts); i++) {
        double arguments[5] = {0.7, 0.7, 0.7, 0.7, 0.7};
        double found = 12.5;
        for (size_t j = 0; j < counts[i] * COUNT_OF(wrong); j++) {
            size_t place = j / COUNT_OF(wrong);
            arguments[place] = wrong[j % COUNT_OF(wrong)];
            check_status("argument", with_arguments(i, arguments, &found), MENSUR_DOMAIN);
            arguments[place] = 0.7;
        }
        check_close("untouched", found, 12.5, 0, 0);
        check_status("valid arguments", with_arguments(i, arguments, &found), MENSUR_OK);
    }
}

static void refuses_more(void **state) {
    (void)state;
    double found = 12.5;
    check_status("too steep", mensur_force_on_belly(53.7, 2.01, &found), MENSUR_DOMAIN);
    check_status("unknown", mensur_force_on_belly(53.7, NAN, &found), MENSUR_DOMAIN);
    check_status("no partial", mensur_partial_frequency(440, 1e-4, 0, &found), MENSUR_DOMAIN);
    check_status("B negative", mensur_partial_frequency(440, -1e-4, 2, &found), MENSUR_DOMAIN);
    check_status("B unknown", mensur_partial_frequency(440, NAN, 2, &found), MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
    check_status("largest result", mensur_inharmonicity(1e-60, 1e-60, 1e60, 1e60, &found),
                 MENSUR_OK);
    check_close("largest result", found, 9.8696044010893586e300, 0, 1e-14); /* pi^2 1e300 */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(laws),    cmocka_unit_test(slack),        cmocka_unit_test(strengths),
        cmocka_unit_test(stiff),   cmocka_unit_test(impedances),   cmocka_unit_test(belly),
        cmocka_unit_test(refuses), cmocka_unit_test(refuses_more), cmocka_unit_test(gauges),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
