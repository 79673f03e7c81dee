/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bounds by dynamic programming from the last note back to the first.
 *
 * The cost of a step grows with its distance from the wished one, so that on a ladder sorted by
 * pull the best next string is looked for from the wished pull outwards, and no farther than a step
 * alone would cost more than the best so far. */
#include "restring_bounds.h"

#include <math.h>
#include <stdlib.h>

static int by_pull(const void *a, const void *b) {
    const struct rung *x = a;
    const struct rung *y = b;
    if (x->pull < y->pull || x->pull > y->pull) {
        return x->pull < y->pull ? -1 : 1;
    }
    if (x->force < y->force || x->force > y->force) {
        return x->force < y->force ? -1 : 1;
    }
    return (x->place > y->place) - (x->place < y->place);
}

/* Of a rung and one that is sorted behind it. */
static bool is_alike(const struct rung *a, const struct rung *b) {
    return !(a->pull < b->pull) && !(a->force < b->force);
}

/* Of strings that are alike in pull and force, as many as sets are wanted: a set with a later one
 * stands behind as many sets with the ones before it. */
static void drop_copies(struct ladder *ladder, size_t wanted) {
    size_t kept = 0;
    size_t copies = 0;
    for (size_t k = 0; k < ladder->count; k++) {
        copies = kept > 0 && is_alike(&ladder->rungs[kept - 1], &ladder->rungs[k]) ? copies + 1 : 0;
        if (copies < wanted) {
            ladder->rungs[kept++] = ladder->rungs[k];
        }
    }
    ladder->count = kept;
}

static void fill_ladder(const struct restring_note *note, size_t wanted, struct ladder *ladder) {
    ladder->count = note->count;
    ladder->step = note->step;
    for (size_t k = 0; k < note->count; k++) {
        const struct restring_string *string = &note->strings[k];
        ladder->rungs[k] =
            (struct rung){.pull = string->pull,
                          .force = string->force,
                          .own = isnan(note->aim) ? 0 : restring_term(string->pull - note->aim),
                          .place = k};
    }
    qsort(ladder->rungs, ladder->count, sizeof *ladder->rungs, by_pull);
    drop_copies(ladder, wanted);
}

static void weigh(struct ladders *ladders) {
    ladders->lightest[ladders->count] = 0.0;
    ladders->heaviest = 0.0;
    for (size_t i = ladders->count; i-- > 0;) {
        const struct ladder *ladder = &ladders->items[i];
        double least = INFINITY;
        double most = 0.0;
        for (size_t k = 0; k < ladder->count; k++) {
            least = fmin(least, ladder->rungs[k].force);
            most = fmax(most, fabs(ladder->rungs[k].force));
        }
        ladders->lightest[i] = ladders->lightest[i + 1] + least;
        ladders->heaviest += most;
    }
}

enum mensur_status ladders_make(const struct restring_problem *problem, struct ladders *out) {
    size_t rungs = 0;
    for (size_t i = 0; i < problem->note_count; i++) {
        rungs += problem->notes[i].count;
    }
    *out = (struct ladders){.count = problem->note_count,
                            .limit = isnan(problem->most_force) ? INFINITY : problem->most_force};
    out->memory = calloc(rungs == 0 ? 1 : rungs, sizeof *out->memory);
    if (out->memory == NULL) {
        return MENSUR_MEMORY;
    }
    struct rung *next = out->memory;
    for (size_t i = 0; i < problem->note_count; i++) {
        out->items[i].rungs = next;
        fill_ladder(&problem->notes[i], problem->wanted, &out->items[i]);
        next += out->items[i].count;
    }
    weigh(out);
    return MENSUR_OK;
}

void ladders_clear(struct ladders *ladders) {
    free(ladders->memory);
    *ladders = (struct ladders){.count = 0};
}

size_t ladder_find(const struct ladder *ladder, double pull) {
    size_t low = 0;
    size_t high = ladder->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (ladder->rungs[middle].pull < pull) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    return low;
}

enum mensur_status bound_make(const struct ladders *ladders, struct bound *out) {
    size_t rungs = 0;
    for (size_t i = 0; i < ladders->count; i++) {
        rungs += ladders->items[i].count;
    }
    *out = (struct bound){.price = 0.0};
    out->memory = calloc(rungs == 0 ? 1 : rungs, sizeof *out->memory);
    if (out->memory == NULL) {
        return MENSUR_MEMORY;
    }
    int64_t *next = out->memory;
    for (size_t i = 0; i < ladders->count; i++) {
        out->rest[i] = next;
        next += ladders->items[i].count;
    }
    return MENSUR_OK;
}

void bound_clear(struct bound *bound) {
    free(bound->memory);
    *bound = (struct bound){.price = 0.0};
}

int64_t bound_priced(const struct bound *bound, double force) {
    /* Rounded down: the sum over the notes is no more than the price of their whole force. */
    return bound->price > 0.0 ? (int64_t)floor(bound->price * force) : 0;
}

int64_t bound_next(const struct ladders *ladders, const struct bound *bound, size_t i, double pull,
                   size_t start, size_t *rung) {
    const struct ladder *ladder = &ladders->items[i];
    int64_t best = INT64_MAX;
    for (size_t k = start; k < ladder->count; k++) {
        int64_t step = restring_term(ladder->rungs[k].pull - pull);
        if (step + bound->least[i] >= best) {
            break;
        }
        if (step + bound->rest[i][k] < best) {
            best = step + bound->rest[i][k];
            *rung = k;
        }
    }
    for (size_t k = start; k-- > 0;) {
        int64_t step = restring_term(ladder->rungs[k].pull - pull);
        if (step + bound->least[i] >= best) {
            break;
        }
        if (step + bound->rest[i][k] < best) {
            best = step + bound->rest[i][k];
            *rung = k;
        }
    }
    return best;
}

static void solve_ladder(const struct ladders *ladders, size_t i, struct bound *bound) {
    const struct ladder *ladder = &ladders->items[i];
    bool last = i + 1 == ladders->count;
    size_t start = 0;
    bound->least[i] = INT64_MAX;
    for (size_t k = 0; k < ladder->count; k++) {
        const struct rung *rung = &ladder->rungs[k];
        int64_t ahead = 0;
        if (!last) {
            const struct ladder *next = &ladders->items[i + 1];
            double pull = rung->pull + ladder->step;
            size_t best = 0;
            while (start < next->count && next->rungs[start].pull < pull) {
                start++;
            }
            ahead = bound_next(ladders, bound, i + 1, pull, start, &best);
        }
        bound->rest[i][k] = rung->own + bound_priced(bound, rung->force) + ahead;
        if (bound->rest[i][k] < bound->least[i]) {
            bound->least[i] = bound->rest[i][k];
        }
    }
}

void bound_solve(const struct ladders *ladders, double price, struct bound *bound) {
    bound->price = price;
    bound->allowance = 0;
    if (price > 0.0) {
        /* Up, and past what the sums of forces are rounded by. */
        double allowance = price * ladders->limit;
        bound->allowance = (int64_t)ceil(allowance + 1e-12 * price * ladders->heaviest) + 1;
    }
    for (size_t i = ladders->count; i-- > 0;) {
        solve_ladder(ladders, i, bound);
    }
}
