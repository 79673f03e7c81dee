/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure an answer is: every stated ± moved through the answer's own computation. */
#ifndef MENSUR_SPREAD_H
#define MENSUR_SPREAD_H

#include "change.h"
#include "profile.h"
#include "propagate.h"

/* A measurement that says how sure it is. */
struct measured {
    struct mensur_quantity *slot; /* where the computation reads it */
    char field[48];
};

/* An instrument whose measurements can be moved, and how the profile came from it. */
struct varied {
    const struct mensur_stock *stock;
    const struct mensur_terms *terms;
    struct mensur_instrument instrument;                 /* texts borrowed; measurements its own */
    struct mensur_string_spec specs[MENSUR_STRINGS_MAX]; /* texts borrowed */
    size_t spec_count;
    const struct mensur_change *changes;                      /* made to it; none */
    struct mensur_change own_changes[MENSUR_FIELD_COUNT + 2]; /* fields, set and tuning */
    size_t change_count;
    double neck, stop; /* m, where the neck was moved to; NaN: not moved */
    struct measured measured[MENSUR_MEASUREMENTS_MAX];
    size_t measured_count;
    enum mensur_status failed; /* what kept a figure from being computed: memory */
};

/* Makes an instrument ready to be moved. `changes` may be NULL; neck and stop NaN. */
void varied_make(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                 const struct mensur_change *changes, size_t change_count, double neck, double stop,
                 const struct mensur_terms *terms, struct varied *out);

/* Adds an instrument's stated measurements to a list; `name` comes before the field's, or is NULL.
 */
void varied_add_fields(struct mensur_instrument *instrument, const char *name,
                       struct measured *list, size_t *count);

/* Whether any measurement of a string says how sure it is. */
bool spec_says_how_sure(const struct mensur_string_spec *spec);

/* Values and uncertainties of the measured ones. */
void measured_values(const struct measured *list, size_t count, double *x, double *u);

/* Puts values into their slots. */
void measured_put(const struct measured *list, size_t count, const double *x);

/* The measurements with the largest shares, most first. */
size_t matters_most(const struct measured *list, const double *u, const double *shares,
                    size_t count, struct mensur_matter *out);

/* Fills in a profile's spread where a measurement behind it says how sure it is. */
enum mensur_status spread_fill(struct varied *varied, unsigned parts,
                               struct mensur_profile *profile);

#endif
