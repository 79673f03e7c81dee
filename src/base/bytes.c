/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bytes.h"

#include <stdlib.h>
#include <string.h>

enum mensur_status mensur_kept_bytes_add(void *bytes, const char *more, size_t length) {
    struct mensur_kept_bytes *to = bytes;
    if (length == 0) {
        return MENSUR_OK;
    }
    if (to->items == NULL || to->room - to->length < length) {
        size_t room = (to->length + length) * 2;
        char *grown = realloc(to->items, room);
        if (grown == NULL) {
            return MENSUR_MEMORY;
        }
        to->items = grown;
        to->room = room;
    }
    memcpy(to->items + to->length, more, length);
    to->length += length;
    return MENSUR_OK;
}

void mensur_kept_bytes_clear(struct mensur_kept_bytes *bytes) {
    free(bytes->items);
    *bytes = (struct mensur_kept_bytes){.items = NULL};
}
