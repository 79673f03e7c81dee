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

/** The most strings of a set that is used for other notes than its own. */
#define MENSUR_SET_MOST 64

/* Frees all that a stock holds and leaves it empty. */
void mensur_stock_clear(struct mensur_stock *stock);

/* Finds a family, tuning, material, player or size by name; borrowed; NULL where there is none or
 * no name. */
const struct mensur_family *mensur_stock_family(const struct mensur_stock *stock, const char *name);
const struct mensur_tuning *mensur_stock_tuning(const struct mensur_stock *stock, const char *name);
const struct mensur_material *mensur_stock_material(const struct mensur_stock *stock,
                                                    const char *name);
const struct mensur_player *mensur_stock_player(const struct mensur_stock *stock, const char *name);
const struct mensur_named_size *mensur_stock_size(const struct mensur_stock *stock,
                                                  const char *name);

/* Finds the string of a set for a note (its pitch on the keyboard and its name); borrowed; NULL
 * where there is none or no set. */
const struct mensur_string_spec *mensur_stock_set_string(const struct mensur_stock *stock,
                                                         const char *set,
                                                         const struct mensur_note *note);

/* The tuning of an instrument: its own, else the named one, else the one that bears its family's
 * name, or that of the family which this one is like; borrowed from it or from the stock; NULL
 * where there is none. */
const struct mensur_tuning *mensur_instrument_tuning(const struct mensur_stock *stock,
                                                     const struct mensur_instrument *instrument);

/* The strings of a set for the notes of a tuning, each NULL where it has none; borrowed.
 *
 * A string belongs to the note that bears its name. Where the other notes lie at most 5 semitones
 * from the free strings in their places, they take those: the places are counted from the lowest
 * between the notes that have their own, and where notes and strings are not equal in number, as
 * many find one another as can, with the fewest semitones in all. Where a note finds none so
 * although a string is left, all strings belong to the notes in their order from the lowest, none
 * to one that lies more than 7 semitones from its own. A set of more than MENSUR_SET_MOST strings
 * goes by names alone. The rule is ours. */
void mensur_stock_set_strings(const struct mensur_stock *stock, const char *set,
                              const struct mensur_tuning *tuning,
                              const struct mensur_string_spec *strings[MENSUR_STRINGS_MAX]);

/* The notes of a set's own strings from the lowest, as a tuning that bears the set's name (borrowed
 * from the stock): MENSUR_OK; MENSUR_USE where it has no string, or over MENSUR_STRINGS_MAX. */
enum mensur_status mensur_stock_set_tuning(const struct mensur_stock *stock, const char *set,
                                           struct mensur_tuning *out);

#endif
