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
void mensur_csv_number(struct mensur_csv *row, const char *key, enum mensur_kind kind, double si);
void mensur_csv_end(struct mensur_csv *row);

#endif
