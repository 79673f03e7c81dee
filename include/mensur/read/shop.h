/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The shop: a folder of CSV files, or the demonstration built into the library.
 *
 * A file that the folder lacks is taken from the built-in shop, save instruments.csv.
 * Instruments are not kept: they are handed out row by row, so that a file of any
 * length is read in little memory.
 *
 * A file is a regular one or a link to one (a FIFO, socket, device or directory is refused with
 * MENSUR_DATA). It is opened once, with the shop, and stays open as long as the shop does: one that
 * is put in its place by renaming is not read. One that is changed in place from then on cannot be
 * read any more: MENSUR_READ, whatever else was found. A shop is read by one thread at a time.
 */
#ifndef MENSUR_SHOP_H
#define MENSUR_SHOP_H

#include <stdbool.h>
#include <stddef.h>

#include "stock.h"
#include "texts.h"

/** The tables of a shop: id, file name. */
#define MENSUR_TABLE_LIST(X)                                                                       \
    X(INSTRUMENTS, "instruments.csv")                                                              \
    X(STRINGS, "strings.csv")                                                                      \
    X(TUNINGS, "tunings.csv")                                                                      \
    X(PLAYERS, "players.csv")                                                                      \
    X(FAMILIES, "families.csv")                                                                    \
    X(MATERIALS, "materials.csv")                                                                  \
    X(WIRES, "wire_strength.csv")

/** A table of a shop. */
enum mensur_table {
#define MENSUR_TABLE_ENUM(id, file) MENSUR_TABLE_##id,
    MENSUR_TABLE_LIST(MENSUR_TABLE_ENUM)
#undef MENSUR_TABLE_ENUM
        MENSUR_TABLE_COUNT
};

/** An open file. */
struct mensur_file;

/** Where a table comes from: a file, or bytes in memory. */
struct mensur_source {
    char *label;                /**< as it is named in messages; owned */
    struct mensur_file *file;   /**< open as long as the shop is; owned; NULL where it is bytes */
    const unsigned char *bytes; /**< borrowed; NULL where it is a file */
    size_t size;                /**< of the bytes, or of the file when it was opened */
    long rows;                  /**< data rows read so far, in the latest reading */
    bool built_in;              /**< it is the library's own */
};

/**
 * What reading found: each text starts `FILE:LINE:COLUMN: ` (COLUMN is the cell's number from 1)
 * and says what stood there and what would do.
 */
struct mensur_report {
    struct mensur_texts errors;
    struct mensur_texts warnings;
};

/**
 * Frees a report's texts.
 *
 * @param report  the report; left empty
 */
void mensur_report_clear(struct mensur_report *report);

/** A shop that has been opened. */
struct mensur_shop {
    char *label; /**< "demonstration", or the folder as it was named; owned */
    struct mensur_source sources[MENSUR_TABLE_COUNT];
    struct mensur_stock stock; /**< all tables but the instruments */
};

/** A table handed over in memory, for a shop without a folder. */
struct mensur_bytes {
    enum mensur_table table;
    const unsigned char *bytes; /**< borrowed: must outlive the shop */
    size_t size;
};

/**
 * Opens a folder, or the built-in shop, and reads every table but the instruments.
 *
 * Where a table has errors, the instruments are read as well (but not looked up in that table), so
 * that the report then holds the errors of all files; the shop is left untouched, nothing is to be
 * cleared.
 *
 * @param folder      path of the folder; NULL: the built-in demonstration
 * @param report      errors and warnings are added to it
 * @param[out] shop   the caller's to clear; untouched on failure
 * @return  MENSUR_OK; MENSUR_DATA where the report holds errors; MENSUR_READ (the report says of
 *          which file); MENSUR_MEMORY
 */
enum mensur_status mensur_shop_open(const char *folder, struct mensur_report *report,
                                    struct mensur_shop *shop);

/**
 * Opens a shop whose tables stand in memory; those not given are the built-in ones.
 *
 * @param label       what the shop is called
 * @param given       the tables
 * @param count       how many
 * @param report      errors and warnings are added to it
 * @param[out] shop   the caller's to clear
 * @return  as mensur_shop_open
 */
enum mensur_status mensur_shop_open_bytes(const char *label, const struct mensur_bytes *given,
                                          size_t count, struct mensur_report *report,
                                          struct mensur_shop *shop);

/**
 * Called for every instrument.
 *
 * @param context     the caller's own
 * @param instrument  borrowed until the call returns, its texts too: to keep it, copy it with
 *                    mensur_instrument_copy; never clear it
 * @return  MENSUR_OK to go on; anything else ends the reading with that status
 */
typedef enum mensur_status mensur_visit(void *context, const struct mensur_instrument *instrument);

/**
 * Reads the instruments row by row, checking each (families, tunings and sets it names too).
 * A row with an error is reported and not handed out; the reading goes on to the file's end, where
 * alone it is known which names stood twice: such rows are handed out too.
 *
 * @param shop     an open shop
 * @param names    true: a name given twice is an error (keeps some bytes a row: for a first pass)
 * @param visit    called for every good row; NULL: only check
 * @param context  handed to visit
 * @param report   errors and warnings are added to it; NULL: they were reported by a first pass
 * @return  MENSUR_OK; MENSUR_DATA; MENSUR_READ; MENSUR_MEMORY; what visit returned
 */
enum mensur_status mensur_shop_instruments(struct mensur_shop *shop, bool names,
                                           mensur_visit *visit, void *context,
                                           struct mensur_report *report);

/**
 * Frees all that a shop holds.
 *
 * @param shop  the shop; left all zero
 */
void mensur_shop_clear(struct mensur_shop *shop);

/**
 * A built-in file, to be written out as it is.
 *
 * @param table      which
 * @param[out] size  its length in bytes
 * @return           borrowed bytes
 */
const unsigned char *mensur_built_in(enum mensur_table table, size_t *size);

/**
 * The file name of a table.
 *
 * @param table  which
 * @return       borrowed, such as "instruments.csv"
 */
const char *mensur_table_file(enum mensur_table table);

/**
 * Reads one value as a cell of that measurement would be read, domain included.
 *
 * @param field       which measurement
 * @param text        the value's text, such as "152", "+4 mm", "8-3/4\""
 * @param relative    true: a change, which may be negative and has no domain
 * @param[out] fault  the message on failure; may be NULL
 * @param[out] out    m
 * @return  MENSUR_OK; MENSUR_USE
 */
enum mensur_status mensur_read_measure(enum mensur_field field, const char *text, bool relative,
                                       struct mensur_fault *fault, struct mensur_quantity *out);

#endif
