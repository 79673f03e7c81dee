/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The layouts of all tables. */
#include "tables.h"

#include <limits.h>
#include <string.h>

#include "heads.h"
#include "shop_files.h"

static const struct layout *layout_of(enum mensur_table table) {
    static const struct layout *const layouts[MENSUR_TABLE_COUNT] = {
        [MENSUR_TABLE_INSTRUMENTS] = &mensur_instruments_layout,
        [MENSUR_TABLE_STRINGS] = &mensur_strings_layout,
        [MENSUR_TABLE_TUNINGS] = &mensur_tunings_layout,
        [MENSUR_TABLE_PLAYERS] = &mensur_players_layout,
        [MENSUR_TABLE_FAMILIES] = &mensur_families_layout,
        [MENSUR_TABLE_MATERIALS] = &mensur_materials_layout,
        [MENSUR_TABLE_WIRES] = &mensur_wires_layout,
        [MENSUR_TABLE_SETTINGS] = &mensur_settings_layout,
        [MENSUR_TABLE_SIZES] = &mensur_sizes_layout,
        [MENSUR_TABLE_POSITIONS] = &mensur_positions_layout,
    };
    return layouts[table];
}

struct reading mensur_reading(enum mensur_table table, struct mensur_source *source,
                              struct mensur_stock *stock, bool compared,
                              struct mensur_report *report) {
    return (struct reading){.table = table,
                            .layout = layout_of(table),
                            .source = source,
                            .log = {.file = source->label, .report = report},
                            .stock = stock,
                            .compared = compared};
}

/* How many columns the heads name, and how many that each file needs they do not. */
static void count_columns(enum mensur_table table, const char *heads, size_t size, int *known,
                          int *lacking) {
    const struct layout *layout = layout_of(table);
    *known = *lacking = 0;
    for (int i = 0; i < layout->count; i++) {
        *lacking += layout->columns[i].required ? 1 : 0;
    }
    for (size_t at = 0; at < size; at += strlen(heads + at) + 1) {
        struct head head = mensur_head_read(table, layout, heads + at);
        *known += head.column >= 0 || head.may_mean != NULL ? 1 : 0;
        *lacking -= head.column >= 0 && layout->columns[head.column].required ? 1 : 0;
    }
}

int mensur_table_of_heads(const char *heads, size_t size) {
    int found = -1, most = 1, least = INT_MAX;
    for (int table = 0; table < MENSUR_TABLE_COUNT; table++) {
        int known = 0, lacking = 0;
        count_columns((enum mensur_table)table, heads, size, &known, &lacking);
        if (known > most || (known == most && found >= 0 && lacking < least)) {
            most = known;
            least = lacking;
            found = table;
        }
    }
    return found;
}
