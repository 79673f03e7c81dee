/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop: its sources found, its tables read in the order in which they need each other. */
#include "shop_files.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "built_in.h"
#include "input.h"
#include "setting.h"
#include "bands.h"
#include "stock_index.h"
#include "tables.h"

#define DEMONSTRATION "demonstration"

static const struct {
    const char *file, *one, *many;
} files[MENSUR_TABLE_COUNT] = {
#define FILE_OF(id, file, one, many) [MENSUR_TABLE_##id] = {file, one, many},
    MENSUR_TABLE_LIST(FILE_OF)
#undef FILE_OF
};

const char *mensur_table_file(enum mensur_table table) {
    return files[table < MENSUR_TABLE_COUNT ? table : 0].file;
}

const char *mensur_table_row_name(enum mensur_table table, bool several) {
    return several ? files[table].many : files[table].one;
}

const unsigned char *mensur_built_in(enum mensur_table table, size_t *size) {
    const struct built_in *at = mensur_built_in_files;
    while (at->file != NULL && strcmp(at->file, mensur_table_file(table)) != 0) {
        at++;
    }
    *size = at->size;
    return at->bytes;
}

void mensur_shop_clear(struct mensur_shop *shop) {
    for (int i = 0; i < MENSUR_TABLE_COUNT; i++) {
        free(shop->sources[i].label);
        mensur_texts_clear(&shop->sources[i].owners);
        mensur_file_close(shop->sources[i].file);
    }
    free(shop->label);
    mensur_stock_clear(&shop->stock);
    *shop = (struct mensur_shop){0};
}

/* folder/file; NULL without memory. */
static char *join(const char *folder, const char *file) {
    size_t folder_length = strlen(folder), room = folder_length + strlen(file) + 2;
    char *path = malloc(room);
    bool ended = folder_length > 0 && folder[folder_length - 1] == '/';
    if (path != NULL) {
        snprintf(path, room, "%s%s%s", folder, ended ? "" : "/", file);
    }
    return path;
}

char *mensur_table_path(const char *folder, enum mensur_table table) {
    return join(folder, mensur_table_file(table));
}

static enum mensur_status use_built_in(enum mensur_table table, struct mensur_source *source) {
    *source =
        (struct mensur_source){.label = mensur_table_path(DEMONSTRATION, table), .built_in = true};
    source->bytes = mensur_built_in(table, &source->size);
    return source->label != NULL ? MENSUR_OK : MENSUR_MEMORY;
}

static enum mensur_status use_bytes(const struct mensur_bytes *given,
                                    struct mensur_source *source) {
    const char *file = mensur_table_file(given->table);
    *source = (struct mensur_source){.bytes = given->bytes, .size = given->size};
    return mensur_text_copy(file, strlen(file), &source->label);
}

/* The spreadsheet that stands beside a missing table, "instruments.xlsx"; NULL: none. */
static enum mensur_status find_spreadsheet(const char *folder, const char **found) {
    static const char *const sheets[] = {"instruments.xlsx", "instruments.xls", "instruments.ods"};
    *found = NULL;
    for (size_t i = 0; i < sizeof(sheets) / sizeof(sheets[0]) && *found == NULL; i++) {
        char *path = join(folder, sheets[i]);
        if (path == NULL) {
            return MENSUR_MEMORY;
        }
        *found = access(path, F_OK) == 0 ? sheets[i] : NULL;
        free(path);
    }
    return MENSUR_OK;
}

/* A file that cannot be read; of a missing instruments.csv, what would do. */
static enum mensur_status refuse_file(const struct mensur_source *source, bool start,
                                      const char *folder, int why, struct mensur_report *report) {
    struct log log = {.file = source->label, .report = report};
    const char *spreadsheet = NULL;
    if (start && find_spreadsheet(folder, &spreadsheet) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    if (spreadsheet != NULL) {
        mensur_log_error(&log, 1, 1,
                         "cannot be read: %s; there is %s: open it and save its sheet as \"CSV "
                         "UTF-8\" under this name",
                         strerror(why), spreadsheet);
    } else if (start) {
        mensur_log_error(&log, 1, 1,
                         "cannot be read: %s; mensur start %s writes a shop to begin with",
                         strerror(why), folder);
    } else {
        mensur_log_error(&log, 1, 1, "cannot be read: %s", strerror(why));
    }
    return log.status == MENSUR_MEMORY ? MENSUR_MEMORY : MENSUR_READ;
}

static enum mensur_status refuse_kind(const struct mensur_source *source, const char *kind,
                                      struct mensur_report *report) {
    struct log log = {.file = source->label, .report = report};
    mensur_log_error(&log, 1, 1, "is %s; a table is a regular file, or a link to one", kind);
    return log.status;
}

/* The folder's file; where it lacks one, the built-in, save for the instruments. */
static enum mensur_status use_file(const char *folder, enum mensur_table table,
                                   struct mensur_report *report, struct mensur_source *source) {
    const char *kind = NULL;
    struct mensur_file *file = NULL;
    *source = (struct mensur_source){.label = mensur_table_path(folder, table)};
    if (source->label == NULL) {
        return MENSUR_MEMORY;
    }
    errno = 0;
    enum mensur_status status = mensur_file_open(source->label, &file, &kind);
    int why = errno;
    if (status == MENSUR_OK) {
        source->file = file;
        source->size = mensur_file_size(file);
    }
    if (status == MENSUR_DATA) {
        return refuse_kind(source, kind, report);
    }
    if (status != MENSUR_READ) {
        return status;
    }
    bool missing = why == ENOENT || why == ENOTDIR;
    if (table == MENSUR_TABLE_INSTRUMENTS || !missing) {
        return refuse_file(source, missing, folder, why, report);
    }
    free(source->label);
    return use_built_in(table, source);
}

/* Bad data in one table does not end the reading: the others' errors are to be seen too. */
static enum mensur_status worse(enum mensur_status one, enum mensur_status other) {
    return one == MENSUR_OK || other != MENSUR_OK ? other : one;
}

static bool broken(enum mensur_status status) {
    return status != MENSUR_OK && status != MENSUR_DATA;
}

static enum mensur_status read_table(struct mensur_shop *shop, enum mensur_table table,
                                     const struct bad_tables *bad, struct mensur_report *report) {
    struct reading reading =
        mensur_reading(table, &shop->sources[table], &shop->stock, true, report);
    reading.bad = *bad;
    return mensur_table_read(&reading);
}

/* Whether the built-in strings stand beside the shop's, by its settings. */
static bool wants_catalogue(const struct mensur_stock *stock) {
    for (size_t i = 0; i < stock->setting_count; i++) {
        const struct mensur_setting *setting = &stock->settings[i];
        if (setting->which == MENSUR_SETTING_CATALOGUE && setting->value != NULL) {
            return strcmp(setting->value, "no") != 0;
        }
    }
    return true;
}

static int by_text(const void *a, const void *b) {
    const char *const *x = a;
    const char *const *y = b;
    return strcmp(*x, *y);
}

static bool is_among(const char *text, const char *const *sorted, size_t count) {
    return text != NULL && bsearch(&text, sorted, count, sizeof *sorted, by_text) != NULL;
}

/* Marks the strings whose names are in no row of the catalogue, which has names in order. */
static void mark_own(struct mensur_stock *stock, const char *const *names, size_t count) {
    for (size_t i = 0; i < stock->string_count; i++) {
        stock->strings[i].own = !is_among(stock->strings[i].name, names, count);
    }
}

/* Names and sets of strings, each in order; borrowed. */
struct string_texts {
    const char **names, **sets; /* owned */
    size_t count, set_count;
};

static enum mensur_status list_texts(const struct mensur_stock *stock, struct string_texts *texts) {
    *texts = (struct string_texts){.count = stock->string_count};
    texts->names = calloc(stock->string_count + 1, sizeof *texts->names);
    texts->sets = calloc(stock->string_count + 1, sizeof *texts->sets);
    if (texts->names == NULL || texts->sets == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t i = 0; i < stock->string_count; i++) {
        texts->names[i] = stock->strings[i].name;
        if (stock->strings[i].set != NULL) {
            texts->sets[texts->set_count++] = stock->strings[i].set;
        }
    }
    qsort(texts->names, texts->count, sizeof *texts->names, by_text);
    qsort(texts->sets, texts->set_count, sizeof *texts->sets, by_text);
    return MENSUR_OK;
}

/* Puts the catalogue's strings behind the shop's, but for those that a string of the shop stands
 * for, by its name or its set: these are freed. */
static enum mensur_status take_catalogue(struct mensur_stock *stock, struct mensur_stock *catalogue,
                                         const struct string_texts *own) {
    const bool wanted = wants_catalogue(stock);
    struct mensur_string_spec *all =
        realloc(stock->strings, (own->count + catalogue->string_count + 1) * sizeof *all);
    if (all == NULL) {
        return MENSUR_MEMORY;
    }
    stock->strings = all;
    for (size_t k = 0; k < catalogue->string_count; k++) {
        struct mensur_string_spec *spec = &catalogue->strings[k];
        if (wanted && !is_among(spec->name, own->names, own->count) &&
            !is_among(spec->set, own->sets, own->set_count)) {
            all[stock->string_count++] = *spec;
        } else {
            mensur_string_spec_clear(spec);
        }
    }
    catalogue->string_count = 0;
    return mensur_stock_index_update(stock);
}

static enum mensur_status join_catalogue(struct mensur_stock *stock,
                                         struct mensur_stock *catalogue) {
    struct string_texts own = {.names = NULL}, built_in = {.names = NULL};
    enum mensur_status status = list_texts(stock, &own);
    if (status == MENSUR_OK) {
        status = list_texts(catalogue, &built_in);
    }
    if (status == MENSUR_OK) {
        mark_own(stock, built_in.names, built_in.count);
        status = take_catalogue(stock, catalogue, &own);
    }
    free(own.names);
    free(own.sets);
    free(built_in.names);
    free(built_in.sets);
    return status;
}

/* A shop with strings of its own has the built-in ones beside them. They are read with the shop's
 * materials; one that needs a material which those lack is left out. */
static enum mensur_status add_catalogue(struct mensur_shop *shop, const struct bad_tables *bad) {
    struct mensur_source source;
    struct mensur_stock catalogue = {.materials = shop->stock.materials,
                                     .material_count = shop->stock.material_count};
    if (shop->sources[MENSUR_TABLE_STRINGS].built_in || bad->is[MENSUR_TABLE_STRINGS]) {
        return MENSUR_OK;
    }
    enum mensur_status status = use_built_in(MENSUR_TABLE_STRINGS, &source);
    if (status == MENSUR_OK) {
        struct reading reading =
            mensur_reading(MENSUR_TABLE_STRINGS, &source, &catalogue, false, NULL);
        reading.bad = *bad;
        status = mensur_table_read(&reading);
        free(source.label);
    }
    if (!broken(status)) {
        status = join_catalogue(&shop->stock, &catalogue);
    }
    catalogue.materials = NULL;
    catalogue.material_count = 0;
    mensur_stock_clear(&catalogue);
    return status;
}

/* Reads all tables; after an error the instruments too, so that all errors are reported at once;
 * they are then looked up in sound tables alone. */
static enum mensur_status read_tables(struct mensur_shop *shop, struct mensur_report *report) {
    static const enum mensur_table order[] = {
        MENSUR_TABLE_MATERIALS, MENSUR_TABLE_WIRES,   MENSUR_TABLE_POSITIONS,
        MENSUR_TABLE_FAMILIES,  MENSUR_TABLE_TUNINGS, MENSUR_TABLE_SIZES,
        MENSUR_TABLE_PLAYERS,   MENSUR_TABLE_STRINGS, MENSUR_TABLE_SETTINGS};
    struct bad_tables bad = {{false}};
    enum mensur_status all = MENSUR_OK;
    for (size_t i = 0; i < sizeof(order) / sizeof(order[0]) && !broken(all); i++) {
        enum mensur_status each = read_table(shop, order[i], &bad, report);
        bad.is[order[i]] = each != MENSUR_OK;
        all = worse(all, each);
    }
    if (!broken(all) && add_catalogue(shop, &bad) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    if (!broken(all) && mensur_bands_make(&shop->stock) != MENSUR_OK) {
        return MENSUR_MEMORY;
    }
    return all == MENSUR_DATA ? worse(all, read_table(shop, MENSUR_TABLE_INSTRUMENTS, &bad, report))
                              : all;
}

/* Hands the shop over, or clears it. */
static enum mensur_status finish(enum mensur_status status, const char *label,
                                 struct mensur_shop *shop, struct mensur_report *report,
                                 struct mensur_shop *out) {
    if (status == MENSUR_OK) {
        status = mensur_text_copy(label, strlen(label), &shop->label);
    }
    if (status == MENSUR_OK) {
        status = read_tables(shop, report);
    }
    if (status == MENSUR_OK) {
        *out = *shop;
    } else {
        mensur_shop_clear(shop);
    }
    return status;
}

enum mensur_status mensur_shop_open_without(const char *folder, enum mensur_table without,
                                            struct mensur_report *report,
                                            struct mensur_shop *shop) {
    struct mensur_shop made = {0};
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        enum mensur_table table = (enum mensur_table)i;
        status = folder != NULL && table != without
                     ? use_file(folder, table, report, &made.sources[i])
                     : use_built_in(table, &made.sources[i]);
    }
    return finish(status, folder != NULL ? folder : DEMONSTRATION, &made, report, shop);
}

enum mensur_status mensur_shop_open(const char *folder, struct mensur_report *report,
                                    struct mensur_shop *shop) {
    return mensur_shop_open_without(folder, MENSUR_TABLE_COUNT, report, shop);
}

static const struct mensur_bytes *find_given(const struct mensur_bytes *given, size_t count,
                                             enum mensur_table table) {
    for (size_t i = 0; i < count; i++) {
        if (given[i].table == table) {
            return &given[i];
        }
    }
    return NULL;
}

enum mensur_status mensur_shop_open_bytes(const char *label, const struct mensur_bytes *given,
                                          size_t count, struct mensur_report *report,
                                          struct mensur_shop *shop) {
    struct mensur_shop made = {0};
    enum mensur_status status = MENSUR_OK;
    for (int i = 0; i < MENSUR_TABLE_COUNT && status == MENSUR_OK; i++) {
        enum mensur_table table = (enum mensur_table)i;
        const struct mensur_bytes *bytes = find_given(given, count, table);
        status = bytes != NULL ? use_bytes(bytes, &made.sources[i])
                               : use_built_in(table, &made.sources[i]);
    }
    return finish(status, label, &made, report, shop);
}

enum mensur_status mensur_shop_instruments(struct mensur_shop *shop, bool names,
                                           mensur_visit *visit, void *context,
                                           struct mensur_report *report) {
    struct reading reading =
        mensur_reading(MENSUR_TABLE_INSTRUMENTS, &shop->sources[MENSUR_TABLE_INSTRUMENTS],
                       &shop->stock, names, report);
    reading.visit = visit;
    reading.context = context;
    return mensur_table_read(&reading);
}

enum mensur_status mensur_shop_check(struct mensur_shop *shop, struct mensur_report *report) {
    struct reading reading =
        mensur_reading(MENSUR_TABLE_INSTRUMENTS, &shop->sources[MENSUR_TABLE_INSTRUMENTS],
                       &shop->stock, true, report);
    reading.judged = true;
    return mensur_table_read(&reading);
}

/* A table of one row, while it is written. */
struct row_text {
    char *bytes; /* NULL: only measured */
    size_t length;
};

static void add_bytes(struct row_text *text, const char *bytes, size_t length) {
    if (text->bytes != NULL) {
        memcpy(text->bytes + text->length, bytes, length);
    }
    text->length += length;
}

/* A cell in quotes, those in it doubled. */
static void add_cell(struct row_text *text, const char *cell, size_t length) {
    add_bytes(text, text->length == 0 ? "\"" : ",\"", text->length == 0 ? 1 : 2);
    for (size_t i = 0; i < length; i++) {
        add_bytes(text, &cell[i], 1);
        if (cell[i] == '"') {
            add_bytes(text, "\"", 1);
        }
    }
    add_bytes(text, "\"", 1);
}

static bool is_given(const char *const *words, size_t count, const char *field) {
    for (size_t i = 0; i < count; i++) {
        size_t length = strcspn(words[i], "=");
        if (strlen(field) == length && strncmp(words[i], field, length) == 0) {
            return true;
        }
    }
    return false;
}

/* The column of a word FIELD=VALUE where it goes by a shorter name; NULL: the word's own. */
static const char *column_of(const char *word) {
    static const char *const brief[][2] = {{"length=", "string_length"}, {"size=", "model_size"}};
    for (size_t i = 0; i < 2; i++) {
        if (strncmp(word, brief[i][0], strlen(brief[i][0])) == 0) {
            return brief[i][1];
        }
    }
    return NULL;
}

/* The lengths that a row needs have a column, given or not, so that the row is told what it lacks.
 */
static void write_row(const char *name, const char *const *words, size_t count,
                      struct row_text *text) {
    static const char *const needed[] = {"string_length", "stop", "neck"};
    add_cell(text, "name", 4);
    for (size_t i = 0; i < count; i++) {
        const char *column = column_of(words[i]);
        add_cell(text, column != NULL ? column : words[i],
                 column != NULL ? strlen(column) : strcspn(words[i], "="));
    }
    for (size_t i = 0; i < 3; i++) {
        if (!is_given(words, count, needed[i]) && !(i == 0 && is_given(words, count, "length"))) {
            add_cell(text, needed[i], strlen(needed[i]));
        }
    }
    add_bytes(text, "\n\"", 2);
    add_bytes(text, name, strlen(name));
    add_bytes(text, "\"", 1);
    for (size_t i = 0; i < count; i++) {
        const char *value = words[i] + strcspn(words[i], "=");
        value += *value == '=';
        add_cell(text, value, strlen(value));
    }
    add_bytes(text, "\n", 1);
}

enum mensur_status mensur_shop_described(struct mensur_shop *shop, const char *name,
                                         const char *const *words, size_t count,
                                         mensur_visit *visit, void *context,
                                         struct mensur_report *report) {
    struct row_text text = {.bytes = NULL};
    write_row(name, words, count, &text);
    text.bytes = malloc(text.length);
    if (text.bytes == NULL) {
        return MENSUR_MEMORY;
    }
    text.length = 0;
    write_row(name, words, count, &text);
    struct mensur_source source = {.bytes = (const unsigned char *)text.bytes, .size = text.length};
    struct reading reading =
        mensur_reading(MENSUR_TABLE_INSTRUMENTS, &source, &shop->stock, false, report);
    reading.visit = visit;
    reading.context = context;
    enum mensur_status status = mensur_table_read(&reading);
    free(text.bytes);
    return status;
}

/* The stature has a column, given or not, so that the row is told what it lacks. */
static void write_player(const char *const *words, size_t count, struct row_text *text) {
    add_cell(text, "name", 4);
    for (size_t i = 0; i < count; i++) {
        add_cell(text, words[i], strcspn(words[i], "="));
    }
    if (!is_given(words, count, "stature")) {
        add_cell(text, "stature", 7);
    }
    add_bytes(text, "\n\"this player\"", 14);
    for (size_t i = 0; i < count; i++) {
        const char *value = words[i] + strcspn(words[i], "=") + 1;
        add_cell(text, value, strlen(value));
    }
    add_bytes(text, "\n", 1);
}

enum mensur_status mensur_shop_player(const char *const *words, size_t count,
                                      struct mensur_stock *typed, struct mensur_report *report) {
    struct row_text text = {.bytes = NULL};
    write_player(words, count, &text);
    text.bytes = malloc(text.length);
    if (text.bytes == NULL) {
        return MENSUR_MEMORY;
    }
    text.length = 0;
    write_player(words, count, &text);
    struct mensur_source source = {.bytes = (const unsigned char *)text.bytes, .size = text.length};
    struct reading reading = mensur_reading(MENSUR_TABLE_PLAYERS, &source, typed, false, report);
    enum mensur_status status = mensur_table_read(&reading);
    free(text.bytes);
    return status;
}
