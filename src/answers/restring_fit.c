/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings of the catalogue fit each note of an instrument, and what keeps the others away. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"
#include "taut_string.h"

static bool is_of_note(const struct mensur_string_spec *spec, const struct mensur_note *note) {
    return spec->note.semitones_from_a4 == note->semitones_from_a4 &&
           spec->note.fifths_from_a == note->fifths_from_a;
}

static bool is_offered(const struct restringer *restringer, const struct mensur_string_spec *spec,
                       const struct mensur_note *note) {
    const char *from = restringer->wishes->from;
    return is_of_note(spec, note) &&
           (from == NULL || (spec->set != NULL && strcmp(spec->set, from) == 0));
}

/* Semitones to breaking; NaN where the strength is not known. */
static double margin_of(const struct string_model *model, double tension) {
    double stress = NAN;
    double margin = NAN;
    (void)mensur_stress(tension, model->core_area, &stress);
    (void)mensur_breaking_margin(stress, model->strength, &margin);
    return margin;
}

/* What keeps a string that pulls `tension` away from note i; 0: nothing. What is not known, a side
 * of the range that is not stated or a strength, keeps none away. */
static int faults_of(const struct restringer *restringer, const struct string_model *model,
                     size_t i, double tension) {
    const struct restring_aim *aim = &restringer->aims[i];
    double length = restringer->setup->string_length;
    int faults = 0;
    if (isnan(tension)) {
        faults |= RESTRING_FAULT_PULL;
    }
    if (!restringer->wishes->any_length &&
        (length < model->spec->made_for_low.value || length > model->spec->made_for_high.value)) {
        faults |= RESTRING_FAULT_LENGTH;
    }
    if (margin_of(model, tension) < restringer->least_margin) {
        faults |= RESTRING_FAULT_MARGIN;
    }
    if (tension < aim->low) {
        faults |= RESTRING_FAULT_LIGHT;
    }
    if (tension > aim->high) {
        faults |= RESTRING_FAULT_HEAVY;
    }
    return faults;
}

static void count_faults(int faults, struct restring_tally *tally) {
    tally->all++;
    tally->only_length += faults == RESTRING_FAULT_LENGTH;
    tally->only_margin += faults == RESTRING_FAULT_MARGIN;
    tally->only_tension += faults == RESTRING_FAULT_LIGHT || faults == RESTRING_FAULT_HEAVY;
    if ((faults & RESTRING_FAULT_PULL) != 0) {
        tally->no_pull++;
    } else if ((faults & RESTRING_FAULT_LENGTH) != 0) {
        tally->length++;
    } else if ((faults & RESTRING_FAULT_MARGIN) != 0) {
        tally->margin++;
    } else if ((faults & RESTRING_FAULT_LIGHT) != 0) {
        tally->light++;
    } else if ((faults & RESTRING_FAULT_HEAVY) != 0) {
        tally->heavy++;
    } else {
        tally->fit++;
    }
}

/* Puts a string among those of note i if it fits. */
static void weigh(struct restringer *restringer, size_t i, const struct mensur_string_spec *spec) {
    struct restring_note *note = &restringer->problem.notes[i];
    struct string_model model;
    string_model_make(restringer->stock, spec, restringer->terms->fifths, &model);
    double tension =
        string_model_tension(&model, restringer->setup->string_length, restringer->frequencies[i]);
    int faults = faults_of(restringer, &model, i, tension);
    count_faults(faults, &restringer->tallies[i]);
    if (faults == 0) {
        bool limited = !isnan(restringer->wishes->most_belly_force);
        note->strings[note->count++] = (struct restring_string){
            .pull = log(tension),
            .force = limited ? tension * restringer->setup->geometry.down_factor : 0.0,
            .spec = spec};
    }
}

/* The wished log step from note i to the next. */
static double step_after(const struct restringer *restringer, size_t i) {
    const struct restring_aim *aim = &restringer->aims[i];
    const struct restring_aim *next = aim + 1;
    if (i + 1 == restringer->note_count) {
        return 0.0;
    }
    double step = log(next->tension) - log(aim->tension);
    if (isnan(step)) {
        step = log(next->course) - log(aim->course);
    }
    return isfinite(step) ? step : 0.0;
}

static size_t count_offered(const struct restringer *restringer, size_t i) {
    const struct mensur_note *note = &restringer->setup->tuning->notes[i];
    size_t count = 0;
    for (size_t k = 0; k < restringer->stock->string_count; k++) {
        count += is_offered(restringer, &restringer->stock->strings[k], note);
    }
    for (size_t k = 0; k < restringer->wishes->packet_count; k++) {
        count += is_of_note(&restringer->packets[k], note);
    }
    return count;
}

static void fit_note(struct restringer *restringer, size_t i) {
    const struct mensur_note *note = &restringer->setup->tuning->notes[i];
    for (size_t k = 0; k < restringer->stock->string_count; k++) {
        if (is_offered(restringer, &restringer->stock->strings[k], note)) {
            weigh(restringer, i, &restringer->stock->strings[k]);
        }
    }
    for (size_t k = 0; k < restringer->wishes->packet_count; k++) {
        if (is_of_note(&restringer->packets[k], note)) {
            weigh(restringer, i, &restringer->packets[k]);
        }
    }
    restringer->problem.notes[i].aim = log(restringer->aims[i].tension);
    restringer->problem.notes[i].step = step_after(restringer, i);
}

enum mensur_status restring_fit(struct restringer *restringer) {
    size_t offered[MENSUR_STRINGS_MAX];
    size_t all = 0;
    const size_t count = restringer->note_count;
    for (size_t i = 0; i < count; i++) {
        offered[i] = count_offered(restringer, i);
        all += offered[i];
    }
    restringer->strings = calloc(all == 0 ? 1 : all, sizeof *restringer->strings);
    if (restringer->strings == NULL) {
        return MENSUR_MEMORY;
    }
    struct restring_string *next = restringer->strings;
    restringer->problem =
        (struct restring_problem){.note_count = count,
                                  .most_force = restringer->wishes->most_belly_force,
                                  .wanted = 1 + restringer->wishes->runners_up};
    for (size_t i = 0; i < count; i++) {
        restringer->problem.notes[i].strings = next;
        next += offered[i];
        fit_note(restringer, i);
    }
    return MENSUR_OK;
}
