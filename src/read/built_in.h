/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The CSV files that are compiled into the library; embed.c writes them as C at build time. */
#ifndef MENSUR_READ_BUILT_IN_H
#define MENSUR_READ_BUILT_IN_H

#include <stddef.h>

struct built_in {
    const char *file; /* as in MENSUR_TABLE_LIST */
    const unsigned char *bytes;
    size_t size;
};

/* One for each table; file is NULL in the last. */
extern const struct built_in mensur_built_in_files[];

#endif
