/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "published_table.h"

#include <csv.h>
#include <ctype.h>

#include "check.h"
#include "number.h"

/* Collects the cells of a row. */
struct gathering {
    struct published_table *table;
    size_t column;
    bool in_head, broken;
    struct published_row row;
};

static void take_cell(void *bytes, size_t length, void *context) {
    struct gathering *gathering = context;
    if (gathering->in_head) {
        return;
    }
    char *copy = calloc(length + 1, 1);
    if (copy == NULL || gathering->column >= COLUMNS) {
        free(copy);
        gathering->broken = true;
        return;
    }
    memcpy(copy, bytes, length);
    gathering->row.cells[gathering->column++] = copy;
}

static bool make_room(struct published_table *table) {
    if (table->count < table->room) {
        return true;
    }
    size_t room = 2 * table->room + 64;
    struct published_row *rows = realloc(table->rows, room * sizeof *rows);
    if (rows == NULL) {
        return false;
    }
    table->rows = rows;
    table->room = room;
    return true;
}

static void take_row(int end, void *context) {
    (void)end;
    struct gathering *gathering = context;
    if (gathering->in_head) {
        gathering->in_head = false;
        return;
    }
    if (gathering->column != COLUMNS || !make_room(gathering->table)) {
        print_error("row %zu has %zu cells\n", gathering->table->count + 1, gathering->column);
        gathering->broken = true;
        return;
    }
    gathering->row.line = gathering->table->count + 1;
    gathering->table->rows[gathering->table->count++] = gathering->row;
    gathering->column = 0;
}

void published_read(const char *path, struct published_table *table) {
    struct csv_parser parser;
    struct gathering gathering = {.table = table, .in_head = true};
    char buffer[4096];
    size_t got;
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    assert_int_equal(csv_init(&parser, 0), 0);
    while (!gathering.broken && (got = fread(buffer, 1, sizeof buffer, file)) > 0) {
        assert_true(csv_parse(&parser, buffer, got, take_cell, take_row, &gathering) == got);
    }
    assert_int_equal(csv_fini(&parser, take_cell, take_row, &gathering), 0);
    csv_free(&parser);
    assert_false(ferror(file));
    fclose(file);
    assert_false(gathering.broken);
}

void published_clear(struct published_table *table) {
    for (size_t i = 0; i < table->count; i++) {
        for (size_t j = 0; j < COLUMNS; j++) {
            free(table->rows[i].cells[j]);
        }
    }
    free(table->rows);
    *table = (struct published_table){0};
}

/* A number or a fraction at the start of a text; bytes used, 0 for none. */
static size_t read_number(const char *text, size_t length, double *value) {
    size_t used, more;
    double under;
    if (length == 0 || mensur_number_read(text, length, false, &used, value) != MENSUR_OK) {
        return 0;
    }
    if (used + 1 < length && text[used] == '/' && isdigit((unsigned char)text[used + 1]) &&
        mensur_number_read(text + used + 1, length - used - 1, false, &more, &under) == MENSUR_OK) {
        *value /= under;
        used += 1 + more;
    }
    return used;
}

/* Numbers of a part of a text, without those that belong to a name (the 0 of f0). */
static size_t read_numbers(const char *text, size_t length, double *out, size_t room) {
    size_t count = 0;
    for (size_t i = 0; i < length;) {
        double value;
        bool in_name = i > 0 && (isalpha((unsigned char)text[i - 1]) || text[i - 1] == '_');
        size_t used = in_name ? 0 : read_number(text + i, length - i, &value);
        if (used > 0 && count < room) {
            out[count++] = value;
        }
        i += used > 0 ? used : 1;
    }
    return count;
}

static const char *behind(const char *text, const char *marker) {
    const char *found = strstr(text, marker);
    bool is_name = isalpha((unsigned char)*marker);
    while (is_name && found != NULL && found > text && isalpha((unsigned char)found[-1])) {
        found = strstr(found + 1, marker);
    }
    if (found == NULL) {
        print_error("\"%s\" has no \"%s\"\n", text, marker);
        fail();
    }
    return found + strlen(marker);
}

double number_after(const char *text, const char *marker) {
    const char *start = behind(text, marker);
    double value = NAN;
    assert_true(read_number(start, strlen(start), &value) > 0);
    return value;
}

size_t numbers_after(const char *text, const char *marker, double *out, size_t room) {
    const char *start = behind(text, marker);
    return read_numbers(start, strcspn(start, ";"), out, room);
}

size_t expected_numbers(const char *text, double *out, size_t room) {
    size_t count = 0;
    while (*text != '\0') {
        double values[16];
        size_t length = strcspn(text, ";");
        size_t found = read_numbers(text, strcspn(text, ";("), values, COUNT_OF(values));
        if (found > 0 && count < room) {
            out[count++] = values[found - 1];
        }
        text += length + (text[length] == ';');
    }
    return count;
}

static struct tolerance one_tolerance(const char *text, size_t length) {
    double value;
    while (length > 0 && *text == ' ') {
        text++;
        length--;
    }
    if (length >= 5 && memcmp(text, "exact", 5) == 0) {
        return (struct tolerance){0.0, 1e-12};
    }
    size_t used = read_number(text, length, &value);
    if (used == 0) {
        return (struct tolerance){0.0, 0.0};
    }
    if (length >= used + 2 && memcmp(text + used, " %", 2) == 0) {
        return (struct tolerance){0.0, value / 100.0};
    }
    if (length >= used + 9 && memcmp(text + used, " relative", 9) == 0) {
        return (struct tolerance){0.0, value};
    }
    return (struct tolerance){value, 0.0};
}

size_t tolerances(const char *text, struct tolerance *out, size_t room) {
    size_t count = 0;
    while (*text != '\0' && count < room) {
        size_t length = strcspn(text, ";");
        out[count++] = one_tolerance(text, length);
        text += length + (text[length] == ';');
    }
    return count;
}
