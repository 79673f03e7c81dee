/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension or fingers of every instrument in three steps: the next batch of rows is read,
 * answered and written. Batches are read and written in the order of the file, one at a time. To
 * answer a batch changes nothing but the batch, so that any number of batches can be answered at
 * the same time, or one after the other. */
#ifndef MENSUR_ROW_BATCH_H
#define MENSUR_ROW_BATCH_H

#include "batch.h"
#include "present.h"
#include "question.h"
#include "shop.h"

/* What stands above the answer to a question; the shop's label is borrowed. */
void mensur_question_heading(const struct mensur_question *question, const struct mensur_shop *shop,
                             struct mensur_heading *heading);

/* A question about every instrument; all is borrowed. */
struct mensur_rows {
    const struct mensur_question *question;
    const struct mensur_shop *shop;
    struct mensur_heading heading; /* of mensur_question_heading */
};

struct mensur_solver;

/* Rows and their answers. All zero is an empty one, to be cleared in the end. */
struct mensur_row_batch {
    struct mensur_batch instruments;
    struct mensur_solver *solver;    /* made with the first answer */
    struct mensur_profile *profiles; /* text, whose answers depend on those before: the answers */
    size_t answered, profile_room;
    char *bytes; /* CSV and JSON: the answers as they are written */
    size_t used, room;
    struct mensur_facts cautions; /* CSV and JSON: those that apply to the answers */
    struct mensur_texts messages; /* of those without an answer, with file and line */
    enum mensur_status status;    /* MENSUR_NO_ANSWER: of some; what else ended it */
};

/* Reads the next rows, as mensur_batches_next; no instruments: the end. */
enum mensur_status mensur_row_batch_next(struct mensur_batches *from,
                                         struct mensur_row_batch *batch);

/* Answers the rows of a batch; its status says how that went. */
void mensur_row_batch_answer(const struct mensur_rows *rows, struct mensur_row_batch *batch);

/* Writes the answers of a batch whose status is MENSUR_OK, behind those of the batches before it:
 * MENSUR_OK, MENSUR_WRITE (what the sink answered), MENSUR_NO_ANSWER or MENSUR_MEMORY. */
enum mensur_status mensur_row_batch_write(const struct mensur_rows *rows,
                                          struct mensur_presenter *presenter,
                                          const struct mensur_row_batch *batch);

/* Frees what a batch owns and leaves it empty. */
void mensur_row_batch_clear(struct mensur_row_batch *batch);

#endif
