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

/* More room than there is: for so many bytes behind those that are there. MENSUR_OK or
 * MENSUR_MEMORY. */
enum mensur_status mensur_kept_bytes_grow(struct mensur_kept_bytes *bytes, size_t more);

/* Makes sure that so many bytes have room behind those that are there. Of these calls there are
 * most. MENSUR_OK or MENSUR_MEMORY. */
static inline enum mensur_status mensur_kept_bytes_room(struct mensur_kept_bytes *bytes,
                                                        size_t more) {
    return bytes->room - bytes->length >= more ? MENSUR_OK : mensur_kept_bytes_grow(bytes, more);
}

/* Adds bytes behind those that are there; the first argument is a struct mensur_kept_bytes, so that
 * this serves as the function of a sink. MENSUR_MEMORY: nothing is added. */
enum mensur_status mensur_kept_bytes_add(void *bytes, const char *more, size_t length);

void mensur_kept_bytes_clear(struct mensur_kept_bytes *bytes);

#endif
