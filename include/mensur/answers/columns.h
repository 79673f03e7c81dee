/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The figures of an answer by their published keys: one table a struct drives
 * JSON, CSV and the differences, so that the keys cannot drift apart.
 */
#ifndef MENSUR_COLUMNS_H
#define MENSUR_COLUMNS_H

#include "result.h"

/** How a column's member is held. */
enum mensur_column_type {
    MENSUR_COLUMN_NUMBER,  /**< double in SI */
    MENSUR_COLUMN_KNOWN,   /**< enum mensur_known */
    MENSUR_COLUMN_POINTER, /**< const char *, NULL unknown */
    MENSUR_COLUMN_TEXT     /**< char array */
};

/** One published key. */
struct mensur_column {
    const char *key; /**< as in JSON and CSV, unit included: "string_length_mm" */
    size_t offset;   /**< of the member */
    enum mensur_column_type type;
    enum mensur_kind kind; /**< NUMBER columns: mensur_from_si(kind, value) is published */
};

/** A table of columns. */
struct mensur_columns {
    const struct mensur_column *items;
    size_t count;
};

/** Columns of struct mensur_lengths (without the instrument's name). @return static table */
struct mensur_columns mensur_lengths_columns(void);
/** Columns of struct mensur_string_figures. @return static table */
struct mensur_columns mensur_string_columns(void);
/** Columns of struct mensur_finger_place. @return static table */
struct mensur_columns mensur_place_columns(void);
/** Columns of struct mensur_position. @return static table */
struct mensur_columns mensur_position_columns(void);
/** Columns of struct mensur_true_place. @return static table */
struct mensur_columns mensur_true_place_columns(void);
/** Columns of struct mensur_step less the place itself and the list of tensions. @return static
 * table */
struct mensur_columns mensur_step_columns(void);
/** Columns of struct mensur_instead. @return static table */
struct mensur_columns mensur_instead_columns(void);

/**
 * A number column's published value.
 *
 * @param column  a column of type NUMBER
 * @param record  the struct it belongs to
 * @return        in the key's unit; NaN unknown
 */
double mensur_column_number(const struct mensur_column *column, const void *record);

/**
 * A column's yes, no or unknown.
 *
 * @param column  a column of type KNOWN
 * @param record  the struct it belongs to
 * @return        its value
 */
enum mensur_known mensur_column_known(const struct mensur_column *column, const void *record);

/**
 * A column's text.
 *
 * @param column  a column of type POINTER or TEXT
 * @param record  the struct it belongs to
 * @return        borrowed; NULL unknown
 */
const char *mensur_column_text(const struct mensur_column *column, const void *record);

/**
 * Every number column of a record minus that of another; other members are left alone.
 *
 * @param columns   the table of both records
 * @param record    minuend
 * @param first     subtrahend
 * @param[out] out  a record of the same struct
 */
void mensur_columns_subtract(struct mensur_columns columns, const void *record, const void *first,
                             void *out);

#endif
