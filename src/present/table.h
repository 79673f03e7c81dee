/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables of text: columns of fixed width, two lines of head, and names of any length. */
#ifndef MENSUR_PRESENT_TABLE_H
#define MENSUR_PRESENT_TABLE_H

#include "letters.h"

/* A column; its width holds the gap to its neighbour: before a figure, behind a text. */
struct mensur_table_column {
    const char *head[2];
    size_t width;
    bool left; /* a text, ranged left; else a figure, ranged right */
};

struct mensur_table {
    struct mensur_out *out;
    const struct mensur_table_column *columns;
    size_t count;
};

/* The head's two lines; a line without a word is left out. */
void mensur_table_head(const struct mensur_table *table);

/* A row of count texts. A name that is too wide for its column takes lines of its own, and the row
 * goes on below it; in the last column it is wrapped. */
void mensur_table_row(const struct mensur_table *table, const char *const *cells);

#endif
