/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which instruments of a whole file suit. One reading checks all of it and ranks; where the liked
 * one stands in the file, or a column of the owner's is asked for, a first reading finds these and
 * checks, and a second one ranks. */
#include <stdlib.h>

#include "asking.h"
#include "reading.h"
#include "ways.h"

enum mensur_status ask_sought_read(const struct words *words, struct mensur_texts *messages,
                                   struct mensur_question *question) {
    struct mensur_sought *sought = question->sought = calloc(1, sizeof *sought);
    struct mensur_fault fault = {""};
    enum mensur_status status = MENSUR_OK;
    if (sought == NULL) {
        return MENSUR_MEMORY;
    }
    mensur_sought_init(sought);
    for (size_t i = 0; i < words->name_count && status == MENSUR_OK; i++) {
        status = mensur_sought_read(words->names[i], &fault, sought);
    }
    for (size_t i = 0; i < question->wish_count && status == MENSUR_OK; i++) {
        status = mensur_sought_wish(&question->wishes[i], &fault, sought);
    }
    for (size_t i = 0; i < words->listed_count && status == MENSUR_OK; i++) {
        if (words->listed[i].option == OPTION_ID_near) {
            status = mensur_sought_near(words->listed[i].text, &fault, sought);
        }
    }
    if (status == MENSUR_OK) {
        status = mensur_sought_top(words->text[OPTION_ID_top], &fault, sought);
    }
    if (status != MENSUR_OK) {
        return SAY(messages, "%s", fault.text);
    }
    if (words->text[OPTION_ID_near] != NULL && words->text[OPTION_ID_like] == NULL) {
        return SAY(messages, "--near says what is near with --like NAME");
    }
    mensur_sought_sort(words->text[OPTION_ID_sort], sought);
    return MENSUR_OK;
}

static enum mensur_status look_on(void *context, const struct mensur_instrument *instrument) {
    (void)context;
    (void)instrument;
    return MENSUR_OK;
}

/* Checks the whole file. */
static enum mensur_status check_file(struct asking *asking) {
    struct mensur_report report = {.errors = {0}};
    enum mensur_status status = mensur_shop_instruments(asking->shop, true, look_on, NULL, &report);
    enum mensur_status said = ask_say_report(&report, asking->messages);
    return status == MENSUR_OK ? said : status;
}

/* What is being ranked. */
struct taking {
    struct mensur_ranking *ranking;
    struct mensur_texts messages; /* of those without an answer */
    enum mensur_status worst;
};

/* take_batch: goes on behind an instrument without an answer, so that every one is said. */
static enum mensur_status take(void *context, struct mensur_row_batch *batch) {
    struct taking *taking = context;
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < batch->messages.count && status == MENSUR_OK; i++) {
        status = mensur_texts_add(&taking->messages, "%s", batch->messages.items[i]);
    }
    if (status == MENSUR_OK && batch->status == MENSUR_NO_ANSWER) {
        taking->worst = MENSUR_NO_ANSWER;
        return MENSUR_OK;
    }
    if (status != MENSUR_OK || batch->status != MENSUR_OK) {
        return status != MENSUR_OK ? status : batch->status;
    }
    return mensur_ranking_join(&taking->ranking->sought, &batch->ranking, taking->ranking);
}

/* What is wrong with the file is said first, and nothing else then; its warnings by the first
 * reading. */
static enum mensur_status rank_file(struct asking *asking, const struct mensur_rows *rows,
                                    bool first_time, struct taking *taking) {
    struct mensur_report report = {.errors = {0}};
    struct mensur_batches *batches = NULL;
    enum mensur_status status = mensur_batches_open(asking->shop, first_time, &report, &batches);
    if (status == MENSUR_OK) {
        status = asking->run(rows, batches, take, taking);
    }
    mensur_batches_free(batches);
    if (!first_time) {
        mensur_texts_clear(&report.warnings);
    }
    enum mensur_status said = ask_say_report(&report, asking->messages);
    return status == MENSUR_OK ? said : status;
}

static enum mensur_status rank_kept(const struct asking *asking, const struct mensur_rows *rows,
                                    struct taking *taking) {
    struct mensur_row_batch batch = {.status = MENSUR_OK};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < asking->kept->count && status == MENSUR_OK; i++) {
        struct mensur_instrument instrument = asking->kept->items[i];
        batch.instruments = (struct mensur_batch){.items = &instrument, .count = 1, .before = i};
        mensur_row_batch_answer(rows, &batch);
        status = take(taking, &batch);
        mensur_ranking_empty(&batch.ranking);
        mensur_texts_clear(&batch.messages);
        batch.status = MENSUR_OK;
    }
    batch.instruments = (struct mensur_batch){.items = NULL};
    mensur_row_batch_clear(&batch);
    return status;
}

/* Makes ready what is sought: the liked one's figures, the owner's columns. */
static enum mensur_status make_ready(struct asking *asking, struct mensur_sought *sought) {
    const struct mensur_named *like = &asking->question->like;
    const struct mensur_instrument *liked = like->name != NULL ? asking->list[0] : NULL;
    struct mensur_profile profile = {.instrument = NULL};
    enum mensur_status status = MENSUR_OK;
    if (liked != NULL) {
        status =
            mensur_ask_profile(&asking->shop->stock, liked, &asking->question->terms,
                               MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, &asking->fault, &profile);
    }
    if (status == MENSUR_OK) {
        status = mensur_sought_ready(&asking->shop->sources[MENSUR_TABLE_INSTRUMENTS].owners, liked,
                                     &profile, &asking->fault, sought);
        mensur_profile_clear(&profile);
    }
    return status;
}

enum mensur_status ask_make_ranking(struct asking *asking) {
    const struct mensur_question *question = asking->question;
    const struct mensur_named *like = &question->like;
    struct mensur_ranking *ranking = ask_record(asking->answer, &mensur_ranking_answer);
    struct mensur_rows rows = {.question = question, .shop = asking->shop};
    struct taking taking = {.ranking = ranking, .worst = MENSUR_OK};
    if (ranking == NULL) {
        return MENSUR_MEMORY;
    }
    ranking->sought = *question->sought;
    rows.sought = &ranking->sought;
    bool in_file = like->name != NULL && like->given == NULL;
    enum mensur_status status = like->name != NULL ? ask_find_named(asking) : MENSUR_OK;
    if (status == MENSUR_OK) {
        status = make_ready(asking, &ranking->sought);
    }
    /* Without the file nothing is known of the owner's columns; what else is wrong comes after what
     * is wrong with the file. */
    bool checked = in_file || asking->kept != NULL;
    if (status != MENSUR_OK && status != MENSUR_MEMORY && !checked) {
        checked = true;
        asking->fault.text[0] = '\0';
        status = check_file(asking);
        if (status == MENSUR_OK) {
            ranking->sought = *question->sought;
            status = make_ready(asking, &ranking->sought);
        }
    }
    if (status == MENSUR_OK) {
        status = asking->kept != NULL ? rank_kept(asking, &rows, &taking)
                                      : rank_file(asking, &rows, !checked, &taking);
    }
    for (size_t i = 0; i < taking.messages.count && status == MENSUR_OK; i++) {
        status = mensur_texts_add(asking->messages, "%s", taking.messages.items[i]);
    }
    mensur_texts_clear(&taking.messages);
    if (status == MENSUR_OK) {
        status = taking.worst;
    } else {
        mensur_ranking_empty(ranking); /* of a file that cannot be relied on */
    }
    mensur_ranking_sort(&ranking->sought, ranking);
    asking->answer->met = ranking->count > 0;
    return status;
}
