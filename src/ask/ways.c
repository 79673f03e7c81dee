/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ways.h"

#include "drawing.h"
#include "settings.h"

enum {
    SIDE_BY_SIDE = MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_TENSION,
    DECIDED = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE
};

/* The views that the table names. */
#define VIEW(id, name, arguments, meaning, example, takes, read, make, ...) __VA_ARGS__
#define TELLS(view) extern const struct mensur_view mensur_view_##view;
#define DRAWS(parts)
COMMAND_LIST(VIEW)
#undef VIEW
#undef TELLS
#undef DRAWS

static const struct mensur_command_way ways[COMMAND_COUNT] = {
#define WAY(id, name, arguments, meaning, example, takes, read, make, told)                        \
    [COMMAND_##id] = {ask_read_##read, ask_make_##make, told},
#define TELLS(view_) .view = (&mensur_view_##view_)
#define DRAWS(parts) .draw = (parts)
    COMMAND_LIST(WAY)
#undef WAY
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
