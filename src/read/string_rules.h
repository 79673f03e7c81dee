/* SPDX-License-Identifier: GPL-3.0-or-later */
/* strings.csv: its columns, and the rules for a row. */
#ifndef MENSUR_READ_STRING_RULES_H
#define MENSUR_READ_STRING_RULES_H

#include "table.h"

/* Columns of strings.csv; each wrapping has four. */
enum string_column {
    STRING_NAME,
    STRING_NOTE,
    STRING_SET,
    STRING_MATERIAL,
    STRING_CONSTRUCTION,
    STRING_LINEAR_DENSITY,
    STRING_STATED_TENSION,
    STRING_STATED_LENGTH,
    STRING_STATED_A4,
    STRING_DENSITY_STATE,
    STRING_DIAMETER,
    STRING_DENSITY,
    STRING_CORE_DIAMETER,
    STRING_STRANDS,
    STRING_WRAP1_MATERIAL,
    STRING_WRAP1_DENSITY,
    STRING_WRAP1_SHAPE,
    STRING_WRAP1_THICKNESS,
    STRING_MODULUS = STRING_WRAP1_MATERIAL + 4 * MENSUR_WRAPS_MAX,
    STRING_STRENGTH,
    STRING_MADE_FOR_LOW,
    STRING_MADE_FOR_HIGH,
    STRING_SOURCE,
    STRING_COLUMN_COUNT
};

/* Checks that the row gives a density and that the materials it needs are known; errors go to the
 * row. */
void mensur_check_string(struct reading *reading, const struct mensur_stock *stock);

#endif
