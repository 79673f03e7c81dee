/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Batches of rows, answered by several threads at the same time. */
#ifndef MENSUR_ROW_THREADS_H
#define MENSUR_ROW_THREADS_H

#include "row_batch.h"

/* Takes an answered batch. Called for one batch after the other, in their order, by whichever
 * thread answered it. Anything but MENSUR_OK ends the work with that status. */
typedef enum mensur_status take_batch(void *context, struct mensur_row_batch *batch);

/* Reads all batches, answers them and hands them to `take`. A file shorter than 2^18 bytes is
 * answered without further threads, a longer one by as many threads as there are cores to the
 * process, 64 at most; MENSUR_THREADS in the environment sets another number, for any file. There
 * are four more batches than threads in memory. Returns what the reading came to, or the status
 * that ended it. */
enum mensur_status answer_in_threads(const struct mensur_rows *rows, struct mensur_batches *batches,
                                     take_batch *take, void *context);

#endif
