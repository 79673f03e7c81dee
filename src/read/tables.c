/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of all tables. */
#include "tables.h"

struct reading mensur_reading(enum mensur_table table, struct mensur_source *source,
                              struct mensur_stock *stock, bool compared,
                              struct mensur_report *report) {
    static const struct layout *const layouts[MENSUR_TABLE_COUNT] = {
        [MENSUR_TABLE_INSTRUMENTS] = &mensur_instruments_layout,
        [MENSUR_TABLE_STRINGS] = &mensur_strings_layout,
        [MENSUR_TABLE_TUNINGS] = &mensur_tunings_layout,
        [MENSUR_TABLE_PLAYERS] = &mensur_players_layout,
        [MENSUR_TABLE_FAMILIES] = &mensur_families_layout,
        [MENSUR_TABLE_MATERIALS] = &mensur_materials_layout,
        [MENSUR_TABLE_WIRES] = &mensur_wires_layout,
        [MENSUR_TABLE_SETTINGS] = &mensur_settings_layout,
    };
    return (struct reading){.table = table,
                            .layout = layouts[table],
                            .source = source,
                            .log = {.file = source->label, .report = report},
                            .stock = stock,
                            .compared = compared};
}
