/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ways.h"

#include "drawing.h"
#include "settings.h"

enum {
    SIDE_BY_SIDE = MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_TENSION,
    DECIDED = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE
};

static const struct mensur_command_way ways[COMMAND_COUNT] = {
    [COMMAND_START] = {.read = ask_read_start},
    [COMMAND_CHECK] = {.read = ask_read_check, .make = ask_make_files},
    [COMMAND_LENGTHS] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIDGE,
                         MENSUR_PART_LENGTHS, mensur_present_lengths},
    [COMMAND_TENSION] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_TENSION,
                         MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, mensur_present_tension},
    [COMMAND_FINGERS] = {ask_read_rows, ask_make_rows, MENSUR_DRAW_PLACES,
                         MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, mensur_present_fingers},
    [COMMAND_COMPARE] = {.read = ask_read_compare,
                         .make = ask_make_comparison,
                         .draw = SIDE_BY_SIDE},
    [COMMAND_CHANGE] = {.read = ask_read_change, .make = ask_make_change, .draw = SIDE_BY_SIDE},
    [COMMAND_SCALE] = {.read = ask_read_scale, .make = ask_make_scaled, .draw = MENSUR_DRAW_SIDE},
    [COMMAND_NECK] = {.read = ask_read_decide, .make = ask_make_decision, .draw = DECIDED},
    [COMMAND_STOP] = {.read = ask_read_decide, .make = ask_make_decision, .draw = DECIDED},
    [COMMAND_RESTRING] = {.read = ask_read_restring,
                          .make = ask_make_restringing,
                          .draw = MENSUR_DRAW_TENSION},
    [COMMAND_MAP] = {.read = ask_read_map, .make = ask_make_map},
    [COMMAND_FIND] = {.read = ask_read_find, .make = ask_make_ranking},
    [COMMAND_REACH] = {.read = ask_read_reach, .make = ask_make_reaching},
    [COMMAND_SHEET] = {.read = ask_read_sheet, .make = ask_make_sheet},
    [COMMAND_TEMPLATE] = {.read = ask_read_template, .make = ask_make_template},
    [COMMAND_DOSSIER] = {.read = ask_read_dossier, .make = ask_make_dossier},
};

enum mensur_status mensur_question_read_in(const struct mensur_shop *shop, const char *const *words,
                                           size_t count, struct mensur_texts *messages,
                                           struct mensur_question *question) {
    struct words sorted;
    struct mensur_question read = {.named = NULL};
    struct reading reading = {&sorted, messages, &read,
                              ask_words_read(words, count, messages, &sorted)};
    if (reading.status != MENSUR_OK) {
        return reading.status;
    }
    if (shop != NULL && sorted.help == MENSUR_HELP_NONE) {
        ask_settings_take(&shop->stock, &sorted, &read);
    }
    read.command = (int)sorted.command;
    read.help = sorted.help;
    read.shop = sorted.text[OPTION_ID_shop];
    read.way = &ways[read.command];
    ask_read_output(&reading);
    if (read.help == MENSUR_HELP_NONE) {
        read.way->read(&reading);
    }
    ask_words_clear(&sorted);
    if (reading.status == MENSUR_OK) {
        *question = read;
    } else {
        mensur_question_clear(&read);
    }
    return reading.status;
}

enum mensur_status mensur_question_read(const char *const *words, size_t count,
                                        struct mensur_texts *messages,
                                        struct mensur_question *question) {
    return mensur_question_read_in(NULL, words, count, messages, question);
}
