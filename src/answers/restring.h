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
    RESTRING_FAMILY,   /* without strings: a set of the family, by the length */
    RESTRING_PROFILED, /* the others', shared out anew */
    RESTRING_NO_AIM
};

/* What is wished of a note's string; N. */
struct restring_aim {
    double low; /* it has no less; NaN: open */
    double high;
    double tension; /* it is to have; NaN: none */
    enum restring_origin origin;
    double course; /* what the steps to its neighbours go by where an aim is missing; NaN: none */
};

/* Why a string does not fit; what is known of it, is weighed in this order. */
enum restring_fault {
    RESTRING_NO_TENSION, /* its tension is not known */
    RESTRING_OTHER_CORE, /* of another material than is looked for */
    RESTRING_LENGTH,     /* made for another length */
    RESTRING_MARGIN,     /* too near breaking */
    RESTRING_LIGHT,      /* less tension than is wished */
    RESTRING_HEAVY,      /* more */
    RESTRING_FAULTS
};

/* A string that is offered for a note. */
struct restring_candidate {
    const struct mensur_string_spec *spec; /* borrowed */
    double tension;                        /* N; NaN unknown */
    double margin;                         /* semitones to breaking; NaN unknown */
    bool margin_unknown;                   /* or a lower bound under the wished one */
    bool made_for_this;                    /* the length lies in its range, as far as one is told */
    bool packet;                           /* known by its packet */
    unsigned faults;                       /* 1 << enum restring_fault */
    double excess; /* sum of squares of the logs of tension by which it misses limits */
};

/* A note's strings, in the order of the catalogue, packets last. */
struct restring_offer {
    struct restring_candidate *candidates; /* borrowed */
    size_t count;
    size_t present; /* the place of the present string; count: it is not among them */
};

/* An instrument on its way to new strings. */
struct restringer {
    const struct mensur_stock *stock;
    const struct mensur_restring_wishes *wishes;
    const struct mensur_terms *terms;
    const struct setup *setup;
    const struct mensur_profile *present; /* its strings as they are */
    struct mensur_profile like;           /* owned; where one is liked */
    size_t note_count;
    double frequencies[MENSUR_STRINGS_MAX]; /* Hz */
    struct restring_aim aims[MENSUR_STRINGS_MAX];
    const char *family_set; /* that the aims are taken from; NULL: none */
    bool low_set;           /* it is one for a low pitch, because this one is */
    double family_length;   /* m, that it is made for */
    const struct mensur_string_spec *now[MENSUR_STRINGS_MAX]; /* the present ones; NULL: none */
    unsigned cores[MENSUR_STRINGS_MAX];                       /* 1 << enum mensur_core: allowed */
    struct restring_offer offers[MENSUR_STRINGS_MAX];
    struct mensur_string_spec *packets;    /* owned; their names are the answer's */
    struct restring_candidate *candidates; /* owned; of all offers */
    struct restring_string *strings;       /* owned; behind the problem's notes */
    struct restring_problem problem;
};

/* Which strings a search is among. Among the first, a string whose margin is not known stands back
 * where one is known to hold, and the present string stays unless another comes nearer to its aim
 * by a part of it (RESTRING_LEAST_GAIN). Where no aim was asked for, one that serves on this length
 * stays. */
enum restring_pool {
    RESTRING_GAINING, /* those that fit, and gain */
    RESTRING_FITTING, /* all that fit */
    RESTRING_NEAREST  /* those too that do not: what they miss is part of the cost; of a note's,
                         those alone that are nearest to hold and to be made for the length */
};

/* The least gain for which a string is exchanged, as a part of its aim (ours). */
#define RESTRING_LEAST_GAIN 0.02

/* Semitones to breaking, of any string and of a plain gut top string, where no margin is asked for;
 * common practice, no source; reported as assumed. */
#define RESTRING_USUAL_MARGIN 2.0
#define RESTRING_USUAL_GUT_MARGIN 1.0

/* The length whose tensions are aimed at where the present set says it: the middle of the range
 * common to all its strings, m; NaN where there is none. */
double restring_middle(const struct mensur_profile *present);

/* Whether players, if they care, take strings made for a low pitch at this A4; whether a set is
 * such.
 */
bool restring_pitch_is_low(const struct restringer *restringer);
bool restring_is_for_low_pitch(const char *set);

/* From stock, wishes, terms, set-up and present strings to what each note aims at, the packets'
 * strings and their names, and all strings that are offered. The rest is filled in as far as it
 * comes, and the caller's to clear. */
enum mensur_status restring_ready(struct restringer *restringer, struct mensur_texts *names,
                                  struct mensur_fault *fault);
void restring_clear(struct restringer *restringer);

/* What part of its upper neighbour's tension each string is to have by the profile; 1: the same. */
double restring_grade(const struct restringer *restringer);

/* Whether a string made for a note serves as the i-th: it is that note, or the one of the present
 * string, which may be tuned to another. */
bool restring_is_for(const struct restringer *restringer, size_t i, const struct mensur_note *note);

/* A string for note i, weighed against the wishes. */
void restring_weigh(const struct restringer *restringer, size_t i,
                    const struct mensur_string_spec *spec, bool packet,
                    struct restring_candidate *out);

/* The least margin to breaking that a string may have as the i-th, semitones. */
double restring_least_margin(const struct restringer *restringer,
                             const struct mensur_string_spec *spec, size_t i);

/* Whether a string is plain gut and stands at the top. */
bool restring_is_gut_top(const struct restringer *restringer, const struct mensur_string_spec *spec,
                         size_t i);

/* Puts the strings of a pool into the problem; false where a note has none. */
bool restring_fill(struct restringer *restringer, enum restring_pool of);

/* The wished log step of tension from note i to the next; 0 behind the last. */
double restring_step(const struct restringer *restringer, size_t i);

/* The cost of strings, one for each note, as the search counts it. */
int64_t restring_cost_of(const struct restringer *restringer,
                         const struct restring_candidate *strings);

/* What strings miss, one for each note; of a whole set, that is of a core not looked for, too. */
void restring_misses(const struct restringer *restringer, const struct restring_candidate *strings,
                     bool of_set, struct mensur_facts *misses);

/* The sum of the amounts off the aims, and the largest step between neighbours, N. */
double restring_off_aim(const struct restringer *restringer, const double *tensions);
double restring_largest_step(const struct restringer *restringer, const double *tensions);

/* A complete set of the catalogue. */
struct restring_whole {
    const char *set;
    const struct mensur_string_spec *specs[MENSUR_STRINGS_MAX];
    int rank;     /* 0 meets every wish; 1 the same, but its margin is not known; then those of
                     another core alike; then those that miss something */
    int64_t cost; /* with what it misses */
    size_t first; /* its first string's place in the catalogue */
};

/* The complete sets for the tuning, by rank, cost and the catalogue's order; owned by the caller.
 */
enum mensur_status restring_find_sets(const struct restringer *restringer,
                                      struct restring_whole **sets, size_t *count);
/* Fills in what is told of a set. */
void restring_tell_set(const struct restringer *restringer, const struct restring_whole *whole,
                       struct mensur_whole_set *out);

/* Plain strings to order for the aims. */
enum mensur_status restring_order(const struct restringer *restringer, struct mensur_fault *fault,
                                  struct mensur_restringing *out);

/* The thickest gauge that plain gut is ordered in for instruments of a family (NULL: any), m. */
double restring_thickest_plain(const char *family);

/* What was aimed at, and what is known of the sets not found (as mensur_restringing.force_slack).
 */
void restring_reason(const struct restringer *restringer, const struct mensur_restringing *answer,
                     struct mensur_facts *reason);

/* Why the string of a note. */
void restring_why(const struct restring_aim *aim, const struct mensur_string_figures *figures,
                  bool kept, struct mensur_facts *why);

/* Which wish excludes what. */
void restring_excluded(const struct restringer *restringer, bool found,
                       struct mensur_facts *excluded);

#endif
