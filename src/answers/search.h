/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search along the neck (or the stop), and the interval of it that each wish allows. */
#ifndef MENSUR_SEARCH_H
#define MENSUR_SEARCH_H

#include "setup.h"
#include "string_model.h"

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

/* Where a range of places begins and ends, m. */
struct ends {
    double low, high;
};

/* Sets up a search from half to one and a half times the present place. */
enum mensur_status search_make(const struct mensur_stock *stock, const struct setup *setup,
                               const struct mensur_terms *terms, bool for_stop,
                               struct mensur_fault *fault, struct search *out);

/* The instrument with its neck (stop) at a place. */
enum mensur_status search_setup(const struct search *search, double place, struct setup *out);

/* The tension of each string on a length (m), N, NaN unknown, and of all; NaN without strings. */
double search_tensions(const struct search *search, double length, double *each);

/* What a wish is about, at a place; NaN where there is no such instrument. */
double search_figure(const struct search *search, enum mensur_wish_kind kind, size_t string,
                     double place);

/* The place at which a wish's figure has a value, between the search's ends. */
enum mensur_status search_place(const struct search *search, enum mensur_wish_kind kind,
                                size_t string, double figure, double *place);

/* The interval of places that meet a wish; fills in place_low, place_high, within_reach. */
void search_interval(const struct search *search, struct wish_line *line);

/* Turns wishes into lines, with the liked length and, without a length wish, the made-for range,
 * and finds the interval of each.
 * `like` is NULL where no instrument is liked. */
enum mensur_status wish_list_make(const struct search *search, const struct mensur_wishes *wishes,
                                  const struct mensur_profile *present,
                                  const struct mensur_profile *like, struct mensur_fault *fault,
                                  struct wish_list *out);

/* The first wish for a string length; NULL where there is none. */
const struct mensur_want *wish_list_length(const struct wish_list *list);

/* The places that all wishes within reach have in common, the search's ends where none binds; in a
 * conflict the end comes before the beginning. */
struct ends wish_list_ends(const struct search *search, const struct wish_list *list);

#endif
