/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of named columns: its head understood, its rows checked and handed on. */
#include "table.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* So many letters apart, a word is taken for another misspelt. */
#define MISSPELT_MOST 2
/* No honest head is wider, and each of its names is held against all others. */
#define HEAD_MOST 1000

/* A column's name as it is compared: small letters, `_` for blanks and hyphens. */
static void fold_name(char *text) {
    for (; *text != '\0'; text++) {
        if (*text >= 'A' && *text <= 'Z') {
            *text = (char)(*text - 'A' + 'a');
        } else if (*text == ' ' || *text == '-') {
            *text = '_';
        }
    }
}

static int find_column(const struct layout *layout, const char *name) {
    for (int i = 0; i < layout->count; i++) {
        if (strcmp(layout->columns[i], name) == 0) {
            return i;
        }
    }
    return -1;
}

/* Words whose lengths alone set them further apart need no closer look. */
static bool may_be_meant(const char *column, size_t length) {
    size_t own = strlen(column);
    return own <= length + MISSPELT_MOST && length <= own + MISSPELT_MOST;
}

/* The absent column that an unknown name is nearest to, within two letters; -1 where none is. */
static int find_meant(const struct reading *reading, const char *name) {
    int best = -1, least = MISSPELT_MOST + 1;
    size_t length = strlen(name);
    for (int i = 0; i < reading->layout->count; i++) {
        bool near = reading->at[i] < 0 && may_be_meant(reading->layout->columns[i], length);
        int distance = near ? mensur_text_distance(reading->layout->columns[i], name) : least;
        if (distance < least) {
            best = i;
            least = distance;
        }
    }
    return best;
}

static void head_error(struct reading *reading, int column, const char *name, const char *message) {
    char text[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(&reading->log, reading->row->line, column + 1, "column \"%s\": %s",
                     mensur_log_short(name, text), message);
}

/* An unknown column: an error where it is a known one misspelt, else a warning. */
static void judge_unknown(struct reading *reading, int column, bool suggested[]) {
    const char *name = reading->row->cells[column].text;
    char text[MENSUR_SHORT_ROOM];
    int meant = find_meant(reading, name);
    if (*name == '\0') {
        mensur_log_warning(&reading->log, reading->row->line, column + 1,
                           "this column has no name, and is not read");
    } else if (meant >= 0) {
        suggested[meant] = true;
        reading->head_bad = true;
        mensur_log_error(&reading->log, reading->row->line, column + 1,
                         "column \"%s\" is unknown; did you mean \"%s\"?",
                         mensur_log_short(name, text), reading->layout->columns[meant]);
    } else {
        mensur_log_warning(&reading->log, reading->row->line, column + 1,
                           "column \"%s\" is unknown, and is not read",
                           mensur_log_short(name, text));
    }
}

static bool repeats_an_earlier(const struct row *row, int column) {
    for (int i = 0; i < column; i++) {
        if (strcmp(row->cells[i].text, row->cells[column].text) == 0) {
            return *row->cells[column].text != '\0';
        }
    }
    return false;
}

/* Places the columns that are known; those that stand twice are refused. */
static void place_columns(struct reading *reading) {
    for (int i = 0; i < reading->row->count; i++) {
        const char *name = reading->row->cells[i].text;
        int known = find_column(reading->layout, name);
        if (repeats_an_earlier(reading->row, i)) {
            head_error(reading, i, name, "stands twice; leave one of them out");
        } else if (known >= 0) {
            reading->at[known] = i;
        }
    }
}

static void require_columns(struct reading *reading, const bool suggested[]) {
    const struct layout *layout = reading->layout;
    bool misspelt = false;
    for (int i = 0; i < layout->count; i++) {
        misspelt = misspelt || suggested[i];
        if (i < layout->required && reading->at[i] < 0 && !suggested[i]) {
            head_error(reading, 0, layout->columns[i], "is missing, and every row needs it");
        }
    }
    if (layout->has_enough != NULL && !misspelt && !layout->has_enough(reading)) {
        reading->head_bad = true;
        mensur_log_error(&reading->log, reading->row->line, 1, "%s", layout->needs_one);
    }
}

static enum mensur_status take_head(struct reading *reading) {
    bool suggested[MENSUR_COLUMNS_MOST] = {false};
    const struct row *row = reading->row;
    reading->width = row->count;
    if (row->count > HEAD_MOST) {
        mensur_log_error(&reading->log, row->line, HEAD_MOST + 1,
                         "the head names %d columns; this is no table of a shop", row->count);
        return MENSUR_DATA;
    }
    for (int i = 0; i < row->count; i++) {
        fold_name(row->cells[i].text);
    }
    place_columns(reading);
    for (int i = 0; i < row->count; i++) {
        if (find_column(reading->layout, row->cells[i].text) < 0 && !repeats_an_earlier(row, i)) {
            judge_unknown(reading, i, suggested);
        }
    }
    require_columns(reading, suggested);
    if (reading->names != NULL) {
        reading->names->column = reading->at[0];
    }
    return MENSUR_OK;
}

static enum mensur_status check_name(struct reading *reading) {
    if (!reading->layout->named || reading->at[0] < 0) {
        return MENSUR_OK;
    }
    if (!mensur_cell_given(reading, 0)) {
        mensur_cell_error(reading, 0, "name: the cell is empty; every row needs a name");
        return MENSUR_OK;
    }
    if (reading->names == NULL) {
        return MENSUR_OK;
    }
    return mensur_names_add(reading->names, &reading->row->cells[reading->at[0]]);
}

bool mensur_row_good(const struct reading *reading) {
    return !reading->row_bad && !reading->head_bad;
}

static enum mensur_status take(void *context, const struct row *row) {
    struct reading *reading = context;
    reading->row = row;
    reading->row_bad = false;
    if (reading->width == 0) {
        return take_head(reading);
    }
    reading->source->rows++;
    if (row->count > reading->width) {
        mensur_log_error(&reading->log, row->line, reading->width + 1,
                         "the row has %d cells, and the head names %d columns; put a cell that "
                         "holds the separator in quotes",
                         row->count, reading->width);
        reading->row_bad = true;
    }
    enum mensur_status status = check_name(reading);
    return status == MENSUR_OK ? reading->layout->take_row(reading) : status;
}

enum mensur_status mensur_table_open(struct reading *reading) {
    for (int i = 0; i < MENSUR_COLUMNS_MOST; i++) {
        reading->at[i] = -1;
    }
    reading->source->rows = 0;
    return mensur_rows_open(reading->source, &reading->log, take, reading, &reading->rows);
}

enum mensur_status mensur_table_step(struct reading *reading, bool *more) {
    enum mensur_status status = mensur_rows_step(reading->rows, more);
    if (*more) {
        return status;
    }
    bool to_the_end = status == MENSUR_OK || status == MENSUR_DATA;
    if (to_the_end && reading->names != NULL) {
        enum mensur_status named =
            mensur_names_report(reading->names, reading->source, &reading->log);
        status = named != MENSUR_OK ? named : status;
    }
    return status != MENSUR_OK ? status : reading->log.status;
}

void mensur_table_close(struct reading *reading) {
    mensur_rows_close(reading->rows);
    reading->rows = NULL;
}

enum mensur_status mensur_table_read(struct reading *reading) {
    bool more = true;
    enum mensur_status status = mensur_table_open(reading);
    while (status == MENSUR_OK && more) {
        status = mensur_table_step(reading, &more);
    }
    mensur_table_close(reading);
    return status;
}

enum mensur_status mensur_table_read_into(const struct layout *layout, struct mensur_source *source,
                                          struct mensur_report *report,
                                          struct mensur_stock *stock) {
    struct names names = {0};
    struct reading reading = {.layout = layout,
                              .source = source,
                              .log = {.file = source->label, .report = report},
                              .names = layout->named ? &names : NULL,
                              .context = stock};
    enum mensur_status status = mensur_table_read(&reading);
    mensur_names_clear(&names);
    return status;
}

void *mensur_grow(void *items, size_t count, size_t size) {
    bool full = count == 0 || (count >= 8 && (count & (count - 1)) == 0);
    if (!full) {
        return items;
    }
    size_t room = count == 0 ? 8 : count * 2;
    return room > SIZE_MAX / size ? NULL : realloc(items, room * size);
}
