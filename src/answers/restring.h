/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length, in their parts: what is aimed at, which strings fit, the search, what is
 * said.
 */
#ifndef MENSUR_RESTRING_H
#define MENSUR_RESTRING_H

#include "profile.h"
#include "restring_search.h"

/* Where the tension that a note aims at came from. */
enum restring_origin {
    RESTRING_WISHED,   /* the middle of a wish */
    RESTRING_LIKED,    /* the liked instrument's string */
    RESTRING_MADE_FOR, /* the present string in the middle of the range it is made for */
    RESTRING_NO_AIM
};

/* What is wished of a note's string; N. */
struct restring_aim {
    double low; /* no less tension than that; NaN: open */
    double high;
    double tension; /* the one it is to have; NaN: none */
    enum restring_origin origin;
    double course; /* what the steps to its neighbours go by where an aim is missing; NaN: none */
};

/* Why a string does not fit; what is known of it, is weighed in this order. */
enum restring_fault {
    RESTRING_NO_TENSION, /* its tension is not known */
    RESTRING_LENGTH,     /* made for another length */
    RESTRING_MARGIN,     /* too near breaking */
    RESTRING_LIGHT,      /* less tension than is wished */
    RESTRING_HEAVY,      /* more */
    RESTRING_FAULTS
};

/* How the strings of a note fared. */
struct restring_tally {
    size_t all;
    size_t fit;
    size_t first[RESTRING_FAULTS]; /* whose first fault it is */
    size_t only[RESTRING_FAULTS];  /* ... and that have no other */
};

/* An instrument on its way to new strings. */
struct restringer {
    const struct mensur_stock *stock;
    const struct mensur_restring_wishes *wishes;
    const struct mensur_terms *terms;
    const struct setup *setup;
    const struct mensur_profile *present; /* its strings as they are */
    struct mensur_profile like;           /* owned; where one is liked */
    double least_margin;                  /* semitones */
    size_t note_count;
    double frequencies[MENSUR_STRINGS_MAX]; /* Hz */
    struct restring_aim aims[MENSUR_STRINGS_MAX];
    struct restring_tally tallies[MENSUR_STRINGS_MAX];
    struct mensur_string_spec *packets; /* owned; their names are the answer's */
    struct restring_string *strings;    /* owned; behind the problem's notes */
    struct restring_problem problem;
};

/* The length whose tensions are aimed at where the present set says it: the middle of the range
 * common to all its strings, m; NaN where there is none. */
double restring_middle(const struct mensur_profile *present);

/* From stock, wishes, terms, set-up, present strings and margin to the problem: what each note aims
 * at, the packets' strings and their names, which strings fit. The rest is filled in as far as it
 * comes, and the caller's to free. */
enum mensur_status restring_ready(struct restringer *restringer, struct mensur_texts *names,
                                  struct mensur_fault *fault);

/* What was aimed at, and what is known of the sets not found (as mensur_restringing.force_slack).
 */
void restring_reason(const struct restringer *restringer, bool found, double force_slack,
                     struct mensur_facts *reason);

/* Why the string of a note. */
void restring_why(const struct restring_aim *aim, const struct mensur_string_figures *figures,
                  struct mensur_facts *why);

/* Which wish excludes what. */
void restring_excluded(const struct restringer *restringer, bool found,
                       struct mensur_facts *excluded);

#endif
