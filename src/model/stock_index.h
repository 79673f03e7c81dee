/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The places of names in the tables of a stock, so that a name of many is found at once. */
#ifndef MENSUR_STOCK_INDEX_H
#define MENSUR_STOCK_INDEX_H

#include "stock.h"

/* Where rows have a name by which they are looked for; strings by their set's. */
enum mensur_named_table {
    MENSUR_NAMED_FAMILIES,
    MENSUR_NAMED_TUNINGS,
    MENSUR_NAMED_MATERIALS,
    MENSUR_NAMED_PLAYERS,
    MENSUR_NAMED_SIZES,
    MENSUR_NAMED_SETS,
    MENSUR_NAMED_COUNT
};

/* The first row of that name; the count of rows where there is none or no name. An index that is
 * not of these rows as they are now is not asked: then they are gone through. */
size_t mensur_stock_place(const struct mensur_stock *stock, enum mensur_named_table table,
                          const char *name);

/* The next string of the set behind that of a row; the count of strings where there is none. */
size_t mensur_stock_next_of_set(const struct mensur_stock *stock, size_t row);

/* Notes the rows that have come since the last time; a short table needs no index. MENSUR_MEMORY.
 */
enum mensur_status mensur_stock_index_update(struct mensur_stock *stock);

/* Frees the index of a stock. */
void mensur_stock_index_free(struct mensur_stock *stock);

#endif
