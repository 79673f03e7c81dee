/* SPDX-License-Identifier: GPL-3.0-or-later */
/* instruments.csv: its columns, and what a row of it must hold. */
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

/* Enough for a string's length, and measurements that can stand beside each other. */
void mensur_check_measures(struct reading *reading, const struct mensur_stock *stock,
                           struct lookups lookups, const struct mensur_instrument *instrument);

/* The family, tuning and set that it names are there; a set without a string for a note of the
 * tuning is warned of. True where there was nothing to say. */
bool mensur_check_names(struct reading *reading, const struct mensur_stock *stock,
                        struct lookups lookups, const struct mensur_instrument *instrument);

#endif
