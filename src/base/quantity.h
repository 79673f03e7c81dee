/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A measured value read from the text of a cell: number, unit, standard uncertainty (±).
 *
 * Inside the library every value is in SI. A bare number (one without a unit) is in the
 * unit that workshops use: mm, N, g, g/m, GPa, MPa, kg/m3, Hz, degrees, semitones.
 */
#ifndef MENSUR_QUANTITY_H
#define MENSUR_QUANTITY_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "status.h"
#include "units.h"

/** A value and its standard uncertainty, both in SI. */
struct mensur_quantity {
    double value;      /**< SI unit of its kind; NaN where unknown */
    double plus_minus; /**< standard uncertainty in the same unit; 0 where none is stated */
};

/** Millimetres in an inch: exact by definition (NIST SP 811; from memory). */
#define MENSUR_MM_PER_INCH 25.4

/** An unknown quantity. */
#define MENSUR_UNKNOWN ((struct mensur_quantity){.value = NAN, .plus_minus = 0.0})

/*
 * Reads a quantity in SI: number, unit, and ± (or +-, or +/-) with the standard uncertainty.
 *
 * `222`, `222 mm`, `22.225cm`, `8.75in`, `8 3/4 in`, `8-3/4"`, `0.222 m`, `+222`, `222 ±0.5`,
 * `222 mm ± 0.5 mm`. Blanks around it (no-break ones too) are skipped; the whole text must be
 * used, and needs no terminating NUL. A unit written once, before or after the ±, holds for both
 * numbers. A fraction is one of an inch and needs its unit. A ± is never negative. decimal_comma: a
 * comma too separates the decimals. MENSUR_OK; MENSUR_DATA where the text is not such a quantity.
 */
enum mensur_status mensur_quantity_read(const char *text, size_t length, enum mensur_kind kind,
                                        bool decimal_comma, struct mensur_quantity *out);

/** A unit that a number may have. */
struct mensur_unit;

/* The unit of a kind with that name, in capitals or not; static; NULL where it has none such. */
const struct mensur_unit *mensur_unit_find(enum mensur_kind kind, const char *name);

/* The same as mensur_quantity_read, of a column whose head names the unit of its bare numbers (one
 * of the kind; NULL: the kind's). A fraction needs no unit where that is the inch. */
enum mensur_status mensur_quantity_read_in(const char *text, size_t length, enum mensur_kind kind,
                                           const struct mensur_unit *unit, bool decimal_comma,
                                           struct mensur_quantity *out);

/** Room for what mensur_quantity_wanted says. */
#define MENSUR_WANTED_ROOM 160

/* What would do in place of a text that is no quantity of its kind, to follow "is not": of a
 * fraction without its mark, of a range, of feet the cell to write; else mensur_kind_wanted. */
const char *mensur_quantity_wanted(const char *text, size_t length, enum mensur_kind kind,
                                   bool decimal_comma, char out[MENSUR_WANTED_ROOM]);

/** A unit of force. */
struct mensur_force_unit_info {
    const char *name; /**< "kg", "N", "lb" */
    double newtons;   /**< N in one unit */
    int decimals;     /**< decimals shown */
};

/* Name, size and decimals of a unit of force; borrowed. */
const struct mensur_force_unit_info *mensur_force_unit_info(enum mensur_force_unit unit);

/** Room for any length of mensur_inches_print. */
#define MENSUR_INCHES_ROOM 48

/* Prints a length in m as inches with the nearest fraction of at most 1/64, as a rule is read:
 * "5 43/64", "14 1/4", "3", "-1/2", "0"; "?" where it is not known. */
void mensur_inches_print(double metres, char room[MENSUR_INCHES_ROOM]);

/* The unit of a bare number of a kind, such as "mm"; "" for a unitless one; borrowed. */
const char *mensur_kind_unit(enum mensur_kind kind);

/* What a kind is called in a message, with an example: "a length, for example 222, 222 mm or
 * 8-3/4\""; borrowed. */
const char *mensur_kind_wanted(enum mensur_kind kind);

/* Converts an SI value to the kind's bare unit. */
double mensur_from_si(enum mensur_kind kind, double value);

/* Converts a value in the kind's bare unit to SI. */
double mensur_to_si(enum mensur_kind kind, double value);

#endif
