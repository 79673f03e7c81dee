/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best sets, by branch and bound along the notes.
 *
 * At each note the strings are tried in the order of what the whole set would cost at least with
 * them; where that is no better than the last of the sets wanted, they and what follows are passed
 * over. Without a limit on force the bound is what the set will cost, and hardly a step is wasted;
 * with one, bounds with a price on force are near it. Nothing is passed over that could be among the
 * best: bounds are whole numbers and hold exactly.
 *
 * So that no time goes into sets far from the best before these are found, the search is made under
 * a ceiling on the cost, a little above the bound of the whole at first, and again under a higher one
 * until it finds as many sets as are wanted (iterative deepening: R. E. Korf, Artif. Intell. 27 (1985)
 * 97-109, from memory).
 *
 * Where many sets lie between bound and answer, a label of each way to a string keeps the search from
 * going on from it where as many better ways as sets are wanted (of no more cost and no more force,
 * Pareto's order) went on before. The number of labels without a better one bounds the work; on
 * paper it may grow with the power of the notes, as the choice under a limit is a knapsack. */
#include "restring_search.h"

#include <math.h>
#include <stdlib.h>

#include "restring_bounds.h"

enum {
    LABELS_MAX = 1 << 20, /* in all; without more labels the search is slower, not other */
    LABELS_LOOKED_AT = 512, /* of a string */
    BOUNDS_MAX = 10
};

/* Costs: the first ceiling above the bound, 2^20 parts; and more than any set's. */
#define FIRST_RISE ((int64_t)1 << 20)
#define CEILING_MOST ((int64_t)1 << 62)

/* A way from the first note to a string. */
struct label {
    int64_t cost;
    double force;
    size_t next; /* the string's label before it, plus 1; 0: none */
    size_t places[MENSUR_STRINGS_MAX];
};

/* A string to go on with. */
struct branch {
    int64_t bound;
    size_t rung;
    size_t place;
};

/* How far a way has come. */
struct way {
    int64_t cost;
    double force; /* N */
    double pull;  /* log of the pull that is wished next */
};

struct hunt {
    const struct restring_problem *problem;
    struct ladders ladders;
    bool limited;
    size_t bound_count;
    struct bound bounds[BOUNDS_MAX]; /* the first without a price; with a limit others */
    double within; /* N: the limit, and what sums taken in another order are rounded by */
    struct branch *branches[MENSUR_STRINGS_MAX];
    size_t places[MENSUR_STRINGS_MAX]; /* of the way */
    struct restring_set *sets;
    size_t found;
    int64_t ceiling; /* no set that costs more is looked for */
    bool cut;        /* one such was passed over */
    size_t *heads; /* newest label of each rung, plus 1 */
    size_t first_head[MENSUR_STRINGS_MAX];
    struct label *labels;
    size_t label_count;
    size_t label_room;
};

/* -1, 0 or 1: which of two ways, as long as they are, stands first in the catalogue's order. */
static int compare_places(const size_t *a, const size_t *b, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (a[i] != b[i]) {
            return a[i] < b[i] ? -1 : 1;
        }
    }
    return 0;
}

/* Whether the way through `place` at note `i` can lead to nothing better than what is found. */
static bool is_beaten(struct hunt *hunt, size_t i, size_t place, int64_t bound) {
    if (bound > hunt->ceiling) {
        hunt->cut = true;
        return true;
    }
    if (hunt->found < hunt->problem->wanted) {
        return false;
    }
    const struct restring_set *last = &hunt->sets[hunt->found - 1];
    if (bound != last->cost) {
        return bound > last->cost;
    }
    hunt->places[i] = place;
    return compare_places(hunt->places, last->places, i + 1) > 0;
}

static void keep_set(struct hunt *hunt, int64_t cost) {
    size_t notes = hunt->ladders.count;
    size_t at = hunt->found;
    while (at > 0 && (hunt->sets[at - 1].cost > cost ||
                      (hunt->sets[at - 1].cost == cost &&
                       compare_places(hunt->sets[at - 1].places, hunt->places, notes) > 0))) {
        at--;
    }
    if (at == hunt->problem->wanted) {
        return;
    }
    if (hunt->found < hunt->problem->wanted) {
        hunt->found++;
    }
    for (size_t k = hunt->found - 1; k > at; k--) {
        hunt->sets[k] = hunt->sets[k - 1];
    }
    hunt->sets[at] = (struct restring_set){.cost = cost};
    for (size_t i = 0; i < notes; i++) {
        hunt->sets[at].places[i] = hunt->places[i];
    }
}

static bool is_better_way(const struct hunt *hunt, const struct label *label, size_t i,
                          const struct way *way) {
    if (label->force > way->force || label->cost > way->cost) {
        return false;
    }
    return label->cost < way->cost || compare_places(label->places, hunt->places, i + 1) < 0;
}

static void keep_label(struct hunt *hunt, size_t *head, size_t i, const struct way *way) {
    if (hunt->label_count == hunt->label_room) {
        size_t room = hunt->label_room == 0 ? 1024 : 2 * hunt->label_room;
        struct label *labels =
            room > LABELS_MAX ? NULL : realloc(hunt->labels, room * sizeof *labels);
        if (labels == NULL) {
            return; /* labels only save time */
        }
        hunt->labels = labels;
        hunt->label_room = room;
    }
    struct label *label = &hunt->labels[hunt->label_count++];
    *label = (struct label){.cost = way->cost, .force = way->force, .next = *head};
    for (size_t k = 0; k <= i; k++) {
        label->places[k] = hunt->places[k];
    }
    *head = hunt->label_count;
}

/* Whether enough better ways came to this rung before; if not, this one is noted. */
static bool is_outdone(struct hunt *hunt, size_t i, size_t rung, const struct way *way) {
    size_t *head = &hunt->heads[hunt->first_head[i] + rung];
    size_t better = 0;
    size_t looked_at = 0;
    for (size_t at = *head; at != 0 && looked_at < LABELS_LOOKED_AT; looked_at++) {
        const struct label *label = &hunt->labels[at - 1];
        if (is_better_way(hunt, label, i, way) && ++better == hunt->problem->wanted) {
            return true;
        }
        at = label->next;
    }
    keep_label(hunt, head, i, way);
    return false;
}

/* The way with one more string. */
static struct way go_on(const struct hunt *hunt, const struct way *way, size_t i, size_t rung) {
    const struct ladder *ladder = &hunt->ladders.items[i];
    const struct rung *chosen = &ladder->rungs[rung];
    int64_t step = i == 0 ? 0 : restring_term(chosen->pull - way->pull);
    return (struct way){.cost = way->cost + step + chosen->own,
                        .force = way->force + chosen->force,
                        .pull = chosen->pull + ladder->step};
}

/* What a way costs at least up to its end, under each bound; a rung's rest comes on top. */
static void price_way(const struct hunt *hunt, const struct way *way, int64_t *start) {
    for (size_t b = 0; b < hunt->bound_count; b++) {
        const struct bound *bound = &hunt->bounds[b];
        start[b] = way->cost + bound_priced(bound, way->force) - bound->allowance;
    }
}

/* Notes a rung as a branch, unless it leads nowhere. False where those farther from the wished step
 * cannot do better either. */
static bool try_rung(struct hunt *hunt, const struct way *way, const int64_t *start, size_t i,
                     size_t k, size_t *count) {
    const struct rung *rung = &hunt->ladders.items[i].rungs[k];
    int64_t step = i == 0 ? 0 : restring_term(rung->pull - way->pull);
    int64_t least = way->cost + step + hunt->bounds[0].least[i];
    if (least > hunt->ceiling) {
        hunt->cut = true;
        return false;
    }
    if (hunt->found == hunt->problem->wanted && least > hunt->sets[hunt->found - 1].cost) {
        return false;
    }
    if (way->force + rung->force + hunt->ladders.lightest[i + 1] > hunt->within) {
        return true;
    }
    int64_t most = INT64_MIN;
    for (size_t b = 0; b < hunt->bound_count; b++) {
        int64_t bound = start[b] + step + hunt->bounds[b].rest[i][k];
        if (bound > most) {
            if (is_beaten(hunt, i, rung->place, bound)) {
                return true;
            }
            most = bound;
        }
    }
    hunt->branches[i][(*count)++] = (struct branch){most, k, rung->place};
    return true;
}

static int by_bound(const void *a, const void *b) {
    const struct branch *x = a;
    const struct branch *y = b;
    if (x->bound != y->bound) {
        return x->bound < y->bound ? -1 : 1;
    }
    return x->place < y->place ? -1 : x->place > y->place;
}

/* The rungs of note `i` worth going on with, the best first. */
static size_t find_branches(struct hunt *hunt, const struct way *way, size_t i) {
    const struct ladder *ladder = &hunt->ladders.items[i];
    size_t start = i == 0 ? 0 : ladder_find(ladder, way->pull);
    size_t count = 0;
    int64_t so_far[BOUNDS_MAX];
    price_way(hunt, way, so_far);
    for (size_t k = start; k < ladder->count && try_rung(hunt, way, so_far, i, k, &count); k++) {
    }
    for (size_t k = start; k > 0 && try_rung(hunt, way, so_far, i, k - 1, &count); k--) {
    }
    qsort(hunt->branches[i], count, sizeof *hunt->branches[i], by_bound);
    return count;
}

static void hunt_from(struct hunt *hunt, const struct way *way, size_t i) {
    size_t count = find_branches(hunt, way, i);
    for (size_t b = 0; b < count; b++) {
        struct branch branch = hunt->branches[i][b];
        if (is_beaten(hunt, i, branch.place, branch.bound)) {
            return; /* those behind it cost more, or as much and stand later */
        }
        hunt->places[i] = branch.place;
        struct way next = go_on(hunt, way, i, branch.rung);
        if (i + 1 == hunt->ladders.count) {
            if (next.force <= hunt->ladders.limit) {
                keep_set(hunt, next.cost);
            }
        } else if (!hunt->limited || !is_outdone(hunt, i, branch.rung, &next)) {
            hunt_from(hunt, &next, i + 1);
        }
    }
}

static void hunt_clear(struct hunt *hunt) {
    ladders_clear(&hunt->ladders);
    for (size_t b = 0; b < BOUNDS_MAX; b++) {
        bound_clear(&hunt->bounds[b]);
    }
    free(hunt->branches[0]);
    free(hunt->heads);
    free(hunt->labels);
}

static enum mensur_status make_branches(struct hunt *hunt) {
    size_t rungs = 0;
    for (size_t i = 0; i < hunt->ladders.count; i++) {
        hunt->first_head[i] = rungs;
        rungs += hunt->ladders.items[i].count;
    }
    hunt->branches[0] = calloc(rungs, sizeof *hunt->branches[0]);
    hunt->heads = calloc(rungs, sizeof *hunt->heads);
    if (hunt->branches[0] == NULL || hunt->heads == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 1; i < hunt->ladders.count; i++) {
        hunt->branches[i] = hunt->branches[0] + hunt->first_head[i];
    }
    return MENSUR_OK;
}

static enum mensur_status add_bound(struct hunt *hunt, double price) {
    struct bound *bound = &hunt->bounds[hunt->bound_count];
    enum mensur_status status = bound_make(&hunt->ladders, bound);
    if (status == MENSUR_OK) {
        bound_solve(&hunt->ladders, price, bound);
        hunt->bound_count++;
    }
    return status;
}

/* The bound without a price; where that leads over the limit, the one that is highest for the whole,
 * and a scale of prices for ways that have strayed from what is best for the whole. */
static enum mensur_status make_bounds(struct hunt *hunt) {
    enum mensur_status status = add_bound(hunt, 0.0);
    if (status != MENSUR_OK || !hunt->limited) {
        return status;
    }
    status = add_bound(hunt, 0.0);
    if (status == MENSUR_OK) {
        bound_tighten(&hunt->ladders, &hunt->bounds[0], &hunt->bounds[1]);
    }
    double price = restring_unit / fmax(hunt->ladders.heaviest, 1e-300);
    while (status == MENSUR_OK && hunt->bound_count < BOUNDS_MAX) {
        status = add_bound(hunt, price);
        price /= 8.0;
    }
    return status;
}

/* What any set costs at least. */
static int64_t least_cost(const struct hunt *hunt) {
    int64_t most = hunt->bounds[0].least[0];
    for (size_t b = 1; b < hunt->bound_count; b++) {
        int64_t bound = hunt->bounds[b].least[0] - hunt->bounds[b].allowance;
        most = bound > most ? bound : most;
    }
    return most;
}

static void forget(struct hunt *hunt, size_t rungs) {
    hunt->found = 0;
    hunt->cut = false;
    hunt->label_count = 0;
    for (size_t k = 0; k < rungs; k++) {
        hunt->heads[k] = 0;
    }
}

/* Searches under higher and higher ceilings. */
static void hunt_all(struct hunt *hunt) {
    const struct way start = {0, 0.0, 0.0};
    size_t last = hunt->ladders.count - 1;
    int64_t least = least_cost(hunt);
    int64_t above = least / 1024 > FIRST_RISE ? least / 1024 : FIRST_RISE;
    do {
        forget(hunt, hunt->first_head[last] + hunt->ladders.items[last].count);
        hunt->ceiling = above < CEILING_MOST - least ? least + above : INT64_MAX;
        hunt_from(hunt, &start, 0);
        above = above < CEILING_MOST / 4 ? above * 4 : CEILING_MOST;
    } while (hunt->found < hunt->problem->wanted && hunt->cut);
}

enum mensur_status restring_search(const struct restring_problem *problem,
                                   struct restring_set *sets, size_t *found) {
    struct hunt hunt = {.problem = problem, .sets = sets};
    enum mensur_status status = ladders_make(problem, &hunt.ladders);
    if (status == MENSUR_OK) {
        hunt.limited = isfinite(hunt.ladders.limit);
        hunt.within = hunt.ladders.limit + 1e-12 * hunt.ladders.heaviest;
        status = make_bounds(&hunt);
    }
    if (status == MENSUR_OK) {
        status = make_branches(&hunt);
    }
    if (status == MENSUR_OK) {
        if (!(hunt.ladders.lightest[0] > hunt.within)) {
            hunt_all(&hunt);
        }
        *found = hunt.found;
    }
    hunt_clear(&hunt);
    return status;
}
