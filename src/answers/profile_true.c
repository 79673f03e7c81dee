/* SPDX-License-Identifier: GPL-3.0-or-later */
/* True places: where the stopped string, which stopping stretches, sounds the note. Which length
 * shares the stretch depends on friction at nut and bridge, so there are two of each. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "playing.h"
#include "profile.h"

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
    (void)mensur_true_place(string, frequency, clearance_at, over, &x);
    return x;
}

static void find_places(const struct setup *setup, const struct mensur_terms *terms,
                        const struct mensur_string_figures *figures, size_t i,
                        struct mensur_true_place *places) {
    const double *v = setup->value;
    struct over_board over = {setup, i};
    struct mensur_stopping held = {.length = setup->string_length,
                                   .tension = figures->tension,
                                   .linear_density = figures->linear_density,
                                   .stiffness = figures->stiffness,
                                   .stretch_length = setup->string_length};
    struct mensur_stopping free_to_slide = held;
    /* Summed in another order than string_stretch_length does, which moves the last digit. */
    free_to_slide.stretch_length += v[MENSUR_FIELD_AFTERLENGTH] + v[MENSUR_FIELD_BEHIND_NUT];
    for (int s = 1; s <= STEPS; s++) {
        struct mensur_true_place *place = &places[s - 1];
        double ratio = NAN;
        *place = (struct mensur_true_place){.string = figures->string, .semitones = s};
        strcpy(place->note, figures->note);
        (void)mensur_step_ratio(s, terms->steps, &ratio);
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
            find_places(setup, terms, &figures, i,
                        &profile->true_places[profile->true_place_count]);
            profile->true_place_count += STEPS;
        }
    }
    return MENSUR_OK;
}
