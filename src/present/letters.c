/* SPDX-License-Identifier: GPL-3.0-or-later */
/* UTF-8 (RFC 3629) letter by letter, and the columns that it takes. */
#include "letters.h"

#include <stdlib.h>
#include <string.h>

/* Bytes that a lead byte announces; 0 where it is no lead byte. */
static size_t announced(unsigned char lead) {
    return lead < 0x80                   ? 1
           : lead >= 0xC2 && lead < 0xE0 ? 2
           : lead >= 0xE0 && lead < 0xF0 ? 3
           : lead >= 0xF0 && lead < 0xF5 ? 4
                                         : 0;
}

/* The code point at the start of a text, and its bytes; 0 bytes where it is no UTF-8. */
static size_t decode(const char *text, uint32_t *code) {
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    static const unsigned char lead_bits[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    const unsigned char *at = (const unsigned char *)text;
    size_t length = announced(*at);
    if (length == 0) {
        return 0;
    }
    uint32_t value = at[0] & lead_bits[length];
    for (size_t i = 1; i < length; i++) {
        if ((at[i] & 0xC0) != 0x80) {
            return 0; /* the end mark too */
        }
        value = value << 6 | (at[i] & 0x3F);
    }
    if (value < least[length] || value > 0x10FFFF || (value >= 0xD800 && value < 0xE000)) {
        return 0;
    }
    *code = value;
    return length;
}

static bool moves_the_cursor(uint32_t code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

/* Most of what is shown is plain ASCII, and needs no decoding. */
static bool is_plain(char letter) {
    return letter >= 0x20 && letter < 0x7F;
}

struct mensur_letter mensur_letter_at(const char *text) {
    if (is_plain(*text)) {
        return (struct mensur_letter){
            .bytes = {*text}, .length = 1, .width = 1, .used = 1, .breaks = *text == ' '};
    }
    struct mensur_letter letter = {.bytes = "?", .length = 1, .width = 1, .used = 1};
    uint32_t code = 0;
    size_t length = decode(text, &code);
    if (length > 0) {
        letter.used = length;
    }
    if (length == 0 || moves_the_cursor(code)) {
        return letter;
    }
    if (code == 0xA0) {
        letter.bytes[0] = ' ';
        return letter;
    }
    memcpy(letter.bytes, text, length);
    letter.length = length;
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
        size_t length = decode(at, &code);
        if (length == 0) {
            *at = '?';
            length = 1;
        }
        at += length;
    }
    return copy;
}
