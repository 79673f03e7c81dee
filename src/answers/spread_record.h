/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An answer as a function of its measurements, and the propagation of their uncertainties through
 * it: what the spreads of a profile, a change and a decision have in common. */
#ifndef MENSUR_SPREAD_RECORD_H
#define MENSUR_SPREAD_RECORD_H

#include "search.h"

/* The profiles of an answer: the instrument as it is; as changed, or at the recommended place; the
 * liked one. */
enum { PRESENT, OTHER, LIKED, PROFILES };

#define OF(profile) (1U << (profile))

/* The measurements of a string: its quantities but those of its wrappings, and two a wrapping. */
enum {
    SPEC_FIELDS = 14 + 2 * MENSUR_WRAPS_MAX,
    INSTRUMENTS_MAX = 2,
    /* Two instruments, or one and its changes, and the strings of both. */
    MEASURED_MAX = 2 * (MENSUR_FIELD_COUNT + MENSUR_STRINGS_MAX * SPEC_FIELDS),
    /* What is assumed of both, and density and strength of each string's core, densities of its
     * wrappings. */
    ASSUMED_MAX = 2 * (MENSUR_FIELD_COUNT + MENSUR_STRINGS_MAX * (2 + MENSUR_WRAPS_MAX)),
    INPUTS_MAX = MEASURED_MAX + ASSUMED_MAX,
    FIGURES_MAX = PROFILES * sizeof(struct mensur_spread) / sizeof(double)
};

/* A measurement that says how sure it is, or a value that is assumed with its usual spread. */
struct input {
    struct mensur_quantity *slot; /* where the computation reads a measurement */
    double *assumed;              /* where it reads an assumed value; NULL: it was stated */
    const char *owner;            /* the liked instrument's name; NULL */
    const char *note;             /* of a string, name of a material; NULL */
    const char *field;
    unsigned of; /* the profiles that it stands behind */
};

/* Strings that an answer follows from. */
struct strung {
    const char *set;                               /* NULL: none */
    const struct mensur_tuning *tuning;            /* NULL: none */
    const struct mensur_string_spec *const *given; /* one for each note, rather than a set's, of the
                                                      catalogue or of their own; NULL: none */
    const char *owner;                             /* as an input's */
    unsigned of;                                   /* as an input's */
};

/* An instrument that an answer follows from: a copy whose measurements can be moved. */
struct measured {
    struct mensur_instrument instrument; /* texts borrowed */
    const struct setup *setup;           /* as it is; borrowed */
    const char *owner;                   /* as an input's */
    unsigned of;                         /* as an input's */
    double off[MENSUR_FIELD_COUNT];      /* how far off what is assumed of it is */
};

/* A figure of a profile, and its like-named one in the spread. */
struct figure {
    int of; /* which profile */
    size_t in_profile, in_spread;
};

struct record;

/* Finds the answer's figures with the measurements as they stand in the record: its profiles, NULL
 * where one cannot be made, and further ones, which are NaN before. */
typedef void record_evaluation(struct record *record, const struct mensur_profile **profiles,
                               double *more);

/* What an answer is computed from. */
struct record {
    const struct mensur_stock *from; /* borrowed */
    struct mensur_stock stock;       /* with the strings of the sets that are used alone, and
                                        materials, owned */
    const struct mensur_terms *terms;
    unsigned parts; /* of the profiles */
    /* Those of stock that are on OTHER, where they were given; NULL: its set's are. */
    const struct mensur_string_spec *given[MENSUR_STRINGS_MAX];
    size_t instrument_count;
    struct measured instruments[INSTRUMENTS_MAX];
    record_evaluation *evaluate;
    void *context;                             /* of evaluate */
    size_t evaluation;                         /* of a propagation, two for each input, from 0 */
    size_t more_count;                         /* of further figures */
    double more[WISH_LINES_MAX];               /* they, as the answer has them; NaN unknown */
    struct mensur_profile *profiles[PROFILES]; /* of the answer; NULL where it has none */
    struct mensur_profile moved[PROFILES];     /* the same with the measurements moved */
    size_t input_count, figure_count, assumed_count;
    struct input inputs[INPUTS_MAX];
    struct mensur_quantity assumed[ASSUMED_MAX]; /* the slots of what is assumed */
    struct figure figures[FIGURES_MAX];
    enum mensur_status failed; /* what kept figures from being computed: memory */
};

/* What a propagation gives: of each figure, the listed ones and then the further ones, its standard
 * uncertainty, and each measurement's share of the variance and part with its sign. */
struct propagated {
    size_t measurements, listed;
    const double *u, *parts;
    double *shares; /* used up by record_matters */
};

/* Takes what a propagation gives of the further figures. */
typedef enum mensur_status take_more(const struct record *record,
                                     const struct propagated *propagated, void *context);

/* A record of an instrument, for record_free to free; NULL without memory. */
struct record *record_make(const struct mensur_stock *stock, const struct setup *setup,
                           const struct mensur_terms *terms, unsigned parts);
void record_free(struct record *record);

/* Adds an instrument, with the measurements of it that say how sure they are. */
void record_add_instrument(struct record *record, const struct setup *setup, const char *owner,
                           unsigned of);

/* Adds a measurement that says how sure it is; one that is met again stands behind both. */
void record_add(struct record *record, struct mensur_quantity *slot, struct input input);

/* The strings of an instrument. */
struct strung record_strung(const struct mensur_stock *stock,
                            const struct mensur_instrument *instrument, const char *owner,
                            unsigned of);

/* Whether a string is of a set that is used, or is given. */
bool record_uses(const struct mensur_string_spec *spec, const struct strung *strung, size_t count);

/* Whether any measurement of a string says how sure it is. */
bool record_unsure(const struct mensur_string_spec *spec);

/* What the answer follows from is complete: takes its strings, and then what is assumed. */
enum mensur_status record_complete(struct record *record, const struct strung *strung,
                                   size_t count);

/* Sets an instrument up and finds its figures; NULL where it cannot be made. */
const struct mensur_profile *record_set_up(struct record *record,
                                           const struct mensur_instrument *instrument,
                                           const struct setup *from, int which, struct setup *out);

/* The figures of a profile, and nothing that is said of them. */
const struct mensur_profile *record_figures(struct record *record, const struct setup *setup,
                                            int which);

/* Fills in the spreads of the profiles, and takes those of further figures (NULL: there are none).
 * Nothing is done where no measurement says how sure it is. */
enum mensur_status record_propagate(struct record *record, take_more *take, void *context);

/* The measurements with the largest shares, most first, which are used up; with their owners, or
 * bare. How many. */
size_t record_matters(const struct record *record, double *shares, bool owned,
                      struct mensur_matter *out);

#endif
