/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a misspelt word may have meant. */
#ifndef MENSUR_BASE_NEAREST_H
#define MENSUR_BASE_NEAREST_H

#include <stdbool.h>

/* The nearest of the names that a word was held against, the first of several. */
struct mensur_nearest {
    const char *word;
    const char *name; /* borrowed; NULL where none is near */
    int distance;     /* of the name */
};

/* Before any name: one that is more than so many letters apart (mensur_text_distance) is not near.
 */
struct mensur_nearest mensur_nearest_start(const char *word, int most);

/* Holds the word against one more name (NULL: none); true where it is the nearest so far. */
bool mensur_nearest_take(struct mensur_nearest *nearest, const char *name);

#endif
