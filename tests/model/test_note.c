/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Written notes: key on the keyboard and place on the line of fifths. */
#include "check.h"

#include "note.h"

/* C4 is middle C, and A4 nine semitones above it, in scientific pitch notation (from memory). */
static const struct {
    const char *text, *name;
    int semitones, fifths;
} notes[] = {
    {"A4", "A4", 0, 0},
    {"a4", "A4", 0, 0},
    {"C4", "C4", -9, -3},
    {"C3", "C3", -21, -3},
    {"G3", "G3", -14, -2},
    {"D4", "D4", -7, -1},
    {"E5", "E5", 7, 1},
    {"C2", "C2", -33, -3},
    {"E1", "E1", -41, 1},
    {"F#3", "F#3", -15, 3},
    {"Gb3", "Gb3", -15, -9},
    {"Bb2", "Bb2", -23, -5},
    {"bb2", "Bb2", -23, -5},
    {"B#3", "B#3", -9, 9},
    {"Cb4", "Cb4", -10, -10},
    {"F##3", "F##3", -14, 10},
    {"Abb4", "Abb4", -2, -14},
    {"C-1", "C-1", -69, -3},
    {"B9", "B9", 62, 2},
    {"F\xE2\x99\xAF\x33", "F#3", -15, 3},
    {"B\xE2\x99\xAD\x32", "Bb2", -23, -5},
    {"F\xE2\x99\xAF#-1", "F##-1", -62, 10},
};

static void reads(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(notes); i++) {
        struct mensur_note note;
        check_status(notes[i].text, mensur_note_read(notes[i].text, strlen(notes[i].text), &note),
                     MENSUR_OK);
        assert_string_equal(note.name, notes[i].name);
        assert_int_equal(note.semitones_from_a4, notes[i].semitones);
        assert_int_equal(note.fifths_from_a, notes[i].fifths);
    }
}

/* Along the line of fifths each step is seven semitones, whole octaves aside. */
static void both_numbers_agree(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(notes); i++) {
        struct mensur_note note;
        mensur_note_read(notes[i].text, strlen(notes[i].text), &note);
        assert_int_equal(((note.semitones_from_a4 - 7 * note.fifths_from_a) % 12 + 12) % 12, 0);
    }
}

static void refuses(void **state) {
    (void)state;
    static const char *const texts[] = {"",
                                        "A",
                                        "4",
                                        "H4",
                                        "A10",
                                        "A-2",
                                        "A--1",
                                        "A4 ",
                                        " A4",
                                        "A#b4",
                                        "Ab#4",
                                        "A###4",
                                        "Abbb4",
                                        "A4#",
                                        "A4.5",
                                        "A\xE2\x99",
                                        "A\xE2\x99\xAE\x34",
                                        "A+4"};
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        struct mensur_note note = {.name = "kept", .semitones_from_a4 = 5};
        check_status(texts[i], mensur_note_read(texts[i], strlen(texts[i]), &note), MENSUR_DATA);
        assert_string_equal(note.name, "kept");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads),
        cmocka_unit_test(both_numbers_agree),
        cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
