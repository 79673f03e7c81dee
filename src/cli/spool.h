/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An answer that waits until it is known to be whole, so that it need not be computed twice: a
 * short one in memory, a long one in a file without a name. */
#ifndef MENSUR_SPOOL_H
#define MENSUR_SPOOL_H

#include <stdbool.h>
#include <stdio.h>

#include "question.h"

struct spool {
    char *buffer; /* owned */
    size_t used;  /* of the buffer */
    FILE *file;   /* NULL: all of it is in the buffer; else by its descriptor alone */
    bool lost;    /* there was no place to wait in */
    size_t from;  /* where pouring begins */
};

/* Opens it; where that fails, it swallows what is written and is not whole. */
void spool_open(struct spool *spool);

/* Takes what is written; never fails. The spool must outlive it. */
struct mensur_sink spool_sink(struct spool *spool);

/* True where all that was written is there; nothing more may be written. */
bool spool_is_whole(struct spool *spool);

/* Leaves the first line of a whole one out when it is poured; false where there is none. */
bool spool_pass_line(struct spool *spool);

/* Writes all of a whole one to another sink: MENSUR_OK; MENSUR_READ; what the sink returned. */
enum mensur_status spool_pour(struct spool *spool, const struct mensur_sink *to);

void spool_close(struct spool *spool);

#endif
