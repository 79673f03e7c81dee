/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a dossier. */
#ifndef MENSUR_PRESENT_DOSSIER_PARTS_H
#define MENSUR_PRESENT_DOSSIER_PARTS_H

#include "dossier.h"
#include "sink.h"

struct mensur_page {
    const struct mensur_dossier *dossier;
    const struct mensur_sink *sink; /* drawings go straight to it, between flushes of out */
    struct mensur_out out;
};

/* The style sheet, and its hash for the content security policy. */
extern const char mensur_dossier_css[];
extern const char mensur_dossier_css_hash[];

/* A name, kept apart from the direction of what is around it. */
void mensur_page_name(struct mensur_page *page, const char *name);
/* A sentence with its full stop, in which names that run from the right are kept apart; with
 * `capital` its first letter is made one. */
void mensur_page_sentence(struct mensur_page *page, const char *tag, const char *sentence,
                          bool capital);

/* Words of a sentence, without an element of their own. */
void mensur_page_words(struct mensur_page *page, const char *text);
/* A list of what facts say; nothing where there is none. */
void mensur_page_facts(struct mensur_page *page, const struct mensur_facts *facts, bool capital);
/* A list of sentences; nothing where there is none. */
void mensur_page_list(struct mensur_page *page, const char *const *items, size_t count,
                      bool capital);

/* A table in a region that scrolls by itself; rows follow, then _table_end. Its caption, and so
 * the region's name, stands once in the page; `name` is set behind it (NULL: none). */
void mensur_page_table(struct mensur_page *page, const char *id, const char *caption,
                       const char *name);
void mensur_page_table_end(struct mensur_page *page);
void mensur_page_lengths(struct mensur_page *page);
void mensur_page_positions(struct mensur_page *page);
void mensur_page_strings(struct mensur_page *page, size_t i);
void mensur_page_wants(struct mensur_page *page);
void mensur_page_instead(struct mensur_page *page);

#endif
