/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What a shop holds besides its instruments: families, tunings, strings,
 * materials, players. The reader fills it, the answers read it.
 */
#ifndef MENSUR_STOCK_H
#define MENSUR_STOCK_H

#include "instrument.h"
#include "stock_tables.h"
#include "string_spec.h"

/**
 * Frees all that a stock holds.
 *
 * @param stock  the stock; left empty
 */
void mensur_stock_clear(struct mensur_stock *stock);

/**
 * Finds a family by its name.
 *
 * @param stock  the stock
 * @param name   its name; NULL finds none
 * @return       borrowed, or NULL
 */
const struct mensur_family *mensur_stock_family(const struct mensur_stock *stock, const char *name);

/**
 * Finds a tuning by its name.
 *
 * @param stock  the stock
 * @param name   its name; NULL finds none
 * @return       borrowed, or NULL
 */
const struct mensur_tuning *mensur_stock_tuning(const struct mensur_stock *stock, const char *name);

/**
 * Finds a material by its name.
 *
 * @param stock  the stock
 * @param name   its name; NULL finds none
 * @return       borrowed, or NULL
 */
const struct mensur_material *mensur_stock_material(const struct mensur_stock *stock,
                                                    const char *name);

/**
 * Finds a player by name.
 *
 * @param stock  the stock
 * @param name   the name; NULL finds none
 * @return       borrowed, or NULL
 */
const struct mensur_player *mensur_stock_player(const struct mensur_stock *stock, const char *name);

/**
 * Finds the string of a set that names a note.
 *
 * @param stock  the stock
 * @param set    name of the set; NULL finds none
 * @param note   the note; matched by pitch on the keyboard and its name
 * @return       borrowed, or NULL
 */
const struct mensur_string_spec *mensur_stock_set_string(const struct mensur_stock *stock,
                                                         const char *set,
                                                         const struct mensur_note *note);

#endif
