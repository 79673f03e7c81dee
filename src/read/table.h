/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of named columns: its head understood, its rows checked, its cells read by kind. */
#ifndef MENSUR_READ_TABLE_H
#define MENSUR_READ_TABLE_H

#include "names.h"

/* The most columns that a table knows. */
#define MENSUR_COLUMNS_MOST 64

struct reading;

/* What a file of this table looks like. */
struct layout {
    const char *const *columns; /* the known ones, by number */
    int count;
    int required;          /* the first so many of them */
    bool named;            /* column 0 is a name, which each row has and no two share */
    const char *needs_one; /* NULL, or the message where has_enough is false */
    bool (*has_enough)(const struct reading *reading); /* of the columns that are there */
    enum mensur_status (*take_row)(struct reading *reading);
};

/* A table while it is read. */
struct reading {
    const struct layout *layout;
    struct mensur_source *source;
    struct log log;
    struct rows *rows;           /* while it is open */
    int at[MENSUR_COLUMNS_MOST]; /* cell of each known column, from 0; -1 where it is absent */
    int width;                   /* cells in the head; 0 before it was read */
    bool head_bad;               /* rules on rows are then left out: they would repeat its errors */
    const struct row *row;
    bool row_bad;
    struct names *names; /* NULL: names are not compared */
    void *context;       /* the table's own */
};

/* Starts to read a table whose layout, source, log, names and context are set. MENSUR_READ;
 * MENSUR_MEMORY. */
enum mensur_status mensur_table_open(struct reading *reading);

/* Reads on, as mensur_rows_step; at the end the names that stand twice are reported. MENSUR_OK;
 * MENSUR_DATA at the end, after any error; MENSUR_READ; MENSUR_MEMORY; what take_row returned. */
enum mensur_status mensur_table_step(struct reading *reading, bool *more);

/* Ends it, opened or not. */
void mensur_table_close(struct reading *reading);

/* Reads a whole table; as mensur_table_step. */
enum mensur_status mensur_table_read(struct reading *reading);

/* Reads a table whose context is the stock; names are compared where the layout has them. */
enum mensur_status mensur_table_read_into(const struct layout *layout, struct mensur_source *source,
                                          struct mensur_report *report, struct mensur_stock *stock);

/* True where nothing speaks against keeping the row. */
bool mensur_row_good(const struct reading *reading);

/* True where the head has the column. */
bool mensur_has_column(const struct reading *reading, int column);

/* Which values a cell may take. */
enum range { RANGE_ANY, RANGE_NOT_NEGATIVE, RANGE_POSITIVE };

/* The text of a cell, borrowed until the row ends; NULL where it is empty or absent. */
char *mensur_cell_text(const struct reading *reading, int column);

/* True where a cell of the column has text. */
bool mensur_cell_given(const struct reading *reading, int column);

/* A copy of a cell's text; NULL where it is empty or absent. MENSUR_MEMORY. */
enum mensur_status mensur_cell_copy(const struct reading *reading, int column, char **out);

/* A cell's quantity, unknown where it is empty or no such (an error then). A length is at most
 * MENSUR_LONGEST_M. */
struct mensur_quantity mensur_cell_quantity(struct reading *reading, int column,
                                            enum mensur_kind kind, enum range range);

/* The same without a place for its ±: one that is given is warned of. */
double mensur_cell_value(struct reading *reading, int column, enum mensur_kind kind,
                         enum range range);

/* An error at a cell (where its column is absent, at the row's first); the row is bad. */
void mensur_cell_error(struct reading *reading, int column, const char *format, ...)
    MENSUR_PRINTF(3, 4);

/* A warning at a cell. */
void mensur_cell_warning(struct reading *reading, int column, const char *format, ...)
    MENSUR_PRINTF(3, 4);

/* Room for more rows: items where count of that size fit beside one more; NULL without memory. */
void *mensur_grow(void *items, size_t count, size_t size);

#endif
