/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of a shop: its instruments row by row, the built-in ones as they are. */
#ifndef MENSUR_SHOP_FILES_H
#define MENSUR_SHOP_FILES_H

#include "shop.h"
#include "stock.h"
#include "texts.h"

/**
 * Called for every instrument.
 *
 * @param context     the caller's own
 * @param instrument  borrowed until the call returns, its texts too: to keep it, copy it with
 *                    mensur_instrument_copy; never clear it
 * @return  MENSUR_OK to go on; anything else ends the reading with that status
 */
typedef enum mensur_status mensur_visit(void *context, const struct mensur_instrument *instrument);

/* Opens a folder as mensur_shop_open does, but takes one table, whether there is a file or not,
 * from the built-in shop (MENSUR_TABLE_COUNT: none). */
enum mensur_status mensur_shop_open_without(const char *folder, enum mensur_table without,
                                            struct mensur_report *report, struct mensur_shop *shop);

/* Reads the instruments row by row, checking each (families, tunings and sets it names too);
 * every good row is handed to visit (NULL: only check). A row with an error is reported and not
 * handed out; the reading goes on to the file's end, where alone it is known which names stood
 * twice: such rows are handed out too. `names`: a name given twice is an error (keeps some bytes
 * a row: for a first pass). Errors and warnings are added to the report; NULL: a first pass
 * reported them. MENSUR_OK; MENSUR_DATA; MENSUR_READ; MENSUR_MEMORY; what visit returned. */
enum mensur_status mensur_shop_instruments(struct mensur_shop *shop, bool names,
                                           mensur_visit *visit, void *context,
                                           struct mensur_report *report);

/* Reads them as a first pass does, and warns of every measurement that is implausible. */
enum mensur_status mensur_shop_check(struct mensur_shop *shop, struct mensur_report *report);

/* Reads an instrument from words FIELD=VALUE, as if they were the head and the cells of a row of
 * instruments.csv, with that name, and hands it to visit; `length` stands for string_length.
 * Without a tuning it has the notes of its set. Messages name no place. As mensur_shop_instruments.
 */
enum mensur_status mensur_shop_described(struct mensur_shop *shop, const char *name,
                                         const char *const *words, size_t count,
                                         mensur_visit *visit, void *context,
                                         struct mensur_report *report);

/* Reads a player from words FIELD=VALUE, as if they were the head and the cells of a row of
 * players.csv, into an empty stock. Messages name no place. MENSUR_OK; MENSUR_DATA; MENSUR_MEMORY.
 */
enum mensur_status mensur_shop_player(const char *const *words, size_t count,
                                      struct mensur_stock *typed, struct mensur_report *report);

/* The cell of a family's row in the column at that place of families.csv, its text borrowed from
 * the family; false behind the last column. */
bool mensur_family_cell(const struct mensur_family *family, size_t i,
                        struct mensur_table_cell *cell);

/* A built-in file, to be written out as it is; borrowed; size in bytes. */
const unsigned char *mensur_built_in(enum mensur_table table, size_t *size);

/* The file name of a table, such as "instruments.csv"; borrowed. */
const char *mensur_table_file(enum mensur_table table);

/* The path of a table's file in a folder; the caller's to free. NULL without memory. */
char *mensur_table_path(const char *folder, enum mensur_table table);

/* What a row of a table is, "instrument", or what several are, "instruments"; borrowed. */
const char *mensur_table_row_name(enum mensur_table table, bool several);

/* The table of which most heads of a file, each with its end mark, are columns, as its reading
 * understands them; of several the one that lacks least; -1 where none has two; size in bytes. */
int mensur_table_of_heads(const char *heads, size_t size);

#endif
