/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the script may call. A status is the program's exit code; after each call but page_give the
 * reply is what was asked for, or the reason why there is none. */
#include "engine.h"

#include <gsl/gsl_errno.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer_kind.h"
#include "row_batch.h"
#include "settings.h"

struct page *page_new(void);
int page_give(struct page *page, unsigned table, unsigned char *bytes, size_t size);
int page_table_of(const char *heads, size_t size);
int page_open(struct page *page);
int page_ask(struct page *page, const char *words, size_t size, const char *id, unsigned parts);
int page_figures(struct page *page, const char *words, size_t size);
int page_decided(struct page *page, const char *keys, size_t size, bool present_alone);
int page_wishes(struct page *page);
int page_axes(struct page *page);
void page_moving(struct page *page, bool moving);
int page_tell(struct page *page, const char *id, unsigned parts, bool full);
int page_fields(struct page *page, const char *words, size_t size);
int page_save(struct page *page, const char *words, size_t size);
int page_rows(struct page *page, const char *words, size_t size);
int page_draw(struct page *page, unsigned parts, const char *id, bool changes);
double page_recommended(const struct page *page);
int page_table(struct page *page, unsigned table);
const char *page_reply(const struct page *page);
size_t page_reply_size(const struct page *page);

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

int page_table_of(const char *heads, size_t size) {
    return mensur_table_of_heads(heads, size);
}

static struct mensur_sink reply_sink(struct page *page) {
    return (struct mensur_sink){mensur_kept_bytes_add, &page->reply};
}

static void reply_clear(struct page *page) {
    page->reply.length = 0;
}

static void forget_question(struct page *page) {
    mensur_answer_clear(&page->answer);
    mensur_question_clear(&page->question);
    free(page->words);
    page->words = NULL;
}

int page_open(struct page *page) {
    reply_clear(page);
    forget_question(page);
    return mensur_status_exit_code(page_open_shop(page));
}

/* The messages instead of an answer: a line each, without the program's name before it. */
static void reply_messages(struct page *page, const struct mensur_texts *messages,
                           enum mensur_status status) {
    static const char lead[] = "mensur: ";
    const struct mensur_sink sink = reply_sink(page);
    reply_clear(page);
    for (size_t i = 0; i < messages->count; i++) {
        const char *text = messages->items[i];
        text += strncmp(text, lead, sizeof lead - 1) == 0 ? sizeof lead - 1 : 0;
        (void)sink.write(sink.context, "\n", i > 0);
        (void)sink.write(sink.context, text, strlen(text));
    }
    if (messages->count == 0) {
        (void)sink.write(sink.context, mensur_status_text(status),
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
    page->question.style.id = page->id;
    page->question.style.html_parts = page->parts;
    page->question.terms.without_spread = page->moving;
    page->question.terms.place_alone =
        (page->parts & (MENSUR_HTML_HEADLINE | MENSUR_HTML_NOTHING)) != 0;
    page->question.terms.ends = &page->ends;
    /* the other habits stand in the page's controls, whose words say all of them */
    page->question.heading = page->open ? ask_settings_heading(&page->shop.stock) : NULL;
    free(list);
    return status;
}

typedef enum mensur_status make_answer(struct mensur_shop *shop, const struct mensur_kept *kept,
                                       const struct mensur_question *question,
                                       struct mensur_texts *messages, struct mensur_answer *answer);
typedef enum mensur_status write_answer(struct page *page, const struct mensur_sink *sink);

/* Reads, answers and writes one batch of rows after the other. */
static enum mensur_status write_batches(const struct mensur_rows *rows,
                                        struct mensur_batches *batches,
                                        struct mensur_presenter *presenter,
                                        struct mensur_texts *messages) {
    struct mensur_row_batch batch = {.status = MENSUR_OK};
    enum mensur_status status = mensur_row_batch_next(batches, &batch);
    while (status == MENSUR_OK && batch.instruments.count > 0) {
        mensur_row_batch_answer(rows, &batch);
        status = batch.status == MENSUR_OK ? mensur_row_batch_write(rows, presenter, &batch)
                                           : batch.status;
        for (size_t i = 0; i < batch.messages.count; i++) {
            (void)mensur_texts_add(messages, "%s", batch.messages.items[i]);
        }
        status = status == MENSUR_OK ? mensur_row_batch_next(batches, &batch) : status;
    }
    mensur_row_batch_clear(&batch);
    return status;
}

/* Every instrument of the shop. */
static enum mensur_status answer_every(struct page *page, struct mensur_texts *messages) {
    const struct mensur_sink sink = reply_sink(page);
    struct mensur_rows rows = {.question = &page->question, .shop = &page->shop};
    struct mensur_report report = {.errors = {0}};
    struct mensur_batches *batches = NULL;
    struct mensur_presenter *presenter = NULL;
    mensur_question_heading(&page->question, &page->shop, &rows.heading);
    enum mensur_status status =
        mensur_present_open(&rows.heading, &page->question.style, &sink, &presenter);
    if (status == MENSUR_OK) {
        status = mensur_batches_open(&page->shop, true, &report, &batches);
    }
    if (status == MENSUR_OK) {
        status = write_batches(&rows, batches, presenter, messages);
    }
    mensur_batches_free(batches);
    mensur_report_clear(&report);
    enum mensur_status closed = mensur_present_close(presenter, status == MENSUR_OK);
    return status == MENSUR_OK ? closed : status;
}

/* Reads the words, makes what they ask for and keeps it, and writes it into the reply. */
static int answer_words(struct page *page, const char *words, size_t size, make_answer *make,
                        write_answer *write) {
    const struct mensur_kept kept = {page->instruments, page->count};
    const struct mensur_sink sink = reply_sink(page);
    struct mensur_texts messages = {0};
    reply_clear(page);
    forget_question(page);
    enum mensur_status status = read_words(page, words, size, &messages);
    if (status == MENSUR_OK && page->question.help != MENSUR_HELP_NONE) {
        status = mensur_help_write(&page->question, &sink);
    } else if (status == MENSUR_OK && (page->question.start != NULL || !page->open)) {
        status = MENSUR_USE;
    } else if (status == MENSUR_OK && make == mensur_answer_make && page->question.every &&
               page->question.medium == MENSUR_MEDIUM_WORDS) {
        page->answer.met = true;
        status = answer_every(page, &messages);
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
    if (page->parts == MENSUR_HTML_NOTHING) {
        return MENSUR_OK;
    }
    return mensur_answer_write(&page->answer, 0, sink);
}

static enum mensur_status write_figures(struct page *page, const struct mensur_sink *sink) {
    return page_write_figures(&page->answer, sink);
}

static enum mensur_status write_fields(struct page *page, const struct mensur_sink *sink) {
    return page_write_fields(&page->answer, sink);
}

static enum mensur_status write_instruments(struct page *page, const struct mensur_sink *sink) {
    return page_write_instruments(page, sink);
}

/* The program's answer, byte by byte; id: begins every id of one in HTML, so that several can stand
 * in one page; NULL: the program's own. parts: of one in HTML, some of enum mensur_html_parts; 0:
 * all. */
int page_ask(struct page *page, const char *words, size_t size, const char *id, unsigned parts) {
    page->id = id;
    page->parts = parts;
    int code = answer_words(page, words, size, mensur_answer_make, write_as_asked);
    page->id = NULL;
    page->parts = 0;
    return code;
}

static enum mensur_status write_named(struct page *page, const struct mensur_sink *sink) {
    return page_write_named(page, sink);
}

/* The figures of the instruments that an answer is about, under their keys. */
int page_figures(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_make, write_figures);
}

/* Of the instruments of the latest decision, or of that which was decided on alone, the figures
 * with those keys, a NUL behind each. */
int page_decided(struct page *page, const char *keys, size_t size, bool present_alone) {
    const struct mensur_sink sink = reply_sink(page);
    const struct page_keys wanted = {keys, size, present_alone};
    reply_clear(page);
    return mensur_status_exit_code(
        page->answer.decision != NULL
            ? page_write_decided(page->answer.decision, &page->question.style, &wanted, &sink)
            : MENSUR_USE);
}

/* The wishes of the latest decision. */
int page_wishes(struct page *page) {
    const struct mensur_sink sink = reply_sink(page);
    reply_clear(page);
    return mensur_status_exit_code(
        page->answer.decision != NULL
            ? page_write_wishes(page->answer.decision, &page->question.style, &sink)
            : MENSUR_USE);
}

/* Where the axes of the latest drawings stand. */
int page_axes(struct page *page) {
    const struct mensur_sink sink = reply_sink(page);
    reply_clear(page);
    return mensur_status_exit_code(page_write_axes(&page->axes, &sink));
}

/* While something is moved the questions leave out how sure their figures are, and the drawings
 * keep their axes. */
void page_moving(struct page *page, bool moving) {
    page->moving = moving;
    page->axes.keep = moving;
    page->ends.known = false;
}

/* Parts of the latest answer in HTML, as page_ask gives them, in full or in brief. Among the notes
 * of a full one stand the sources of a comparison, which hold for all that the page shows of
 * instruments. */
int page_tell(struct page *page, const char *id, unsigned parts, bool full) {
    const struct mensur_sink sink = reply_sink(page);
    const struct mensur_question question = page->question;
    const struct mensur_heading heading = page->answer.heading;
    reply_clear(page);
    page->question.medium = MENSUR_MEDIUM_WORDS;
    page->question.style.format = MENSUR_FORMAT_HTML;
    page->question.style.id = id;
    page->question.style.html_parts = parts;
    page->question.style.full = full;
    page->question.style.no_sources = !full;
    if (full) {
        page->answer.heading.command = "compare";
        page->answer.heading.sources = mensur_comparison_answer.sources;
    }
    enum mensur_status status = mensur_answer_write(&page->answer, 0, &sink);
    page->question = question;
    page->answer.heading = heading;
    return mensur_status_exit_code(status);
}

/* Every measurement of the instrument named, with its changes. */
int page_fields(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_find, write_fields);
}

/* instruments.csv with the changes of the instruments named. */
int page_save(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_find, write_instruments);
}

/* Of instruments.csv the rows of the instruments named, as the shop has them. */
int page_rows(struct page *page, const char *words, size_t size) {
    return answer_words(page, words, size, mensur_answer_find, write_named);
}

/* What is kept of the drawing for a place; NULL: nothing can be. */
static struct mensur_kept_drawing *kept_at(struct page *page, const char *id) {
    for (size_t i = 0; i < sizeof page->places / sizeof page->places[0]; i++) {
        struct page_place *place = &page->places[i];
        if (place->id[0] == '\0' && strlen(id) < sizeof place->id) {
            memcpy(place->id, id, strlen(id) + 1);
        }
        if (strcmp(place->id, id) == 0) {
            return &place->kept;
        }
    }
    return NULL;
}

/* A drawing of the latest answer, some of enum mensur_drawing_parts; id: the lead of its ids, for a
 * drawing inside the page; empty: a file of its own. changes: of the one before with that id, as
 * drawing_style.h says. */
int page_draw(struct page *page, unsigned parts, const char *id, bool changes) {
    const struct mensur_sink sink = reply_sink(page);
    struct mensur_kept_drawing *kept = *id != '\0' ? kept_at(page, id) : NULL;
    const struct mensur_drawing_style style = {.figures = page->question.style,
                                               .id = *id != '\0' ? id : NULL,
                                               .within_page = *id != '\0',
                                               .axes = *id != '\0' ? &page->axes : NULL,
                                               .kept = kept,
                                               .changes = changes && kept != NULL};
    reply_clear(page);
    return mensur_status_exit_code(mensur_answer_draw(&page->answer, parts, &style, &sink));
}

/* The neck, or the stop, that the latest decision moves to, in mm; NaN where there is none, or it
 * stays where it is to 0.05 mm. */
double page_recommended(const struct page *page) {
    const struct mensur_decision *decision = page->answer.decision;
    if (decision == NULL) {
        return NAN;
    }
    const struct mensur_lengths *lengths = &decision->present.lengths;
    double now = decision->for_stop ? lengths->stop : lengths->neck;
    bool stays = fabs(decision->recommended_place - now) < 0.00005;
    return decision->can_meet_all && !stays
               ? mensur_from_si(MENSUR_LENGTH, decision->recommended_place)
               : (double)NAN;
}

/* A table of the demonstration, as it is. */
int page_table(struct page *page, unsigned table) {
    const struct mensur_sink sink = reply_sink(page);
    size_t size = 0;
    reply_clear(page);
    if (table >= MENSUR_TABLE_COUNT) {
        return mensur_status_exit_code(MENSUR_USE);
    }
    const unsigned char *bytes = mensur_built_in((enum mensur_table)table, &size);
    return mensur_status_exit_code(sink.write(sink.context, (const char *)bytes, size));
}

const char *page_reply(const struct page *page) {
    return page->reply.items;
}

size_t page_reply_size(const struct page *page) {
    return page->reply.length;
}
