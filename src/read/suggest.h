/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an unknown name may have meant. */
#ifndef MENSUR_READ_SUGGEST_H
#define MENSUR_READ_SUGGEST_H

#include <stdbool.h>
#include <stddef.h>

/* Room for a suggestion, its end mark included. */
#define MENSUR_SUGGEST_ROOM 320

/* The names that there are: a `char *` (NULL: none) at the same place of each row. */
struct known_names {
    const void *rows;
    size_t count, size; /* rows, bytes of each */
    size_t offset;      /* of the name in a row */
};

/* `did you mean "viola"?`, or, where nothing is near, `there are: violin, viola, cello`. */
const char *mensur_suggest(const char *wrong, const struct known_names *known,
                           char out[MENSUR_SUGGEST_ROOM]);

#endif
