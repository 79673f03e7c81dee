/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The instruments of a shop in batches of some hundred rows that the caller keeps as long as it
 * likes: to answer several batches at the same time, or one after the other.
 */
#ifndef MENSUR_BATCH_H
#define MENSUR_BATCH_H

#include "shop_files.h"

/** A piece of memory that holds texts. */
struct mensur_batch_texts;

/** Instruments that follow each other in the file. All zero is an empty one. */
struct mensur_batch {
    struct mensur_instrument *items;  /**< their texts are the batch's: never clear one */
    size_t count;                     /**< of the items */
    size_t before;                    /**< instruments that were handed out before these */
    size_t room;                      /**< items that fit */
    struct mensur_batch_texts *texts; /**< owned; the latest first */
};

/** A reading of the instruments, batch by batch. */
struct mensur_batches;

/* Starts to read the instruments of an open shop from the first; the shop must outlive the
 * reading, and nothing else may read from it. Names and report are as in
 * mensur_shop_instruments. The batches are the caller's to free. MENSUR_READ where the file was
 * changed since it was opened; MENSUR_MEMORY. */
enum mensur_status mensur_batches_open(struct mensur_shop *shop, bool names,
                                       struct mensur_report *report,
                                       struct mensur_batches **batches);

/* Reads the next batch: the instruments that end in the next 8192 bytes of the file that end
 * any; the batch is all zero, or an earlier one, whose memory is used again; empty at the end. A
 * row with an error is reported and not among them; the reading goes on to the file's end.
 * MENSUR_OK; without instruments MENSUR_DATA at the end, after any error; MENSUR_READ;
 * MENSUR_MEMORY. */
enum mensur_status mensur_batches_next(struct mensur_batches *batches, struct mensur_batch *batch);

/* Ends a reading (may be NULL); the batches it filled are still good. */
void mensur_batches_free(struct mensur_batches *batches);

/* Frees what a batch holds and leaves it all zero. */
void mensur_batch_clear(struct mensur_batch *batch);

#endif
