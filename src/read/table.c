/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of named columns: its head understood, its rows read, checked, and kept or handed out. */
#include "table.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "heads.h"
#include "nearest.h"
#include "stock_index.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by the stock, at the offset of its list. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* So many letters apart, a word is taken for one that is needed, and missing. */
#define MISSPELT_MOST 2
/* From so many letters on, a word one letter apart from another is taken for it misspelt. */
#define MISSPELT_LEAST 5
/* To find what was meant every name is looked at: for so many wrong ones, then no more. */
#define SUGGESTED_MOST 50
/* No honest head is wider, and each of its names is held against all others. */
#define HEAD_MOST 1000

/* Both of some length, beginning alike, one letter apart or two neighbours exchanged. */
static bool is_slip(const char *word, const char *name) {
    return strlen(word) >= MISSPELT_LEAST && strlen(name) >= MISSPELT_LEAST && word[0] == name[0] &&
           mensur_text_distance(word, name) == 1;
}

static bool misspells(const struct reading *reading, const char *word, int column) {
    const char *name = reading->layout->columns[column].name, *other;
    bool slip = is_slip(word, name);
    for (size_t i = 0; !slip && (other = mensur_head_synonym(reading->table, name, i)) != NULL;
         i++) {
        slip = is_slip(word, other);
    }
    return slip;
}

/* The absent column that an unknown word misspells; -1 where there is none. */
static int find_misspelt(const struct reading *reading, const char *word) {
    for (int i = 0; i < reading->layout->count; i++) {
        if (reading->at[i] < 0 && misspells(reading, word, i)) {
            return i;
        }
    }
    return -1;
}

/* Every row needs it, or it is one of those of which some are needed. */
static bool is_needed(const struct layout *layout, int column) {
    bool needed = layout->columns[column].required;
    for (int i = 0; i < MENSUR_WAYS_MOST && layout->enough[i][0] > 0; i++) {
        needed = needed || layout->enough[i][0] == column || layout->enough[i][1] == column;
    }
    return needed;
}

static void head_error(struct reading *reading, int column, const char *name, const char *message) {
    char text[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(&reading->log, reading->row->line, column + 1, "column \"%s\": %s",
                     mensur_log_short(name, text), message);
}

static void refuse_misspelt(struct reading *reading, int at, int meant) {
    char text[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(
        &reading->log, reading->row->line, at + 1, "column \"%s\" is unknown; did you mean \"%s\"?",
        mensur_log_short(reading->row->cells[at].text, text), reading->layout->columns[meant].name);
}

static void refuse_second(struct reading *reading, int at, int first, const char *name) {
    char text[MENSUR_SHORT_ROOM], other[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(&reading->log, reading->row->line, at + 1,
                     "column \"%s\": stands twice: column %d, \"%s\", is %s too; leave one of them "
                     "out",
                     mensur_log_short(reading->row->cells[at].text, text), first + 1,
                     mensur_log_short(reading->row->cells[first].text, other), name);
}

static void refuse_ambiguous(struct reading *reading, int at, const char *may_mean) {
    char text[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(&reading->log, reading->row->line, at + 1,
                     "column \"%s\" means different things in different shops: %s; write the one "
                     "that it is",
                     mensur_log_short(reading->row->cells[at].text, text), may_mean);
}

static void refuse_unit(struct reading *reading, int at, const char *name) {
    char text[MENSUR_SHORT_ROOM];
    reading->head_bad = true;
    mensur_log_error(&reading->log, reading->row->line, at + 1,
                     "column \"%s\": that is no unit of %s",
                     mensur_log_short(reading->row->cells[at].text, text), name);
}

static bool repeats_an_earlier(const struct head *heads, int at) {
    for (int i = 0; i < at && *heads[at].folded != '\0'; i++) {
        if (strcmp(heads[i].folded, heads[at].folded) == 0) {
            return true;
        }
    }
    return false;
}

/* Places the columns that are known; those that stand twice are refused. */
static void place_columns(struct reading *reading, const struct head *heads) {
    for (int i = 0; i < reading->row->count; i++) {
        int known = heads[i].column;
        if (repeats_an_earlier(heads, i)) {
            head_error(reading, i, reading->row->cells[i].text,
                       "stands twice; leave one of them out");
        } else if (known >= 0 && reading->at[known] >= 0) {
            refuse_second(reading, i, reading->at[known], reading->layout->columns[known].name);
        } else if (known >= 0 && heads[i].unit_is_wrong) {
            refuse_unit(reading, i, reading->layout->columns[known].name);
        } else if (known >= 0) {
            reading->at[known] = i;
            reading->unit[known] = heads[i].unit;
        }
    }
}

/* A column that is the owner's own: of the instruments it is carried along. */
static enum mensur_status take_owners(struct reading *reading, int at) {
    const char *name = reading->row->cells[at].text;
    if (*name == '\0') {
        mensur_log_warning(&reading->log, reading->row->line, at + 1,
                           "this column has no name, and is not read");
        return MENSUR_OK;
    }
    if (reading->table != MENSUR_TABLE_INSTRUMENTS) {
        char text[MENSUR_SHORT_ROOM];
        mensur_log_warning(&reading->log, reading->row->line, at + 1,
                           "column \"%s\" is unknown, and is not read",
                           mensur_log_short(name, text));
        return MENSUR_OK;
    }
    reading->owners[reading->owners_count++] = at;
    /* the threads that answer rows of a later reading look at the heads of the first */
    return (size_t)reading->owners_count > reading->source->owners.count
               ? mensur_texts_add(&reading->source->owners, "%s", name)
               : MENSUR_OK;
}

/* A column that is not known: an error where its word is used for several, or is a known one
 * misspelt; else the owner's own. */
static enum mensur_status judge_unknown(struct reading *reading, const struct head *head, int at,
                                        bool suggested[]) {
    int meant = find_misspelt(reading, head->folded);
    if (head->may_mean != NULL) {
        refuse_ambiguous(reading, at, head->may_mean);
        return MENSUR_OK;
    }
    if (meant < 0) {
        return take_owners(reading, at);
    }
    suggested[meant] = true;
    refuse_misspelt(reading, at, meant);
    return MENSUR_OK;
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

/* The needed column, missing, that an unknown word is nearest to, within two letters; -1 where none
 * is. */
static int find_needed(const struct reading *reading, const char *word) {
    struct mensur_nearest nearest = mensur_nearest_start(word, MISSPELT_MOST);
    int best = -1;
    for (int i = 0; i < reading->layout->count; i++) {
        if (reading->at[i] < 0 && is_needed(reading->layout, i) &&
            mensur_nearest_take(&nearest, reading->layout->columns[i].name)) {
            best = i;
        }
    }
    return best;
}

static bool lacks_columns(const struct reading *reading) {
    bool lacks = !mensur_has_enough(reading, mensur_has_column);
    for (int i = 0; i < reading->layout->count; i++) {
        lacks = lacks || (reading->layout->columns[i].required && reading->at[i] < 0);
    }
    return lacks;
}

static void require_columns(struct reading *reading, const struct head *heads, bool suggested[]) {
    const struct layout *layout = reading->layout;
    bool misspelt = false, lacks = lacks_columns(reading);
    for (int i = 0; lacks && i < reading->row->count; i++) {
        bool unknown = heads[i].column < 0 && heads[i].may_mean == NULL &&
                       *heads[i].folded != '\0' && find_misspelt(reading, heads[i].folded) < 0;
        int meant = unknown ? find_needed(reading, heads[i].folded) : -1;
        if (meant >= 0) {
            suggested[meant] = true;
            refuse_misspelt(reading, i, meant);
        }
    }
    for (int i = 0; i < layout->count; i++) {
        misspelt = misspelt || suggested[i];
        if (layout->columns[i].required && reading->at[i] < 0 && !suggested[i]) {
            head_error(reading, 0, layout->columns[i].name, "is missing, and every row needs it");
        }
    }
    for (int i = 0; i < reading->row->count; i++) {
        misspelt = misspelt || heads[i].may_mean != NULL || heads[i].unit_is_wrong;
    }
    bool less = layout->less > 0 && mensur_has_column(reading, layout->less);
    if (!misspelt && !less && !mensur_has_enough(reading, mensur_has_column)) {
        reading->head_bad = true;
        mensur_log_error(&reading->log, reading->row->line, 1, "%s", layout->needs_one);
    }
}

static enum mensur_status understand_head(struct reading *reading, struct head *heads) {
    bool suggested[MENSUR_COLUMNS_MOST] = {false};
    const struct row *row = reading->row;
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < row->count; i++) {
        heads[i] = mensur_head_read(reading->table, reading->layout, row->cells[i].text);
    }
    place_columns(reading, heads);
    for (int i = 0; i < row->count && status == MENSUR_OK; i++) {
        if (heads[i].column < 0 && !repeats_an_earlier(heads, i)) {
            status = judge_unknown(reading, &heads[i], i, suggested);
        }
    }
    if (status == MENSUR_OK) {
        require_columns(reading, heads, suggested);
    }
    for (int i = 0; i < reading->layout->count; i++) {
        if (reading->at[i] >= 0 || reading->layout->blank == NULL) {
            reading->present[reading->present_count++] = i;
        }
    }
    return status;
}

static enum mensur_status take_head(struct reading *reading) {
    const struct row *row = reading->row;
    reading->width = row->count;
    if (row->count > HEAD_MOST) {
        mensur_log_error(&reading->log, row->line, HEAD_MOST + 1,
                         "the head names %d columns; this is no table of a shop", row->count);
        return MENSUR_DATA;
    }
    struct head *heads = calloc((size_t)row->count, sizeof(*heads));
    reading->owners = calloc((size_t)row->count, sizeof(*reading->owners));
    enum mensur_status status =
        heads == NULL || reading->owners == NULL ? MENSUR_MEMORY : understand_head(reading, heads);
    free(heads);
    reading->names.column = reading->at[0];
    return status;
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
    [MENSUR_TABLE_SETTINGS] = LIST(settings, setting_count, mensur_setting, name),
    [MENSUR_TABLE_SIZES] = LIST(sizes, size_count, mensur_named_size, name),
    [MENSUR_TABLE_POSITIONS] = LIST(positions, position_count, mensur_list_position, list),
#undef LIST
};

bool mensur_name_is_in(const struct reading *reading, enum mensur_table table, const char *name) {
    const struct mensur_stock *stock = reading->stock;
    switch (table) {
    case MENSUR_TABLE_STRINGS:
        return mensur_stock_place(stock, MENSUR_NAMED_SETS, name) < stock->string_count;
    case MENSUR_TABLE_FAMILIES:
        return mensur_stock_family(stock, name) != NULL;
    case MENSUR_TABLE_TUNINGS:
        return mensur_stock_tuning(stock, name) != NULL;
    default:
        return mensur_stock_player(stock, name) != NULL;
    }
}

const char *mensur_reading_suggest(struct reading *reading, const char *wrong,
                                   const struct known_names *known, char out[MENSUR_SUGGEST_ROOM]) {
    if (reading->suggested >= SUGGESTED_MOST) {
        return "what there is stands further above";
    }
    reading->suggested++;
    return mensur_suggest(wrong, known, out);
}

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
    struct mensur_list_position position;
    struct mensur_setting setting;
    struct mensur_named_size size;
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
    return mensur_stock_index_update(reading->stock);
}

/* Puts the cells of the owner's columns behind each other; a cell that the row lacks is empty. */
static enum mensur_status take_owners_cells(struct reading *reading, struct mensur_owners *out) {
    const struct row *row = reading->row;
    size_t size = 0;
    for (int i = 0; i < reading->owners_count; i++) {
        size += reading->owners[i] < row->count ? row->cells[reading->owners[i]].length + 1 : 1;
    }
    if (size > reading->owners_room) {
        char *cells = realloc(reading->owners_cells, 2 * size);
        if (cells == NULL) {
            return MENSUR_MEMORY;
        }
        reading->owners_cells = cells;
        reading->owners_room = 2 * size;
    }
    char *to = reading->owners_cells;
    for (int i = 0; i < reading->owners_count; i++) {
        const struct cell *cell =
            reading->owners[i] < row->count ? &row->cells[reading->owners[i]] : NULL;
        size_t length = cell != NULL ? cell->length : 0;
        if (length > 0) {
            memcpy(to, cell->text, length);
        }
        to[length] = '\0';
        to += length + 1;
    }
    *out = (struct mensur_owners){size > 0 ? reading->owners_cells : NULL, size};
    return MENSUR_OK;
}

static enum mensur_status take_row(struct reading *reading) {
    union any_row row;
    if (reading->layout->blank != NULL) {
        reading->layout->blank(&row);
    } else {
        memset(&row, 0, sizeof(row));
    }
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
    enum mensur_status status = take_owners_cells(reading, &row.instrument.owners);
    return status == MENSUR_OK && reading->visit != NULL
               ? reading->visit(reading->context, &row.instrument)
               : status;
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
    mensur_log_end(&reading->log);
    return status != MENSUR_OK ? status : reading->log.status;
}

void mensur_table_close(struct reading *reading) {
    mensur_rows_close(reading->rows);
    mensur_names_clear(&reading->names);
    mensur_set_index_clear(&reading->sets);
    free(reading->owners);
    free(reading->owners_cells);
    reading->owners = NULL;
    reading->owners_cells = NULL;
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
