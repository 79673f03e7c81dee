/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An answer, made and written: to standard output or a file; as PDF or PNG by way of its SVG. */
#include <glib.h>
#include <stdio.h>

#include "commands.h"
#include "output.h"
#include "picture.h"
#include "row_threads.h"
#include "say.h"

static enum mensur_status keep_bytes(void *context, const char *bytes, size_t length) {
    g_byte_array_append(context, (const guint8 *)bytes, (guint)length);
    return MENSUR_OK;
}

static enum mensur_status write_on_paper(const struct mensur_paper_writer *writer,
                                         const struct mensur_answer *made, size_t count,
                                         const struct mensur_sink *sink) {
    bool as_pdf = made->question->medium == MENSUR_MEDIUM_PDF;
    GByteArray **bytes = g_new0(GByteArray *, count);
    struct mensur_paper_page *pages = g_new0(struct mensur_paper_page, count);
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < count; i++) {
        bytes[i] = g_byte_array_new();
        struct mensur_sink into = {.write = keep_bytes, .context = bytes[i]};
        status = status == MENSUR_OK ? mensur_answer_write(made, i, &into) : status;
        pages[i] = (struct mensur_paper_page){(const char *)bytes[i]->data, bytes[i]->len};
    }
    if (status == MENSUR_OK) {
        status = as_pdf ? writer->pdf(pages, count, mensur_answer_title(made), sink)
                        : writer->png(&pages[0], sink);
    }
    for (size_t i = 0; i < count; i++) {
        g_byte_array_free(bytes[i], TRUE);
    }
    g_free(bytes);
    g_free(pages);
    return status;
}

/* MENSUR_WRITE is said where the file is closed. */
static enum mensur_status say_failed(enum mensur_status status) {
    if (status == MENSUR_DATA) {
        say_line("mensur: the drawing is too large for a picture; write .svg or .pdf");
        return MENSUR_USE;
    }
    return status == MENSUR_MEMORY ? say_status(status) : status;
}

/* The bytes of what is drawn on paper, before any file is opened for them: where memory runs out
 * in the libraries that draw, they end the program. */
static enum mensur_status write_picture(const struct mensur_answer *made, size_t pages) {
    const struct mensur_question *question = made->question;
    const struct mensur_paper_writer *writer = NULL;
    enum mensur_status status = picture_writer(&writer);
    if (status != MENSUR_OK) {
        return status;
    }
    GByteArray *picture = g_byte_array_new();
    struct mensur_sink into = {.write = keep_bytes, .context = picture};
    struct output output;
    status = say_failed(write_on_paper(writer, made, pages, &into));
    if (status == MENSUR_OK) {
        status = output_open(question->output, question->overwrite, &output);
    }
    if (status == MENSUR_OK) {
        struct mensur_sink sink = output_sink(&output);
        (void)sink.write(sink.context, (const char *)picture->data, picture->len);
        status = output_close(&output, true);
    }
    g_byte_array_free(picture, TRUE);
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
    struct mensur_answer made;
    enum mensur_status status =
        say(messages, mensur_answer_make_with(shop, answer_in_threads, question, messages, &made));
    if (status == MENSUR_OK) {
        status = write_answer(&made);
        status = status == MENSUR_OK && !made.met ? MENSUR_NOT_MET : status;
        mensur_answer_clear(&made);
    }
    return status;
}
