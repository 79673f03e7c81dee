/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "markup.h"

#include <string.h>

#include "letters.h"
#include "number.h"

void mensur_markup_start(struct mensur_out *out, const char *name) {
    mensur_out_text(out, "<");
    mensur_out_text(out, name);
}

static const char *escaped(char letter) {
    switch (letter) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

/* Keeps the Unicode isolates around a name, each beginning with its end. */
static void put_isolate(struct mensur_out *out, const char *text, size_t *open) {
    if (memcmp(text, MENSUR_ISOLATE, 3) == 0) {
        ++*open;
        mensur_out_text(out, MENSUR_ISOLATE);
    } else if (memcmp(text, MENSUR_ISOLATE_END, 3) == 0 && *open > 0) {
        --*open;
        mensur_out_text(out, MENSUR_ISOLATE_END);
    }
}

static bool is_no_character(const char *bytes) {
    return memcmp(bytes, "\xEF\xBF\xBE", 3) == 0 || memcmp(bytes, "\xEF\xBF\xBF", 3) == 0;
}

static void put_letter(struct mensur_out *out, const struct mensur_letter *letter, const char *text,
                       size_t *open) {
    const char *stands_for = escaped(letter->bytes[0]);
    if (letter->length == 1 && stands_for != NULL) {
        mensur_out_text(out, stands_for);
    } else if (letter->bytes[0] == '?' && *text != '?') {
        if (letter->used == 3) {
            put_isolate(out, text, open);
        } /* a control character or invalid UTF-8 is left out */
    } else if (letter->length < 3 || !is_no_character(letter->bytes)) {
        /* a no-break blank, for which letter->bytes holds a plain one, is kept */
        mensur_out_bytes(out, letter->length < letter->used ? text : letter->bytes, letter->used);
    }
}

/* Whether the byte is a letter of its own that stands for itself: nearly all of what is written. */
static bool is_plain(char byte) {
    return byte >= ' ' && byte <= '~' && escaped(byte) == NULL;
}

void mensur_markup_part(struct mensur_out *out, const char *text, size_t length) {
    const char *end = text + length;
    size_t open = 0;
    while (text < end) {
        const char *first = text;
        while (text < end && is_plain(*text)) {
            text++;
        }
        mensur_out_bytes(out, first, (size_t)(text - first));
        if (text == end) {
            break;
        }
        struct mensur_letter letter = mensur_letter_at(text);
        put_letter(out, &letter, text, &open);
        text += letter.used;
    }
    for (; open > 0; open--) {
        mensur_out_text(out, MENSUR_ISOLATE_END);
    }
}

void mensur_markup_text(struct mensur_out *out, const char *text) {
    mensur_markup_part(out, text, strlen(text));
}

/* In one piece: of attributes there are most. */
static void start_attribute(struct mensur_out *out, const char *name) {
    size_t length = strlen(name);
    char *room = mensur_out_room(out, length + 3);
    room[0] = ' ';
    /* Bytes without an end are meant. NOLINTBEGIN(bugprone-not-null-terminated-result) */
    memcpy(room + 1, name, length);
    memcpy(room + 1 + length, "=\"", 2);
    /* NOLINTEND(bugprone-not-null-terminated-result) */
    mensur_out_wrote(out, length + 3);
}

void mensur_markup_attribute(struct mensur_out *out, const char *name, const char *value) {
    start_attribute(out, name);
    mensur_markup_text(out, value);
    mensur_out_text(out, "\"");
}

void mensur_markup_id(struct mensur_out *out, const char *name, const char *before,
                      const char *lead, const char *value, const char *after) {
    start_attribute(out, name);
    mensur_markup_text(out, before);
    mensur_markup_text(out, lead);
    mensur_out_text(out, "-");
    mensur_markup_text(out, value);
    mensur_markup_text(out, after);
    mensur_out_text(out, "\"");
}

void mensur_markup_bare_number(struct mensur_out *out, double value) {
    enum { DECIMALS = 3 };
    char *room = mensur_out_room(out, MENSUR_NUMBER_ROOM);
    size_t length = mensur_number_print(value, DECIMALS, room);
    if (length > DECIMALS && room[length - DECIMALS - 1] == '.') { /* else it is unknown */
        while (room[length - 1] == '0') {
            length--;
        }
        length -= room[length - 1] == '.' ? 1 : 0;
    }
    mensur_out_wrote(out, length);
}

void mensur_markup_number(struct mensur_out *out, const char *name, double value) {
    start_attribute(out, name);
    mensur_markup_bare_number(out, value);
    mensur_out_text(out, "\"");
}

void mensur_markup_end(struct mensur_out *out) {
    mensur_out_text(out, ">");
}

void mensur_markup_close(struct mensur_out *out) {
    mensur_out_text(out, "/>");
    mensur_out_line(out);
}

void mensur_markup_finish(struct mensur_out *out, const char *name) {
    mensur_out_text(out, "</");
    mensur_out_text(out, name);
    mensur_out_text(out, ">");
    mensur_out_line(out);
}

void mensur_markup_open(struct mensur_out *out, const char *name) {
    mensur_markup_start(out, name);
    mensur_markup_end(out);
}

void mensur_markup_element(struct mensur_out *out, const char *name, const char *text) {
    mensur_markup_open(out, name);
    mensur_markup_text(out, text);
    mensur_markup_finish(out, name);
}
