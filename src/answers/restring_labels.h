/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels of the ways by which the search came to a string: a way that enough better ones came
 * before need not be gone on. */
#ifndef MENSUR_RESTRING_LABELS_H
#define MENSUR_RESTRING_LABELS_H

#include "restring_bounds.h"

struct labels {
    size_t notes;
    size_t wanted; /* better ways that are enough */
    size_t *heads; /* owned: newest label of each rung, plus 1; 0: none */
    size_t head_count;
    size_t first[MENSUR_STRINGS_MAX]; /* head of each note's first rung */
    struct label *items;              /* owned */
    size_t *places;                   /* owned: of label k from k times `notes` on */
    size_t count;
    size_t room;
};

/* -1, 0 or 1: which of two ways of that many notes stands first in the catalogue's order. */
int restring_compare(const size_t *a, const size_t *b, size_t notes);

/* MENSUR_OK or MENSUR_MEMORY; clear it in either case. */
enum mensur_status labels_make(const struct ladders *ladders, size_t wanted, struct labels *out);
void labels_clear(struct labels *labels);

/* Takes all labels away. */
void labels_forget(struct labels *labels);

/* Whether `wanted` better ways came to this rung of note i before: of no more cost and no more
 * force, and of less cost or first in the catalogue's order. If not, the way is labelled. */
bool labels_outdo(struct labels *labels, size_t i, size_t rung, const size_t *places, int64_t cost,
                  double force);

#endif
