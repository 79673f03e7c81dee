/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cells and rows of CSV (RFC 4180, lines end in LF). Lengths to 0.0001 mm, other numbers to six
 * digits, nothing where a value is not known.
 */
#ifndef MENSUR_PRESENT_CSV_CELLS_H
#define MENSUR_PRESENT_CSV_CELLS_H

#include "figures.h"
#include "presenter.h"

/* A row that is being written. */
struct mensur_csv {
    struct mensur_out *out;
    bool begun;
};

/* A key of the head, or a word of our own. */
void mensur_csv_word(struct mensur_csv *row, const char *word);
/* Text from elsewhere, quoted, and harmless where a spreadsheet would take it for a formula;
 * nothing where it is NULL. */
void mensur_csv_text(struct mensur_csv *row, const char *text);
void mensur_csv_number(struct mensur_csv *row, enum mensur_kind kind, double si);
void mensur_csv_known(struct mensur_csv *row, enum mensur_known known);
/* The keys of a record's published figures, and its cells; of a difference only its numbers. */
void mensur_csv_keys(struct mensur_csv *row, enum mensur_scope scope);
void mensur_csv_cells(struct mensur_csv *row, enum mensur_scope scope, const void *record,
                      bool difference);
void mensur_csv_end(struct mensur_csv *row);

/* Answers with files of their own. */
void mensur_csv_reaching(struct mensur_presenter *presenter,
                         const struct mensur_reaching *reaching);
void mensur_csv_true_places(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile);

#endif
