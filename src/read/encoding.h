/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Encoding of a cell: UTF-8 is kept, anything else is read as Windows-1252. */
#ifndef MENSUR_READ_ENCODING_H
#define MENSUR_READ_ENCODING_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of UTF-8 that one byte of Windows-1252 becomes at most. */
#define MENSUR_ENCODING_GROWTH 3

/* Tells whether the bytes are UTF-8 (shortest forms only, no surrogates). */
bool mensur_is_utf8(const unsigned char *bytes, size_t length);

/* Windows-1252 to UTF-8; out has room for MENSUR_ENCODING_GROWTH times the length. Returns the
 * length written. */
size_t mensur_from_windows_1252(const unsigned char *bytes, size_t length, char *out);

/* Moves start and length past blanks at both ends, no-break ones too. */
void mensur_trim(const char *bytes, size_t *start, size_t *length);

#endif
