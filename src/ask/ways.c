/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ways.h"

#include "drawing.h"
#include "working.h"

static enum mensur_status work_lengths(const struct mensur_question *question,
                                       const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       struct mensur_fault *fault, struct mensur_working *out) {
    return mensur_ask_working_lengths(stock, instrument, &question->terms, fault, out);
}

static enum mensur_status work_tension(const struct mensur_question *question,
                                       const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       struct mensur_fault *fault, struct mensur_working *out) {
    return mensur_ask_working_tension(stock, instrument, &question->terms, ask_feels(question),
                                      fault, out);
}

static enum mensur_status work_fingers(const struct mensur_question *question,
                                       const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       struct mensur_fault *fault, struct mensur_working *out) {
    bool true_places = question->style.true_places || question->style.format == MENSUR_FORMAT_JSON;
    return mensur_ask_working_fingers(stock, instrument, &question->terms, true_places, fault, out);
}

static const struct row_way lengths = {MENSUR_PART_LENGTHS, mensur_present_lengths, work_lengths,
                                       false};
static const struct row_way tension = {MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS,
                                       mensur_present_tension, work_tension, false};
static const struct row_way fingers = {MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS,
                                       mensur_present_fingers, work_fingers, true};

enum {
    SIDE_BY_SIDE = MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_PULL,
    DECIDED = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE
};

const struct mensur_command_way ask_ways[COMMAND_COUNT] = {
    [COMMAND_START] = {ask_read_start, NULL, 0, NULL},
    [COMMAND_CHECK] = {ask_read_check, ask_make_files, 0, NULL},
    [COMMAND_LENGTHS] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE,
                         &lengths},
    [COMMAND_TENSION] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_PULL, &tension},
    [COMMAND_FINGERS] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_PLACES, &fingers},
    [COMMAND_COMPARE] = {ask_read_compare, ask_make_comparison, SIDE_BY_SIDE, NULL},
    [COMMAND_CHANGE] = {ask_read_change, ask_make_change, SIDE_BY_SIDE, NULL},
    [COMMAND_NECK] = {ask_read_decide, ask_make_decision, DECIDED, NULL},
    [COMMAND_STOP] = {ask_read_decide, ask_make_decision, DECIDED, NULL},
    [COMMAND_RESTRING] = {ask_read_restring, ask_make_restringing, 0, NULL},
    [COMMAND_REACH] = {ask_read_reach, ask_make_reaching, 0, NULL},
    [COMMAND_SHEET] = {ask_read_sheet, ask_make_sheet, 0, NULL},
    [COMMAND_DOSSIER] = {ask_read_dossier, ask_make_dossier, 0, NULL},
};
