/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: its columns, and the rules for a row. */
#ifndef MENSUR_READ_INSTRUMENT_RULES_H
#define MENSUR_READ_INSTRUMENT_RULES_H

#include "table.h"
#include "tables.h"

/* Columns of instruments.csv: the texts, then the measurements in the order of their list. */
enum instrument_column {
    INSTRUMENT_NAME,
    INSTRUMENT_FAMILY,
    INSTRUMENT_TUNING,
    INSTRUMENT_STRINGS,
    INSTRUMENT_NOTE,
    INSTRUMENT_FIRST_FIELD,
    INSTRUMENT_COLUMN_COUNT = INSTRUMENT_FIRST_FIELD + MENSUR_FIELD_COUNT
};

/* Column of a measurement. */
#define INSTRUMENT_COLUMN(field) (INSTRUMENT_FIRST_FIELD + (int)MENSUR_FIELD_##field)

/* Refuses a row without a string length or both stop and neck, and contradicting measurements. */
void mensur_check_measures(struct reading *reading, const struct mensur_stock *stock,
                           struct lookups lookups, const struct mensur_instrument *instrument);

/* Refuses unknown names of family, tuning and set; warns of a set without a string for a note of
 * the tuning. True where there was neither an error nor a warning. */
bool mensur_check_names(struct reading *reading, const struct mensur_stock *stock,
                        struct lookups lookups, const struct mensur_instrument *instrument);

#endif
