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
    struct rung *memory;                     /* owned */
    double limit;                            /* N; infinite where there is none */
    double lightest[MENSUR_STRINGS_MAX + 1]; /* N: the least force from this note on */
    double heaviest;                         /* N: sum over notes of the largest amounts of force */
};

/* With a price on force, the least that a note and those above it cost, for each of its strings.
 * Price and allowance make it a bound for every set within the limit (Lagrange's relaxation):
 * cost >= cost + price (force - limit) wherever force <= limit. */
struct bound {
    double price;                      /* parts of cost for 1 N; 0: none */
    int64_t allowance;                 /* price times limit, rounded up */
    int64_t *rest[MENSUR_STRINGS_MAX]; /* by rung */
    int64_t least[MENSUR_STRINGS_MAX]; /* the least of them */
    int64_t *memory;                   /* owned */
};

/* Sorts a problem into ladders, without strings that no set wanted can have. MENSUR_OK or
 * MENSUR_MEMORY. */
enum mensur_status ladders_make(const struct restring_problem *problem, struct ladders *out);
void ladders_clear(struct ladders *ladders);

/* The first rung whose pull is not under `pull`; the ladder's count where there is none. */
size_t ladder_find(const struct ladder *ladder, double pull);

enum mensur_status bound_make(const struct ladders *ladders, struct bound *out);
void bound_clear(struct bound *bound);

/* What a force costs at the bound's price. */
int64_t bound_priced(const struct bound *bound, double force);

/* The least that ladder i and those above it cost after a string for which `pull` would be the
 * wished one, the step to it included, and its rung; `start` is where that pull would stand. */
int64_t bound_next(const struct ladders *ladders, const struct bound *bound, size_t i, double pull,
                   size_t start, size_t *rung);

/* Fills in a bound for a price. */
void bound_solve(const struct ladders *ladders, double price, struct bound *bound);

enum { BOUNDS_MAX = 10 };

/* The bound without a price; where there is a limit, also the one whose price makes it highest for
 * the whole, and a scale of prices for ways that have strayed from what is best for the whole. */
struct bounds {
    size_t count;
    struct bound items[BOUNDS_MAX];
};

/* MENSUR_OK or MENSUR_MEMORY; clear them in either case. */
enum mensur_status bounds_make(const struct ladders *ladders, bool limited, struct bounds *out);
void bounds_clear(struct bounds *bounds);

/* What any set costs at least. */
int64_t bounds_least(const struct bounds *bounds);

#endif
