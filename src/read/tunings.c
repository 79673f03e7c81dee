/* SPDX-License-Identifier: GPL-3.0-or-later */
/* tunings.csv: the notes of the open strings, the lowest first. */
#include "tables.h"

enum { NAME, NOTES };

static void read_notes(struct reading *reading, int column, void *row) {
    struct mensur_fault fault = {""};
    const char *text = mensur_cell_text(reading, column);
    if (text == NULL) {
        mensur_cell_error(reading, NOTES,
                          "notes: the cell is empty; write the open strings from the lowest, for "
                          "example C3 G3 D4 A4");
    } else if (mensur_tuning_read(text, &fault, row) != MENSUR_OK) {
        mensur_cell_error(reading, NOTES, "notes: %s", fault.text);
    }
}

static const struct column columns[] = {
    [NAME] = {.name = "name",
              .how = CELL_TEXT,
              .at = offsetof(struct mensur_tuning, name),
              .required = true},
    [NOTES] = {.name = "notes", .required = true, .rule = read_notes},
};

const struct layout mensur_tunings_layout = {
    .columns = columns, .count = sizeof(columns) / sizeof(columns[0]), .named = true};
