/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help, made from the tables of commands and options. */
#include <string.h>

#include "commands.h"
#include "sink.h"

/* Words from column `column` on, wrapped at 78. */
static void put_wrapped(struct mensur_out *out, const char *text, size_t column) {
    size_t at = column;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        if (at > column && at + 1 + length > 78) {
            mensur_out_line(out);
            mensur_out_blanks(out, column);
            at = column;
        } else if (at > column) {
            mensur_out_text(out, " ");
            at++;
        }
        mensur_out_bytes(out, text, length);
        at += length;
        text += length + (text[length] == ' ');
    }
    mensur_out_text(out, "\n");
}

/* The column of the overview from which it says what a command answers. */
enum { MEANINGS = 12 };

/* A line for each command: with its head and foot it fits a terminal of 24 lines. */
static void put_overview(struct mensur_out *out) {
    mensur_out_text(
        out, "mensur COMMAND: stop, neck and strings of bowed instruments, before wood is cut\n\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        const struct mensur_command_info *info = mensur_command_at(i);
        mensur_out_text(out, "  ");
        mensur_out_text(out, info->name);
        mensur_out_blanks(out, MEANINGS - 2 - strlen(info->name));
        mensur_out_text(out, info->meaning);
        mensur_out_text(out, "\n");
    }
    mensur_out_text(
        out, "\nmensur COMMAND --help lists a command's options. Without --shop FOLDER the\n"
             "answers come from the built-in demonstration; mensur start FOLDER writes a shop.\n");
}

static void put_option(struct mensur_out *out, const struct mensur_option_info *info) {
    mensur_out_text(out, "  --");
    mensur_out_text(out, info->name);
    mensur_out_text(out, info->value == NULL ? "" : " ");
    mensur_out_text(out, info->value == NULL ? "" : info->value);
    mensur_out_text(out, "\n      ");
    put_wrapped(out, info->meaning, 6);
}

static void put_command(struct mensur_out *out, size_t command) {
    const struct mensur_command_info *info = mensur_command_at(command);
    unsigned bit = 1u << command;
    mensur_out_text(out, "mensur ");
    mensur_out_text(out, info->name);
    mensur_out_text(out, " ");
    mensur_out_text(out, info->arguments);
    mensur_out_text(out, "\n\n");
    put_wrapped(out, info->meaning, 0);
    mensur_out_text(out, "\nFor example: ");
    mensur_out_text(out, info->example);
    mensur_out_text(out, "\n\nOptions:\n");
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const struct mensur_option_info *option = mensur_option_at(i);
        if ((option->commands & bit) != 0) {
            put_option(out, option);
        }
    }
    if (((COMMANDS_DECIDE | COMMANDS_SCALE | COMMANDS_RESTRING) & bit) != 0) {
        mensur_out_text(out,
                        "\nA wish is a range LOW..HIGH, ends included, open on either side (368.., "
                        "..560).\n");
    }
    if ((COMMANDS_ANSWER & ~(1u << COMMAND_CHANGE) & bit) != 0) {
        mensur_out_text(
            out, "\nFIELD=VALUE behind a NAME changes that instrument before anything is asked: "
                 "neck=152,\nstop=-3 (by so much), strings=SET, tuning=TUNING or \"C3 G3 D4 Bb4\", "
                 "a4=415.\n");
    }
    if ((COMMANDS_ANSWER & bit) != 0) {
        mensur_out_text(out,
                        "\nIn place of the first NAME measurements may stand: stop=222 neck=150 "
                        "family=viola.\n");
    }
    if ((COMMANDS_SEVERAL & bit) != 0) {
        mensur_out_text(out,
                        "In place of a further one too, behind the word and: stop=222 neck=150 "
                        "and stop=214\nneck=155.\n");
    }
    mensur_out_text(
        out, "\nExit: 0 answered; 1 answered, the wish cannot be met; 2 wrong use; 3 bad data;\n"
             "4 no physical answer; 5 the system failed.\n");
}

enum mensur_status mensur_help_write(const struct mensur_question *question,
                                     const struct mensur_sink *sink) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    if (question->help == MENSUR_HELP_VERSION) {
        mensur_out_text(&out, "mensur " MENSUR_VERSION "\n");
    } else if (question->help == MENSUR_HELP_COMMAND) {
        put_command(&out, (size_t)question->command);
    } else {
        put_overview(&out);
    }
    mensur_out_flush(&out);
    return out.status;
}
