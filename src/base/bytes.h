/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bytes that are kept in memory. */
#ifndef MENSUR_BASE_BYTES_H
#define MENSUR_BASE_BYTES_H

#include <stddef.h>

#include "status.h"

/* All zero: none. */
struct mensur_kept_bytes {
    char *items; /* owned */
    size_t length, room;
};

/* Adds bytes behind those that are there; the first argument is a struct mensur_kept_bytes, so that
 * this serves as the function of a sink. MENSUR_MEMORY: nothing is added. */
enum mensur_status mensur_kept_bytes_add(void *bytes, const char *more, size_t length);

void mensur_kept_bytes_clear(struct mensur_kept_bytes *bytes);

#endif
