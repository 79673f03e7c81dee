/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A CSV file as rows of cells, through libcsv. */
#ifndef MENSUR_READ_ROWS_H
#define MENSUR_READ_ROWS_H

#include "log.h"

/* A cell: UTF-8, trimmed, with an end mark. */
struct cell {
    char *text;
    size_t length;
    long line;    /* where it begins */
    size_t start; /* of the text in the row's bytes, which may move until the row is whole */
};

/* A row that is not empty. */
struct row {
    struct cell *cells;
    int count;
    long line;          /* where it begins */
    bool decimal_comma; /* the separator is not a comma */
};

/* Called for every row, the head first; the row is borrowed until it returns. Anything but
 * MENSUR_OK ends the reading with that status. */
typedef enum mensur_status row_visit(void *context, const struct row *row);

/* A reading of rows. */
struct rows;

/* Starts one; all are borrowed until it is closed. MENSUR_READ where the file cannot be rewound or
 * was changed since it was opened (the log says so); MENSUR_MEMORY. */
enum mensur_status mensur_rows_open(const struct mensur_source *source, struct log *log,
                                    row_visit *visit, void *context, struct rows **out);

/* Hands out the rows that end within the next 8192 bytes, which can be none; *more is false once
 * the end was reached, or anything but MENSUR_OK is returned. What is wrong with the file itself
 * (empty, NUL byte, unclosed quote, not to be read, changed while it was read) goes to the log.
 * MENSUR_OK (the log says whether there were errors); MENSUR_DATA; MENSUR_READ; MENSUR_MEMORY; what
 * visit returned. */
enum mensur_status mensur_rows_step(struct rows *rows, bool *more);

/* Ends it; NULL is passed over. */
void mensur_rows_close(struct rows *rows);

/* Reads a source to its end; as mensur_rows_step. */
enum mensur_status mensur_rows_read(const struct mensur_source *source, struct log *log,
                                    row_visit *visit, void *context);

#endif
