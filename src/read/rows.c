/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A CSV file (RFC 4180) as rows of cells, through libcsv.
 *
 * libcsv runs non-strict, so that a quote inside an unquoted cell is a character (8-3/4"), and
 * reports every line end, so that blank lines are counted. It then takes an unclosed quote for a
 * cell that ends with the file; whether the parser still stands inside a quoted cell is therefore
 * asked of its state before the end is told to it.
 */
#include "rows.h"

#include <csv.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "encoding.h"
#include "input.h"

/* libcsv's own number, not in its header, for "inside a cell" */
#define INSIDE_CELL 2
/* No honest cell is longer; a forgotten quote would gather the rest of a file in memory. */
#define CELL_LONGEST 1000000

/* libcsv grows a cell's room by so much at a time; its own 128 bytes make a long cell slow. */
#define CELL_BLOCK 32768

/* A cell while its row grows: its text may still move. */
struct open_cell {
    size_t start, length;
    long line;
};

struct reader {
    struct csv_parser parser;
    struct log *log;
    row_visit *visit;
    void *context;
    enum mensur_status status; /* other than MENSUR_OK: stop */
    long line;                 /* where the next cell begins */
    bool after_return;         /* the last line ended with CR: an LF belongs to it */
    bool head_seen;
    bool filled; /* some cell of the row has text */
    char *bytes; /* the texts of the row's cells */
    size_t used, room;
    struct open_cell *open;
    struct cell *cells;
    size_t count, cell_room;
    bool decimal_comma;
};

static bool make_room(struct reader *reader, size_t more) {
    if (reader->room - reader->used >= more) {
        return true;
    }
    size_t room = (reader->used + more) * 2;
    char *bytes = realloc(reader->bytes, room);
    if (bytes == NULL) {
        return false;
    }
    reader->bytes = bytes;
    reader->room = room;
    return true;
}

static bool make_cell_room(struct reader *reader) {
    if (reader->count < reader->cell_room) {
        return true;
    }
    size_t room = reader->cell_room == 0 ? 32 : reader->cell_room * 2;
    struct open_cell *open = realloc(reader->open, room * sizeof(*open));
    if (open == NULL) {
        return false;
    }
    reader->open = open;
    struct cell *cells = realloc(reader->cells, room * sizeof(*cells));
    if (cells == NULL) {
        return false;
    }
    reader->cells = cells;
    reader->cell_room = room;
    return true;
}

/* Line ends in a cell: CR, LF, or both as one. */
static long count_lines(const unsigned char *bytes, size_t length) {
    long lines = 0;
    for (size_t i = 0; i < length; i++) {
        lines += bytes[i] == '\r' || (bytes[i] == '\n' && (i == 0 || bytes[i - 1] != '\r'));
    }
    return lines;
}

/* True where the bytes are plain ASCII without control characters, as almost all are. */
static bool is_plain(const unsigned char *bytes, size_t length) {
    unsigned odd = 0;
    for (size_t i = 0; i < length; i++) {
        odd |= bytes[i] < 0x20 || bytes[i] >= 0x80;
    }
    return odd == 0;
}

static size_t append(struct reader *reader, const unsigned char *bytes, size_t length) {
    char *to = reader->bytes + reader->used;
    if (mensur_is_utf8(bytes, length)) {
        memcpy(to, bytes, length);
        return length;
    }
    if (!reader->log->converted) {
        reader->log->converted = true;
        mensur_log_warning(reader->log, reader->line, (int)reader->count + 1,
                           "the text is not UTF-8 and was read as Windows-1252; "
                           "look at its letters, and save the file as UTF-8");
    }
    return mensur_from_windows_1252(bytes, length, to);
}

static void take_cell(void *data, size_t length, void *context) {
    struct reader *reader = context;
    const unsigned char *bytes = data;
    if (reader->status != MENSUR_OK) {
        return;
    }
    if (!make_cell_room(reader) || !make_room(reader, length * MENSUR_ENCODING_GROWTH + 1)) {
        reader->status = MENSUR_MEMORY;
        return;
    }
    struct open_cell *cell = &reader->open[reader->count];
    *cell = (struct open_cell){reader->used, length, reader->line};
    if (length > 0 && is_plain(bytes, length)) {
        memcpy(reader->bytes + reader->used, bytes, length);
        reader->used += length;
    } else if (length > 0) {
        cell->length = append(reader, bytes, length);
        reader->used += cell->length;
        reader->line += count_lines(bytes, length);
    }
    if (length > 0) {
        mensur_trim(reader->bytes, &cell->start, &cell->length);
    }
    reader->used = cell->start + cell->length;
    reader->bytes[reader->used++] = '\0';
    reader->filled = reader->filled || cell->length > 0;
    reader->count++;
    reader->after_return = false;
}

static void hand_out(struct reader *reader) {
    for (size_t i = 0; i < reader->count; i++) {
        const struct open_cell *open = &reader->open[i];
        reader->cells[i] = (struct cell){reader->bytes + open->start, open->length, open->line};
    }
    struct row row = {.cells = reader->cells,
                      .count = (int)reader->count,
                      .line = reader->cells[0].line,
                      .decimal_comma = reader->decimal_comma};
    reader->head_seen = true;
    reader->status = reader->visit(reader->context, &row);
    if (reader->status == MENSUR_OK && reader->log->status == MENSUR_MEMORY) {
        reader->status = MENSUR_MEMORY;
    }
}

static void take_row(int end, void *context) {
    struct reader *reader = context;
    if (reader->status != MENSUR_OK) {
        return;
    }
    bool second_half = end == '\n' && reader->after_return;
    if (reader->filled) {
        hand_out(reader);
    }
    reader->filled = false;
    reader->count = 0;
    reader->used = 0;
    reader->line += second_half ? 0 : 1;
    reader->after_return = end == '\r';
}

/* The separator that stands most often in the head, outside quotes. */
static unsigned char find_separator(const unsigned char *bytes, size_t length) {
    static const unsigned char separators[3] = {',', ';', '\t'};
    int counts[3] = {0, 0, 0};
    bool quoted = false, begun = false;
    for (size_t i = 0; i < length; i++) {
        if (bytes[i] == '"') {
            quoted = !quoted;
        }
        if (!quoted && begun && (bytes[i] == '\n' || bytes[i] == '\r')) {
            break;
        }
        begun = begun || (bytes[i] != '\n' && bytes[i] != '\r' && bytes[i] != ' ');
        for (int k = 0; k < 3; k++) {
            counts[k] += !quoted && bytes[i] == separators[k];
        }
    }
    int most = counts[1] > counts[0] ? 1 : 0;
    return separators[counts[2] > counts[most] ? 2 : most];
}

static enum mensur_status stop_with_data(struct reader *reader) {
    return reader->log->status == MENSUR_MEMORY ? MENSUR_MEMORY : MENSUR_DATA;
}

static bool inside_quotes(const struct reader *reader) {
    return reader->parser.pstate == INSIDE_CELL && reader->parser.quoted;
}

static enum mensur_status refuse_quote(struct reader *reader) {
    mensur_log_error(reader->log, reader->line, (int)reader->count + 1,
                     "the quote that opens this cell is never closed; close it with \", and write "
                     "a \" inside a quoted cell twice");
    return stop_with_data(reader);
}

static enum mensur_status refuse_nul(struct reader *reader) {
    long line = reader->line;
    if (inside_quotes(reader)) {
        line += count_lines(reader->parser.entry_buf, reader->parser.entry_pos);
    }
    mensur_log_error(reader->log, line, (int)reader->count + 1,
                     "a NUL byte: this is no plain text (UTF-16, or a spreadsheet's own format?); "
                     "save it as CSV in UTF-8");
    return stop_with_data(reader);
}

/* Feeds a piece; stops at a NUL byte and at a cell without end. */
static enum mensur_status feed(struct reader *reader, const unsigned char *piece, size_t length) {
    const unsigned char *nul = memchr(piece, '\0', length);
    size_t good = nul != NULL ? (size_t)(nul - piece) : length;
    if (csv_parse(&reader->parser, piece, good, take_cell, take_row, reader) != good) {
        return MENSUR_MEMORY;
    }
    if (reader->status != MENSUR_OK) {
        return reader->status;
    }
    if (nul != NULL) {
        return refuse_nul(reader);
    }
    if (reader->parser.entry_pos > CELL_LONGEST) {
        if (inside_quotes(reader)) {
            return refuse_quote(reader);
        }
        mensur_log_error(reader->log, reader->line, (int)reader->count + 1,
                         "the cell is longer than %d bytes", CELL_LONGEST);
        return stop_with_data(reader);
    }
    return MENSUR_OK;
}

static enum mensur_status refuse_reading(struct reader *reader) {
    const char *why = errno != 0 ? strerror(errno) : "the system gives no reason";
    mensur_log_error(reader->log, reader->line, 1, "cannot be read: %s", why);
    return reader->log->status == MENSUR_MEMORY ? MENSUR_MEMORY : MENSUR_READ;
}

static enum mensur_status feed_all(struct reader *reader, struct input *input) {
    const unsigned char *piece = NULL;
    size_t length = 0;
    bool first = true;
    for (;;) {
        errno = 0;
        if (mensur_input_next(input, &piece, &length) != MENSUR_OK) {
            return refuse_reading(reader);
        }
        if (length == 0) {
            return MENSUR_OK;
        }
        if (first) {
            size_t mark = length >= 3 && memcmp(piece, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
            piece += mark;
            length -= mark;
            unsigned char separator = find_separator(piece, length);
            csv_set_delim(&reader->parser, separator);
            reader->decimal_comma = separator != ',';
            first = false;
        }
        enum mensur_status status = feed(reader, piece, length);
        if (status != MENSUR_OK) {
            return status;
        }
    }
}

static enum mensur_status finish(struct reader *reader) {
    if (inside_quotes(reader)) {
        return refuse_quote(reader);
    }
    if (csv_fini(&reader->parser, take_cell, take_row, reader) != 0) {
        return MENSUR_MEMORY;
    }
    if (reader->status == MENSUR_OK && !reader->head_seen) {
        mensur_log_error(reader->log, 1, 1, "the file is empty; its first row names the columns");
        return stop_with_data(reader);
    }
    return reader->status;
}

enum mensur_status mensur_rows_read(const struct mensur_source *source, struct log *log,
                                    row_visit *visit, void *context) {
    struct reader reader = {.log = log, .visit = visit, .context = context, .line = 1};
    struct input input;
    if (csv_init(&reader.parser, CSV_REPALL_NL) != 0) {
        return MENSUR_MEMORY;
    }
    csv_set_blk_size(&reader.parser, CELL_BLOCK);
    errno = 0;
    enum mensur_status status = mensur_input_open(source, &input);
    if (status == MENSUR_READ) {
        status = refuse_reading(&reader);
    } else if (status == MENSUR_OK) {
        status = feed_all(&reader, &input);
        mensur_input_close(&input);
        if (status == MENSUR_OK) {
            status = finish(&reader);
        }
    }
    csv_free(&reader.parser);
    free(reader.bytes);
    free(reader.open);
    free(reader.cells);
    return status;
}
