/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * JSON values made and set down. Numbers are printed by base, because jansson prints them by printf
 * and a locale whose decimal mark has more than one byte breaks them; texts are jansson's to
 * escape.
 *
 * Numbers have fifteen significant digits: more would show the rounding of the way from SI to the
 * key's unit.
 */
#include "json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "letters.h"
#include "number.h"
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

json_t *mensur_json_facts(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_facts *facts) {
    static const struct mensur_style plain = {.format = MENSUR_FORMAT_JSON};
    struct mensur_texts texts = {0};
    mensur_out_fail(out, mensur_sentences(facts, style == NULL ? &plain : style, &texts));
    json_t *array = mensur_json_texts(out, &texts);
    mensur_texts_clear(&texts);
    return array;
}

#define DIGITS 15

static int take(const char *bytes, size_t length, void *context) {
    struct mensur_out *out = context;
    mensur_out_bytes(out, bytes, length);
    return out->status == MENSUR_OK ? 0 : -1;
}

static void write_members(struct mensur_out *out, json_t *object);

/* No tree of ours is more than a few levels deep. NOLINTBEGIN(misc-no-recursion) */
static void write_value(struct mensur_out *out, json_t *value) {
    if (json_is_object(value)) {
        mensur_out_text(out, "{");
        write_members(out, value);
        mensur_out_text(out, "}");
    } else if (json_is_array(value)) {
        mensur_out_text(out, "[");
        for (size_t i = 0; i < json_array_size(value); i++) {
            mensur_out_text(out, i > 0 ? ", " : "");
            write_value(out, json_array_get(value, i));
        }
        mensur_out_text(out, "]");
    } else if (json_is_real(value)) {
        char room[MENSUR_NUMBER_ROOM];
        size_t length = mensur_number_print_significant(json_real_value(value), DIGITS, room);
        mensur_out_bytes(out, room, length);
    } else if (json_dump_callback(value, take, out, JSON_ENCODE_ANY) != 0) {
        mensur_out_fail(out, MENSUR_MEMORY); /* what the sink said is kept already */
    }
}

/* The keys are our own: letters, digits and low lines. */
static void write_members(struct mensur_out *out, json_t *object) {
    const char *key, *between = "";
    json_t *value;
    json_object_foreach(object, key, value) {
        mensur_out_text(out, between);
        mensur_out_text(out, "\"");
        mensur_out_text(out, key);
        mensur_out_text(out, "\": ");
        write_value(out, value);
        between = ", ";
    }
}
/* NOLINTEND(misc-no-recursion) */

void mensur_json_write(struct mensur_out *out, json_t *object) {
    if (object == NULL) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
    if (out->status == MENSUR_OK) {
        write_members(out, object);
    }
    json_decref(object);
}
