/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "fingers.h"

#include <limits.h>

static const double lengths[] = {0.328, 0.3757, 0.69, 0.0413, 1.06};

static void places(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(lengths); i++) {
        for (int semitones = 0; semitones <= 31; semitones++) {
            for (int steps = MENSUR_STEPS_EQUAL; steps <= MENSUR_STEPS_JUST; steps++) {
                double place, ratio;
                check_status("ratio",
                             mensur_step_ratio(semitones, (enum mensur_steps)steps, &ratio),
                             MENSUR_OK);
                check_status("place",
                             mensur_place(lengths[i], semitones, (enum mensur_steps)steps, &place),
                             MENSUR_OK);
                check_close("sounding part", lengths[i] - place, lengths[i] / ratio, 0, 1e-14);
            }
        }
    }
}

/* Fractions of the string, by Pythagoras: fourth at a quarter, fifth at a third, octave at half. */
static const struct {
    int semitones;
    enum mensur_steps steps;
    double over, under;
} fractions[] = {
    {0, MENSUR_STEPS_JUST, 0, 1},           {1, MENSUR_STEPS_JUST, 1, 16},
    {2, MENSUR_STEPS_JUST, 1, 9},           {4, MENSUR_STEPS_JUST, 1, 5},
    {5, MENSUR_STEPS_PYTHAGOREAN, 1, 4},    {7, MENSUR_STEPS_JUST, 1, 3},
    {12, MENSUR_STEPS_EQUAL, 1, 2},         {19, MENSUR_STEPS_PYTHAGOREAN, 2, 3},
    {1, MENSUR_STEPS_PYTHAGOREAN, 13, 256}, {24, MENSUR_STEPS_JUST, 3, 4},
};

static void simple_fractions(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(fractions); i++) {
        double place;
        check_status("fraction",
                     mensur_place(0.3757, fractions[i].semitones, fractions[i].steps, &place),
                     MENSUR_OK);
        check_close("fraction", place, 0.3757 * fractions[i].over / fractions[i].under, 0, 1e-14);
    }
}

static void places_between(void **state) {
    (void)state;
    const double semitones[] = {1e-50, 3.7e-9, 0.01, 0.5, 1, 2.37, 11.999, 24, 36.6, 1e5};
    for (size_t i = 0; i < COUNT_OF(semitones); i++) {
        double place;
        check_status("between", mensur_place_equal(0.3757, semitones[i], &place), MENSUR_OK);
        long double want = -0.3757L * expm1l(-(long double)semitones[i] * logl(2.0L) / 12.0L);
        check_close("between", place, (double)want, 0, 1e-14);
    }
    double place;
    check_status("nut", mensur_place_equal(0.3757, 0, &place), MENSUR_OK);
    check_close("nut", place, 0, 0, 0);
}

/* The frames on two strings are equally wide, that many semitones apart. */
static void same_frame(void **state) {
    (void)state;
    for (size_t i = 0; i + 1 < COUNT_OF(lengths); i++) {
        double apart, low, high, other_low, other_high;
        check_status("apart", mensur_same_frame_apart(lengths[i], lengths[i + 1], &apart),
                     MENSUR_OK);
        double shift = apart < 0 ? 12 * ceil(-apart / 12) : 0;
        check_status("frame", mensur_place_equal(lengths[i], 3 + shift + apart, &low), MENSUR_OK);
        check_status("frame", mensur_place_equal(lengths[i], 8 + shift + apart, &high), MENSUR_OK);
        check_status("frame", mensur_place_equal(lengths[i + 1], 3 + shift, &other_low), MENSUR_OK);
        check_status("frame", mensur_place_equal(lengths[i + 1], 8 + shift, &other_high),
                     MENSUR_OK);
        check_close("frame", high - low, other_high - other_low, 0, 1e-12);
    }
    double apart;
    check_status("same", mensur_same_frame_apart(0.37, 0.37, &apart), MENSUR_OK);
    check_close("same", apart, 0, 0, 0);
    check_status("near", mensur_same_frame_apart(0.5 + 0x1p-53, 0.5, &apart), MENSUR_OK);
    check_close("near", apart, 12 * 0x1p-52 / 0.69314718055994530942, 0, 1e-14);
}

static const struct {
    const char *name;
    double length;
    int semitones, steps;
} refusals[] = {
    {"no string", 0, 2, MENSUR_STEPS_EQUAL},
    {"length unknown", NAN, 2, MENSUR_STEPS_JUST},
    {"length infinite", INFINITY, 2, MENSUR_STEPS_PYTHAGOREAN},
    {"behind the nut", 0.328, -1, MENSUR_STEPS_EQUAL},
    {"behind the nut", 0.328, -1, MENSUR_STEPS_JUST},
    {"far behind", 0.328, INT_MIN, MENSUR_STEPS_EQUAL},
    {"no such steps", 0.328, 2, 5},
};

static void refuses(void **state) {
    (void)state;
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        check_status(refusals[i].name,
                     mensur_place(refusals[i].length, refusals[i].semitones,
                                  (enum mensur_steps)refusals[i].steps, &found),
                     MENSUR_DOMAIN);
    }
    check_status("no string", mensur_place_equal(-0.328, 2, &found), MENSUR_DOMAIN);
    check_status("behind", mensur_place_equal(0.328, -1e-9, &found), MENSUR_DOMAIN);
    check_status("unknown", mensur_place_equal(0.328, NAN, &found), MENSUR_DOMAIN);
    check_status("no string", mensur_same_frame_apart(0, 0.3, &found), MENSUR_DOMAIN);
    check_status("unknown", mensur_same_frame_apart(0.3, NAN, &found), MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places),         cmocka_unit_test(simple_fractions),
        cmocka_unit_test(places_between), cmocka_unit_test(same_frame),
        cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
