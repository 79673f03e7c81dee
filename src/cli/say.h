/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said on standard error. */
#ifndef MENSUR_SAY_H
#define MENSUR_SAY_H

#include "answer.h"

/* Says the messages and empties the list, then what they cannot say: that memory ran out. Returns
 * the status as it is. */
enum mensur_status say(struct mensur_texts *messages, enum mensur_status status);

/* Says what a status means, and returns it. */
enum mensur_status say_status(enum mensur_status status);

#endif
