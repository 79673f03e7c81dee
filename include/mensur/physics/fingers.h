/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Places of the fingers on a string, by the simple law (the stopped string's tension is the open one's).
 */
#ifndef MENSUR_FINGERS_H
#define MENSUR_FINGERS_H

#include "pitch.h"
#include "status.h"

/** Distance from the nut of a stopped note: L (1 - 1/ratio); equal steps -L expm1(-s ln2/12). semitones whole where steps are not equal. */
enum mensur_status mensur_place(double string_length, int semitones, enum mensur_steps steps,
                                double *from_nut);

/** Distance from the nut in equal steps, semitones any number >= 0: -L expm1(-s ln2/12). */
enum mensur_status mensur_place_equal(double string_length, double semitones, double *from_nut);

/** Semitones by which positions of two lengths with the same frame stand apart: 12 log2(L1/L2). */
enum mensur_status mensur_same_frame_apart(double length, double other_length, double *semitones);

#endif
