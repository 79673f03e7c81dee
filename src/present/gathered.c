/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gathering what was assumed and warned of. */
#include "gathered.h"
#include "sentences.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static enum mensur_status copy(const char *text, char **out) {
    return mensur_text_copy(text, strlen(text), out);
}

/* Value and unit; a ratio or a speed that has no unit, to four digits. */
static enum mensur_status shown_copy(const struct mensur_style *style,
                                     const struct mensur_assumed *item, char **out) {
    if (item->text != NULL) {
        return copy(item->text, out);
    }
    return copy(mensur_show_unit(style, item->kind, item->value).text, out);
}

/* Which instrument it is, from 0; a new one where there is room, else MENSUR_GATHERED_NAMES. */
static enum mensur_status find_name(struct mensur_gathered *gathered, const char *instrument,
                                    size_t *out) {
    for (size_t i = 0; i < gathered->name_count; i++) {
        if (strcmp(gathered->names[i], instrument) == 0) {
            *out = i;
            return MENSUR_OK;
        }
    }
    gathered->instruments++;
    *out = gathered->name_count;
    if (gathered->name_count == MENSUR_GATHERED_NAMES) {
        return MENSUR_OK;
    }
    enum mensur_status status = copy(instrument, &gathered->names[gathered->name_count]);
    if (status == MENSUR_OK) {
        gathered->name_count++;
    }
    return status;
}

static enum mensur_status add_value(struct mensur_gathered *gathered,
                                    const struct mensur_style *style, size_t name,
                                    const struct mensur_assumed *item) {
    char *shown;
    enum mensur_status status = shown_copy(style, item, &shown);
    if (status != MENSUR_OK) {
        return status;
    }
    for (size_t i = 0; i < gathered->value_count; i++) {
        struct mensur_gathered_value *value = &gathered->values[i];
        if (strcmp(value->field, item->field) == 0 && strcmp(value->shown, shown) == 0) {
            value->names |= 1u << name;
            free(shown);
            return MENSUR_OK;
        }
    }
    void *more =
        realloc(gathered->values, (gathered->value_count + 1) * sizeof(gathered->values[0]));
    if (more == NULL) {
        free(shown);
        return MENSUR_MEMORY;
    }
    gathered->values = more;
    gathered->values[gathered->value_count++] =
        (struct mensur_gathered_value){item->field, shown, 1u << name};
    return MENSUR_OK;
}

static void widen(struct mensur_gathered_field *field, const struct mensur_assumed *item) {
    field->count++;
    if (field->text != NULL) {
        field->several |= item->text == NULL || strcmp(field->text, item->text) != 0;
        return;
    }
    field->low = fmin(field->low, item->value);
    field->high = fmax(field->high, item->value);
}

static enum mensur_status add_field(struct mensur_gathered *gathered,
                                    const struct mensur_assumed *item) {
    for (size_t i = 0; i < gathered->field_count; i++) {
        if (strcmp(gathered->fields[i].field, item->field) == 0) {
            widen(&gathered->fields[i], item);
            return MENSUR_OK;
        }
    }
    struct mensur_gathered_field field = {.field = item->field,
                                          .kind = item->kind,
                                          .low = item->value,
                                          .high = item->value,
                                          .count = 1};
    if (item->text != NULL && copy(item->text, &field.text) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    void *more =
        realloc(gathered->fields, (gathered->field_count + 1) * sizeof(gathered->fields[0]));
    if (more == NULL) {
        free(field.text);
        return MENSUR_MEMORY;
    }
    gathered->fields = more;
    gathered->fields[gathered->field_count++] = field;
    return MENSUR_OK;
}

enum mensur_status mensur_gather_assumed(struct mensur_gathered *gathered,
                                         const struct mensur_style *style, const char *instrument,
                                         const struct mensur_assumptions *assumed) {
    size_t name;
    enum mensur_status status = find_name(gathered, instrument, &name);
    for (size_t i = 0; status == MENSUR_OK && i < assumed->count; i++) {
        status = add_field(gathered, &assumed->items[i]);
        if (status == MENSUR_OK && name < MENSUR_GATHERED_NAMES) {
            status = add_value(gathered, style, name, &assumed->items[i]);
        }
    }
    return status;
}

bool mensur_texts_hold(const struct mensur_texts *list, const char *text) {
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->items[i], text) == 0) {
            return true;
        }
    }
    return false;
}

enum mensur_status mensur_gather_warnings(struct mensur_gathered *gathered,
                                          const struct mensur_texts *warnings) {
    for (size_t i = 0; i < warnings->count; i++) {
        if (mensur_texts_hold(&gathered->warnings, warnings->items[i])) {
            continue;
        }
        if (gathered->warnings.count == MENSUR_GATHERED_WARNINGS) {
            gathered->warnings_left_out++;
        } else if (mensur_texts_add(&gathered->warnings, "%s", warnings->items[i]) != MENSUR_OK) {
            return MENSUR_MEMORY;
        }
    }
    return MENSUR_OK;
}

enum mensur_status mensur_gather_facts(struct mensur_gathered *gathered,
                                       const struct mensur_style *style,
                                       const struct mensur_facts *warnings) {
    struct mensur_texts texts = {0};
    enum mensur_status status = mensur_sentences(warnings, style, &texts);
    if (status == MENSUR_OK) {
        status = mensur_gather_warnings(gathered, &texts);
    }
    mensur_texts_clear(&texts);
    return status;
}

enum mensur_status mensur_gather(struct mensur_gathered *gathered, const struct mensur_style *style,
                                 const char *instrument, const struct mensur_assumptions *assumed,
                                 const struct mensur_facts *warnings) {
    enum mensur_status status = mensur_gather_assumed(gathered, style, instrument, assumed);
    return status == MENSUR_OK ? mensur_gather_facts(gathered, style, warnings) : status;
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
