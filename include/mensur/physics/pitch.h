/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Pitch of open strings and of stopped notes.
 */
#ifndef MENSUR_PITCH_H
#define MENSUR_PITCH_H

#include "status.h"

/** How open strings are tuned against each other. */
enum mensur_fifths { MENSUR_FIFTHS_PURE, MENSUR_FIFTHS_EQUAL };

/** How stopped notes are spaced above the open string. */
enum mensur_steps { MENSUR_STEPS_EQUAL, MENSUR_STEPS_PYTHAGOREAN, MENSUR_STEPS_JUST };

/** Frequency in Hz of an open string; pure: a4 (3/2)^fifths 2^m with m = (semitones - 7 fifths)/12; equal: a4 2^(semitones/12). */
enum mensur_status mensur_open_frequency(int semitones_from_a4, int fifths_from_a, double a4,
                                         enum mensur_fifths fifths, double *frequency);

/** Ratio of a step of 0 to 24 (or more) whole semitones above the open string. */
enum mensur_status mensur_step_ratio(int semitones, enum mensur_steps steps, double *ratio);

/** Cents between two frequencies: 1200 log2(high/low). */
enum mensur_status mensur_cents(double low, double high, double *cents);

#endif
