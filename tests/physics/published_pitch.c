/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topic 2 of the published table: pitch, cents and commas, places of the fingers. */
#include "published_checks.h"

#include "check.h"
#include "fingers.h"
#include "pitch.h"

/* Semitones and fifths from A4 of a letter and an octave. */
static void note_at(const char *text, int *semitones, int *fifths) {
    static const int keys[7] = {9, 11, 0, 2, 4, 5, 7};     /* A to G, above C */
    static const int along[7] = {0, 2, -3, -1, 1, -4, -2}; /* the same, along the fifths */
    int letter = text[0] - 'A';
    assert_in_range(letter, 0, 6);
    *semitones = keys[letter] + 12 * (text[1] - '0') - 57;
    *fifths = along[letter];
}

/* Frequencies of the notes that inputs begin with. */
static size_t notes(const struct published_row *row, enum mensur_fifths tuning, double *out) {
    size_t count = 0;
    const char *text = row->cells[INPUTS];
    while (*text >= 'A' && *text <= 'G') {
        int semitones, fifths;
        note_at(text, &semitones, &fifths);
        MUST(mensur_open_frequency(semitones, fifths, 440, tuning, &out[count++]));
        text += text[2] == ' ' ? 3 : 2;
    }
    return count;
}

static size_t equal_notes(const struct published_row *row, double *out) {
    return notes(row, MENSUR_FIFTHS_EQUAL, out);
}

static size_t pure_notes(const struct published_row *row, double *out) {
    return notes(row, MENSUR_FIFTHS_PURE, out);
}

static size_t pure_against_equal(const struct published_row *row, double *out) {
    double pure[VALUES_MOST], equal[VALUES_MOST];
    assert_int_equal(notes(row, MENSUR_FIFTHS_PURE, pure), 1);
    assert_int_equal(notes(row, MENSUR_FIFTHS_EQUAL, equal), 1);
    MUST(mensur_cents(equal[0], pure[0], out));
    return 1;
}

/* A key's number in MIDI; 69 is A4, and s = 7 k mod 12 gives a spelling to any key. */
static double key_frequency(const struct published_row *row, double n, double a4) {
    int semitones = (int)n - 69;
    double frequency = NAN;
    MUST(mensur_open_frequency(semitones, 7 * semitones, a4, MENSUR_FIFTHS_EQUAL, &frequency));
    return frequency;
}

static size_t midi_note(const struct published_row *row, double *out) {
    out[0] = key_frequency(row, number_after(row->cells[INPUTS], "n="), 440);
    return 1;
}

static size_t midi_other_a(const struct published_row *row, double *out) {
    out[0] = key_frequency(row, number_after(row->cells[INPUTS], "n="),
                           number_after(row->cells[INPUTS], "A="));
    return 1;
}

static size_t midi_ends(const struct published_row *row, double *out) {
    out[0] = key_frequency(row, number_after(row->cells[INPUTS], "n="), 440);
    out[1] = key_frequency(row, number_after(row->cells[INPUTS], "; n="), 440);
    return 2;
}

static size_t midi_numbers(const struct published_row *row, double *out) {
    double frequencies[VALUES_MOST];
    size_t count = 0;
    for (const char *text = row->cells[INPUTS]; text != NULL && *text != '\0';
         text = strchr(text + 1, 'f')) {
        frequencies[count++] = number_after(text, "f=");
    }
    for (size_t i = 0; i < count; i++) {
        double cents;
        MUST(mensur_cents(440, frequencies[i], &cents));
        out[i] = 69 + cents / 100;
    }
    return count;
}

static size_t octave_and_semitone(const struct published_row *row, double *out) {
    double ratio;
    MUST(mensur_cents(1, 2, &out[0]));
    MUST(mensur_step_ratio(1, MENSUR_STEPS_EQUAL, &ratio));
    MUST(mensur_cents(1, ratio, &out[1]));
    return 2;
}

static size_t just_ratios(const struct published_row *row, double *out) {
    const int semitones[] = {7, 5, 4, 3, 2, 9};
    for (size_t i = 0; i < COUNT_OF(semitones); i++) {
        MUST(mensur_step_ratio(semitones[i], MENSUR_STEPS_JUST, &out[i]));
    }
    return COUNT_OF(semitones);
}

/* Twelve fifths over seven octaves: the same key of a keyboard under two names. */
static size_t pythagorean_comma(const struct published_row *row, double *out) {
    double spelt;
    MUST(mensur_open_frequency(0, 12, 440, MENSUR_FIFTHS_PURE, &spelt));
    MUST(mensur_cents(440, spelt, out));
    return 1;
}

static size_t syntonic_comma(const struct published_row *row, double *out) {
    double pythagorean, just;
    MUST(mensur_step_ratio(4, MENSUR_STEPS_PYTHAGOREAN, &pythagorean));
    MUST(mensur_step_ratio(4, MENSUR_STEPS_JUST, &just));
    MUST(mensur_cents(just, pythagorean, out));
    return 1;
}

static size_t steps_in_cents(const struct published_row *row, const int *semitones, size_t count,
                             enum mensur_steps steps, double *out) {
    for (size_t i = 0; i < count; i++) {
        double ratio;
        MUST(mensur_step_ratio(semitones[i], steps, &ratio));
        MUST(mensur_cents(1, ratio, &out[i]));
    }
    return count;
}

static size_t pure_intervals(const struct published_row *row, double *out) {
    return steps_in_cents(row, (const int[]){7, 5, 4}, 3, MENSUR_STEPS_JUST, out);
}

static size_t pythagorean_intervals(const struct published_row *row, double *out) {
    steps_in_cents(row, (const int[]){4, 2, 1}, 3, MENSUR_STEPS_PYTHAGOREAN, out);
    MUST(mensur_cents(2048, 2187, &out[3]));
    return 4;
}

static size_t fractions_in_cents(const struct published_row *row, double *out) {
    double ratios[VALUES_MOST];
    size_t count = expected_numbers(row->cells[INPUTS], ratios, VALUES_MOST);
    for (size_t i = 0; i < count; i++) {
        MUST(mensur_cents(1, ratios[i], &out[i]));
    }
    return count;
}

static size_t tempered_places(const struct published_row *row, double *out) {
    double semitones[VALUES_MOST];
    double length = number_after(row->cells[INPUTS], "L=") / 1000;
    size_t count = numbers_after(row->cells[INPUTS], "; n=", semitones, VALUES_MOST);
    for (size_t i = 0; i < count; i++) {
        MUST(mensur_place(length, (int)semitones[i], MENSUR_STEPS_EQUAL, &out[i]));
        out[i] *= 1000;
    }
    return count;
}

static size_t pure_places(const struct published_row *row, double *out) {
    const int semitones[] = {2, 5, 7, 12};
    double length = number_after(row->cells[INPUTS], "L=") / 1000;
    for (size_t i = 0; i < COUNT_OF(semitones); i++) {
        MUST(mensur_place(length, semitones[i], MENSUR_STEPS_JUST, &out[i]));
        out[i] *= 1000;
    }
    return COUNT_OF(semitones);
}

#define T2 "2 pitch"
#define TEMPERED "tempered stop distance from the nut"

const struct published_check pitch_checks[] = {
    {"1 taut string", "open-string frequencies, equal temperament", "E4 B3 G3 D3 A2 E2 at A4=440",
     equal_notes, NULL, NULL},
    {T2, "MIDI note to frequency", "f=440*2^((n-69)/12); n=60", midi_note, NULL, NULL},
    {T2, "MIDI note with other A", "n=69; A=443", midi_other_a, NULL, NULL},
    {T2, "frequency to MIDI number", "f=220; f=261.62; f=261", midi_numbers, NULL, NULL},
    {T2, "MIDI range ends", "n=0; n=127", midi_ends, NULL, NULL},
    {T2, "cent", "ratio 2^(1/1200): cents=1200 log2(ratio)", octave_and_semitone, NULL, NULL},
    {T2, "just intervals as ratios",
     "fifth; fourth; major third; minor third; major second; major sixth", just_ratios, NULL, NULL},
    {T2, "Pythagorean comma", "(3/2)^12/2^7 = 531441/524288", pythagorean_comma, NULL, NULL},
    {T2, "syntonic comma", "(81/64)/(5/4) = 81/80", syntonic_comma, NULL, NULL},
    {T2, "pure fifth; pure fourth; pure major third", "3/2; 4/3; 5/4", pure_intervals, NULL, NULL},
    {T2, "Pythagorean third; whole tone; limma; apotome", "81/64; 9/8; 256/243; 2187/2048",
     pythagorean_intervals, NULL, NULL},
    {T2, "schisma; minor whole tone; just semitone", "32805/32768; 10/9; 16/15", fractions_in_cents,
     NULL, NULL},
    {T2, "bowed open strings, equal temperament", "C2 G2 D3 A3 C3 G3 D4 A4 E5, A4=440", equal_notes,
     NULL, NULL},
    {T2, "bowed open strings tuned in pure fifths from A4=440", "C3 G3 D4 A4 E5", pure_notes, NULL,
     NULL},
    {T2, "viola C: pure fifths against equal temperament", "C3", pure_against_equal, NULL, NULL},
    {T2, TEMPERED, "x=L(1-2^(-n/12)); L=328 mm; n=1,2,3,4,5,7,12", tempered_places, NULL, NULL},
    {T2, TEMPERED, "L=375 mm; n=1,2,3,4,5,7,12", tempered_places, NULL, NULL},
    {T2, "pure stop distance from the nut", "x=L(1-1/ratio); L=328 mm; ratios 9/8, 4/3, 3/2, 2",
     pure_places, NULL, NULL},
};
const size_t pitch_check_count = COUNT_OF(pitch_checks);
