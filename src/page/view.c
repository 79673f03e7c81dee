/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the engine's JSON shares. */
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
