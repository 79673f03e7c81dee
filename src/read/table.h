/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of named columns: its head understood, its rows read by the columns' kinds, checked by
 * its rules, and kept in the stock or handed out. */
#ifndef MENSUR_READ_TABLE_H
#define MENSUR_READ_TABLE_H

#include "names.h"
#include "set_index.h"
#include "suggest.h"

/* The most columns that a table knows. */
#define MENSUR_COLUMNS_MOST 128
/* The most ways in which a table's columns can be enough. */
#define MENSUR_WAYS_MOST 5

/* Holds a hint behind an error. */
#define MENSUR_HINT_ROOM 256

struct reading;

/* What a cell is read as: nothing (its rule reads it), a text (borrowed while the row is checked),
 * a quantity, or a quantity's value without a place for its +-, which is warned of. */
enum how { CELL_OWN, CELL_TEXT, CELL_QUANTITY, CELL_VALUE };

struct column {
    const char *name;
    enum how how;
    size_t at; /* offset of its member in the row */
    enum mensur_kind kind;
    enum mensur_domain domain;
    bool required; /* of every file */
    /* what else is asked of its cells, where the head has it; NULL: nothing */
    void (*rule)(struct reading *reading, int column, void *row);
};

/* What a file of a table looks like. The columns are read in their order. */
struct layout {
    const struct column *columns; /* the known ones, by number */
    int count;
    bool named; /* column 0 is a name, which each row has and no two share */
    /* one of these pairs must be there; a single column: twice; 0, 0 ends them */
    int enough[MENSUR_WAYS_MOST][2];
    /* or this one alone, where no other column is one of those pairs misspelt; 0: none */
    int less;
    const char *needs_one;                             /* the message where none is */
    void (*check)(struct reading *reading, void *row); /* the whole row; NULL: nothing */
    void (*blank)(
        void *row); /* a row of which nothing is given; NULL: every column makes its own */
    /* what would mend a cell that is out of its range, to stand behind the error: MENSUR_HINT_ROOM
     * bytes, empty where nothing would; NULL: nothing ever does */
    void (*hint)(struct reading *reading, int column, char *out);
};

/* A row of materials.csv: of a range of published densities its half width is kept. */
struct material_row {
    struct mensur_material kept;
    double low_density, high_density;
};

/* Which tables had errors: nothing is looked up in them. */
struct bad_tables {
    bool is[MENSUR_TABLE_COUNT];
};

/* Names of family, tuning and set that were looked up, with nothing to say about them. Most rows
 * of a long file repeat a few. */
#define SOUND_MOST 8
#define SOUND_LONGEST 40

struct sound_names {
    char text[3][SOUND_LONGEST]; /* empty: not given */
};

/* A table while it is read. */
struct reading {
    enum mensur_table table;
    const struct layout *layout;
    struct mensur_source *source;
    struct log log;
    struct mensur_stock *stock; /* gets the rows, except instruments */
    struct bad_tables bad;
    bool judged;                      /* what is implausible is warned of */
    bool compared;                    /* a name that stands twice is an error */
    mensur_visit *visit;              /* gets the good instruments; may be NULL */
    void *context;                    /* of the visit */
    struct rows *rows;                /* while it is open */
    int at[MENSUR_COLUMNS_MOST];      /* cell of each known column, from 0; -1 where it is absent */
    int present[MENSUR_COLUMNS_MOST]; /* the columns that are read of a row, in their order */
    int present_count;
    const struct mensur_unit *unit[MENSUR_COLUMNS_MOST]; /* that its head names; NULL: none */
    int *owners; /* owned: cells of the owner's columns, of the instruments */
    int owners_count;
    char *owners_cells; /* owned: their texts in the row, each with its end mark */
    size_t owners_room;
    int width;     /* cells in the head; 0 before it was read */
    bool head_bad; /* rules on rows are then left out: they would repeat its errors */
    const struct row *row;
    bool row_bad;
    size_t suggested; /* wrong names for which the one that was meant was sought */
    struct names names;
    struct set_index sets; /* of the strings that were kept */
    struct sound_names sound[SOUND_MOST];
    size_t sound_count; /* that were kept so far; the oldest makes room */
};

/* Starts to read a table whose layout, source, log, stock and comparing are set. MENSUR_READ;
 * MENSUR_MEMORY. */
enum mensur_status mensur_table_open(struct reading *reading);

/* Reads on, as mensur_rows_step; at the end the names that stand twice are reported. MENSUR_OK;
 * MENSUR_DATA at the end, after any error; MENSUR_READ; MENSUR_MEMORY; what visit returned. */
enum mensur_status mensur_table_step(struct reading *reading, bool *more);

/* Ends it, opened or not. */
void mensur_table_close(struct reading *reading);

/* Opens, reads and closes a whole table; as mensur_table_step. */
enum mensur_status mensur_table_read(struct reading *reading);

/* The names in another table of the stock; those of its strings are their sets'. */
struct known_names mensur_names_in(const struct mensur_stock *stock, enum mensur_table table);

/* Whether a name stands in another table of the stock: of families, tunings, strings (their sets')
 * or players. */
bool mensur_name_is_in(const struct reading *reading, enum mensur_table table, const char *name);

/* mensur_suggest for a cell: of a table's first wrong names; of further ones that it was said. */
const char *mensur_reading_suggest(struct reading *reading, const char *wrong,
                                   const struct known_names *known, char out[MENSUR_SUGGEST_ROOM]);

/* True where the head has the column. */
bool mensur_has_column(const struct reading *reading, int column);

/* True where one of the layout's pairs is there, as `has` tells. */
bool mensur_has_enough(const struct reading *reading, bool (*has)(const struct reading *, int));

/* The text of a cell, borrowed until the row ends; NULL where it is empty or absent. */
char *mensur_cell_text(const struct reading *reading, int column);

/* True where a cell of the column has text. */
bool mensur_cell_given(const struct reading *reading, int column);

/* Reads the row's cells into the members of its columns; calls the columns' rules. */
void mensur_cells_read(struct reading *reading, void *row);

/* An error at a cell (where its column is absent, at the row's first); the row is bad. */
void mensur_cell_error(struct reading *reading, int column, const char *format, ...)
    MENSUR_PRINTF(3, 4);

/* A warning at a cell. */
void mensur_cell_warning(struct reading *reading, int column, const char *format, ...)
    MENSUR_PRINTF(3, 4);

/* Room for more rows: items where count of that size fit beside one more; NULL without memory. */
void *mensur_grow(void *items, size_t count, size_t size);

#endif
