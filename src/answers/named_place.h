/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of the notes at a place on a string: of where the hand meets the body, and of the first
 * finger with the thumb in the heel, by which shops call a neck ("D neck"). */
#ifndef MENSUR_NAMED_PLACE_H
#define MENSUR_NAMED_PLACE_H

#include <stdbool.h>

#include "instrument.h"
#include "result_use.h"

/* The notes at a place so many semitones above the open string that `rank` strings are higher than:
 * that note where it is within so many semitones of it, else the two that it lies between; none
 * without a tuning or such a string, or where the place is not known (NaN). */
void name_place(const struct mensur_tuning *tuning, size_t rank, double semitones, double within,
                struct mensur_named_place *out);

/* The string on which a neck is named by its heel, as its rank from the highest: the G string of
 * cello and bass (low_family), the second lowest of what is held under the chin. */
size_t heel_rank(const struct mensur_tuning *tuning, bool low_family);

/* Adds that another note lies under the first finger with the thumb in the heel, where both places
 * are at one. */
void heel_moves(const struct mensur_lengths *now, const struct mensur_lengths *then,
                bool low_family, struct mensur_facts *list);

#endif
