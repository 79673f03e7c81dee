/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help, made from the tables of commands and options. */
#include <string.h>

#include "commands.h"

/* A sink with the status of the first write that failed. */
struct page {
    const struct mensur_sink *sink;
    enum mensur_status status;
};

static void put_part(struct page *page, const char *text, size_t length) {
    if (page->status == MENSUR_OK) {
        page->status = page->sink->write(page->sink->context, text, length);
    }
}

static void put(struct page *page, const char *text) {
    put_part(page, text, strlen(text));
}

/* Words from column `column` on, wrapped at 78. */
static void put_wrapped(struct page *page, const char *text, size_t column) {
    size_t at = column;
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        if (at > column && at + 1 + length > 78) {
            put(page, "\n");
            for (at = 0; at < column; at++) {
                put(page, " ");
            }
        } else if (at > column) {
            put(page, " ");
            at++;
        }
        put_part(page, text, length);
        at += length;
        text += length + (text[length] == ' ');
    }
    put(page, "\n");
}

static void put_overview(struct page *page) {
    put(page,
        "mensur: stop, neck and strings of bowed instruments, decided before wood is cut\n\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        const struct mensur_command_info *info = mensur_command_at(i);
        const char *const parts[] = {"  mensur ",
                                     info->name,
                                     info->arguments[0] == '\0' ? "" : " ",
                                     info->arguments,
                                     "\n      ",
                                     info->meaning,
                                     "\n"};
        for (size_t p = 0; p < sizeof parts / sizeof parts[0]; p++) {
            put(page, parts[p]);
        }
    }
    put(page,
        "\nmensur COMMAND --help lists a command's options. Without --shop FOLDER the answers\n"
        "come from the built-in demonstration; mensur start FOLDER writes a shop to edit.\n");
}

static void put_option(struct page *page, const struct mensur_option_info *info) {
    put(page, "  --");
    put(page, info->name);
    put(page, info->value == NULL ? "" : " ");
    put(page, info->value == NULL ? "" : info->value);
    put(page, "\n      ");
    put_wrapped(page, info->meaning, 6);
}

static void put_command(struct page *page, size_t command) {
    const struct mensur_command_info *info = mensur_command_at(command);
    unsigned bit = 1u << command;
    put(page, "mensur ");
    put(page, info->name);
    put(page, " ");
    put(page, info->arguments);
    put(page, "\n\n");
    put_wrapped(page, info->meaning, 0);
    put(page, "\nFor example: ");
    put(page, info->example);
    put(page, "\n\nOptions:\n");
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const struct mensur_option_info *option = mensur_option_at(i);
        if ((option->commands & bit) != 0) {
            put_option(page, option);
        }
    }
    if (((COMMANDS_DECIDE | COMMANDS_RESTRING) & bit) != 0) {
        put(page, "\nA wish is a range LOW..HIGH, ends included, open on either side (368.., "
                  "..560).\n");
    }
    if ((COMMANDS_ANSWER & ~(1u << COMMAND_CHANGE) & bit) != 0) {
        put(page, "\nFIELD=VALUE behind a NAME changes that instrument before anything is asked: "
                  "neck=152,\nstop=-3 (by so much), strings=SET, tuning=TUNING.\n");
    }
    put(page, "\nExit: 0 answered; 1 answered, the wish cannot be met; 2 wrong use; 3 bad data;\n"
              "4 no physical answer; 5 the system failed.\n");
}

enum mensur_status mensur_help_write(const struct mensur_question *question,
                                     const struct mensur_sink *sink) {
    struct page page = {.sink = sink, .status = MENSUR_OK};
    if (question->help == MENSUR_HELP_VERSION) {
        put(&page, "mensur " MENSUR_VERSION "\n");
    } else if (question->help == MENSUR_HELP_COMMAND) {
        put_command(&page, (size_t)question->command);
    } else {
        put_overview(&page);
    }
    return page.status;
}
