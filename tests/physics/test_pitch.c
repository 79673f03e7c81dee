/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "pitch.h"

#include <limits.h>

/* Open strings, semitones and fifths from A4. Pure: 440 (2/3)^k and octaves, as fractions of whole
 * numbers; equal: MIDI formula, digits of a long calculation. */
static const struct {
    const char *name;
    int semitones, fifths;
    double a4;
    enum mensur_fifths tuning;
    double want;
} open_rows[] = {
    {"A4", 0, 0, 440, MENSUR_FIFTHS_PURE, 440},
    {"D4", -7, -1, 440, MENSUR_FIFTHS_PURE, 880.0 / 3},
    {"G3", -14, -2, 440, MENSUR_FIFTHS_PURE, 1760.0 / 9},
    {"C3", -21, -3, 440, MENSUR_FIFTHS_PURE, 3520.0 / 27},
    {"E5", 7, 1, 440, MENSUR_FIFTHS_PURE, 660},
    {"C2", -33, -3, 440, MENSUR_FIFTHS_PURE, 1760.0 / 27},
    {"A4 low", 0, 0, 415.3, MENSUR_FIFTHS_PURE, 415.3},
    {"E1 of a bass", -41, 1, 442.5, MENSUR_FIFTHS_PURE, 442.5 * 1.5 / 16},
    {"F#5", 9, 3, 440, MENSUR_FIFTHS_PURE, 440 * 27.0 / 16},
    {"Bb2", -23, -5, 440, MENSUR_FIFTHS_PURE, 440 * 64.0 / 243},
    {"B sharp is not C", 3, 9, 440, MENSUR_FIFTHS_PURE, 440 * 19683.0 / 16384},
    {"C4", -9, -3, 440, MENSUR_FIFTHS_EQUAL, 261.62556530059863},
    {"E5", 7, 1, 440, MENSUR_FIFTHS_EQUAL, 659.25511382573986},
    {"C2", -33, -3, 440, MENSUR_FIFTHS_EQUAL, 65.406391325149658},
    {"B#4 is C5", 3, 9, 440, MENSUR_FIFTHS_EQUAL, 523.25113060119725},
    {"any A", -9, -3, 1e-290, MENSUR_FIFTHS_EQUAL, 5.9460355750136053e-291},
    {"any A", -14, -2, 3e307, MENSUR_FIFTHS_PURE, 3e307 * 4 / 9},
};

static void open_strings(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(open_rows); i++) {
        double found;
        check_status(open_rows[i].name,
                     mensur_open_frequency(open_rows[i].semitones, open_rows[i].fifths,
                                           open_rows[i].a4, open_rows[i].tuning, &found),
                     MENSUR_OK);
        check_close(open_rows[i].name, found, open_rows[i].want, 0, 1e-15);
    }
}

/* Twelve pure fifths exceed seven octaves by the comma of 531441 : 524288. */
static void comma(void **state) {
    (void)state;
    double found;
    check_status("comma", mensur_open_frequency(0, 12, 440, MENSUR_FIFTHS_PURE, &found), MENSUR_OK);
    check_close("comma", found, 440 * 531441.0 / 524288, 0, 1e-15);
    check_status("comma", mensur_open_frequency(0, 12, 440, MENSUR_FIFTHS_EQUAL, &found),
                 MENSUR_OK);
    check_close("comma", found, 440, 0, 0);
}

static const struct {
    const char *name;
    int semitones, fifths;
    double a4;
    int tuning;
} open_refusals[] = {
    {"spelt wrong", -7, 1, 440, MENSUR_FIFTHS_PURE},
    {"spelt wrong, equal", 1, 0, 440, MENSUR_FIFTHS_EQUAL},
    {"no A", 0, 0, 0, MENSUR_FIFTHS_PURE},
    {"A negative", 0, 0, -440, MENSUR_FIFTHS_EQUAL},
    {"A unknown", 0, 0, NAN, MENSUR_FIFTHS_PURE},
    {"A infinite", 0, 0, INFINITY, MENSUR_FIFTHS_EQUAL},
    {"no tuning", 0, 0, 440, 7},
    {"beyond a double", 12 * 2000, 0, 440, MENSUR_FIFTHS_EQUAL},
    {"under a double", -12 * 2000, 0, 440, MENSUR_FIFTHS_PURE},
    {"lowest whole number", INT_MIN, INT_MIN, 440, MENSUR_FIFTHS_PURE},
    {"highest whole number", INT_MAX, INT_MIN, 440, MENSUR_FIFTHS_PURE},
};

static void refuses_open(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(open_refusals); i++) {
        double found = 12.5;
        check_status(open_refusals[i].name,
                     mensur_open_frequency(open_refusals[i].semitones, open_refusals[i].fifths,
                                           open_refusals[i].a4,
                                           (enum mensur_fifths)open_refusals[i].tuning, &found),
                     MENSUR_DOMAIN);
        check_close(open_refusals[i].name, found, 12.5, 0, 0);
    }
}

/* Pythagorean steps rebuilt from fifths and octaves, just ones from fifths, thirds and octaves: how
 * many of each; the octaves bring the step into one. */
static const struct {
    int fifths, just_fifths, thirds;
} chain[12] = {
    {0, 0, 0}, {-5, -1, -1}, {2, 2, 0},   {-3, 1, -1}, {4, 0, 1},   {-1, -1, 0},
    {6, 2, 1}, {1, 1, 0},    {-4, 0, -1}, {3, -1, 1},  {-2, 2, -1}, {5, 1, 1},
};

static double within_octave(double ratio) {
    return ratio / exp2(floor(log2(ratio)));
}

static void steps(void **state) {
    (void)state;
    for (int semitones = 0; semitones <= 48; semitones++) {
        double octaves = exp2(semitones / 12);
        double third = pow(1.25, chain[semitones % 12].thirds);
        double found;
        check_status("equal", mensur_step_ratio(semitones, MENSUR_STEPS_EQUAL, &found), MENSUR_OK);
        check_close("equal", found, (double)powl(2.0L, (long double)semitones / 12.0L), 0, 1e-15);
        check_status("pythagorean", mensur_step_ratio(semitones, MENSUR_STEPS_PYTHAGOREAN, &found),
                     MENSUR_OK);
        check_close("pythagorean", found,
                    octaves * within_octave(pow(1.5, chain[semitones % 12].fifths)), 0, 1e-15);
        check_status("just", mensur_step_ratio(semitones, MENSUR_STEPS_JUST, &found), MENSUR_OK);
        check_close("just", found,
                    octaves * within_octave(third * pow(1.5, chain[semitones % 12].just_fifths)), 0,
                    1e-15);
    }
}

/* Computed, not published: major third 5/4, to a hundredth of a cent; which note where there are
 * two. Nut distances follow as 1 - 1/r. */
static const struct {
    int semitones;
    bool low;
    double cents;
} meantones[] = {{1, true, 76.05},   {1, false, 117.11}, {2, false, 193.16}, {3, false, 310.26},
                 {3, true, 269.21},  {4, false, 386.31}, {5, false, 503.42}, {6, true, 579.47},
                 {6, false, 620.53}, {7, false, 696.58}, {7, true, 696.58}};

static void meantone(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof meantones / sizeof meantones[0]; i++) {
        double ratio = 0.0, octave_up = 0.0;
        check_status("meantone",
                     mensur_meantone_ratio(meantones[i].semitones, meantones[i].low, &ratio),
                     MENSUR_OK);
        check_close("cents", 1200.0 * log2(ratio), meantones[i].cents, 0.006, 0);
        check_status(
            "octave",
            mensur_meantone_ratio(meantones[i].semitones + 12, meantones[i].low, &octave_up),
            MENSUR_OK);
        check_close("octave", octave_up, 2.0 * ratio, 0, 1e-15);
    }
    /* exactly: third 5/4, fifth 5^(1/4), the two semitones and the two tritones make up a tone and
     * an octave */
    double found[13][2];
    for (int s = 0; s <= 12; s++) {
        for (int low = 0; low < 2; low++) {
            check_status("known", mensur_meantone_ratio(s, low == 1, &found[s][low]), MENSUR_OK);
        }
    }
    check_close("third", found[4][0], 1.25, 0, 1e-14);
    check_close("fifth", found[7][0] * found[7][0], sqrt(5.0), 0, 1e-14);
    check_close("tone", found[1][0] * found[1][1], sqrt(1.25), 0, 1e-14);
    check_close("tritones", found[6][0] * found[6][1], 2.0, 0, 1e-14);
    check_close("sixth", found[8][1], 25.0 / 16.0, 0, 1e-14);
    check_close("third from it", found[3][0] * found[4][0], found[7][0], 0, 1e-14);
    double ratio = 0.0;
    for (int s = 1; s < 12; s++) {
        check_status("usual", mensur_step_ratio(s, MENSUR_STEPS_QUARTER_COMMA, &ratio), MENSUR_OK);
        check_close("usual", ratio, found[s][s == 6], 0, 0);
    }
    check_status("below", mensur_meantone_ratio(-1, false, &ratio), MENSUR_DOMAIN);
}

static const struct {
    const char *name;
    int semitones, steps;
} step_refusals[] = {
    {"below the string", -1, MENSUR_STEPS_EQUAL},
    {"far below", INT_MIN, MENSUR_STEPS_JUST},
    {"no spacing", 7, 9},
    {"beyond a double", 12288, MENSUR_STEPS_PYTHAGOREAN},
    {"highest whole number", INT_MAX, MENSUR_STEPS_EQUAL},
};

static void refuses_steps(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(step_refusals); i++) {
        double found = 12.5;
        check_status(step_refusals[i].name,
                     mensur_step_ratio(step_refusals[i].semitones,
                                       (enum mensur_steps)step_refusals[i].steps, &found),
                     MENSUR_DOMAIN);
        check_close(step_refusals[i].name, found, 12.5, 0, 0);
    }
}

static const struct {
    const char *name;
    double low, high, want, relative;
} cent_rows[] = {
    {"fifth", 293.7, 293.7 * 1.5, 701.95500086538742, 1e-15}, /* 1200 log2(3/2), long calculation */
    {"fifth down", 3, 2, -701.95500086538742, 1e-15},
    {"same", 440.1, 440.1, 0, 0},
    {"octave", 0.7, 1.4, 1200, 0},
    {"one part in 2^52", 1, 1 + 0x1p-52, 1200 * 0x1p-52 / 0.69314718055994531, 1e-14},
    {"just under the double", 1, 2 - 0x1p-40, 1200 - 7.8727e-10, 1e-13},
    {"far apart", 1e-60, 1e60, 1200 * 120 * 3.3219280948873623479, 1e-15},
};

static void cents(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cent_rows); i++) {
        double found;
        check_status(cent_rows[i].name, mensur_cents(cent_rows[i].low, cent_rows[i].high, &found),
                     MENSUR_OK);
        check_close(cent_rows[i].name, found, cent_rows[i].want, 0, cent_rows[i].relative);
    }
}

static void refuses_cents(void **state) {
    (void)state;
    const double pairs[][2] = {{0, 440}, {440, 0}, {-440, 440}, {NAN, 440}, {440, INFINITY}};
    for (size_t i = 0; i < COUNT_OF(pairs); i++) {
        double found = 12.5;
        check_status("cents", mensur_cents(pairs[i][0], pairs[i][1], &found), MENSUR_DOMAIN);
        check_close("cents", found, 12.5, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(open_strings), cmocka_unit_test(comma),
        cmocka_unit_test(refuses_open), cmocka_unit_test(steps),
        cmocka_unit_test(meantone),     cmocka_unit_test(refuses_steps),
        cmocka_unit_test(cents),        cmocka_unit_test(refuses_cents),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
