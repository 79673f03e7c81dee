/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values and records as JSON. */
#include "json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "letters.h"
#include "sentences.h"

void mensur_json_put(struct mensur_out *out, json_t *object, const char *key, json_t *value) {
    if (json_object_set_new(object, key, value) != 0) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
}

void mensur_json_add(struct mensur_out *out, json_t *array, json_t *value) {
    if (json_array_append_new(array, value) != 0) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
}

/* In the unit of its key; no number of JSON's is infinite or unknown, and none need be -0. */
json_t *mensur_json_number(enum mensur_kind kind, double si) {
    double value = mensur_from_si(kind, si);
    if (!isfinite(value)) {
        return json_null();
    }
    return json_real(fabs(value) > 0.0 ? value : 0.0);
}

json_t *mensur_json_known(enum mensur_known known) {
    return known == MENSUR_UNSURE ? json_null() : json_boolean(known == MENSUR_YES);
}

json_t *mensur_json_text(const char *text) {
    if (text == NULL) {
        return json_null();
    }
    char *valid = mensur_valid_copy(text);
    json_t *value = valid != NULL ? json_string(valid) : NULL;
    free(valid);
    return value;
}

json_t *mensur_json_texts(struct mensur_out *out, const struct mensur_texts *texts) {
    json_t *array = json_array();
    for (size_t i = 0; i < texts->count; i++) {
        mensur_json_add(out, array, mensur_json_text(texts->items[i]));
    }
    return array;
}

static struct mensur_texts say(struct mensur_out *out, const struct mensur_style *style,
                               const struct mensur_facts *facts) {
    static const struct mensur_style plain = {.format = MENSUR_FORMAT_JSON};
    struct mensur_texts texts = {0};
    mensur_out_fail(out, mensur_sentences(facts, style == NULL ? &plain : style, &texts));
    return texts;
}

json_t *mensur_json_facts(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_facts *facts) {
    struct mensur_texts texts = say(out, style, facts);
    json_t *array = mensur_json_texts(out, &texts);
    mensur_texts_clear(&texts);
    return array;
}

json_t *mensur_json_sentence(struct mensur_out *out, const struct mensur_style *style,
                             const struct mensur_facts *facts) {
    struct mensur_texts texts = say(out, style, facts);
    json_t *text = mensur_json_text(texts.count > 0 ? texts.items[0] : "");
    mensur_texts_clear(&texts);
    return text;
}

void mensur_json_join(struct mensur_out *out, json_t *array, const struct mensur_facts *facts) {
    json_t *texts = mensur_json_facts(out, NULL, facts);
    for (size_t i = 0; i < json_array_size(texts); i++) {
        json_t *text = json_array_get(texts, i);
        bool there = false;
        for (size_t j = 0; j < json_array_size(array) && !there; j++) {
            there = json_equal(json_array_get(array, j), text);
        }
        if (!there) {
            mensur_json_add(out, array, json_incref(text));
        }
    }
    json_decref(texts);
}

static json_t *figure_value(const struct mensur_figure *figure, const void *record,
                            bool difference) {
    switch (figure->type) {
    case MENSUR_FIGURE_NUMBER:
        return mensur_json_number(figure->kind, mensur_figure_value(figure, record));
    case MENSUR_FIGURE_KNOWN:
        return difference ? json_null() : mensur_json_known(mensur_figure_known(figure, record));
    case MENSUR_FIGURE_POINTER:
    case MENSUR_FIGURE_TEXT:
        break;
    }
    return mensur_json_text(mensur_figure_text(figure, record));
}

void mensur_json_figures(struct mensur_out *out, json_t *object, enum mensur_scope scope,
                         const void *record, bool difference) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            mensur_json_put(out, object, figure->key, figure_value(figure, record, difference));
        }
    }
}

void mensur_json_figure(struct mensur_out *out, json_t *object, enum mensur_scope scope,
                        const char *key, const void *record) {
    mensur_json_put(out, object, key, figure_value(mensur_figure_named(scope, key), record, false));
}

json_t *mensur_json_records(struct mensur_out *out, enum mensur_scope scope, const void *records,
                            size_t count, size_t size, bool difference) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        json_t *object = json_object();
        mensur_json_figures(out, object, scope, (const char *)records + i * size, difference);
        mensur_json_add(out, array, object);
    }
    return array;
}

static json_t *assumed_unit(const struct mensur_assumed *item) {
    const char *unit = item->text == NULL ? mensur_kind_unit(item->kind) : "";
    return *unit != '\0' ? json_string(unit) : json_null();
}

void mensur_json_assumed(struct mensur_out *out, json_t *assumed, const char *instrument,
                         const struct mensur_assumptions *items) {
    for (size_t i = 0; i < items->count; i++) {
        const struct mensur_assumed *item = &items->items[i];
        json_t *object = json_object();
        mensur_json_put(out, object, "field", mensur_json_text(item->field));
        mensur_json_put(out, object, "value",
                        item->text != NULL ? mensur_json_text(item->text)
                                           : mensur_json_number(item->kind, item->value));
        mensur_json_put(out, object, "unit", assumed_unit(item));
        if (instrument != NULL) {
            mensur_json_put(out, object, "instrument", mensur_json_text(instrument));
        }
        mensur_json_add(out, assumed, object);
    }
}

void mensur_json_answer(struct mensur_presenter *presenter, json_t *answer) {
    mensur_out_text(&presenter->out, presenter->answers > 0 ? ",\n{" : "\n{");
    mensur_json_write(&presenter->out, answer);
    mensur_out_text(&presenter->out, "}");
}
