/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An answer, made and written: to standard output or a file. */
#include <stdlib.h>

#include "commands.h"
#include "output.h"
#include "picture.h"
#include "row_threads.h"
#include "say.h"

/* MENSUR_WRITE is said where the file is closed. */
static enum mensur_status say_failed(enum mensur_status status) {
    return status == MENSUR_MEMORY ? say_status(status) : status;
}

/* All bytes of it are there before any file is opened for them. */
static enum mensur_status write_picture(const struct mensur_answer *made, size_t pages) {
    const struct mensur_question *question = made->question;
    struct mensur_kept_bytes picture;
    struct output output;
    enum mensur_status status = picture_draw(made, pages, &picture);
    if (status != MENSUR_OK) {
        return status;
    }
    status = output_open(question->output, question->overwrite, &output);
    if (status == MENSUR_OK) {
        struct mensur_sink sink = output_sink(&output);
        (void)sink.write(sink.context, picture.items, picture.length);
        status = output_close(&output, true);
    }
    mensur_kept_bytes_clear(&picture);
    return status;
}

static enum mensur_status write_words(const struct mensur_answer *made) {
    const struct mensur_question *question = made->question;
    struct output output;
    enum mensur_status status = output_open(question->output, question->overwrite, &output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&output);
    status = say_failed(mensur_answer_write(made, 0, &sink));
    enum mensur_status closed = output_close(&output, status == MENSUR_OK);
    return closed == MENSUR_OK ? status : closed;
}

static enum mensur_status write_answer(const struct mensur_answer *made) {
    const struct mensur_question *question = made->question;
    bool on_paper = question->medium == MENSUR_MEDIUM_PDF || question->medium == MENSUR_MEDIUM_PNG;
    size_t pages = 0;
    enum mensur_status status = output_check(question->output, question->overwrite);
    if (status != MENSUR_OK) {
        return status;
    }
    status = mensur_answer_pages(made, &pages);
    if (status != MENSUR_OK) {
        return say_status(status);
    }
    return on_paper ? write_picture(made, pages) : write_words(made);
}

enum mensur_status answer(const struct mensur_question *question, struct mensur_shop *shop,
                          struct mensur_texts *messages) {
    struct mensur_answer *made = malloc(sizeof *made); /* too large for the stack */
    if (made == NULL) {
        return say_status(MENSUR_MEMORY);
    }
    enum mensur_status status =
        say(messages, mensur_answer_make_with(shop, answer_in_threads, question, messages, made));
    if (status == MENSUR_OK) {
        status = write_answer(made);
        status = status == MENSUR_OK && !made->met ? MENSUR_NOT_MET : status;
        mensur_answer_clear(made);
    }
    free(made);
    return status;
}
