/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of the decision: whole millimetres from the present neck to the recommended one, three
 * beyond on either side, with all that moves; and the strings that would do instead. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "decision.h"
#include "figures.h"
#include "taut_string.h"

static const double step_m = 0.001;
enum { STEPS_BEYOND = 3 };

/* Nearer than this two places are the same one. */
static const double same_place_m = 1e-9;

struct span {
    double low, high; /* m */
};

/* From the present place to the recommended one; without one, over the ends of the conflict. */
static struct span find_span(const struct search *search, const struct wish_list *list,
                             const struct mensur_decision *decision) {
    struct span span = {search->present, search->present};
    if (decision->has_recommended) {
        span.low = fmin(span.low, decision->recommended_place);
        span.high = fmax(span.high, decision->recommended_place);
    } else if (decision->conflict.exists) {
        double first = list->lines[decision->conflict.first].want.place_high;
        double second = list->lines[decision->conflict.second].want.place_low;
        span.low = fmin(span.low, first);
        span.high = fmax(span.high, second);
    }
    return span;
}

static void fill_tensions(const struct search *search, double down_factor,
                          struct mensur_step *step) {
    step->total_tension = search->string_count == 0 ? NAN : 0.0;
    for (size_t i = 0; i < search->string_count; i++) {
        step->tension[i] =
            string_model_tension(&search->models[i], step->string_length, search->frequencies[i]);
        step->total_tension += step->tension[i];
    }
    step->total_force_on_belly = step->total_tension * down_factor;
}

/* One line of the table; a place where no instrument can be made is left out of it. */
static void add_step(const struct search *search, double place, struct mensur_decision *decision) {
    struct setup setup;
    struct mensur_lengths lengths;
    if (search_setup(search, place, &setup) != MENSUR_OK) {
        return;
    }
    setup_lengths(&setup, &lengths);
    struct mensur_step *out = &decision->steps[decision->step_count++];
    *out = (struct mensur_step){.place = place,
                                .present = fabs(place - search->present) < same_place_m,
                                .recommended =
                                    fabs(place - decision->recommended_place) < same_place_m,
                                .string_length = lengths.string_length,
                                .stop_per_2_neck = lengths.stop_per_2_neck,
                                .body_at_semitones = lengths.body_at_semitones,
                                .left_reach = lengths.left_reach,
                                .bow_reach = lengths.bow_reach,
                                .bow_room = lengths.bow_room,
                                .clearance_at_board_end = lengths.clearance_at_board_end};
    fill_tensions(search, lengths.down_factor, out);
}

/* Steps of a whole millimetre counted from the present place; a recommended place between two of
 * them is put in. */
enum mensur_status decision_steps(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision) {
    struct span span = find_span(search, list, decision);
    int first = (int)floor((span.low - search->present) / step_m + 1e-6) - STEPS_BEYOND;
    int last = (int)ceil((span.high - search->present) / step_m - 1e-6) + STEPS_BEYOND;
    decision->steps = calloc((size_t)(last - first) + 2, sizeof *decision->steps);
    if (decision->steps == NULL) {
        return MENSUR_MEMORY;
    }
    double between = decision->recommended_place; /* NaN compares false: none */
    for (int k = first; k <= last; k++) {
        double place = search->present + k * step_m;
        if (between < place - same_place_m) {
            add_step(search, between, decision);
            between = NAN;
        }
        if (fabs(between - place) < same_place_m) {
            place = between;
            between = NAN;
        }
        add_step(search, place, decision);
    }
    return MENSUR_OK;
}

/* Whether a string states the lengths that it is made for, and this is one of them. */
static bool is_made_for(const struct mensur_string_spec *spec, double length) {
    double low = spec->made_for_low.value;
    double high = spec->made_for_high.value;
    return !(isnan(low) && isnan(high)) && !(length < low) && !(length > high);
}

/* Density that string i of the tuning would have at pitch, kg/m; NaN unknown. */
static double density_here(const struct search *search, const struct mensur_string_spec *spec,
                           size_t i) {
    struct string_model model;
    string_model_make(search->stock, spec, search->terms->fifths, &model);
    double tension =
        string_model_tension(&model, search->setup->string_length, search->frequencies[i]);
    return string_model_tuned_density(&model, tension);
}

/* The string of the catalogue for string i of the tuning whose density is nearest, by ratio: of
 * those made for the present length, where there are any. */
static const struct mensur_string_spec *nearest_string(const struct search *search, size_t i,
                                                       double density, double *nearest_density) {
    const struct mensur_note *note = &search->setup->tuning->notes[i];
    const struct mensur_string_spec *nearest = NULL;
    bool made_for = false;
    double least = INFINITY;
    for (size_t k = 0; k < search->stock->string_count; k++) {
        const struct mensur_string_spec *spec = &search->stock->strings[k];
        bool fits = is_made_for(spec, search->setup->string_length);
        if (strcmp(spec->note.name, note->name) != 0 || (made_for && !fits)) {
            continue;
        }
        double here = density_here(search, spec, i);
        double off = fabs(log(here / density));
        if (off < least || (fits && !made_for && !isnan(off))) {
            made_for = fits;
            least = off;
            nearest = spec;
            *nearest_density = here;
        }
    }
    return nearest;
}

/* With the neck left as it is, a string must weigh as much more as the square of the lengths to
 * pull here as the present one would on the wished length. */
static void find_instead(const struct search *search, double wished_length, size_t i,
                         struct mensur_instead *out) {
    const struct string_model *model = &search->models[i];
    double length = search->setup->string_length;
    double here = string_model_tension(model, length, search->frequencies[i]);
    double there = string_model_tension(model, wished_length, search->frequencies[i]);
    mensur_figures_unknown(MENSUR_SCOPE_INSTEAD, out);
    out->present_linear_density = string_model_tuned_density(model, here);
    out->wished_tension = there;
    out->wished_linear_density = string_model_tuned_density(model, there);
    strcpy(out->note, search->setup->tuning->notes[i].name);
    out->present_string = model->spec == NULL ? NULL : model->spec->name;
    if (mensur_density_for_tension(length, search->frequencies[i], there,
                                   &out->needed_linear_density) == MENSUR_OK) {
        const struct mensur_string_spec *nearest =
            nearest_string(search, i, out->needed_linear_density, &out->nearest_linear_density);
        out->nearest_string = nearest == NULL ? NULL : nearest->name;
    }
}

void decision_instead(const struct search *search, struct mensur_decision *decision) {
    decision->instead_count = search->string_count;
    for (size_t i = 0; i < search->string_count; i++) {
        find_instead(search, decision->wished_length, i, &decision->instead[i]);
    }
}
