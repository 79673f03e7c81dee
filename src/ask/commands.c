/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "commands.h"

static const struct mensur_command_info commands[] = {
#define COMMAND_INFO(id, name, arguments, meaning, example, ...)                                   \
    {name, arguments, meaning, example},
    COMMAND_LIST(COMMAND_INFO)
#undef COMMAND_INFO
};

static const struct mensur_option_info options[] = {
#define OPTION_INFO(id, name, type, value, commands, meaning)                                      \
    {name, MENSUR_OPTION_##type, value, commands, (commands) == COMMANDS_ALL, meaning},
    OPTION_LIST_ALL(OPTION_INFO)
#undef OPTION_INFO
};

const struct mensur_command_info *mensur_command_at(size_t i) {
    return i < COMMAND_COUNT ? &commands[i] : NULL;
}

const struct mensur_option_info *mensur_option_at(size_t i) {
    return i < OPTION_COUNT ? &options[i] : NULL;
}
