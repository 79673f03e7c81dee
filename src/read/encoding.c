/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Encoding of a cell: UTF-8 (RFC 3629) is kept, anything else is read as Windows-1252.
 *
 * The five bytes that Windows-1252 leaves undefined become the control character of the same
 * number, as in browsers.
 */
#include "encoding.h"

#include <string.h>

#include "utf8.h"

/* 0x80 to 0x9F, from memory of the code page's published table */
static const unsigned short high[32] = {
    0x20AC, 0x0081, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x008D, 0x017D, 0x008F, 0x0090, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x009D, 0x017E, 0x0178,
};

bool mensur_is_utf8(const unsigned char *bytes, size_t length) {
    for (size_t i = 0; i < length;) {
        uint32_t code;
        size_t letter = mensur_utf8_letter((const char *)bytes + i, length - i, &code);
        if (letter == 0) {
            return false;
        }
        i += letter;
    }
    return true;
}

size_t mensur_from_windows_1252(const unsigned char *bytes, size_t length, char *out) {
    char *to = out;
    for (size_t i = 0; i < length; i++) {
        unsigned code = bytes[i] >= 0x80 && bytes[i] < 0xA0 ? high[bytes[i] - 0x80] : bytes[i];
        if (code < 0x80) {
            *to++ = (char)code;
        } else if (code < 0x800) {
            *to++ = (char)(0xC0 | code >> 6);
            *to++ = (char)(0x80 | (code & 0x3F));
        } else {
            *to++ = (char)(0xE0 | code >> 12);
            *to++ = (char)(0x80 | (code >> 6 & 0x3F));
            *to++ = (char)(0x80 | (code & 0x3F));
        }
    }
    return (size_t)(to - out);
}

static bool is_blank(char letter) {
    return letter == ' ' || letter == '\t' || letter == '\r' || letter == '\n';
}

static bool is_no_break(const char *at) {
    return memcmp(at, "\xC2\xA0", 2) == 0;
}

void mensur_trim(const char *bytes, size_t *start, size_t *length) {
    size_t from = *start, to = *start + *length;
    for (;;) {
        if (to > from && is_blank(bytes[from])) {
            from++;
        } else if (to - from >= 2 && is_no_break(bytes + from)) {
            from += 2;
        } else if (to > from && is_blank(bytes[to - 1])) {
            to--;
        } else if (to - from >= 2 && is_no_break(bytes + to - 2)) {
            to -= 2;
        } else {
            break;
        }
    }
    *start = from;
    *length = to - from;
}
