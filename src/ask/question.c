/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question, read whole from its words. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "figures.h"
#include "measure.h"
#include "number.h"
#include "sheet.h"
#include "shown.h"
#include "ways.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by the question that a reading points to. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* How many sets stand beside the best where nothing else is asked. */
enum { USUAL_RUNNERS_UP = 3 };

static bool is_good(const struct reading *reading) {
    return reading->status == MENSUR_OK;
}

/* Says what is wrong, unless something was wrong before. */
#define REFUSE(reading, ...)                                                                       \
    ((reading)->status =                                                                           \
         is_good(reading) ? SAY((reading)->messages, __VA_ARGS__) : (reading)->status)

static void refuse_value(struct reading *reading, enum option option, const char *wanted) {
    REFUSE(reading, "--%s takes %s, not \"%s\"", mensur_option_at(option)->name, wanted,
           reading->words->text[option]);
}

/* The place of the option's word among those of its table, "a|b|c"; `usual` where it is not given.
 * The enums of the choices have the table's order. */
static unsigned read_choice(struct reading *reading, enum option option, unsigned usual) {
    const char *text = reading->words->text[option];
    if (text == NULL) {
        return usual;
    }
    const char *choices = mensur_option_at(option)->value;
    unsigned place = 0;
    for (const char *choice = choices; *choice != '\0'; place++) {
        size_t length = strcspn(choice, "|");
        /* kgf and lbf are the exact names of the forces kg and lb */
        bool exact = option == OPTION_ID_force_unit && length == strlen("kg") &&
                     strlen(text) == strlen("kgf") && text[length] == 'f';
        if ((length == strlen(text) || exact) && strncmp(choice, text, length) == 0) {
            return place;
        }
        choice += length + (choice[length] == '|');
    }
    refuse_value(reading, option, choices);
    return usual;
}

/* A quantity of that kind in SI, finite and above 0, or, where `wanted` says what else it may be,
 * only not under it; left as it is where the option is not given. */
static void read_number(struct reading *reading, enum option option, enum mensur_kind kind,
                        const char *wanted, double *value) {
    const char *text = reading->words->text[option];
    struct mensur_quantity quantity;
    if (text == NULL) {
        return;
    }
    if (mensur_quantity_read(text, strlen(text), kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value >= 0.0) ||
        (wanted == NULL && (!(quantity.value > 0.0) || !isfinite(quantity.value)))) {
        refuse_value(reading, option, wanted == NULL ? "a number above 0" : wanted);
        return;
    }
    *value = quantity.value;
}

static void read_a4(struct reading *reading, double *a4) {
    static const char wanted[] = "1 to 20000 Hz";
    double read = *a4;
    read_number(reading, OPTION_ID_a4, MENSUR_FREQUENCY, wanted, &read);
    if (is_good(reading) && !(read >= MENSUR_A4_LEAST && read <= MENSUR_A4_MOST)) {
        refuse_value(reading, OPTION_ID_a4, wanted);
    }
    *a4 = read;
}

static bool ends_with(const char *text, const char *end) {
    size_t length = text == NULL ? 0 : strlen(text);
    return length >= strlen(end) && strcmp(text + length - strlen(end), end) == 0;
}

/* The output's ending says what is written, where --format does not. */
void ask_read_output(struct reading *reading) {
    static const struct {
        const char *end;
        enum mensur_medium medium;
    } endings[] = {
        {".svg", MENSUR_MEDIUM_SVG}, {".pdf", MENSUR_MEDIUM_PDF}, {".png", MENSUR_MEDIUM_PNG}};
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    if (words->text[OPTION_ID_shop] != NULL && words->text[OPTION_ID_shop][0] == '\0') {
        refuse_value(reading, OPTION_ID_shop, "a folder");
    }
    question->output = words->text[OPTION_ID_output];
    question->overwrite = words->flag[OPTION_ID_overwrite];
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        if (words->text[OPTION_ID_format] == NULL && ends_with(question->output, endings[i].end)) {
            question->medium = endings[i].medium;
        }
    }
}

/* A file that is called ".csv" has no ending. A dossier is a page of its own kind. */
static unsigned format_of_file(const struct mensur_question *question) {
    const char *path = question->output;
    const char *rest = path == NULL || path[0] == '\0' ? NULL : path + 1;
    bool page = question->medium == MENSUR_MEDIUM_WORDS && ends_with(rest, ".html");
    return ends_with(rest, ".csv")    ? MENSUR_FORMAT_CSV
           : ends_with(rest, ".json") ? MENSUR_FORMAT_JSON
           : page                     ? MENSUR_FORMAT_HTML
                                      : MENSUR_FORMAT_TEXT;
}

/* Who says how it is bowed asks what that feels like. */
static bool feels(const struct words *words) {
    return words->flag[OPTION_ID_feel] || words->text[OPTION_ID_bow_speed] != NULL ||
           words->text[OPTION_ID_bow_distance] != NULL || words->text[OPTION_ID_friction] != NULL ||
           words->text[OPTION_ID_bridge_resistance] != NULL;
}

/* The terms on which it is asked, and how the answer is to look. */
static void read_terms(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    struct mensur_terms *terms = &question->terms;
    const char *fifths = words->text[OPTION_ID_fifths], *steps = words->text[OPTION_ID_steps];
    const struct {
        enum option option;
        enum mensur_kind kind;
        double *value;
    } numbers[] = {{OPTION_ID_bow_speed, MENSUR_NUMBER, &terms->bow_speed},
                   {OPTION_ID_bow_distance, MENSUR_LENGTH, &terms->bow_distance},
                   {OPTION_ID_friction, MENSUR_NUMBER, &terms->friction},
                   {OPTION_ID_bridge_resistance, MENSUR_NUMBER, &terms->resistance}};
    mensur_terms_init(terms);
    terms->fifths = read_choice(reading, OPTION_ID_fifths, MENSUR_FIFTHS_PURE);
    terms->steps = read_choice(reading, OPTION_ID_steps, MENSUR_STEPS_EQUAL);
    terms->hold = read_choice(reading, OPTION_ID_hold, MENSUR_HOLD_UNASKED);
    read_a4(reading, &terms->a4);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        read_number(reading, numbers[i].option, numbers[i].kind, NULL, numbers[i].value);
    }
    question->fifths = fifths == NULL ? "pure" : fifths;
    question->steps = steps == NULL ? "equal" : steps;
    unsigned format = read_choice(reading, OPTION_ID_format, format_of_file(question));
    question->style = (struct mensur_style){
        .format = format,
        .whole_page = format == MENSUR_FORMAT_HTML && words->text[OPTION_ID_format] == NULL,
        .inches = words->flag[OPTION_ID_inches],
        .force_unit =
            read_choice(reading, OPTION_ID_force_unit,
                        words->flag[OPTION_ID_inches] ? MENSUR_FORCE_LB : MENSUR_FORCE_KG),
        .full = words->flag[OPTION_ID_full],
        .no_sources = !words->flag[OPTION_ID_working] && !words->flag[OPTION_ID_full],
        .feel = feels(words),
        .true_places = words->flag[OPTION_ID_true_places]};
    question->working = words->flag[OPTION_ID_working] && format != MENSUR_FORMAT_CSV;
    /* JSON and CSV are in mm and N, and so are their sentences. */
    terms->inches = question->style.inches && mensur_style_is_prose(&question->style);
}

/* What may be changed besides the measurements. */
static const struct {
    const char *name;
    enum mensur_change_of of;
} others[] = {{"strings", MENSUR_CHANGE_STRINGS}, {"tuning", MENSUR_CHANGE_TUNING},
              {"family", MENSUR_CHANGE_FAMILY},   {"size", MENSUR_CHANGE_SIZE},
              {"built", MENSUR_CHANGE_BUILT},     {"a4", MENSUR_CHANGE_A4}};
enum { OTHERS = sizeof others / sizeof others[0] };

static void refuse_field(struct reading *reading, const char *word) {
    const char *names[MENSUR_FIELD_COUNT + OTHERS];
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        names[f] = mensur_field_info((enum mensur_field)f)->name;
    }
    for (size_t i = 0; i < OTHERS; i++) {
        names[MENSUR_FIELD_COUNT + i] = others[i].name;
    }
    size_t count = sizeof names / sizeof names[0];
    const char *nearest = ask_nearest_name(word, names, count, sizeof names[0], 2);
    if (nearest != NULL) {
        REFUSE(reading, "there is no measurement \"%s\"; did you mean %s?", word, nearest);
        return;
    }
    char *there = ask_names_joined(names, count, "");
    if (there == NULL) {
        reading->status = MENSUR_MEMORY;
    } else {
        REFUSE(reading, "there is no measurement \"%s\"; there are: %s", word, there);
    }
    free(there);
}

/* Reads what a word in front of `=` says is changed; `length` is short for string_length. */
static void read_field(struct reading *reading, const char *name, struct mensur_change *change) {
    for (size_t i = 0; i < OTHERS; i++) {
        if (strcmp(name, others[i].name) == 0) {
            change->of = others[i].of;
            return;
        }
    }
    if (strcmp(name, "length") == 0) {
        change->field = MENSUR_FIELD_STRING_LENGTH;
    } else if (mensur_field_find(name, &change->field) != MENSUR_OK) {
        refuse_field(reading, name);
    }
}

static void read_pitch(struct reading *reading, const char *value, struct mensur_quantity *out) {
    if (mensur_quantity_read(value, strlen(value), MENSUR_FREQUENCY, false, out) != MENSUR_OK ||
        !(out->value >= MENSUR_A4_LEAST && out->value <= MENSUR_A4_MOST)) {
        REFUSE(reading, "a4: \"%s\" is no pitch from 1 to 20000 Hz, for example a4=415", value);
    }
}

/* The value, which says "by so much" where it is a measurement with a sign. */
static void read_value(struct reading *reading, const char *value, struct mensur_change *change) {
    struct mensur_fault fault = {""};
    switch (change->of) {
    case MENSUR_CHANGE_MEASURE:
        change->relative = *value == '+' || *value == '-';
        if (is_good(reading) && mensur_read_measure(change->field, value, change->relative, &fault,
                                                    &change->value) != MENSUR_OK) {
            REFUSE(reading, "%s", fault.text);
        }
        break;
    case MENSUR_CHANGE_BUILT:
        if (!mensur_built_read(value, &change->built)) {
            REFUSE(reading, "built: \"%s\" is neither yes nor no", value);
        }
        break;
    case MENSUR_CHANGE_A4:
        read_pitch(reading, value, &change->value);
        break;
    default:
        break;
    }
}

/* FIELD=VALUE. */
static void read_change(struct reading *reading, const char *text, struct mensur_change *change) {
    enum { NAME_SHOWN = 60 };
    const char *equals = strchr(text, '=');
    char name[NAME_SHOWN + 1] = "";
    *change = (struct mensur_change){.relative = false};
    if (equals == NULL || equals[1] == '\0') {
        REFUSE(reading, "\"%s\" is no change; write FIELD=VALUE, for example neck=152 or stop=-3",
               text);
        return;
    }
    const char *value = equals + 1;
    size_t length = (size_t)(equals - text);
    memcpy(name, text, length < NAME_SHOWN ? length : NAME_SHOWN);
    read_field(reading, name, change);
    change->text = value;
    read_value(reading, value, change);
}

/* Whether a word is FIELD=VALUE: `=` right behind a single word. A name may hold `=` elsewhere. */
static bool is_field_word(const char *word) {
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_0123456789";
    size_t length = strspn(word, letters);
    return length > 0 && word[length] == '=' && (*word < '0' || *word > '9');
}

/* Whether words that describe an instrument have one for the field of this one. */
static bool is_given(const struct mensur_named *named, const char *word) {
    size_t length = strcspn(word, "=") + 1;
    for (size_t i = 0; i < named->given_count; i++) {
        if (strncmp(named->given[i], word, length) == 0) {
            return true;
        }
    }
    return false;
}

/* Whether a word behind those that describe an instrument changes it: it has a sign; its pitch is
 * no measurement; and where a change is asked for, a tuning and a field that is given already. */
static bool changes_described(const struct reading *reading, const struct mensur_named *named,
                              const struct mensur_change *change, const char *word) {
    return change->relative || change->of == MENSUR_CHANGE_A4 ||
           (reading->words->command == COMMAND_CHANGE &&
            (change->of == MENSUR_CHANGE_TUNING || is_given(named, word)));
}

/* Where the names of a question are put. */
struct naming {
    struct mensur_change *change; /* the next one */
    const char **given;           /* the same */
};

/* A word FIELD=VALUE of an instrument: it describes it, or it changes it. */
static void take_field(struct reading *reading, const char *word, struct naming *naming,
                       struct mensur_named *named) {
    read_change(reading, word, naming->change);
    if (named->given != NULL && !changes_described(reading, named, naming->change, word)) {
        if (is_given(named, word)) {
            REFUSE(reading, "%.*s is given twice; leave one of them out", (int)strcspn(word, "="),
                   word);
        }
        *naming->given++ = word;
        named->given_count++;
    } else {
        naming->change++;
        named->change_count++;
    }
}

/* An instrument by its name, or by the first word that describes it. */
static struct mensur_named take_named(struct reading *reading, const char *word,
                                      const char *described, struct naming *naming) {
    struct mensur_named named = {.name = word, .changes = naming->change};
    if (word != NULL && is_field_word(word)) {
        named.name = described;
        named.given = naming->given;
        take_field(reading, word, naming, &named);
    }
    return named;
}

/* The ways in which a size is told, in front of `=`. */
static const struct {
    const char *word;
    enum mensur_scale_by by;
    enum mensur_kind kind;
} sizes[] = {{"body=", MENSUR_SCALE_TO_BODY, MENSUR_LENGTH},
             {"string_length=", MENSUR_SCALE_TO_STRING_LENGTH, MENSUR_LENGTH},
             {"length=", MENSUR_SCALE_TO_STRING_LENGTH, MENSUR_LENGTH},
             {"ratio=", MENSUR_SCALE_TO_RATIO, MENSUR_NUMBER}};

/* Takes a word that tells the size of the scaled model; false where it is none. Of an instrument
 * that is described, a body or a string that it does not have yet is its own. */
static bool take_size(struct reading *reading, const char *word, const struct mensur_named *named) {
    struct mensur_scaling *scaling = &reading->question->scaling;
    size_t i = 0;
    while (i < sizeof sizes / sizeof sizes[0] &&
           strncmp(word, sizes[i].word, strlen(sizes[i].word)) != 0) {
        i++;
    }
    bool length = i < sizeof sizes / sizeof sizes[0] && sizes[i].kind == MENSUR_LENGTH;
    const char *value = strchr(word, '=');
    if (reading->words->command != COMMAND_SCALE || value == NULL ||
        i == sizeof sizes / sizeof sizes[0] ||
        (length && named->given != NULL && !is_given(named, word))) {
        return false;
    }
    value++;
    struct mensur_quantity read = {.value = NAN};
    bool signed_by = length && (*value == '+' || *value == '-');
    if (scaling->by != MENSUR_SCALE_TO_NOTHING) {
        REFUSE(reading, "one size at a time; \"%s\" is one too many", word);
    } else if (mensur_quantity_read(value, strlen(value), sizes[i].kind, true, &read) !=
                   MENSUR_OK ||
               !isfinite(read.value) || (!signed_by && !(read.value > 0.0))) {
        REFUSE(reading, "\"%s\" is no size; write, for example, body=395 or ratio=0.96", word);
    }
    scaling->by = sizes[i].by;
    scaling->value = read.value;
    scaling->relative = signed_by;
    return true;
}

static void read_liked(struct reading *reading, struct naming *naming) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    question->like =
        take_named(reading, words->text[OPTION_ID_like], "the liked instrument", naming);
    for (size_t i = 0; i < words->listed_count; i++) {
        if (words->listed[i].option == OPTION_ID_like_with) {
            take_field(reading, words->listed[i].text, naming, &question->like);
        }
    }
    if (question->like.change_count > 0 && question->like.name == NULL) {
        REFUSE(reading, "--like-with changes the instrument of --like NAME");
    }
}

/* The instruments named or described, each with the changes that stand behind it, and the liked
 * one. change and restring are of one: there what follows it are changes of it. */
static void read_names(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    bool of_one = words->command == COMMAND_CHANGE || words->command == COMMAND_RESTRING ||
                  words->command == COMMAND_SCALE;
    size_t most = words->name_count + words->listed_count + 1;
    if (!is_good(reading)) {
        return;
    }
    question->named = calloc(words->name_count + 1, sizeof *question->named);
    question->changes = calloc(most, sizeof *question->changes);
    question->given = calloc(most, sizeof *question->given);
    if (question->named == NULL || question->changes == NULL || question->given == NULL) {
        reading->status = MENSUR_MEMORY;
        return;
    }
    struct naming naming = {question->changes, question->given};
    for (size_t i = 0; i < words->name_count; i++) {
        const char *word = words->names[i];
        if (i > 0 && take_size(reading, word, &question->named[question->named_count - 1])) {
            continue;
        }
        if (i > 0 && (of_one || is_field_word(word))) {
            take_field(reading, word, &naming, &question->named[question->named_count - 1]);
        } else {
            question->named[question->named_count++] =
                take_named(reading, word, "this instrument", &naming);
        }
    }
    read_liked(reading, &naming);
}

static void add_wish(struct reading *reading, enum option option, enum mensur_wish_kind kind,
                     const char *text) {
    struct mensur_question *question = reading->question;
    struct mensur_fault fault = {""};
    if (question->wish_count == MENSUR_QUESTION_WISHES) {
        REFUSE(reading, "more than %d wishes", MENSUR_QUESTION_WISHES);
    } else if (mensur_wish_read(kind, text, &fault, &question->wishes[question->wish_count]) !=
               MENSUR_OK) {
        REFUSE(reading, "--%s: %s", mensur_option_at(option)->name, fault.text);
    } else {
        question->wish_count++;
    }
}

/* The option that asks for a kind of wish. */
static enum option option_of(enum mensur_wish_kind kind) {
    enum option option = 0;
    while (strcmp(mensur_option_at(option)->name, mensur_wish_info(kind)->option) != 0) {
        option++;
    }
    return option;
}

static void read_wishes(struct reading *reading) {
    const struct words *words = reading->words;
    for (enum mensur_wish_kind kind = 0; kind < MENSUR_WISH_COUNT; kind++) {
        enum option option = option_of(kind);
        const char *text = words->text[option];
        if (text != NULL && mensur_option_at(option)->type == MENSUR_OPTION_TEXT) {
            add_wish(reading, option, kind, text);
        }
    }
    for (size_t i = 0; i < words->listed_count; i++) {
        if (words->listed[i].option == OPTION_ID_tension) {
            add_wish(reading, OPTION_ID_tension, MENSUR_WISH_TENSION, words->listed[i].text);
        }
    }
}

/* Tensions stay in the list of wishes; the limit on the belly, the one other wish, leaves it. */
static void read_ranges(struct reading *reading) {
    struct mensur_question *question = reading->question;
    size_t tensions = 0;
    read_wishes(reading);
    for (size_t i = 0; i < question->wish_count; i++) {
        const struct mensur_wish *wish = &question->wishes[i];
        if (wish->kind == MENSUR_WISH_TENSION) {
            question->wishes[tensions++] = *wish;
        } else if (!isnan(wish->low)) {
            refuse_value(reading, OPTION_ID_belly_force, "a limit here, such as ..90");
        } else {
            question->restring.most_belly_force = wish->high;
        }
    }
    question->wish_count = tensions;
}

static size_t read_runners_up(struct reading *reading) {
    static const char wanted[] = "a whole number from 0 to 16";
    double number = USUAL_RUNNERS_UP;
    read_number(reading, OPTION_ID_runners_up, MENSUR_NUMBER, wanted, &number);
    if (number > MENSUR_RUNNERS_UP_MAX || floor(number) < number) {
        refuse_value(reading, OPTION_ID_runners_up, wanted);
        return 0;
    }
    return (size_t)number;
}

static void read_packets(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    struct mensur_fault fault = {""};
    size_t count = 0;
    if (!is_good(reading)) {
        return;
    }
    question->packets = calloc(words->listed_count + 1, sizeof *question->packets);
    if (question->packets == NULL) {
        reading->status = MENSUR_MEMORY;
        return;
    }
    for (size_t i = 0; i < words->listed_count; i++) {
        if (words->listed[i].option == OPTION_ID_packet &&
            mensur_packet_read(words->listed[i].text, &fault, &question->packets[count++]) !=
                MENSUR_OK) {
            REFUSE(reading, "--packet: %s", fault.text);
        }
    }
    question->restring.packets = question->packets;
    question->restring.packet_count = count;
}

/* How the tensions go together, and whether plain strings are to be ordered for them. */
static void read_profile(struct reading *reading, struct mensur_restring_wishes *restring) {
    const struct words *words = reading->words;
    const char *order = words->text[OPTION_ID_to_order];
    if (words->text[OPTION_ID_profile] != NULL) {
        restring->profile = MENSUR_PROFILE_EQUAL + read_choice(reading, OPTION_ID_profile, 0);
    }
    if (restring->profile == MENSUR_PROFILE_LIKE && words->text[OPTION_ID_like] == NULL) {
        REFUSE(reading, "--profile like goes with --like NAME");
    }
    if (words->text[OPTION_ID_grade] != NULL && restring->profile != MENSUR_PROFILE_GRADED) {
        REFUSE(reading, "--grade goes with --profile graded");
    }
    read_number(reading, OPTION_ID_grade, MENSUR_NUMBER, NULL, &restring->grade);
    if (order != NULL && *order != '\0' && strcmp(order, "gut") != 0) {
        REFUSE(reading, "plain strings are ordered of gut, not of \"%s\"", order);
    }
    restring->to_order = order == NULL ? NULL : "gut";
}

/* The wishes for a set of strings. */
static void read_strings(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_restring_wishes *restring = &reading->question->restring;
    *restring = (struct mensur_restring_wishes){.least_margin = NAN,
                                                .most_belly_force = NAN,
                                                .from = words->text[OPTION_ID_from],
                                                .any_length = words->flag[OPTION_ID_any_length],
                                                .mix = words->flag[OPTION_ID_mix],
                                                .material = words->text[OPTION_ID_material],
                                                .grade = NAN};
    read_ranges(reading);
    read_number(reading, OPTION_ID_margin, MENSUR_SEMITONES, "a number of semitones, 0 or more",
                &restring->least_margin);
    if (words->text[OPTION_ID_feel_by] != NULL && words->text[OPTION_ID_like] == NULL) {
        REFUSE(reading, "--feel-by says what feels alike with --like NAME");
    }
    restring->same_impedance = read_choice(reading, OPTION_ID_feel_by, 0) == 1;
    restring->runners_up = read_runners_up(reading);
    (void)read_choice(reading, OPTION_ID_material, 0);
    if (restring->mix && restring->material != NULL) {
        REFUSE(reading, "--mix takes every material; --material %s takes one", restring->material);
    }
    read_profile(reading, restring);
    read_packets(reading);
}

/* What has no drawing refuses one. */
static void refuse_drawing(struct reading *reading, const char *what) {
    if (reading->question->medium != MENSUR_MEDIUM_WORDS) {
        REFUSE(reading, "there is no drawing of %s; write .csv, .json or text", what);
    }
}

void ask_read_start(struct reading *reading) {
    if (reading->words->name_count == 1) {
        reading->question->start = reading->words->names[0];
    } else {
        REFUSE(reading, "start wants one folder, for example: mensur start my-shop");
    }
}

void ask_read_check(struct reading *reading) {
    if (reading->words->name_count > 0) {
        REFUSE(reading, "check takes no name; --shop FOLDER says which shop");
    }
    refuse_drawing(reading, "a check");
    read_terms(reading);
}

void ask_read_compare(struct reading *reading) {
    read_terms(reading);
    read_names(reading);
}

void ask_read_rows(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    bool all = words->command == COMMAND_LENGTHS && words->name_count == 0;
    question->every = words->flag[OPTION_ID_every] || all;
    ask_read_compare(reading);
    if (question->every && words->name_count > 0 && question->medium == MENSUR_MEDIUM_WORDS) {
        REFUSE(reading, "--every takes every instrument; name none beside it");
    }
}

void ask_read_change(struct reading *reading) {
    read_terms(reading);
    read_names(reading);
    if (is_good(reading) && reading->question->named_count == 1 &&
        reading->question->named[0].change_count == 0) {
        REFUSE(reading, "say what changes, for example: mensur change %s neck=+4 stop=-3",
               reading->words->names[0]);
    }
}

void ask_read_decide(struct reading *reading) {
    read_terms(reading);
    read_wishes(reading);
    read_names(reading);
    if (reading->question->named_count > 1) {
        REFUSE(reading, "one instrument at a time; \"%s\" is one too many",
               reading->question->named[1].name);
    }
}

/* What is to stay. */
static void read_kept(struct reading *reading, struct mensur_scaling *scaling) {
    const struct words *words = reading->words;
    for (size_t i = 0; i < words->listed_count; i++) {
        const char *text = words->listed[i].text;
        enum mensur_field field;
        if (words->listed[i].option != OPTION_ID_keep) {
            continue;
        }
        if (strcmp(text, "air") == 0) {
            scaling->keep_air = true;
        } else if (mensur_field_find(text, &field) == MENSUR_OK) {
            scaling->keep |= 1ULL << (unsigned)field;
        } else {
            refuse_field(reading, text);
        }
    }
}

void ask_read_scale(struct reading *reading) {
    struct mensur_question *question = reading->question;
    question->scaling = (struct mensur_scaling){.value = NAN};
    read_terms(reading);
    read_wishes(reading);
    read_names(reading);
    read_kept(reading, &question->scaling);
    question->scaling.name = reading->words->text[OPTION_ID_name];
    if (question->scaling.name != NULL && question->scaling.name[0] == '\0') {
        refuse_value(reading, OPTION_ID_name, "a name");
    }
    if (is_good(reading) && question->named_count == 1 &&
        question->scaling.by == MENSUR_SCALE_TO_NOTHING) {
        REFUSE(reading, "say which size, for example: mensur scale %s body=395",
               question->named[0].given == NULL ? question->named[0].name : "NAME");
    }
}

void ask_read_map(struct reading *reading) {
    read_terms(reading);
    read_wishes(reading);
    read_names(reading);
}

void ask_read_restring(struct reading *reading) {
    refuse_drawing(reading, "new strings");
    read_terms(reading);
    read_strings(reading);
    read_names(reading);
}

void ask_read_reach(struct reading *reading) {
    refuse_drawing(reading, "a reach");
    reading->question->player = reading->words->text[OPTION_ID_player];
    ask_read_compare(reading);
}

void ask_read_sheet(struct reading *reading) {
    struct mensur_question *question = reading->question;
    bool strip = question->medium == MENSUR_MEDIUM_SVG;
    if (question->medium != MENSUR_MEDIUM_PDF && !strip) {
        REFUSE(reading, "a sheet wants --output FILE.pdf (pages to print) or FILE.svg (one "
                        "long strip)");
    }
    read_names(reading);
    if (question->named_count > MENSUR_SHEET_INSTRUMENTS) {
        REFUSE(reading, "a sheet holds two instruments; \"%s\" is one too many",
               question->named[MENSUR_SHEET_INSTRUMENTS].name);
    }
    read_terms(reading);
    unsigned paper = read_choice(reading, OPTION_ID_paper, MENSUR_SHEET_A4);
    question->paper = strip ? MENSUR_SHEET_STRIP : (enum mensur_sheet_paper)paper;
}

/* YYYY-MM-DD of a day that a month has at most. */
static bool is_date(const char *text) {
    static const char form[] = "dddd-dd-dd";
    bool good = strlen(text) == strlen(form);
    for (size_t i = 0; good && i < strlen(form); i++) {
        good = form[i] == 'd' ? text[i] >= '0' && text[i] <= '9' : text[i] == form[i];
    }
    int month = good ? (text[5] - '0') * 10 + text[6] - '0' : 0;
    int day = good ? (text[8] - '0') * 10 + text[9] - '0' : 0;
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

void ask_read_template(struct reading *reading) {
    struct mensur_question *question = reading->question;
    bool strip = question->medium == MENSUR_MEDIUM_SVG;
    if (question->medium != MENSUR_MEDIUM_PDF && !strip) {
        REFUSE(reading, "a template wants --output FILE.pdf (pages to print) or FILE.svg (one "
                        "drawing at true size)");
    }
    read_names(reading);
    if (question->named_count > 1) {
        REFUSE(reading, "a template is of one instrument; \"%s\" is one too many",
               question->named[1].name);
    }
    read_terms(reading);
    unsigned paper = read_choice(reading, OPTION_ID_paper, MENSUR_SHEET_A4);
    question->paper = strip ? MENSUR_SHEET_STRIP : (enum mensur_sheet_paper)paper;
    question->date = reading->words->text[OPTION_ID_date];
    if (question->date != NULL && !is_date(question->date)) {
        refuse_value(reading, OPTION_ID_date, "a date as 2024-05-31");
    }
}

void ask_read_dossier(struct reading *reading) {
    struct mensur_question *question = reading->question;
    read_wishes(reading);
    if (!ends_with(question->output, ".html")) {
        REFUSE(reading, "a dossier wants --output FILE.html");
    }
    question->medium = MENSUR_MEDIUM_HTML;
    read_names(reading);
    if (question->named_count > 1 && (question->wish_count > 0 || question->like.name != NULL)) {
        REFUSE(reading, "wishes go with a dossier of one instrument");
    }
    read_terms(reading);
}

void mensur_question_clear(struct mensur_question *question) {
    free(question->named);
    free(question->changes);
    free(question->given);
    free(question->packets);
    *question = (struct mensur_question){.named = NULL};
}
