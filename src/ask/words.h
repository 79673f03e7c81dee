/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of a question, sorted: the command, the names behind it, the options. */
#ifndef MENSUR_WORDS_H
#define MENSUR_WORDS_H

#include "commands.h"

/* A value of an option that may be given more than once. */
struct listed {
    enum option option;
    const char *text;
};

/* All texts are borrowed from the words; NULL where not given. */
struct words {
    enum command command;
    enum mensur_help help;
    const char *const *names; /* what follows the command */
    size_t name_count;
    bool flag[OPTION_COUNT];
    const char *text[OPTION_COUNT];
    struct listed *listed; /* owned: in the order given */
    size_t listed_count;
    const char **rest; /* owned: what is no option */
};

/* Sorts the words, and sees that command and options go together: MENSUR_OK; MENSUR_USE, and what
 * is wrong is said; MENSUR_MEMORY. Clear them on success. */
enum mensur_status ask_words_read(const char *const *list, size_t count,
                                  struct mensur_texts *messages, struct words *words);
void ask_words_clear(struct words *words);

/* The nearest of some names, each the first member of a record of `step` bytes, at most `farthest`
 * away; NULL where none is near. */
const char *ask_nearest_name(const char *word, const void *records, size_t count, size_t step,
                             int farthest);

/* Names one after the other, a comma between them, and `end` behind the last: the caller's to
 * free(); NULL out of memory. */
char *ask_names_joined(const char *const *names, size_t count, const char *end);

/* Adds a message of wrong use: MENSUR_USE, or MENSUR_MEMORY. */
#define SAY(messages, ...)                                                                         \
    (mensur_texts_add(messages, "mensur: " __VA_ARGS__) == MENSUR_OK ? MENSUR_USE : MENSUR_MEMORY)

#endif
