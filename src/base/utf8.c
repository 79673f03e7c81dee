/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "utf8.h"

#include <string.h>

static bool continues(char byte) {
    return ((unsigned char)byte & 0xC0) == 0x80;
}

/* Bytes that a lead byte announces; 0 where the byte continues a letter. */
static size_t announced(char lead) {
    unsigned char byte = (unsigned char)lead;
    return byte < 0x80 ? 1 : byte < 0xC0 ? 0 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

size_t mensur_utf8_letter(const char *text, size_t length, uint32_t *code) {
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    static const unsigned char lead_bits[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    size_t bytes = length == 0 ? 0 : announced(*text);
    if (bytes == 0 || bytes > length || (unsigned char)*text > 0xF4) {
        return 0;
    }
    uint32_t value = (unsigned char)*text & (uint32_t)lead_bits[bytes];
    for (size_t i = 1; i < bytes; i++) {
        if (!continues(text[i])) {
            return 0; /* the end mark too */
        }
        value = value << 6 | ((unsigned char)text[i] & 0x3Fu);
    }
    if (value < least[bytes] || value > 0x10FFFF || (value >= 0xD800 && value < 0xE000)) {
        return 0;
    }
    *code = value;
    return bytes;
}

bool mensur_utf8_steers(uint32_t code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

size_t mensur_utf8_calm(const char *text, size_t length, char *out) {
    char *to = out;
    for (size_t i = 0; i < length;) {
        uint32_t code = 0;
        size_t letter = mensur_utf8_letter(text + i, length - i, &code);
        if (letter > 0 && mensur_utf8_steers(code)) {
            *to++ = ' ';
            i += letter;
        } else {
            size_t bytes = letter > 0 ? letter : 1;
            memcpy(to, text + i, bytes);
            to += bytes;
            i += bytes;
        }
    }
    return (size_t)(to - out);
}

size_t mensur_utf8_whole(const char *text, size_t length) {
    size_t lead = length;
    while (lead > 0 && continues(text[lead - 1])) {
        lead--;
    }
    if (lead == 0) {
        return 0;
    }
    lead--;
    return lead + announced(text[lead]) > length ? lead : length;
}
