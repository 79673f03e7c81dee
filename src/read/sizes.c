/* SPDX-License-Identifier: GPL-3.0-or-later */
/* sizes.csv: the sizes that instruments of a family are made in. */
#include <math.h>

#include "tables.h"

enum { NAME, FAMILY, TUNING, BODY, STOP, NECK, STRING_LENGTH };

static void need(struct reading *reading, int column, const char *what) {
    if (!mensur_cell_given(reading, column)) {
        mensur_cell_error(reading, column, "%s: the cell is empty; %s",
                          reading->layout->columns[column].name, what);
    }
}

/* A family or a tuning that is given is one of the shop's; a built-in size may be of one that the
 * shop does not have. */
static void look_up(struct reading *reading, int column, enum mensur_table table) {
    const char *name = mensur_cell_text(reading, column);
    struct known_names known = mensur_names_in(reading->stock, table);
    if (name != NULL && !reading->source->built_in && !reading->bad.is[table] &&
        !mensur_name_is_in(reading, table, name)) {
        char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        mensur_cell_error(reading, column, "%s: there is no %s \"%s\"; %s",
                          reading->layout->columns[column].name,
                          reading->layout->columns[column].name, mensur_log_short(name, cut),
                          mensur_reading_suggest(reading, name, &known, suggestion));
    }
}

static void check(struct reading *reading, void *row) {
    const struct mensur_named_size *size = row;
    if (reading->head_bad) {
        return;
    }
    need(reading, FAMILY, "every size is one of a family");
    need(reading, BODY, "every row needs the length of the back");
    need(reading, STOP, "every row needs the stop, by which usual heights are scaled");
    need(reading, NECK, "every row needs the neck");
    look_up(reading, FAMILY, MENSUR_TABLE_FAMILIES);
    look_up(reading, TUNING, MENSUR_TABLE_TUNINGS);
    if (size->body <= size->stop) {
        mensur_cell_error(reading, STOP, "stop: it is not less than the body");
    }
}

#define AT(member) .at = offsetof(struct mensur_named_size, member)

static const struct column columns[] = {
    [NAME] = {.name = "name", .how = CELL_TEXT, AT(name), .required = true},
    [FAMILY] = {.name = "family", .how = CELL_TEXT, AT(family), .required = true},
    [TUNING] = {.name = "tuning", .how = CELL_TEXT, AT(tuning)},
    [BODY] = {.name = "body", .how = CELL_VALUE, AT(body), .required = true},
    [STOP] = {.name = "stop", .how = CELL_VALUE, AT(stop), .required = true},
    [NECK] = {.name = "neck", .how = CELL_VALUE, AT(neck), .required = true},
    [STRING_LENGTH] = {.name = "string_length", .how = CELL_VALUE, AT(string_length)},
    {.name = "width_upper", .how = CELL_VALUE, AT(width_upper)},
    {.name = "width_middle", .how = CELL_VALUE, AT(width_middle)},
    {.name = "width_lower", .how = CELL_VALUE, AT(width_lower)},
    {.name = "rib", .how = CELL_VALUE, AT(rib)},
    {.name = "age_low", .how = CELL_VALUE, AT(age_low), .kind = MENSUR_NUMBER},
    {.name = "age_high", .how = CELL_VALUE, AT(age_high), .kind = MENSUR_NUMBER},
    {.name = "stature_low", .how = CELL_VALUE, AT(stature_low)},
    {.name = "stature_high", .how = CELL_VALUE, AT(stature_high)},
    {.name = "source", .how = CELL_TEXT, AT(source)},
};

const struct layout mensur_sizes_layout = {.columns = columns,
                                           .count = sizeof(columns) / sizeof(columns[0]),
                                           .named = true,
                                           .check = check};
