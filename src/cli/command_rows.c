/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers of every instrument. The answer waits in a spool until the file's end,
 * so that nothing is answered from a bad one and a file of any length needs little memory; where
 * there is no room for a spool, the file is gone through once more. */
#include <stdio.h>
#include <unistd.h>

#include "commands.h"
#include "output.h"
#include "row_threads.h"
#include "say.h"
#include "spool.h"

/* Rows between two signs of progress on a terminal. */
enum { PROGRESS_ROWS = 20000 };

/* A pass over the instruments of a file. */
struct pass {
    const struct mensur_rows *rows;
    struct mensur_presenter *presenter;
    bool first_time; /* say what is wrong, and go on to see the rest */
    enum mensur_status worst;
    size_t count;
    bool progress;
};

static void show_progress(struct pass *pass, size_t more) {
    size_t before = pass->count / PROGRESS_ROWS;
    pass->count += more;
    size_t now = pass->count / PROGRESS_ROWS;
    if (pass->progress && now > before) {
        fprintf(stderr, "\r%s %zu rows", pass->first_time ? "checked" : "answered",
                now * PROGRESS_ROWS);
    }
}

/* take_batch */
static enum mensur_status take(void *context, struct mensur_row_batch *batch) {
    struct pass *pass = context;
    show_progress(pass, batch->instruments.count);
    (void)say(&batch->messages, MENSUR_OK);
    /* The first pass goes on, so that every instrument without an answer is said. */
    if (batch->status == MENSUR_NO_ANSWER && pass->first_time) {
        pass->worst = MENSUR_NO_ANSWER;
        return MENSUR_OK;
    }
    if (batch->status != MENSUR_OK || pass->worst != MENSUR_OK) {
        return batch->status;
    }
    return mensur_row_batch_write(pass->rows, pass->presenter, batch);
}

static enum mensur_status run_pass(const struct mensur_rows *rows, struct mensur_shop *shop,
                                   struct mensur_presenter *presenter, bool first_time) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_batches *batches = NULL;
    struct pass pass = {
        .rows = rows, .presenter = presenter, .first_time = first_time, .worst = MENSUR_OK};
    pass.progress = isatty(STDERR_FILENO) != 0 && rows->question->output != NULL;
    enum mensur_status status = mensur_batches_open(shop, first_time, &report, &batches);
    if (status == MENSUR_OK) {
        status = answer_in_threads(rows, batches, take, &pass);
    }
    mensur_batches_free(batches);
    if (pass.progress && pass.count >= PROGRESS_ROWS) {
        fprintf(stderr, "\r%*s\r", 40, "");
    }
    if (status == MENSUR_MEMORY) {
        (void)say_status(status);
    }
    (void)say(&report.errors, MENSUR_OK);
    if (first_time) { /* the second pass would tell them again */
        (void)say(&report.warnings, MENSUR_OK);
    }
    mensur_texts_clear(&report.warnings);
    return status == MENSUR_OK ? pass.worst : status;
}

/* Answers every instrument, in one pass. */
static enum mensur_status answer_into(const struct mensur_rows *rows, struct mensur_shop *shop,
                                      const struct mensur_sink *sink, bool first_time) {
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status =
        mensur_present_open(&rows->heading, &rows->question->style, sink, &presenter);
    if (status != MENSUR_OK) {
        return say_status(status);
    }
    status = run_pass(rows, shop, presenter, first_time);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    if (status != MENSUR_OK) {
        return status;
    }
    return closed != MENSUR_OK && first_time ? say_status(closed) : closed;
}

/* Writes what waits in the spool; where that is not all, answers once more. */
static enum mensur_status write_out(const struct mensur_rows *rows, struct mensur_shop *shop,
                                    struct spool *spool) {
    bool whole = spool_is_whole(spool);
    struct output output;
    enum mensur_status status =
        output_open(rows->question->output, rows->question->overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    status = whole ? spool_pour(spool, &sink) : answer_into(rows, shop, &sink, false);
    if (status == MENSUR_READ && whole) {
        (void)say_status(status);
    } else if (status == MENSUR_READ && output.path == NULL) {
        say_line("mensur: the answer ends here; rows that were written already stand");
    }
    enum mensur_status written = output_close(&output, status == MENSUR_OK);
    return written == MENSUR_OK ? status : written;
}

enum mensur_status answer_every(const struct mensur_question *question, struct mensur_shop *shop,
                                struct mensur_texts *messages) {
    struct mensur_rows rows = {.question = question, .shop = shop};
    struct spool spool;
    (void)say(messages, MENSUR_OK);
    mensur_question_heading(question, shop, &rows.heading);
    spool_open(&spool);
    struct mensur_sink sink = spool_sink(&spool);
    enum mensur_status status = answer_into(&rows, shop, &sink, true);
    if (status == MENSUR_OK) {
        status = write_out(&rows, shop, &spool);
    }
    spool_close(&spool);
    return status;
}
