/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "options.h"

#include <glib.h>
#include <stdio.h>
#include <string.h>

#include "help.h"
#include "nearest.h"

/* Further than this two words are not alike. */
enum { FARTHEST = 2 };

static const struct command_info commands[] = {
#define COMMAND_INFO(id, name, arguments, meaning) {name, arguments, meaning},
    COMMAND_LIST(COMMAND_INFO)
#undef COMMAND_INFO
};

static const struct option_info infos[] = {
#define OPTION_INFO(id, name, type, value, commands, meaning)                                      \
    {name, OPTION_##type, value, commands, meaning},
    OPTION_LIST_ALL(OPTION_INFO)
#undef OPTION_INFO
};

const struct command_info *command_info(enum command command) {
    return &commands[command];
}

const struct option_info *option_info(enum option option) {
    return &infos[option];
}

const char *nearest_word(const char *word, const char *const *words, size_t count) {
    struct mensur_nearest nearest = mensur_nearest_start(word, FARTHEST);
    for (size_t i = 0; i < count; i++) {
        mensur_nearest_take(&nearest, words[i]);
    }
    return nearest.name;
}

static void fill_entry(enum option i, struct options *options, gboolean *flags,
                       GOptionEntry *entry) {
    static const GOptionArg args[] = {
        [OPTION_FLAG] = G_OPTION_ARG_NONE,
        [OPTION_TEXT] = G_OPTION_ARG_FILENAME,
        [OPTION_LIST] = G_OPTION_ARG_FILENAME_ARRAY,
    };
    entry->long_name = infos[i].name;
    entry->arg = args[infos[i].type];
    switch (infos[i].type) {
    case OPTION_FLAG:
        entry->arg_data = &flags[i];
        break;
    case OPTION_TEXT:
        entry->arg_data = &options->text[i];
        break;
    case OPTION_LIST:
        entry->arg_data = &options->list[i];
        break;
    }
}

/* The first word that looks like an option and is none; NULL where there is none. */
static const char *unknown_option(char *const *arguments, size_t *length) {
    for (; *arguments != NULL && strcmp(*arguments, "--") != 0; arguments++) {
        const char *word = *arguments;
        if (word[0] != '-' || word[1] == '\0') {
            continue;
        }
        size_t skip = word[1] == '-' ? 2 : 1;
        *length = strcspn(word + skip, "=");
        bool known = false;
        for (size_t i = 0; i < OPTION_COUNT; i++) {
            known = known || (skip == 2 && strlen(infos[i].name) == *length &&
                              strncmp(infos[i].name, word + skip, *length) == 0);
        }
        if (!known) {
            return word + skip;
        }
    }
    return NULL;
}

static void say_wrong_option(char *const *arguments, const char *message) {
    const char *names[OPTION_COUNT];
    size_t length = 0;
    const char *unknown = unknown_option(arguments, &length);
    if (unknown == NULL) {
        fprintf(stderr, "mensur: %s\n", message);
        return;
    }
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        names[i] = infos[i].name;
    }
    char *word = g_strndup(unknown, length);
    const char *nearest = nearest_word(word, names, OPTION_COUNT);
    fprintf(stderr, "mensur: there is no option \"%s\"%s%s%s\n", word,
            nearest == NULL ? "" : "; did you mean --", nearest == NULL ? "" : nearest,
            nearest == NULL ? "" : "?");
    g_free(word);
}

static bool parse(int argc, char **argv, struct options *options) {
    GOptionEntry entries[OPTION_COUNT + 1] = {{0}};
    gboolean flags[OPTION_COUNT] = {FALSE};
    GError *error = NULL;
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        fill_entry((enum option)i, options, flags, &entries[i]);
    }
    GOptionContext *context = g_option_context_new(NULL);
    g_option_context_set_help_enabled(context, FALSE);
    g_option_context_add_main_entries(context, entries, NULL);
    options->rest = g_new0(char *, (size_t)argc + 1);
    for (int i = 0; i < argc; i++) {
        options->rest[i] = g_strdup(argv[i]);
    }
    char **kept = g_strdupv(options->rest);
    bool good = g_option_context_parse_strv(context, &options->rest, &error);
    if (!good) {
        say_wrong_option(kept + 1, error->message);
        g_error_free(error);
    }
    g_strfreev(kept);
    g_option_context_free(context);
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        options->flag[i] = flags[i];
    }
    return good;
}

/* What follows `--` is no option; the `--` itself says nothing. */
static void drop_dashes(char **words) {
    char **to = words;
    for (char **from = words; *from != NULL; from++) {
        if (strcmp(*from, "--") == 0 && to == from) {
            g_free(*from);
            for (from++; *from != NULL; from++) {
                *to++ = *from;
            }
            *to = NULL;
            return;
        }
        to++;
    }
}

static bool find_command(struct options *options) {
    const char *word = options->rest[1];
    const char *names[COMMAND_COUNT];
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        names[i] = commands[i].name;
        if (strcmp(word, commands[i].name) == 0) {
            options->command = (enum command)i;
            options->names = options->rest + 2;
            options->name_count = g_strv_length(options->names);
            return true;
        }
    }
    const char *nearest = nearest_word(word, names, COMMAND_COUNT);
    fprintf(stderr, "mensur: there is no command \"%s\"", word);
    if (nearest != NULL) {
        fprintf(stderr, "; did you mean \"%s\"?\n", nearest);
    } else {
        fprintf(stderr, "; mensur --help lists them\n");
    }
    return false;
}

static bool is_given(const struct options *options, size_t i) {
    return options->flag[i] || options->text[i] != NULL || options->list[i] != NULL;
}

static bool check_together(const struct options *options) {
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        if (is_given(options, i) && (infos[i].commands & (1u << options->command)) == 0) {
            fprintf(stderr,
                    "mensur: the option --%s does not go with %s; mensur %s --help lists those "
                    "that do\n",
                    infos[i].name, commands[options->command].name,
                    commands[options->command].name);
            return false;
        }
    }
    return true;
}

enum options_outcome options_read(int argc, char **argv, struct options *options) {
    memset(options, 0, sizeof *options);
    if (!parse(argc, argv, options)) {
        return OPTIONS_WRONG;
    }
    drop_dashes(options->rest);
    if (options->flag[OPTION_ID_version]) {
        printf("mensur %s\n", MENSUR_VERSION);
        return OPTIONS_SAID;
    }
    if (options->rest[0] == NULL || options->rest[1] == NULL) {
        bool asked = options->flag[OPTION_ID_help];
        help_overview(asked ? stdout : stderr);
        return asked ? OPTIONS_SAID : OPTIONS_WRONG;
    }
    if (!find_command(options)) {
        return OPTIONS_WRONG;
    }
    if (options->flag[OPTION_ID_help]) {
        help_command(stdout, options->command);
        return OPTIONS_SAID;
    }
    return check_together(options) ? OPTIONS_ASK : OPTIONS_WRONG;
}

void options_free(struct options *options) {
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        g_free(options->text[i]);
        g_strfreev(options->list[i]);
    }
    g_strfreev(options->rest);
}
