/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What reads the words of a question. */
#ifndef MENSUR_READING_H
#define MENSUR_READING_H

#include "words.h"

/* A question while its words are read. The first failure stays, and nothing is said after it. */
struct reading {
    const struct words *words;
    struct mensur_texts *messages;
    struct mensur_question *question; /* all zero but for what is common to all commands */
    enum mensur_status status;        /* MENSUR_USE: what is wrong is said */
};

/* Says what is wrong, unless something was wrong before. */
#define REFUSE(reading, ...)                                                                       \
    ((reading)->status = (reading)->status == MENSUR_OK ? SAY((reading)->messages, __VA_ARGS__)    \
                                                        : (reading)->status)

/* Reads the names of a question, the fields that describe an instrument in place of one, and what
 * is changed of each; and the liked one. */
void ask_read_names(struct reading *reading);
/* Says that there is no drawing, where one is asked for. */
void ask_refuse_drawing(struct reading *reading, const char *what);
/* Says that a word names no measurement, with the nearest or all there are. */
void ask_refuse_field(struct reading *reading, const char *word);
/* Whether a word is FIELD=VALUE. */
bool ask_is_field(const char *word);

/* Reads what is common to all commands, or the words of one. */
typedef void read_words(struct reading *reading);
#define COMMAND_READ(id, name, arguments, meaning, example, takes, read, make, told)               \
    ask_read_##read,
read_words COMMAND_LIST(COMMAND_READ) ask_read_output;
#undef COMMAND_READ

/* Reads what is sought among all instruments, its wishes read before: MENSUR_OK; MENSUR_USE, and
 * what is wrong is said; MENSUR_MEMORY. */
enum mensur_status ask_sought_read(const struct words *words, struct mensur_texts *messages,
                                   struct mensur_question *question);

#endif
