/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the engine's JSON shares. */
#include "view.h"

#include <math.h>
#include <stdlib.h>

#include "letters.h"

void view_put(struct mensur_out *out, json_t *object, const char *key, json_t *value) {
    if (json_object_set_new(object, key, value) != 0) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
}

void view_add(struct mensur_out *out, json_t *array, json_t *value) {
    if (json_array_append_new(array, value) != 0) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
}

json_t *view_number(enum mensur_kind kind, double si) {
    double value = mensur_from_si(kind, si);
    return isfinite(value) ? json_real(fabs(value) > 0.0 ? value : 0.0) : json_null();
}

json_t *view_text(const char *text) {
    if (text == NULL) {
        return json_null();
    }
    char *valid = mensur_valid_copy(text);
    json_t *value = valid != NULL ? json_string(valid) : NULL;
    free(valid);
    return value;
}

json_t *view_texts(struct mensur_out *out, const struct mensur_texts *texts) {
    json_t *array = json_array();
    for (size_t i = 0; i < texts->count; i++) {
        view_add(out, array, view_text(texts->items[i]));
    }
    return array;
}

static int take(const char *bytes, size_t length, void *context) {
    struct mensur_out *out = context;
    mensur_out_bytes(out, bytes, length);
    return out->status == MENSUR_OK ? 0 : -1;
}

enum mensur_status view_write(struct mensur_out *out, json_t *value) {
    if (value == NULL ||
        (out->status == MENSUR_OK &&
         json_dump_callback(value, take, out, JSON_REAL_PRECISION(15) | JSON_COMPACT) != 0)) {
        mensur_out_fail(out, MENSUR_MEMORY);
    }
    json_decref(value);
    mensur_out_flush(out);
    return out->status;
}

json_t *view_shown(struct mensur_shown shown) {
    return view_text(shown.text[0] == '?' ? NULL : shown.text);
}
