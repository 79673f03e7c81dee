/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "say.h"

#include <stdio.h>

enum mensur_status say(struct mensur_texts *messages, enum mensur_status status) {
    for (size_t i = 0; i < messages->count; i++) {
        fprintf(stderr, "%s\n", messages->items[i]);
    }
    mensur_texts_clear(messages);
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    return status;
}

void say_report(struct mensur_report *report) {
    (void)say(&report->errors, MENSUR_OK);
    (void)say(&report->warnings, MENSUR_OK);
}
