/* SPDX-License-Identifier: GPL-3.0-or-later */
/* compare and change: instruments side by side. */
#include <glib.h>
#include <stdio.h>

#include "drawing_output.h"

static enum mensur_status draw(const void *answer, const struct mensur_drawing_style *style,
                               const struct mensur_sink *sink) {
    return mensur_draw_comparison(answer, MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_PULL,
                                  style, sink);
}

static enum mensur_status tell(const struct question *question,
                               const struct mensur_comparison *comparison) {
    struct reply reply;
    enum mensur_status status = reply_open(question, &reply);
    if (status == MENSUR_OK) {
        status = reply_close(&reply, mensur_present_comparison(reply.presenter, comparison));
    }
    return status;
}

static enum mensur_status present(const struct question *question,
                                  struct mensur_comparison *comparison) {
    enum mensur_status status = drawing_kind(question->options) == DRAWING_NONE
                                    ? tell(question, comparison)
                                    : drawing_write(question, draw, comparison);
    mensur_comparison_clear(comparison);
    return status;
}

static enum mensur_status ask_compare(struct question *question,
                                      const struct mensur_instrument *instruments, size_t count,
                                      struct mensur_comparison *comparison) {
    const struct mensur_instrument **list = g_new0(const struct mensur_instrument *, count + 1);
    struct mensur_fault fault = {""};
    for (size_t i = 0; i < count; i++) {
        list[i] = &instruments[i];
    }
    enum mensur_status status = MENSUR_OK;
    if (question->wants_working) {
        status = mensur_ask_working_compare(&question->shop.stock, list, count, &question->terms,
                                            question_feels(question), &fault, &question->working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_compare(&question->shop.stock, list, count, &question->terms, &fault,
                                    comparison);
    }
    if (status != MENSUR_OK) {
        say_fault(question, NULL, &fault);
    }
    g_free(list);
    return status;
}

enum mensur_status command_compare(const struct options *options) {
    struct question question;
    struct mensur_instrument *instruments = NULL;
    struct mensur_comparison comparison;
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    status =
        options->name_count < 2
            ? shopfront_say_names(&question.shop, "name two instruments or more")
            : shopfront_find(&question.shop, options->names, options->name_count, &instruments);
    if (status == MENSUR_OK) {
        status = ask_compare(&question, instruments, options->name_count, &comparison);
        if (status == MENSUR_OK) {
            status = present(&question, &comparison);
        }
        shopfront_free(instruments, options->name_count);
    }
    question_clear(&question);
    return status;
}

static enum mensur_status read_changes(char *const *texts, size_t count,
                                       struct mensur_change *changes) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = asked_change(texts[i], &changes[i]);
    }
    return status;
}

static enum mensur_status change(struct question *question, const struct mensur_change *changes,
                                 size_t count) {
    struct mensur_instrument *instrument = NULL;
    struct mensur_comparison comparison;
    struct mensur_fault fault = {""};
    enum mensur_status status =
        shopfront_find(&question->shop, question->options->names, 1, &instrument);
    if (status != MENSUR_OK) {
        return status;
    }
    if (question->wants_working) {
        status = mensur_ask_working_change(&question->shop.stock, instrument, changes, count,
                                           &question->terms, question_feels(question), &fault,
                                           &question->working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_change(&question->shop.stock, instrument, changes, count,
                                   &question->terms, &fault, &comparison);
    }
    if (status == MENSUR_OK) {
        status = present(question, &comparison);
    } else {
        say_fault(question, NULL, &fault);
    }
    shopfront_free(instrument, 1);
    return status;
}

enum mensur_status command_change(const struct options *options) {
    struct question question;
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    if (options->name_count == 0) {
        status = shopfront_say_names(&question.shop, "name an instrument and what changes");
    } else if (options->name_count == 1) {
        fprintf(stderr, "mensur: say what changes, for example: mensur change %s neck=+4 stop=-3\n",
                options->names[0]);
        status = MENSUR_USE;
    } else {
        size_t count = options->name_count - 1;
        struct mensur_change *changes = g_new0(struct mensur_change, count);
        status = read_changes(options->names + 1, count, changes);
        if (status == MENSUR_OK) {
            status = change(&question, changes, count);
        }
        g_free(changes);
    }
    question_clear(&question);
    return status;
}
