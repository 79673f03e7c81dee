/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which names a file gave more than once: eight bytes a row, not the names themselves. */
#ifndef MENSUR_READ_NAMES_H
#define MENSUR_READ_NAMES_H

#include <stdint.h>

#include "rows.h"

/* A row whose name has a hash that came more than once. */
struct name_hit {
    uint64_t hash;
    char *name;
    long line;
    long first; /* line of the first row of that name */
};

/* So many rows that share their name with another are looked at one by one. */
#define MENSUR_HITS_MOST 20000

/* All zero is an empty one. */
struct names {
    uint64_t *hashes; /* of every row's name; once sorted, in their order */
    size_t count, room;
    struct name_hit *hits;
    size_t hit_count; /* the first MENSUR_HITS_MOST are kept */
    bool hits_left_out;
    int column;     /* cell of the names, from 0 */
    bool past_head; /* of the second reading */
};

/* Notes a name. MENSUR_MEMORY. */
enum mensur_status mensur_names_add(struct names *names, const struct cell *cell);

/* Sorts, reads the source again if any hash came twice, and reports each row whose name stood
 * before with the line of the first. MENSUR_MEMORY; MENSUR_READ. */
enum mensur_status mensur_names_report(struct names *names, const struct mensur_source *source,
                                       struct log *log);

/* Frees all. */
void mensur_names_clear(struct names *names);

#endif
