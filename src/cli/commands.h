/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program does with a question. Each function says its own mistakes and returns what main
 * turns into the exit code. */
#ifndef MENSUR_COMMANDS_H
#define MENSUR_COMMANDS_H

#include "answer.h"

/* Writes the demonstration shop into the folder question->start. */
enum mensur_status start(const struct mensur_question *question);

/* Answers a question about what it names; `messages` are those of the shop's opening. */
enum mensur_status answer(const struct mensur_question *question, struct mensur_shop *shop,
                          struct mensur_texts *messages);

/* Answers lengths, tension or fingers of every instrument of the shop. */
enum mensur_status answer_every(const struct mensur_question *question, struct mensur_shop *shop,
                                struct mensur_texts *messages);

#endif
