/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neck and stop: the decision. */
#include <stdio.h>

#include "drawing_output.h"

enum { WISHES_MAX = 48 };

static enum mensur_status draw(const void *answer, const struct mensur_drawing_style *style,
                               const struct mensur_sink *sink) {
    return mensur_draw_decision(answer, MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE, style, sink);
}

static enum mensur_status tell(const struct question *question,
                               const struct mensur_decision *decision) {
    struct reply reply;
    enum mensur_status status = reply_open(question, &reply);
    if (status == MENSUR_OK) {
        status = reply_close(&reply, mensur_present_decision(reply.presenter, decision));
    }
    return status;
}

static enum mensur_status present(const struct question *question,
                                  struct mensur_decision *decision) {
    bool met = decision->can_meet_all;
    enum mensur_status status = drawing_kind(question->options) == DRAWING_NONE
                                    ? tell(question, decision)
                                    : drawing_write(question, draw, decision);
    mensur_decision_clear(decision);
    return status == MENSUR_OK && !met ? MENSUR_NOT_MET : status;
}

/* names: the instrument, and the liked one where there is one */
static enum mensur_status decide(struct question *question, char *const *names, size_t count,
                                 struct mensur_wishes *wishes) {
    struct mensur_instrument *found = NULL;
    struct mensur_decision decision;
    struct mensur_fault fault = {""};
    enum mensur_status status = shopfront_find(&question->shop, names, count, &found);
    if (status != MENSUR_OK) {
        return status;
    }
    wishes->like = count > 1 ? &found[1] : NULL;
    status = mensur_ask_decision(&question->shop.stock, &found[0], wishes,
                                 question->options->command == COMMAND_STOP, &question->terms,
                                 &fault, &decision);
    if (status == MENSUR_OK && question->wants_working) {
        status = mensur_ask_working_decision(&question->shop.stock, &found[0], &decision,
                                             &question->terms, &fault, &question->working);
        if (status != MENSUR_OK) {
            mensur_decision_clear(&decision);
        }
    }
    if (status == MENSUR_OK) {
        status = present(question, &decision);
    } else {
        say_fault(question, NULL, &fault);
    }
    shopfront_free(found, count);
    return status;
}

enum mensur_status command_decide(const struct options *options) {
    struct question question;
    struct mensur_wish items[WISHES_MAX];
    struct mensur_wishes wishes = {.items = items};
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    status = asked_wishes(options, items, WISHES_MAX, &wishes.count);
    if (status == MENSUR_OK && options->name_count == 0) {
        status = shopfront_say_names(&question.shop, "name an instrument");
    } else if (status == MENSUR_OK && options->name_count > 1) {
        fprintf(stderr, "mensur: one instrument at a time; \"%s\" is one too many\n",
                options->names[1]);
        status = MENSUR_USE;
    } else if (status == MENSUR_OK) {
        char *names[] = {options->names[0], options->text[OPTION_ID_like], NULL};
        status = decide(&question, names, names[1] == NULL ? 1 : 2, &wishes);
    }
    question_clear(&question);
    return status;
}
