/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "nearest.h"

#include <stddef.h>
#include <string.h>

#include "texts.h"

struct mensur_nearest mensur_nearest_start(const char *word, int most) {
    return (struct mensur_nearest){.word = word, .distance = most + 1};
}

static size_t length_apart(const char *a, const char *b) {
    size_t first = strlen(a), second = strlen(b);
    return first > second ? first - second : second - first;
}

bool mensur_nearest_take(struct mensur_nearest *nearest, const char *name) {
    /* words whose lengths alone set them further apart need no closer look */
    if (name == NULL || length_apart(name, nearest->word) >= (size_t)nearest->distance) {
        return false;
    }
    int distance = mensur_text_distance(nearest->word, name);
    if (distance >= nearest->distance) {
        return false;
    }
    nearest->name = name;
    nearest->distance = distance;
    return true;
}
