/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bytes.h"

#include <stdlib.h>
#include <string.h>

enum mensur_status mensur_kept_bytes_grow(struct mensur_kept_bytes *bytes, size_t more) {
    size_t room = (bytes->length + more) * 2;
    char *grown = realloc(bytes->items, room);
    if (grown == NULL) {
        return MENSUR_MEMORY;
    }
    bytes->items = grown;
    bytes->room = room;
    return MENSUR_OK;
}

enum mensur_status mensur_kept_bytes_add(void *bytes, const char *more, size_t length) {
    struct mensur_kept_bytes *to = bytes;
    if (length == 0) {
        return MENSUR_OK;
    }
    if (mensur_kept_bytes_room(to, length) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    memcpy(to->items + to->length, more, length);
    to->length += length;
    return MENSUR_OK;
}

void mensur_kept_bytes_clear(struct mensur_kept_bytes *bytes) {
    free(bytes->items);
    *bytes = (struct mensur_kept_bytes){.items = NULL};
}
