/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures inside sentences: numbers printed by the library, never by printf. */
#ifndef MENSUR_WORDS_H
#define MENSUR_WORDS_H

#include <stdbool.h>

#include "number.h"
#include "quantity.h"

/* Room for one printed figure with its unit. */
struct words {
    char text[MENSUR_NUMBER_ROOM + 16];
};

/* "375.8 mm" or "14.79 in". */
const char *words_length(double metres, bool inches, struct words *room);

/* "375.8" or "14.79", where the unit follows later in the sentence. */
const char *words_length_bare(double metres, bool inches, struct words *room);

/* "mm" or "in". */
const char *words_length_unit(bool inches);

/* A number with so many decimals. */
const char *words_number(double value, int decimals, struct words *room);

/* "62.1 N" or "6.33 kgf". */
const char *words_force(double newtons, enum mensur_force_unit unit, struct words *room);

/* A ratio as percent more than 1, without its sign: 1.036 gives "3.6 %", 0.95 gives "5.0 %". */
const char *words_percent(double ratio, struct words *room);

#endif
