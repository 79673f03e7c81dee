/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of a question, a word a line, read whole: either a question with sound terms, or
 * messages that say why there is none. */
#include <string.h>

#include "fuzz.h"
#include "question.h"

enum { WORDS_MOST = 24, BYTES_MOST = 1024 };

static enum mensur_status swallow(void *context, const char *bytes, size_t length) {
    size_t *total = context;
    MUST(bytes != NULL);
    *total += length;
    return MENSUR_OK;
}

static void look_at(const struct mensur_question *question, size_t words) {
    size_t written = 0;
    const struct mensur_sink sink = {swallow, &written};
    if (question->help != MENSUR_HELP_NONE) {
        MUST(mensur_help_write(question, &sink) == MENSUR_OK && written > 0);
        return;
    }
    MUST(mensur_command_at((size_t)question->command) != NULL);
    MUST(question->start != NULL || question->terms.a4 > 0.0);
    MUST(question->wish_count <= MENSUR_QUESTION_WISHES);
    MUST(question->named_count <= words && question->restring.packet_count <= words);
    for (size_t i = 0; i < question->named_count; i++) {
        MUST(question->named[i].name != NULL && question->named[i].change_count <= words);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    char text[BYTES_MOST + 1];
    const char *words[WORDS_MOST];
    struct mensur_texts messages = {0};
    struct mensur_question question;
    size_t count = 0;
    if (size > BYTES_MOST) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = '\0';
    for (char *word = strtok(text, "\n"); word != NULL && count < WORDS_MOST;
         word = strtok(NULL, "\n")) {
        words[count++] = word;
    }
    enum mensur_status status = mensur_question_read(words, count, &messages, &question);
    MUST((status == MENSUR_OK) == (messages.count == 0));
    if (status == MENSUR_OK) {
        look_at(&question, count);
        mensur_question_clear(&question);
    }
    mensur_texts_clear(&messages);
    return 0;
}
