/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program's other commands in the program's formats: the same answer, letter by letter. */
#include <string.h>

#include "engine.h"
#include "working.h"

/* An answer on its way: opened, presented by one of the functions below, closed. */
static enum mensur_status start(struct page *page, struct question *question,
                                const struct mensur_working *working,
                                struct mensur_presenter **presenter) {
    struct mensur_sink sink = page_sink(page);
    enum mensur_status status =
        mensur_present_open(&question->heading, &question->style, &sink, presenter);
    if (status == MENSUR_OK && working != NULL && question->working) {
        mensur_present_set_working(*presenter, working);
    }
    return status;
}

static enum mensur_status end(struct mensur_presenter *presenter, enum mensur_status status) {
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    return status == MENSUR_OK ? closed : status;
}

/* Presents, and clears both. */
static enum mensur_status tell_comparison(struct page *page, struct question *question,
                                          struct mensur_comparison *comparison,
                                          struct mensur_working *working) {
    struct mensur_presenter *presenter;
    enum mensur_status status = start(page, question, working, &presenter);
    if (status == MENSUR_OK) {
        status = end(presenter, mensur_present_comparison(presenter, comparison));
    }
    mensur_comparison_clear(comparison);
    mensur_working_clear(working);
    return status;
}

enum mensur_status answer_compare(struct page *page, struct question *question,
                                  struct mensur_fault *fault) {
    const struct mensur_stock *stock = page_stock(page);
    struct mensur_comparison comparison;
    struct mensur_working working = {.count = 0};
    enum mensur_status status = MENSUR_OK;
    if (question->working && question->count > 1) {
        status =
            mensur_ask_working_compare(stock, question->after, question->count, &question->terms,
                                       question_feels(question), fault, &working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_compare(stock, question->after, question->count, &question->terms,
                                    fault, &comparison);
    }
    if (status != MENSUR_OK) {
        mensur_working_clear(&working);
        return status;
    }
    return tell_comparison(page, question, &comparison, &working);
}

enum mensur_status answer_change(struct page *page, struct question *question,
                                 struct mensur_fault *fault) {
    const struct mensur_stock *stock = page_stock(page);
    struct mensur_comparison comparison;
    struct mensur_working working = {.count = 0};
    if (question->count != 1 || question->change_count[0] == 0) {
        mensur_fault_set(fault, "nothing is changed");
        return MENSUR_USE;
    }
    enum mensur_status status = MENSUR_OK;
    if (question->working) {
        status = mensur_ask_working_change(stock, question->before[0], question->changes[0],
                                           question->change_count[0], &question->terms,
                                           question_feels(question), fault, &working);
    }
    if (status == MENSUR_OK) {
        status = mensur_ask_change(stock, question->before[0], question->changes[0],
                                   question->change_count[0], &question->terms, fault, &comparison);
    }
    if (status != MENSUR_OK) {
        mensur_working_clear(&working);
        return status;
    }
    return tell_comparison(page, question, &comparison, &working);
}

enum mensur_status answer_decision(struct page *page, struct question *question,
                                   struct mensur_fault *fault) {
    struct mensur_decision decision;
    struct mensur_presenter *presenter;
    struct mensur_working working = {.count = 0};
    enum mensur_status status = ask_decision(page, question, fault, &decision);
    if (status != MENSUR_OK) {
        return status;
    }
    bool met = decision.can_meet_all;
    if (question->working) {
        status = mensur_ask_working_decision(page_stock(page), question->after[0], &decision,
                                             &question->terms, fault, &working);
    }
    if (status == MENSUR_OK) {
        status = start(page, question, &working, &presenter);
    }
    if (status == MENSUR_OK) {
        status = end(presenter, mensur_present_decision(presenter, &decision));
    }
    mensur_working_clear(&working);
    mensur_decision_clear(&decision);
    return status == MENSUR_OK && !met ? MENSUR_NOT_MET : status;
}

enum mensur_status answer_restring(struct page *page, struct question *question,
                                   struct mensur_fault *fault) {
    enum { USUAL_RUNNERS_UP = 3 };
    struct mensur_restringing restringing;
    struct mensur_presenter *presenter;
    enum mensur_status status = ask_restring(page, question, USUAL_RUNNERS_UP, fault, &restringing);
    if (status != MENSUR_OK) {
        return status;
    }
    bool met = restringing.choice_count > 0;
    status = start(page, question, NULL, &presenter);
    if (status == MENSUR_OK) {
        status = end(presenter, mensur_present_restringing(presenter, &restringing));
    }
    mensur_restringing_clear(&restringing);
    return status == MENSUR_OK && !met ? MENSUR_NOT_MET : status;
}

enum mensur_status answer_reach(struct page *page, struct question *question,
                                struct mensur_fault *fault) {
    const struct mensur_stock *stock = page_stock(page);
    struct mensur_reaching reaching;
    struct mensur_presenter *presenter;
    struct mensur_working working = {.count = 0};
    enum mensur_status status = ask_reach(page, question, fault, &reaching);
    if (status != MENSUR_OK) {
        return status;
    }
    if (question->working) {
        status =
            mensur_ask_working_reach(stock, question->after, question->count,
                                     mensur_stock_player(stock, question_text(question, "player")),
                                     &question->terms, fault, &working);
    }
    if (status == MENSUR_OK) {
        status = start(page, question, &working, &presenter);
    }
    if (status == MENSUR_OK) {
        status = end(presenter, mensur_present_reaching(presenter, &reaching));
    }
    mensur_working_clear(&working);
    mensur_reaching_clear(&reaching);
    return status;
}
