/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which names a file gave before: eight bytes a row, not the names themselves. */
#ifndef MENSUR_READ_NAMES_H
#define MENSUR_READ_NAMES_H

#include <stdint.h>

#include "rows.h"

/* A row whose name was (almost surely) there before. */
struct name_hit {
    uint64_t hash;
    char *name;
    long line;
    long first; /* line of the first row of that name, once found */
};

/* All zero is an empty one. */
struct names {
    uint64_t *slots; /* 0: free */
    size_t room, count;
    struct name_hit *hits;
    size_t hit_count;
    int column; /* cell of the names, from 0 */
};

/* Notes a name; *again tells whether its like was there before. MENSUR_MEMORY. */
enum mensur_status mensur_names_add(struct names *names, const struct cell *cell, bool *again);

/* Reads the source again, if any name came twice, and reports each with the line of the first. */
enum mensur_status mensur_names_report(struct names *names, const struct mensur_source *source,
                                       struct log *log);

/* Frees all. */
void mensur_names_clear(struct names *names);

#endif
