/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the demonstration as the page does: its tables in memory, its instruments kept. The answer
 * goes to standard output, what there is to say to standard error:
 *     ask_words WORD... */
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>

#include "found.h"
#include "shop_files.h"

struct kept {
    struct mensur_instrument items[16];
    size_t count;
};

static enum mensur_status keep(void *context, const struct mensur_instrument *instrument) {
    struct kept *kept = context;
    return mensur_instrument_copy(instrument, &kept->items[kept->count++]);
}

static enum mensur_status put(void *context, const char *bytes, size_t length) {
    return fwrite(bytes, 1, length, context) == length ? MENSUR_OK : MENSUR_WRITE;
}

static enum mensur_status ask(struct mensur_shop *shop, const struct mensur_question *question,
                              const struct kept *kept, struct mensur_texts *messages) {
    const struct mensur_sink sink = {put, stdout};
    const struct mensur_kept list = {kept->items, kept->count};
    struct mensur_answer answer;
    if (question->help != MENSUR_HELP_NONE) {
        return mensur_help_write(question, &sink);
    }
    enum mensur_status status = mensur_answer_make(shop, &list, question, messages, &answer);
    if (status == MENSUR_OK) {
        status = mensur_answer_write(&answer, 0, &sink);
        status = status == MENSUR_OK && !answer.met ? MENSUR_NOT_MET : status;
        mensur_answer_clear(&answer);
    }
    return status;
}

int main(int argc, char **argv) {
    struct mensur_texts messages = {0};
    struct mensur_report report = {.errors = {0}};
    struct mensur_question question;
    struct mensur_shop shop;
    struct kept kept = {.count = 0};
    gsl_set_error_handler_off();
    if (mensur_shop_open_bytes("demonstration", NULL, 0, &report, &shop) != MENSUR_OK ||
        mensur_shop_instruments(&shop, true, keep, &kept, &report) != MENSUR_OK) {
        return 5;
    }
    enum mensur_status status =
        mensur_question_read((const char *const *)argv + 1, (size_t)argc - 1, &messages, &question);
    if (status == MENSUR_OK) {
        status = ask(&shop, &question, &kept, &messages);
        mensur_question_clear(&question);
    }
    for (size_t i = 0; i < messages.count; i++) {
        fprintf(stderr, "%s\n", messages.items[i]);
    }
    for (size_t i = 0; i < kept.count; i++) {
        mensur_instrument_clear(&kept.items[i]);
    }
    mensur_texts_clear(&messages);
    mensur_report_clear(&report);
    mensur_shop_clear(&shop);
    return mensur_status_exit_code(status);
}
