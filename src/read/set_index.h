/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which string a set has for a note, found without a look at every string of the stock. */
#ifndef MENSUR_SET_INDEX_H
#define MENSUR_SET_INDEX_H

#include "stock.h"

/* All zero: empty. Strings are only added to the stock while it is in use. */
struct set_index {
    size_t *slots; /* owned: places in the stock, from 1; 0 empty */
    size_t room;   /* of slots: a power of two */
    size_t taken;  /* strings of the stock that are in it */
};

/* The string of a set (NULL: none) for a note, borrowed from the stock; NULL where there is none.
 * MENSUR_MEMORY. */
enum mensur_status mensur_set_index_find(struct set_index *index, const struct mensur_stock *stock,
                                         const char *set, const struct mensur_note *note,
                                         const struct mensur_string_spec **found);
void mensur_set_index_clear(struct set_index *index);

#endif
