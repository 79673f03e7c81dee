/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files that stand in the library itself, as embed.c writes them when it is built. */
#ifndef MENSUR_READ_BUILT_IN_H
#define MENSUR_READ_BUILT_IN_H

#include <stddef.h>

struct built_in {
    const char *file; /* as in the list of tables */
    const unsigned char *bytes;
    size_t size;
};

/* One for each table; the last has no file. */
extern const struct built_in mensur_built_in_files[];

#endif
