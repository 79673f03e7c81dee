/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places of the fingers by the simple law: pitch is proportional to 1/length, so the place of a
 * step of ratio r is L (1 - 1/r) from the nut. */
#include "fingers.h"

#include "domain.h"

enum mensur_status mensur_place(double string_length, int semitones, enum mensur_steps steps,
                                double *from_nut) {
    if (steps == MENSUR_STEPS_EQUAL) {
        return mensur_place_equal(string_length, semitones, from_nut);
    }
    double ratio;
    enum mensur_status status = mensur_step_ratio(semitones, steps, &ratio);
    if (status != MENSUR_OK) {
        return status;
    }
    if (!is_positive(string_length)) {
        return MENSUR_DOMAIN;
    }
    /* ratio - 1 is exact up to the octave. */
    return give(string_length * ((ratio - 1.0) / ratio), from_nut);
}

enum mensur_status mensur_place_equal(double string_length, double semitones, double *from_nut) {
    if (!is_positive(string_length) || !is_not_negative(semitones)) {
        return MENSUR_DOMAIN;
    }
    return give(-string_length * expm1(-semitones * (MENSUR_LN2 / 12.0)), from_nut);
}

enum mensur_status mensur_same_frame_apart(double length, double other_length, double *semitones) {
    if (!is_positive(length) || !is_positive(other_length)) {
        return MENSUR_DOMAIN;
    }
    return give(12.0 * octaves_between(other_length, length), semitones);
}
