/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best sets, by branch and bound along the notes.
 *
 * At each note the strings are tried in the order of what the whole set would cost at least with
 * them; where that is no better than the last of the sets wanted, they and what follows are passed
 * over. Without a limit on force the bound is what the set will cost, and hardly a step is wasted;
 * with one, bounds with a price on force are near it. Nothing is passed over that could be among
 * the best: bounds are whole numbers and hold exactly.
 *
 * So that no time goes into sets far from the best before these are found, the search is made under
 * a ceiling on the cost, a little above the bound of the whole at first, and again under a higher
 * one until it finds as many sets as are wanted (iterative deepening: R. E. Korf, Artif. Intell. 27
 * (1985) 97-109, from memory).
 *
 * Where many sets lie between bound and answer, a label of each way to a string keeps the search
 * from going on from it where as many better ways as sets are wanted (of no more cost and no more
 * force, Pareto's order) went on before. The number of labels without a better one bounds the work;
 * on paper it may grow with the power of the notes, as the choice under a limit is a knapsack. */
#include "restring_search.h"

#include <math.h>
#include <stdlib.h>

#include "restring_labels.h"

/* How far the first ceiling is above the bound, and the farthest that one is raised without need.
 */
#define FIRST_RISE ((int64_t)1 << 12)
#define LAST_RISE ((int64_t)1 << 60)

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
    struct bounds bounds;
    double within; /* N: the limit, and what sums taken in another order are rounded by */
    struct branch *branches[MENSUR_STRINGS_MAX];
    size_t places[MENSUR_STRINGS_MAX]; /* of the way */
    struct restring_set *sets;
    size_t found;
    int64_t ceiling; /* no set that costs more is looked for */
    int64_t cut;     /* the least bound that was over it; INT64_MAX: none was */
    struct labels labels;
};

static bool is_over_ceiling(struct hunt *hunt, int64_t bound) {
    if (bound <= hunt->ceiling) {
        return false;
    }
    hunt->cut = bound < hunt->cut ? bound : hunt->cut;
    return true;
}

/* Whether the way through `place` at note `i` can lead to nothing better than what is found. */
static bool is_beaten(struct hunt *hunt, size_t i, size_t place, int64_t bound) {
    if (is_over_ceiling(hunt, bound)) {
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
    return restring_compare(hunt->places, last->places, i + 1) > 0;
}

static void keep_set(struct hunt *hunt, int64_t cost) {
    size_t notes = hunt->ladders.count;
    size_t at = hunt->found;
    while (at > 0 && (hunt->sets[at - 1].cost > cost ||
                      (hunt->sets[at - 1].cost == cost &&
                       restring_compare(hunt->sets[at - 1].places, hunt->places, notes) > 0))) {
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
    for (size_t b = 0; b < hunt->bounds.count; b++) {
        const struct bound *bound = &hunt->bounds.items[b];
        start[b] = way->cost + bound_priced(bound, way->force) - bound->allowance;
    }
}

/* Notes a rung as a branch, unless it leads nowhere. False where those farther from the wished step
 * cannot do better either. */
static bool try_rung(struct hunt *hunt, const struct way *way, const int64_t *start, size_t i,
                     size_t k, size_t *count) {
    const struct rung *rung = &hunt->ladders.items[i].rungs[k];
    int64_t step = i == 0 ? 0 : restring_term(rung->pull - way->pull);
    int64_t least = way->cost + step + hunt->bounds.items[0].least[i];
    if (is_over_ceiling(hunt, least)) {
        return false;
    }
    if (hunt->found == hunt->problem->wanted && least > hunt->sets[hunt->found - 1].cost) {
        return false;
    }
    if (way->force + rung->force + hunt->ladders.lightest[i + 1] > hunt->within) {
        return true;
    }
    int64_t most = INT64_MIN;
    for (size_t b = 0; b < hunt->bounds.count; b++) {
        int64_t bound = start[b] + step + hunt->bounds.items[b].rest[i][k];
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
    return (x->place > y->place) - (x->place < y->place);
}

/* The rungs of note `i` worth going on with, the best first. */
static size_t find_branches(struct hunt *hunt, const struct way *way, size_t i) {
    const struct ladder *ladder = &hunt->ladders.items[i];
    size_t start = i == 0 ? 0 : ladder_find(ladder, way->pull);
    size_t count = 0;
    int64_t so_far[BOUNDS_MAX] = {0};
    price_way(hunt, way, so_far);
    for (size_t k = start; k < ladder->count && try_rung(hunt, way, so_far, i, k, &count); k++) {
    }
    for (size_t k = start; k > 0 && try_rung(hunt, way, so_far, i, k - 1, &count); k--) {
    }
    qsort(hunt->branches[i], count, sizeof *hunt->branches[i], by_bound);
    return count;
}

/* Calls itself once for each note, and there are MENSUR_STRINGS_MAX at most.
 * NOLINTNEXTLINE(misc-no-recursion) */
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
        } else if (!hunt->limited || !labels_outdo(&hunt->labels, i, branch.rung, hunt->places,
                                                   next.cost, next.force)) {
            hunt_from(hunt, &next, i + 1);
        }
    }
}

static void hunt_clear(struct hunt *hunt) {
    ladders_clear(&hunt->ladders);
    bounds_clear(&hunt->bounds);
    free(hunt->branches[0]);
    labels_clear(&hunt->labels);
}

static enum mensur_status make_branches(struct hunt *hunt) {
    size_t rungs = 0;
    for (size_t i = 0; i < hunt->ladders.count; i++) {
        rungs += hunt->ladders.items[i].count;
    }
    hunt->branches[0] = calloc(rungs == 0 ? 1 : rungs, sizeof *hunt->branches[0]);
    if (hunt->branches[0] == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 1; i < hunt->ladders.count; i++) {
        hunt->branches[i] = hunt->branches[i - 1] + hunt->ladders.items[i - 1].count;
    }
    return labels_make(&hunt->ladders, hunt->problem->wanted, &hunt->labels);
}

/* Searches under higher and higher ceilings. */
static void hunt_all(struct hunt *hunt) {
    const struct way start = {0, 0.0, 0.0};
    int64_t least = bounds_least(&hunt->bounds);
    int64_t rise = FIRST_RISE;
    hunt->ceiling = least + rise;
    do {
        hunt->found = 0;
        hunt->cut = INT64_MAX;
        labels_forget(&hunt->labels);
        hunt_from(hunt, &start, 0);
        rise = rise < LAST_RISE ? rise * 4 : LAST_RISE;
        hunt->ceiling = least + rise > hunt->cut ? least + rise : hunt->cut;
    } while (hunt->found < hunt->problem->wanted && hunt->cut < INT64_MAX);
}

static enum mensur_status search(struct hunt *hunt) {
    const struct ladders *ladders = &hunt->ladders;
    hunt->within = ladders->limit + 1e-12 * ladders->heaviest;
    if (ladders->lightest[0] > hunt->within) {
        return MENSUR_OK;
    }
    /* A limit far over every set's force needs no bounds of its own. */
    hunt->limited = ladders->limit < 2.0 * ladders->heaviest;
    enum mensur_status status = bounds_make(ladders, hunt->limited, &hunt->bounds);
    if (status == MENSUR_OK) {
        status = make_branches(hunt);
    }
    if (status == MENSUR_OK) {
        hunt_all(hunt);
    }
    return status;
}

enum mensur_status restring_search(const struct restring_problem *problem,
                                   struct restring_set *sets, size_t *found) {
    struct hunt hunt = {.problem = problem, .sets = sets};
    enum mensur_status status = ladders_make(problem, &hunt.ladders);
    if (status == MENSUR_OK) {
        status = search(&hunt);
    }
    if (status == MENSUR_OK) {
        *found = hunt.found;
    }
    hunt_clear(&hunt);
    return status;
}
