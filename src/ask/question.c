/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question, read whole from its words. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "figures.h"
#include "measure.h"
#include "number.h"
#include "reading.h"
#include "sheet.h"
#include "shown.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by the question that a reading points to. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* How many sets stand beside the best where nothing else is asked. */
enum { USUAL_RUNNERS_UP = 3 };

static bool is_good(const struct reading *reading) {
    return reading->status == MENSUR_OK;
}

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

/* --fret 1=low: which of the two notes of quarter-comma meantone a fret stands for. */
static void read_frets(struct reading *reading, struct mensur_terms *terms) {
    const struct words *words = reading->words;
    for (size_t i = 0; i < words->listed_count; i++) {
        const char *text = words->listed[i].text;
        if (words->listed[i].option != OPTION_ID_fret) {
            continue;
        }
        bool known = strchr("136", *text) != NULL && *text != '\0' && text[1] == '=';
        bool low = known && strcmp(text + 2, "low") == 0;
        if (!low && !(known && strcmp(text + 2, "high") == 0)) {
            REFUSE(reading,
                   "--fret: \"%s\" will not do; write 1, 3 or 6 and which note, for "
                   "example --fret 1=low or --fret 6=high",
                   text);
            return;
        }
        if (terms->steps != MENSUR_STEPS_QUARTER_COMMA) {
            REFUSE(reading, "--fret goes with --steps quarter-comma; in other steps a fret stands "
                            "for one note");
            return;
        }
        unsigned bit = 1u << (unsigned)(*text - '0');
        terms->frets_asked |= bit;
        terms->frets_low = low ? terms->frets_low | bit : terms->frets_low & ~bit;
    }
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
#define ENDING(id, word, ending, prose, writer) ending,
    static const char *const endings[] = {MENSUR_FORMATS(ENDING)};
    const char *path = question->output;
    const char *rest = path == NULL || path[0] == '\0' ? NULL : path + 1;
    for (unsigned i = 0; i < MENSUR_FORMATS_END; i++) {
        if (endings[i][0] != '\0' && ends_with(rest, endings[i]) &&
            (i != MENSUR_FORMAT_HTML || question->medium == MENSUR_MEDIUM_WORDS)) {
            return i;
        }
    }
    return MENSUR_FORMAT_TEXT;
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
    read_frets(reading, terms);
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

void ask_refuse_drawing(struct reading *reading, const char *what) {
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

/* Rows of families.csv are CSV unless JSON is asked for. */
static void read_usual(struct reading *reading) {
    struct mensur_question *question = reading->question;
    const char *format = reading->words->text[OPTION_ID_format];
    question->usual = reading->words->flag[OPTION_ID_usual];
    if (!question->usual) {
        return;
    }
    if (format != NULL && question->style.format != MENSUR_FORMAT_CSV &&
        question->style.format != MENSUR_FORMAT_JSON) {
        REFUSE(reading,
               "--usual writes rows of families.csv: --format csv (unless asked "
               "otherwise) or json, not %s",
               format);
    }
    if (question->style.format != MENSUR_FORMAT_JSON) {
        question->style.format = MENSUR_FORMAT_CSV;
    }
}

void ask_read_check(struct reading *reading) {
    if (reading->words->name_count > 0) {
        REFUSE(reading, "check takes no name; --shop FOLDER says which shop");
    }
    ask_refuse_drawing(reading, "a check");
    read_terms(reading);
    read_usual(reading);
}

void ask_read_compare(struct reading *reading) {
    read_terms(reading);
    ask_read_names(reading);
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
    ask_read_names(reading);
    if (is_good(reading) && reading->question->named_count == 1 &&
        reading->question->named[0].change_count == 0) {
        REFUSE(reading, "say what changes, for example: mensur change %s neck=+4 stop=-3",
               reading->words->names[0]);
    }
}

void ask_read_decide(struct reading *reading) {
    read_terms(reading);
    read_wishes(reading);
    ask_read_names(reading);
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
            ask_refuse_field(reading, text);
        }
    }
}

void ask_read_scale(struct reading *reading) {
    struct mensur_question *question = reading->question;
    question->scaling = (struct mensur_scaling){.value = NAN};
    read_terms(reading);
    read_wishes(reading);
    ask_read_names(reading);
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
    ask_read_names(reading);
}

void ask_read_restring(struct reading *reading) {
    read_terms(reading);
    read_strings(reading);
    ask_read_names(reading);
}

/* The player, typed as words FIELD=VALUE; no instrument is named. */
static void read_pupil(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    question->given = calloc(words->name_count + 1, sizeof *question->given);
    if (question->given == NULL) {
        reading->status = MENSUR_MEMORY;
        return;
    }
    for (size_t i = 0; i < words->name_count; i++) {
        if (!ask_is_field(words->names[i])) {
            REFUSE(reading,
                   "--family takes every size; name no instrument beside it (\"%s\"). A player is "
                   "typed as stature=1290 age=8",
                   words->names[i]);
        }
        question->given[question->given_count++] = words->names[i];
    }
    /* A habit of the shop gives way to a player that is typed. */
    if (question->given_count > 0 && question->player != NULL && question->habit_count == 0) {
        REFUSE(reading, "--player %s and \"%s\" are two players; leave one out", question->player,
               words->names[0]);
    }
    if (question->working) {
        REFUSE(reading, "--working goes with instruments that are named, not with --family");
    }
}

void ask_read_reach(struct reading *reading) {
    struct mensur_question *question = reading->question;
    question->player = reading->words->text[OPTION_ID_player];
    question->family = reading->words->text[OPTION_ID_family];
    if (question->family == NULL) {
        ask_read_compare(reading);
        return;
    }
    read_terms(reading);
    read_pupil(reading);
}

void ask_read_sheet(struct reading *reading) {
    struct mensur_question *question = reading->question;
    bool strip = question->medium == MENSUR_MEDIUM_SVG;
    if (question->medium != MENSUR_MEDIUM_PDF && !strip) {
        REFUSE(reading, "a sheet wants --output FILE.pdf (pages to print) or FILE.svg (one "
                        "long strip)");
    }
    ask_read_names(reading);
    if (question->named_count > MENSUR_SHEET_INSTRUMENTS) {
        REFUSE(reading, "a sheet holds two instruments; \"%s\" is one too many",
               question->named[MENSUR_SHEET_INSTRUMENTS].name);
    }
    read_terms(reading);
    unsigned paper = read_choice(reading, OPTION_ID_paper, MENSUR_SHEET_A4);
    question->marks = read_choice(reading, OPTION_ID_marks, MENSUR_SHEET_USUAL);
    question->added_tapes = reading->words->flag[OPTION_ID_added];
    if (question->added_tapes && question->marks != MENSUR_SHEET_TAPES) {
        REFUSE(reading, "--added goes with --marks tapes");
    }
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

static void read_date(struct reading *reading) {
    struct mensur_question *question = reading->question;
    question->date = reading->words->text[OPTION_ID_date];
    if (question->date != NULL && !is_date(question->date)) {
        refuse_value(reading, OPTION_ID_date, "a date as 2024-05-31");
    }
}

void ask_read_template(struct reading *reading) {
    struct mensur_question *question = reading->question;
    bool strip = question->medium == MENSUR_MEDIUM_SVG;
    if (question->medium != MENSUR_MEDIUM_PDF && !strip) {
        REFUSE(reading, "a template wants --output FILE.pdf (pages to print) or FILE.svg (one "
                        "drawing at true size)");
    }
    ask_read_names(reading);
    if (question->named_count > 1) {
        REFUSE(reading, "a template is of one instrument; \"%s\" is one too many",
               question->named[1].name);
    }
    read_terms(reading);
    unsigned paper = read_choice(reading, OPTION_ID_paper, MENSUR_SHEET_A4);
    question->paper = strip ? MENSUR_SHEET_STRIP : (enum mensur_sheet_paper)paper;
    read_date(reading);
}

void ask_read_dossier(struct reading *reading) {
    struct mensur_question *question = reading->question;
    read_wishes(reading);
    bool paper = question->medium == MENSUR_MEDIUM_PDF;
    if (!paper && !ends_with(question->output, ".html")) {
        REFUSE(reading, "a dossier wants --output FILE.html or FILE.pdf");
    }
    question->medium = paper ? MENSUR_MEDIUM_PDF : MENSUR_MEDIUM_HTML;
    question->customer = reading->words->text[OPTION_ID_customer];
    question->paper = read_choice(reading, OPTION_ID_paper, MENSUR_SHEET_A4);
    read_date(reading);
    ask_read_names(reading);
    read_terms(reading);
}

void ask_read_find(struct reading *reading) {
    struct words none = *reading->words;
    struct reading liked = *reading;
    read_terms(reading);
    read_wishes(reading);
    none.name_count = 0; /* its words are wishes, not instruments */
    liked.words = &none;
    liked.status = reading->status;
    ask_read_names(&liked);
    reading->status = liked.status;
    if (is_good(reading)) {
        reading->status = ask_sought_read(reading->words, reading->messages, reading->question);
    }
}

void mensur_question_clear(struct mensur_question *question) {
    free(question->named);
    free(question->changes);
    free(question->given);
    free(question->packets);
    free(question->sought);
    *question = (struct mensur_question){.named = NULL};
}
