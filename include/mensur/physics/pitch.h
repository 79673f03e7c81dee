/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Pitch of open strings and of stopped notes.
 *
 * A function that fails leaves its results untouched.
 */
#ifndef MENSUR_PITCH_H
#define MENSUR_PITCH_H

#include <stdbool.h>

#include "status.h"

/** How open strings are tuned against each other. */
enum mensur_fifths {
    MENSUR_FIFTHS_PURE, /**< by pure fifths, 3/2, from A: how bowed strings are tuned */
    MENSUR_FIFTHS_EQUAL /**< equal temperament, fifths of 2^(7/12) */
};

/** How stopped notes are spaced above the open string. */
enum mensur_steps {
    MENSUR_STEPS_EQUAL,        /**< twelve equal semitones, 2^(1/12) */
    MENSUR_STEPS_PYTHAGOREAN,  /**< by pure fifths and octaves */
    MENSUR_STEPS_JUST,         /**< five-limit: by pure fifths, thirds and octaves */
    MENSUR_STEPS_QUARTER_COMMA /**< meantone: by fifths of 5^(1/4), so that major thirds are pure */
};

/**
 * Frequency of an open string.
 *
 * pure: f = a4 (3/2)^k 2^m, m = (s - 7 k)/12; equal: f = a4 2^(s/12)
 *
 * @param semitones_from_a4  s, keys of a keyboard above A4 (C4 is -9), any whole number
 * @param fifths_from_a      k, steps along the line of fifths from A (E is 1, D is -1), any whole
 *                           number for which s - 7 k is a multiple of 12: the same note's, in equal
 *                           temperament too
 * @param a4                 frequency of A4, Hz, any positive finite number
 * @param fifths             how the strings are tuned, any of the enum
 * @param[out] frequency     f, Hz
 *
 * Accuracy: 1e-14 relative within twenty fifths of A, 1e-12 within a thousand.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range, s and k of different notes, or a
 *          frequency that a double cannot hold
 *
 * Source: ISO 16:1975 for A4 = 440 Hz (read in a reproduction); 3/2 and 2 are the pure fifth and
 * the octave; MIDI Tuning Standard for the equal steps (read in a quotation).
 * Test: tests/physics/test_pitch.c (open_strings, refuses_open), test_published.c (topic 2),
 * reference_pitch.mjs
 */
enum mensur_status mensur_open_frequency(int semitones_from_a4, int fifths_from_a, double a4,
                                         enum mensur_fifths fifths, double *frequency);

/**
 * Ratio of a step above the open string.
 *
 * equal: r = 2^(s/12). Pythagorean, from 0 to 11: 1/1, 256/243, 9/8, 32/27, 81/64, 4/3, 729/512,
 * 3/2, 128/81, 27/16, 16/9, 243/128. Just: 1/1, 16/15, 9/8, 6/5, 5/4, 4/3, 45/32, 3/2, 8/5, 5/3,
 * 9/5, 15/8. Quarter-comma: as mensur_meantone_ratio, semitones 1 and 3 high, 6 low. Each octave
 * doubles.
 *
 * The Pythagorean tritone is the augmented fourth. Of the just forms of the minor seventh and the
 * tritone, 9/5 and 45/32 are common five-limit choices, not the only ones.
 *
 * @param semitones   s, whole semitones above the open string, 0 to 12287
 * @param steps       how the notes are spaced, any of the enum
 * @param[out] ratio  r, unitless, >= 1
 *
 * Accuracy: the nearest double for the fractions, 1e-15 relative for equal steps.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: the definitions file of GNU units (versions 3.22 and 2.22), section Musical measures, has
 * the octave, 9/8, 6/5, 5/4, 4/3, 3/2, 8/5, 5/3, 9/5, 15/8 and 81/64; the rest follow by fifths and
 * thirds.
 * Test: tests/physics/test_pitch.c (steps, refuses_steps), reference_units.sh
 */
enum mensur_status mensur_step_ratio(int semitones, enum mensur_steps steps, double *ratio);

/**
 * Ratio of a step in quarter-comma meantone, whose major third is 5/4.
 *
 * r = 5^(k/4) 2^m with k fifths up from the open string, 0 to 11 semitones: 0, -5 (low: 7), 2, -3
 * (low: 9), 4, -1, -6 (low: 6), 1, -4 (low: 8), 3, -2, 5; m such that 1 <= r < 2
 *
 * @param semitones   s, whole semitones above the open string, 0 to 12287
 * @param low         of the two notes at semitone 1, 3, 6 or 8 the lower one: chromatic semitone,
 *                    augmented second, augmented fourth, augmented fifth; else the higher one:
 *                    diatonic semitone, minor third, diminished fifth, minor sixth. No matter
 *                    elsewhere
 * @param[out] ratio  r, unitless, >= 1
 *
 * Accuracy: 1e-14 relative.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: the definition (major third 5/4, four equal fifths to it and two octaves); any book on
 * temperament.
 * Test: tests/physics/test_pitch.c (meantone, refuses_steps)
 */
enum mensur_status mensur_meantone_ratio(int semitones, bool low, double *ratio);

/**
 * Interval between two frequencies.
 *
 * cents = 1200 log2(high/low)
 *
 * @param low         Hz (or any unit of both), > 0: 1e-60 to 1e60
 * @param high        the same unit, > 0; may be the lower one
 * @param[out] cents  cents, negative where high is the lower
 *
 * Accuracy: 1e-14 relative, for frequencies as near as two doubles can be.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: A. J. Ellis's cent (1885, cited from memory); the definition is in the file of GNU units
 * 3.22, section Musical measures.
 * Test: tests/physics/test_pitch.c (cents, refuses_cents), test_published.c (topic 2)
 */
enum mensur_status mensur_cents(double low, double high, double *cents);

#endif
