/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice of one string for each note, as a problem of numbers alone: the best sets in order,
 * under a limit on the whole force. */
#ifndef MENSUR_RESTRING_SEARCH_H
#define MENSUR_RESTRING_SEARCH_H

#include <stddef.h>
#include <stdint.h>

#include "ask.h"

enum { RESTRING_SETS_MAX = 1 + MENSUR_RUNNERS_UP_MAX };

/* A string that fits a note; its place among them is the catalogue's order. */
struct restring_string {
    double log_tension;                    /* log of its tension in N */
    double force;                          /* N on the belly; any number where there is no limit */
    int64_t extra;                         /* cost of its own, in parts of 2^-40, 0 to 2^56 */
    const struct mensur_string_spec *spec; /* borrowed; the search does not look at it */
};

struct restring_note {
    struct restring_string *strings;
    size_t count; /* 1 or more for a search */
    double aim;   /* log of the wished tension in N; NaN: none */
    double step;  /* wished log step to the next note's tension; the last one's is not looked at */
};

struct restring_problem {
    size_t note_count; /* 1 or more */
    struct restring_note notes[MENSUR_STRINGS_MAX];
    double most_force; /* N, of the forces summed from the first note on; NaN: no limit */
    size_t wanted;     /* how many sets, 1 to RESTRING_SETS_MAX */
};

/* A set: for each note the place of its string, and the cost in whole parts of 2^-40. */
struct restring_set {
    size_t places[MENSUR_STRINGS_MAX];
    int64_t cost;
};

static const double restring_unit = 1099511627776.0; /* 2^40 */

/* The square of a difference of logs, in whole parts of 2^-40, the nearest; 65536 at most. Whole,
 * so that sums of costs are exact, whatever their order, and sets of equal cost are seen to be. */
static inline int64_t restring_term(double difference) {
    double square = difference * difference;
    return (int64_t)((square < 65536.0 ? square : 65536.0) * restring_unit + 0.5);
}

/* A cost as a number. */
static inline double restring_cost(int64_t cost) {
    return (double)cost / restring_unit;
}

/* The best sets, the least cost first, equal ones in the order of their places. `found` is as many
 * as are wanted or as there are. `slack` is 0 N where they are exact, as they always are without a
 * limit; else the k-th of them costs no more than the k-th best of those sets whose force is less
 * than the limit by `slack` or more. It is under a 2000th of the limit for each note but the last.
 * MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status restring_search(const struct restring_problem *problem,
                                   struct restring_set *sets, size_t *found, double *slack);

#endif
