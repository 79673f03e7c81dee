/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every command does before and after its answer. */
#include <stdio.h>

#include "commands.h"

enum mensur_status question_open(const struct options *options, struct question *question) {
    *question = (struct question){.options = options};
    enum mensur_status status = asked_terms(options, &question->terms);
    if (status == MENSUR_OK) {
        status = asked_style(options, &question->style);
    }
    if (status == MENSUR_OK) {
        status = shopfront_open(options, &question->shop);
    }
    question->wants_working =
        options->flag[OPTION_ID_working] && question->style.format != MENSUR_FORMAT_CSV;
    bool text = question->style.format == MENSUR_FORMAT_TEXT;
    question->terms.inches = question->style.inches && text;
    question->terms.force_unit = text ? question->style.force_unit : MENSUR_FORCE_N;
    if (status == MENSUR_OK) {
        asked_heading(options, &question->terms, question->shop.label, &question->heading);
    }
    return status;
}

void question_clear(struct question *question) {
    mensur_working_clear(&question->working);
    mensur_shop_clear(&question->shop);
}

bool question_feels(const struct question *question) {
    return question->style.feel || question->style.format == MENSUR_FORMAT_JSON;
}

enum mensur_status reply_open(const struct question *question, struct reply *reply) {
    const struct options *options = question->options;
    *reply = (struct reply){.presenter = NULL};
    enum mensur_status status = output_open(options->text[OPTION_ID_output],
                                            options->flag[OPTION_ID_overwrite], &reply->output);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_sink sink = output_sink(&reply->output);
    status = mensur_present_open(&question->heading, &question->style, &sink, &reply->presenter);
    if (status != MENSUR_OK) {
        if (status == MENSUR_MEMORY) {
            fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
        }
        (void)output_close(&reply->output, false);
        return status;
    }
    if (question->wants_working) {
        mensur_present_set_working(reply->presenter, &question->working);
    }
    return MENSUR_OK;
}

enum mensur_status reply_close(struct reply *reply, enum mensur_status status) {
    enum mensur_status closed = mensur_present_close(reply->presenter, status == MENSUR_OK);
    if (status == MENSUR_OK) {
        status = closed;
    }
    if (status == MENSUR_MEMORY) {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(status));
    }
    enum mensur_status written = output_close(&reply->output, status == MENSUR_OK);
    return written == MENSUR_OK ? status : written;
}

enum mensur_status note_fault(const struct question *question,
                              const struct mensur_instrument *instrument,
                              const struct mensur_fault *fault, struct mensur_texts *out) {
    /* Where memory ran out there may have been none for words either. */
    const char *text = fault->text[0] != '\0' ? fault->text : mensur_status_text(MENSUR_MEMORY);
    const char *file = question->shop.sources[MENSUR_TABLE_INSTRUMENTS].label;
    return instrument != NULL && instrument->line > 0
               ? mensur_texts_add(out, "%s:%ld:1: %s", file, instrument->line, text)
               : mensur_texts_add(out, "mensur: %s", text);
}

void say_fault(const struct question *question, const struct mensur_instrument *instrument,
               const struct mensur_fault *fault) {
    struct mensur_texts said = {.count = 0};
    if (note_fault(question, instrument, fault, &said) == MENSUR_OK) {
        fprintf(stderr, "%s\n", said.items[0]);
    } else {
        fprintf(stderr, "mensur: %s\n", mensur_status_text(MENSUR_MEMORY));
    }
    mensur_texts_clear(&said);
}
