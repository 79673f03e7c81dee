/* SPDX-License-Identifier: GPL-3.0-or-later */
/* UTF-8 (RFC 3629), letter by letter. */
#ifndef MENSUR_BASE_UTF8_H
#define MENSUR_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The longest letter, in bytes. */
#define MENSUR_UTF8_MOST 4

/* Bytes of the letter at the start of a text of that many bytes, and its code point; 0 where no
 * letter starts there: only the shortest form counts, and no surrogate. Reads no byte behind the
 * first that does not belong to the letter: for a text with an end mark any length of
 * MENSUR_UTF8_MOST or more will do. */
size_t mensur_utf8_letter(const char *text, size_t length, uint32_t *code);

/* Whether a code point steers a terminal instead of being shown: it is a control character (below
 * U+0020, U+007F to U+009F), a separator of lines or paragraphs (U+2028, U+2029), or it embeds,
 * overrides or isolates the direction of text (U+202A to U+202E, U+2066 to U+2069). */
bool mensur_utf8_steers(uint32_t code);

/* Copies so many bytes, a blank in the place of each letter that steers; what is no UTF-8 stays.
 * Returns the length of the copy, no more than the text's; without an end mark. */
size_t mensur_utf8_calm(const char *text, size_t length, char *out);

/* The length of a text without the letter that its end cuts through, if it does; 0 where no letter
 * begins in it. */
size_t mensur_utf8_whole(const char *text, size_t length);

#endif
