/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "gathered.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sentences.h"

static void note_failure(struct mensur_gathered *gathered, enum mensur_status status) {
    if (gathered->status == MENSUR_OK) {
        gathered->status = status;
    }
}

/* A copy of a text; NULL without memory. */
static char *copy(struct mensur_gathered *gathered, const char *text) {
    char *made = NULL;
    note_failure(gathered, mensur_text_copy(text, strlen(text), &made));
    return made;
}

/* Room for one item more; NULL without memory, and the items stay. */
static void *grown(struct mensur_gathered *gathered, void *items, size_t count, size_t size) {
    void *more = realloc(items, (count + 1) * size);
    note_failure(gathered, more == NULL ? MENSUR_MEMORY : MENSUR_OK);
    return more;
}

/* Which instrument it is, from 0; a new one where there is room, else MENSUR_GATHERED_NAMES. */
static size_t find_name(struct mensur_gathered *gathered, const char *instrument) {
    size_t i = 0;
    while (i < gathered->name_count && strcmp(gathered->names[i], instrument) != 0) {
        i++;
    }
    if (i == gathered->name_count) {
        gathered->instruments++;
    }
    if (i == gathered->name_count && i < MENSUR_GATHERED_NAMES) {
        gathered->names[i] = copy(gathered, instrument);
        gathered->name_count += gathered->names[i] != NULL ? 1 : 0;
    }
    return i;
}

static void add_value(struct mensur_gathered *gathered, const struct mensur_style *style,
                      size_t name, const struct mensur_assumed *item) {
    struct mensur_shown number = item->kind == MENSUR_LENGTH
                                     ? mensur_show_cut_unit(style, item->value)
                                     : mensur_show_unit(style, item->kind, item->value);
    const char *shown = item->text != NULL ? item->text : number.text;
    for (size_t i = 0; i < gathered->value_count; i++) {
        struct mensur_gathered_value *value = &gathered->values[i];
        if (strcmp(value->field, item->field) == 0 && strcmp(value->shown, shown) == 0 &&
            value->scaled == item->scaled) {
            value->names |= 1u << name;
            return;
        }
    }
    void *more =
        grown(gathered, gathered->values, gathered->value_count, sizeof(gathered->values[0]));
    if (more == NULL) {
        return;
    }
    struct mensur_gathered_value value = {item->field, copy(gathered, shown), item->scaled,
                                          1u << name};
    gathered->values = more;
    gathered->values[gathered->value_count] = value;
    gathered->value_count += value.shown != NULL ? 1 : 0;
}

static void widen(struct mensur_gathered_field *field, const struct mensur_assumed *item) {
    field->count++;
    field->scaled |= item->scaled;
    if (field->text != NULL) {
        field->several |= item->text == NULL || strcmp(field->text, item->text) != 0;
        return;
    }
    field->low = fmin(field->low, item->value);
    field->high = fmax(field->high, item->value);
}

static void add_field(struct mensur_gathered *gathered, const struct mensur_assumed *item) {
    /* Most instruments lack the same measurements, in the same order. */
    for (size_t i = 0; i < gathered->field_count; i++) {
        size_t at = (gathered->widened + 1 + i) % gathered->field_count;
        const char *field = gathered->fields[at].field;
        if (field == item->field || strcmp(field, item->field) == 0) {
            widen(&gathered->fields[at], item);
            gathered->widened = at;
            return;
        }
    }
    void *more =
        grown(gathered, gathered->fields, gathered->field_count, sizeof(gathered->fields[0]));
    if (more == NULL) {
        return;
    }
    gathered->fields = more;
    gathered->fields[gathered->field_count++] = (struct mensur_gathered_field){
        .field = item->field,
        .kind = item->kind,
        .low = item->value,
        .high = item->value,
        .text = item->text != NULL ? copy(gathered, item->text) : NULL,
        .scaled = item->scaled,
        .count = 1};
}

void mensur_gather_assumed(struct mensur_gathered *gathered, const struct mensur_style *style,
                           const char *instrument, const struct mensur_assumptions *assumed,
                           unsigned shown) {
    size_t name = find_name(gathered, instrument);
    for (size_t i = 0; gathered->status == MENSUR_OK && i < assumed->count; i++) {
        if (!style->full && (assumed->items[i].behind & shown) == 0) {
            continue;
        }
        add_field(gathered, &assumed->items[i]);
        if (name < MENSUR_GATHERED_NAMES) {
            add_value(gathered, style, name, &assumed->items[i]);
        }
    }
}

static bool holds(const struct mensur_texts *list, const char *text) {
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->items[i], text) == 0) {
            return true;
        }
    }
    return false;
}

void mensur_gather_warnings(struct mensur_gathered *gathered, const struct mensur_texts *warnings) {
    for (size_t i = 0; i < warnings->count; i++) {
        if (holds(&gathered->warnings, warnings->items[i])) {
            continue;
        }
        if (gathered->warnings.count == MENSUR_GATHERED_WARNINGS) {
            gathered->warnings_left_out++;
        } else {
            note_failure(gathered, mensur_texts_add(&gathered->warnings, "%s", warnings->items[i]));
        }
    }
}

void mensur_gather(struct mensur_gathered *gathered, const struct mensur_style *style,
                   const char *instrument, const struct mensur_assumptions *assumed, unsigned shown,
                   const struct mensur_facts *warnings) {
    struct mensur_texts texts = {0};
    mensur_gather_assumed(gathered, style, instrument, assumed, shown);
    note_failure(gathered, mensur_sentences(warnings, style, &texts));
    mensur_gather_warnings(gathered, &texts);
    mensur_texts_clear(&texts);
}

void mensur_gathered_clear(struct mensur_gathered *gathered) {
    for (size_t i = 0; i < gathered->name_count; i++) {
        free(gathered->names[i]);
    }
    for (size_t i = 0; i < gathered->value_count; i++) {
        free(gathered->values[i].shown);
    }
    for (size_t i = 0; i < gathered->field_count; i++) {
        free(gathered->fields[i].text);
    }
    free(gathered->values);
    free(gathered->fields);
    mensur_texts_clear(&gathered->warnings);
    *gathered = (struct mensur_gathered){0};
}
