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
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    if (!first_time) {
        mensur_texts_clear(&report.warnings); /* the first pass has told them */
    }
    say_report(&report);
    return status == MENSUR_OK ? pass.worst : status;
}

/* Answers every instrument into a spool, saying all that is wrong. */
static enum mensur_status fill_spool(const struct mensur_rows *rows, struct mensur_shop *shop,
                                     struct spool *spool) {
    struct mensur_sink sink = spool_sink(spool);
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status =
        mensur_present_open(&rows->heading, &rows->question->style, &sink, &presenter);
    if (status != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
        return status;
    }
    status = run_pass(rows, shop, presenter, true);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    if (status == MENSUR_OK && closed != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(closed));
    }
    return status == MENSUR_OK ? closed : status;
}

/* Writes what waits in the spool. */
static enum mensur_status pour_out(const struct mensur_rows *rows, struct spool *spool) {
    struct output output;
    enum mensur_status status =
        output_open(rows->question->output, rows->question->overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    status = spool_pour(spool, &sink);
    if (status == MENSUR_READ) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    enum mensur_status written = output_close(&output, status == MENSUR_OK);
    return written == MENSUR_OK ? status : written;
}

static enum mensur_status answer_again(const struct mensur_rows *rows, struct mensur_shop *shop) {
    struct output output;
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status =
        output_open(rows->question->output, rows->question->overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    status = mensur_present_open(&rows->heading, &rows->question->style, &sink, &presenter);
    if (status == MENSUR_OK) {
        status = run_pass(rows, shop, presenter, false);
        enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
        status = status == MENSUR_OK ? closed : status;
    } else {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    if (status == MENSUR_READ && output.path == NULL) {
        fprintf(stderr, "mensur: the answer ends here; rows that were written already stand\n");
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
    enum mensur_status status = fill_spool(&rows, shop, &spool);
    if (status == MENSUR_OK) {
        status = spool_is_whole(&spool) ? pour_out(&rows, &spool) : answer_again(&rows, shop);
    }
    spool_close(&spool);
    return status;
}
