/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "said.h"

#include "check.h"
#include "sentences.h"

static struct mensur_texts say(const struct mensur_facts *facts, const struct mensur_style *style) {
    struct mensur_texts texts = {0};
    assert_int_equal(mensur_sentences(facts, style, &texts), MENSUR_OK);
    return texts;
}

size_t said_count(const struct mensur_facts *facts) {
    struct mensur_texts texts = say(facts, &(struct mensur_style){.format = MENSUR_FORMAT_TEXT});
    size_t count = texts.count;
    mensur_texts_clear(&texts);
    return count;
}

const char *said_as(const struct mensur_facts *facts, const struct mensur_style *style,
                    size_t place) {
    static char kept[SAID_KEPT][1024];
    static size_t next;
    struct mensur_texts texts = say(facts, style);
    char *room = kept[next++ % SAID_KEPT];
    snprintf(room, sizeof kept[0], "%s", place < texts.count ? texts.items[place] : "");
    mensur_texts_clear(&texts);
    return room;
}

const char *said(const struct mensur_facts *facts, size_t place) {
    return said_as(facts, &(struct mensur_style){.format = MENSUR_FORMAT_TEXT}, place);
}

bool said_holds(const struct mensur_facts *facts, const char *words) {
    struct mensur_texts texts = say(facts, &(struct mensur_style){.format = MENSUR_FORMAT_TEXT});
    bool found = false;
    for (size_t i = 0; i < texts.count && !found; i++) {
        found = strstr(texts.items[i], words) != NULL;
    }
    mensur_texts_clear(&texts);
    return found;
}
