/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions of each instrument on its own, one after the other. */
#include "asking.h"
#include "ways.h"
#include "working.h"

bool ask_feels(const struct mensur_question *question) {
    return question->style.feel || question->style.format == MENSUR_FORMAT_JSON;
}

enum mensur_status ask_say_fault(struct mensur_texts *messages, const struct mensur_shop *shop,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_fault *fault, enum mensur_status status) {
    if (status == MENSUR_MEMORY) {
        return status;
    }
    enum mensur_status said = instrument != NULL && instrument->line > 0
                                  ? mensur_texts_add(messages, "%s:%ld:1: %s",
                                                     shop->sources[MENSUR_TABLE_INSTRUMENTS].label,
                                                     instrument->line, fault->text)
                                  : mensur_texts_add(messages, "mensur: %s", fault->text);
    return said == MENSUR_OK ? status : said;
}

void mensur_question_heading(const struct mensur_question *question, const struct mensur_shop *shop,
                             struct mensur_heading *heading) {
    const struct mensur_command_way *way = question->way;
    *heading =
        (struct mensur_heading){.command = mensur_command_at((size_t)question->command)->name,
                                .shop = shop->label,
                                .a4 = question->terms.a4,
                                .fifths = question->fifths,
                                .steps = question->steps,
                                .habit_count = question->habit_count,
                                .habits = question->habits,
                                .title = question->heading,
                                .owners = &shop->sources[MENSUR_TABLE_INSTRUMENTS].owners,
                                .sources = way->view != NULL   ? way->view->sources
                                           : way->kind != NULL ? way->kind->sources
                                                               : way->sources,
                                .view = way->view};
}

static bool wants_true_places(const struct mensur_question *question) {
    return question->style.true_places || question->style.format == MENSUR_FORMAT_JSON;
}

/* Drawings, sheets and dossiers show all there is; a CSV its figures alone. */
static unsigned parts_of(const struct mensur_question *question) {
    if (question->medium != MENSUR_MEDIUM_WORDS) {
        return MENSUR_PART_ALL |
               (question->style.true_places ? (unsigned)MENSUR_PART_TRUE_PLACES : 0u);
    }
    unsigned parts = question->way->view->parts;
    if ((parts & MENSUR_PART_FINGERS) != 0 && wants_true_places(question)) {
        parts |= MENSUR_PART_TRUE_PLACES;
    }
    return question->style.format == MENSUR_FORMAT_CSV ? parts | MENSUR_PART_FIGURES_ALONE : parts;
}

enum mensur_status ask_row_make(struct mensur_solver *solver, const struct mensur_shop *shop,
                                const struct mensur_question *question,
                                const struct mensur_instrument *instrument, bool of_many,
                                struct mensur_texts *messages, struct mensur_profile *profile) {
    unsigned parts = parts_of(question) | (of_many ? (unsigned)MENSUR_PART_ROW_OF_MANY : 0u);
    struct mensur_fault fault;
    fault.text[0] = '\0';
    enum mensur_status status = mensur_ask_profile_with(solver, &shop->stock, instrument,
                                                        &question->terms, parts, &fault, profile);
    if (status != MENSUR_OK) {
        return ask_say_fault(messages, shop, instrument, &fault, status);
    }
    const struct mensur_view *view = question->way->view;
    if (view != NULL && view->remark != NULL && (parts & MENSUR_PART_FIGURES_ALONE) == 0) {
        view->remark(profile);
        status = profile->remarks.status;
    }
    if (status != MENSUR_OK) {
        mensur_profile_clear(profile);
    }
    return status;
}

enum mensur_status ask_row_work(const struct mensur_question *question,
                                const struct mensur_stock *stock,
                                const struct mensur_instrument *instrument,
                                struct mensur_fault *fault, struct mensur_working *out) {
    const struct mensur_terms *terms = &question->terms;
    if ((question->way->view->parts & MENSUR_PART_FINGERS) != 0) {
        return mensur_ask_working_fingers(stock, instrument, terms, wants_true_places(question),
                                          fault, out);
    }
    return (question->way->view->parts & MENSUR_PART_STRINGS) != 0
               ? mensur_ask_working_tension(stock, instrument, terms, ask_feels(question), fault,
                                            out)
               : mensur_ask_working_lengths(stock, instrument, terms, fault, out);
}

enum mensur_status ask_row_write(const struct mensur_rows *rows, struct mensur_presenter *presenter,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_profile *profile) {
    struct mensur_working working = {.count = 0};
    enum mensur_status status = MENSUR_OK;
    if (rows->question->working) {
        struct mensur_fault fault = {""};
        status = ask_row_work(rows->question, &rows->shop->stock, instrument, &fault, &working);
        mensur_present_set_working(presenter, &working);
    }
    mensur_present_set_owners(presenter, instrument->owners.cells);
    if (status == MENSUR_OK) {
        status = mensur_present_profile(presenter, profile);
    }
    mensur_working_clear(&working);
    return status;
}
