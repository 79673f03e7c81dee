/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A question of each instrument, asked of all, in three steps: the next batch of rows is read,
 * answered and written. Batches are read and written in the order of the file, one at a time. To
 * answer a batch changes nothing but the batch, so that any number of batches can be answered at
 * the same time, or one after the other. */
#ifndef MENSUR_ROW_BATCH_H
#define MENSUR_ROW_BATCH_H

#include "answer.h"
#include "batch.h"
#include "bytes.h"
#include "present.h"
#include "question.h"
#include "ranking.h"
#include "shop.h"

/* What stands above the answer to a question; the shop's label is borrowed. */
void mensur_question_heading(const struct mensur_question *question, const struct mensur_shop *shop,
                             struct mensur_heading *heading);

/* A question about every instrument; all is borrowed. */
struct mensur_rows {
    const struct mensur_question *question;
    const struct mensur_shop *shop;
    struct mensur_heading heading;      /* of mensur_question_heading */
    const struct mensur_sought *sought; /* the rows are ranked; NULL: each is answered */
};

struct mensur_solver;

/* Rows and their answers. All zero is an empty one, to be cleared in the end. */
struct mensur_row_batch {
    struct mensur_batch instruments;
    struct mensur_solver *solver;    /* made with the first answer */
    struct mensur_profile *profiles; /* text, whose answers depend on those before: the answers */
    size_t answered, profile_room;
    struct mensur_kept_bytes written; /* CSV and JSON: the answers */
    struct mensur_facts cautions;     /* CSV and JSON: those that apply to the answers */
    struct mensur_ranking ranking;    /* of those that are sought */
    struct mensur_texts messages;     /* of those without an answer, with file and line */
    enum mensur_status status;        /* MENSUR_NO_ANSWER: of some; what else ended it */
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

/* Takes an answered batch. Called for one batch after the other, in their order; anything but
 * MENSUR_OK ends the work with that status. */
typedef enum mensur_status take_batch(void *context, struct mensur_row_batch *batch);

/* Reads all batches, answers them and hands them to `take`: what the reading came to, or the status
 * that ended it. */
typedef enum mensur_status run_batches(const struct mensur_rows *rows,
                                       struct mensur_batches *batches, take_batch *take,
                                       void *context);

/* That, one batch after the other. */
run_batches mensur_row_batches_run;

/* As mensur_answer_make of a file; `run` answers its rows. */
enum mensur_status mensur_answer_make_with(struct mensur_shop *shop, run_batches *run,
                                           const struct mensur_question *question,
                                           struct mensur_texts *messages,
                                           struct mensur_answer *answer);

/* Frees what a batch owns and leaves it empty. */
void mensur_row_batch_clear(struct mensur_row_batch *batch);

#endif
