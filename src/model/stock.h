/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What a shop holds besides its instruments: families, tunings, strings,
 * materials, players. The reader fills it, the answers read it.
 */
#ifndef MENSUR_STOCK_H
#define MENSUR_STOCK_H

#include "instrument.h"
#include "setting.h"
#include "stock_tables.h"
#include "string_spec.h"

/* Frees all that a stock holds and leaves it empty. */
void mensur_stock_clear(struct mensur_stock *stock);

/* Finds a family, tuning, material or player by name; borrowed; NULL where there is none or no
 * name. */
const struct mensur_family *mensur_stock_family(const struct mensur_stock *stock, const char *name);
const struct mensur_tuning *mensur_stock_tuning(const struct mensur_stock *stock, const char *name);
const struct mensur_material *mensur_stock_material(const struct mensur_stock *stock,
                                                    const char *name);
const struct mensur_player *mensur_stock_player(const struct mensur_stock *stock, const char *name);

/* Finds the string of a set for a note (its pitch on the keyboard and its name); borrowed; NULL
 * where there is none or no set. */
const struct mensur_string_spec *mensur_stock_set_string(const struct mensur_stock *stock,
                                                         const char *set,
                                                         const struct mensur_note *note);

#endif
