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
    double present;     /* m */
    bool present_known; /* it was measured */
    double low, high;   /* m, where the search ends */
    size_t string_count;
    struct string_model models[MENSUR_STRINGS_MAX];
    double frequencies[MENSUR_STRINGS_MAX]; /* Hz */
};

/* What a wish's limits are taken from. */
enum wish_base { WISH_OF_ITSELF, WISH_LIKE_LENGTH, WISH_PERCENT };

/* A wish on its way to an interval. */
struct wish_line {
    enum mensur_wish_kind kind;
    size_t string; /* of the tuning, for a tension */
    struct mensur_want want;
    enum wish_base base;
    double low, high; /* its limits as they were asked: from the liked length, as parts of a
                         tension, else those of the want */
};

/* The most wishes: one of each kind, the liked length, and a tension for every string. */
enum { WISH_LINES_MAX = 64 };

struct wish_list {
    size_t count;
    struct wish_line lines[WISH_LINES_MAX];
    bool has_made_for;         /* the strings have lengths in common that they are made for */
    struct wish_line made_for; /* and these are no wish */
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

/* What a wish is about, of an instrument set up. */
double search_figure_of(const struct search *search, const struct setup *setup,
                        enum mensur_wish_kind kind, size_t string);

/* The same at a place; NaN where there is no such instrument. */
double search_figure(const struct search *search, enum mensur_wish_kind kind, size_t string,
                     double place);

/* The place at which a wish's figure has a value, between the search's ends. */
enum mensur_status search_place(const struct search *search, enum mensur_wish_kind kind,
                                size_t string, double figure, double *place);

/* The interval of places that meet a wish; fills in place_low, place_high, within_reach. */
void search_interval(const struct search *search, struct wish_line *line);

/* The neck that is usual for the stop (the stop for the neck), m; NaN unknown. */
double search_usual(const struct search *search);

/* Turns wishes into lines, with the liked length; `like` is NULL where no instrument is liked. */
enum mensur_status wish_list_make(const struct search *search, const struct mensur_wishes *wishes,
                                  const struct mensur_profile *present,
                                  const struct mensur_profile *like, struct mensur_fault *fault,
                                  struct wish_list *out);

/* Finds the interval of each line, and that of the lengths that the strings are made for. */
void wish_list_find(const struct search *search, struct wish_list *list);

/* The figure that a line's own limits are about, of an instrument set up: its string length less
 * the liked one's, its tension as a part of what a percentage is taken of, else what is wished. */
double wish_line_figure(const struct search *search, const struct setup *setup,
                        const struct wish_line *line, const struct mensur_profile *present,
                        const struct mensur_profile *like);

/* The first wish for a string length; NULL where there is none. */
const struct mensur_want *wish_list_length(const struct wish_list *list);

/* The places that all wishes within reach have in common, the search's ends where none binds; in a
 * conflict the end comes before the beginning. */
struct ends wish_list_ends(const struct search *search, const struct wish_list *list);

#endif
