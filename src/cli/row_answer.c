/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: what is asked of each instrument, and how its answer is presented. */
#include "row_answer.h"

typedef enum mensur_status present_row(struct mensur_presenter *presenter,
                                       const struct mensur_profile *profile);

static const struct {
    unsigned parts;
    present_row *present;
} row_commands[] = {
    [COMMAND_LENGTHS] = {MENSUR_PART_LENGTHS, mensur_present_lengths},
    [COMMAND_TENSION] = {MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, mensur_present_tension},
    [COMMAND_FINGERS] = {MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, mensur_present_fingers},
};

unsigned row_parts(const struct question *question) {
    bool true_places =
        question->options->command == COMMAND_FINGERS &&
        (question->style.true_places || question->style.format == MENSUR_FORMAT_JSON);
    return row_commands[question->options->command].parts |
           (true_places ? (unsigned)MENSUR_PART_TRUE_PLACES : 0u) |
           (question->style.format == MENSUR_FORMAT_CSV ? (unsigned)MENSUR_PART_FIGURES_ALONE : 0u);
}

static enum mensur_status ask_working(const struct question *question,
                                      const struct mensur_instrument *instrument,
                                      struct mensur_fault *fault, struct mensur_working *out) {
    const struct mensur_stock *stock = &question->shop.stock;
    const struct mensur_terms *terms = &question->terms;
    bool all = question->style.format == MENSUR_FORMAT_JSON;
    switch (question->options->command) {
    case COMMAND_TENSION:
        return mensur_ask_working_tension(stock, instrument, terms, question_feels(question), fault,
                                          out);
    case COMMAND_FINGERS:
        return mensur_ask_working_fingers(stock, instrument, terms,
                                          question->style.true_places || all, fault, out);
    default:
        return mensur_ask_working_lengths(stock, instrument, terms, fault, out);
    }
}

enum mensur_status row_present(const struct question *question, struct mensur_presenter *presenter,
                               const struct mensur_instrument *instrument,
                               const struct mensur_profile *profile) {
    struct mensur_working working = {.count = 0};
    struct mensur_fault fault = {""};
    enum mensur_status status = MENSUR_OK;
    if (question->wants_working) {
        status = ask_working(question, instrument, &fault, &working);
        mensur_present_set_working(presenter, &working);
    }
    if (status == MENSUR_OK) {
        status = row_commands[question->options->command].present(presenter, profile);
    }
    mensur_working_clear(&working);
    return status;
}
