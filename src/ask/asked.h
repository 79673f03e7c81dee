/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the words of a question say, part by part. Every function here returns MENSUR_OK;
 * MENSUR_USE, and what is wrong is said; or MENSUR_MEMORY. */
#ifndef MENSUR_ASKED_H
#define MENSUR_ASKED_H

#include "words.h"

/* Where the answer goes, and what its ending says of what is written. */
void asked_output(const struct words *words, struct mensur_question *question);

/* The terms on which it is asked, and how the answer is to look. */
enum mensur_status asked_terms(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question);

/* The instruments named, each with the changes that stand behind it, and the liked one. */
enum mensur_status asked_names(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question);

/* The wishes for a decision. */
enum mensur_status asked_wishes(const struct words *words, struct mensur_texts *messages,
                                struct mensur_question *question);

/* The wishes for a set of strings. */
enum mensur_status asked_strings(const struct words *words, struct mensur_texts *messages,
                                 struct mensur_question *question);

/* What the sheet is printed on. */
enum mensur_status asked_paper(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question);

#endif
