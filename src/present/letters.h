/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Letters of a text as a terminal shows them: their width, and a replacement for control
 * characters.
 */
#ifndef MENSUR_PRESENT_LETTERS_H
#define MENSUR_PRESENT_LETTERS_H

#include <stdint.h>

#include "sink.h"
#include "utf8.h"

/* Columns of a line of text at most. */
#define MENSUR_TEXT_WIDTH 80

/* A blank at which a line is not broken; shown as a plain one. */
#define MENSUR_NO_BREAK "\xC2\xA0"

/* Unicode first-strong isolate and its end: the text between them has a direction of its own. */
#define MENSUR_ISOLATE "\xE2\x81\xA8"
#define MENSUR_ISOLATE_END "\xE2\x81\xA9"

/* One letter, ready to be shown. */
struct mensur_letter {
    char bytes[MENSUR_UTF8_MOST];
    size_t length; /* of bytes */
    uint32_t code; /* of what is shown */
    size_t width;  /* columns: 0 for a combining mark, else 1 */
    size_t used;   /* bytes of the text that it represents */
    bool breaks;   /* a plain blank */
};

/* The letter at the start of a text that is not at its end. Control characters, and those that
 * turn the direction of what follows, become '?'; so does what is not UTF-8. */
struct mensur_letter mensur_letter_at(const char *text);

/* Columns that a text takes. */
size_t mensur_shown_width(const char *text);

/* Writes a text as it may be shown. */
void mensur_out_shown(struct mensur_out *out, const char *text);

/* A copy in which what is not UTF-8 is replaced by '?'; the caller frees it; NULL without memory.
 */
char *mensur_valid_copy(const char *text);

#endif
