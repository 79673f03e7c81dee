/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The player's question: which strings suit this length? */
#include "restring.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "nearest.h"
#include "spread.h"
#include "taut_string.h"

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
    } else if (wishes->grade < 0.0 || isinf(wishes->grade)) {
        mensur_fault_set(fault, "each string's part of its upper neighbour's tension is over 0");
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

/* Strings for the notes, as a set or as the search found them. */
struct picked {
    const struct mensur_string_spec *specs[MENSUR_STRINGS_MAX];
    const char *set; /* that they are all of; NULL: of several */
    int64_t cost;
};

/* What is found for an instrument. */
struct finding {
    struct picked picked[RESTRING_SETS_MAX + 1]; /* the recommended ones first */
    size_t count;
    struct restring_whole *sets; /* owned */
    size_t set_count;
    bool met, whole;
};

static bool are_same(const struct restringer *restringer,
                     const struct mensur_string_spec *const *one,
                     const struct mensur_string_spec *const *other) {
    return memcmp(one, other, restringer->note_count * sizeof(struct mensur_string_spec *)) == 0;
}

static const struct restring_candidate *present_of(const struct restringer *restringer, size_t i) {
    const struct restring_offer *offer = &restringer->offers[i];
    return offer->present < offer->count ? &offer->candidates[offer->present] : NULL;
}

/* The least force on the belly that a pool's strings have together, N. */
static double least_force(const struct restring_problem *problem) {
    double all = 0.0;
    for (size_t i = 0; i < problem->note_count; i++) {
        double least = INFINITY;
        for (size_t k = 0; k < problem->notes[i].count; k++) {
            least = fmin(least, problem->notes[i].strings[k].force);
        }
        all += least;
    }
    return all;
}

/* Searches one pool after the other until there is a set; in the last, which leaves no wish but the
 * limit on the belly, then the lightest. */
static enum mensur_status search_pools(struct restringer *restringer, struct finding *finding,
                                       double *slack) {
    struct restring_problem *problem = &restringer->problem;
    struct restring_set sets[RESTRING_SETS_MAX];
    enum mensur_status status = MENSUR_OK;
    size_t found = 0;
    for (int pool = RESTRING_GAINING; pool <= RESTRING_NEAREST && found == 0; pool++) {
        *slack = 0.0;
        if (restring_fill(restringer, (enum restring_pool)pool)) {
            status = restring_search(problem, sets, &found, slack);
        }
        if (status == MENSUR_OK && found == 0 && pool == RESTRING_NEAREST &&
            !isnan(problem->most_force) && isfinite(least_force(problem))) {
            problem->most_force = least_force(problem) * (1.0 + 1e-12);
            status = restring_search(problem, sets, &found, slack);
        }
        if (status != MENSUR_OK) {
            return status;
        }
        finding->met = found > 0 && pool != RESTRING_NEAREST;
    }
    for (size_t k = 0; k < found; k++) {
        struct picked *picked = &finding->picked[finding->count++];
        picked->cost = sets[k].cost;
        for (size_t i = 0; i < restringer->note_count; i++) {
            picked->specs[i] = problem->notes[i].strings[sets[k].places[i]].spec;
        }
    }
    return MENSUR_OK;
}

/* Whether all strings are to be exchanged: then a whole set goes before a mixture, unless a mixture
 * was asked for. A string that would stay is not bought again. */
static bool wants_whole(const struct restringer *restringer, const struct finding *finding) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    if (!finding->met || wishes->mix || wishes->from != NULL || wishes->packet_count > 0 ||
        finding->set_count == 0 || finding->sets[0].rank != 0) {
        return false;
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_candidate *now = present_of(restringer, i);
        if (now != NULL && now->faults == 0 && finding->picked[0].specs[i] == now->spec) {
            return false;
        }
    }
    return true;
}

/* Puts the best whole set first, where that is wanted, and names the sets that were picked. */
static void prefer_whole(const struct restringer *restringer, struct finding *finding) {
    size_t at = finding->count;
    if (wants_whole(restringer, finding)) {
        const struct restring_whole *best = &finding->sets[0];
        struct picked first = {.set = best->set, .cost = best->cost};
        memcpy(first.specs, best->specs, sizeof first.specs);
        for (size_t k = finding->count; k-- > 0;) {
            at = are_same(restringer, finding->picked[k].specs, best->specs) ? k : at;
        }
        finding->whole = at > 0;
        memmove(&finding->picked[1], &finding->picked[0], at * sizeof first);
        finding->picked[0] = first;
        finding->count += at == finding->count;
        finding->count = finding->count < restringer->problem.wanted ? finding->count
                                                                     : restringer->problem.wanted;
    }
    for (size_t k = 0; k < finding->count; k++) {
        for (size_t j = 0; j < finding->set_count && finding->picked[k].set == NULL; j++) {
            bool same = are_same(restringer, finding->picked[k].specs, finding->sets[j].specs);
            finding->picked[k].set = same ? finding->sets[j].set : NULL;
        }
    }
}

/* Root mean square of the steps' differences from the wished ones. */
static double evenness_of(const struct restringer *restringer, const double *tensions) {
    double sum = 0.0;
    for (size_t i = 1; i < restringer->note_count; i++) {
        double off = log(tensions[i]) - (log(tensions[i - 1]) + restring_step(restringer, i - 1));
        sum += off * off;
    }
    return restringer->note_count < 2 ? 0.0 : sqrt(sum / (double)(restringer->note_count - 1));
}

static enum mensur_status fill_choice(const struct restringer *restringer,
                                      const struct picked *picked, struct mensur_choice *choice) {
    double tensions[MENSUR_STRINGS_MAX];
    struct mensur_profile strung; /* with these strings */
    enum mensur_status status = MENSUR_OK;
    choice->cost = restring_cost(picked->cost);
    choice->set = picked->set;
    profile_strings_of(restringer->stock, restringer->setup, restringer->terms, picked->specs,
                       &strung);
    for (size_t i = 0; i < restringer->note_count; i++) {
        choice->strings[i] = strung.strings[i];
        tensions[i] = strung.strings[i].tension;
        choice->kept[i] = picked->specs[i] == restringer->now[i];
        restring_why(&restringer->aims[i], &strung.strings[i], choice->kept[i], &choice->why[i]);
        status = status == MENSUR_OK ? choice->why[i].status : status;
    }
    choice->total_tension = strung.total_tension;
    choice->total_force_on_belly = strung.total_force_on_belly;
    choice->force_on_treble_foot = strung.force_on_treble_foot;
    choice->force_on_bass_foot = strung.force_on_bass_foot;
    choice->neck_moment = strung.neck_moment;
    choice->evenness = evenness_of(restringer, tensions);
    choice->off_aim = restring_off_aim(restringer, tensions);
    choice->largest_step = restring_largest_step(restringer, tensions);
    return status;
}

static enum mensur_status keep_choices(const struct restringer *restringer,
                                       const struct finding *finding,
                                       struct mensur_restringing *out) {
    enum mensur_status status = MENSUR_OK;
    out->choices = calloc(finding->count + 1, sizeof *out->choices);
    out->sets = calloc(finding->set_count + 1, sizeof *out->sets);
    if (out->choices == NULL || out->sets == NULL) {
        return MENSUR_MEMORY;
    }
    out->choice_count = finding->count;
    out->set_count = finding->set_count;
    for (size_t k = 0; k < finding->count && status == MENSUR_OK; k++) {
        status = fill_choice(restringer, &finding->picked[k], &out->choices[k]);
    }
    for (size_t k = 0; k < finding->set_count && status == MENSUR_OK; k++) {
        restring_tell_set(restringer, &finding->sets[k], &out->sets[k]);
        status = out->sets[k].misses.status;
    }
    return status;
}

/* How sure the figures are, of the present strings and of those recommended. */
static enum mensur_status find_spread(const struct restringer *restringer,
                                      const struct finding *finding,
                                      struct mensur_restringing *out) {
    struct mensur_profile strung = {.lengths = out->present.lengths}; /* with those recommended */
    if (finding->count == 0) {
        return spread_profile(restringer->stock, restringer->setup, restringer->terms,
                              MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, &out->present);
    }
    profile_strings_of(restringer->stock, restringer->setup, restringer->terms,
                       finding->picked[0].specs, &strung);
    enum mensur_status status =
        spread_restring(restringer->stock, restringer->setup, restringer->terms,
                        finding->picked[0].specs, &out->present, &strung);
    out->spread = strung.spread;
    return status;
}

/* What the recommended strings miss; whether they are the present ones. */
static enum mensur_status tell_recommended(const struct restringer *restringer,
                                           const struct finding *finding,
                                           struct mensur_restringing *out) {
    struct restring_candidate strings[MENSUR_STRINGS_MAX];
    double length = out->present.lengths.string_length;
    out->met = finding->met;
    out->whole = finding->whole;
    if (finding->count == 0) {
        return MENSUR_OK;
    }
    out->leave = true;
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct mensur_string_spec *spec = finding->picked[0].specs[i];
        bool packet = restringer->packets != NULL && spec >= restringer->packets &&
                      spec < restringer->packets + restringer->wishes->packet_count;
        restring_weigh(restringer, i, spec, packet, &strings[i]);
        out->leave = out->leave && out->choices[0].kept[i];
    }
    restring_misses(restringer, strings, false, &out->misses);
    double more = pow((length + 1e-3) / length, 2.0);
    mensur_facts_add(&out->how_sure, MENSUR_FACT_LENGTH_COUNTS, NULL,
                     MENSUR_NUMBERS((more - 1.0) * out->choices[0].total_tension, more));
    return out->how_sure.status == MENSUR_OK ? out->misses.status : out->how_sure.status;
}

/* Where no strings meet every wish: what one of each note would weigh. */
static void find_needed(const struct restringer *restringer, struct mensur_restringing *out) {
    for (size_t i = 0; i < restringer->note_count && !out->met; i++) {
        const struct restring_aim *aim = &restringer->aims[i];
        const double tensions[] = {aim->tension, aim->low, aim->high, aim->course};
        struct mensur_needed *needed = &out->needed[out->needed_count];
        for (size_t k = 0; k < sizeof tensions / sizeof tensions[0]; k++) {
            if (mensur_density_for_tension(restringer->setup->string_length,
                                           restringer->frequencies[i], tensions[k],
                                           &needed->linear_density) == MENSUR_OK) {
                strcpy(needed->note, restringer->setup->tuning->notes[i].name);
                out->needed_count++;
                break;
            }
        }
    }
}

static void assume_margins(const struct restringer *restringer, struct mensur_restringing *out) {
    const size_t top = restringer->note_count - 1;
    bool gut = false;
    if (!isnan(restringer->wishes->least_margin)) {
        return;
    }
    assume(&out->present.assumed, "margin in semitones", MENSUR_BEHIND_CHOICE,
           RESTRING_USUAL_MARGIN, MENSUR_NUMBER, NULL);
    for (size_t k = 0; k < restringer->offers[top].count && !gut; k++) {
        const struct restring_candidate *candidate = &restringer->offers[top].candidates[k];
        gut = (candidate->faults & 1u << RESTRING_OTHER_CORE) == 0 &&
              restring_is_gut_top(restringer, candidate->spec, top);
    }
    if (gut) {
        assume(&out->present.assumed, "margin of a plain gut top string in semitones",
               MENSUR_BEHIND_ALL, RESTRING_USUAL_GUT_MARGIN, MENSUR_NUMBER, NULL);
    }
}

static enum mensur_status find(struct restringer *restringer, struct mensur_fault *fault,
                               struct finding *finding, struct mensur_restringing *out) {
    enum mensur_status status = search_pools(restringer, finding, &out->force_slack);
    if (status == MENSUR_OK) {
        status = restring_find_sets(restringer, &finding->sets, &finding->set_count);
    }
    if (status == MENSUR_OK) {
        prefer_whole(restringer, finding);
        status = keep_choices(restringer, finding, out);
    }
    if (status == MENSUR_OK) {
        status = tell_recommended(restringer, finding, out);
    }
    if (status == MENSUR_OK) {
        status = find_spread(restringer, finding, out);
    }
    if (status == MENSUR_OK) {
        find_needed(restringer, out);
        status = restring_order(restringer, fault, out);
    }
    return status;
}

/* Everything about an instrument that is ready; the answer is filled in as far as it comes. */
static enum mensur_status restring(struct restringer *restringer, struct mensur_fault *fault,
                                   struct mensur_restringing *out) {
    struct finding finding = {.count = 0};
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
    if (status == MENSUR_OK) {
        out->string_count = restringer->note_count;
        for (size_t i = 0; i < restringer->note_count; i++) {
            const struct restring_aim *aim = &restringer->aims[i];
            out->aims[i] = (struct mensur_aim){aim->low, aim->high, aim->tension};
        }
        status = find(restringer, fault, &finding, out);
    }
    free(finding.sets);
    if (status != MENSUR_OK) {
        return status;
    }
    assume_margins(restringer, out);
    if (out->present.set == NULL) { /* else its strings had the usual playing reported */
        assume_playing(restringer->terms, out->present.lengths.string_length,
                       &out->present.assumed);
    }
    restring_reason(restringer, out, &out->reason);
    restring_excluded(restringer, out->met, &out->excluded);
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
        .stock = stock, .wishes = wishes, .terms = terms, .setup = &setup};
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = setup_make(solver, stock, instrument, NULL, terms->hold, fault, &setup);
    }
    if (status == MENSUR_OK) {
        status = restring(&restringer, fault, &restringing);
    }
    mensur_solver_free(solver);
    restring_clear(&restringer);
    if (status != MENSUR_OK) {
        mensur_restringing_clear(&restringing);
        return tell_memory(status, fault);
    }
    *out = restringing;
    return MENSUR_OK;
}
