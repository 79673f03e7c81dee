/* SPDX-License-Identifier: GPL-3.0-or-later */
/* materials.csv: density, modulus, strength, and the range of published values. */
#include <stdlib.h>

#include "table.h"
#include "tables.h"

enum {
    NAME,
    DENSITY,
    MODULUS,
    STRENGTH,
    LOW_DENSITY,
    HIGH_DENSITY,
    LOW_STRENGTH,
    HIGH_STRENGTH,
    SOURCE,
    COLUMN_COUNT
};

static const char *const columns[COLUMN_COUNT] = {"name",         "density",       "modulus",
                                                  "strength",     "low_density",   "high_density",
                                                  "low_strength", "high_strength", "source"};

static enum mensur_status keep(struct reading *reading, struct mensur_material *material) {
    struct mensur_stock *stock = reading->context;
    struct mensur_material *rows =
        mensur_grow(stock->materials, stock->material_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->materials = rows;
    enum mensur_status status = mensur_cell_copy(reading, NAME, &material->name);
    if (status == MENSUR_OK) {
        status = mensur_cell_copy(reading, SOURCE, &material->source);
    }
    if (status != MENSUR_OK) {
        free(material->name);
        return status;
    }
    rows[stock->material_count++] = *material;
    return MENSUR_OK;
}

/* The ends of a range of published values are checked and not kept. */
static void check_range(struct reading *reading, int low, int high, enum mensur_kind kind) {
    double least = mensur_cell_value(reading, low, kind, RANGE_POSITIVE);
    double most = mensur_cell_value(reading, high, kind, RANGE_POSITIVE);
    if (least > most) {
        mensur_cell_error(reading, low, "%s: it is more than %s", columns[low], columns[high]);
    }
}

static enum mensur_status take_row(struct reading *reading) {
    struct mensur_material material = {
        .density = mensur_cell_value(reading, DENSITY, MENSUR_DENSITY, RANGE_POSITIVE),
        .modulus = mensur_cell_value(reading, MODULUS, MENSUR_MODULUS, RANGE_POSITIVE),
        .strength = mensur_cell_value(reading, STRENGTH, MENSUR_STRESS, RANGE_POSITIVE),
    };
    check_range(reading, LOW_DENSITY, HIGH_DENSITY, MENSUR_DENSITY);
    check_range(reading, LOW_STRENGTH, HIGH_STRENGTH, MENSUR_STRESS);
    return mensur_row_good(reading) ? keep(reading, &material) : MENSUR_OK;
}

static const struct layout layout = {
    .columns = columns, .count = COLUMN_COUNT, .required = 1, .named = true, .take_row = take_row};

enum mensur_status mensur_read_materials(struct mensur_source *source, struct mensur_report *report,
                                         struct mensur_stock *stock) {
    return mensur_table_read_into(&layout, source, report, stock);
}
