/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The habits of a shop in the place of options that are not given. */
#ifndef MENSUR_ASK_SETTINGS_H
#define MENSUR_ASK_SETTINGS_H

#include "stock_tables.h"
#include "words.h"

/* Puts the shop's habits where the words leave an option open that goes with their command; the
 * question notes those that differ from what holds without them, and the shop's heading. What it
 * holds is borrowed from the stock. */
void ask_settings_take(const struct mensur_stock *stock, struct words *words,
                       struct mensur_question *question);

/* The shop's heading, borrowed; NULL where it has none. */
const char *ask_settings_heading(const struct mensur_stock *stock);

#endif
