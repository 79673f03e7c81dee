/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an unknown name may have meant. */
#include "suggest.h"

#include <stdio.h>
#include <string.h>

#include "log.h"
#include "nearest.h"

#define NEAR_MOST 2
#define LIST_MOST 240

static const char *name_at(const struct known_names *known, size_t row) {
    const char *name;
    memcpy(&name, (const char *)known->rows + row * known->size + known->offset, sizeof(name));
    return name;
}

static bool is_among(const char *name, const struct known_names *known, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const char *other = name_at(known, i);
        if (other != NULL && strcmp(other, name) == 0) {
            return true;
        }
    }
    return false;
}

/* All names, each once, as far as there is room. */
static void list_names(const struct known_names *known, char out[MENSUR_SUGGEST_ROOM]) {
    size_t length = (size_t)snprintf(out, MENSUR_SUGGEST_ROOM, "there are");
    bool any = false;
    for (size_t i = 0; i < known->count; i++) {
        char text[MENSUR_SHORT_ROOM];
        const char *name = name_at(known, i);
        if (name == NULL || is_among(name, known, i)) {
            continue;
        }
        mensur_log_short(name, text);
        if (length + strlen(text) > LIST_MOST) {
            snprintf(out + length, MENSUR_SUGGEST_ROOM - length, " and others");
            return;
        }
        length += (size_t)snprintf(out + length, MENSUR_SUGGEST_ROOM - length, "%s %s",
                                   any ? "," : ":", text);
        any = true;
    }
    if (!any) {
        snprintf(out + length, MENSUR_SUGGEST_ROOM - length, " none");
    }
}

const char *mensur_suggest(const char *wrong, const struct known_names *known,
                           char out[MENSUR_SUGGEST_ROOM]) {
    struct mensur_nearest nearest = mensur_nearest_start(wrong, NEAR_MOST);
    for (size_t i = 0; i < known->count; i++) {
        mensur_nearest_take(&nearest, name_at(known, i));
    }
    if (nearest.name != NULL) {
        char text[MENSUR_SHORT_ROOM];
        snprintf(out, MENSUR_SUGGEST_ROOM, "did you mean \"%s\"?",
                 mensur_log_short(nearest.name, text));
    } else {
        list_names(known, out);
    }
    return out;
}
