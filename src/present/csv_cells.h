/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cells and rows of CSV (RFC 4180, lines end in LF). Lengths to 0.0001 mm, other numbers to six
 * digits, nothing where a value is not known.
 */
#ifndef MENSUR_PRESENT_CSV_CELLS_H
#define MENSUR_PRESENT_CSV_CELLS_H

#include "presenter.h"

/* A row that is being written. */
struct mensur_csv {
    struct mensur_out *out;
    const struct mensur_heading *heading;
    const char *owners; /* cells of the owner's columns, as presented; NULL: none */
    bool begun;
    bool head; /* the keys of the cells are written, not their values */
};

/* Text from elsewhere, quoted, and harmless where a spreadsheet would take it for a formula;
 * nothing where it is NULL. */
void mensur_csv_text(struct mensur_csv *row, const char *key, const char *text);
/* Text from elsewhere, as it is; `before` is a word of our own that stands before it, or empty. */
void mensur_csv_quoted(struct mensur_csv *row, const char *before, const char *text);
void mensur_csv_number(struct mensur_csv *row, const char *key, enum mensur_kind kind, double si);
/* A key of the head, or a word of our own. */
void mensur_csv_word(struct mensur_csv *row, const char *word);
void mensur_csv_known(struct mensur_csv *row, const char *key, enum mensur_known known);
void mensur_csv_count(struct mensur_csv *row, const char *key, long count);
/* The published figures of a record; of a difference only its numbers. */
void mensur_csv_figures(struct mensur_csv *row, enum mensur_scope scope, const void *record,
                        bool difference);
/* The columns of the owner's, behind those of the answer. */
void mensur_csv_owners(struct mensur_csv *row);
void mensur_csv_end(struct mensur_csv *row);

/* Writes the cells of a row of an answer. Of the head it writes the keys, and the answer may hold
 * no row. */
typedef void mensur_csv_row_of(struct mensur_csv *row, const void *answer, size_t i);

/* Writes the rows of an answer, and the head above the first. */
void mensur_csv_rows(struct mensur_presenter *presenter, mensur_csv_row_of *write,
                     const void *answer, size_t count);

#endif
