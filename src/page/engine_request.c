/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a question in JSON to terms, style, instruments and wishes. Values come as texts, as they
 * were typed, and are read by the same functions as the program's options. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "engine.h"
#include "shop.h"

static const char *const fifths_words[] = {"pure", "equal", NULL};
static const char *const steps_words[] = {"equal", "pythagorean", "just", NULL};
static const char *const hold_words[] = {"projection", "slope", NULL};
static const char *const format_words[] = {"text", "csv", "json", NULL};
static const char *const force_words[] = {"N", "kgf", "lbf", NULL};

const char *question_text(const struct question *question, const char *key) {
    const char *text = json_string_value(json_object_get(question->root, key));
    return text != NULL && *text != '\0' ? text : NULL;
}

static bool question_flag(const struct question *question, const char *key) {
    return json_is_true(json_object_get(question->root, key));
}

bool question_feels(const struct question *question) {
    return question->style.feel || question->style.format == MENSUR_FORMAT_JSON;
}

/* The place of a text among words; 0 where it is not given or is none of them. */
static unsigned word_of(const struct question *question, const char *key,
                        const char *const *words) {
    const char *text = question_text(question, key);
    for (unsigned i = 0; text != NULL && words[i] != NULL; i++) {
        if (strcmp(text, words[i]) == 0) {
            return i;
        }
    }
    return 0;
}

static enum mensur_status read_positive(const struct question *question, const char *key,
                                        enum mensur_kind kind, struct mensur_fault *fault,
                                        double *value) {
    const char *text = question_text(question, key);
    struct mensur_quantity quantity;
    if (text == NULL) {
        return MENSUR_OK;
    }
    if (mensur_quantity_read(text, strlen(text), kind, true, &quantity) != MENSUR_OK ||
        !(quantity.value > 0.0) || !isfinite(quantity.value)) {
        mensur_fault_set(fault, "%s takes a number above 0, not \"%s\"", key, text);
        return MENSUR_USE;
    }
    *value = quantity.value;
    return MENSUR_OK;
}

static enum mensur_status read_terms(struct question *question, struct mensur_fault *fault) {
    struct mensur_terms *terms = &question->terms;
    mensur_terms_init(terms);
    terms->fifths = (enum mensur_fifths)word_of(question, "fifths", fifths_words);
    terms->steps = (enum mensur_steps)word_of(question, "steps", steps_words);
    terms->hold = (enum mensur_hold)word_of(question, "hold", hold_words);
    enum mensur_status status = read_positive(question, "a4", MENSUR_FREQUENCY, fault, &terms->a4);
    if (status == MENSUR_OK) {
        status = read_positive(question, "bow-speed", MENSUR_NUMBER, fault, &terms->bow_speed);
    }
    if (status == MENSUR_OK) {
        status =
            read_positive(question, "bow-distance", MENSUR_LENGTH, fault, &terms->bow_distance);
    }
    if (status == MENSUR_OK) {
        status = read_positive(question, "friction", MENSUR_NUMBER, fault, &terms->friction);
    }
    return status == MENSUR_OK ? read_positive(question, "bridge-resistance", MENSUR_NUMBER, fault,
                                               &terms->resistance)
                               : status;
}

static void read_style(struct question *question) {
    struct mensur_style *style = &question->style;
    const char *format = question_text(question, "format");
    question->format = format == NULL ? "text" : format;
    style->format = (enum mensur_format)word_of(question, "format", format_words);
    style->inches = question_flag(question, "inches");
    style->force_unit = (enum mensur_force_unit)word_of(question, "force-unit", force_words);
    style->feel = question_flag(question, "feel");
    question->working = question_flag(question, "working");
    style->no_sources = !question->working;
    bool text = style->format == MENSUR_FORMAT_TEXT;
    question->terms.inches = style->inches && text;
    question->terms.force_unit = text ? style->force_unit : MENSUR_FORCE_N;
}

static void read_heading(const struct page *page, struct question *question) {
    question->heading = (struct mensur_heading){.command = question->command,
                                                .shop = page_label(page),
                                                .a4 = question->terms.a4,
                                                .fifths = fifths_words[question->terms.fifths],
                                                .steps = steps_words[question->terms.steps],
                                                .cautions = mensur_cautions(question->command),
                                                .sources = mensur_sources(question->command)};
}

/* FIELD=VALUE, as the command line takes it. */
static enum mensur_status read_change(const char *text, struct mensur_fault *fault,
                                      struct mensur_change *change) {
    char name[32] = "";
    const char *equals = text == NULL ? NULL : strchr(text, '=');
    *change = (struct mensur_change){.relative = false};
    if (equals == NULL || (size_t)(equals - text) >= sizeof name) {
        mensur_fault_set(fault, "\"%s\" is no change", text == NULL ? "" : text);
        return MENSUR_USE;
    }
    memcpy(name, text, (size_t)(equals - text));
    if (strcmp(name, "strings") == 0) {
        change->set = equals + 1;
        return MENSUR_OK;
    }
    if (strcmp(name, "tuning") == 0) {
        change->tuning = equals + 1;
        return MENSUR_OK;
    }
    if (mensur_field_find(name, &change->field) != MENSUR_OK) {
        mensur_fault_set(fault, "there is no measurement \"%s\"", name);
        return MENSUR_USE;
    }
    change->relative = equals[1] == '+' || equals[1] == '-';
    return mensur_read_measure(change->field, equals + 1, change->relative, fault, &change->value);
}

static enum mensur_status read_changes(struct question *question, size_t i, const json_t *texts,
                                       struct mensur_fault *fault) {
    size_t count = json_array_size(texts);
    enum mensur_status status = MENSUR_OK;
    if (count == 0) {
        return MENSUR_OK;
    }
    question->changes[i] = calloc(count, sizeof *question->changes[i]);
    if (question->changes[i] == NULL || count > PAGE_CHANGES_MAX) {
        return MENSUR_MEMORY;
    }
    for (size_t c = 0; c < count && status == MENSUR_OK; c++) {
        status = read_change(json_string_value(json_array_get(texts, c)), fault,
                             &question->changes[i][c]);
    }
    question->change_count[i] = count;
    return status;
}

static enum mensur_status change_instrument(const struct page *page, struct question *question,
                                            size_t i, struct mensur_fault *fault) {
    question->after[i] = question->before[i];
    if (question->change_count[i] == 0) {
        return MENSUR_OK;
    }
    enum mensur_status status = mensur_instrument_changed(
        page_stock(page), question->before[i], question->changes[i], question->change_count[i],
        &question->terms, fault, &question->changed[i]);
    if (status == MENSUR_OK) {
        question->after[i] = &question->changed[i];
    }
    return status;
}

static enum mensur_status read_instrument(const struct page *page, struct question *question,
                                          const json_t *asked, struct mensur_fault *fault) {
    size_t i = question->count;
    const char *name = json_string_value(json_object_get(asked, "name"));
    const struct mensur_instrument *found = name == NULL ? NULL : page_find(page, name);
    if (found == NULL || i == PAGE_NAMES_MAX) {
        mensur_fault_set(fault, "there is no instrument \"%s\"", name == NULL ? "" : name);
        return MENSUR_USE;
    }
    question->before[i] = found;
    question->count++;
    enum mensur_status status = read_changes(question, i, json_object_get(asked, "changes"), fault);
    return status == MENSUR_OK ? change_instrument(page, question, i, fault) : status;
}

static enum mensur_status read_instruments(const struct page *page, struct question *question,
                                           struct mensur_fault *fault) {
    const json_t *asked = json_object_get(question->root, "instruments");
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < json_array_size(asked) && status == MENSUR_OK; i++) {
        status = read_instrument(page, question, json_array_get(asked, i), fault);
    }
    return status;
}

enum mensur_status question_read(const struct page *page, const char *text, size_t size,
                                 struct question *question, struct mensur_fault *fault) {
    *question = (struct question){.root = json_loadb(text, size, 0, NULL)};
    question->command = question_text(question, "command");
    if (question->command == NULL || page_label(page) == NULL) {
        mensur_fault_set(fault, "the question is not understood");
        return MENSUR_USE;
    }
    enum mensur_status status = read_terms(question, fault);
    if (status != MENSUR_OK) {
        return status;
    }
    read_style(question);
    read_heading(page, question);
    return read_instruments(page, question, fault);
}

void question_clear(struct question *question) {
    for (size_t i = 0; i < PAGE_NAMES_MAX; i++) {
        if (question->after[i] == &question->changed[i]) {
            mensur_instrument_clear(&question->changed[i]);
        }
        free(question->changes[i]);
    }
    json_decref(question->root);
}
