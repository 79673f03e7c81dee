/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the built-in demonstration a question in the program's words, and prints the answer.
 *
 *     cc example_question.c $(pkg-config --cflags --libs mensur gsl) -o ask && ./ask lengths
 * kestrel
 */
#include <gsl/gsl_errno.h>
#include <stdio.h>

#include <mensur/answer.h>

static enum mensur_status print(void *context, const char *bytes, size_t length) {
    return fwrite(bytes, 1, length, context) == length ? MENSUR_OK : MENSUR_WRITE;
}

/* Opens the shop, reads the question with its habits, and prints every page of the answer. */
static enum mensur_status answer_question(const char *const *words, size_t count,
                                          const char *folder, const struct mensur_sink *sink,
                                          struct mensur_texts *messages) {
    struct mensur_question question;
    struct mensur_shop shop;
    struct mensur_answer answer;
    size_t pages;
    enum mensur_status status = mensur_question_shop(folder, messages, &shop);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_question_read_in(&shop, words, count, messages, &question);
    if (status != MENSUR_OK) {
        mensur_shop_clear(&shop);
        return status;
    }
    status = mensur_answer_make(&shop, NULL, &question, messages, &answer);
    if (status == MENSUR_OK) {
        status = mensur_answer_pages(&answer, &pages);
        for (size_t page = 0; status == MENSUR_OK && page < pages; page++) {
            status = mensur_answer_write(&answer, page, sink);
        }
        if (status == MENSUR_OK && !answer.met) {
            status = MENSUR_NOT_MET;
        }
        mensur_answer_clear(&answer);
    }
    mensur_question_clear(&question);
    mensur_shop_clear(&shop);
    return status;
}

int main(int argc, char **argv) {
    struct mensur_sink sink = {.write = print, .context = stdout};
    struct mensur_texts messages = {0};
    struct mensur_question question;
    const char *const *words = (const char *const *)argv + 1;
    size_t count = (size_t)argc - 1;
    /* The library checks domains itself; GSL's own handler would end the program. */
    gsl_set_error_handler_off();
    enum mensur_status status = mensur_question_read(words, count, &messages, &question);
    if (status == MENSUR_OK) {
        /* What the program alone does: every instrument of a file, and the folder of a new shop. */
        status = question.help != MENSUR_HELP_NONE ? mensur_help_write(&question, &sink)
                 : question.every || question.start != NULL
                     ? MENSUR_USE
                     : answer_question(words, count, question.shop, &sink, &messages);
        mensur_question_clear(&question);
    }
    for (size_t i = 0; i < messages.count; i++) {
        fprintf(stderr, "%s\n", messages.items[i]);
    }
    mensur_texts_clear(&messages);
    return mensur_status_exit_code(status);
}
