/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments in batches: copies, their texts side by side in a few pieces of memory that the next
 * batch uses again, so that a row costs no allocation. */
#include "batch.h"

#include <stdlib.h>
#include <string.h>

#include "tables.h"

/* Bytes of texts that a piece holds at least. */
#define TEXTS_LEAST 32768

struct mensur_batch_texts {
    struct mensur_batch_texts *earlier;
    size_t used, room;
    char bytes[];
};

struct mensur_batches {
    struct reading reading;
    size_t handed_out;
    bool more;
    enum mensur_status end; /* of the reading; told once the last rows were handed out */
};

/* Sees to it that the latest piece has room for so many bytes; false without memory. */
static bool make_text_room(struct mensur_batch *batch, size_t length) {
    if (batch->texts != NULL && batch->texts->room - batch->texts->used >= length) {
        return true;
    }
    size_t room = length > TEXTS_LEAST ? length : TEXTS_LEAST;
    struct mensur_batch_texts *more = malloc(sizeof(*more) + room);
    if (more == NULL) {
        return false;
    }
    *more = (struct mensur_batch_texts){.earlier = batch->texts, .room = room};
    batch->texts = more;
    return true;
}

/* Puts a copy in the place of a text of so many bytes; there may be none. False without memory. */
static bool keep_bytes(struct mensur_batch *batch, char **text, size_t size) {
    if (size == 0) {
        return true;
    }
    if (!make_text_room(batch, size)) {
        return false;
    }
    *text = memcpy(batch->texts->bytes + batch->texts->used, *text, size);
    batch->texts->used += size;
    return true;
}

/* mensur_visit: copies the instrument behind those that the batch holds. */
static enum mensur_status keep(void *context, const struct mensur_instrument *instrument) {
    struct mensur_batch *batch = context;
    if (batch->count == batch->room) {
        size_t room = batch->room == 0 ? 256 : batch->room * 2;
        struct mensur_instrument *items = realloc(batch->items, room * sizeof(*items));
        if (items == NULL) {
            return MENSUR_MEMORY;
        }
        batch->items = items;
        batch->room = room;
    }
    struct mensur_instrument *copy = &batch->items[batch->count];
    *copy = *instrument;
    char **const texts[] = {&copy->name, &copy->family, &copy->tuning, &copy->set, &copy->note};
    bool kept = true;
    for (size_t i = 0; i < sizeof(texts) / sizeof(texts[0]) && kept; i++) {
        kept = keep_bytes(batch, texts[i], *texts[i] != NULL ? strlen(*texts[i]) + 1 : 0);
    }
    kept = kept && keep_bytes(batch, &copy->owners.cells, copy->owners.size);
    batch->count += kept;
    return kept ? MENSUR_OK : MENSUR_MEMORY;
}

enum mensur_status mensur_batches_open(struct mensur_shop *shop, bool names,
                                       struct mensur_report *report,
                                       struct mensur_batches **batches) {
    struct mensur_batches *made = calloc(1, sizeof(*made));
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    made->reading =
        mensur_reading(MENSUR_TABLE_INSTRUMENTS, &shop->sources[MENSUR_TABLE_INSTRUMENTS],
                       &shop->stock, names, report);
    made->reading.visit = keep;
    made->more = true;
    enum mensur_status status = mensur_table_open(&made->reading);
    if (status != MENSUR_OK) {
        mensur_batches_free(made);
        return status;
    }
    *batches = made;
    return MENSUR_OK;
}

static void free_earlier(struct mensur_batch *batch) {
    struct mensur_batch_texts *latest = batch->texts;
    while (latest != NULL && latest->earlier != NULL) {
        struct mensur_batch_texts *earlier = latest->earlier;
        latest->earlier = earlier->earlier;
        free(earlier);
    }
}

enum mensur_status mensur_batches_next(struct mensur_batches *batches, struct mensur_batch *batch) {
    free_earlier(batch);
    if (batch->texts != NULL) {
        batch->texts->used = 0;
    }
    batch->count = 0;
    batch->before = batches->handed_out;
    batches->reading.context = batch;
    while (batches->more && batch->count == 0) {
        batches->end = mensur_table_step(&batches->reading, &batches->more);
    }
    batches->handed_out += batch->count;
    return batch->count > 0 ? MENSUR_OK : batches->end;
}

void mensur_batches_free(struct mensur_batches *batches) {
    if (batches != NULL) {
        mensur_table_close(&batches->reading);
    }
    free(batches);
}

void mensur_batch_clear(struct mensur_batch *batch) {
    free_earlier(batch);
    free(batch->texts);
    free(batch->items);
    *batch = (struct mensur_batch){0};
}
