/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topic 1 of the published table: the taut string. */
#include "published_checks.h"

#include "check.h"
#include "string_build.h"
#include "taut_string.h"

/* On half a metre of string the wave's speed is the frequency. */
#define HALF_METRE 0.5

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

static double speed_of(const struct published_row *row, double tension, double density) {
    double speed = NAN;
    MUST(mensur_string_frequency(HALF_METRE, tension, density, &speed));
    return speed;
}

static size_t speed(const struct published_row *row, double *out) {
    out[0] = speed_of(row, number_after(inputs(row), "T="), number_after(inputs(row), "mu="));
    return 1;
}

static size_t tension_from_speed(const struct published_row *row, double *out) {
    MUST(mensur_tension(HALF_METRE, number_after(inputs(row), "v="),
                        number_after(inputs(row), "mu="), out));
    return 1;
}

static size_t round_wire(const struct published_row *row, double *out) {
    double radius = number_after(inputs(row), "radius=") / 1000;
    MUST(mensur_plain_density(2 * radius, number_after(inputs(row), "rho="), out));
    return 1;
}

static size_t speed_on_that_wire(const struct published_row *row, double *out) {
    double density;
    MUST(mensur_plain_density(0.0024, 8920, &density)); /* the row before */
    out[0] = speed_of(row, number_after(inputs(row), "T="), density);
    return 1;
}

static size_t speed_from_hung_mass(const struct published_row *row, double *out) {
    const char *before = strstr(inputs(row), "hung mass ") != NULL ? "hung mass " : "; ";
    double tension = number_after(inputs(row), before) * number_after(inputs(row), "g=");
    out[0] = speed_of(row, tension, number_after(inputs(row), "mu="));
    return 1;
}

static size_t speed_and_time(const struct published_row *row, double *out) {
    double length = number_after(inputs(row), "l=");
    double mass = number_after(inputs(row), "m=") / 1000;
    out[0] = speed_of(row, number_after(inputs(row), "T="), mass / length);
    out[1] = 1000 * length / out[0];
    return 2;
}

static size_t speed_and_wavelength(const struct published_row *row, double *out) {
    out[0] = speed_of(row, number_after(inputs(row), "T="), number_after(inputs(row), "mu="));
    out[1] = out[0] / number_after(inputs(row), "f=");
    return 2;
}

static size_t speed_ratio(const struct published_row *row, double *out) {
    out[0] = speed_of(row, 56.4, 2 * 0.0031) / speed_of(row, 56.4, 0.0031);
    return 1;
}

/* Partials of a flexible string. */
static void modes(const struct published_row *row, double length, double tension, double density,
                  size_t count, double *out) {
    double first;
    MUST(mensur_string_frequency(length, tension, density, &first));
    for (size_t i = 0; i < count; i++) {
        MUST(mensur_partial_frequency(first, 0, (int)i + 1, &out[i]));
    }
}

static size_t three_modes(const struct published_row *row, double *out) {
    modes(row, 2.00, 2.00 * 9.8, 0.006, 3, out); /* the row before */
    return 3;
}

static size_t four_modes(const struct published_row *row, double *out) {
    double length = number_after(inputs(row), "L="), tension = number_after(inputs(row), "T=");
    double density = number_after(inputs(row), "m=") / length;
    out[0] = speed_of(row, tension, density);
    modes(row, length, tension, density, 4, out + 1);
    return 5;
}

static size_t cable(const struct published_row *row, double *out) {
    double span = number_after(inputs(row), "span "), partials[9];
    double tension = number_after(inputs(row), "T="), density = number_after(inputs(row), "mu=");
    modes(row, span, tension, density, 9, partials); /* 4.5 waves are nine halves */
    out[0] = speed_of(row, tension, density);
    out[1] = span / 4.5;
    out[2] = partials[8];
    return 3;
}

static size_t fifth_mode(const struct published_row *row, double *out) {
    double length = number_after(inputs(row), "L="), partials[5];
    double tension = number_after(inputs(row), "T="), density = number_after(inputs(row), "mu=");
    modes(row, length, tension, density, 5, partials);
    out[0] = speed_of(row, tension, density);
    out[1] = out[0] / partials[4];
    out[2] = partials[4];
    out[3] = 1 / partials[4];
    return 4;
}

static size_t tension_from_mode(const struct published_row *row, double *out) {
    double first = number_after(inputs(row), "f=") / number_after(inputs(row), "n=");
    MUST(mensur_tension(number_after(inputs(row), "L="), first, number_after(inputs(row), "mu="),
                        out));
    return 1;
}

static size_t tension_from_neighbours(const struct published_row *row, double *out) {
    double first = number_after(inputs(row), "and ") - number_after(inputs(row), "neighbours ");
    MUST(mensur_tension(number_after(inputs(row), "L="), first, number_after(inputs(row), "mu="),
                        out));
    return 1;
}

/* Power that runs along a string, half of Z times the greatest speed squared. */
static size_t power(const struct published_row *row, double *out) {
    double tension = number_after(inputs(row), "T="), impedance;
    double fastest = number_after(inputs(row), "taken ") * number_after(inputs(row), "A=") / 100;
    out[0] = number_after(inputs(row), "m=") / 1000 / number_after(inputs(row), "over ");
    out[1] = speed_of(row, tension, out[0]);
    MUST(mensur_impedance(tension, out[0], &impedance));
    out[2] = 0.5 * impedance * fastest * fastest;
    return 3;
}

#define T1 "1 taut string"

const struct published_check string_checks[] = {
    {T1, "wave speed v=sqrt(T/mu)", "mu=3.09e-4 kg/m; T=56.40 N", speed, NULL, NULL},
    {T1, "tension T=mu v^2", "mu=5.78e-3 kg/m; v=427.23 m/s", tension_from_speed, NULL, NULL},
    {T1, "linear density of a round wire", "rho=8920 kg/m3; radius=1.20 mm", round_wire, NULL,
     NULL},
    {T1, "wave speed on that wire", "same wire; T=10.00 N", speed_on_that_wire, NULL, NULL},
    {T1, "wave speed from hung mass", "mu=0.0060 kg/m; 20 kg hung; g=9.80", speed_from_hung_mass,
     NULL, NULL},
    {T1, "wave speed and transit time", "l=3.00 m; m=5.00 g; T=500.00 N", speed_and_time, NULL,
     NULL},
    {T1, "wave speed and wavelength", "f=393.88 Hz; mu=0.012 kg/m; T=1000.00 N",
     speed_and_wavelength, NULL, NULL},
    {T1, "speed ratio when mu doubles, T equal", "mu2=2 mu1", speed_ratio, NULL, NULL},
    {T1, "standing wave: speed", "L=2.00 m; mu=0.006 kg/m; hung mass 2.00 kg; g=9.8",
     speed_from_hung_mass, NULL, NULL},
    {T1, "standing wave: first three modes", "same", three_modes, NULL, NULL},
    {T1, "cable: speed, wavelength, frequency",
     "mu=0.02 kg/m; T=500.00 N; span 20 m; 4.5 wavelengths", cable, NULL, NULL},
    {T1, "first four modes", "m=0.0090 kg; L=3.00 m; T=200.00 N", four_modes, NULL, NULL},
    {T1, "mode 5", "L=3.50 m; mu=0.005 kg/m; T=90.00 N; five antinodes", fifth_mode, NULL,
     "0.005; 1e-12; 0.005; 0.00005"},
    {T1, "tension from a mode", "f=2000 Hz at n=6; mu=0.0065 kg/m; L=1.50 m", tension_from_mode,
     NULL, NULL},
    {T1, "neighbouring modes give T", "L=4 m; mu=0.006 kg/m; neighbours 400 and 480 Hz",
     tension_from_neighbours, NULL, NULL},
    {T1, "mean power of a driven string",
     "m=70.00 g over 2.00 m; T=90.0 N; f=60 Hz; A=4.00 cm; omega taken 376.80", power, NULL,
     "0.0005; 0.005; 0.02"},
};
const size_t string_check_count = COUNT_OF(string_checks);
