/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * strings.csv: a string for a note. A row must give the density in one of five ways, the first that
 * is there: a stated linear density; mass and length of strings that were weighed; a stated tension
 * and its length; a core with its wrappings; a plain diameter. Only the last two need densities of
 * materials, which must then be known.
 */
#include <math.h>
#include <string.h>

#include "tables.h"

/* In the order in which they are read; each wrapping has four. */
enum {
    NAME,
    DENSITY_STATE,
    NOTE,
    SET,
    MATERIAL,
    CONSTRUCTION,
    LINEAR_DENSITY,
    WEIGHED_MASS,
    WEIGHED_LENGTH,
    WEIGHED_COUNT,
    SCALE_STEP,
    BALL_MASS,
    STATED_TENSION,
    STATED_LENGTH,
    STATED_A4,
    DIAMETER,
    DENSITY,
    CORE_DIAMETER,
    MODULUS,
    STRENGTH,
    MADE_FOR_LOW,
    MADE_FOR_HIGH,
    STRANDS,
    WRAP1_MATERIAL,
    WRAP1_DENSITY,
    WRAP1_SHAPE,
    WRAP1_THICKNESS,
    SOURCE = WRAP1_MATERIAL + 4 * MENSUR_WRAPS_MAX,
};

static void read_note(struct reading *reading, int column, void *row) {
    struct mensur_string_spec *spec = row;
    const char *text = mensur_cell_text(reading, column);
    if (text == NULL || mensur_note_read(text, strlen(text), &spec->note) != MENSUR_OK) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, column,
                          "note: \"%s\" is no note; write letter, accidental and octave, for "
                          "example A4, Bb2 or F#3",
                          text != NULL ? mensur_log_short(text, cut) : "");
    }
}

/* Reads a cell that holds one of two words or is empty; true for the second word. */
static bool read_choice(struct reading *reading, int column, const char *first,
                        const char *second) {
    const char *text = mensur_cell_text(reading, column);
    if (text != NULL && strcmp(text, first) != 0 && strcmp(text, second) != 0) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, column, "%s: \"%s\" will not do; write %s or %s",
                          reading->layout->columns[column].name, mensur_log_short(text, cut), first,
                          second);
    }
    return text != NULL && strcmp(text, second) == 0;
}

static void read_state(struct reading *reading, int column, void *row) {
    struct mensur_string_spec *spec = row;
    spec->slack = read_choice(reading, column, "tuned", "slack");
}

static void read_shape(struct reading *reading, int column, void *row) {
    struct mensur_string_spec *spec = row;
    spec->wraps[(column - WRAP1_SHAPE) / 4].flat = read_choice(reading, column, "round", "flat");
}

/* Refuses a count that is no whole number; true where the cell is sound. */
static void check_whole(struct reading *reading, int column, double value) {
    if (!isnan(value) && (value < 1.0 || floor(value) < value)) {
        mensur_cell_error(reading, column, "%s: it is no whole number from 1 upwards",
                          reading->layout->columns[column].name);
    }
}

static void check_weighed_count(struct reading *reading, int column, void *row) {
    check_whole(reading, column, ((const struct mensur_string_spec *)row)->weighed_count);
}

static void check_strands(struct reading *reading, int column, void *row) {
    check_whole(reading, column, ((const struct mensur_string_spec *)row)->strands);
}

static void check_made_for(struct reading *reading, int column, void *row) {
    const struct mensur_string_spec *spec = row;
    if (spec->made_for_low.value > spec->made_for_high.value) {
        mensur_cell_error(reading, column - 1, "made_for_low: it is more than made_for_high");
    }
}

static bool given(const struct reading *reading, int column) {
    return mensur_cell_given(reading, column);
}

static bool has_wraps(const struct reading *reading) {
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (given(reading, WRAP1_MATERIAL + 4 * i) || given(reading, WRAP1_THICKNESS + 4 * i)) {
            return true;
        }
    }
    return false;
}

/* Whether the row gives all that its way to the density needs. */
static bool is_complete(const struct reading *reading, enum mensur_string_way way) {
    static const int needs[] = {[MENSUR_WAY_STATED] = LINEAR_DENSITY,
                                [MENSUR_WAY_WEIGHED] = WEIGHED_LENGTH,
                                [MENSUR_WAY_TENSION] = STATED_LENGTH,
                                [MENSUR_WAY_WRAPPED] = CORE_DIAMETER,
                                [MENSUR_WAY_PLAIN] = DIAMETER};
    return given(reading, needs[way]);
}

static void refuse_incomplete(struct reading *reading) {
    if (given(reading, WEIGHED_MASS)) {
        mensur_cell_error(reading, WEIGHED_LENGTH,
                          "weighed_length: the cell is empty; a weighed_mass holds for a length");
    } else if (given(reading, STATED_TENSION)) {
        mensur_cell_error(reading, STATED_LENGTH,
                          "stated_length: the cell is empty; a stated_tension holds for a length");
    } else if (has_wraps(reading)) {
        mensur_cell_error(reading, CORE_DIAMETER,
                          "core_diameter: the cell is empty; a wrapped string needs it, or a "
                          "linear_density, or stated_tension and stated_length");
    } else {
        mensur_cell_error(reading, LINEAR_DENSITY,
                          "linear_density: the cell is empty; a string needs it, or weighed_mass "
                          "and weighed_length, or stated_tension and stated_length, or "
                          "core_diameter and its wrappings, or diameter");
    }
}

static const char *suggest_material(struct reading *reading, const char *name,
                                    char out[MENSUR_SUGGEST_ROOM]) {
    struct known_names names = mensur_names_in(reading->stock, MENSUR_TABLE_MATERIALS);
    return mensur_reading_suggest(reading, name, &names, out);
}

/* The core and each wrapping need a density of their own or a material whose density is known. */
static void need_density(struct reading *reading, int material_column, int density_column) {
    const char *material = mensur_cell_text(reading, material_column);
    const struct mensur_material *row = mensur_stock_material(reading->stock, material);
    const char *column = reading->layout->columns[material_column].name;
    const char *density = reading->layout->columns[density_column].name;
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    if (given(reading, density_column) || (row != NULL && row->density > 0)) {
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
                          suggest_material(reading, material, suggestion), density);
    }
}

/* A wrapping needs thickness, shape and density; ended: the wrapping inside it is missing. */
static void check_wrap(struct reading *reading, int material, bool ended) {
    const struct column *known = reading->layout->columns;
    int density = material + WRAP1_DENSITY - WRAP1_MATERIAL;
    int shape = material + WRAP1_SHAPE - WRAP1_MATERIAL;
    int thickness = material + WRAP1_THICKNESS - WRAP1_MATERIAL;
    if (!given(reading, thickness)) {
        mensur_cell_error(reading, thickness, "%s: the cell is empty; a wrapping needs it",
                          known[thickness].name);
    }
    if (ended) {
        mensur_cell_error(reading, thickness,
                          "%s: the wrapping inside it is missing; they stand from the inside out",
                          known[thickness].name);
    }
    if (!given(reading, shape)) {
        mensur_cell_error(reading, shape, "%s: the cell is empty; write round or flat",
                          known[shape].name);
    }
    need_density(reading, material, density);
}

static void check_wraps(struct reading *reading) {
    bool ended = false;
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        int material = WRAP1_MATERIAL + 4 * i;
        bool there = given(reading, material) || given(reading, WRAP1_THICKNESS + 4 * i);
        if (there) {
            check_wrap(reading, material, ended);
        }
        ended = ended || !there;
    }
}

/* Warns of an unknown material whose density is not needed: modulus and strength stay unknown. */
static void warn_of_material(struct reading *reading) {
    const char *material = mensur_cell_text(reading, MATERIAL);
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    if (material == NULL || mensur_stock_material(reading->stock, material) != NULL ||
        given(reading, MODULUS)) {
        return;
    }
    mensur_cell_warning(
        reading, MATERIAL, "material: \"%s\" is unknown, so modulus and strength are too; %s",
        mensur_log_short(material, cut), suggest_material(reading, material, suggestion));
}

static void check_density(struct reading *reading) {
    enum mensur_string_way way = mensur_string_way(
        given(reading, LINEAR_DENSITY), given(reading, WEIGHED_MASS),
        given(reading, STATED_TENSION), has_wraps(reading) || given(reading, CORE_DIAMETER));
    bool complete = is_complete(reading, way);
    if (!complete) {
        refuse_incomplete(reading);
    }
    if (complete && way == MENSUR_WAY_WRAPPED) {
        check_wraps(reading);
    }
    if (complete && (way == MENSUR_WAY_WRAPPED || way == MENSUR_WAY_PLAIN)) {
        need_density(reading, MATERIAL, DENSITY);
    }
    bool stated = complete && way != MENSUR_WAY_WRAPPED && way != MENSUR_WAY_PLAIN;
    if (stated || given(reading, DENSITY)) {
        warn_of_material(reading);
    }
}

/* The diameter of plain gut is a slack gauge where nothing else is said (common practice); what it
 * does when it is tuned takes a modulus. */
static void take_gauge(const struct reading *reading, struct mensur_string_spec *spec) {
    const struct mensur_material *material = mensur_stock_material(reading->stock, spec->material);
    bool plain = !given(reading, LINEAR_DENSITY) && !given(reading, STATED_TENSION) &&
                 !has_wraps(reading) && !given(reading, CORE_DIAMETER);
    bool elastic = given(reading, MODULUS) || (material != NULL && !isnan(material->modulus));
    if (plain && elastic && !given(reading, DENSITY_STATE) &&
        mensur_core_of(spec->material) == MENSUR_CORE_GUT) {
        spec->slack = true;
    }
}

/* Refuses a second string of a set for one note. */
static void check_set(struct reading *reading, const struct mensur_string_spec *spec) {
    const struct mensur_string_spec *before = NULL;
    if (mensur_set_index_find(&reading->sets, reading->stock, spec->set, &spec->note, &before) !=
        MENSUR_OK) {
        reading->log.status = MENSUR_MEMORY;
        return;
    }
    if (before != NULL && *spec->note.name != '\0') {
        char name[MENSUR_SHORT_ROOM], set[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, NOTE,
                          "note: the set \"%s\" has a string for %s already, \"%s\" in line %ld; "
                          "a set has one string for each note",
                          mensur_log_short(spec->set, set), spec->note.name,
                          mensur_log_short(before->name, name), before->line);
    }
}

/* Refuses balls that weigh as much as the strings on the scale. */
static void check_ball(struct reading *reading, const struct mensur_string_spec *spec) {
    double count = isnan(spec->weighed_count) ? 1.0 : spec->weighed_count;
    if (spec->ball_mass.value * count >= spec->weighed_mass.value) {
        mensur_cell_error(reading, BALL_MASS, "ball_mass: it is not less than the whole string's");
    }
}

static void check(struct reading *reading, void *row) {
    struct mensur_string_spec *spec = row;
    spec->line = reading->row->line;
    if (!given(reading, STATED_A4)) {
        spec->stated_a4 = (struct mensur_quantity){.value = 440.0};
    }
    mensur_string_weigh(spec);
    check_ball(reading, spec);
    if (!reading->head_bad) {
        check_set(reading, spec);
    }
    if (!reading->head_bad && !reading->bad.is[MENSUR_TABLE_MATERIALS]) {
        check_density(reading);
        take_gauge(reading, spec);
    }
}

#define AT(member) .at = offsetof(struct mensur_string_spec, member)
#define TEXT(title, member)                                                                        \
    { .name = (title), .how = CELL_TEXT, AT(member) }
#define QUANTITY(title, member, of)                                                                \
    { .name = (title), .how = CELL_QUANTITY, AT(member), .kind = (of) }
#define WRAP(number)                                                                               \
    TEXT("wrap" #number "_material", wraps[(number)-1].material),                                  \
        QUANTITY("wrap" #number "_density", wraps[(number)-1].density, MENSUR_DENSITY),            \
        {.name = "wrap" #number "_shape", .rule = read_shape},                                     \
        QUANTITY("wrap" #number "_thickness", wraps[(number)-1].thickness, MENSUR_LENGTH)

static const struct column columns[] = {
    [NAME] = {.name = "name", .how = CELL_TEXT, AT(name), .required = true},
    [DENSITY_STATE] = {.name = "density_state", .rule = read_state},
    [NOTE] = {.name = "note", .required = true, .rule = read_note},
    [SET] = TEXT("set", set),
    [MATERIAL] = TEXT("material", material),
    [CONSTRUCTION] = TEXT("construction", construction),
    [LINEAR_DENSITY] = QUANTITY("linear_density", linear_density, MENSUR_LINEAR_DENSITY),
    [WEIGHED_MASS] = QUANTITY("weighed_mass", weighed_mass, MENSUR_MASS),
    [WEIGHED_LENGTH] = QUANTITY("weighed_length", weighed_length, MENSUR_LENGTH),
    [WEIGHED_COUNT] = {.name = "weighed_count",
                       .how = CELL_VALUE,
                       AT(weighed_count),
                       .kind = MENSUR_NUMBER,
                       .rule = check_weighed_count},
    [SCALE_STEP] = {.name = "scale_step", .how = CELL_VALUE, AT(scale_step), .kind = MENSUR_MASS},
    [BALL_MASS] = QUANTITY("ball_mass", ball_mass, MENSUR_MASS),
    [STATED_TENSION] = QUANTITY("stated_tension", stated_tension, MENSUR_FORCE),
    [STATED_LENGTH] = QUANTITY("stated_length", stated_length, MENSUR_LENGTH),
    [STATED_A4] = QUANTITY("stated_a4", stated_a4, MENSUR_FREQUENCY),
    [DIAMETER] = QUANTITY("diameter", diameter, MENSUR_LENGTH),
    [DENSITY] = QUANTITY("density", density, MENSUR_DENSITY),
    [CORE_DIAMETER] = QUANTITY("core_diameter", core_diameter, MENSUR_LENGTH),
    [MODULUS] = QUANTITY("modulus", modulus, MENSUR_MODULUS),
    [STRENGTH] = QUANTITY("strength", strength, MENSUR_STRESS),
    [MADE_FOR_LOW] = QUANTITY("made_for_low", made_for_low, MENSUR_LENGTH),
    [MADE_FOR_HIGH] = {.name = "made_for_high",
                       .how = CELL_QUANTITY,
                       AT(made_for_high),
                       .rule = check_made_for},
    [STRANDS] = {.name = "strands",
                 .how = CELL_VALUE,
                 AT(strands),
                 .kind = MENSUR_NUMBER,
                 .rule = check_strands},
    [WRAP1_MATERIAL] = WRAP(1),
    WRAP(2),
    WRAP(3),
    [SOURCE] = TEXT("source", source),
};

const struct layout mensur_strings_layout = {
    .columns = columns,
    .count = sizeof(columns) / sizeof(columns[0]),
    .named = true,
    .enough = {{LINEAR_DENSITY, LINEAR_DENSITY},
               {WEIGHED_MASS, WEIGHED_LENGTH},
               {STATED_TENSION, STATED_LENGTH},
               {CORE_DIAMETER, CORE_DIAMETER},
               {DIAMETER, DIAMETER}},
    .needs_one = "the columns are missing that lead to a string's density: linear_density, or "
                 "weighed_mass and weighed_length, or stated_tension and stated_length, or "
                 "core_diameter, or diameter",
    .check = check};
