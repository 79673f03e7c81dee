/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Buffered output with one sticky status. */
#include "sink.h"

#include <string.h>

void mensur_out_open(struct mensur_out *out, const struct mensur_sink *sink, bool bold) {
    out->sink = *sink;
    out->status = MENSUR_OK;
    out->bold = bold;
    out->blanks = 0;
    out->used = 0;
}

void mensur_out_fail(struct mensur_out *out, enum mensur_status status) {
    if (out->status == MENSUR_OK) {
        out->status = status;
    }
}

void mensur_out_flush(struct mensur_out *out) {
    if (out->status == MENSUR_OK && out->used > 0) {
        out->status = out->sink.write(out->sink.context, out->bytes, out->used);
    }
    out->used = 0;
}

static void put(struct mensur_out *out, const char *bytes, size_t length) {
    while (length > 0 && out->status == MENSUR_OK) {
        size_t room = sizeof(out->bytes) - out->used;
        size_t part = length < room ? length : room;
        memcpy(out->bytes + out->used, bytes, part);
        out->used += part;
        bytes += part;
        length -= part;
        if (out->used == sizeof(out->bytes)) {
            mensur_out_flush(out);
        }
    }
}

static void put_blanks(struct mensur_out *out) {
    static const char blanks[] = "                                        ";
    while (out->blanks > 0) {
        size_t most = sizeof(blanks) - 1, part = out->blanks < most ? out->blanks : most;
        put(out, blanks, part);
        out->blanks -= part;
    }
}

void mensur_out_bytes(struct mensur_out *out, const char *bytes, size_t length) {
    if (length == 0) {
        return;
    }
    if (out->blanks == 0 && length < sizeof(out->bytes) - out->used) { /* as nearly always */
        memcpy(out->bytes + out->used, bytes, length);
        out->used += length;
        return;
    }
    put_blanks(out);
    put(out, bytes, length);
}

void mensur_out_text(struct mensur_out *out, const char *text) {
    mensur_out_bytes(out, text, strlen(text));
}

char *mensur_out_room(struct mensur_out *out, size_t room) {
    if (sizeof(out->bytes) - out->used < room) {
        mensur_out_flush(out);
    }
    return out->bytes + out->used;
}

void mensur_out_wrote(struct mensur_out *out, size_t length) {
    out->used += length;
}

void mensur_out_blanks(struct mensur_out *out, size_t count) {
    out->blanks += count;
}

void mensur_out_line(struct mensur_out *out) {
    out->blanks = 0;
    put(out, "\n", 1);
}

void mensur_out_strong(struct mensur_out *out, bool on) {
    if (out->bold) {
        put(out, on ? "\x1b[1m" : "\x1b[0m", 4);
    }
}
