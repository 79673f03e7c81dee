/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the script may call. A status is the program's exit code; after each call but page_give the
 * reply is what was asked for, or the reason why there is none. */
#include "engine.h"

#include <gsl/gsl_errno.h>
#include <jansson.h>
#include <stdlib.h>
#include <string.h>

struct page *page_new(void);
int page_give(struct page *page, unsigned table, unsigned char *bytes, size_t size);
int page_open(struct page *page);
int page_ask(struct page *page, const char *words, size_t size);
int page_view(struct page *page, const char *words, size_t size);
int page_fields(struct page *page, const char *words, size_t size);
int page_save(struct page *page, const char *words, size_t size);
int page_draw(struct page *page, unsigned parts, const char *id);
int page_table(struct page *page, unsigned table);
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

static void forget_question(struct page *page) {
    mensur_answer_clear(&page->answer);
    mensur_question_clear(&page->question);
    free(page->words);
    page->words = NULL;
}

int page_open(struct page *page) {
    page_reply_clear(page);
    forget_question(page);
    return mensur_status_exit_code(page_open_shop(page));
}

/* The messages instead of an answer: a line each, without the program's name before it. */
static void reply_messages(struct page *page, const struct mensur_texts *messages,
                           enum mensur_status status) {
    static const char lead[] = "mensur: ";
    page_reply_clear(page);
    for (size_t i = 0; i < messages->count; i++) {
        const char *text = messages->items[i];
        text += strncmp(text, lead, sizeof lead - 1) == 0 ? sizeof lead - 1 : 0;
        (void)reply_write(&page->reply, "\n", i > 0);
        (void)reply_write(&page->reply, text, strlen(text));
    }
    if (messages->count == 0) {
        (void)reply_write(&page->reply, mensur_status_text(status),
                          strlen(mensur_status_text(status)));
    }
}

/* Words with a NUL behind each, to a question that borrows them from the page. */
static enum mensur_status read_words(struct page *page, const char *words, size_t size,
                                     struct mensur_texts *messages) {
    size_t count = 0;
    const char **list = calloc(size + 1, sizeof *list);
    page->words = calloc(size + 1, 1);
    if (list == NULL || page->words == NULL) {
        free(list);
        return MENSUR_MEMORY;
    }
    memcpy(page->words, words, size);
    for (size_t at = 0; at < size; at += strlen(page->words + at) + 1) {
        list[count++] = page->words + at;
    }
    enum mensur_status status = mensur_question_read(list, count, messages, &page->question);
    free(list);
    return status;
}

typedef enum mensur_status make_answer(struct mensur_shop *shop, const struct mensur_kept *kept,
                                       const struct mensur_question *question,
                                       struct mensur_texts *messages, struct mensur_answer *answer);
typedef enum mensur_status write_answer(struct page *page, const struct mensur_sink *sink);

/* Reads the words, makes what they ask for and keeps it, and writes it into the reply. */
static int answer_words(struct page *page, const char *words, size_t size, make_answer *make,
                        write_answer *write) {
    const struct mensur_kept kept = {page->instruments, page->count};
    const struct mensur_sink sink = page_sink(page);
    struct mensur_texts messages = {0};
    page_reply_clear(page);
    forget_question(page);
    enum mensur_status status = read_words(page, words, size, &messages);
    if (status == MENSUR_OK && page->question.help != MENSUR_HELP_NONE) {
        status = mensur_help_write(&page->question, &sink);
    } else if (status == MENSUR_OK && (page->question.start != NULL || !page->open)) {
        status = MENSUR_USE;
    } else if (status == MENSUR_OK) {
        status = make(&page->shop, &kept, &page->question, &messages, &page->answer);
        status = status == MENSUR_OK ? write(page, &sink) : status;
        status = status == MENSUR_OK && !page->answer.met ? MENSUR_NOT_MET : status;
    }
    if (status != MENSUR_OK && status != MENSUR_NOT_MET) {
        reply_messages(page, &messages, status);
    }
    mensur_texts_clear(&messages);
    return mensur_status_exit_code(status);
}

static enum mensur_status write_as_asked(struct page *page, const struct mensur_sink *sink) {
    return mensur_answer_write(&page->answer, 0, sink);
}

static enum mensur_status write_view(struct page *page, const struct mensur_sink *sink) {
    return page_write_view(&page->answer, sink);
}

static enum mensur_status write_fields(struct page *page, const struct mensur_sink *sink) {
    return page_write_fields(&page->answer, sink);
}

static enum mensur_status write_instruments(struct page *page, const struct mensur_sink *sink) {
    return page_write_instruments(page, sink);
}

/* The program's answer, byte by byte. */
int page_ask(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_make, write_as_asked);
}

/* The figures that the page sets down of an answer; of lengths, tension and fingers all there is,
 * where they are asked for as a drawing. With --working the working instead. */
int page_view(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_make, write_view);
}

/* Every measurement of the instrument named, with its changes. */
int page_fields(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_find, write_fields);
}

/* instruments.csv with the changes of the instruments named. */
int page_save(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_find, write_instruments);
}

/* A drawing of the latest answer, some of enum mensur_drawing_parts; id: the lead of its ids, for a
 * drawing inside the page; empty: a file of its own. */
int page_draw(struct page *page, unsigned parts, const char *id) {
    const struct mensur_sink sink = page_sink(page);
    const struct mensur_drawing_style style = {
        .figures = page->question.style, .id = *id != '\0' ? id : NULL, .within_page = *id != '\0'};
    page_reply_clear(page);
    return mensur_status_exit_code(mensur_answer_draw(&page->answer, parts, &style, &sink));
}

/* A table of the demonstration, as it is. */
int page_table(struct page *page, unsigned table) {
    size_t size = 0;
    page_reply_clear(page);
    if (table >= MENSUR_TABLE_COUNT) {
        return mensur_status_exit_code(MENSUR_USE);
    }
    const unsigned char *bytes = mensur_built_in((enum mensur_table)table, &size);
    return mensur_status_exit_code(reply_write(&page->reply, (const char *)bytes, size));
}

const char *page_reply(const struct page *page) {
    return page->reply.bytes;
}

size_t page_reply_size(const struct page *page) {
    return page->reply.size;
}
