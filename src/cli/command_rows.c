/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: one instrument after the other, in two passes over the file, so that
 * nothing is answered from a bad one and a file of any length needs little memory. */
#include <stdio.h>
#include <unistd.h>

#include "commands.h"

/* Rows between two signs of progress on a terminal. */
enum { PROGRESS_ROWS = 20000 };

typedef enum mensur_status present_row(struct mensur_presenter *presenter,
                                       const struct mensur_profile *profile);

static const struct {
    unsigned parts;
    present_row *present;
} row_commands[] = {
    [COMMAND_LENGTHS] = {MENSUR_PART_LENGTHS, mensur_present_lengths},
    [COMMAND_TENSION] = {MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, mensur_present_tension},
    [COMMAND_FINGERS] = {MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, mensur_present_fingers},
};

/* A pass over the instruments. */
struct pass {
    const struct question *question;
    struct mensur_presenter *presenter; /* NULL: only see whether each can be answered */
    enum mensur_status worst;
    long rows;
    bool progress;
};

static enum mensur_status answer_one(struct pass *pass, const struct mensur_instrument *instrument) {
    const struct question *question = pass->question;
    enum command command = question->options->command;
    struct mensur_profile profile;
    struct mensur_fault fault;
    enum mensur_status status =
        mensur_ask_profile(&question->shop.stock, instrument, &question->terms,
                           row_commands[command].parts, &fault, &profile);
    if (status != MENSUR_OK) {
        say_fault(question, instrument, &fault);
        return status;
    }
    if (pass->presenter != NULL) {
        status = row_commands[command].present(pass->presenter, &profile);
    }
    mensur_profile_clear(&profile);
    return status;
}

static void show_progress(struct pass *pass) {
    if (pass->progress && pass->rows % PROGRESS_ROWS == 0) {
        fprintf(stderr, "\r%s %ld rows", pass->presenter == NULL ? "checked" : "answered",
                pass->rows);
    }
}

static enum mensur_status visit(void *context, const struct mensur_instrument *instrument) {
    struct pass *pass = context;
    pass->rows++;
    show_progress(pass);
    enum mensur_status status = answer_one(pass, instrument);
    /* The first pass goes on, so that every instrument without an answer is said. */
    if (pass->presenter == NULL && status == MENSUR_NO_ANSWER) {
        pass->worst = status;
        return MENSUR_OK;
    }
    return status;
}

static enum mensur_status run_pass(struct question *question, struct mensur_presenter *presenter) {
    struct mensur_report report = {.errors = {0}};
    struct pass pass = {.question = question, .presenter = presenter, .worst = MENSUR_OK};
    pass.progress = isatty(STDERR_FILENO) != 0 && question->options->text[OPTION_ID_output] != NULL;
    enum mensur_status status = mensur_shop_instruments(
        &question->shop, presenter == NULL, visit, &pass, presenter == NULL ? &report : NULL);
    if (pass.progress && pass.rows >= PROGRESS_ROWS) {
        fprintf(stderr, "\r%*s\r", 40, "");
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    shopfront_say(&report);
    return status == MENSUR_OK ? pass.worst : status;
}

static enum mensur_status answer_every(struct question *question) {
    struct reply reply;
    enum mensur_status status = run_pass(question, NULL);
    if (status == MENSUR_OK) {
        status = reply_open(question, &reply);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    return reply_close(&reply, run_pass(question, reply.presenter));
}

static enum mensur_status answer_each(const struct question *question,
                                      const struct mensur_instrument *instruments, size_t count,
                                      struct mensur_presenter *presenter) {
    struct pass pass = {.question = question, .presenter = presenter, .worst = MENSUR_OK};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = visit(&pass, &instruments[i]);
    }
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
            status = reply_close(&reply, answer_each(question, instruments, options->name_count,
                                                     reply.presenter));
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
    if (every && options->name_count > 0) {
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
