/* SPDX-License-Identifier: GPL-3.0-or-later */
/* strings.csv: a string for a note, with what gives its density. */
#include <math.h>
#include <string.h>

#include "string_rules.h"
#include "tables.h"

#define WRAP(n) "wrap" n "_material", "wrap" n "_density", "wrap" n "_shape", "wrap" n "_thickness"

static const char *const columns[STRING_COLUMN_COUNT] = {
    "name",           "note",           "set",           "material",  "construction",
    "linear_density", "stated_tension", "stated_length", "stated_a4", "density_state",
    "diameter",       "density",        "core_diameter", "strands",   WRAP("1"),
    WRAP("2"),        WRAP("3"),        "modulus",       "strength",  "made_for_low",
    "made_for_high",  "source"};

/* Where the rows go, and whether materials.csv was without error. */
struct strings {
    struct mensur_stock *stock;
    bool materials;
};

static bool has_enough(const struct reading *reading) {
    return mensur_has_column(reading, STRING_LINEAR_DENSITY) ||
           (mensur_has_column(reading, STRING_STATED_TENSION) &&
            mensur_has_column(reading, STRING_STATED_LENGTH)) ||
           mensur_has_column(reading, STRING_CORE_DIAMETER) ||
           mensur_has_column(reading, STRING_DIAMETER);
}

static void read_note(struct reading *reading, struct mensur_string_spec *spec) {
    const char *text = mensur_cell_text(reading, STRING_NOTE);
    if (!mensur_has_column(reading, STRING_NOTE)) {
        return;
    }
    if (text == NULL || mensur_note_read(text, strlen(text), &spec->note) != MENSUR_OK) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, STRING_NOTE,
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
                          columns[column], mensur_log_short(text, cut), first, second);
    }
    return text != NULL && strcmp(text, second) == 0;
}

static void read_strands(struct reading *reading, struct mensur_string_spec *spec) {
    double strands = mensur_cell_value(reading, STRING_STRANDS, MENSUR_NUMBER, RANGE_POSITIVE);
    spec->strands = strands;
    if (!isnan(strands) && (strands < 1.0 || floor(strands) < strands)) {
        mensur_cell_error(reading, STRING_STRANDS, "strands: it is no whole number from 1 upwards");
    }
}

static void read_wraps(struct reading *reading, struct mensur_string_spec *spec) {
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        int first = STRING_WRAP1_MATERIAL + 4 * i;
        struct mensur_wrap *wrap = &spec->wraps[i];
        wrap->material = mensur_cell_text(reading, first);
        wrap->density = mensur_cell_quantity(reading, first + 1, MENSUR_DENSITY, RANGE_POSITIVE);
        wrap->flat = read_choice(reading, first + 2, "round", "flat");
        wrap->thickness = mensur_cell_quantity(reading, first + 3, MENSUR_LENGTH, RANGE_POSITIVE);
    }
}

static void read_quantities(struct reading *reading, struct mensur_string_spec *spec) {
    const struct {
        int column;
        enum mensur_kind kind;
        struct mensur_quantity *to;
    } cells[] = {
        {STRING_LINEAR_DENSITY, MENSUR_LINEAR_DENSITY, &spec->linear_density},
        {STRING_STATED_TENSION, MENSUR_FORCE, &spec->stated_tension},
        {STRING_STATED_LENGTH, MENSUR_LENGTH, &spec->stated_length},
        {STRING_STATED_A4, MENSUR_FREQUENCY, &spec->stated_a4},
        {STRING_DIAMETER, MENSUR_LENGTH, &spec->diameter},
        {STRING_DENSITY, MENSUR_DENSITY, &spec->density},
        {STRING_CORE_DIAMETER, MENSUR_LENGTH, &spec->core_diameter},
        {STRING_MODULUS, MENSUR_MODULUS, &spec->modulus},
        {STRING_STRENGTH, MENSUR_STRESS, &spec->strength},
        {STRING_MADE_FOR_LOW, MENSUR_LENGTH, &spec->made_for_low},
        {STRING_MADE_FOR_HIGH, MENSUR_LENGTH, &spec->made_for_high},
    };
    for (size_t i = 0; i < sizeof(cells) / sizeof(cells[0]); i++) {
        *cells[i].to =
            mensur_cell_quantity(reading, cells[i].column, cells[i].kind, RANGE_POSITIVE);
    }
    if (mensur_cell_text(reading, STRING_STATED_A4) == NULL) {
        spec->stated_a4 = (struct mensur_quantity){.value = 440.0};
    }
    if (spec->made_for_low.value > spec->made_for_high.value) {
        mensur_cell_error(reading, STRING_MADE_FOR_LOW,
                          "made_for_low: it is more than made_for_high");
    }
}

/* Refuses a second string of a set for one note. */
static void check_set(struct reading *reading, const struct mensur_string_spec *spec) {
    const struct strings *all = reading->context;
    const struct mensur_string_spec *before =
        mensur_stock_set_string(all->stock, spec->set, &spec->note);
    if (before != NULL && *spec->note.name != '\0') {
        char name[MENSUR_SHORT_ROOM], set[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, STRING_NOTE,
                          "note: the set \"%s\" has a string for %s already, \"%s\" in line %ld; "
                          "a set has one string for each note",
                          mensur_log_short(spec->set, set), spec->note.name,
                          mensur_log_short(before->name, name), before->line);
    }
}

/* Replaces the borrowed texts by copies, all of them or none. */
static enum mensur_status own_texts(struct mensur_string_spec *spec) {
    char **const texts[] = {&spec->name,
                            &spec->set,
                            &spec->material,
                            &spec->construction,
                            &spec->source,
                            &spec->wraps[0].material,
                            &spec->wraps[1].material,
                            &spec->wraps[2].material};
    const size_t count = sizeof(texts) / sizeof(texts[0]);
    const char *borrowed[sizeof(texts) / sizeof(texts[0])];
    for (size_t i = 0; i < count; i++) {
        borrowed[i] = *texts[i];
        *texts[i] = NULL;
    }
    for (size_t i = 0; i < count; i++) {
        if (borrowed[i] != NULL &&
            mensur_text_copy(borrowed[i], strlen(borrowed[i]), texts[i]) != MENSUR_OK) {
            mensur_string_spec_clear(spec);
            return MENSUR_MEMORY;
        }
    }
    return MENSUR_OK;
}

static enum mensur_status keep(struct mensur_stock *stock, struct mensur_string_spec *spec) {
    struct mensur_string_spec *rows =
        mensur_grow(stock->strings, stock->string_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->strings = rows;
    if (own_texts(spec) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    rows[stock->string_count++] = *spec;
    return MENSUR_OK;
}

static enum mensur_status take_row(struct reading *reading) {
    const struct strings *all = reading->context;
    struct mensur_string_spec spec;
    mensur_string_spec_init(&spec);
    spec.line = reading->row->line;
    spec.name = mensur_cell_text(reading, STRING_NAME);
    spec.set = mensur_cell_text(reading, STRING_SET);
    spec.material = mensur_cell_text(reading, STRING_MATERIAL);
    spec.construction = mensur_cell_text(reading, STRING_CONSTRUCTION);
    spec.source = mensur_cell_text(reading, STRING_SOURCE);
    spec.slack = read_choice(reading, STRING_DENSITY_STATE, "tuned", "slack");
    read_note(reading, &spec);
    read_quantities(reading, &spec);
    read_strands(reading, &spec);
    read_wraps(reading, &spec);
    if (!reading->head_bad) {
        check_set(reading, &spec);
        if (all->materials) {
            mensur_check_string(reading, all->stock);
        }
    }
    return mensur_row_good(reading) ? keep(all->stock, &spec) : MENSUR_OK;
}

static const struct layout layout = {
    .columns = columns,
    .count = STRING_COLUMN_COUNT,
    .required = 2,
    .named = true,
    .has_enough = has_enough,
    .needs_one = "the columns are missing that lead to a string's density: linear_density, or "
                 "stated_tension and stated_length, or core_diameter, or diameter",
    .take_row = take_row};

enum mensur_status mensur_read_strings(struct mensur_source *source, struct mensur_report *report,
                                       struct mensur_stock *stock, bool materials) {
    struct names names = {0};
    struct strings all = {stock, materials};
    struct reading reading = {.layout = &layout,
                              .source = source,
                              .log = {.file = source->label, .report = report},
                              .names = &names,
                              .context = &all};
    enum mensur_status status = mensur_table_read(&reading);
    mensur_names_clear(&names);
    return status;
}
