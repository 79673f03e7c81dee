/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands: read, ask, present. Each says its own mistakes and returns what main turns into
 * the exit code. */
#ifndef MENSUR_COMMANDS_H
#define MENSUR_COMMANDS_H

#include "asked.h"
#include "options.h"
#include "output.h"
#include "shopfront.h"
#include "working.h"

/* What every command that answers has at hand. */
struct question {
    const struct options *options;
    struct mensur_terms terms;
    struct mensur_style style;
    struct mensur_shop shop;
    struct mensur_heading heading;
    bool wants_working;
    struct mensur_working working; /* of the answer that comes next, where it is wanted; owned */
};

/* Opens the shop and reads terms and style; clear it on success. */
enum mensur_status question_open(const struct options *options, struct question *question);
void question_clear(struct question *question);

/* Whether the working tells what bow and finger feel, as the answer does. */
bool question_feels(const struct question *question);

/* An answer on its way out. */
struct reply {
    struct output output;
    struct mensur_presenter *presenter;
};

/* Opens output and presentation. */
enum mensur_status reply_open(const struct question *question, struct reply *reply);

/* Closes both; `status` is that of the last answer presented. */
enum mensur_status reply_close(struct reply *reply, enum mensur_status status);

/* Notes a fault, to be said later, with the file and line of the instrument. MENSUR_MEMORY. */
enum mensur_status note_fault(const struct question *question,
                              const struct mensur_instrument *instrument,
                              const struct mensur_fault *fault, struct mensur_texts *out);

/* Says a fault, with the file and line of the instrument where it has one. */
void say_fault(const struct question *question, const struct mensur_instrument *instrument,
               const struct mensur_fault *fault);

enum mensur_status command_start(const struct options *options);
enum mensur_status command_check(const struct options *options);
enum mensur_status command_rows(const struct options *options);
enum mensur_status command_compare(const struct options *options);
enum mensur_status command_change(const struct options *options);
enum mensur_status command_decide(const struct options *options);
enum mensur_status command_sheet(const struct options *options);
enum mensur_status command_dossier(const struct options *options);
enum mensur_status command_restring(const struct options *options);
enum mensur_status command_reach(const struct options *options);

#endif
