/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fingers fall: the places of two octaves, and the hand's frame in each position; and
 * true places, where the stopped string, which stopping stretches, sounds the note. Which length
 * shares the stretch depends on friction at nut and bridge, so there are two of each. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fingers.h"
#include "playing.h"
#include "profile.h"

/* In quarter-comma meantone these semitones stand for two notes each, so that a fret there asks
 * which. What most strings of a viol in its usual tuning want is taken: D, E flat, F and G sharp on
 * the D string. */
static const struct {
    int semitone;
    bool low;                  /* taken where nothing is asked */
    const char *name;          /* of the fret */
    const char *taken, *other; /* words of the option */
} twofold[] = {{1, false, "1", "higher", "1=low"},
               {3, false, "3", "higher", "3=low"},
               {6, true, "6", "lower", "6=high"}};

enum { TWOFOLD = sizeof twofold / sizeof twofold[0] };

enum mensur_status terms_step_ratio(const struct mensur_terms *terms, int semitones,
                                    double *ratio) {
    unsigned bit = 1u << (unsigned)(semitones < 0 ? 0 : semitones % 12);
    if (terms->steps == MENSUR_STEPS_QUARTER_COMMA && (terms->frets_asked & bit) != 0) {
        return mensur_meantone_ratio(semitones, (terms->frets_low & bit) != 0, ratio);
    }
    return mensur_step_ratio(semitones, terms->steps, ratio);
}

/* Place of a note of the chosen steps, or of equal steps where it lies between whole semitones. */
static double place_of(double length, double semitones, const struct mensur_terms *terms) {
    double x = NAN, ratio;
    double whole = round(semitones);
    if (fabs(semitones - whole) > 1e-9 || terms->steps == MENSUR_STEPS_EQUAL ||
        terms_step_ratio(terms, (int)whole, &ratio) != MENSUR_OK) {
        (void)mensur_place_equal(length, semitones, &x);
        return x;
    }
    return length * ((ratio - 1.0) / ratio);
}

void fret_remarks(const struct mensur_terms *terms, struct mensur_profile *profile) {
    double length = profile->lengths.string_length;
    for (int i = 0; i < TWOFOLD; i++) {
        double ratio = NAN;
        if (terms->steps == MENSUR_STEPS_QUARTER_COMMA && profile->frets >= twofold[i].semitone &&
            (terms->frets_asked & (1u << (unsigned)twofold[i].semitone)) == 0) {
            (void)mensur_meantone_ratio(twofold[i].semitone, !twofold[i].low, &ratio);
            mensur_facts_add(&profile->remarks, MENSUR_FACT_FRET_TAKEN,
                             MENSUR_NAMES(twofold[i].name, twofold[i].taken, twofold[i].other),
                             MENSUR_NUMBERS(profile->places[twofold[i].semitone].from_nut,
                                            length * ((ratio - 1.0) / ratio)));
        }
    }
}

/* A measured spacing, else the usual one. */
static double spacing_of(const struct setup *setup, enum mensur_field field, bool *assumed) {
    if (setup->origin[field] == SETUP_GIVEN) {
        return setup->value[field];
    }
    *assumed = true;
    return setup->family == NULL ? NAN : mensur_size_usual(&setup->size, field);
}

static void find_position(double length, const struct mensur_family *family, size_t i,
                          const struct mensur_terms *terms, struct mensur_position *out) {
    const struct mensur_hand *hand = &family->positions[i];
    out->first_semitones = hand->first;
    out->first_finger = place_of(length, hand->first, terms);
    out->fourth_finger = place_of(length, hand->first + hand->frame, terms);
    out->frame = out->fourth_finger - out->first_finger;
    snprintf(out->name, sizeof out->name, "%s", hand->name);
}

void profile_fingers(const struct setup *setup, const struct mensur_terms *terms,
                     struct mensur_profile *profile) {
    const struct mensur_family *family = setup->family;
    profile->place_count = MENSUR_RESULT_PLACES;
    for (int i = 0; i < MENSUR_RESULT_PLACES; i++) {
        profile->places[i] = (struct mensur_finger_place){
            .semitones = i, .from_nut = place_of(setup->string_length, i, terms), .to_next = NAN};
        if (i > 0) {
            profile->places[i - 1].to_next =
                profile->places[i].from_nut - profile->places[i - 1].from_nut;
        }
    }
    profile->frets = family == NULL ? NAN : family->frets;
    profile->spacing_assumed = false;
    profile->spacing_nut = spacing_of(setup, MENSUR_FIELD_SPACING_NUT, &profile->spacing_assumed);
    profile->spacing_bridge =
        spacing_of(setup, MENSUR_FIELD_SPACING_BRIDGE, &profile->spacing_assumed);
    profile->frame_semitones = family == NULL ? NAN : family->frame_semitones;
    profile->position_count = family == NULL ? 0 : family->position_count;
    for (size_t i = 0; i < profile->position_count; i++) {
        find_position(setup->string_length, family, i, terms, &profile->positions[i]);
    }
}

enum { STEPS = MENSUR_RESULT_PLACES - 1 };

struct over_board {
    const struct setup *setup;
    size_t string;
};

static double clearance_at(double x, void *context) {
    const struct over_board *over = context;
    return string_clearance(over->setup, over->string, x);
}

/* NaN where there is none. */
static double true_place(struct over_board *over, const struct mensur_stopping *string,
                         double frequency) {
    double x = NAN;
    (void)mensur_true_place(over->setup->solver, string, frequency, clearance_at, over, &x);
    return x;
}

static void find_true_places(const struct setup *setup, const struct mensur_terms *terms,
                             const struct mensur_string_figures *figures, size_t i,
                             struct mensur_true_place *places) {
    struct over_board over = {setup, i};
    const struct mensur_stopping held = string_held(setup, figures);
    const struct mensur_stopping free_to_slide = string_free(setup, figures);
    for (int s = 1; s <= STEPS; s++) {
        struct mensur_true_place *place = &places[s - 1];
        double ratio = NAN;
        *place = (struct mensur_true_place){.string = figures->string, .semitones = s};
        strcpy(place->note, figures->note);
        (void)terms_step_ratio(terms, s, &ratio);
        double frequency = ratio * figures->frequency;
        place->from_nut_low = true_place(&over, &held, frequency);
        place->from_nut_high = true_place(&over, &free_to_slide, frequency);
    }
}

enum mensur_status profile_true_places(const struct mensur_stock *stock, const struct setup *setup,
                                       const struct mensur_terms *terms,
                                       struct mensur_profile *profile) {
    struct string_model models[MENSUR_STRINGS_MAX];
    size_t count = setup->tuning == NULL ? 0 : setup->tuning->count;
    profile_models(stock, setup, terms->fifths, models);
    profile->true_places = calloc(count == 0 ? 1 : count * STEPS, sizeof *profile->true_places);
    if (profile->true_places == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        struct mensur_string_figures figures;
        string_figures(setup, &models[i], terms, i, &figures);
        if (models[i].spec != NULL && !isnan(models[i].modulus * models[i].core_area) &&
            !isnan(figures.tension) && setup->has_geometry) {
            find_true_places(setup, terms, &figures, i,
                             &profile->true_places[profile->true_place_count]);
            profile->true_place_count += STEPS;
        }
    }
    return MENSUR_OK;
}
