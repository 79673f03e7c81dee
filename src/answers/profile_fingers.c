/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fingers fall: the places of two octaves, and the hand's frame in each position. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fingers.h"
#include "profile.h"

/* Place of a note of the chosen steps, or of equal steps where it lies between whole semitones. */
static double place_of(double length, double semitones, enum mensur_steps steps) {
    double x = NAN;
    double whole = round(semitones);
    if (fabs(semitones - whole) > 1e-9 ||
        mensur_place(length, (int)whole, steps, &x) != MENSUR_OK) {
        (void)mensur_place_equal(length, semitones, &x);
    }
    return x;
}

static void find_places(double length, enum mensur_steps steps, struct mensur_profile *profile) {
    profile->place_count = MENSUR_RESULT_PLACES;
    for (size_t i = 0; i < MENSUR_RESULT_PLACES; i++) {
        profile->places[i] = (struct mensur_finger_place){
            .semitones = (double)i, .from_nut = place_of(length, (double)i, steps), .to_next = NAN};
        if (i > 0) {
            profile->places[i - 1].to_next =
                profile->places[i].from_nut - profile->places[i - 1].from_nut;
        }
    }
}

static void find_position(double length, const struct mensur_family *family, size_t i,
                          enum mensur_steps steps, struct mensur_position *out) {
    double first = family->positions[i];
    out->first_semitones = first;
    out->first_finger = place_of(length, first, steps);
    out->fourth_finger = place_of(length, first + family->frame_semitones, steps);
    out->frame = out->fourth_finger - out->first_finger;
    if (i == 0) {
        strcpy(out->name, "half");
    } else {
        snprintf(out->name, sizeof out->name, "%u", (unsigned)i % 100u);
    }
}

void profile_fingers(const struct setup *setup, const struct mensur_terms *terms,
                     struct mensur_profile *profile) {
    const struct mensur_family *family = setup->family;
    find_places(setup->string_length, terms->steps, profile);
    profile->frame_semitones = family == NULL ? NAN : family->frame_semitones;
    profile->position_count = family == NULL ? 0 : family->position_count;
    for (size_t i = 0; i < profile->position_count; i++) {
        find_position(setup->string_length, family, i, terms->steps, &profile->positions[i]);
    }
}
