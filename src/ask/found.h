/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a question names. */
#ifndef MENSUR_FOUND_H
#define MENSUR_FOUND_H

#include "answer.h"
#include "ask.h"
#include "instrument.h"

/* An instrument that the question names. */
struct mensur_found {
    struct mensur_instrument as_it_is; /* as the shop has it */
    struct mensur_instrument changed;  /* with the changes made; all zero where there are none */
    const struct mensur_instrument *asked; /* the one of the two that is asked about */
};

/* Instruments that are kept in memory, to be asked about again and again. */
struct mensur_kept {
    const struct mensur_instrument *items; /* all of the shop's, in its order */
    size_t count;
};

/* Finds what a question names, with the changes made, and asks nothing of it; else as
 * mensur_answer_make. */
enum mensur_status mensur_answer_find(struct mensur_shop *shop, const struct mensur_kept *kept,
                                      const struct mensur_question *question,
                                      struct mensur_texts *messages, struct mensur_answer *answer);

/* Opens the shop as mensur_question_shop does, but takes one table from the built-in one. */
enum mensur_status mensur_question_shop_without(const char *folder, enum mensur_table without,
                                                struct mensur_texts *messages,
                                                struct mensur_shop *shop);

#endif
