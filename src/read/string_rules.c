/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Rules for a row of strings.csv. It must give the density in one of four ways, the first that is
 * there: a stated linear density; a stated tension and its length; a core with its wrappings; a
 * plain diameter. Only the last two need densities of materials, which must then be known.
 */
#include "string_rules.h"

#include "suggest.h"

static bool given(const struct reading *reading, enum string_column column) {
    return mensur_cell_given(reading, (int)column);
}

static bool has_wraps(const struct reading *reading) {
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (mensur_cell_given(reading, STRING_WRAP1_MATERIAL + 4 * i) ||
            mensur_cell_given(reading, STRING_WRAP1_THICKNESS + 4 * i)) {
            return true;
        }
    }
    return false;
}

/* Whether the row gives all that its way to the density needs. */
static bool is_complete(const struct reading *reading, enum mensur_string_way way) {
    static const enum string_column needs[] = {[MENSUR_WAY_STATED] = STRING_LINEAR_DENSITY,
                                               [MENSUR_WAY_TENSION] = STRING_STATED_LENGTH,
                                               [MENSUR_WAY_WRAPPED] = STRING_CORE_DIAMETER,
                                               [MENSUR_WAY_PLAIN] = STRING_DIAMETER};
    return given(reading, needs[way]);
}

static void refuse_incomplete(struct reading *reading) {
    if (given(reading, STRING_STATED_TENSION)) {
        mensur_cell_error(reading, STRING_STATED_LENGTH,
                          "stated_length: the cell is empty; a stated_tension holds for a length");
    } else if (has_wraps(reading)) {
        mensur_cell_error(reading, STRING_CORE_DIAMETER,
                          "core_diameter: the cell is empty; a wrapped string needs it, or a "
                          "linear_density, or stated_tension and stated_length");
    } else {
        mensur_cell_error(reading, STRING_LINEAR_DENSITY,
                          "linear_density: the cell is empty; a string needs it, or stated_tension "
                          "and stated_length, or core_diameter and its wrappings, or diameter");
    }
}

static const char *suggest_material(const struct mensur_stock *stock, const char *name,
                                    char out[MENSUR_SUGGEST_ROOM]) {
    struct known_names names = {.rows = stock->materials,
                                .count = stock->material_count,
                                .size = sizeof(*stock->materials),
                                .offset = offsetof(struct mensur_material, name)};
    return mensur_suggest(name, &names, out);
}

/* The core and each wrapping need a density of their own or a material whose density is known. */
static void need_density(struct reading *reading, const struct mensur_stock *stock,
                         int material_column, int density_column) {
    const char *material = mensur_cell_text(reading, material_column);
    const struct mensur_material *row = mensur_stock_material(stock, material);
    const char *column = reading->layout->columns[material_column];
    const char *density = reading->layout->columns[density_column];
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    if (mensur_cell_given(reading, density_column) || (row != NULL && row->density > 0)) {
        return;
    }
    if (material == NULL) {
        mensur_cell_error(reading, material_column,
                          "%s: the cell is empty; the string's density is computed, and needs it "
                          "or a %s",
                          column, density);
    } else if (row != NULL) {
        mensur_cell_error(reading, material_column,
                          "%s: the density of \"%s\" is not known; give a %s", column,
                          mensur_log_short(material, cut), density);
    } else {
        mensur_cell_error(reading, material_column,
                          "%s: \"%s\" is unknown, and the density is to be taken from it; %s Or "
                          "give a %s",
                          column, mensur_log_short(material, cut),
                          suggest_material(stock, material, suggestion), density);
    }
}

/* A wrapping needs thickness, shape and density; ended: the wrapping inside it is missing. */
static void check_wrap(struct reading *reading, const struct mensur_stock *stock, int material,
                       bool ended) {
    const char *const *columns = reading->layout->columns;
    int density = material + STRING_WRAP1_DENSITY - STRING_WRAP1_MATERIAL;
    int shape = material + STRING_WRAP1_SHAPE - STRING_WRAP1_MATERIAL;
    int thickness = material + STRING_WRAP1_THICKNESS - STRING_WRAP1_MATERIAL;
    if (!mensur_cell_given(reading, thickness)) {
        mensur_cell_error(reading, thickness, "%s: the cell is empty; a wrapping needs it",
                          columns[thickness]);
    }
    if (ended) {
        mensur_cell_error(reading, thickness,
                          "%s: the wrapping inside it is missing; they stand from the inside out",
                          columns[thickness]);
    }
    if (!mensur_cell_given(reading, shape)) {
        mensur_cell_error(reading, shape, "%s: the cell is empty; write round or flat",
                          columns[shape]);
    }
    need_density(reading, stock, material, density);
}

static void check_wraps(struct reading *reading, const struct mensur_stock *stock) {
    bool ended = false;
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        int material = STRING_WRAP1_MATERIAL + 4 * i;
        bool there = mensur_cell_given(reading, material) ||
                     mensur_cell_given(reading, STRING_WRAP1_THICKNESS + 4 * i);
        if (there) {
            check_wrap(reading, stock, material, ended);
        }
        ended = ended || !there;
    }
}

/* Warns of an unknown material whose density is not needed: modulus and strength stay unknown. */
static void warn_of_material(struct reading *reading, const struct mensur_stock *stock) {
    const char *material = mensur_cell_text(reading, STRING_MATERIAL);
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    if (material == NULL || mensur_stock_material(stock, material) != NULL ||
        given(reading, STRING_MODULUS)) {
        return;
    }
    mensur_cell_warning(reading, STRING_MATERIAL,
                        "material: \"%s\" is unknown, so modulus and strength are too; %s",
                        mensur_log_short(material, cut),
                        suggest_material(stock, material, suggestion));
}

void mensur_check_string(struct reading *reading, const struct mensur_stock *stock) {
    enum mensur_string_way way = mensur_string_way(
        given(reading, STRING_LINEAR_DENSITY), given(reading, STRING_STATED_TENSION),
        has_wraps(reading) || given(reading, STRING_CORE_DIAMETER));
    bool complete = is_complete(reading, way);
    if (!complete) {
        refuse_incomplete(reading);
    }
    if (complete && way == MENSUR_WAY_WRAPPED) {
        check_wraps(reading, stock);
    }
    if (complete && (way == MENSUR_WAY_WRAPPED || way == MENSUR_WAY_PLAIN)) {
        need_density(reading, stock, STRING_MATERIAL, STRING_DENSITY);
    }
    bool stated = complete && (way == MENSUR_WAY_STATED || way == MENSUR_WAY_TENSION);
    if (stated || given(reading, STRING_DENSITY)) {
        warn_of_material(reading, stock);
    }
}
