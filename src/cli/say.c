/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "say.h"

#include <stdio.h>

enum mensur_status say_status(enum mensur_status status) {
    fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    return status;
}

enum mensur_status say(struct mensur_texts *messages, enum mensur_status status) {
    for (size_t i = 0; i < messages->count; i++) {
        fprintf(stderr, "%s\n", messages->items[i]);
    }
    mensur_texts_clear(messages);
    return status == MENSUR_MEMORY ? say_status(status) : status;
}
