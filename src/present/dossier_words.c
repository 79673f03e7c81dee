/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names and sentences of a dossier. */
#include <stdlib.h>
#include <string.h>

#include "dossier_parts.h"
#include "lettering.h"
#include "markup.h"
#include "sentences.h"

void mensur_page_name(struct mensur_page *page, const char *name) {
    mensur_markup_open(&page->out, "bdi");
    mensur_markup_text(&page->out, name);
    mensur_out_text(&page->out, "</bdi>");
}

/* The name that stands at a place of a sentence and runs from the right; NULL where none does. */
static const char *name_at(const struct mensur_page *page, const char *text) {
    for (size_t i = 0; i < page->dossier->count; i++) {
        const char *name = page->dossier->profiles[i].instrument;
        if (mensur_lettering_turns(name) && strncmp(text, name, strlen(name)) == 0) {
            return name;
        }
    }
    return NULL;
}

void mensur_page_words(struct mensur_page *page, const char *text) {
    const char *from = text;
    for (const char *at = text; *at != '\0';) {
        const char *name = name_at(page, at);
        if (name == NULL) {
            at++;
            continue;
        }
        char *before = NULL;
        if (mensur_text_copy(from, (size_t)(at - from), &before) != MENSUR_OK) {
            mensur_out_fail(&page->out, MENSUR_MEMORY);
            return;
        }
        mensur_markup_text(&page->out, before);
        free(before);
        mensur_page_name(page, name);
        at += strlen(name);
        from = at;
    }
    mensur_markup_text(&page->out, from);
}

void mensur_page_sentence(struct mensur_page *page, const char *tag, const char *sentence,
                          bool capital) {
    size_t length = strlen(sentence);
    char first = *sentence;
    mensur_markup_open(&page->out, tag);
    if (capital && first >= 'a' && first <= 'z') {
        char letter[2] = {(char)(first - 'a' + 'A'), '\0'};
        mensur_markup_text(&page->out, letter);
        mensur_page_words(page, sentence + 1);
    } else {
        mensur_page_words(page, sentence);
    }
    if (length > 0 && strchr(".!?", sentence[length - 1]) == NULL) {
        mensur_out_text(&page->out, ".");
    }
    mensur_markup_finish(&page->out, tag);
}

void mensur_page_list(struct mensur_page *page, const char *const *items, size_t count,
                      bool capital) {
    if (count == 0) {
        return;
    }
    mensur_markup_open(&page->out, "ul");
    for (size_t i = 0; i < count; i++) {
        mensur_page_sentence(page, "li", items[i], capital);
    }
    mensur_markup_finish(&page->out, "ul");
}

void mensur_page_facts(struct mensur_page *page, const struct mensur_facts *facts, bool capital) {
    struct mensur_texts texts = {0};
    mensur_out_fail(&page->out, mensur_sentences(facts, &page->dossier->figures, &texts));
    mensur_page_list(page, (const char *const *)texts.items, texts.count, capital);
    mensur_texts_clear(&texts);
}
