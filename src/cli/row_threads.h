/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Batches of rows, answered by several threads at the same time. */
#ifndef MENSUR_ROW_THREADS_H
#define MENSUR_ROW_THREADS_H

#include "row_batch.h"

/* Reads all batches, answers them and hands them to `take`. A file shorter than 2^18 bytes is
 * answered without further threads, a longer one by as many threads as there are cores to the
 * process, 64 at most; MENSUR_THREADS in the environment sets another number, for any file. There
 * are four more batches than threads in memory. Returns what the reading came to, or the status
 * that ended it. */
run_batches answer_in_threads;

#endif
