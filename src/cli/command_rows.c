/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: one instrument after the other. The answer waits in a spool until the
 * file's end, so that nothing is answered from a bad one and a file of any length needs little
 * memory; where there is no room for a spool, the file is gone through once more. */
#include <stdio.h>
#include <unistd.h>

#include "drawing_output.h"
#include "row_answer.h"
#include "rows_halved.h"
#include "spool.h"

/* Rows between two signs of progress on a terminal. */
enum { PROGRESS_ROWS = 20000 };

/* A pass over the instruments. */
struct pass {
    const struct question *question;
    struct mensur_presenter *presenter; /* NULL: only see whether each can be answered */
    bool first_time;                    /* say what is wrong, and go on to see the rest */
    enum mensur_status worst;
    long rows;
    bool progress;
    struct mensur_profile *first; /* fingers are held against it; NULL: against none */
};

/* Remarks on how the fingers stand against the first instrument's. */
static enum mensur_status hold_against_first(const struct pass *pass,
                                             struct mensur_profile *profile) {
    bool held = pass->first != NULL && pass->first->instrument != NULL &&
                pass->question->options->command == COMMAND_FINGERS;
    return held ? mensur_remark_fingers(pass->first, profile) : MENSUR_OK;
}

static enum mensur_status answer_one(struct pass *pass,
                                     const struct mensur_instrument *instrument) {
    const struct question *question = pass->question;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_profile(
        &question->shop.stock, instrument, &question->terms, row_parts(question), &fault, &profile);
    if (status != MENSUR_OK) {
        say_fault(question, instrument, &fault);
        return status;
    }
    status = hold_against_first(pass, &profile);
    if (status == MENSUR_OK && pass->presenter != NULL && pass->worst == MENSUR_OK) {
        status = row_present(question, pass->presenter, instrument, &profile);
    }
    if (pass->first != NULL && pass->first->instrument == NULL) {
        *pass->first = profile;
    } else {
        mensur_profile_clear(&profile);
    }
    return status;
}

static void show_progress(struct pass *pass) {
    if (pass->progress && pass->rows % PROGRESS_ROWS == 0) {
        fprintf(stderr, "\r%s %ld rows", pass->first_time ? "checked" : "answered", pass->rows);
    }
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct pass *pass = context;
    pass->rows++;
    show_progress(pass);
    enum mensur_status status = answer_one(pass, instrument);
    /* The first pass goes on, so that every instrument without an answer is said. */
    if (pass->first_time && status == MENSUR_NO_ANSWER) {
        pass->worst = status;
        return MENSUR_OK;
    }
    return status;
}

static enum mensur_status run_pass(struct question *question, struct mensur_presenter *presenter,
                                   bool first_time) {
    struct mensur_report report = {.errors = {0}};
    struct pass pass = {
        .question = question, .presenter = presenter, .first_time = first_time, .worst = MENSUR_OK};
    pass.progress = isatty(STDERR_FILENO) != 0 && question->options->text[OPTION_ID_output] != NULL;
    enum mensur_status status = mensur_shop_instruments(&question->shop, first_time, visit, &pass,
                                                        first_time ? &report : NULL);
    if (pass.progress && pass.rows >= PROGRESS_ROWS) {
        fprintf(stderr, "\r%*s\r", 40, "");
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
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

/* Writes what waits in one spool after the other. */
static enum mensur_status pour_out(const struct question *question, struct spool *spools,
                                   int count) {
    const struct options *options = question->options;
    struct output output;
    enum mensur_status status =
        output_open(options->text[OPTION_ID_output], options->flag[OPTION_ID_overwrite], &output);
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

static enum mensur_status answer_again(struct question *question) {
    struct reply reply;
    enum mensur_status status = reply_open(question, &reply);
    return status == MENSUR_OK ? reply_close(&reply, run_pass(question, reply.presenter, false))
                               : status;
}

/* A long file, where two cores can share it. */
static bool answer_halved(struct question *question, enum mensur_status *status) {
    struct spool spools[2];
    if (!rows_halved(question, spools)) {
        return false;
    }
    *status = pour_out(question, spools, 2);
    spool_close(&spools[0]);
    spool_close(&spools[1]);
    return true;
}

static enum mensur_status answer_every(struct question *question) {
    struct spool spool;
    enum mensur_status status;
    if (answer_halved(question, &status)) {
        return status;
    }
    spool_open(&spool);
    status = fill_spool(question, &spool);
    if (status == MENSUR_OK) {
        status = spool_is_whole(&spool) ? pour_out(question, &spool, 1) : answer_again(question);
    }
    spool_close(&spool);
    return status;
}

static enum mensur_status answer_each(const struct question *question,
                                      const struct mensur_instrument *instruments, size_t count,
                                      struct mensur_presenter *presenter) {
    struct mensur_profile first = {.instrument = NULL};
    struct pass pass = {.question = question,
                        .presenter = presenter,
                        .first_time = presenter == NULL,
                        .worst = MENSUR_OK,
                        .first = &first};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = visit(&pass, &instruments[i]);
    }
    mensur_profile_clear(&first);
    return status == MENSUR_OK ? pass.worst : status;
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
