/* SPDX-License-Identifier: GPL-3.0-or-later */
/* materials.csv: density, modulus, strength, and the range of published values: anything between
 * its ends is taken for equally likely, which has the standard uncertainty of half the range over
 * the root of 3 (JCGM 100:2008, 4.3.7, from memory). */
#include <math.h>

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

static void check(struct reading *reading, void *row) {
    struct material_row *material = row;
    (void)reading;
    material->kept.density_spread =
        (material->high_density - material->low_density) / 2.0 / sqrt(3.0);
    material->kept.strength_spread =
        (material->kept.high_strength - material->kept.low_strength) / 2.0 / sqrt(3.0);
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

const struct layout mensur_materials_layout = {.columns = columns,
                                               .count = sizeof(columns) / sizeof(columns[0]),
                                               .named = true,
                                               .check = check};
