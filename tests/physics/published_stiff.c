/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topics 3, 4 and 10 of the published table: stiff strings and the strength of materials. */
#include "published_checks.h"

#include "check.h"
#include "pitch.h"
#include "solve.h"
#include "string_build.h"
#include "taut_string.h"

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

static size_t gut_index(const struct published_row *row, double *out) {
    double strength = number_after(inputs(row), "stress ") * 9.80665e6; /* kgf/mm2 */
    MUST(mensur_highest_frequency(1, strength, number_after(inputs(row), "rho="), out));
    return 1;
}

static size_t steel_index(const struct published_row *row, double *out) {
    double density = number_after(inputs(row), "rho=");
    MUST(mensur_highest_frequency(1, 2668e6, density, &out[0]));
    MUST(mensur_highest_frequency(1, 3041e6, density, &out[1]));
    return 2;
}

static size_t piano_wire(const struct published_row *row, double *out) {
    double area, length = number_after(inputs(row), "L=");
    double stretch = number_after(inputs(row), "stretch ") / 1000;
    MUST(mensur_core_area(number_after(inputs(row), "d=") / 1000, &area));
    out[0] = 210e9 * area * stretch / length;
    out[1] = 200e9 * area * stretch / length;
    return 2;
}

/* K of cents = K n^2 d^2/(f^2 L^4), from B of some wire; cm2/s2. */
static size_t young_constant(const struct published_row *row, double *out) {
    double per_density = number_after(inputs(row), "E/rho=") * 1e-4; /* m2/s2 */
    double length = 0.612, frequency = 261.6, diameter = 0.00097, density, tension, moment, b;
    MUST(mensur_plain_density(diameter, 7850, &density));
    MUST(mensur_tension(length, frequency, density, &tension));
    MUST(mensur_core_second_moment(diameter, 1, &moment));
    MUST(mensur_inharmonicity(length, tension, per_density * 7850, moment, &b));
    double cents = 600 / 0.69314718055994531 * b; /* of the first order, n = 1 */
    out[0] = 1e4 * cents * frequency * frequency * pow(length, 4) / (diameter * diameter);
    return 1;
}

static double cents_over(double b, void *context) {
    double partial = NAN, cents = NAN;
    if (mensur_partial_frequency(261.6, b, 2, &partial) != MENSUR_OK ||
        mensur_cents(2 * 261.6, partial, &cents) != MENSUR_OK) {
        return NAN;
    }
    return cents - *(double *)context;
}

static size_t middle_c(const struct published_row *row, double *out) {
    double cents = number_after(inputs(row), "");
    MUST(mensur_solve_root(published_solver, cents_over, &cents, 0, 0.1, out));
    return 1;
}

/* The two forms of B over the library's: from tension, and from pitch. */
static size_t two_forms(const struct published_row *row, double *out) {
    const double pi = 3.14159265358979323846;
    double d = 0.00077, l = 0.3757, f = 219.3, e = 197e9, rho = 7810, density, tension, moment, b;
    MUST(mensur_plain_density(d, rho, &density));
    MUST(mensur_tension(l, f, density, &tension));
    MUST(mensur_core_second_moment(d, 1, &moment));
    MUST(mensur_inharmonicity(l, tension, e, moment, &b));
    out[0] = pow(pi, 3) * e * pow(d, 4) / (64 * tension * l * l) / b;
    out[1] = pi * pi * e * d * d / (64 * rho * f * f * pow(l, 4)) / b;
    return 2;
}

/* mu and T of the steel wire that several rows share. */
static void steel_wire(const struct published_row *row, double *density, double *tension) {
    MUST(mensur_plain_density(number_after(inputs(row), "d=") / 1000,
                              number_after(inputs(row), "rho="), density));
    MUST(mensur_tension(number_after(inputs(row), "L=") / 1000, number_after(inputs(row), "f="),
                        *density, tension));
}

static size_t steel_stiffness(const struct published_row *row, double *out) {
    double density, tension, moment, f = number_after(inputs(row), "f=");
    steel_wire(row, &density, &tension);
    MUST(mensur_core_second_moment(number_after(inputs(row), "d=") / 1000, 1, &moment));
    MUST(mensur_inharmonicity(number_after(inputs(row), "L=") / 1000, tension,
                              number_after(inputs(row), "E=") * 1e9, moment, &out[0]));
    for (int i = 0; i < 2; i++) {
        int n = i == 0 ? 1 : 10;
        double partial;
        MUST(mensur_partial_frequency(f, out[0], n, &partial));
        MUST(mensur_cents(n * f, partial, &out[1 + i]));
    }
    return 3;
}

static size_t steel_impedance(const struct published_row *row, double *out) {
    steel_wire(row, &out[0], &out[1]);
    MUST(mensur_impedance(out[1], out[0], &out[2]));
    out[0] *= 1000;
    return 3;
}

static size_t steel_stress(const struct published_row *row, double *out) {
    double density, tension, area;
    MUST(mensur_plain_density(0.00026, number_after(inputs(row), "rho="), &density));
    MUST(mensur_tension(number_after(inputs(row), "L="), number_after(inputs(row), "f="), density,
                        &tension));
    MUST(mensur_core_area(0.00026, &area));
    MUST(mensur_stress(tension, area, out));
    out[0] *= 1e-6;
    return 1;
}

static size_t tension_by_length(const struct published_row *row, double *out) {
    double lengths[3], reference;
    assert_int_equal(numbers_after(inputs(row), "lengths ", lengths, 3), 3);
    MUST(mensur_tension(lengths[1], 440, 0.0006, &reference));
    for (int i = 0; i < 3; i++) {
        MUST(mensur_tension(lengths[i], 440, 0.0006, &out[i]));
        out[i] /= reference;
    }
    return 3;
}

#define T4 "4 stiff string"

const struct published_check stiff_checks[] = {
    {"3 materials", "gut breaking index f*L", "rho=1300 kg/m3; stress 32 kgf/mm2", gut_index, NULL,
     "0.05"},
    {"3 materials", "force to stretch piano wire", "stretch 8.00 mm; L=1.35 m; d=0.850 mm",
     piano_wire, NULL, NULL},
    {T4, "inharmonicity constant", "E/rho=25.5e10 cm2/s2; cents=K n^2 d^2/(f^2 L^4), d and L in cm",
     young_constant, NULL, NULL},
    {T4, "K from theory", "K=(600/ln2)(pi^2/64)(E/rho); E/rho=25.5e10", young_constant, NULL, NULL},
    {T4, "B of that middle C", "1.2 cent = (600/ln2) B 4", middle_c, NULL, NULL},
    {T4, "identity of the two forms of B", "any round wire", two_forms, "1; 1", NULL},
    {T4, "B and cents, steel example", "d=0.26 mm; L=328 mm; E=200 GPa; rho=7850; f=659.2551 Hz",
     steel_stiffness, NULL, "1e-5 relative; 0.000005; 0.000005"},
    {"5 bowed string", "steel E example", "d=0.26 mm; rho=7850; L=328 mm; f=659.2551 Hz",
     steel_impedance, NULL, NULL},
    {"10 scaling", "stress of a steel violin E", "rho=7850; f=659.2551; L=0.328", steel_stress,
     NULL, NULL},
    {"10 scaling", "steel breaking index f*L", "rho=7850; 2668 MPa; 3041 MPa", steel_index, NULL,
     NULL},
    {"10 scaling", "tension at fixed string and pitch", "same string on lengths 365, 375, 380 mm",
     tension_by_length, NULL, NULL},
};
const size_t stiff_check_count = COUNT_OF(stiff_checks);
