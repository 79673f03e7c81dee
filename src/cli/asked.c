/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "asked.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "number.h"
#include "shop.h"

static const char *const fifths_words[] = {
    [MENSUR_FIFTHS_PURE] = "pure", [MENSUR_FIFTHS_EQUAL] = "equal", NULL};
static const char *const steps_words[] = {[MENSUR_STEPS_EQUAL] = "equal",
                                          [MENSUR_STEPS_PYTHAGOREAN] = "pythagorean",
                                          [MENSUR_STEPS_JUST] = "just",
                                          NULL};
static const char *const hold_words[] = {
    [MENSUR_HOLD_PROJECTION] = "projection", [MENSUR_HOLD_SLOPE] = "slope", NULL};
static const char *const format_words[] = {[MENSUR_FORMAT_TEXT] = "text",
                                           [MENSUR_FORMAT_CSV] = "csv",
                                           [MENSUR_FORMAT_JSON] = "json",
                                           NULL};
static const char *const force_words[] = {
    [MENSUR_FORCE_N] = "N", [MENSUR_FORCE_KGF] = "kgf", [MENSUR_FORCE_LBF] = "lbf", NULL};

/* One of a few words; left as it is where the option is not given. */
static enum mensur_status read_word(const struct options *options, enum option option,
                                    const char *const *words, unsigned *value) {
    const char *text = options->text[option];
    if (text == NULL) {
        return MENSUR_OK;
    }
    for (unsigned i = 0; words[i] != NULL; i++) {
        if (strcmp(words[i], text) == 0) {
            *value = i;
            return MENSUR_OK;
        }
    }
    fprintf(stderr, "mensur: --%s takes %s, not \"%s\"\n", option_info(option)->name,
            option_info(option)->value, text);
    return MENSUR_USE;
}

/* A positive quantity in SI; left as it is where the option is not given. */
static enum mensur_status read_positive(const struct options *options, enum option option,
                                        enum mensur_kind kind, double *value) {
    const char *text = options->text[option];
    struct mensur_quantity quantity;
    if (text == NULL) {
        return MENSUR_OK;
    }
    if (mensur_quantity_read(text, strlen(text), kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value > 0.0) || !isfinite(quantity.value)) {
        fprintf(stderr, "mensur: --%s takes a number above 0, not \"%s\"\n",
                option_info(option)->name, text);
        return MENSUR_USE;
    }
    *value = quantity.value;
    return MENSUR_OK;
}

static enum mensur_status read_playing(const struct options *options, struct mensur_terms *terms) {
    enum mensur_status status =
        read_positive(options, OPTION_ID_bow_speed, MENSUR_NUMBER, &terms->bow_speed);
    if (status == MENSUR_OK) {
        status =
            read_positive(options, OPTION_ID_bow_distance, MENSUR_LENGTH, &terms->bow_distance);
    }
    if (status == MENSUR_OK) {
        status = read_positive(options, OPTION_ID_friction, MENSUR_NUMBER, &terms->friction);
    }
    return status == MENSUR_OK ? read_positive(options, OPTION_ID_bridge_resistance, MENSUR_NUMBER,
                                               &terms->resistance)
                               : status;
}

enum mensur_status asked_terms(const struct options *options, struct mensur_terms *terms) {
    unsigned fifths = MENSUR_FIFTHS_PURE;
    unsigned steps = MENSUR_STEPS_EQUAL;
    unsigned hold = MENSUR_HOLD_PROJECTION;
    mensur_terms_init(terms);
    enum mensur_status status = read_word(options, OPTION_ID_fifths, fifths_words, &fifths);
    if (status == MENSUR_OK) {
        status = read_word(options, OPTION_ID_steps, steps_words, &steps);
    }
    if (status == MENSUR_OK) {
        status = read_word(options, OPTION_ID_hold, hold_words, &hold);
    }
    if (status == MENSUR_OK) {
        status = read_positive(options, OPTION_ID_a4, MENSUR_FREQUENCY, &terms->a4);
    }
    terms->fifths = (enum mensur_fifths)fifths;
    terms->steps = (enum mensur_steps)steps;
    terms->hold = (enum mensur_hold)hold;
    return status == MENSUR_OK ? read_playing(options, terms) : status;
}

static bool ends_with(const char *text, const char *end) {
    size_t length = text == NULL ? 0 : strlen(text);
    return length > strlen(end) && strcmp(text + length - strlen(end), end) == 0;
}

/* A file's ending says how it is to be written, where --format does not. */
static unsigned format_of_file(const char *path) {
    if (ends_with(path, ".csv")) {
        return MENSUR_FORMAT_CSV;
    }
    return ends_with(path, ".json") ? MENSUR_FORMAT_JSON : MENSUR_FORMAT_TEXT;
}

enum mensur_status asked_style(const struct options *options, struct mensur_style *style) {
    unsigned format = format_of_file(options->text[OPTION_ID_output]);
    unsigned force = MENSUR_FORCE_N;
    enum mensur_status status = read_word(options, OPTION_ID_format, format_words, &format);
    if (status == MENSUR_OK) {
        status = read_word(options, OPTION_ID_force_unit, force_words, &force);
    }
    *style = (struct mensur_style){.format = (enum mensur_format)format,
                                   .inches = options->flag[OPTION_ID_inches],
                                   .force_unit = (enum mensur_force_unit)force,
                                   .no_sources = !options->flag[OPTION_ID_working],
                                   .feel = options->flag[OPTION_ID_feel],
                                   .true_places = options->flag[OPTION_ID_true_places]};
    return status;
}

static const struct {
    enum option option;
    enum mensur_wish_kind kind;
} wish_options[] = {{OPTION_ID_string_length, MENSUR_WISH_STRING_LENGTH},
                    {OPTION_ID_ratio, MENSUR_WISH_RATIO},
                    {OPTION_ID_body_note, MENSUR_WISH_BODY_NOTE},
                    {OPTION_ID_left_reach, MENSUR_WISH_LEFT_REACH},
                    {OPTION_ID_total_tension, MENSUR_WISH_TOTAL_TENSION},
                    {OPTION_ID_belly_force, MENSUR_WISH_BELLY_FORCE}};

static enum mensur_status add_wish(enum option option, enum mensur_wish_kind kind, const char *text,
                                   struct mensur_wish *wishes, size_t room, size_t *count) {
    struct mensur_fault fault = {""};
    if (*count == room) {
        fprintf(stderr, "mensur: more than %d wishes\n", (int)room);
        return MENSUR_USE;
    }
    if (mensur_wish_read(kind, text, &fault, &wishes[*count]) != MENSUR_OK) {
        fprintf(stderr, "mensur: --%s: %s\n", option_info(option)->name, fault.text);
        return MENSUR_USE;
    }
    (*count)++;
    return MENSUR_OK;
}

enum mensur_status asked_wishes(const struct options *options, struct mensur_wish *wishes,
                                size_t room, size_t *count) {
    enum mensur_status status = MENSUR_OK;
    *count = 0;
    for (size_t i = 0; i < sizeof wish_options / sizeof wish_options[0]; i++) {
        const char *text = options->text[wish_options[i].option];
        if (text != NULL && status == MENSUR_OK) {
            status =
                add_wish(wish_options[i].option, wish_options[i].kind, text, wishes, room, count);
        }
    }
    char **tensions = options->list[OPTION_ID_tension];
    for (; tensions != NULL && *tensions != NULL && status == MENSUR_OK; tensions++) {
        status = add_wish(OPTION_ID_tension, MENSUR_WISH_TENSION, *tensions, wishes, room, count);
    }
    return status;
}

static enum mensur_status say_unknown_field(const char *text, size_t length) {
    const char *names[MENSUR_FIELD_COUNT + 2];
    char word[64];
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        names[f] = mensur_field_info((enum mensur_field)f)->name;
    }
    names[MENSUR_FIELD_COUNT] = "strings";
    names[MENSUR_FIELD_COUNT + 1] = "tuning";
    snprintf(word, sizeof word, "%.*s", (int)(length < 60 ? length : 60), text);
    const char *nearest = nearest_word(word, names, MENSUR_FIELD_COUNT + 2);
    fprintf(stderr, "mensur: there is no measurement \"%s\"", word);
    if (nearest != NULL) {
        fprintf(stderr, "; did you mean %s?\n", nearest);
        return MENSUR_USE;
    }
    fprintf(stderr, "; there are: ");
    for (size_t i = 0; i < MENSUR_FIELD_COUNT + 2; i++) {
        fprintf(stderr, "%s%s", i == 0 ? "" : ", ", names[i]);
    }
    fprintf(stderr, "\n");
    return MENSUR_USE;
}

static enum mensur_status change_measure(const char *text, size_t length,
                                         struct mensur_change *change) {
    struct mensur_fault fault = {""};
    char name[64] = "";
    if (length < sizeof name) {
        memcpy(name, text, length);
        name[length] = '\0';
    }
    if (mensur_field_find(name, &change->field) != MENSUR_OK) {
        return say_unknown_field(text, length);
    }
    const char *value = text + length + 1;
    change->relative = value[0] == '+' || value[0] == '-';
    if (mensur_read_measure(change->field, value, change->relative, &fault, &change->value) !=
        MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", fault.text);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

enum mensur_status asked_change(const char *text, struct mensur_change *change) {
    const char *equals = strchr(text, '=');
    *change = (struct mensur_change){.relative = false};
    if (equals == NULL || equals[1] == '\0') {
        fprintf(stderr,
                "mensur: \"%s\" is no change; write FIELD=VALUE, for example neck=152 or stop=-3\n",
                text);
        return MENSUR_USE;
    }
    if (strncmp(text, "strings=", 8) == 0) {
        change->set = equals + 1;
        return MENSUR_OK;
    }
    if (strncmp(text, "tuning=", 7) == 0) {
        change->tuning = equals + 1;
        return MENSUR_OK;
    }
    return change_measure(text, (size_t)(equals - text), change);
}

void asked_heading(const struct options *options, const struct mensur_terms *terms,
                   const char *shop, struct mensur_heading *heading) {
    const char *command = command_info(options->command)->name;
    *heading = (struct mensur_heading){.command = command,
                                       .shop = shop,
                                       .a4 = terms->a4,
                                       .fifths = fifths_words[terms->fifths],
                                       .steps = steps_words[terms->steps],
                                       .cautions = mensur_cautions(command),
                                       .sources = mensur_sources(command)};
}
