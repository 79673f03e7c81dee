/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "asked.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "figures.h"
#include "measure.h"
#include "number.h"

/* How many sets stand beside the best where nothing else is asked. */
enum { USUAL_RUNNERS_UP = 3 };

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
                                           [MENSUR_FORMAT_HTML] = "html",
                                           NULL};
static const char *const force_words[] = {
    [MENSUR_FORCE_N] = "N", [MENSUR_FORCE_KGF] = "kgf", [MENSUR_FORCE_LBF] = "lbf", NULL};
static const char *const paper_words[] = {
    [MENSUR_SHEET_A4] = "a4", [MENSUR_SHEET_LETTER] = "letter", NULL};
static const char *const feel_words[] = {"tension", "impedance", NULL};

static enum mensur_status say_wrong(enum option option, const char *wanted, const char *text,
                                    struct mensur_texts *messages) {
    return SAY(messages, "--%s takes %s, not \"%s\"", mensur_option_at(option)->name, wanted, text);
}

/* One of a few words; left as it is where the option is not given. */
static enum mensur_status read_word(const struct words *words, enum option option,
                                    const char *const *choices, struct mensur_texts *messages,
                                    unsigned *value) {
    const char *text = words->text[option];
    if (text == NULL) {
        return MENSUR_OK;
    }
    for (unsigned i = 0; choices[i] != NULL; i++) {
        if (strcmp(choices[i], text) == 0) {
            *value = i;
            return MENSUR_OK;
        }
    }
    return say_wrong(option, mensur_option_at(option)->value, text, messages);
}

/* A quantity of that kind in SI, finite and above 0, or only not under it; left as it is where the
 * option is not given. */
static enum mensur_status read_number(const struct words *words, enum option option,
                                      enum mensur_kind kind, const char *wanted,
                                      struct mensur_texts *messages, double *value) {
    static const char above[] = "a number above 0";
    const char *text = words->text[option];
    struct mensur_quantity quantity;
    if (text == NULL) {
        return MENSUR_OK;
    }
    if (mensur_quantity_read(text, strlen(text), kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value >= 0.0) ||
        (wanted == NULL && (!(quantity.value > 0.0) || !isfinite(quantity.value)))) {
        return say_wrong(option, wanted == NULL ? above : wanted, text, messages);
    }
    *value = quantity.value;
    return MENSUR_OK;
}

static bool ends_with(const char *text, const char *end) {
    size_t length = strlen(text);
    return length >= strlen(end) && strcmp(text + length - strlen(end), end) == 0;
}

/* The output's ending says what is written, where --format does not. */
void asked_output(const struct words *words, struct mensur_question *question) {
    static const struct {
        const char *end;
        enum mensur_medium medium;
    } endings[] = {
        {".svg", MENSUR_MEDIUM_SVG}, {".pdf", MENSUR_MEDIUM_PDF}, {".png", MENSUR_MEDIUM_PNG}};
    const char *path = words->text[OPTION_ID_output];
    question->output = path;
    question->overwrite = words->flag[OPTION_ID_overwrite];
    for (size_t i = 0; path != NULL && i < sizeof endings / sizeof endings[0]; i++) {
        if (words->text[OPTION_ID_format] == NULL && ends_with(path, endings[i].end)) {
            question->medium = endings[i].medium;
        }
    }
}

/* A file that is called ".csv" has no ending. */
static unsigned format_of_file(const char *path) {
    if (path == NULL || path[0] == '\0') {
        return MENSUR_FORMAT_TEXT;
    }
    return ends_with(path + 1, ".csv")    ? MENSUR_FORMAT_CSV
           : ends_with(path + 1, ".json") ? MENSUR_FORMAT_JSON
                                          : MENSUR_FORMAT_TEXT;
}

static enum mensur_status read_style(const struct words *words, struct mensur_texts *messages,
                                     struct mensur_question *question) {
    unsigned format = format_of_file(words->text[OPTION_ID_output]);
    unsigned force = MENSUR_FORCE_N;
    enum mensur_status status = read_word(words, OPTION_ID_format, format_words, messages, &format);
    if (status == MENSUR_OK) {
        status = read_word(words, OPTION_ID_force_unit, force_words, messages, &force);
    }
    bool text = format == MENSUR_FORMAT_TEXT || format == MENSUR_FORMAT_HTML;
    question->style = (struct mensur_style){.format = (enum mensur_format)format,
                                            .inches = words->flag[OPTION_ID_inches],
                                            .force_unit = (enum mensur_force_unit)force,
                                            .no_sources = !words->flag[OPTION_ID_working],
                                            .feel = words->flag[OPTION_ID_feel],
                                            .true_places = words->flag[OPTION_ID_true_places]};
    question->working = words->flag[OPTION_ID_working] && format != MENSUR_FORMAT_CSV;
    /* JSON and CSV are in mm and N, and so are their sentences. */
    question->terms.inches = question->style.inches && text;
    return status;
}

enum mensur_status asked_terms(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question) {
    struct mensur_terms *terms = &question->terms;
    unsigned fifths = MENSUR_FIFTHS_PURE;
    unsigned steps = MENSUR_STEPS_EQUAL;
    unsigned hold = MENSUR_HOLD_PROJECTION;
    mensur_terms_init(terms);
    const struct {
        enum option option;
        const char *const *choices;
        unsigned *value;
    } choices[] = {{OPTION_ID_fifths, fifths_words, &fifths},
                   {OPTION_ID_steps, steps_words, &steps},
                   {OPTION_ID_hold, hold_words, &hold}};
    const struct {
        enum option option;
        enum mensur_kind kind;
        double *value;
    } numbers[] = {{OPTION_ID_a4, MENSUR_FREQUENCY, &terms->a4},
                   {OPTION_ID_bow_speed, MENSUR_NUMBER, &terms->bow_speed},
                   {OPTION_ID_bow_distance, MENSUR_LENGTH, &terms->bow_distance},
                   {OPTION_ID_friction, MENSUR_NUMBER, &terms->friction},
                   {OPTION_ID_bridge_resistance, MENSUR_NUMBER, &terms->resistance}};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < sizeof choices / sizeof choices[0] && status == MENSUR_OK; i++) {
        status =
            read_word(words, choices[i].option, choices[i].choices, messages, choices[i].value);
    }
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0] && status == MENSUR_OK; i++) {
        status = read_number(words, numbers[i].option, numbers[i].kind, NULL, messages,
                             numbers[i].value);
    }
    terms->fifths = (enum mensur_fifths)fifths;
    terms->steps = (enum mensur_steps)steps;
    terms->hold = (enum mensur_hold)hold;
    question->fifths = fifths_words[fifths];
    question->steps = steps_words[steps];
    return status == MENSUR_OK ? read_style(words, messages, question) : status;
}

static enum mensur_status say_unknown_field(const char *word, struct mensur_texts *messages) {
    const char *names[MENSUR_FIELD_COUNT + 2];
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        names[f] = mensur_field_info((enum mensur_field)f)->name;
    }
    names[MENSUR_FIELD_COUNT] = "strings";
    names[MENSUR_FIELD_COUNT + 1] = "tuning";
    const char *nearest = ask_nearest_name(word, names, MENSUR_FIELD_COUNT + 2, sizeof names[0], 2);
    if (nearest != NULL) {
        return SAY(messages, "there is no measurement \"%s\"; did you mean %s?", word, nearest);
    }
    char *there = ask_names_joined(names, MENSUR_FIELD_COUNT + 2, "");
    enum mensur_status status =
        there == NULL ? MENSUR_MEMORY
                      : SAY(messages, "there is no measurement \"%s\"; there are: %s", word, there);
    free(there);
    return status;
}

/* FIELD=VALUE, in which the value says "by so much" where it has a sign. */
static enum mensur_status read_change_of(const char *text, struct mensur_texts *messages,
                                         struct mensur_change *change) {
    enum { NAME_SHOWN = 60 };
    const char *equals = strchr(text, '=');
    char name[NAME_SHOWN + 1] = "";
    struct mensur_fault fault = {""};
    *change = (struct mensur_change){.relative = false};
    if (equals == NULL || equals[1] == '\0') {
        return SAY(messages,
                   "\"%s\" is no change; write FIELD=VALUE, for example neck=152 or stop=-3", text);
    }
    size_t length = (size_t)(equals - text);
    memcpy(name, text, length < NAME_SHOWN ? length : NAME_SHOWN);
    if (strcmp(name, "strings") == 0) {
        change->set = equals + 1;
        return MENSUR_OK;
    }
    if (strcmp(name, "tuning") == 0) {
        change->tuning = equals + 1;
        return MENSUR_OK;
    }
    if (mensur_field_find(name, &change->field) != MENSUR_OK) {
        return say_unknown_field(name, messages);
    }
    change->relative = equals[1] == '+' || equals[1] == '-';
    return mensur_read_measure(change->field, equals + 1, change->relative, &fault,
                               &change->value) == MENSUR_OK
               ? MENSUR_OK
               : SAY(messages, "%s", fault.text);
}

/* change and restring are of one instrument: what follows its name are changes of it. Elsewhere a
 * name may hold `=`, but not right behind a single word. */
static bool is_change(const struct words *words, size_t i) {
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_";
    bool of_one = words->command == COMMAND_CHANGE || words->command == COMMAND_RESTRING;
    size_t length = strspn(words->names[i], letters);
    return i > 0 && (of_one || (length > 0 && words->names[i][length] == '='));
}

enum mensur_status asked_names(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question) {
    size_t change_count = 0;
    enum mensur_status status = MENSUR_OK;
    question->named = calloc(words->name_count + 1, sizeof *question->named);
    question->changes =
        calloc(words->name_count + words->listed_count + 1, sizeof *question->changes);
    if (question->named == NULL || question->changes == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < words->name_count && status == MENSUR_OK; i++) {
        struct mensur_change *change = &question->changes[change_count];
        if (is_change(words, i)) {
            status = read_change_of(words->names[i], messages, change);
            question->named[question->named_count - 1].change_count++;
            change_count++;
        } else {
            question->named[question->named_count++] =
                (struct mensur_named){.name = words->names[i], .changes = change};
        }
    }
    question->like = (struct mensur_named){.name = words->text[OPTION_ID_like],
                                           .changes = &question->changes[change_count]};
    for (size_t i = 0; i < words->listed_count && status == MENSUR_OK; i++) {
        if (words->listed[i].option == OPTION_ID_like_with) {
            status =
                read_change_of(words->listed[i].text, messages, &question->changes[change_count++]);
            question->like.change_count++;
        }
    }
    if (status == MENSUR_OK && question->like.change_count > 0 && question->like.name == NULL) {
        status = SAY(messages, "--like-with changes the instrument of --like NAME");
    }
    return status;
}

static enum mensur_status add_wish(enum option option, enum mensur_wish_kind kind, const char *text,
                                   struct mensur_texts *messages,
                                   struct mensur_question *question) {
    struct mensur_fault fault = {""};
    if (question->wish_count == MENSUR_QUESTION_WISHES) {
        return SAY(messages, "more than %d wishes", MENSUR_QUESTION_WISHES);
    }
    if (mensur_wish_read(kind, text, &fault, &question->wishes[question->wish_count]) !=
        MENSUR_OK) {
        return SAY(messages, "--%s: %s", mensur_option_at(option)->name, fault.text);
    }
    question->wish_count++;
    return MENSUR_OK;
}

/* The option that asks for a kind of wish. */
static enum option option_of(enum mensur_wish_kind kind) {
    enum option option = 0;
    while (strcmp(mensur_option_at(option)->name, mensur_wish_info(kind)->option) != 0) {
        option++;
    }
    return option;
}

enum mensur_status asked_wishes(const struct words *words, struct mensur_texts *messages,
                                struct mensur_question *question) {
    enum mensur_status status = MENSUR_OK;
    for (enum mensur_wish_kind kind = 0; kind < MENSUR_WISH_COUNT && status == MENSUR_OK; kind++) {
        enum option option = option_of(kind);
        const char *text = words->text[option];
        if (text != NULL && mensur_option_at(option)->type == MENSUR_OPTION_TEXT) {
            status = add_wish(option, kind, text, messages, question);
        }
    }
    for (size_t i = 0; i < words->listed_count && status == MENSUR_OK; i++) {
        if (words->listed[i].option == OPTION_ID_tension) {
            status = add_wish(OPTION_ID_tension, MENSUR_WISH_TENSION, words->listed[i].text,
                              messages, question);
        }
    }
    return status;
}

/* Tensions stay in the list of wishes; the limit on the belly, the one other wish, leaves it. */
static enum mensur_status read_ranges(const struct words *words, struct mensur_texts *messages,
                                      struct mensur_question *question) {
    size_t tensions = 0;
    enum mensur_status status = asked_wishes(words, messages, question);
    for (size_t i = 0; status == MENSUR_OK && i < question->wish_count; i++) {
        const struct mensur_wish *wish = &question->wishes[i];
        if (wish->kind == MENSUR_WISH_TENSION) {
            question->wishes[tensions++] = *wish;
        } else if (!isnan(wish->low)) {
            status = say_wrong(OPTION_ID_belly_force, "a limit here, such as ..90",
                               words->text[OPTION_ID_belly_force], messages);
        } else {
            question->restring.most_belly_force = wish->high;
        }
    }
    question->wish_count = tensions;
    return status;
}

static enum mensur_status read_runners_up(const struct words *words, struct mensur_texts *messages,
                                          size_t *count) {
    static const char wanted[] = "a whole number from 0 to 16";
    double number = USUAL_RUNNERS_UP;
    enum mensur_status status =
        read_number(words, OPTION_ID_runners_up, MENSUR_NUMBER, wanted, messages, &number);
    if (status == MENSUR_OK && (number > MENSUR_RUNNERS_UP_MAX || floor(number) < number)) {
        return say_wrong(OPTION_ID_runners_up, wanted, words->text[OPTION_ID_runners_up], messages);
    }
    *count = (size_t)number;
    return status;
}

static enum mensur_status read_feel_by(const struct words *words, struct mensur_texts *messages,
                                       bool *impedance) {
    unsigned choice = 0;
    if (words->text[OPTION_ID_feel_by] != NULL && words->text[OPTION_ID_like] == NULL) {
        return SAY(messages, "--feel-by says what feels alike with --like NAME");
    }
    enum mensur_status status = read_word(words, OPTION_ID_feel_by, feel_words, messages, &choice);
    *impedance = choice == 1;
    return status;
}

static enum mensur_status read_packets(const struct words *words, struct mensur_texts *messages,
                                       struct mensur_question *question) {
    struct mensur_fault fault = {""};
    size_t count = 0;
    question->packets = calloc(words->listed_count + 1, sizeof *question->packets);
    if (question->packets == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < words->listed_count; i++) {
        if (words->listed[i].option != OPTION_ID_packet) {
            continue;
        }
        if (mensur_packet_read(words->listed[i].text, &fault, &question->packets[count++]) !=
            MENSUR_OK) {
            return SAY(messages, "--packet: %s", fault.text);
        }
    }
    question->restring.packets = question->packets;
    question->restring.packet_count = count;
    return MENSUR_OK;
}

enum mensur_status asked_strings(const struct words *words, struct mensur_texts *messages,
                                 struct mensur_question *question) {
    struct mensur_restring_wishes *restring = &question->restring;
    *restring = (struct mensur_restring_wishes){.least_margin = NAN,
                                                .most_belly_force = NAN,
                                                .from = words->text[OPTION_ID_from],
                                                .any_length = words->flag[OPTION_ID_any_length]};
    enum mensur_status status = read_ranges(words, messages, question);
    if (status == MENSUR_OK) {
        status = read_number(words, OPTION_ID_margin, MENSUR_SEMITONES,
                             "a number of semitones, 0 or more", messages, &restring->least_margin);
    }
    if (status == MENSUR_OK) {
        status = read_feel_by(words, messages, &restring->same_impedance);
    }
    if (status == MENSUR_OK) {
        status = read_runners_up(words, messages, &restring->runners_up);
    }
    return status == MENSUR_OK ? read_packets(words, messages, question) : status;
}

enum mensur_status asked_paper(const struct words *words, struct mensur_texts *messages,
                               struct mensur_question *question) {
    unsigned paper = MENSUR_SHEET_A4;
    enum mensur_status status = read_word(words, OPTION_ID_paper, paper_words, messages, &paper);
    question->paper =
        question->medium == MENSUR_MEDIUM_SVG ? MENSUR_SHEET_STRIP : (enum mensur_sheet_paper)paper;
    return status;
}
