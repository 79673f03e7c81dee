/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words.h"

#include <stdlib.h>
#include <string.h>

#include "nearest.h"
#include "texts.h"

/* Further than this two words are not alike. */
enum { FARTHEST = 2 };

const char *ask_nearest_name(const char *word, const void *records, size_t count, size_t step,
                             int farthest) {
    struct mensur_nearest nearest = mensur_nearest_start(word, farthest);
    for (size_t i = 0; i < count; i++) {
        const char *const *name = (const void *)((const char *)records + i * step);
        mensur_nearest_take(&nearest, *name);
    }
    return nearest.name;
}

char *ask_names_joined(const char *const *names, size_t count, const char *end) {
    size_t length = strlen(end);
    for (size_t i = 0; i < count; i++) {
        length += strlen(names[i]) + 2;
    }
    char *text = malloc(length + 1), *to = text;
    for (size_t i = 0; text != NULL && i < count; i++) {
        size_t part = strlen(names[i]);
        if (i > 0) {
            memcpy(to, ", ", 2);
            to += 2;
        }
        memcpy(to, names[i], part);
        to += part;
    }
    if (text != NULL) {
        memcpy(to, end, strlen(end) + 1);
    }
    return text;
}

/* The option of that name; OPTION_COUNT where there is none. */
static enum option find_option(const char *name, size_t length) {
    size_t i = 0;
    while (i < OPTION_COUNT && (strlen(mensur_option_at(i)->name) != length ||
                                strncmp(mensur_option_at(i)->name, name, length) != 0)) {
        i++;
    }
    return (enum option)i;
}

/* Whether a word is an option by its looks; `-` alone is a word like any other. */
static bool looks_like_option(const char *word) {
    return word[0] == '-' && word[1] != '\0';
}

static enum option option_of(const char *word, size_t *length) {
    *length = strcspn(word, "=");
    return word[1] == '-' ? find_option(word + 2, *length - 2) : OPTION_COUNT;
}

/* The first word that looks like an option and is none, wherever it stands; else a message that
 * `wanting` lacks its value. */
static enum mensur_status say_wrong_option(const char *const *list, size_t count,
                                           const char *wanting, struct mensur_texts *messages) {
    for (size_t i = 0; i < count && strcmp(list[i], "--") != 0; i++) {
        size_t length = 0;
        if (!looks_like_option(list[i]) || option_of(list[i], &length) != OPTION_COUNT) {
            continue;
        }
        size_t dashes = list[i][1] == '-' ? 2 : 1;
        char *word = NULL;
        if (mensur_text_copy(list[i] + dashes, strcspn(list[i] + dashes, "="), &word) !=
            MENSUR_OK) {
            return MENSUR_MEMORY;
        }
        const char *nearest = ask_nearest_name(word, mensur_option_at(0), OPTION_COUNT,
                                               sizeof(struct mensur_option_info), FARTHEST);
        enum mensur_status status = SAY(messages, "there is no option \"%s\"%s%s%s", word,
                                        nearest == NULL ? "" : "; did you mean --",
                                        nearest == NULL ? "" : nearest, nearest == NULL ? "" : "?");
        free(word);
        return status;
    }
    return SAY(messages, "Missing argument for --%s", wanting);
}

/* Sorts the words into options and the rest. Behind `--` no word is an option. */
static enum mensur_status sort_words(const char *const *list, size_t count, size_t *rest_count,
                                     struct mensur_texts *messages, struct words *words) {
    bool options_end = false;
    *rest_count = 0;
    for (size_t i = 0; i < count; i++) {
        const char *word = list[i];
        if (!options_end && strcmp(word, "--") == 0) {
            options_end = true;
            continue;
        }
        if (options_end || !looks_like_option(word)) {
            words->rest[(*rest_count)++] = word;
            continue;
        }
        size_t length = 0;
        enum option option = option_of(word, &length);
        if (option == OPTION_COUNT) {
            return say_wrong_option(list, count, "", messages);
        }
        const struct mensur_option_info *info = mensur_option_at(option);
        if (info->type == MENSUR_OPTION_FLAG) {
            words->flag[option] = true;
            continue;
        }
        size_t usual = info->value[0] == '[' ? strlen(info->value) - 2 : 0;
        if (usual > 0 && word[length] != '=') {
            /* It may be left out: then it is the usual one. */
            bool given = i + 1 < count && strlen(list[i + 1]) == usual &&
                         strncmp(list[i + 1], info->value + 1, usual) == 0;
            words->text[option] = given ? list[++i] : "";
            continue;
        }
        if (word[length] != '=' && ++i == count) {
            return say_wrong_option(list, count, info->name, messages);
        }
        words->text[option] = word[length] == '=' ? word + length + 1 : list[i];
        if (info->type == MENSUR_OPTION_LIST) {
            words->listed[words->listed_count++] = (struct listed){option, words->text[option]};
        }
    }
    return MENSUR_OK;
}

static enum mensur_status find_command(const char *word, struct mensur_texts *messages,
                                       struct words *words) {
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(word, mensur_command_at(i)->name) == 0) {
            words->command = (enum command)i;
            return MENSUR_OK;
        }
    }
    const char *nearest = ask_nearest_name(word, mensur_command_at(0), COMMAND_COUNT,
                                           sizeof(struct mensur_command_info), FARTHEST);
    return nearest != NULL
               ? SAY(messages, "there is no command \"%s\"; did you mean \"%s\"?", word, nearest)
               : SAY(messages, "there is no command \"%s\"; mensur --help lists them", word);
}

static enum mensur_status check_together(const struct words *words, struct mensur_texts *messages) {
    for (size_t i = 0; i < OPTION_COUNT; i++) {
        const struct mensur_option_info *info = mensur_option_at(i);
        if ((words->flag[i] || words->text[i] != NULL) &&
            (info->commands & (1u << words->command)) == 0) {
            const char *command = mensur_command_at(words->command)->name;
            return SAY(messages,
                       "the option --%s does not go with %s; mensur %s --help lists those that do",
                       info->name, command, command);
        }
    }
    return MENSUR_OK;
}

/* `mensur help neck` is `mensur neck --help`, `mensur help` is `mensur --help`. */
static size_t read_help(size_t rest_count, struct words *words) {
    if (rest_count == 0 || strcmp(words->rest[0], "help") != 0) {
        return rest_count;
    }
    words->flag[OPTION_ID_help] = true;
    memmove(words->rest, words->rest + 1, (rest_count - 1) * sizeof *words->rest);
    return rest_count - 1;
}

static enum mensur_status read_sorted(size_t rest_count, struct mensur_texts *messages,
                                      struct words *words) {
    if (words->flag[OPTION_ID_version]) {
        words->help = MENSUR_HELP_VERSION;
        return MENSUR_OK;
    }
    if (rest_count == 0) {
        words->help = words->flag[OPTION_ID_help] ? MENSUR_HELP_OVERVIEW : MENSUR_HELP_MISSING;
        return MENSUR_OK;
    }
    words->names = words->rest + 1;
    words->name_count = rest_count - 1;
    enum mensur_status status = find_command(words->rest[0], messages, words);
    if (status == MENSUR_OK && words->flag[OPTION_ID_help]) {
        words->help = MENSUR_HELP_COMMAND;
        return MENSUR_OK;
    }
    return status == MENSUR_OK ? check_together(words, messages) : status;
}

enum mensur_status ask_words_read(const char *const *list, size_t count,
                                  struct mensur_texts *messages, struct words *words) {
    size_t rest_count = 0;
    *words = (struct words){.rest = calloc(count + 1, sizeof *words->rest),
                            .listed = calloc(count + 1, sizeof *words->listed)};
    enum mensur_status status = words->rest == NULL || words->listed == NULL
                                    ? MENSUR_MEMORY
                                    : sort_words(list, count, &rest_count, messages, words);
    if (status == MENSUR_OK) {
        status = read_sorted(read_help(rest_count, words), messages, words);
    }
    if (status != MENSUR_OK) {
        ask_words_clear(words);
    }
    return status;
}

void ask_words_clear(struct words *words) {
    free(words->rest);
    free(words->listed);
    *words = (struct words){.rest = NULL};
}
