/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the script may call. A status is the program's exit code; after page_ask and page_open the
 * reply is the answer, or the reason why there is none. */
#include <gsl/gsl_errno.h>
#include <stdlib.h>
#include <string.h>

#include "engine_shop.h"

struct page *page_new(void);
int page_give(struct page *page, unsigned table, unsigned char *bytes, size_t size);
int page_open(struct page *page);
int page_ask(struct page *page, const char *text, size_t size);
const char *page_reply(const struct page *page);
size_t page_reply_size(const struct page *page);

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

enum mensur_status page_reply_text(struct page *page, const char *text) {
    return reply_write(&page->reply, text, strlen(text));
}

struct page *page_new(void) {
    /* The library checks domains itself; GSL's own handler would abort the module. */
    gsl_set_error_handler_off();
    /* Objects keep the order in which they are filled in any case; a fixed seed spares the module
     * the question for a random one. */
    json_object_seed(1);
    return calloc(1, sizeof(struct page));
}

int page_give(struct page *page, unsigned table, unsigned char *bytes, size_t size) {
    return mensur_status_exit_code(page_take(page, table, bytes, size));
}

int page_open(struct page *page) {
    page_reply_clear(page);
    return mensur_status_exit_code(page_open_shop(page));
}

int page_ask(struct page *page, const char *text, size_t size) {
    struct question question = {.root = NULL};
    struct mensur_fault fault = {.text = ""};
    page_reply_clear(page);
    enum mensur_status status = question_read(page, text, size, &question, &fault);
    if (status == MENSUR_OK) {
        status = answer_question(page, &question, &fault);
    }
    if (status != MENSUR_OK && status != MENSUR_NOT_MET) {
        page_reply_clear(page);
        (void)page_reply_text(page, *fault.text != '\0' ? fault.text : mensur_status_text(status));
    }
    question_clear(&question);
    return mensur_status_exit_code(status);
}

const char *page_reply(const struct page *page) {
    return page->reply.bytes;
}

size_t page_reply_size(const struct page *page) {
    return page->reply.size;
}
