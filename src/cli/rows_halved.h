/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A long file answered by two cores at once. */
#ifndef MENSUR_ROWS_HALVED_H
#define MENSUR_ROWS_HALVED_H

#include "commands.h"
#include "spool.h"

/* Every instrument of a shop, row by row. */
struct rows {
    const struct mensur_question *question;
    struct mensur_shop *shop;
    struct mensur_heading heading;
};

/* True where both halves were answered in whole, and wait in two spools that are the caller's to
 * close. Anything there is to say about the file makes it false, and nothing was said: the one
 * pass says everything in its order. */
bool rows_halved(const struct rows *rows, struct spool spools[2]);

#endif
