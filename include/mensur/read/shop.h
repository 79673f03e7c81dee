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

#include "messages.h"
#include "status.h"
#include "stock_tables.h"

/** The tables of a shop: id, file name, what a row is, and what several are. */
#define MENSUR_TABLE_LIST(X)                                                                       \
    X(INSTRUMENTS, "instruments.csv", "instrument", "instruments")                                 \
    X(STRINGS, "strings.csv", "string", "strings")                                                 \
    X(TUNINGS, "tunings.csv", "tuning", "tunings")                                                 \
    X(PLAYERS, "players.csv", "player", "players")                                                 \
    X(FAMILIES, "families.csv", "family", "families")                                              \
    X(MATERIALS, "materials.csv", "material", "materials")                                         \
    X(WIRES, "wire_strength.csv", "strength of wire", "strengths of wire")                         \
    X(SETTINGS, "settings.csv", "setting", "settings")                                             \
    X(SIZES, "sizes.csv", "size", "sizes")                                                         \
    X(POSITIONS, "positions.csv", "position", "positions")

/** A table of a shop. */
enum mensur_table {
#define MENSUR_TABLE_ENUM(id, file, one, many) MENSUR_TABLE_##id,
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
    struct mensur_texts owners; /**< of the instruments, once they were read: the heads of the
                                  columns that are the owner's own, as they are written */
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
 * Frees all that a shop holds.
 *
 * @param shop  the shop; left all zero
 */
void mensur_shop_clear(struct mensur_shop *shop);

#endif
