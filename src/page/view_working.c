/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working behind the figures: each formula with its numbers, its result and its source. */
#include <string.h>

#include "engine.h"
#include "view.h"
#include "working.h"

static enum mensur_status write_working(struct page *page, const struct question *question,
                                        const struct mensur_working *working) {
    struct mensur_sink sink = page_sink(page);
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    json_t *array = json_array();
    for (size_t i = 0; i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        json_t *object = json_object();
        bool about_one = line->instrument < question->count;
        mensur_json_put(&out, object, "instrument",
                        about_one ? mensur_json_text(question->after[line->instrument]->name)
                                  : json_null());
        mensur_json_put(&out, object, "what", mensur_json_text(line->what));
        mensur_json_put(&out, object, "formula", mensur_json_text(line->formula));
        mensur_json_put(&out, object, "with_numbers", mensur_json_text(line->with_numbers));
        mensur_json_put(&out, object, "result", mensur_json_text(line->result));
        mensur_json_put(&out, object, "source", mensur_json_text(line->source));
        mensur_json_add(&out, array, object);
    }
    return view_write(&out, array);
}

/* Of the decision; and of a single instrument's lengths, strings or fingers. */
static enum mensur_status work_decision(struct page *page, const struct question *question,
                                        struct mensur_fault *fault, struct mensur_working *out) {
    struct mensur_decision decision;
    enum mensur_status status = ask_decision(page, question, fault, &decision);
    if (status == MENSUR_OK) {
        status = mensur_ask_working_decision(page_stock(page), question->after[0], &decision,
                                             &question->terms, fault, out);
        mensur_decision_clear(&decision);
    }
    return status;
}

static enum mensur_status work(struct page *page, const struct question *question,
                               struct mensur_fault *fault, struct mensur_working *out) {
    const char *of = strchr(question->command, ' ') + 1;
    const struct mensur_stock *stock = page_stock(page);
    const struct mensur_instrument *first = question->after[0];
    if (question->count == 0) {
        mensur_fault_set(fault, "choose an instrument");
        return MENSUR_USE;
    }
    if (strcmp(of, "lengths") == 0) {
        return mensur_ask_working_lengths(stock, first, &question->terms, fault, out);
    }
    if (strcmp(of, "tension") == 0) {
        return mensur_ask_working_tension(stock, first, &question->terms, false, fault, out);
    }
    if (strcmp(of, "fingers") == 0) {
        return mensur_ask_working_fingers(stock, first, &question->terms, false, fault, out);
    }
    return mensur_ask_working_compare(stock, question->after, question->count, &question->terms,
                                      false, fault, out);
}

/* "working lengths", "working tension", "working fingers", "working compare" */
enum mensur_status answer_working(struct page *page, struct question *question,
                                  struct mensur_fault *fault) {
    struct mensur_working working;
    enum mensur_status status = work(page, question, fault, &working);
    if (status == MENSUR_OK) {
        status = write_working(page, question, &working);
        mensur_working_clear(&working);
    }
    return status;
}

/* "neck working", "stop working" */
enum mensur_status answer_decision_working(struct page *page, struct question *question,
                                           struct mensur_fault *fault) {
    struct mensur_working working;
    enum mensur_status status = work_decision(page, question, fault, &working);
    if (status == MENSUR_OK) {
        status = write_working(page, question, &working);
        mensur_working_clear(&working);
    }
    return status;
}
