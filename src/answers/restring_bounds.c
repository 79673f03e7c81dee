/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bounds by dynamic programming from the last note back to the first.
 *
 * The cost of a step grows with its distance from the wished one, so that on a ladder sorted by pull
 * the best next string is looked for from the wished pull outwards, and no farther than a step alone
 * would cost more than the best so far.
 *
 * A limit on the whole force couples all notes. A price on force takes its place (H. Everett, Oper.
 * Res. 11 (1963) 399-417; M. L. Fisher, Manage. Sci. 27 (1981) 1-18; both from memory): whatever the
 * price, cost plus price times (force less limit) is no more than the cost of a set within the limit,
 * and the price that makes its least value highest makes the best bound. That least value, over
 * prices, is a roof of straight lines, one for each set; its ridge is found by intersecting the line
 * of a set over the limit with that of a set within it, until no set lies under the crossing. */
#include "restring_bounds.h"

#include <math.h>
#include <stdlib.h>

/* The crossing is found after a handful of rounds; a bound from an earlier round holds as well. */
enum { ROUNDS_MAX = 40 };

/* No priced force may come near the end of what 64 bits hold. */
static const double most_priced = 2305843009213693952.0; /* 2^61 */

static int by_pull(const void *a, const void *b) {
    const struct rung *x = a;
    const struct rung *y = b;
    if (x->pull < y->pull || x->pull > y->pull) {
        return x->pull < y->pull ? -1 : 1;
    }
    return x->place < y->place ? -1 : x->place > y->place;
}

static void fill_ladder(const struct restring_note *note, struct ladder *ladder) {
    ladder->count = note->count;
    ladder->step = note->step;
    for (size_t k = 0; k < note->count; k++) {
        const struct restring_string *string = &note->strings[k];
        ladder->rungs[k] = (struct rung){
            .pull = string->pull,
            .force = string->force,
            .own = isnan(note->aim) ? 0 : restring_term(string->pull - note->aim),
            .place = k};
    }
    qsort(ladder->rungs, ladder->count, sizeof *ladder->rungs, by_pull);
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
        fill_ladder(&problem->notes[i], &out->items[i]);
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

/* The best rung of ladder `i` after a string for which `pull` would be the wished one. `rung` starts
 * where that pull would stand. */
static int64_t best_next(const struct ladders *ladders, const struct bound *bound, size_t i,
                         double pull, size_t start, size_t *rung) {
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
            ahead = best_next(ladders, bound, i + 1, pull, start, &best);
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

/* A set as a line over the price. */
struct line {
    double cost;  /* parts */
    double force; /* N */
};

static void add_rung(const struct ladders *ladders, size_t i, size_t rung, double *pull,
                     struct line *line) {
    const struct ladder *ladder = &ladders->items[i];
    const struct rung *chosen = &ladder->rungs[rung];
    line->cost += (double)(chosen->own + (i == 0 ? 0 : restring_term(chosen->pull - *pull)));
    line->force += chosen->force;
    *pull = chosen->pull + ladder->step;
}

/* The set that has the bound's least value. */
static struct line best_line(const struct ladders *ladders, const struct bound *bound) {
    struct line line = {0.0, 0.0};
    double pull = 0.0;
    size_t rung = 0;
    while (bound->rest[0][rung] > bound->least[0]) {
        rung++;
    }
    for (size_t i = 0; i < ladders->count; i++) {
        if (i > 0) {
            size_t start = ladder_find(&ladders->items[i], pull);
            (void)best_next(ladders, bound, i, pull, start, &rung);
        }
        add_rung(ladders, i, rung, &pull, &line);
    }
    return line;
}

/* The set of the lightest strings. */
static struct line lightest_line(const struct ladders *ladders) {
    struct line line = {0.0, 0.0};
    double pull = 0.0;
    for (size_t i = 0; i < ladders->count; i++) {
        const struct ladder *ladder = &ladders->items[i];
        size_t lightest = 0;
        for (size_t k = 1; k < ladder->count; k++) {
            if (ladder->rungs[k].force < ladder->rungs[lightest].force) {
                lightest = k;
            }
        }
        add_rung(ladders, i, lightest, &pull, &line);
    }
    return line;
}

/* Whether a line lies under the crossing of the two at that price, by more than rounding. */
static bool is_under(const struct line *line, const struct line *other, double price) {
    double gap = other->cost - line->cost + price * (other->force - line->force);
    return gap > 64.0 + 1e-12 * (fabs(other->cost) + fabs(price * other->force));
}

void bound_tighten(const struct ladders *ladders, const struct bound *unpriced, struct bound *bound) {
    struct line over = best_line(ladders, unpriced);
    struct line within = lightest_line(ladders);
    double most = most_priced / fmax(ladders->heaviest, 1e-300);
    if (over.force <= ladders->limit) {
        bound_solve(ladders, 0.0, bound); /* the limit takes nothing from the best set */
        return;
    }
    for (int round = 0; round < ROUNDS_MAX; round++) {
        double price = (within.cost - over.cost) / (over.force - within.force);
        if (!(price > 0.0)) {
            price = 0.0;
        }
        bound_solve(ladders, fmin(price, most), bound);
        struct line line = best_line(ladders, bound);
        if (!(price > 0.0) || price > most || !is_under(&line, &over, price)) {
            return;
        }
        if (line.force > ladders->limit) {
            over = line;
        } else {
            within = line;
        }
    }
}
