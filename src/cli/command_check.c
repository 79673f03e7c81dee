/* SPDX-License-Identifier: GPL-3.0-or-later */
/* check: every file of the shop, read as for any answer. */
#include <stdio.h>
#include <string.h>

#include "commands.h"
#include "drawing_output.h"

/* The warnings that speak of one file. */
static enum mensur_status warnings_of(const char *label, const struct mensur_texts *all,
                                      struct mensur_texts *out) {
    enum mensur_status status = MENSUR_OK;
    size_t length = strlen(label);
    for (size_t i = 0; i < all->count && status == MENSUR_OK; i++) {
        if (strncmp(all->items[i], label, length) == 0 && all->items[i][length] == ':') {
            status = mensur_texts_add(out, "%s", all->items[i]);
        }
    }
    return status;
}

static enum mensur_status present_files(const struct question *question,
                                        const struct mensur_texts *warnings,
                                        struct mensur_presenter *presenter) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        const struct mensur_source *source = &question->shop.sources[i];
        struct mensur_texts here = {0};
        status = warnings_of(source->label, warnings, &here);
        if (status == MENSUR_OK) {
            status = mensur_present_check(presenter, source->label, source->rows, &here);
        }
        mensur_texts_clear(&here);
    }
    return status;
}

static void say_no_memory(enum mensur_status status) {
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
}

static enum mensur_status check(struct question *question, struct mensur_report *report) {
    struct reply reply;
    enum mensur_status status = mensur_shop_instruments(&question->shop, true, NULL, NULL, report);
    if (status == MENSUR_OK) {
        status = reply_open(question, &reply);
        if (status == MENSUR_OK) {
            status =
                reply_close(&reply, present_files(question, &report->warnings, reply.presenter));
        }
    } else {
        say_no_memory(status);
        shopfront_say(report);
    }
    return status;
}

enum mensur_status command_check(const struct options *options) {
    struct question question = {.options = options};
    struct mensur_report report = {.errors = {0}};
    if (options->name_count > 0) {
        fprintf(stderr, "mensur: check takes no name; --shop FOLDER says which shop\n");
        return MENSUR_USE;
    }
    if (drawing_refused(options, "a check")) {
        return MENSUR_USE;
    }
    mensur_terms_init(&question.terms);
    enum mensur_status status = asked_style(options, &question.style);
    if (status == MENSUR_OK) {
        status = mensur_shop_open(shopfront_folder(options), &report, &question.shop);
        if (status != MENSUR_OK) {
            say_no_memory(status);
            shopfront_say(&report);
        }
    }
    if (status == MENSUR_OK) {
        asked_heading(options, &question.terms, question.shop.label, &question.heading);
        status = check(&question, &report);
        question_clear(&question);
    }
    mensur_report_clear(&report);
    return status;
}
