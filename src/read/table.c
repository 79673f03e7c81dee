/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of named columns: its head understood, its rows read, checked, and kept or handed out. */
#include "table.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "nearest.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by the stock, at the offset of its list. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

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
        if (strcmp(layout->columns[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* The absent column that an unknown name is nearest to, within two letters; -1 where none is. */
static int find_meant(const struct reading *reading, const char *name) {
    struct mensur_nearest nearest = mensur_nearest_start(name, MISSPELT_MOST);
    int best = -1;
    for (int i = 0; i < reading->layout->count; i++) {
        bool absent = reading->at[i] < 0;
        if (absent && mensur_nearest_take(&nearest, reading->layout->columns[i].name)) {
            best = i;
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
                         mensur_log_short(name, text), reading->layout->columns[meant].name);
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

bool mensur_has_enough(const struct reading *reading, bool (*has)(const struct reading *, int)) {
    const struct layout *layout = reading->layout;
    for (int i = 0; i < MENSUR_WAYS_MOST && layout->enough[i][0] > 0; i++) {
        if (has(reading, layout->enough[i][0]) && has(reading, layout->enough[i][1])) {
            return true;
        }
    }
    return layout->needs_one == NULL;
}

static void require_columns(struct reading *reading, const bool suggested[]) {
    const struct layout *layout = reading->layout;
    bool misspelt = false;
    for (int i = 0; i < layout->count; i++) {
        misspelt = misspelt || suggested[i];
        if (layout->columns[i].required && reading->at[i] < 0 && !suggested[i]) {
            head_error(reading, 0, layout->columns[i].name, "is missing, and every row needs it");
        }
    }
    if (!misspelt && !mensur_has_enough(reading, mensur_has_column)) {
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
    for (int i = 0; i < reading->layout->count; i++) {
        if (reading->at[i] >= 0 || reading->layout->blank == NULL) {
            reading->present[reading->present_count++] = i;
        }
    }
    reading->names.column = reading->at[0];
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
    return reading->compared
               ? mensur_names_add(&reading->names, &reading->row->cells[reading->at[0]])
               : MENSUR_OK;
}

/* Where a stock has the rows of a table, and a row its name. */
static const struct list {
    size_t items, count; /* offsets in the stock */
    size_t size, name;   /* of a row; offset in it */
} lists[MENSUR_TABLE_COUNT] = {
#define LIST(rows, number, row, title)                                                             \
    {                                                                                              \
        offsetof(struct mensur_stock, rows), offsetof(struct mensur_stock, number),                \
            sizeof(struct row), offsetof(struct row, title)                                        \
    }
    [MENSUR_TABLE_STRINGS] = LIST(strings, string_count, mensur_string_spec, set),
    [MENSUR_TABLE_TUNINGS] = LIST(tunings, tuning_count, mensur_tuning, name),
    [MENSUR_TABLE_PLAYERS] = LIST(players, player_count, mensur_player, name),
    [MENSUR_TABLE_FAMILIES] = LIST(families, family_count, mensur_family, name),
    [MENSUR_TABLE_MATERIALS] = LIST(materials, material_count, mensur_material, name),
    [MENSUR_TABLE_WIRES] = LIST(wires, wire_count, mensur_wire_strength, material),
#undef LIST
};

struct known_names mensur_names_in(const struct mensur_stock *stock, enum mensur_table table) {
    const struct list *list = &lists[table];
    struct known_names known = {.size = list->size, .offset = list->name};
    memcpy(&known.rows, (const char *)stock + list->items, sizeof(known.rows));
    memcpy(&known.count, (const char *)stock + list->count, sizeof(known.count));
    return known;
}

/* A row of any table of the stock, or an instrument. */
union any_row {
    struct mensur_family family;
    struct mensur_instrument instrument;
    struct material_row material;
    struct mensur_player player;
    struct mensur_string_spec string;
    struct mensur_tuning tuning;
    struct mensur_wire_strength wire;
};

/* Puts copies in the place of the borrowed texts, all of them or none. */
static enum mensur_status own_texts(const struct layout *layout, union any_row *row) {
    for (int i = 0; i < layout->count; i++) {
        void *member = (char *)row + layout->columns[i].at;
        char **text = layout->columns[i].how == CELL_TEXT ? member : NULL;
        if (text == NULL || *text == NULL ||
            mensur_text_copy(*text, strlen(*text), text) == MENSUR_OK) {
            continue;
        }
        while (i-- > 0) {
            member = (char *)row + layout->columns[i].at;
            if (layout->columns[i].how == CELL_TEXT) {
                free(*(char **)member);
            }
        }
        return MENSUR_MEMORY;
    }
    return MENSUR_OK;
}

/* Adds the row to the stock. */
static enum mensur_status keep(struct reading *reading, union any_row *row) {
    const struct list *list = &lists[reading->table];
    char *items, *stock = (char *)reading->stock;
    size_t count;
    memcpy(&items, stock + list->items, sizeof(items));
    memcpy(&count, stock + list->count, sizeof(count));
    items = mensur_grow(items, count, list->size);
    if (items == NULL) {
        return MENSUR_MEMORY;
    }
    memcpy(stock + list->items, &items, sizeof(items));
    if (own_texts(reading->layout, row) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    memcpy(items + count * list->size, row, list->size);
    count++;
    memcpy(stock + list->count, &count, sizeof(count));
    return MENSUR_OK;
}

static enum mensur_status take_row(struct reading *reading) {
    union any_row row;
    memset(&row, 0, sizeof(row));
    mensur_cells_read(reading, &row);
    if (reading->layout->check != NULL) {
        reading->layout->check(reading, &row);
    }
    if (reading->row_bad || reading->head_bad) {
        return MENSUR_OK;
    }
    if (reading->table != MENSUR_TABLE_INSTRUMENTS) {
        return keep(reading, &row);
    }
    return reading->visit != NULL ? reading->visit(reading->context, &row.instrument) : MENSUR_OK;
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
    return status == MENSUR_OK ? take_row(reading) : status;
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
    if (to_the_end && reading->compared) {
        enum mensur_status named =
            mensur_names_report(&reading->names, reading->source, &reading->log);
        status = named != MENSUR_OK ? named : status;
    }
    return status != MENSUR_OK ? status : reading->log.status;
}

void mensur_table_close(struct reading *reading) {
    mensur_rows_close(reading->rows);
    mensur_names_clear(&reading->names);
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

void *mensur_grow(void *items, size_t count, size_t size) {
    bool full = count == 0 || (count >= 8 && (count & (count - 1)) == 0);
    if (!full) {
        return items;
    }
    size_t room = count == 0 ? 8 : count * 2;
    return room > SIZE_MAX / size ? NULL : realloc(items, room * size);
}
