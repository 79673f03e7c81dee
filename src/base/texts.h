/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * One fault, texts added to a list, copies of text, distance between words.
 */
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

/**
 * Sets a fault's message. Only %s, %d, %ld, %zu and %c: numbers with decimals are
 * printed by mensur_number_print first, because printf's decimal mark depends on the locale.
 *
 * @param[out] fault  the fault; NULL is allowed and does nothing
 * @param format      as printf
 */
void mensur_fault_set(struct mensur_fault *fault, const char *format, ...) MENSUR_PRINTF(2, 3);

/**
 * Adds a text (same formats as mensur_fault_set, any length).
 *
 * @param list    the list
 * @param format  as printf
 * @return  MENSUR_OK or MENSUR_MEMORY
 */
enum mensur_status mensur_texts_add(struct mensur_texts *list, const char *format, ...)
    MENSUR_PRINTF(2, 3);

/**
 * Copies length bytes and adds a terminating NUL.
 *
 * @param text      bytes to copy
 * @param length    how many
 * @param[out] out  the caller's to free()
 * @return  MENSUR_OK or MENSUR_MEMORY
 */
enum mensur_status mensur_text_copy(const char *text, size_t length, char **out);

/**
 * Letters to change, insert, drop or swap with their neighbour to make one word of another
 * (a capital counts as equal to its small letter).
 *
 * Damerau 1964, Commun. ACM 7, 171-176, restricted form.
 *
 * @param a  a word
 * @param b  another
 * @return   the count; a large one (1000) where either is over 64 bytes
 */
int mensur_text_distance(const char *a, const char *b);

#endif
