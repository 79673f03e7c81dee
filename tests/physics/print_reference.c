/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Prints values for other programs to check: `pitch` notes for reference_pitch.mjs, `units`
 * expressions for reference_units.sh, fields between tabs, numbers to 17 digits. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fingers.h"
#include "number.h"
#include "pitch.h"
#include "playing.h"
#include "quantity.h"
#include "string_build.h"
#include "taut_string.h"

static enum mensur_status worst = MENSUR_OK;

static void note_status(enum mensur_status status) {
    worst = status != MENSUR_OK ? status : worst;
}

static void print_number(double value, char end) {
    char text[MENSUR_NUMBER_ROOM];
    mensur_number_print_significant(value, 17, text);
    printf("%s%c", text, end);
}

/* A row for GNU units: the expression, its unit, and the library's value. */
static void print_row(const char *expression, const char *unit, double value) {
    printf("%s\t%s\t", expression, unit);
    print_number(value, '\n');
}

static void print_note(int letter, int accidental, int octave, double a4) {
    static const int keys[7] = {9, 11, 0, 2, 4, 5, 7};
    static const int along[7] = {0, 2, -3, -1, 1, -4, -2};
    static const char *const signs[5] = {"bb", "b", "", "#", "##"};
    int semitones = keys[letter] + 12 * octave - 57 + accidental;
    int fifths = along[letter] + 7 * accidental;
    double equal = NAN, pure = NAN;
    note_status(mensur_open_frequency(semitones, fifths, a4, MENSUR_FIFTHS_EQUAL, &equal));
    note_status(mensur_open_frequency(semitones, fifths, a4, MENSUR_FIFTHS_PURE, &pure));
    printf("%c%s%d\t", 'A' + letter, signs[accidental + 2], octave);
    print_number(a4, '\t');
    print_number(equal, '\t');
    print_number(pure, '\n');
}

static void print_notes(void) {
    for (int octave = 0; octave <= 8; octave++) {
        for (int letter = 0; letter < 7; letter++) {
            for (int accidental = -2; accidental <= 2; accidental++) {
                print_note(letter, accidental, octave, 440);
                print_note(letter, accidental, octave, 442.5);
            }
        }
    }
}

/* Cells as a user may type them, and the same for GNU units. */
static const struct {
    const char *cell;
    enum mensur_kind kind;
    const char *expression, *unit;
} cells[] = {
    {"222", MENSUR_LENGTH, "222 mm", "m"},
    {"22.225cm", MENSUR_LENGTH, "22.225 cm", "m"},
    {"8.75in", MENSUR_LENGTH, "8.75 inch", "m"},
    {"8 3/4 in", MENSUR_LENGTH, "8 inch + 3|4 inch", "m"},
    {"8-3/4\"", MENSUR_LENGTH, "8.75 inch", "m"},
    {"0.222 m", MENSUR_LENGTH, "0.222 m", "m"},
    {"5.7 kgf", MENSUR_FORCE, "5.7 kgf", "N"},
    {"12.3 lbf", MENSUR_FORCE, "12.3 lbf", "N"},
    {"0.71", MENSUR_LINEAR_DENSITY, "0.71 g/m", "kg/m"},
    {"713 mg/m", MENSUR_LINEAR_DENSITY, "713 mg/m", "kg/m"},
    {"203", MENSUR_MODULUS, "203 GPa", "Pa"},
    {"5700 MPa", MENSUR_MODULUS, "5700 MPa", "Pa"},
    {"2668", MENSUR_STRESS, "2668 MPa", "Pa"},
    {"1.93 GPa", MENSUR_STRESS, "1.93 GPa", "Pa"},
    {"7.85 g/cm3", MENSUR_DENSITY, "7.85 g/cm^3", "kg/m^3"},
    {"441.3 Hz", MENSUR_FREQUENCY, "441.3 Hz", "Hz"},
    {"157.3", MENSUR_ANGLE, "157.3 degree", "radian"},
};

static void print_cells(void) {
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        struct mensur_quantity read = {NAN, 0};
        note_status(mensur_quantity_read(cells[i].cell, strlen(cells[i].cell), cells[i].kind, false,
                                         &read));
        print_row(cells[i].expression, cells[i].unit, read.value);
    }
}

/* The steps that GNU units has a name for. */
static const struct {
    int semitones;
    enum mensur_steps steps;
    const char *expression;
} intervals[] = {
    {1, MENSUR_STEPS_EQUAL, "semitone"},
    {7, MENSUR_STEPS_EQUAL, "semitone^7"},
    {31, MENSUR_STEPS_EQUAL, "semitone^31"},
    {1, MENSUR_STEPS_JUST, "musicalfourth / majorthird"},
    {2, MENSUR_STEPS_JUST, "majorsecond"},
    {3, MENSUR_STEPS_JUST, "minorthird"},
    {4, MENSUR_STEPS_JUST, "majorthird"},
    {5, MENSUR_STEPS_JUST, "musicalfourth"},
    {6, MENSUR_STEPS_JUST, "majorsecond majorthird"},
    {7, MENSUR_STEPS_JUST, "musicalfifth"},
    {8, MENSUR_STEPS_JUST, "minorsixth"},
    {9, MENSUR_STEPS_JUST, "majorsixth"},
    {10, MENSUR_STEPS_JUST, "minorseventh"},
    {11, MENSUR_STEPS_JUST, "majorseventh"},
    {12, MENSUR_STEPS_JUST, "octave"},
    {4, MENSUR_STEPS_PYTHAGOREAN, "pythagoreanthird"},
    {28, MENSUR_STEPS_PYTHAGOREAN, "pythagoreanthird octave^2"},
    {1, MENSUR_STEPS_PYTHAGOREAN, "octave^3 / musicalfifth^5"},
    {6, MENSUR_STEPS_PYTHAGOREAN, "musicalfifth^6 / octave^3"},
    {10, MENSUR_STEPS_PYTHAGOREAN, "musicalfourth^2"},
};

static void print_intervals(void) {
    double ratio = NAN, cents = NAN;
    for (size_t i = 0; i < sizeof intervals / sizeof intervals[0]; i++) {
        note_status(mensur_step_ratio(intervals[i].semitones, intervals[i].steps, &ratio));
        print_row(intervals[i].expression, "1", ratio);
    }
    note_status(mensur_cents(524288, 531441, &cents));
    print_row("pythagoreancomma", "musicalcent", cents);
    note_status(mensur_cents(80, 81, &cents));
    print_row("syntoniccomma", "musicalcent", cents);
    note_status(mensur_cents(2, 3, &cents));
    print_row("musicalfifth", "musicalcent", cents);
}

/* The laws as expressions with units, which GNU units refuses where the units do not agree. */
static void print_laws(void) {
    double value = NAN;
    note_status(mensur_tension(0.3757, 219.3, 0.00071, &value));
    print_row("4 * (375.7 mm)^2 * (219.3 Hz)^2 * (0.71 g/m)", "N", value);
    note_status(mensur_plain_density(0.00081, 1300, &value));
    print_row("pi/4 * (1.3 g/cm^3) * (0.81 mm)^2", "kg/m", value);
    note_status(mensur_stress(53.7, 2.5e-7, &value));
    print_row("53.7 N / 0.25 mm^2", "Pa", value);
    note_status(mensur_impedance(53.7, 0.00071, &value));
    print_row("sqrt(53.7 N * (0.71 g/m))", "kg/s", value);
    note_status(mensur_highest_frequency(0.3757, 3.14e8, 1300, &value));
    print_row("sqrt(314 MPa / (1.3 g/cm^3)) / (2 * 375.7 mm)", "Hz", value);
    note_status(mensur_inharmonicity(0.328, 77.9, 203e9, 2.24e-16, &value));
    print_row("pi^2 * 203 GPa * 2.24e-4 mm^4 / (77.9 N * (328 mm)^2)", "1", value);
    note_status(mensur_press_force(53.7, 0.3757, 0.0019, 0.109, &value));
    print_row("53.7 N * 1.9 mm * (1/(109 mm) + 1/(375.7 mm - 109 mm))", "N", value);
    note_status(mensur_bow_force_greatest(0.2137, 0.173, 0.41, 0.0877, &value));
    print_row("2 * (0.2137 kg/s) * (17.3 cm/s) / (0.41 * 0.0877)", "N", value);
    note_status(mensur_bow_force_least(0.2137, 0.173, 0.41, 0.0877, 283, &value));
    print_row("(0.2137 kg/s)^2 * (17.3 cm/s) / (2 * (283 kg/s) * 0.41 * 0.0877^2)", "N", value);
    note_status(mensur_place(0.3757, 5, MENSUR_STEPS_EQUAL, &value));
    print_row("375.7 mm * (1 - semitone^-5)", "m", value);
}

int main(int count, char **words) {
    if (count == 2 && strcmp(words[1], "pitch") == 0) {
        print_notes();
    } else if (count == 2 && strcmp(words[1], "units") == 0) {
        print_cells();
        print_intervals();
        print_laws();
    } else {
        fputs("usage: print_reference pitch|units\n", stderr);
        return 2;
    }
    return mensur_status_exit_code(worst);
}
