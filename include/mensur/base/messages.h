/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * A list of messages, as reading and asking fill it.
 *
 * Ownership, one rule for the whole library: whoever creates an object frees it; what a getter
 * returns is borrowed and valid as long as its owner. Every _clear accepts an object that is all
 * zero and leaves it so.
 */
#ifndef MENSUR_MESSAGES_H
#define MENSUR_MESSAGES_H

#include <stddef.h>

/** A growing list of texts that it owns. */
struct mensur_texts {
    char **items;
    size_t count;
    size_t room;
};

/**
 * Frees all texts.
 *
 * @param list  the list; left empty
 */
void mensur_texts_clear(struct mensur_texts *list);

#endif
