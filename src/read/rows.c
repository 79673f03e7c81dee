/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A CSV file (RFC 4180) as rows of cells, through libcsv.
 *
 * libcsv runs non-strict, so that a quote inside an unquoted cell is a character (8-3/4"), and
 * reports every line end, so that blank lines are counted. Only when the file's end is told to it
 * is it strict, and then says that the last cell's quote is not closed.
 */
#include "rows.h"

#include <csv.h>
#include <errno.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "bytes.h"
#include "encoding.h"
#include "input.h"
#include "out_of_line.h"

/* No honest cell is longer; a forgotten quote would gather the rest of a file in memory. */
#define CELL_LONGEST 1000000

/* No honest row is longer; a spreadsheet has 2^14 columns at most (from memory), which it writes as
 * empty cells where one of them was ever touched. */
#define ROW_CELLS 16384
#define ROW_LONGEST 4000000

/* Bytes fed in a step; a piece of the input has some of them. */
#define STEP 8192

/* libcsv grows a cell's room by so much at a time; its own 128 bytes make a long cell slow. */
#define CELL_BLOCK 32768

struct rows {
    struct csv_parser parser;
    struct input input;
    const unsigned char *piece; /* of the input, what is not yet fed of it */
    size_t left;
    bool begun; /* the first piece was seen */
    struct log *log;
    row_visit *visit;
    void *context;
    enum mensur_status status; /* other than MENSUR_OK: stop */
    long line;                 /* where the next cell begins */
    bool after_return;         /* the last line ended with CR: an LF belongs to it */
    bool head_seen;
    bool filled; /* some cell of the row has text */
    size_t open; /* bytes fed since the last cell or row ended, less up to STEP */
    bool ended;  /* a cell or a row has ended since it was set to false */
    struct mensur_kept_bytes bytes; /* the texts of the row's cells */
    struct cell *cells;
    size_t count, cell_room;
    bool decimal_comma;
};

static bool make_cell_room(struct rows *rows) {
    if (rows->count < rows->cell_room) {
        return true;
    }
    size_t room = rows->cell_room == 0 ? 32 : rows->cell_room * 2;
    struct cell *cells = realloc(rows->cells, room * sizeof(*cells));
    if (cells == NULL) {
        return false;
    }
    rows->cells = cells;
    rows->cell_room = room;
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

/* The top bit of each byte that is no plain ASCII or a control character: one from 0x80 on, or
 * borrowed by one below 0x20; after the first such byte, of another too, which is no plain one's
 * fault but changes nothing. */
static uint64_t odd_bytes(uint64_t eight) {
    const uint64_t each = UINT64_C(0x0101010101010101);
    return (eight | (eight - each * 0x20)) & each * 0x80;
}

/* What copy_short copies at most. */
#define CELL_SHORT 16

/* Copies up to 16 bytes in two pieces, which overlap rather than be of any length; true where all
 * are plain ASCII without control characters, as of almost all cells. */
static inline bool copy_short(const unsigned char *bytes, size_t length, char *to) {
    uint64_t eight[2];
    uint32_t four[2];
    if (length >= sizeof(eight[0])) {
        memcpy(&eight[0], bytes, sizeof(eight[0]));
        memcpy(&eight[1], bytes + length - sizeof(eight[1]), sizeof(eight[1]));
        memcpy(to, &eight[0], sizeof(eight[0]));
        memcpy(to + length - sizeof(eight[1]), &eight[1], sizeof(eight[1]));
        return (odd_bytes(eight[0]) | odd_bytes(eight[1])) == 0;
    }
    if (length >= sizeof(four[0])) {
        memcpy(&four[0], bytes, sizeof(four[0]));
        memcpy(&four[1], bytes + length - sizeof(four[1]), sizeof(four[1]));
        memcpy(to, &four[0], sizeof(four[0]));
        memcpy(to + length - sizeof(four[1]), &four[1], sizeof(four[1]));
        return odd_bytes(four[0] | (uint64_t)four[1] << 32) == 0;
    }
    bool odd = false;
    for (size_t i = 0; i < length; i++) {
        to[i] = (char)bytes[i];
        odd |= bytes[i] < 0x20 || bytes[i] >= 0x80;
    }
    return !odd;
}

/* The same of any length. */
static bool copy_plain(const unsigned char *bytes, size_t length, char *to) {
    bool plain = true;
    for (; length > CELL_SHORT && plain; bytes += CELL_SHORT, to += CELL_SHORT) {
        plain = copy_short(bytes, CELL_SHORT, to);
        length -= CELL_SHORT;
    }
    return plain && copy_short(bytes, length, to);
}

static size_t append(struct rows *rows, const unsigned char *bytes, size_t length) {
    char *to = rows->bytes.items + rows->bytes.length;
    if (mensur_is_utf8(bytes, length)) {
        memcpy(to, bytes, length);
        return length;
    }
    if (!rows->log->converted) {
        rows->log->converted = true;
        mensur_log_warning(rows->log, rows->line, (int)rows->count + 1,
                           "the text is not UTF-8 and was read as Windows-1252; "
                           "look at its letters, and save the file as UTF-8");
    }
    return mensur_from_windows_1252(bytes, length, to);
}

/* After an error in the log, which may not have had the memory for it. */
static enum mensur_status stop(const struct rows *rows, enum mensur_status status) {
    return rows->log->status == MENSUR_MEMORY ? MENSUR_MEMORY : status;
}

/* Stops at a row that is longer than any table's. */
static enum mensur_status check_row_length(const struct rows *rows, size_t more) {
    if (rows->count < ROW_CELLS && rows->bytes.length + more <= ROW_LONGEST) {
        return MENSUR_OK;
    }
    bool cells = rows->count == ROW_CELLS;
    mensur_log_error(rows->log, rows->line, (int)rows->count + 1,
                     "the row has more than %d %s; this is no table of a shop",
                     cells ? ROW_CELLS : ROW_LONGEST, cells ? "cells" : "bytes");
    return stop(rows, MENSUR_DATA);
}

/* Ends the cell that the row got last. */
static inline void end_cell(struct rows *rows, const struct cell *cell) {
    rows->bytes.length = cell->start + cell->length;
    rows->bytes.items[rows->bytes.length++] = '\0';
    rows->filled = rows->filled || cell->length > 0;
    rows->count++;
    rows->after_return = false;
}

/* Takes a cell of any kind. */
MENSUR_OUT_OF_LINE static void take_any_cell(struct rows *rows, const unsigned char *bytes,
                                             size_t length) {
    rows->ended = true;
    if (rows->status == MENSUR_OK) {
        rows->status = check_row_length(rows, length);
    }
    if (rows->status != MENSUR_OK) {
        return;
    }
    if (!make_cell_room(rows) ||
        mensur_kept_bytes_room(&rows->bytes, length * MENSUR_ENCODING_GROWTH + 1) != MENSUR_OK) {
        rows->status = MENSUR_MEMORY;
        return;
    }
    struct cell *cell = &rows->cells[rows->count];
    *cell = (struct cell){.start = rows->bytes.length, .length = length, .line = rows->line};
    if (!copy_plain(bytes, length, rows->bytes.items + rows->bytes.length)) {
        cell->length = append(rows, bytes, length);
        rows->line += count_lines(bytes, length);
    }
    mensur_trim(rows->bytes.items, &cell->start, &cell->length);
    end_cell(rows, cell);
}

/* Takes a cell; nearly all are short and plain, without blanks at their ends, and find room. */
static void take_cell(void *data, size_t length, void *context) {
    struct rows *rows = context;
    const unsigned char *bytes = data;
    const size_t start = rows->bytes.length;
    bool room = rows->count < rows->cell_room && rows->bytes.room - start > CELL_SHORT &&
                start <= ROW_LONGEST - CELL_SHORT;
    if (rows->status == MENSUR_OK && room && length <= CELL_SHORT &&
        (length == 0 || (bytes[0] != ' ' && bytes[length - 1] != ' ' &&
                         copy_short(bytes, length, rows->bytes.items + start)))) {
        struct cell *cell = &rows->cells[rows->count];
        *cell = (struct cell){.start = start, .length = length, .line = rows->line};
        rows->ended = true;
        end_cell(rows, cell);
    } else {
        take_any_cell(rows, bytes, length);
    }
}

static void hand_out(struct rows *rows) {
    for (size_t i = 0; i < rows->count; i++) {
        rows->cells[i].text = rows->bytes.items + rows->cells[i].start;
    }
    struct row row = {.cells = rows->cells,
                      .count = (int)rows->count,
                      .line = rows->cells[0].line,
                      .decimal_comma = rows->decimal_comma};
    rows->head_seen = true;
    rows->status = rows->visit(rows->context, &row);
    if (rows->status == MENSUR_OK) {
        rows->status = stop(rows, MENSUR_OK);
    }
}

static void take_row(int end, void *context) {
    struct rows *rows = context;
    rows->ended = true;
    if (rows->status != MENSUR_OK) {
        return;
    }
    bool second_half = end == '\n' && rows->after_return;
    if (rows->filled) {
        hand_out(rows);
    }
    rows->filled = false;
    rows->count = 0;
    rows->bytes.length = 0;
    rows->line += second_half ? 0 : 1;
    rows->after_return = end == '\r';
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

/* Ends the parsing; MENSUR_DATA where the last cell's quote is not closed: it is not handed out. */
static enum mensur_status end_parsing(struct rows *rows, void (*take)(void *, size_t, void *),
                                      void (*take_end)(int, void *)) {
    (void)csv_set_opts(&rows->parser, CSV_REPALL_NL | CSV_STRICT | CSV_STRICT_FINI);
    if (csv_fini(&rows->parser, take, take_end, rows) == 0) {
        return MENSUR_OK;
    }
    return csv_error(&rows->parser) == CSV_EPARSE ? MENSUR_DATA : MENSUR_MEMORY;
}

static enum mensur_status refuse_quote(struct rows *rows) {
    mensur_log_error(rows->log, rows->line, (int)rows->count + 1,
                     "the quote that opens this cell is never closed; close it with \", and write "
                     "a \" inside a quoted cell twice");
    return stop(rows, MENSUR_DATA);
}

/* Passes over the line ends of the cell that is open. */
static void pass_open_cell(void *data, size_t length, void *context) {
    struct rows *rows = context;
    rows->line += count_lines(data, length);
}

static enum mensur_status refuse_nul(struct rows *rows) {
    if (csv_fini(&rows->parser, pass_open_cell, NULL, rows) != 0) {
        return MENSUR_MEMORY;
    }
    mensur_log_error(rows->log, rows->line, (int)rows->count + 1,
                     "a NUL byte: this is no plain text (UTF-16, or a spreadsheet's own format?); "
                     "save it as CSV in UTF-8");
    return stop(rows, MENSUR_DATA);
}

/* Feeds some bytes; stops at a NUL byte. */
static enum mensur_status feed(struct rows *rows, const unsigned char *bytes, size_t length) {
    const unsigned char *nul = memchr(bytes, '\0', length);
    size_t good = nul != NULL ? (size_t)(nul - bytes) : length;
    rows->ended = false;
    if (csv_parse(&rows->parser, bytes, good, take_cell, take_row, rows) != good) {
        return MENSUR_MEMORY;
    }
    rows->open = rows->ended ? 0 : rows->open + good;
    return rows->status == MENSUR_OK && nul != NULL ? refuse_nul(rows) : rows->status;
}

/* Stops at a cell without end. */
static enum mensur_status check_open_cell(struct rows *rows) {
    if (rows->open <= CELL_LONGEST) {
        return MENSUR_OK;
    }
    if (end_parsing(rows, NULL, NULL) == MENSUR_DATA) {
        return refuse_quote(rows);
    }
    mensur_log_error(rows->log, rows->line, (int)rows->count + 1,
                     "the cell is longer than %d bytes", CELL_LONGEST);
    return stop(rows, MENSUR_DATA);
}

static enum mensur_status refuse_reading(struct rows *rows) {
    const char *why = errno != 0 ? strerror(errno) : "the system gives no reason";
    mensur_log_error(rows->log, rows->line, 1, "cannot be read: %s", why);
    return stop(rows, MENSUR_READ);
}

/* What was found in two versions at once says nothing of either. */
static enum mensur_status check_version(struct rows *rows, enum mensur_status status) {
    bool judged = status == MENSUR_OK || status == MENSUR_DATA;
    if (!judged || mensur_input_is_of_one_version(&rows->input)) {
        return status;
    }
    mensur_log_error(rows->log, 1, 1,
                     "was changed after it was opened, and what was read of it may be of two "
                     "versions; ask again");
    return stop(rows, MENSUR_READ);
}

static bool starts_with(const struct rows *rows, const char *bytes, size_t length) {
    return rows->left >= length && memcmp(rows->piece, bytes, length) == 0;
}

/* Files that are no text are told by their first bytes. */
static const char *kind_of_no_text(const struct rows *rows) {
    static const struct {
        const char *bytes;
        size_t length;
        const char *kind;
    } kinds[] = {
        {"\xFF\xFE", 2, "text in UTF-16; save it as \"CSV UTF-8\""},
        {"\xFE\xFF", 2, "text in UTF-16; save it as \"CSV UTF-8\""},
        {"PK\x03\x04", 4,
         "a spreadsheet (.xlsx or .ods) by another name; open it there and save "
         "the sheet as \"CSV UTF-8\""},
        {"\xD0\xCF\x11\xE0", 4,
         "a spreadsheet (.xls) by another name; open it there and save the "
         "sheet as \"CSV UTF-8\""},
    };
    for (size_t i = 0; i < sizeof(kinds) / sizeof(kinds[0]); i++) {
        if (starts_with(rows, kinds[i].bytes, kinds[i].length)) {
            return kinds[i].kind;
        }
    }
    return NULL;
}

static void pass_bytes(struct rows *rows, size_t count) {
    rows->piece += count;
    rows->left -= count;
}

/* A first line `sep=;`, which spreadsheets write and read, names the separator; 0 where there is
 * none. The line is passed over, and counted. */
static unsigned char read_separator_line(struct rows *rows) {
    unsigned char separator = rows->left > 4 ? rows->piece[4] : 0;
    bool named =
        starts_with(rows, "sep=", 4) && separator != 0 && strchr(",;\t", separator) != NULL;
    if (named && rows->left > 5 && rows->piece[5] != '\r' && rows->piece[5] != '\n') {
        return 0;
    }
    if (named) {
        bool two = rows->left > 6 && rows->piece[5] == '\r' && rows->piece[6] == '\n';
        pass_bytes(rows, rows->left == 5 ? 5 : two ? 7 : 6);
        rows->line++;
    }
    return named ? separator : 0;
}

/* Refuses what is no text; passes over a byte order mark, and finds the separator. */
static enum mensur_status begin(struct rows *rows) {
    const char *kind = kind_of_no_text(rows);
    rows->begun = true;
    if (kind != NULL) {
        mensur_log_error(rows->log, 1, 1, "this is %s", kind);
        return stop(rows, MENSUR_DATA);
    }
    if (starts_with(rows, "\xEF\xBB\xBF", 3)) {
        pass_bytes(rows, 3);
    }
    unsigned char separator = read_separator_line(rows);
    if (separator == 0) {
        separator = find_separator(rows->piece, rows->left);
    }
    csv_set_delim(&rows->parser, separator);
    rows->decimal_comma = separator != ',';
    return MENSUR_OK;
}

static enum mensur_status finish(struct rows *rows) {
    enum mensur_status status = end_parsing(rows, take_cell, take_row);
    if (status != MENSUR_OK) {
        return status == MENSUR_DATA ? refuse_quote(rows) : status;
    }
    if (rows->status == MENSUR_OK && !rows->head_seen) {
        mensur_log_error(rows->log, 1, 1, "the file is empty; its first row names the columns");
        return stop(rows, MENSUR_DATA);
    }
    return rows->status;
}

static enum mensur_status step(struct rows *rows, bool *more) {
    if (rows->left == 0) {
        errno = 0;
        if (mensur_input_next(&rows->input, &rows->piece, &rows->left) != MENSUR_OK) {
            return refuse_reading(rows);
        }
        if (rows->left == 0) {
            return finish(rows);
        }
        enum mensur_status begun = rows->begun ? MENSUR_OK : begin(rows);
        if (begun != MENSUR_OK) {
            return begun;
        }
    }
    size_t length = rows->left < STEP ? rows->left : STEP;
    enum mensur_status status = feed(rows, rows->piece, length);
    pass_bytes(rows, length);
    if (status == MENSUR_OK && rows->left == 0) {
        status = check_open_cell(rows);
    }
    *more = status == MENSUR_OK;
    return status;
}

enum mensur_status mensur_rows_step(struct rows *rows, bool *more) {
    *more = false;
    enum mensur_status status = step(rows, more);
    return *more ? status : check_version(rows, status);
}

enum mensur_status mensur_rows_open(const struct mensur_source *source, struct log *log,
                                    row_visit *visit, void *context, struct rows **out) {
    struct rows *rows = calloc(1, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    if (csv_init(&rows->parser, CSV_REPALL_NL) != 0) {
        free(rows);
        return MENSUR_MEMORY;
    }
    csv_set_blk_size(&rows->parser, CELL_BLOCK);
    rows->log = log;
    rows->visit = visit;
    rows->context = context;
    rows->line = 1;
    errno = 0;
    enum mensur_status status = mensur_input_open(source, &rows->input);
    if (status == MENSUR_READ) {
        status = refuse_reading(rows);
    }
    status = check_version(rows, status);
    if (status != MENSUR_OK) {
        mensur_rows_close(rows);
        return status;
    }
    *out = rows;
    return MENSUR_OK;
}

void mensur_rows_close(struct rows *rows) {
    if (rows == NULL) {
        return;
    }
    mensur_input_close(&rows->input);
    csv_free(&rows->parser);
    mensur_kept_bytes_clear(&rows->bytes);
    free(rows->cells);
    free(rows);
}

enum mensur_status mensur_rows_read(const struct mensur_source *source, struct log *log,
                                    row_visit *visit, void *context) {
    struct rows *rows = NULL;
    bool more = true;
    enum mensur_status status = mensur_rows_open(source, log, visit, context, &rows);
    while (status == MENSUR_OK && more) {
        status = mensur_rows_step(rows, &more);
    }
    mensur_rows_close(rows);
    return status;
}
