/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The reply: bytes that grow. */
#include <stdlib.h>
#include <string.h>

#include "engine.h"

static enum mensur_status reply_write(void *context, const char *bytes, size_t length) {
    struct reply *reply = context;
    if (reply->room - reply->size < length) {
        size_t room = 2 * reply->room + length;
        char *grown = realloc(reply->bytes, room);
        if (grown == NULL) {
            return MENSUR_WRITE;
        }
        reply->bytes = grown;
        reply->room = room;
    }
    memcpy(reply->bytes + reply->size, bytes, length);
    reply->size += length;
    return MENSUR_OK;
}

struct mensur_sink page_sink(struct page *page) {
    return (struct mensur_sink){reply_write, &page->reply};
}

void page_reply_clear(struct page *page) {
    page->reply.size = 0;
}
