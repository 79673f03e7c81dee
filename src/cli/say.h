/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program says on standard error. All of it but the progress of long work goes through
 * here, so that no byte of a file or an argument reaches a terminal unfiltered. */
#ifndef MENSUR_SAY_H
#define MENSUR_SAY_H

#include <stdbool.h>

#include "question.h"
#include "texts.h"

/* Says a line. What moves the cursor of a terminal or turns the direction of its text, and what is
 * not UTF-8, is shown as '?'. */
void say_line(const char *format, ...) MENSUR_PRINTF(1, 2);

/* A sink that says words of the program's own, as they are. */
struct mensur_sink say_sink(void);

/* Says a status in a line, and returns it. */
enum mensur_status say_status(enum mensur_status status);

/* Says all messages, clears them, and returns the status; of memory that ran out nothing could be
 * said before. */
enum mensur_status say(struct mensur_texts *messages, enum mensur_status status);

/* Notes that another process has said something (`done`). */
void say_done(bool done);

/* Says a status that is a failure where nothing was said so far, and returns it: no exit code but 0
 * and 1 comes without its reason. */
enum mensur_status say_at_least(enum mensur_status status);

#endif
