/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * lengths, tension, fingers of every instrument in three steps: the next batch of rows is read,
 * answered and written.
 *
 * To read and to write is done in the order of the file, one batch at a time. To answer touches
 * nothing but the batch, so that any number of batches can be answered at the same time, or each in
 * its turn.
 */
#ifndef MENSUR_ROW_BATCH_H
#define MENSUR_ROW_BATCH_H

#include "batch.h"
#include "commands.h"

/* Rows and their answers. All zero is an empty one, to be cleared in the end. */
struct row_batch {
    struct mensur_batch instruments;
    struct mensur_profile *profiles; /* text, whose answers depend on those before: the answers */
    size_t answered, profile_room;
    char *bytes; /* CSV and JSON: the answers as they are written */
    size_t used, room;
    struct mensur_texts faults; /* of the instruments without an answer, each with file and line */
    enum mensur_status status;  /* MENSUR_OK; MENSUR_NO_ANSWER after a fault; what else ended it */
};

/* Reads the next rows; none: the end. As mensur_batches_next. */
enum mensur_status next_batch(struct mensur_batches *from, struct row_batch *batch);

/* Answers them. */
void answer_batch(const struct question *question, struct row_batch *batch);

/* Writes the answers of a batch whose status is MENSUR_OK behind those before. */
enum mensur_status write_batch(const struct question *question, struct mensur_presenter *presenter,
                               const struct row_batch *batch);

void row_batch_clear(struct row_batch *batch);

#endif
