/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best sets, by a dynamic program along the notes that keeps labels.
 *
 * A state is a note and the tension of its string: what the rest of a set costs depends on nothing
 * else, and what it may press with on nothing but the force so far. A label is a way from the first
 * note to a state, with its cost and force. It is dropped where as many others as sets are wanted
 * come to its state with no more force and less cost, or the same cost and first in the catalogue's
 * order: whatever completes it completes each of them.
 *
 * So that few labels are made, each has a bound: the least that a set costs with it, solved from
 * the last note back, with a price on force in the place of the limit. At any price, cost + price
 * (force - limit) is no more than the cost of a set within the limit (H. Everett, Oper. Res. 11
 * (1963) 399-417; M. L. Fisher, Manage. Sci. 27 (1981) 1-18; both from memory). Each label,
 * completed as its bound was, is a set; a label goes no farther where its bound is over the cost of
 * the last of the best sets so met.
 *
 * A choice under a limit is a knapsack, and labels that none is better than may double with each
 * note. Where more than LABELS_MAX come to a state, some are dropped for others that are heavier by
 * a part of the limit; the least part that is enough, and no more than a LABELS_MAX-th. A first
 * pass with fewer labels finds sets near the best, under whose cost few are left in the next; where
 * that one takes too long, what the first has merged is what the answer states. */
#include "restring_search.h"

#include <math.h>
#include <stdlib.h>

enum {
    LABELS_MAX = 2000, /* of a state, until they are merged */
    LABELS_FIRST = 32, /* the same in the first pass; no fewer than sets can be wanted */
    PASSES_MAX = 3,
    STEPS_MAX = 1 << 22, /* from a label to a state, in a pass after the first; about 1 s */
    PRICES_MAX = 8,      /* tried; any price makes a bound that holds */
    HALVINGS_MAX = 31    /* of the part of the limit that labels are merged within */
};

/* No priced force may come near the end of what 64 bits hold. */
static const double most_priced = 1152921504606846976.0; /* 2^60 */

/* A string; those of a note stand in the order of log_tension, own cost, force and place. */
struct option {
    double log_tension;
    double force;
    int64_t extra;
    size_t place;
};

/* The strings of one tension and one cost of their own at a note. `rest` is what the notes after it
 * cost at least, priced. */
struct state {
    const struct option *options; /* the lightest first */
    size_t option_count;
    double log_tension;
    double force; /* N, of the lightest */
    int64_t own;  /* their own cost, and that against the note's aim */
    double rest;
    const struct state *next; /* the state of the next note that gives `rest`; NULL: no note */
    int64_t rest_cost;        /* of the strings that give `rest` */
    double rest_force;        /* N, the same */
    double least;             /* `rest` with the lightest of its own strings */
    double least_below;       /* the least `least` of the note's states up to this one */
    double least_above;       /* ... from this one on */
    size_t label_first, label_count;
};

/* A way from the first note to a string. */
struct label {
    const struct label *before; /* NULL: none */
    int64_t cost;
    double priced; /* cost and the price of the force */
    double force;  /* N */
    size_t place;
};

/* A note. */
struct stage {
    struct state *states; /* in the order of tension */
    size_t state_count;
    double step;           /* wished log step to the next note */
    double lightest_after; /* N: the least force of the notes after it */
    struct label *labels;  /* owned; those of a state together, the least priced first */
    size_t label_count, label_room;
    double least_priced; /* of the labels */
    double merged;       /* N: a label was dropped for others heavier by up to this; 0: none was */
};

struct search {
    const struct restring_problem *problem;
    size_t stage_count;
    struct stage stages[MENSUR_STRINGS_MAX];
    struct option *options; /* owned: of all notes */
    struct state *states;   /* owned: of all notes */
    double limit;           /* N; infinite: none */
    double lightest;        /* N: the least force of a set */
    double heaviest;        /* N: sum over notes of the largest amounts of force */
    double rounding;        /* N: sums of force in another order differ by less */
    double price;           /* parts of cost for 1 N */
    double allowance;       /* price of the limit */
    struct restring_set *sets;
    size_t found;
    size_t labels_max; /* of a state in this pass */
    size_t steps_left; /* of this pass */
};

static int by_tension(const void *a, const void *b) {
    const struct option *x = a;
    const struct option *y = b;
    if (x->log_tension < y->log_tension || x->log_tension > y->log_tension) {
        return x->log_tension < y->log_tension ? -1 : 1;
    }
    if (x->extra != y->extra) {
        return x->extra < y->extra ? -1 : 1;
    }
    if (x->force < y->force || x->force > y->force) {
        return x->force < y->force ? -1 : 1;
    }
    return (x->place > y->place) - (x->place < y->place);
}

/* Two ways to one note: by cost, those of the same cost in the catalogue's order. */
static int by_cost(const void *a, const void *b) {
    const struct label *x = a;
    const struct label *y = b;
    if (x->cost != y->cost) {
        return x->cost < y->cost ? -1 : 1;
    }
    while (x->before != y->before) {
        x = x->before;
        y = y->before;
    }
    return (x->place > y->place) - (x->place < y->place);
}

static int by_priced(const void *a, const void *b) {
    const struct label *x = a;
    const struct label *y = b;
    if (x->priced < y->priced || x->priced > y->priced) {
        return x->priced < y->priced ? -1 : 1;
    }
    return by_cost(a, b); /* so that no library's way of sorting shows in the answer */
}

/* Goes on from a state to one of the next note if that costs less, priced, or as much and is
 * lighter, so likelier within the limit. False where states farther away cost more; none of them
 * has a `least` under the one given. */
static bool try_next(const struct state *next, double least, double wished, struct state *state) {
    int64_t step = restring_term(next->log_tension - wished);
    if ((double)step + least > state->rest) {
        return false;
    }
    double rest = (double)step + next->least;
    double force = next->force + next->rest_force;
    if (rest < state->rest || (rest <= state->rest && force < state->rest_force)) {
        state->next = next;
        state->rest = rest;
        state->rest_cost = step + next->own + next->rest_cost;
        state->rest_force = force;
    }
    return true;
}

/* Solves the bounds of a note's states; returns the least. */
static const struct state *solve_stage(const struct search *search, struct stage *stage,
                                       bool is_last) {
    const struct stage *next = stage + 1;
    struct state *states = stage->states;
    size_t count = stage->state_count;
    size_t start = 0;
    for (size_t k = 0; k < count; k++) {
        struct state *state = &states[k];
        state->rest = is_last ? 0.0 : INFINITY;
        if (!is_last) {
            const struct state *others = next->states;
            double wished = state->log_tension + stage->step;
            while (start < next->state_count && others[start].log_tension < wished) {
                start++;
            }
            for (size_t up = start; up < next->state_count &&
                                    try_next(&others[up], others[up].least_above, wished, state);
                 up++) {
            }
            for (size_t down = start;
                 down > 0 &&
                 try_next(&others[down - 1], others[down - 1].least_below, wished, state);
                 down--) {
            }
        }
        state->least = (double)state->own + search->price * state->force + state->rest;
        state->least_below = k == 0 ? state->least : fmin(state->least, states[k - 1].least_below);
    }
    for (size_t k = count; k-- > 0;) {
        states[k].least_above =
            k + 1 == count ? states[k].least : fmin(states[k].least, states[k + 1].least_above);
    }
    const struct state *best = states;
    while (best->least > best->least_above) {
        best++;
    }
    return best;
}

/* A set as a line over the price. */
struct line {
    double cost;  /* parts */
    double force; /* N */
};

/* Solves the bounds at a price; returns the set that costs least, priced. */
static struct line solve(struct search *search, double price) {
    struct line line = {0.0, 0.0};
    search->price = price;
    search->allowance = price > 0.0 ? price * (search->limit + search->rounding) : 0.0;
    for (size_t i = search->stage_count; i-- > 0;) {
        const struct state *best =
            solve_stage(search, &search->stages[i], i + 1 == search->stage_count);
        line = (struct line){(double)(best->own + best->rest_cost), best->force + best->rest_force};
    }
    return line;
}

/* Solves the bounds at the price that makes the least of them highest. That one, over prices, is a
 * roof of straight lines, one for each set; its ridge is found by intersecting the line of a set
 * over the limit with that of a set within it, until no set lies under the crossing. */
static void find_price(struct search *search) {
    struct line over = solve(search, 0.0);
    if (over.force <= search->limit) {
        return; /* the limit takes nothing from the best set */
    }
    const double most = most_priced / search->heaviest;
    double price = restring_unit / search->heaviest;
    struct line within = solve(search, price);
    while (within.force > search->limit && price < most) {
        price = fmin(8.0 * price, most);
        within = solve(search, price);
    }
    for (int tried = 0; tried < PRICES_MAX && within.force < over.force; tried++) {
        price = fmin(fmax((within.cost - over.cost) / (over.force - within.force), 0.0), most);
        struct line line = solve(search, price);
        double gap = over.cost - line.cost + price * (over.force - line.force);
        if (gap <= 64.0 + 1e-12 * (fabs(over.cost) + fabs(price * over.force))) {
            return;
        }
        if (line.force > search->limit) {
            over = line;
        } else {
            within = line;
        }
    }
}

/* No set that costs more is looked for. */
static int64_t ceiling_of(const struct search *search) {
    return search->found < search->problem->wanted ? INT64_MAX
                                                   : search->sets[search->found - 1].cost;
}

/* What a set costs at least, of the priced costs of its two parts. These are rounded; costs are
 * whole. */
static int64_t bound_of(const struct search *search, double priced, double rest) {
    double rounding = 1e-14 * (fabs(priced) + fabs(rest));
    return (int64_t)ceil(priced + rest - search->allowance - rounding);
}

static int compare_places(const size_t *a, const size_t *b, size_t count) {
    size_t i = 0;
    while (i + 1 < count && a[i] == b[i]) {
        i++;
    }
    return (a[i] > b[i]) - (a[i] < b[i]);
}

/* The places of a way to note i. */
static void list_places(const struct label *label, size_t i, size_t *places) {
    for (size_t k = i + 1; k-- > 0; label = label->before) {
        places[k] = label->place;
    }
}

/* Whether no set that completes a way to a state of note i is better than the last of those found.
 */
static bool is_beaten(const struct search *search, size_t i, const struct state *state,
                      const struct label *label) {
    int64_t bound = bound_of(search, label->priced, state->rest);
    int64_t ceiling = ceiling_of(search);
    if (bound != ceiling) {
        return bound > ceiling;
    }
    size_t places[MENSUR_STRINGS_MAX];
    list_places(label, i, places);
    return compare_places(places, search->sets[search->found - 1].places, i + 1) > 0;
}

/* Puts a way to a state of note i, completed as its bound was, among the sets. */
static void keep_set(struct search *search, size_t i, const struct state *state,
                     const struct label *label) {
    const size_t count = search->stage_count;
    struct restring_set set = {.cost = label->cost + state->rest_cost};
    list_places(label, i, set.places);
    for (size_t k = i + 1; k < count; k++) {
        state = state->next;
        set.places[k] = state->options[0].place;
    }
    size_t at = search->found;
    for (; at > 0; at--) {
        const struct restring_set *before = &search->sets[at - 1];
        int order = before->cost != set.cost ? (before->cost < set.cost ? -1 : 1)
                                             : compare_places(before->places, set.places, count);
        if (order == 0) {
            return; /* found before */
        }
        if (order < 0) {
            break;
        }
    }
    if (at == search->problem->wanted) {
        return;
    }
    search->found += search->found < search->problem->wanted ? 1 : 0;
    for (size_t k = search->found - 1; k > at; k--) {
        search->sets[k] = search->sets[k - 1];
    }
    search->sets[at] = set;
}

static enum mensur_status add_label(struct stage *stage, const struct label *label) {
    if (stage->label_count == stage->label_room) {
        size_t room = stage->label_room == 0 ? 256 : 2 * stage->label_room;
        struct label *labels = realloc(stage->labels, room * sizeof *labels);
        if (labels == NULL) {
            return MENSUR_MEMORY;
        }
        stage->labels = labels;
        stage->label_room = room;
    }
    stage->labels[stage->label_count++] = *label;
    return MENSUR_OK;
}

/* Goes on from a way to the strings of a state of note i. */
static enum mensur_status go_on(struct search *search, size_t i, const struct state *state,
                                const struct label *from, int64_t step) {
    struct stage *stage = &search->stages[i];
    bool is_last = i + 1 == search->stage_count;
    double most = is_last ? search->limit : search->limit - search->rounding;
    for (size_t k = 0; k < state->option_count; k++) {
        const struct option *option = &state->options[k];
        int64_t cost = step + state->own;
        struct label label = {.before = i == 0 ? NULL : from,
                              .cost = from->cost + cost,
                              .priced = from->priced + (double)cost + search->price * option->force,
                              .force = from->force + option->force,
                              .place = option->place};
        if (label.force + stage->lightest_after > search->limit + search->rounding ||
            bound_of(search, label.priced, state->rest) > ceiling_of(search)) {
            break; /* those after it are heavier */
        }
        if (label.force + state->rest_force <= most &&
            label.cost + state->rest_cost <= ceiling_of(search)) {
            keep_set(search, i, state, &label);
        }
        if (!is_last && !is_beaten(search, i, state, &label) &&
            add_label(stage, &label) != MENSUR_OK) {
            return MENSUR_MEMORY;
        }
    }
    return MENSUR_OK;
}

/* Goes on from the ways to a state of the note before. False where states farther away cost too
 * much. */
static bool go_on_from(struct search *search, size_t i, const struct state *from,
                       const struct state *state, enum mensur_status *status) {
    const struct stage *before = &search->stages[i - 1];
    const struct label *labels = before->labels + from->label_first;
    int64_t step = restring_term(state->log_tension - (from->log_tension + before->step));
    double rest = (double)step + state->least;
    if (bound_of(search, before->least_priced, rest) > ceiling_of(search)) {
        return false;
    }
    for (size_t k = 0; k < from->label_count && *status == MENSUR_OK && search->steps_left > 0 &&
                       bound_of(search, labels[k].priced, rest) <= ceiling_of(search);
         k++) {
        search->steps_left--;
        *status = go_on(search, i, state, &labels[k], step);
    }
    return *status == MENSUR_OK && search->steps_left > 0;
}

/* Drops those of a state's labels, sorted by cost, that can make no set, and those for which as
 * many as are wanted come before that are heavier by no more than `tolerance`, N. The lightest of
 * all stays, so that a set is found where there is one. */
static void thin(const struct search *search, size_t i, const struct state *state, double tolerance,
                 struct stage *stage) {
    struct label *labels = stage->labels + state->label_first;
    const size_t count = stage->label_count - state->label_first;
    const size_t wanted = search->problem->wanted;
    double lightest[RESTRING_SETS_MAX]; /* N, of those kept: as many as are wanted, falling */
    double least = INFINITY;
    size_t kept = 0;
    for (size_t k = 0; k < RESTRING_SETS_MAX; k++) {
        lightest[k] = INFINITY;
    }
    for (size_t k = 0; k < count; k++) {
        least = fmin(least, labels[k].force);
    }
    for (size_t k = 0; k < count; k++) {
        const struct label label = labels[k];
        bool is_outdone =
            lightest[0] <= label.force + tolerance && (tolerance <= 0.0 || label.force > least);
        if (is_outdone || is_beaten(search, i, state, &label)) {
            continue;
        }
        labels[kept++] = label;
        size_t at = 0; /* the first of them is no lighter, and makes room */
        for (; at + 1 < wanted && lightest[at + 1] > label.force; at++) {
            lightest[at] = lightest[at + 1];
        }
        lightest[at] = label.force;
    }
    stage->label_count = state->label_first + kept;
}

/* Makes the labels of a state of note i; `start` is the first state of the note before from which
 * no lower tension is wished. */
static enum mensur_status label_state(struct search *search, size_t i, size_t start,
                                      struct state *state) {
    static const struct label none = {.before = NULL};
    struct stage *stage = &search->stages[i];
    enum mensur_status status = MENSUR_OK;
    state->label_first = stage->label_count;
    if (i == 0) {
        status = go_on(search, i, state, &none, 0);
    } else if (stage[-1].label_count > 0) {
        const struct state *from = stage[-1].states;
        for (size_t up = start;
             up < stage[-1].state_count && go_on_from(search, i, &from[up], state, &status); up++) {
        }
        for (size_t down = start;
             down > 0 && go_on_from(search, i, &from[down - 1], state, &status); down--) {
        }
    }
    if (stage->label_count > state->label_first) {
        struct label *labels = stage->labels + state->label_first;
        qsort(labels, stage->label_count - state->label_first, sizeof *labels, by_cost);
        thin(search, i, state, 0.0, stage);
        for (int halvings = HALVINGS_MAX;
             halvings > 0 && stage->label_count - state->label_first > search->labels_max;
             halvings--) {
            double tolerance = ldexp(fabs(search->limit) / LABELS_MAX, -halvings);
            thin(search, i, state, tolerance, stage);
            stage->merged = fmax(stage->merged, 2.0 * tolerance); /* the sum of those so far */
        }
        qsort(labels, stage->label_count - state->label_first, sizeof *labels, by_priced);
    }
    state->label_count = stage->label_count - state->label_first;
    return status;
}

/* Makes the labels of all states, from the first note to the last; `merged` is the sum of what was
 * given way to, N. */
static enum mensur_status make_labels(struct search *search, double *merged) {
    enum mensur_status status = MENSUR_OK;
    *merged = 0.0;
    for (size_t i = 0; i < search->stage_count; i++) {
        struct stage *stage = &search->stages[i];
        size_t start = 0;
        stage->label_count = 0;
        stage->merged = 0.0;
        for (size_t k = 0; k < stage->state_count && status == MENSUR_OK; k++) {
            while (i > 0 && start < stage[-1].state_count &&
                   stage[-1].states[start].log_tension + stage[-1].step <
                       stage->states[k].log_tension) {
                start++;
            }
            status = label_state(search, i, start, &stage->states[k]);
        }
        stage->least_priced = INFINITY;
        for (size_t k = 0; k < stage->label_count; k++) {
            stage->least_priced = fmin(stage->least_priced, stage->labels[k].priced);
        }
        *merged += stage->merged;
    }
    return status;
}

/* Passes until one has merged no labels, or lowers the ceiling no more, or takes too long. What a
 * pass has merged bounds what the sets found up to then may lack. */
static enum mensur_status make_passes(struct search *search, double *slack) {
    enum mensur_status status = MENSUR_OK;
    bool goes_on = true;
    *slack = INFINITY;
    for (int pass = 0; pass < PASSES_MAX && goes_on; pass++) {
        int64_t before = ceiling_of(search);
        double merged = 0.0;
        search->labels_max = pass == 0 ? LABELS_FIRST : LABELS_MAX;
        search->steps_left = pass == 0 ? SIZE_MAX : STEPS_MAX;
        status = make_labels(search, &merged);
        goes_on = status == MENSUR_OK && search->steps_left > 0;
        *slack = goes_on ? fmin(*slack, merged) : *slack;
        goes_on = goes_on && merged > 0.0 && (pass == 0 || ceiling_of(search) < before);
    }
    return status;
}

static void fill_stage(const struct restring_note *note, bool is_limited, struct option *options,
                       struct state *states, struct stage *stage) {
    for (size_t k = 0; k < note->count; k++) {
        const struct restring_string *string = &note->strings[k];
        options[k] = (struct option){string->log_tension, is_limited ? string->force : 0.0,
                                     string->extra, k};
    }
    qsort(options, note->count, sizeof *options, by_tension);
    stage->states = states;
    stage->step = note->step;
    for (size_t k = 0; k < note->count; k++) {
        double log_tension = options[k].log_tension;
        if (k == 0 || options[k - 1].log_tension < log_tension ||
            options[k - 1].extra < options[k].extra) {
            stage->states[stage->state_count++] = (struct state){
                .options = &options[k],
                .log_tension = log_tension,
                .force = options[k].force,
                .own = options[k].extra +
                       (isnan(note->aim) ? 0 : restring_term(log_tension - note->aim))};
        }
        stage->states[stage->state_count - 1].option_count++;
    }
}

static enum mensur_status prepare(struct search *search) {
    const struct restring_problem *problem = search->problem;
    size_t all = 0;
    for (size_t i = 0; i < problem->note_count; i++) {
        all += problem->notes[i].count;
    }
    search->options = calloc(all + 1, sizeof *search->options);
    search->states = calloc(all + 1, sizeof *search->states);
    if (search->options == NULL || search->states == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = problem->note_count; i-- > 0;) {
        const size_t count = problem->notes[i].count;
        all -= count;
        struct option *options = search->options + all;
        fill_stage(&problem->notes[i], !isnan(problem->most_force), options, search->states + all,
                   &search->stages[i]);
        double least = INFINITY;
        double most = 0.0;
        for (size_t k = 0; k < count; k++) {
            least = fmin(least, options[k].force);
            most = fmax(most, fabs(options[k].force));
        }
        search->stages[i].lightest_after = search->lightest;
        search->lightest += least;
        search->heaviest += most;
    }
    search->rounding = 1e-14 * search->heaviest;
    return MENSUR_OK;
}

enum mensur_status restring_search(const struct restring_problem *problem,
                                   struct restring_set *sets, size_t *found, double *slack) {
    struct search search = {.problem = problem,
                            .stage_count = problem->note_count,
                            .limit = isnan(problem->most_force) ? INFINITY : problem->most_force,
                            .sets = sets};
    double merged = 0.0;
    enum mensur_status status = prepare(&search);
    if (status == MENSUR_OK && search.lightest <= search.limit + search.rounding) {
        find_price(&search);
        status = make_passes(&search, &merged);
    }
    if (status == MENSUR_OK) {
        *found = search.found;
        *slack = merged;
    }
    for (size_t i = 0; i < search.stage_count; i++) {
        free(search.stages[i].labels);
    }
    free(search.states);
    free(search.options);
    return status;
}
