/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Column heads in the words that people use: "bridge height", "Steg", "neck [cm]". */
#ifndef MENSUR_READ_HEADS_H
#define MENSUR_READ_HEADS_H

#include "table.h"

/* Room for a head as it is compared; a longer one is no known word. */
#define MENSUR_HEAD_ROOM 96

/* A head as it was understood. */
struct head {
    char folded[MENSUR_HEAD_ROOM];  /* as it is compared; empty where it is blank, or too long */
    int column;                     /* the layout's; -1: none of them */
    const struct mensur_unit *unit; /* of the bare numbers below; NULL: the column's own */
    bool unit_is_wrong;             /* its unit is not one of what the column measures */
    const char *may_mean;           /* columns, of a word that is used for several; NULL */
};

/* Reads the text of a head. Small letters and capitals are one, and so are blanks, underscores,
 * hyphens, dots and brackets; ä is ae, é is e. */
struct head mensur_head_read(enum mensur_table table, const struct layout *layout,
                             const char *text);

/* The words for a column other than its name, one by one from 0; NULL behind the last. */
const char *mensur_head_synonym(enum mensur_table table, const char *column, size_t i);

#endif
