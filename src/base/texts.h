/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One fault, texts added to a list, copies of text, distance between words. */
#ifndef MENSUR_TEXTS_H
#define MENSUR_TEXTS_H

#include <stddef.h>

#include "messages.h"
#include "status.h"

#if defined(__GNUC__)
#define MENSUR_PRINTF(text_at, first_at) __attribute__((__format__(__printf__, text_at, first_at)))
#else
#define MENSUR_PRINTF(text_at, first_at)
#endif

/** Why an answer was refused: one message for a person. */
struct mensur_fault {
    char text[1024]; /**< UTF-8; a longer message is cut between two letters */
};

/* Sets a fault's message (fault may be NULL). Only %s, %d, %ld, %zu and %c: numbers with
 * decimals are printed by mensur_number_print first, because printf's decimal mark depends on
 * the locale. */
void mensur_fault_set(struct mensur_fault *fault, const char *format, ...) MENSUR_PRINTF(2, 3);

/* Adds a text of any length, in the same formats. MENSUR_MEMORY. */
enum mensur_status mensur_texts_add(struct mensur_texts *list, const char *format, ...)
    MENSUR_PRINTF(2, 3);

/* Copies length bytes and adds a terminating NUL; the caller's to free. MENSUR_MEMORY. */
enum mensur_status mensur_text_copy(const char *text, size_t length, char **out);

/* Letters to change, insert, drop or swap with their neighbour to make one word of another, a
 * capital counting as its small letter; 1000 where either is over 64 bytes. Damerau 1964,
 * Commun. ACM 7, 171-176, restricted form. */
int mensur_text_distance(const char *a, const char *b);

#endif
