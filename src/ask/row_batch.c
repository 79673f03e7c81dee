/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "row_batch.h"

#include <stdlib.h>

#include "asking.h"
#include "cautions.h"
#include "shown.h"

/* Forgets the answers; the memory that held them is used again. */
static void forget_answers(struct mensur_row_batch *batch) {
    for (size_t i = 0; batch->profiles != NULL && i < batch->answered; i++) {
        mensur_profile_clear(&batch->profiles[i]);
    }
    mensur_texts_clear(&batch->messages);
    mensur_facts_clear(&batch->cautions);
    if (batch->ranking.asked > 0) {
        mensur_ranking_empty(&batch->ranking);
    }
    batch->answered = 0;
    batch->written.length = 0;
    batch->status = MENSUR_OK;
}

enum mensur_status mensur_row_batch_next(struct mensur_batches *from,
                                         struct mensur_row_batch *batch) {
    forget_answers(batch);
    return mensur_batches_next(from, &batch->instruments);
}

static enum mensur_status make_profile_room(struct mensur_row_batch *batch) {
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

/* Ranks an instrument; the figures that it takes are forgotten. */
static enum mensur_status rank_one(const struct mensur_rows *rows, struct mensur_row_batch *batch,
                                   size_t i) {
    const struct mensur_instrument *instrument = &batch->instruments.items[i];
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    enum mensur_status status = mensur_ask_profile_with(
        batch->solver, &rows->shop->stock, instrument, &rows->question->terms,
        mensur_ranking_parts(rows->sought), &fault, &profile);
    if (status != MENSUR_OK) {
        return ask_say_fault(&batch->messages, rows->shop, instrument, &fault, status);
    }
    status = mensur_ranking_take(rows->sought, instrument, &profile, batch->instruments.before + i,
                                 &batch->ranking);
    mensur_profile_clear(&profile);
    return status;
}

/* Whether the i-th instrument of a batch is told in a table alone: not the first ones of a text,
 * which may be told at length, nor any with its drawing or its working. */
static bool is_of_many(const struct mensur_rows *rows, const struct mensur_row_batch *batch,
                       size_t i) {
    const struct mensur_style *style = &rows->question->style;
    return !mensur_style_is_prose(style) ||
           (style->format == MENSUR_FORMAT_TEXT && !rows->question->working &&
            batch->instruments.before + i >= MENSUR_HELD_LENGTHS);
}

/* Answers an instrument: text keeps the answer, else it is written at once. `within` is NULL for
 * text. After an instrument without an answer nothing will be written of the others' either. */
static enum mensur_status answer_one(const struct mensur_rows *rows, struct mensur_row_batch *batch,
                                     struct mensur_presenter *within, size_t i) {
    const struct mensur_instrument *instrument = &batch->instruments.items[i];
    struct mensur_profile own;
    struct mensur_profile *profile = within == NULL ? &batch->profiles[batch->answered] : &own;
    enum mensur_status status = ask_row_make(batch->solver, rows->shop, rows->question, instrument,
                                             is_of_many(rows, batch, i), &batch->messages, profile);
    if (status != MENSUR_OK) {
        return status;
    }
    if (within == NULL && batch->status == MENSUR_OK) {
        batch->answered++;
        return MENSUR_OK;
    }
    if (batch->status == MENSUR_OK) {
        status = ask_row_write(rows, within, instrument, profile);
        cautions_of_profile(profile, &batch->cautions);
        batch->answered++;
    }
    mensur_profile_clear(profile);
    return status;
}

/* Goes on after an instrument without an answer, so that every one is found. */
static void answer_all(const struct mensur_rows *rows, struct mensur_row_batch *batch,
                       struct mensur_presenter *within) {
    for (size_t i = 0; i < batch->instruments.count; i++) {
        enum mensur_status status =
            rows->sought != NULL ? rank_one(rows, batch, i) : answer_one(rows, batch, within, i);
        batch->status = status != MENSUR_OK ? status : batch->status;
        if (batch->status != MENSUR_OK && batch->status != MENSUR_NO_ANSWER) {
            return;
        }
    }
}

void mensur_row_batch_answer(const struct mensur_rows *rows, struct mensur_row_batch *batch) {
    if (batch->solver == NULL) {
        batch->status = mensur_solver_make(&batch->solver);
        if (batch->status != MENSUR_OK) {
            return;
        }
    }
    if (rows->sought != NULL) {
        answer_all(rows, batch, NULL);
        return;
    }
    if (mensur_style_is_prose(&rows->question->style)) {
        batch->status = make_profile_room(batch);
        if (batch->status == MENSUR_OK) {
            answer_all(rows, batch, NULL);
        }
        return;
    }
    struct mensur_sink sink = {.write = mensur_kept_bytes_add, .context = &batch->written};
    struct mensur_presenter *within = NULL;
    batch->status = mensur_present_open_within(&rows->heading, &rows->question->style,
                                               batch->instruments.before, &sink, &within);
    if (batch->status == MENSUR_OK) {
        answer_all(rows, batch, within);
        (void)mensur_present_close(within, false);
    }
}

enum mensur_status mensur_row_batch_write(const struct mensur_rows *rows,
                                          struct mensur_presenter *presenter,
                                          const struct mensur_row_batch *batch) {
    if (!mensur_style_is_prose(&rows->question->style)) {
        mensur_present_cautions(presenter, &batch->cautions);
        return mensur_present_written(presenter, batch->written.items, batch->written.length,
                                      batch->answered);
    }
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < batch->answered && status == MENSUR_OK; i++) {
        status = ask_row_write(rows, presenter, &batch->instruments.items[i], &batch->profiles[i]);
    }
    return status;
}

enum mensur_status mensur_row_batches_run(const struct mensur_rows *rows,
                                          struct mensur_batches *batches, take_batch *take,
                                          void *context) {
    struct mensur_row_batch batch = {.status = MENSUR_OK};
    enum mensur_status status = MENSUR_OK, read = MENSUR_OK;
    while (status == MENSUR_OK) {
        read = mensur_row_batch_next(batches, &batch);
        if (batch.instruments.count == 0) {
            break;
        }
        mensur_row_batch_answer(rows, &batch);
        status = take(context, &batch);
    }
    mensur_row_batch_clear(&batch);
    return status != MENSUR_OK ? status : read;
}

void mensur_row_batch_clear(struct mensur_row_batch *batch) {
    forget_answers(batch);
    mensur_batch_clear(&batch->instruments);
    mensur_solver_free(batch->solver);
    free(batch->profiles);
    mensur_kept_bytes_clear(&batch->written);
    mensur_ranking_clear(&batch->ranking);
    *batch = (struct mensur_row_batch){.status = MENSUR_OK};
}
