/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each kind of answer has a record of its own, defined in answers, and one row of functions that
 * tell it, defined in the file that tells it: whoever holds, presents or draws an answer needs
 * nothing else of it. */
#ifndef MENSUR_ANSWER_KIND_H
#define MENSUR_ANSWER_KIND_H

#include "present.h"

struct mensur_answer_kind {
    size_t size; /* bytes of the record; 0: it is a member of the answer of its own */
    void (*clear)(void *record); /* frees what the record owns */
    const char *const *sources;  /* NULL behind the last; NULL: none */
    /* Adds the cautions that apply; NULL: none does. */
    void (*cautions)(const void *record, struct mensur_facts *cautions);
    /* Which drawing goes with it; NULL: none does. */
    void (*drawing)(const void *record, struct mensur_illustration *drawing);
    unsigned file_parts; /* of its drawing in a file, some of enum mensur_drawing_parts; 0: those
                            that go with it in a page */
    const char *undrawn; /* "a reach", where none does: what a drawing is refused of */
    /* Text and HTML: gathers what stands below it, and adds the rest to the presenter's document;
     * NULL: it is in neither. */
    void (*tell)(struct mensur_presenter *presenter, const void *record);
    void (*csv)(struct mensur_presenter *presenter, const void *record);
    /* One answer or several, which it counts but for the last. */
    void (*json)(struct mensur_presenter *presenter, const void *record);
};

/* Those that stand in more than one command, or in none. */
extern const struct mensur_answer_kind mensur_checked_answer, mensur_comparison_answer,
    mensur_decision_answer, mensur_learned_answer;

#endif
