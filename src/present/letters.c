/* SPDX-License-Identifier: GPL-3.0-or-later */
/* UTF-8 (RFC 3629) letter by letter, and the columns that it takes on a terminal. */
#include "letters.h"

#include <stdlib.h>
#include <string.h>

#include "texts.h"
#include "utf8.h"

/* Most of what is shown is plain ASCII, and needs no decoding. */
static bool is_plain(char letter) {
    return letter >= 0x20 && letter < 0x7F;
}

struct mensur_letter mensur_letter_at(const char *text) {
    if (is_plain(*text)) {
        return (struct mensur_letter){.bytes = {*text},
                                      .length = 1,
                                      .code = (unsigned char)*text,
                                      .width = 1,
                                      .used = 1,
                                      .breaks = *text == ' '};
    }
    struct mensur_letter letter = {.bytes = "?", .length = 1, .code = '?', .width = 1, .used = 1};
    uint32_t code = 0;
    size_t length = mensur_utf8_letter(text, MENSUR_UTF8_MOST, &code);
    if (length > 0) {
        letter.used = length;
    }
    if (length == 0 || mensur_utf8_steers(code)) {
        return letter;
    }
    if (code == 0xA0) {
        letter.bytes[0] = ' ';
        letter.code = ' ';
        return letter;
    }
    memcpy(letter.bytes, text, length);
    letter.length = length;
    letter.code = code;
    letter.width = code >= 0x300 && code <= 0x36F ? 0 : 1;
    return letter;
}

size_t mensur_shown_width(const char *text) {
    size_t width = 0;
    while (*text != '\0') {
        if (is_plain(*text)) {
            width++;
            text++;
            continue;
        }
        struct mensur_letter letter = mensur_letter_at(text);
        width += letter.width;
        text += letter.used;
    }
    return width;
}

void mensur_out_shown(struct mensur_out *out, const char *text) {
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        mensur_out_bytes(out, letter.bytes, letter.length);
        text += letter.used;
    }
}

char *mensur_valid_copy(const char *text) {
    char *copy = NULL;
    if (mensur_text_copy(text, strlen(text), &copy) != MENSUR_OK) {
        return NULL;
    }
    for (char *at = copy; *at != '\0';) {
        uint32_t code;
        size_t length = mensur_utf8_letter(at, MENSUR_UTF8_MOST, &code);
        if (length == 0) {
            *at = '?';
            length = 1;
        }
        at += length;
    }
    return copy;
}
