/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "row_batch.h"

#include <stdlib.h>
#include <string.h>

#include "row_answer.h"

/* Forgets the answers; the memory that held them is used again. */
static void forget_answers(struct row_batch *batch) {
    for (size_t i = 0; batch->profiles != NULL && i < batch->answered; i++) {
        mensur_profile_clear(&batch->profiles[i]);
    }
    mensur_texts_clear(&batch->faults);
    batch->answered = 0;
    batch->used = 0;
    batch->status = MENSUR_OK;
}

enum mensur_status next_batch(struct mensur_batches *from, struct row_batch *batch) {
    forget_answers(batch);
    return mensur_batches_next(from, &batch->instruments);
}

static bool is_text(const struct question *question) {
    return question->style.format == MENSUR_FORMAT_TEXT;
}

static enum mensur_status keep_bytes(void *context, const char *bytes, size_t length) {
    struct row_batch *batch = context;
    if (batch->room - batch->used < length) {
        size_t room = (batch->used + length) * 2;
        char *more = realloc(batch->bytes, room);
        if (more == NULL) {
            return MENSUR_MEMORY;
        }
        batch->bytes = more;
        batch->room = room;
    }
    memcpy(batch->bytes + batch->used, bytes, length);
    batch->used += length;
    return MENSUR_OK;
}

static enum mensur_status make_profile_room(struct row_batch *batch) {
    size_t room = batch->instruments.count;
    if (room <= batch->profile_room) {
        return MENSUR_OK;
    }
    struct mensur_profile *profiles = realloc(batch->profiles, room * sizeof(*profiles));
    if (profiles == NULL) {
        return MENSUR_MEMORY;
    }
    batch->profiles = profiles;
    batch->profile_room = room;
    return MENSUR_OK;
}

/* Answers an instrument: text keeps the answer, else it is written at once. `within` is NULL for
 * text. After an instrument without an answer nothing will be written of the others' either. */
static enum mensur_status answer_one(const struct question *question, struct row_batch *batch,
                                     struct mensur_presenter *within,
                                     const struct mensur_instrument *instrument) {
    struct mensur_profile own;
    struct mensur_profile *profile = within == NULL ? &batch->profiles[batch->answered] : &own;
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_profile(
        &question->shop.stock, instrument, &question->terms, row_parts(question), &fault, profile);
    if (status != MENSUR_OK) {
        enum mensur_status noted = note_fault(question, instrument, &fault, &batch->faults);
        return noted != MENSUR_OK ? noted : status;
    }
    if (within == NULL && batch->status == MENSUR_OK) {
        batch->answered++;
        return MENSUR_OK;
    }
    if (batch->status == MENSUR_OK) {
        status = row_present(question, within, instrument, profile);
        batch->answered++;
    }
    mensur_profile_clear(profile);
    return status;
}

/* Goes on after an instrument without an answer, so that every one is found. */
static void answer_all(const struct question *question, struct row_batch *batch,
                       struct mensur_presenter *within) {
    for (size_t i = 0; i < batch->instruments.count; i++) {
        enum mensur_status status =
            answer_one(question, batch, within, &batch->instruments.items[i]);
        batch->status = status != MENSUR_OK ? status : batch->status;
        if (batch->status != MENSUR_OK && batch->status != MENSUR_NO_ANSWER) {
            return;
        }
    }
}

void answer_batch(const struct question *question, struct row_batch *batch) {
    if (is_text(question)) {
        batch->status = make_profile_room(batch);
        if (batch->status == MENSUR_OK) {
            answer_all(question, batch, NULL);
        }
        return;
    }
    struct mensur_sink sink = {.write = keep_bytes, .context = batch};
    struct mensur_presenter *within = NULL;
    batch->status = mensur_present_open_within(&question->heading, &question->style,
                                               batch->instruments.before, &sink, &within);
    if (batch->status == MENSUR_OK) {
        answer_all(question, batch, within);
        (void)mensur_present_close(within, false);
    }
}

enum mensur_status write_batch(const struct question *question, struct mensur_presenter *presenter,
                               const struct row_batch *batch) {
    if (!is_text(question)) {
        return mensur_present_written(presenter, batch->bytes, batch->used, batch->answered);
    }
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < batch->answered && status == MENSUR_OK; i++) {
        status =
            row_present(question, presenter, &batch->instruments.items[i], &batch->profiles[i]);
    }
    return status;
}

void row_batch_clear(struct row_batch *batch) {
    forget_answers(batch);
    mensur_batch_clear(&batch->instruments);
    free(batch->profiles);
    free(batch->bytes);
    *batch = (struct row_batch){.status = MENSUR_OK};
}
