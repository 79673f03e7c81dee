/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Places of the fingers on a string, by the simple law (the stopped string's tension is the open
 * one's). True places, with the pitch rise of stopping, are in playing.h.
 *
 * Every size lies between 1e-60 and 1e60 of its SI unit; a function that fails leaves its results
 * untouched.
 */
#ifndef MENSUR_FINGERS_H
#define MENSUR_FINGERS_H

#include "pitch.h"
#include "status.h"

/**
 * Distance from the nut of a stopped note.
 *
 * x = L (1 - 1/ratio); equal steps: x = -L expm1(-s ln2/12)
 *
 * @param string_length  L, m, > 0, nut to bridge
 * @param semitones      s, whole semitones above the open string, >= 0; beyond the board the place
 *                       is still that of the note
 * @param steps          how the notes are spaced, any of the enum
 * @param[out] from_nut  x, m, 0 to L
 *
 * Accuracy: 1e-14 relative for the equation. The equation leaves out that a string pressed down is
 * stretched: a real finger stands up to some millimetres nearer the nut (mensur_true_place).
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range, or steps no such spacing
 *
 * Source: Euclid, Sectio canonis (pitch is proportional to 1/length); any acoustics textbook.
 * Test: tests/physics/test_fingers.c (places, refuses)
 */
enum mensur_status mensur_place(double string_length, int semitones, enum mensur_steps steps,
                                double *from_nut);

/**
 * Distance from the nut in equal temperament, for any number of semitones, whole or not.
 *
 * x = -L expm1(-s ln2/12)
 *
 * @param string_length  L, m, > 0, nut to bridge
 * @param semitones      s, any number of semitones >= 0 above the open string
 * @param[out] from_nut  x, m, 0 to L
 *
 * Accuracy: 1e-14 relative for the equation, down to the smallest interval; as mensur_place.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_place, ratio 2^(s/12).
 * Test: tests/physics/test_fingers.c (places_between, refuses)
 */
enum mensur_status mensur_place_equal(double string_length, double semitones, double *from_nut);

/**
 * Shift between the positions of two string lengths at which the hand's frame is equally wide.
 *
 * s = 12 log2(L1/L2): the frame on L2 is as wide as the frame on L1 s semitones higher
 *
 * @param length          L1, m, > 0
 * @param other_length    L2, m, > 0
 * @param[out] semitones  s, semitones; positive where the first length is the longer
 *
 * Accuracy: 1e-14 relative, near equal lengths too. Holds for equal steps; other spacings
 * differ by the cents between their steps and equal ones.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: follows from mensur_place_equal: the width of a frame is proportional to L 2^(-s/12).
 * Test: tests/physics/test_fingers.c (same_frame, refuses)
 */
enum mensur_status mensur_same_frame_apart(double length, double other_length, double *semitones);

#endif
