/* SPDX-License-Identifier: GPL-3.0-or-later */
/* materials.csv: density, modulus, strength, and the range of published values. */
#include "tables.h"

static void check_density(struct reading *reading, int column, void *row) {
    const struct material_row *material = row;
    if (material->low_density > material->high_density) {
        mensur_cell_error(reading, column - 1, "low_density: it is more than high_density");
    }
}

static void check_strength(struct reading *reading, int column, void *row) {
    const struct material_row *material = row;
    if (material->kept.low_strength > material->kept.high_strength) {
        mensur_cell_error(reading, column - 1, "low_strength: it is more than high_strength");
    }
}

#define AT(member) .at = offsetof(struct material_row, member)

static const struct column columns[] = {
    {.name = "name", .how = CELL_TEXT, AT(kept.name), .required = true},
    {.name = "density", .how = CELL_VALUE, AT(kept.density), .kind = MENSUR_DENSITY},
    {.name = "modulus", .how = CELL_VALUE, AT(kept.modulus), .kind = MENSUR_MODULUS},
    {.name = "strength", .how = CELL_VALUE, AT(kept.strength), .kind = MENSUR_STRESS},
    {.name = "low_density", .how = CELL_VALUE, AT(low_density), .kind = MENSUR_DENSITY},
    {.name = "high_density",
     .how = CELL_VALUE,
     AT(high_density),
     .kind = MENSUR_DENSITY,
     .rule = check_density},
    {.name = "low_strength", .how = CELL_VALUE, AT(kept.low_strength), .kind = MENSUR_STRESS},
    {.name = "high_strength",
     .how = CELL_VALUE,
     AT(kept.high_strength),
     .kind = MENSUR_STRESS,
     .rule = check_strength},
    {.name = "source", .how = CELL_TEXT, AT(kept.source)},
};

const struct layout mensur_materials_layout = {
    .columns = columns, .count = sizeof(columns) / sizeof(columns[0]), .named = true};
