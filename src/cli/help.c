/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "help.h"

#include <string.h>

static const char *const examples[] = {
    [COMMAND_START] = "mensur start my-shop",
    [COMMAND_CHECK] = "mensur check --shop my-shop",
    [COMMAND_LENGTHS] = "mensur lengths heron kestrel",
    [COMMAND_TENSION] = "mensur tension kestrel",
    [COMMAND_FINGERS] = "mensur fingers kestrel",
    [COMMAND_COMPARE] = "mensur compare kestrel wren",
    [COMMAND_CHANGE] = "mensur change kestrel neck=+6 stop=-3",
    [COMMAND_NECK] = "mensur neck kestrel --like heron",
    [COMMAND_STOP] = "mensur stop kestrel --string-length 368..376",
    [COMMAND_RESTRING] = "mensur restring kestrel --like heron",
    [COMMAND_REACH] = "mensur reach kestrel heron --player small",
    [COMMAND_SHEET] = "mensur sheet heron kestrel --output fingers.pdf",
    [COMMAND_DOSSIER] = "mensur dossier heron kestrel --output customer.html",
};

const char *help_example(enum command command) {
    return examples[command];
}

void help_overview(FILE *to) {
    fputs("mensur: stop, neck and strings of bowed instruments, decided before wood is cut\n\n",
          to);
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        const struct command_info *info = command_info((enum command)i);
        fprintf(to, "  mensur %s%s%s\n      %s\n", info->name,
                info->arguments[0] == '\0' ? "" : " ", info->arguments, info->meaning);
    }
    fputs("\nmensur COMMAND --help lists a command's options. Without --shop FOLDER the answers\n"
          "come from the built-in demonstration; mensur start FOLDER writes a shop to edit.\n",
          to);
}

/* Words from column `column` on, wrapped at 78. */
static void put_wrapped(FILE *to, const char *text, int column) {
    int at = column;
    while (*text != '\0') {
        int length = (int)strcspn(text, " ");
        if (at > column && at + 1 + length > 78) {
            fprintf(to, "\n%*s", column, "");
            at = column;
        } else if (at > column) {
            fputc(' ', to);
            at++;
        }
        fprintf(to, "%.*s", length, text);
        at += length;
        text += length + (text[length] == ' ');
    }
    fputc('\n', to);
}

static void put_option(FILE *to, const struct option_info *info) {
    fprintf(to, "  --%s%s%s\n      ", info->name, info->value == NULL ? "" : " ",
            info->value == NULL ? "" : info->value);
    put_wrapped(to, info->meaning, 6);
}

void help_command(FILE *to, enum command command) {
    const struct command_info *info = command_info(command);
    fprintf(to, "mensur %s %s\n\n", info->name, info->arguments);
    put_wrapped(to, info->meaning, 0);
    fprintf(to, "\nFor example: %s\n\nOptions:\n", examples[command]);
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const struct option_info *option = option_info((enum option)i);
        if ((option->commands & (1u << command)) != 0) {
            put_option(to, option);
        }
    }
    if (((COMMANDS_DECIDE | COMMANDS_RESTRING) & (1u << command)) != 0) {
        fputs("\nA wish is a range LOW..HIGH, ends included, open on either side (368.., ..560).\n",
              to);
    }
    fputs("\nExit: 0 answered; 1 answered, the wish cannot be met; 2 wrong use; 3 bad data;\n"
          "4 no physical answer; 5 the system failed.\n",
          to);
}
