/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on the neck (or the stop), in its parts: the search along the neck, the interval
 * that each wish allows, the choice, the words, the table, and the strings that would do instead.
 */
#ifndef MENSUR_DECISION_H
#define MENSUR_DECISION_H

#include "profile.h"

/* A search along the neck, or along the stop; `place` is the one that moves, in m. */
struct search {
    const struct mensur_stock *stock;
    const struct mensur_terms *terms;
    const struct setup *setup; /* the instrument as it is */
    bool for_stop;
    double present;   /* m */
    double low, high; /* m, where the search ends */
    size_t string_count;
    struct string_model models[MENSUR_STRINGS_MAX];
    double frequencies[MENSUR_STRINGS_MAX]; /* Hz */
};

/* A wish on its way to an interval. */
struct wish_line {
    enum mensur_wish_kind kind;
    size_t string; /* of the tuning, for a tension */
    struct mensur_want want;
};

/* The most wishes: one of each kind, the liked length, and a tension for every string. */
enum { WISH_LINES_MAX = 64 };

struct wish_list {
    size_t count;
    struct wish_line lines[WISH_LINES_MAX];
};

/* Sets up a search from half to one and a half times the present place. */
enum mensur_status search_make(const struct mensur_stock *stock, const struct setup *setup,
                               const struct mensur_terms *terms, bool for_stop,
                               struct mensur_fault *fault, struct search *out);

/* The instrument with its neck (stop) at a place. */
enum mensur_status search_setup(const struct search *search, double place, struct setup *out);

/* What a wish is about, at a place; NaN where there is no such instrument. */
double search_figure(const struct search *search, enum mensur_wish_kind kind, size_t string,
                     double place);

/* The place at which a wish's figure has a value, between the search's ends. */
enum mensur_status search_place(const struct search *search, enum mensur_wish_kind kind,
                                size_t string, double figure, double *place);

/* The interval of places that meet a wish; fills in place_low, place_high, within_reach. */
void search_interval(const struct search *search, struct wish_line *line);

/* Turns wishes into lines, with the liked length and, without a length wish, the made-for range. */
enum mensur_status wish_list_make(const struct search *search, const struct mensur_wishes *wishes,
                                  const struct mensur_decision *decision,
                                  struct mensur_fault *fault, struct wish_list *out);

/* The interval in common, the conflict, the recommended place, the wished length. */
void decision_choose(const struct search *search, const struct wish_list *list,
                     struct mensur_decision *decision);

/* Profiles, wishes and their intervals: all that the choice is made from. */
enum mensur_status decision_weigh(const struct search *search, const struct mensur_wishes *wishes,
                                  struct mensur_fault *fault, struct wish_list *list,
                                  struct mensur_decision *decision);

/* How sure the ends of the choice are, and whether the measurements can decide. */
enum mensur_status decision_sureness(const struct search *search,
                                     const struct mensur_wishes *wishes,
                                     const struct wish_list *list,
                                     struct mensur_decision *decision);

/* The table in steps. */
enum mensur_status decision_steps(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision);

/* The strings that would do instead. */
void decision_instead(const struct search *search, struct mensur_decision *decision);

/* The reason, and what moves. */
enum mensur_status decision_facts(const struct search *search, struct mensur_decision *decision);

#endif
