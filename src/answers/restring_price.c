/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bounds of a problem, and the price on force that makes the best one.
 *
 * A limit on the whole force couples all notes. A price on force takes its place (H. Everett, Oper.
 * Res. 11 (1963) 399-417; M. L. Fisher, Manage. Sci. 27 (1981) 1-18; both from memory): whatever
 * the price, cost plus price times (force less limit) is no more than the cost of a set within the
 * limit, and the price that makes its least value highest makes the best bound. That least value,
 * over prices, is a roof of straight lines, one for each set; its ridge is found by intersecting
 * the line of a set over the limit with that of a set within it, until no set lies under the
 * crossing. */
#include <math.h>

#include "restring_bounds.h"

/* The crossing is found after a handful of rounds; a bound from an earlier round holds as well. */
enum { ROUNDS_MAX = 40 };

/* No priced force may come near the end of what 64 bits hold. */
static const double most_priced = 1152921504606846976.0; /* 2^60 */

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
            (void)bound_next(ladders, bound, i, pull, start, &rung);
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

static void tighten(const struct ladders *ladders, const struct bound *unpriced,
                    struct bound *bound) {
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

static enum mensur_status add_bound(const struct ladders *ladders, double price,
                                    struct bounds *bounds) {
    struct bound *bound = &bounds->items[bounds->count];
    enum mensur_status status = bound_make(ladders, bound);
    if (status == MENSUR_OK) {
        bound_solve(ladders, price, bound);
        bounds->count++;
    }
    return status;
}

enum mensur_status bounds_make(const struct ladders *ladders, bool limited, struct bounds *out) {
    *out = (struct bounds){.count = 0};
    enum mensur_status status = add_bound(ladders, 0.0, out);
    if (status != MENSUR_OK || !limited) {
        return status;
    }
    status = add_bound(ladders, 0.0, out);
    if (status == MENSUR_OK) {
        tighten(ladders, &out->items[0], &out->items[1]);
    }
    double price = restring_unit / fmax(ladders->heaviest, 1e-300);
    while (status == MENSUR_OK && out->count < BOUNDS_MAX) {
        status = add_bound(ladders, price, out);
        price /= 8.0;
    }
    return status;
}

void bounds_clear(struct bounds *bounds) {
    for (size_t b = 0; b < BOUNDS_MAX; b++) {
        bound_clear(&bounds->items[b]);
    }
    bounds->count = 0;
}

int64_t bounds_least(const struct bounds *bounds) {
    int64_t most = bounds->items[0].least[0];
    for (size_t b = 1; b < bounds->count; b++) {
        int64_t bound = bounds->items[b].least[0] - bounds->items[b].allowance;
        most = bound > most ? bound : most;
    }
    return most;
}
