/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the cells of a row: texts, quantities, values; errors and warnings at a cell. */
#include "table.h"

#include <stdarg.h>

#include "out_of_line.h"

bool mensur_has_column(const struct reading *reading, int column) {
    return reading->at[column] >= 0;
}

static const struct cell *find_cell(const struct reading *reading, int column) {
    int at = reading->at[column];
    return at >= 0 && at < reading->row->count && reading->row->cells[at].length > 0
               ? &reading->row->cells[at]
               : NULL;
}

char *mensur_cell_text(const struct reading *reading, int column) {
    const struct cell *cell = find_cell(reading, column);
    return cell != NULL ? cell->text : NULL;
}

bool mensur_cell_given(const struct reading *reading, int column) {
    return find_cell(reading, column) != NULL;
}

/* Line of a cell, or of its row where the cell is absent. */
static long line_of(const struct reading *reading, int column) {
    int at = reading->at[column];
    return at >= 0 && at < reading->row->count ? reading->row->cells[at].line : reading->row->line;
}

static int place_of(const struct reading *reading, int column) {
    return reading->at[column] >= 0 ? reading->at[column] + 1 : 1;
}

static void add(struct reading *reading, bool error, int column, const char *format,
                va_list values) {
    mensur_log_add(&reading->log, error, line_of(reading, column), place_of(reading, column),
                   format, values);
}

void mensur_cell_error(struct reading *reading, int column, const char *format, ...) {
    va_list values;
    va_start(values, format);
    reading->row_bad = true;
    add(reading, true, column, format, values);
    va_end(values);
}

void mensur_cell_warning(struct reading *reading, int column, const char *format, ...) {
    va_list values;
    va_start(values, format);
    add(reading, false, column, format, values);
    va_end(values);
}

MENSUR_OUT_OF_LINE static void refuse_text(struct reading *reading, int at,
                                           const struct cell *cell) {
    const struct column *column = &reading->layout->columns[at];
    char text[MENSUR_SHORT_ROOM], wanted[MENSUR_WANTED_ROOM];
    mensur_cell_error(reading, at, "%s: \"%s\" is not %s", column->name,
                      mensur_log_short(cell->text, text),
                      mensur_quantity_wanted(cell->text, cell->length, column->kind,
                                             reading->row->decimal_comma, wanted));
}

MENSUR_OUT_OF_LINE static void refuse_value(struct reading *reading, int at,
                                            const struct cell *cell) {
    const struct column *column = &reading->layout->columns[at];
    char text[MENSUR_SHORT_ROOM], hint[MENSUR_HINT_ROOM] = "";
    if (reading->layout->hint != NULL) {
        reading->layout->hint(reading, at, hint);
    }
    mensur_cell_error(reading, at, "%s: \"%s\" is out of its range, which is %s%s", column->name,
                      mensur_log_short(cell->text, text),
                      mensur_domain_text(column->kind, column->domain), hint);
}

/* A cell's quantity, unknown where it is no such (an error then). */
static struct mensur_quantity read_quantity(struct reading *reading, int at,
                                            const struct cell *cell) {
    const struct column *column = &reading->layout->columns[at];
    struct mensur_quantity quantity = MENSUR_UNKNOWN;
    if (mensur_quantity_read_in(cell->text, cell->length, column->kind, reading->unit[at],
                                reading->row->decimal_comma, &quantity) != MENSUR_OK) {
        refuse_text(reading, at, cell);
        return MENSUR_UNKNOWN;
    }
    if (!mensur_in_domain(column->kind, column->domain, quantity.value)) {
        refuse_value(reading, at, cell);
        return MENSUR_UNKNOWN;
    }
    return quantity;
}

static double read_value(struct reading *reading, int column, const struct cell *cell) {
    struct mensur_quantity quantity = read_quantity(reading, column, cell);
    if (quantity.plus_minus > 0) {
        mensur_cell_warning(reading, column, "%s: the \xC2\xB1 is not used in this column",
                            reading->layout->columns[column].name);
    }
    return quantity.value;
}

void mensur_cells_read(struct reading *reading, void *row) {
    for (int k = 0; k < reading->present_count; k++) {
        int i = reading->present[k];
        const struct column *column = &reading->layout->columns[i];
        void *member = (char *)row + column->at;
        const struct cell *cell = find_cell(reading, i);
        if (column->how == CELL_TEXT) {
            *(char **)member = cell != NULL ? cell->text : NULL;
        } else if (column->how == CELL_QUANTITY) {
            *(struct mensur_quantity *)member =
                cell != NULL ? read_quantity(reading, i, cell) : MENSUR_UNKNOWN;
        } else if (column->how == CELL_VALUE) {
            *(double *)member = cell != NULL ? read_value(reading, i, cell) : NAN;
        }
        if (column->rule != NULL && mensur_has_column(reading, i)) {
            column->rule(reading, i, row);
        }
    }
}
