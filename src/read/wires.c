/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wire_strength.csv: tensile strength of drawn wire by diameter, as standards require it. */
#include <string.h>

#include "tables.h"

enum { MATERIAL, DIAMETER, LOW, HIGH };

static void require_cells(struct reading *reading) {
    for (int i = MATERIAL; i <= HIGH; i++) {
        if (mensur_has_column(reading, i) && !mensur_cell_given(reading, i)) {
            mensur_cell_error(reading, i, "%s: the cell is empty; every row needs it",
                              reading->layout->columns[i].name);
        }
    }
}

/* Requires the rows of one material to be together, in order of diameter. */
static void check_order(struct reading *reading, const struct mensur_wire_strength *wire) {
    const struct mensur_stock *stock = reading->stock;
    const char *material = mensur_cell_text(reading, MATERIAL);
    for (size_t i = stock->wire_count; material != NULL && i > 0; i--) {
        const struct mensur_wire_strength *before = &stock->wires[i - 1];
        if (strcmp(before->material, material) != 0) {
            continue;
        }
        if (i != stock->wire_count) {
            mensur_cell_error(reading, MATERIAL,
                              "material: the rows of one material stand together");
        } else if (wire->diameter <= before->diameter) {
            mensur_cell_error(reading, DIAMETER,
                              "diameter: it is not more than in the row before; the diameters of a "
                              "material rise");
        }
        return;
    }
}

static void check(struct reading *reading, void *row) {
    const struct mensur_wire_strength *wire = row;
    require_cells(reading);
    if (wire->strength_low > wire->strength_high) {
        mensur_cell_error(reading, LOW, "strength_low: it is more than strength_high");
    }
    check_order(reading, wire);
}

#define AT(member) .at = offsetof(struct mensur_wire_strength, member), .required = true

static const struct column columns[] = {
    [MATERIAL] = {.name = "material", .how = CELL_TEXT, AT(material)},
    [DIAMETER] = {.name = "diameter", .how = CELL_VALUE, AT(diameter)},
    [LOW] = {.name = "strength_low", .how = CELL_VALUE, AT(strength_low), .kind = MENSUR_STRESS},
    [HIGH] = {.name = "strength_high", .how = CELL_VALUE, AT(strength_high), .kind = MENSUR_STRESS},
    {.name = "source", .how = CELL_TEXT, .at = offsetof(struct mensur_wire_strength, source)},
};

const struct layout mensur_wires_layout = {
    .columns = columns, .count = sizeof(columns) / sizeof(columns[0]), .check = check};
