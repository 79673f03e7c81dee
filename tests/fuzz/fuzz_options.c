/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command line, one word a line, and what the program makes of it before it answers: terms,
 * style, wishes, changes. It prints to standard output and error. */
#include <string.h>

#include "asked.h"
#include "fuzz.h"

enum { WORDS_MOST = 24, WISHES_MOST = 16, BYTES_MOST = 1024 };

static void go_on(const struct options *options) {
    struct mensur_terms terms;
    struct mensur_style style;
    struct mensur_wish wishes[WISHES_MOST];
    struct mensur_change change;
    size_t count = 0;
    if (asked_terms(options, &terms) == MENSUR_OK) {
        MUST(terms.a4 > 0.0);
    }
    (void)asked_style(options, &style);
    (void)asked_wishes(options, wishes, WISHES_MOST, &count);
    MUST(count <= WISHES_MOST);
    for (size_t i = 0; i < options->name_count; i++) {
        (void)asked_change(options->names[i], &change);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    static char program[] = "mensur";
    char text[BYTES_MOST + 1];
    char *words[WORDS_MOST + 2] = {program};
    struct options options;
    int count = 1;
    if (size > BYTES_MOST) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = '\0';
    for (char *word = strtok(text, "\n"); word != NULL && count <= WORDS_MOST;
         word = strtok(NULL, "\n")) {
        words[count++] = word;
    }
    if (options_read(count, words, &options) == OPTIONS_ASK) {
        MUST(options.command < COMMAND_COUNT);
        go_on(&options);
    }
    options_free(&options);
    return 0;
}
