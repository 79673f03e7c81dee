/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topics 4 and 10 to 16 of the published table: ends and bending of a stiff string, what tuning and
 * warmth do to it, gut gauged slack, strings that were weighed; places of the air's note. */
#include "published_checks.h"

#include <math.h>

#include "air.h"
#include "check.h"
#include "fingers.h"
#include "pitch.h"
#include "solve.h"
#include "string_build.h"
#include "taut_string.h"

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

static size_t clamped_rises(const struct published_row *row, double half, double *out) {
    double b[VALUES_MOST];
    size_t count = expected_numbers(strstr(inputs(row), "B = "), b, VALUES_MOST);
    for (size_t i = 0; i < count; i++) {
        double found;
        MUST(mensur_clamped_frequency(440, b[i], 1, &found));
        MUST(mensur_cents(440, found, &out[i]));
        out[i] *= half;
    }
    return count;
}

static size_t both_clamped(const struct published_row *row, double *out) {
    return clamped_rises(row, 1, out);
}

static size_t one_clamped(const struct published_row *row, double *out) {
    return clamped_rises(row, 0.5, out);
}

static size_t bending_range(const struct published_row *row, double *out) {
    const double strands[] = {7, 19};
    for (size_t i = 0; i < 2; i++) {
        double least, most;
        MUST(mensur_core_second_moment(0.0005, strands[i], &least));
        MUST(mensur_greatest_second_moment(0.0005, strands[i], 206e9, NULL, 0, &most));
        out[i] = least / most;
    }
    return 2;
}

static size_t stressed_modulus(const struct published_row *row, double *out) {
    MUST(mensur_modulus_under_stress(number_after(inputs(row), "E = ") * 1e9,
                                     number_after(inputs(row), "+ "),
                                     number_after(inputs(row), "; sigma = ") * 1e6, out));
    out[0] *= 1e-9;
    return 1;
}

/* Any thickness: rho v^2/E. */
static size_t strain_of_speed(const struct published_row *row, double *out) {
    double density, tension, area;
    MUST(mensur_plain_density(0.0007, number_after(inputs(row), "rho "), &density));
    MUST(mensur_core_area(0.0007, &area));
    MUST(mensur_tension(0.5, number_after(inputs(row), "v = "), density, &tension));
    MUST(mensur_tuning_strain(tension, number_after(inputs(row), "E = ") * 1e9, area, out));
    return 1;
}

/* Tension; its change; the pitch's change to the first order, and by the new tension. */
static size_t warmed_steel(const struct published_row *row, double *out) {
    double density, area, strain, cents, after;
    double length = number_after(inputs(row), "L ") / 1000, f = number_after(inputs(row), "f ");
    double diameter = number_after(inputs(row), "; d ") / 1000;
    double modulus = number_after(inputs(row), "E ") * 1e9;
    double expansion = number_after(inputs(row), "GPa; "), warmer = number_after(inputs(row), "+");
    MUST(mensur_plain_density(diameter, number_after(inputs(row), "rho "), &density));
    MUST(mensur_core_area(diameter, &area));
    MUST(mensur_tension(length, f, density, &out[0]));
    MUST(mensur_tuning_strain(out[0], modulus, area, &strain));
    MUST(mensur_cents_per_kelvin(strain, expansion, &cents));
    out[1] = -modulus * area * expansion * warmer;
    /* df = f ln(2)/1200 for a cent */
    out[2] = cents * warmer * f * 0.69314718055994531 / 1200;
    MUST(mensur_string_frequency(length, out[0] + out[1], density, &after));
    out[3] = after - f;
    return 4;
}

static size_t more_tension(const struct published_row *row, double *out) {
    double tension, f = number_after(inputs(row), "");
    MUST(mensur_tension(0.65, f, 0.0006, &tension));
    MUST(mensur_string_frequency(0.65, 1.21 * tension, 0.0006, out));
    return 1;
}

/* The row's figures leave out that the string between its ends grows longer as it is drawn: the 1
 * of (1/strain + 1). */
static size_t drawn(const struct published_row *row, double *out) {
    static const struct {
        double diameter, modulus, tension;
    } strings[] = {{0.000255, 206e9, 75.2}, {0.00077, 5.5e9, 49.48}};
    for (size_t i = 0; i < 2; i++) {
        double area, strain, cents;
        MUST(mensur_core_area(strings[i].diameter, &area));
        MUST(mensur_tuning_strain(strings[i].tension, strings[i].modulus, area, &strain));
        MUST(mensur_cents_per_metre(strain, 0.433, &cents));
        out[2 * i] = cents / 1000 / (1 + strain);
        out[2 * i + 1] = 433 * strain;
    }
    return 4;
}

static size_t kelvins(const struct published_row *row, double *out) {
    const double strain = number_after(inputs(row), "strain ") / 100;
    MUST(mensur_cents_per_kelvin(strain, -number_after(inputs(row), "%; "), &out[0]));
    MUST(mensur_cents_per_kelvin(strain, -number_after(inputs(row), "/ "), &out[1]));
    return 2;
}

static void gut(const struct published_row *row, double diameter, double f, double *stress,
                double *tension) {
    double density, area;
    MUST(mensur_plain_density(diameter, number_after(inputs(row), "rho "), &density));
    MUST(mensur_core_area(diameter, &area));
    MUST(mensur_tension_slack(0.328, f, density, number_after(inputs(row), "E ") * 1e9, area,
                              tension));
    MUST(mensur_stress(*tension, area, stress));
}

/* The stress is that of the slack section, as the row's is. */
static size_t slack_gauges(const struct published_row *row, double *out) {
    gut(row, 0.00077, 440, &out[0], &out[1]);
    gut(row, 0.00057, 660, &out[2], &out[3]);
    out[0] *= 1e-6;
    out[2] *= 1e-6;
    return 4;
}

struct gauge_wish {
    const struct published_row *row;
    double tension;
};

static double tension_over(double diameter, void *context) {
    const struct gauge_wish *wish = context;
    double stress, tension;
    gut(wish->row, diameter, 440, &stress, &tension);
    return tension - wish->tension;
}

static size_t slack_to_order(const struct published_row *row, double *out) {
    struct gauge_wish wish = {row, number_after(inputs(row), "")};
    MUST(mensur_solve_root(published_solver, tension_over, &wish, 1e-4, 2e-3, out));
    out[0] *= 1000;
    return 1;
}

static size_t gut_index(const struct published_row *row, double *out) {
    const double strengths[] = {352e6, 300e6, 408e6}; /* of the row's tolerance */
    for (size_t i = 0; i < 3; i++) {
        MUST(mensur_highest_frequency(1, strengths[i], 1300, &out[i]));
    }
    return 3;
}

static double density_over(double diameter, void *context) {
    double density = NAN;
    (void)mensur_plain_density(diameter, 1273, &density);
    return density - *(double *)context;
}

/* Its linear density, and the gut of 1273 kg/m3 that weighs as much. */
static size_t weighed_rope(const struct published_row *row, double *out) {
    double density;
    MUST(mensur_weighed_density(number_after(inputs(row), "") / 1000, 1, 0,
                                number_after(inputs(row), "over "), &density));
    out[0] = density * 1000;
    MUST(mensur_solve_root(published_solver, density_over, &density, 1e-3, 2e-2, &out[1]));
    out[1] *= 1000;
    return 2;
}

static size_t weighed_cable(const struct published_row *row, double *out) {
    MUST(mensur_weighed_density(number_after(inputs(row), "m="), 1, 0,
                                number_after(inputs(row), "l="), out));
    return 1;
}

/* The density, and its standard uncertainty in hundredths for one string and for ten: what half a
 * step more and less of the scale and of the ruler do, by the law itself. */
static size_t weighed_violin_string(const struct published_row *row, double *out) {
    const double mass = number_after(inputs(row), "") / 1000, length = 0.58;
    const double scale = 0.1e-3 / sqrt(12), ruler = 0.5e-3;
    MUST(mensur_weighed_density(mass, 1, 0, length, &out[0]));
    for (int i = 0; i < 2; i++) {
        double count = i == 0 ? 1 : 10, more, less, longer, shorter;
        MUST(mensur_weighed_density(count * mass + scale, count, 0, length, &more));
        MUST(mensur_weighed_density(count * mass - scale, count, 0, length, &less));
        MUST(mensur_weighed_density(count * mass, count, 0, length + ruler, &longer));
        MUST(mensur_weighed_density(count * mass, count, 0, length - ruler, &shorter));
        out[1 + i] = 100 * hypot(more - less, longer - shorter) / 2 / out[0];
    }
    out[0] *= 1000;
    return 3;
}

/* Notes n semitones above open strings, in equal steps from 440 Hz; s from A4, k fifths from A. */
static double above(const struct published_row *row, int s, int k, int n) {
    double open, ratio;
    MUST(mensur_open_frequency(s, k, 440, MENSUR_FIFTHS_EQUAL, &open));
    MUST(mensur_step_ratio(n, MENSUR_STEPS_EQUAL, &ratio));
    return open * ratio;
}

static size_t violin_air(const struct published_row *row, double *out) {
    out[0] = above(row, -14, -2, 7);
    return 1;
}

static size_t octet_air(const struct published_row *row, double *out) {
    out[0] = above(row, -2, -2, 7);
    out[1] = above(row, -9, -3, 7);
    out[2] = above(row, -21, -3, 7);
    return 3;
}

static size_t place_of_air(const struct published_row *row, double *out) {
    double open;
    MUST(mensur_open_frequency(-14, -2, 440, MENSUR_FIFTHS_PURE, &open));
    MUST(mensur_air_place(number_after(inputs(row), ""), open, out));
    return 1;
}

/* Full archings, of which the back's has the edge in it; widths upper, middle, lower. Volume, cm3.
 */
static double volume_of(const struct published_row *row, double body, const double widths[3],
                        double rib, const double archings[2], double plate) {
    struct mensur_air air;
    const struct mensur_air_body measured = {body / 1000,
                                             widths[0] / 1000,
                                             widths[1] / 1000,
                                             widths[2] / 1000,
                                             rib / 1000,
                                             archings[0] / 1000,
                                             (archings[1] - 4) / 1000,
                                             0.004,
                                             plate / 1000,
                                             0.075};
    MUST(mensur_air_of(&measured, &air));
    return air.volume * 1e6;
}

static size_t violin_volume(const struct published_row *row, double *out) {
    static const double widths[] = {168, 112, 208}, archings[] = {15.5, 14.5};
    out[0] = volume_of(row, 355, widths, 31, archings, 3);
    return 1;
}

static size_t larger_volumes(const struct published_row *row, double *out) {
    static const double viola[] = {192, 132, 243}, viola_arched[] = {17.5, 16.5};
    static const double cello[] = {340, 230, 440}, cello_arched[] = {25, 26};
    out[0] = volume_of(row, 410, viola, 38, viola_arched, 3.2);
    out[1] = volume_of(row, 755, cello, 115, cello_arched, 4.5);
    return 2;
}

static size_t exponent_of_air(const struct published_row *row, double *out) {
    (void)row;
    out[0] = MENSUR_AIR_EXPONENT;
    return 1;
}

/* The deeper body of the row above in the law: 130 cm3 more on 2000, at the middle of 270 to 285
 * Hz.
 */
static size_t more_volume(const struct published_row *row, double *out) {
    const struct mensur_air one = {0.355, 0.055, 0.0428, 0.002, 0.075};
    struct mensur_air other = one;
    double semitones;
    other.depth *= 2130.0 / 2000.0;
    MUST(mensur_air_apart(&one, &other, MENSUR_AIR_EXPONENT, &semitones));
    out[0] = 277.5 * (1 - exp2(semitones / 12));
    return 1;
}

/* Volume goes as 1/f^2 in a plain resonator. */
static size_t compliance(const struct published_row *row, double *out) {
    MUST(mensur_step_ratio(2, MENSUR_STEPS_EQUAL, out));
    out[0] = 100 * (out[0] - 1);
    return 1;
}

/* All lengths times r: resonances as 1/r, the same strings' tension as r^2. */
static size_t plain_scaling(const struct published_row *row, double *out) {
    double small, large;
    MUST(mensur_tension(395, 440, 1e-6, &small));
    MUST(mensur_tension(410, 440, 1e-6, &large));
    out[0] = 395.0 / 410.0;
    MUST(mensur_cents(395, 410, &out[1]));
    out[1] /= 100;
    out[2] = 100 * (small / large - 1);
    return 3;
}

static size_t behind_bridge(const struct published_row *row, double *out) {
    MUST(mensur_cents(1, 6, out));
    out[0] /= 100;
    return 1;
}

/* How far nearer the nut the finger stands where its place sounds 449 Hz. */
static size_t nearer_the_nut(const struct published_row *row, double *out) {
    double length = number_after(inputs(row), "string "),
           there = number_after(inputs(row), "finger ");
    double semitones, place;
    MUST(mensur_cents(449 * (length - there) / length, 440, &semitones));
    MUST(mensur_place_equal(length, semitones / 100, &place));
    out[0] = there - place;
    return 1;
}

#define T4 "4 stiff string"
#define T11 "11 air resonance"
#define T12 "12 tuning"
#define T15 "15 gut"
#define T16 "16 weighing"

const struct published_check tuning_checks[] = {
    {"1 taut string", "linear density mu=m/l", "m=0.06 kg; l=2.00 m", weighed_cable, NULL, NULL},
    {"2 pitch", "finger for 440 Hz where 449 Hz sounds, how far toward the nut",
     "string 68.0 cm; finger 20.0 cm from the nut", nearer_the_nut, NULL, NULL},
    {T4, "both ends clamped, rise of the fundamental", "B = 1e-6; 1e-5; 1e-4; 1e-3", both_clamped,
     NULL, "0.02"},
    {T4, "one end clamped, one pinned", "B = 1e-5; 1e-4; 1e-3", one_clamped, NULL, "2.5 %"},
    {T4, "bending range: free strands over one solid rod through the same circle",
     "7 wires, d = 3 ds; 19 wires, d = 5 ds", bending_range, NULL, NULL},
    {T4, "modulus that rises with stress", "E = 4.5 GPa + 39 sigma; sigma = 150 MPa",
     stressed_modulus, NULL, NULL},
    {"10 scaling", "plain scaling 410 to 395 mm, everything alike", "ratio r", plain_scaling,
     "0.963415; 0.645; -7.18", "1e-6; 0.001; 0.01"},
    {T11, "main air resonance of the violin, place wanted",
     "lowest string G3; scale 440 Hz equal steps", violin_air, "294", "0.5"},
    {T11, "octet: air resonance wanted, treble; soprano; alto",
     "lowest strings G4; C4; C3: 7 semitones above", octet_air, NULL, NULL},
    {T11, "compliance as added volume for one semitone, plain Helmholtz", "2^(1/6) - 1", compliance,
     NULL, NULL},
    {T11, "place of a measured air resonance", "273 Hz over G3 (pure fifths from 440)",
     place_of_air, NULL, NULL},
    {T11, "volume from workshop measurements, violin",
     "body 355; widths 168, 112, 208; ribs 31; archings 15.5, 14.5; plates 3 mm; V = 0.85 L (0.32 "
     "U + 0.27 C + 0.34 W)(h + (ab+at)/2 - t)",
     violin_volume, NULL, "0.1"},
    {T11, "the same, viola; cello",
     "410; 192, 132, 243; 38; 17.5, 16.5; 3.2 / 755; 340, 230, 440; 115; 25, 26; 4.5",
     larger_volumes, "3244.0; 27973", "0.05; 0.5"},
    {T11, "volume of a violin's air", "baroque then romantic set-up of one violin", violin_volume,
     NULL, "5 %"},
    {T11, "exponent q in f ~ V^-q that these three figures imply",
     "f 270 to 285 Hz; -5 Hz; 2000 to 2130 cm3", exponent_of_air, "0.30", "0.01"},
    {T11, "body compliance lowers the air resonance", "one violin", more_volume, "5", "0.5"},
    {T12, "strain behind a pitch: rho v^2/E", "rho 2700; v = 100 m/s; E = 70 GPa", strain_of_speed,
     NULL, NULL},
    {T12, "steel string warms while the instrument does not",
     "rho 7800; L 635 mm; d 0.406 mm; f 247.0 Hz; E 200 GPa; 12.0e-6 /K; +11.0 K", warmed_steel,
     "99.37; -3.418; -4.25; -4.285", "0.01; 0.001; 0.005; 0.005"},
    {T12, "frequency when the tension rises by 21 %", "540 Hz", more_tension, NULL, NULL},
    {T12, "cents per mm drawn; stretch from slack to pitch",
     "steel E 0.255 mm, E 206 GPa, 75.2 N, 433 mm free string / gut A 0.77 mm, 5.5 GPa, 49.48 N, "
     "433 mm",
     drawn, "279.7; 3.095; 103.5; 8.365", "0.1; 0.001; 0.1; 0.001"},
    {T12, "cents per kelvin",
     "strain 0.71479 %; 7.5e-6 /K between string and body / 11.5e-6 (string alone)", kelvins,
     "0.908; 1.393", NULL},
    {"13 afterlength", "note of the G string behind the bridge", "violin", behind_bridge, "31.0196",
     "1e-4"},
    {T15, "stress and pull of a string gauged slack",
     "rho 1300; E 5.5 GPa; violin A 0.77 mm, 440 Hz, 328 mm / E 0.57 mm, 660 Hz", slack_gauges,
     "106.254; 49.479; 233.756; 59.649", NULL},
    {T15, "slack diameter to order", "48 N; 440 Hz; 328 mm; rho 1300; E 5.5 GPa", slack_to_order,
     NULL, NULL},
    /* range: with the strengths that the row's tolerance names */
    {T15, "breaking index f L of thin gut (0.40 mm)", "mean; range", gut_index, "260; 240; 280",
     "0.3"},
    {T16, "gut equivalent of a weighed string", "35.5 g over 0.98 m", weighed_rope, NULL, NULL},
    /* The row prints 8.06 % for one string, which goes with +-5 mm; with the +-0.5 mm that it
     * states it is 8.02 %. */
    {T16, "linear density and its uncertainty",
     "0.36 g on a scale of 0.1 g steps; 580 +-0.5 mm / ten strings together", weighed_violin_string,
     "0.6207; 8.02; 0.81", "5e-5; 0.01; 0.01"},
};
const size_t tuning_check_count = COUNT_OF(tuning_checks);
