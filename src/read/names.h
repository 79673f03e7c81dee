/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the names that a file gives more than once; keeps eight bytes a row, not the names. */
#ifndef MENSUR_READ_NAMES_H
#define MENSUR_READ_NAMES_H

#include <stdint.h>

#include "rows.h"

/* A row whose name's hash occurs more than once. */
struct name_hit {
    uint64_t hash;
    char *name;
    long line;
    long first; /* line of the first row of that name */
};

/* All zero is an empty one. */
struct names {
    uint64_t *hashes; /* of every row's name; sorted by mensur_names_sort */
    size_t count, room;
    struct name_hit *hits;
    size_t hit_count;
    int column;     /* cell of the names, from 0 */
    bool past_head; /* the second reading is past the first row */
};

/* Adds a name. MENSUR_MEMORY. */
enum mensur_status mensur_names_add(struct names *names, const struct cell *cell);

/* Sorts the hashes. */
void mensur_names_sort(struct names *names);

/* True where two sorted lists have a hash in common. */
bool mensur_names_meet(const struct names *one, const struct names *other);

/* Sorts, reads the source again if a hash occurs twice, and reports each row whose name an earlier
 * row has, with the line of the first. MENSUR_MEMORY; MENSUR_READ. */
enum mensur_status mensur_names_report(struct names *names, const struct mensur_source *source,
                                       struct log *log);

/* Frees all. */
void mensur_names_clear(struct names *names);

#endif
