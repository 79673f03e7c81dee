/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * JSON (RFC 8259), an object on one line. Numbers have fifteen significant digits: more would show
 * the rounding of the way from SI to the key's unit.
 */
#include "json.h"

#include <math.h>
#include <string.h>

#include "number.h"
#include "utf8.h"

#define DIGITS 15

static void put_between(struct mensur_json *json) {
    if (json->begun) {
        mensur_out_bytes(json->out, ", ", 2);
    }
    json->begun = true;
}

/* In one piece: of keys there are most. */
static void put_key(struct mensur_json *json, const char *key) {
    size_t length = strlen(key);
    char *room = mensur_out_room(json->out, length + 6), *at = room;
    if (json->begun) {
        *at++ = ',';
        *at++ = ' ';
    }
    *at++ = '"';
    /* Bytes without an end are meant. NOLINTBEGIN(bugprone-not-null-terminated-result) */
    memcpy(at, key, length);
    memcpy(at + length, "\": ", 3);
    /* NOLINTEND(bugprone-not-null-terminated-result) */
    mensur_out_wrote(json->out, (size_t)(at - room) + length + 3);
    json->begun = true;
}

/* What stands before a value. */
static void put_before(struct mensur_json *json, const char *key) {
    if (key != NULL) {
        put_key(json, key);
    } else {
        put_between(json);
    }
}

void mensur_json_begin(struct mensur_json *json, const char *key, char bracket) {
    put_before(json, key);
    mensur_out_bytes(json->out, &bracket, 1);
    json->begun = false;
}

void mensur_json_end(struct mensur_json *json, char bracket) {
    mensur_out_bytes(json->out, &bracket, 1);
    json->begun = true;
}

void mensur_json_any_key(struct mensur_json *json, const char *key) {
    mensur_json_text(json, NULL, key);
    mensur_out_bytes(json->out, ": ", 2);
    json->begun = false; /* no comma stands before the value */
}

static void put_word(struct mensur_json *json, const char *key, const char *word) {
    put_before(json, key);
    mensur_out_text(json->out, word);
}

/* No number of JSON's is infinite or unknown, and none need be -0. */
void mensur_json_number(struct mensur_json *json, const char *key, enum mensur_kind kind,
                        double si) {
    double value = mensur_from_si(kind, si);
    if (!isfinite(value)) {
        mensur_json_null(json, key);
        return;
    }
    put_before(json, key);
    char *room = mensur_out_room(json->out, MENSUR_NUMBER_ROOM);
    mensur_out_wrote(json->out, mensur_number_print_significant(value, DIGITS, room));
}

void mensur_json_count(struct mensur_json *json, const char *key, long count) {
    char digits[MENSUR_NUMBER_ROOM];
    mensur_number_print((double)count, 0, digits);
    put_word(json, key, digits);
}

void mensur_json_bool(struct mensur_json *json, const char *key, bool value) {
    put_word(json, key, value ? "true" : "false");
}

void mensur_json_null(struct mensur_json *json, const char *key) {
    put_word(json, key, "null");
}

static bool is_plain(char letter) {
    return letter >= ' ' && letter <= '~' && letter != '"' && letter != '\\';
}

/* Writes the letter at the start of a text as a string has it; returns the bytes that it takes. */
static size_t put_letter(struct mensur_out *out, const char *text) {
    static const char named[] = "\"\\\b\f\n\r\t", names[] = "\"\\bfnrt", hex[] = "0123456789ABCDEF";
    const char *at = strchr(named, *text);
    if (at != NULL) {
        char escape[] = {'\\', names[at - named]};
        mensur_out_bytes(out, escape, sizeof(escape));
        return 1;
    }
    if (*text > 0 && *text < ' ') {
        char escape[] = {'\\', 'u', '0', '0', hex[*text / 16], hex[*text % 16]};
        mensur_out_bytes(out, escape, sizeof(escape));
        return 1;
    }
    uint32_t code;
    size_t length = mensur_utf8_letter(text, MENSUR_UTF8_MOST, &code);
    mensur_out_bytes(out, length > 0 ? text : "?", length > 0 ? length : 1);
    return length > 0 ? length : 1;
}

void mensur_json_text(struct mensur_json *json, const char *key, const char *text) {
    if (text == NULL) {
        mensur_json_null(json, key);
        return;
    }
    put_before(json, key);
    mensur_out_bytes(json->out, "\"", 1);
    while (*text != '\0') {
        size_t plain = 0;
        while (is_plain(text[plain])) {
            plain++;
        }
        mensur_out_bytes(json->out, text, plain);
        text += plain;
        text += *text != '\0' ? put_letter(json->out, text) : 0;
    }
    mensur_out_bytes(json->out, "\"", 1);
}

void mensur_json_texts(struct mensur_json *json, const char *key,
                       const struct mensur_texts *texts) {
    mensur_json_begin(json, key, '[');
    for (size_t i = 0; i < texts->count; i++) {
        mensur_json_text(json, NULL, texts->items[i]);
    }
    mensur_json_end(json, ']');
}
