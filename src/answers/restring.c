/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The player's question: which strings suit this length? */
#include "restring.h"

#include <math.h>
#include <stdlib.h>

#include "nearest.h"

/* Semitones; common practice, no source; reported as assumed. */
static const double usual_margin = 1.0;

/* Farther than this two names are not alike. */
enum { FARTHEST = 2 };

static enum mensur_status check(const struct setup *setup, const struct mensur_stock *stock,
                                const struct mensur_restring_wishes *wishes,
                                struct mensur_fault *fault) {
    const char *name = setup->instrument->name;
    if (setup->tuning == NULL) {
        mensur_fault_set(fault, "%s: without a tuning no strings can be chosen; give it one", name);
    } else if (wishes->least_margin < 0.0 || isinf(wishes->least_margin)) {
        mensur_fault_set(fault, "the margin to breaking is 0 semitones or more");
    } else if (wishes->runners_up > MENSUR_RUNNERS_UP_MAX) {
        mensur_fault_set(fault, "there are %d runners-up at most", MENSUR_RUNNERS_UP_MAX);
    } else if (wishes->most_belly_force <= 0.0 || isinf(wishes->most_belly_force)) {
        mensur_fault_set(fault, "a limit on the force on the belly is more than 0 N");
    } else if (!isnan(wishes->most_belly_force) && !setup->has_geometry) {
        mensur_fault_set(fault,
                         "%s: no limit on the force on the belly can be kept, because it is not "
                         "known here; only the string length is",
                         name);
    } else if (wishes->from != NULL && !string_set_exists(stock, wishes->from)) {
        struct mensur_nearest nearest = mensur_nearest_start(wishes->from, FARTHEST);
        for (size_t i = 0; i < stock->string_count; i++) {
            mensur_nearest_take(&nearest, stock->strings[i].set);
        }
        bool none = nearest.name == NULL;
        mensur_fault_set(fault, "there is no set of strings \"%s\"%s%s%s", wishes->from,
                         none ? "" : "; did you mean \"", none ? "" : nearest.name,
                         none ? "" : "\"?");
    } else {
        return MENSUR_OK;
    }
    return MENSUR_USE;
}

/* Root mean square of the steps' differences from the wished ones. */
static double evenness_of(const struct restringer *restringer, const struct restring_set *set) {
    const struct restring_note *notes = restringer->problem.notes;
    double sum = 0.0;
    for (size_t i = 1; i < restringer->note_count; i++) {
        double before = notes[i - 1].strings[set->places[i - 1]].log_tension + notes[i - 1].step;
        double off = notes[i].strings[set->places[i]].log_tension - before;
        sum += off * off;
    }
    return restringer->note_count < 2 ? 0.0 : sqrt(sum / (double)(restringer->note_count - 1));
}

static void fill_choice(const struct restringer *restringer, const struct restring_set *set,
                        struct mensur_choice *choice) {
    choice->cost = restring_cost(set->cost);
    choice->evenness = evenness_of(restringer, set);
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct mensur_string_figures *figures = &choice->strings[i];
        struct string_model model;
        string_model_make(restringer->stock,
                          restringer->problem.notes[i].strings[set->places[i]].spec,
                          restringer->terms->fifths, &model);
        string_figures(restringer->setup, &model, restringer->terms, i, figures);
        choice->total_tension += figures->tension;
        choice->total_force_on_belly += figures->force_on_belly;
        restring_why(&restringer->aims[i], figures, &choice->why[i]);
    }
}

static enum mensur_status keep_choices(const struct restringer *restringer,
                                       const struct restring_set *sets, size_t count,
                                       struct mensur_restringing *out) {
    enum mensur_status status = MENSUR_OK;
    out->choices = calloc(count == 0 ? 1 : count, sizeof *out->choices);
    if (out->choices == NULL) {
        return MENSUR_MEMORY;
    }
    out->choice_count = count;
    for (size_t k = 0; k < count; k++) {
        fill_choice(restringer, &sets[k], &out->choices[k]);
        for (size_t i = 0; i < restringer->note_count && status == MENSUR_OK; i++) {
            status = out->choices[k].why[i].status;
        }
    }
    return status;
}

static bool each_note_has_one(const struct restringer *restringer) {
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (restringer->problem.notes[i].count == 0) {
            return false;
        }
    }
    return true;
}

/* Everything about an instrument that is ready; the answer is filled in as far as it comes. */
static enum mensur_status restring(struct restringer *restringer, struct mensur_fault *fault,
                                   struct mensur_restringing *out) {
    struct restring_set sets[RESTRING_SETS_MAX];
    size_t found = 0;
    enum mensur_status status =
        check(restringer->setup, restringer->stock, restringer->wishes, fault);
    if (status == MENSUR_OK) {
        status = profile_make(restringer->stock, restringer->setup, restringer->terms,
                              MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, fault, &out->present);
    }
    if (status == MENSUR_OK) {
        restringer->present = &out->present;
        status = restring_ready(restringer, &out->packet_names, fault);
    }
    if (status == MENSUR_OK && each_note_has_one(restringer)) {
        status = restring_search(&restringer->problem, sets, &found, &out->force_slack);
    }
    if (status == MENSUR_OK) {
        status = keep_choices(restringer, sets, found, out);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    out->string_count = restringer->note_count;
    if (isnan(restringer->wishes->least_margin)) {
        assume(&out->present.assumed, "margin in semitones", usual_margin, MENSUR_NUMBER, NULL);
    }
    if (out->present.set == NULL) { /* else its strings had the usual playing reported */
        assume_playing(restringer->terms, out->present.lengths.string_length,
                       &out->present.assumed);
    }
    restring_reason(restringer, found > 0, out->force_slack, &out->reason);
    restring_excluded(restringer, found > 0, &out->excluded);
    return out->reason.status == MENSUR_OK ? out->excluded.status : out->reason.status;
}

enum mensur_status mensur_ask_restring(const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_restring_wishes *wishes,
                                       const struct mensur_terms *terms, struct mensur_fault *fault,
                                       struct mensur_restringing *out) {
    struct setup setup;
    struct mensur_restringing restringing = {.choice_count = 0};
    struct restringer restringer = {
        .stock = stock,
        .wishes = wishes,
        .terms = terms,
        .setup = &setup,
        .least_margin = isnan(wishes->least_margin) ? usual_margin : wishes->least_margin};
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = setup_make(solver, stock, instrument, NULL, terms->hold, fault, &setup);
    }
    if (status == MENSUR_OK) {
        status = restring(&restringer, fault, &restringing);
    }
    mensur_solver_free(solver);
    mensur_profile_clear(&restringer.like);
    free(restringer.packets); /* their names are the answer's */
    free(restringer.strings);
    if (status != MENSUR_OK) {
        mensur_restringing_clear(&restringing);
        return tell_memory(status, fault);
    }
    *out = restringing;
    return MENSUR_OK;
}
