/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers of every instrument. The answer waits in a spool until the file's end,
 * so that nothing is answered from a bad one and a file of any length needs little memory; where
 * there is no room for a spool, the file is gone through once more. */
#include <stdio.h>
#include <unistd.h>

#include "output.h"
#include "rows_halved.h"
#include "say.h"
#include "spool.h"

/* Rows between two signs of progress on a terminal. */
enum { PROGRESS_ROWS = 20000 };

/* A pass over the instruments. */
struct pass {
    const struct rows *rows;
    struct mensur_presenter *presenter;
    bool first_time; /* say what is wrong, and go on to see the rest */
    enum mensur_status worst;
    long count;
    bool progress;
};

static enum mensur_status answer_one(struct pass *pass,
                                     const struct mensur_instrument *instrument) {
    const struct rows *rows = pass->rows;
    struct mensur_profile profile;
    struct mensur_texts messages = {0};
    enum mensur_status status =
        mensur_row_make(rows->shop, rows->question, instrument, &messages, &profile);
    (void)say(&messages, MENSUR_OK);
    if (status != MENSUR_OK) {
        return status;
    }
    if (pass->worst == MENSUR_OK) {
        status =
            mensur_row_write(rows->shop, rows->question, pass->presenter, instrument, &profile);
    }
    mensur_profile_clear(&profile);
    return status;
}

static void show_progress(struct pass *pass) {
    if (pass->progress && pass->count % PROGRESS_ROWS == 0) {
        fprintf(stderr, "\r%s %ld rows", pass->first_time ? "checked" : "answered", pass->count);
    }
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct pass *pass = context;
    pass->count++;
    show_progress(pass);
    enum mensur_status status = answer_one(pass, instrument);
    /* The first pass goes on, so that every instrument without an answer is said. */
    if (pass->first_time && status == MENSUR_NO_ANSWER) {
        pass->worst = status;
        return MENSUR_OK;
    }
    return status;
}

static enum mensur_status run_pass(struct rows *rows, struct mensur_presenter *presenter,
                                   bool first_time) {
    struct mensur_report report = {.errors = {0}};
    struct pass pass = {
        .rows = rows, .presenter = presenter, .first_time = first_time, .worst = MENSUR_OK};
    pass.progress = isatty(STDERR_FILENO) != 0 && rows->question->output != NULL;
    enum mensur_status status =
        mensur_shop_instruments(rows->shop, first_time, visit, &pass, first_time ? &report : NULL);
    if (pass.progress && pass.count >= PROGRESS_ROWS) {
        fprintf(stderr, "\r%*s\r", 40, "");
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    say_report(&report);
    return status == MENSUR_OK ? pass.worst : status;
}

/* Answers every instrument into a spool, saying all that is wrong. */
static enum mensur_status fill_spool(struct rows *rows, struct spool *spool) {
    struct mensur_sink sink = spool_sink(spool);
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status =
        mensur_present_open(&rows->heading, &rows->question->style, &sink, &presenter);
    if (status != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
        return status;
    }
    status = run_pass(rows, presenter, true);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    if (status == MENSUR_OK && closed != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(closed));
    }
    return status == MENSUR_OK ? closed : status;
}

/* Writes what waits in one spool after the other. */
static enum mensur_status pour_out(const struct rows *rows, struct spool *spools, int count) {
    struct output output;
    enum mensur_status status =
        output_open(rows->question->output, rows->question->overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    for (int i = 0; i < count && status == MENSUR_OK; i++) {
        status = spool_pour(&spools[i], &sink);
    }
    if (status == MENSUR_READ) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    enum mensur_status written = output_close(&output, status == MENSUR_OK);
    return written == MENSUR_OK ? status : written;
}

static enum mensur_status answer_again(struct rows *rows) {
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
        status = run_pass(rows, presenter, false);
        enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
        status = status == MENSUR_OK ? closed : status;
    } else {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    enum mensur_status written = output_close(&output, status == MENSUR_OK);
    return written == MENSUR_OK ? status : written;
}

/* A long file, where two cores can share it. */
static bool answer_halved(struct rows *rows, enum mensur_status *status) {
    struct spool spools[2];
    if (!rows_halved(rows, spools)) {
        return false;
    }
    *status = pour_out(rows, spools, 2);
    spool_close(&spools[0]);
    spool_close(&spools[1]);
    return true;
}

enum mensur_status answer_every(const struct mensur_question *question, struct mensur_shop *shop,
                                struct mensur_texts *messages) {
    struct rows all = {.question = question, .shop = shop}, *rows = &all;
    struct spool spool;
    enum mensur_status status;
    (void)say(messages, MENSUR_OK);
    mensur_question_heading(question, shop, &all.heading);
    if (answer_halved(rows, &status)) {
        return status;
    }
    spool_open(&spool);
    status = fill_spool(rows, &spool);
    if (status == MENSUR_OK) {
        status = spool_is_whole(&spool) ? pour_out(rows, &spool, 1) : answer_again(rows);
    }
    spool_close(&spool);
    return status;
}
