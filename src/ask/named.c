/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The instruments that a question names or describes, and what of them is changed. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask.h"
#include "measure.h"
#include "number.h"
#include "reading.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by the question that a reading points to. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

static bool is_good(const struct reading *reading) {
    return reading->status == MENSUR_OK;
}

/* What may be changed besides the measurements. */
static const struct {
    const char *name;
    enum mensur_change_of of;
} others[] = {{"strings", MENSUR_CHANGE_STRINGS}, {"tuning", MENSUR_CHANGE_TUNING},
              {"family", MENSUR_CHANGE_FAMILY},   {"size", MENSUR_CHANGE_SIZE},
              {"built", MENSUR_CHANGE_BUILT},     {"a4", MENSUR_CHANGE_A4}};
enum { OTHERS = sizeof others / sizeof others[0] };

void ask_refuse_field(struct reading *reading, const char *word) {
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
        ask_refuse_field(reading, name);
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
bool ask_is_field(const char *word) {
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

/* What those that are described are called, in their order; further ones as the last. */
static const char *const described_names[] = {"this instrument", "the other instrument",
                                              "the third instrument", "the fourth instrument",
                                              "a further instrument"};
enum { DESCRIBED_NAMES = sizeof described_names / sizeof described_names[0] };

/* Between two instruments, of which the second may be described too. */
static const char between[] = "and";

/* An instrument by its name, or by the first word that describes it. */
static struct mensur_named take_named(struct reading *reading, const char *word,
                                      const char *described, struct naming *naming) {
    struct mensur_named named = {.name = word, .changes = naming->change};
    if (word != NULL && ask_is_field(word)) {
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

static const unsigned commands_of_one = COMMANDS_ONE;

/* The instruments named or described, each with the changes that stand behind it, and the liked
 * one. */
void ask_read_names(struct reading *reading) {
    const struct words *words = reading->words;
    struct mensur_question *question = reading->question;
    bool of_one = (commands_of_one & 1u << words->command) != 0;
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
    size_t described = 0;
    bool parted = false; /* the word before was `between` */
    for (size_t i = 0; i < words->name_count; i++) {
        const char *word = words->names[i];
        if (i > 0 && !of_one && !parted && strcmp(word, between) == 0) {
            parted = true;
            continue;
        }
        if (i > 0 && take_size(reading, word, &question->named[question->named_count - 1])) {
            continue;
        }
        if (i > 0 && !parted && (of_one || ask_is_field(word))) {
            take_field(reading, word, &naming, &question->named[question->named_count - 1]);
        } else {
            struct mensur_named *named = &question->named[question->named_count++];
            *named = take_named(reading, word, described_names[described], &naming);
            described += named->given != NULL && described + 1 < DESCRIBED_NAMES;
        }
        parted = false;
    }
    if (parted) {
        REFUSE(reading, "nothing stands behind \"%s\"; name or describe an instrument there",
               between);
    }
    read_liked(reading, &naming);
}
