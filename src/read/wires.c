/* SPDX-License-Identifier: GPL-3.0-or-later */
/* wire_strength.csv: tensile strength of drawn wire by diameter, as standards require it. */
#include <stdlib.h>
#include <string.h>

#include "table.h"
#include "tables.h"

enum { MATERIAL, DIAMETER, LOW, HIGH, SOURCE, COLUMN_COUNT };

static const char *const columns[COLUMN_COUNT] = {"material", "diameter", "strength_low",
                                                  "strength_high", "source"};

static enum mensur_status keep(struct reading *reading, struct mensur_wire_strength *wire) {
    struct mensur_stock *stock = reading->context;
    struct mensur_wire_strength *rows = mensur_grow(stock->wires, stock->wire_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->wires = rows;
    enum mensur_status status = mensur_cell_copy(reading, MATERIAL, &wire->material);
    if (status == MENSUR_OK) {
        status = mensur_cell_copy(reading, SOURCE, &wire->source);
    }
    if (status != MENSUR_OK) {
        free(wire->material);
        return status;
    }
    rows[stock->wire_count++] = *wire;
    return MENSUR_OK;
}

static void require_cells(struct reading *reading) {
    for (int i = MATERIAL; i <= HIGH; i++) {
        if (mensur_has_column(reading, i) && !mensur_cell_given(reading, i)) {
            mensur_cell_error(reading, i, "%s: the cell is empty; every row needs it", columns[i]);
        }
    }
}

/* Requires the rows of one material to be together, in order of diameter. */
static void check_order(struct reading *reading, const struct mensur_wire_strength *wire) {
    const struct mensur_stock *stock = reading->context;
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

static enum mensur_status take_row(struct reading *reading) {
    struct mensur_wire_strength wire = {
        .diameter = mensur_cell_value(reading, DIAMETER, MENSUR_LENGTH, RANGE_POSITIVE),
        .strength_low = mensur_cell_value(reading, LOW, MENSUR_STRESS, RANGE_POSITIVE),
        .strength_high = mensur_cell_value(reading, HIGH, MENSUR_STRESS, RANGE_POSITIVE),
    };
    require_cells(reading);
    if (wire.strength_low > wire.strength_high) {
        mensur_cell_error(reading, LOW, "strength_low: it is more than strength_high");
    }
    check_order(reading, &wire);
    return mensur_row_good(reading) ? keep(reading, &wire) : MENSUR_OK;
}

static const struct layout layout = {
    .columns = columns, .count = COLUMN_COUNT, .required = 4, .take_row = take_row};

enum mensur_status mensur_read_wires(struct mensur_source *source, struct mensur_report *report,
                                     struct mensur_stock *stock) {
    return mensur_table_read_into(&layout, source, report, stock);
}
