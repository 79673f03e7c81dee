/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads the cells of a row: texts, quantities, values; errors and warnings at a cell. */
#include "table.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define MESSAGE_ROOM 1024

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

enum mensur_status mensur_cell_copy(const struct reading *reading, int column, char **out) {
    const struct cell *cell = find_cell(reading, column);
    if (cell == NULL) {
        *out = NULL;
        return MENSUR_OK;
    }
    return mensur_text_copy(cell->text, cell->length, out);
}

/* Line of a cell, or of its row where the cell is absent. */
static long line_of(const struct reading *reading, int column) {
    int at = reading->at[column];
    return at >= 0 && at < reading->row->count ? reading->row->cells[at].line : reading->row->line;
}

static int place_of(const struct reading *reading, int column) {
    return reading->at[column] >= 0 ? reading->at[column] + 1 : 1;
}

void mensur_cell_error(struct reading *reading, int column, const char *format, ...) {
    char message[MESSAGE_ROOM];
    va_list values;
    va_start(values, format);
    vsnprintf(message, sizeof(message), format, values);
    va_end(values);
    reading->row_bad = true;
    mensur_log_error(&reading->log, line_of(reading, column), place_of(reading, column), "%s",
                     message);
}

void mensur_cell_warning(struct reading *reading, int column, const char *format, ...) {
    char message[MESSAGE_ROOM];
    va_list values;
    va_start(values, format);
    vsnprintf(message, sizeof(message), format, values);
    va_end(values);
    mensur_log_warning(&reading->log, line_of(reading, column), place_of(reading, column), "%s",
                       message);
}

static const char *domain_text(enum mensur_kind kind, enum range range) {
    if (kind == MENSUR_LENGTH) {
        return range == RANGE_POSITIVE       ? "more than 0 and at most 3000 mm"
               : range == RANGE_NOT_NEGATIVE ? "from 0 to 3000 mm"
                                             : "from -3000 to 3000 mm";
    }
    return range == RANGE_POSITIVE ? "more than 0" : "0 or more";
}

static bool in_domain(enum mensur_kind kind, enum range range, double value) {
    bool low = range == RANGE_ANY || (range == RANGE_POSITIVE ? value > 0 : value >= 0);
    return low && (kind != MENSUR_LENGTH || fabs(value) <= MENSUR_LONGEST_M);
}

struct mensur_quantity mensur_cell_quantity(struct reading *reading, int column,
                                            enum mensur_kind kind, enum range range) {
    const struct cell *cell = find_cell(reading, column);
    struct mensur_quantity quantity = MENSUR_UNKNOWN;
    char text[MENSUR_SHORT_ROOM];
    if (cell == NULL) {
        return MENSUR_UNKNOWN;
    }
    if (mensur_quantity_read(cell->text, cell->length, kind, reading->row->decimal_comma,
                             &quantity) != MENSUR_OK) {
        mensur_cell_error(reading, column, "%s: \"%s\" is not %s", reading->layout->columns[column],
                          mensur_log_short(cell->text, text), mensur_kind_wanted(kind));
        return MENSUR_UNKNOWN;
    }
    if (!in_domain(kind, range, quantity.value)) {
        mensur_cell_error(reading, column, "%s: \"%s\" is out of its range, which is %s",
                          reading->layout->columns[column], mensur_log_short(cell->text, text),
                          domain_text(kind, range));
        return MENSUR_UNKNOWN;
    }
    return quantity;
}

double mensur_cell_value(struct reading *reading, int column, enum mensur_kind kind,
                         enum range range) {
    struct mensur_quantity quantity = mensur_cell_quantity(reading, column, kind, range);
    if (quantity.plus_minus > 0) {
        mensur_cell_warning(reading, column, "%s: the \xC2\xB1 is not used in this column",
                            reading->layout->columns[column]);
    }
    return quantity.value;
}
