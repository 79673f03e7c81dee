/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One reader for each table of a shop. */
#ifndef MENSUR_READ_TABLES_H
#define MENSUR_READ_TABLES_H

#include "table.h"

/* Each adds its rows to the stock and its errors and warnings to the report (which may be NULL).
 * MENSUR_OK; MENSUR_DATA after any error; MENSUR_READ; MENSUR_MEMORY. */
typedef enum mensur_status table_reader(struct mensur_source *source, struct mensur_report *report,
                                        struct mensur_stock *stock);

table_reader mensur_read_families;
table_reader mensur_read_tunings;
table_reader mensur_read_materials;
table_reader mensur_read_wires;
table_reader mensur_read_players;

/* The same, after the materials; false: those had errors, and nothing is looked up in them. */
enum mensur_status mensur_read_strings(struct mensur_source *source, struct mensur_report *report,
                                       struct mensur_stock *stock, bool materials);

/* Which other tables an instrument's names are looked up in: those that had errors are not. */
struct lookups {
    bool families, tunings, strings;
};

/* In all of them. */
#define MENSUR_ALL_LOOKUPS ((struct lookups){true, true, true})

/* Names of family, tuning and set that were looked up, with nothing to say about them. Most rows
 * of a long file repeat a few. */
#define SOUND_MOST 8
#define SOUND_LONGEST 40

struct sound_names {
    char text[3][SOUND_LONGEST]; /* empty: not given */
};

/* The instruments while they are read. */
struct instruments {
    struct reading reading;
    const struct mensur_stock *stock;
    struct lookups lookups;
    struct names names;  /* left empty where they are not compared */
    mensur_visit *visit; /* called for every good row; NULL: none is */
    void *context;
    struct sound_names sound[SOUND_MOST];
    size_t sound_count; /* that were kept so far; the oldest makes room */
};

/* Prepares a reading, for mensur_table_open or mensur_table_read; clear it when that is closed.
 * `compared`: a name that stands twice is an error. The report may be NULL. */
void mensur_instruments_init(struct instruments *instruments, struct mensur_source *source,
                             const struct mensur_stock *stock, struct lookups lookups,
                             bool compared, struct mensur_report *report);

/* Frees what was kept of the names. */
void mensur_instruments_clear(struct instruments *instruments);

#endif
