/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: every instrument of the file, or those named. The answer waits in a
 * spool until the file's end, so that nothing is answered from a bad one and a file of any length
 * needs little memory; where there is no room for a spool, the file is gone through once more. */
#include <stdio.h>
#include <unistd.h>

#include "drawing_output.h"
#include "row_answer.h"
#include "row_threads.h"
#include "spool.h"

/* Rows between two signs of progress on a terminal. */
enum { PROGRESS_ROWS = 20000 };

/* A pass over the instruments of a file. */
struct pass {
    const struct question *question;
    struct mensur_presenter *presenter;
    bool first_time; /* say what is wrong, and go on to see the rest */
    enum mensur_status worst;
    size_t rows;
    bool progress;
};

static void show_progress(struct pass *pass, size_t more) {
    size_t before = pass->rows / PROGRESS_ROWS;
    pass->rows += more;
    size_t now = pass->rows / PROGRESS_ROWS;
    if (pass->progress && now > before) {
        fprintf(stderr, "\r%s %zu rows", pass->first_time ? "checked" : "answered",
                now * PROGRESS_ROWS);
    }
}

/* take_batch */
static enum mensur_status take(void *context, struct row_batch *batch) {
    struct pass *pass = context;
    show_progress(pass, batch->instruments.count);
    for (size_t i = 0; i < batch->faults.count; i++) {
        fprintf(stderr, "%s\n", batch->faults.items[i]);
    }
    /* The first pass goes on, so that every instrument without an answer is said. */
    if (batch->status == MENSUR_NO_ANSWER && pass->first_time) {
        pass->worst = MENSUR_NO_ANSWER;
        return MENSUR_OK;
    }
    if (batch->status != MENSUR_OK || pass->worst != MENSUR_OK) {
        return batch->status;
    }
    return write_batch(pass->question, pass->presenter, batch);
}

static enum mensur_status run_pass(struct question *question, struct mensur_presenter *presenter,
                                   bool first_time) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_batches *batches = NULL;
    struct pass pass = {
        .question = question, .presenter = presenter, .first_time = first_time, .worst = MENSUR_OK};
    pass.progress = isatty(STDERR_FILENO) != 0 && question->options->text[OPTION_ID_output] != NULL;
    enum mensur_status status = mensur_batches_open(&question->shop, first_time, &report, &batches);
    if (status == MENSUR_OK) {
        status = answer_in_threads(question, batches, take, &pass);
    }
    mensur_batches_free(batches);
    if (pass.progress && pass.rows >= PROGRESS_ROWS) {
        fprintf(stderr, "\r%*s\r", 40, "");
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    if (!first_time) {
        mensur_texts_clear(&report.warnings); /* they were said by the first */
    }
    shopfront_say(&report);
    return status == MENSUR_OK ? pass.worst : status;
}

/* Answers every instrument into a spool, saying all that is wrong. */
static enum mensur_status fill_spool(struct question *question, struct spool *spool) {
    struct mensur_sink sink = spool_sink(spool);
    struct mensur_presenter *presenter = NULL;
    enum mensur_status status =
        mensur_present_open(&question->heading, &question->style, &sink, &presenter);
    if (status != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
        return status;
    }
    status = run_pass(question, presenter, true);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    if (status == MENSUR_OK && closed != MENSUR_OK) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(closed));
    }
    return status == MENSUR_OK ? closed : status;
}

/* Writes what waits in the spool. */
static enum mensur_status pour_out(const struct question *question, struct spool *spool) {
    const struct options *options = question->options;
    struct output output;
    enum mensur_status status =
        output_open(options->text[OPTION_ID_output], options->flag[OPTION_ID_overwrite], &output);
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

static enum mensur_status answer_again(struct question *question) {
    struct reply reply;
    enum mensur_status status = reply_open(question, &reply);
    if (status != MENSUR_OK) {
        return status;
    }
    status = run_pass(question, reply.presenter, false);
    if (status == MENSUR_READ && reply.output.path == NULL) {
        fprintf(stderr, "mensur: the answer ends here; rows that were written already stand\n");
    }
    return reply_close(&reply, status);
}

static enum mensur_status answer_every(struct question *question) {
    struct spool spool;
    spool_open(&spool);
    enum mensur_status status = fill_spool(question, &spool);
    if (status == MENSUR_OK) {
        status = spool_is_whole(&spool) ? pour_out(question, &spool) : answer_again(question);
    }
    spool_close(&spool);
    return status;
}

/* Remarks on how the fingers stand against the first instrument's, which `first` keeps. */
static enum mensur_status hold_against_first(const struct question *question,
                                             const struct mensur_profile *first,
                                             struct mensur_profile *profile) {
    bool held = first->instrument != NULL && question->options->command == COMMAND_FINGERS;
    return held ? mensur_remark_fingers(first, question->terms.inches, profile) : MENSUR_OK;
}

/* Answers an instrument, and keeps the first answer; presenter NULL: only sees whether there is
 * one. */
static enum mensur_status answer_one(const struct question *question,
                                     const struct mensur_instrument *instrument,
                                     struct mensur_presenter *presenter,
                                     struct mensur_profile *first) {
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_profile(
        &question->shop.stock, instrument, &question->terms, row_parts(question), &fault, &profile);
    if (status != MENSUR_OK) {
        say_fault(question, instrument, &fault);
        return status;
    }
    status = hold_against_first(question, first, &profile);
    if (status == MENSUR_OK && presenter != NULL) {
        status = row_present(question, presenter, instrument, &profile);
    }
    if (first->instrument == NULL) {
        *first = profile;
    } else {
        mensur_profile_clear(&profile);
    }
    return status;
}

/* Without a presenter every instrument that has no answer is said. */
static enum mensur_status answer_each(const struct question *question,
                                      const struct mensur_instrument *instruments, size_t count,
                                      struct mensur_presenter *presenter) {
    struct mensur_profile first = {.instrument = NULL};
    enum mensur_status status = MENSUR_OK, worst = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = answer_one(question, &instruments[i], presenter, &first);
        if (status == MENSUR_NO_ANSWER && presenter == NULL) {
            worst = status;
            status = MENSUR_OK;
        }
    }
    mensur_profile_clear(&first);
    return status == MENSUR_OK ? worst : status;
}

static enum mensur_status answer_named(struct question *question) {
    const struct options *options = question->options;
    struct mensur_instrument *instruments = NULL;
    struct reply reply;
    enum mensur_status status =
        shopfront_find(&question->shop, options->names, options->name_count, &instruments);
    if (status != MENSUR_OK) {
        return status;
    }
    status = answer_each(question, instruments, options->name_count, NULL);
    if (status == MENSUR_OK) {
        status = reply_open(question, &reply);
        if (status == MENSUR_OK) {
            status = reply_close(
                &reply, answer_each(question, instruments, options->name_count, reply.presenter));
        }
    }
    shopfront_free(instruments, options->name_count);
    return status;
}

enum mensur_status command_rows(const struct options *options) {
    struct question question;
    bool every = options->flag[OPTION_ID_every] ||
                 (options->command == COMMAND_LENGTHS && options->name_count == 0);
    enum mensur_status status = question_open(options, &question);
    if (status != MENSUR_OK) {
        return status;
    }
    if (drawing_kind(options) != DRAWING_NONE) {
        status = drawing_of_rows(&question);
    } else if (every && options->name_count > 0) {
        fprintf(stderr, "mensur: --every takes every instrument; name none beside it\n");
        status = MENSUR_USE;
    } else if (every) {
        status = answer_every(&question);
    } else if (options->name_count == 0) {
        status = shopfront_say_names(&question.shop, "name an instrument");
    } else {
        status = answer_named(&question);
    }
    question_clear(&question);
    return status;
}
