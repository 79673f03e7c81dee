/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the rest of a set must cost at least: the bounds that guide the search and cut it short. */
#ifndef MENSUR_RESTRING_BOUNDS_H
#define MENSUR_RESTRING_BOUNDS_H

#include "restring_search.h"

/* A string on its note's ladder. */
struct rung {
    double pull;
    double force;
    int64_t own; /* cost against the note's aim */
    size_t place;
};

/* The strings of a note, the lightest pull first. */
struct ladder {
    struct rung *rungs;
    size_t count;
    double step; /* wished log step to the next ladder */
};

struct ladders {
    size_t count;
    struct ladder items[MENSUR_STRINGS_MAX];
    struct rung *memory; /* owned */
    double limit;        /* N; infinite where there is none */
    double lightest[MENSUR_STRINGS_MAX + 1]; /* N: the least force from this note on */
    double heaviest;                         /* N: sum over notes of the largest amounts of force */
};

/* With a price on force, the least that a note and those above it cost, for each of its strings.
 * Price and allowance make it a bound for every set within the limit (Lagrange's relaxation):
 * cost >= cost + price (force - limit) wherever force <= limit. */
struct bound {
    double price;      /* parts of cost for 1 N; 0: none */
    int64_t allowance; /* price times limit, rounded up */
    int64_t *rest[MENSUR_STRINGS_MAX]; /* by rung */
    int64_t least[MENSUR_STRINGS_MAX]; /* the least of them */
    int64_t *memory;                   /* owned */
};

/* Sorts a problem into ladders. MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status ladders_make(const struct restring_problem *problem, struct ladders *out);
void ladders_clear(struct ladders *ladders);

/* The first rung whose pull is not under `pull`; the ladder's count where there is none. */
size_t ladder_find(const struct ladder *ladder, double pull);

enum mensur_status bound_make(const struct ladders *ladders, struct bound *out);
void bound_clear(struct bound *bound);

/* What a force costs at the bound's price. */
int64_t bound_priced(const struct bound *bound, double force);

/* Fills in a bound for a price. */
void bound_solve(const struct ladders *ladders, double price, struct bound *bound);

/* Fills in the bound at the price at which it is highest, or near it. `unpriced` is the bound without a
 * price. */
void bound_tighten(const struct ladders *ladders, const struct bound *unpriced, struct bound *bound);

#endif
