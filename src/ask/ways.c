/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ways.h"

#include "settings.h"

static const struct mensur_command_way ways[COMMAND_COUNT] = {
#define WAY(id, name, arguments, meaning, example, takes, read, make, told)                        \
    [COMMAND_##id] = {ask_read_##read, ask_make_##make, told},
#define TELLS(view_) .view = (&mensur_view_##view_)
#define ANSWERS(kind_) .kind = (&mensur_##kind_##_answer)
#define MAKES(sources_) .sources = (sources_)
    COMMAND_LIST(WAY)
#undef WAY
#undef TELLS
#undef ANSWERS
#undef MAKES
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
        if (read.way->kind != NULL && read.way->kind->undrawn != NULL) {
            ask_refuse_drawing(&reading, read.way->kind->undrawn);
        }
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
