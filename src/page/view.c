/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the views share. */
#include "view.h"

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
    return mensur_json_text(shown.text[0] == '?' ? NULL : shown.text);
}

json_t *view_assumed(struct mensur_out *out, const struct mensur_style *style,
                     const struct mensur_assumptions *assumed) {
    json_t *array = json_array();
    for (size_t i = 0; i < assumed->count; i++) {
        const struct mensur_assumed *item = &assumed->items[i];
        json_t *pair = json_object();
        mensur_json_put(out, pair, "field", mensur_json_text(item->field));
        mensur_json_put(out, pair, "shown",
                        item->text != NULL
                            ? mensur_json_text(item->text)
                            : view_shown(mensur_show_unit(style, item->kind, item->value)));
        mensur_json_add(out, array, pair);
    }
    return array;
}

json_t *view_list(struct mensur_out *out, const char *const *texts) {
    json_t *array = json_array();
    for (; texts != NULL && *texts != NULL; texts++) {
        mensur_json_add(out, array, mensur_json_text(*texts));
    }
    return array;
}

/* A row of figures of one kind, a cell for each instrument and one for the difference. */
void view_cells(const struct sheet *sheet, json_t *row, const char *key, enum mensur_kind kind,
                const double *values, double difference) {
    json_t *cells = json_array();
    for (size_t i = 0; i < sheet->count; i++) {
        mensur_json_add(sheet->out, cells, view_shown(mensur_show(sheet->style, kind, values[i])));
    }
    mensur_json_put(sheet->out, row, key, cells);
    if (sheet->difference != NULL) {
        mensur_json_put(sheet->out, row, "difference",
                        view_shown(mensur_show_difference(sheet->style, kind, difference)));
    }
}
