/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Storage of a document, and the functions that add to it. */
#include "document.h"
#include "sentences.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* Texts are copied into blocks that are not moved, so that tokens can point into them. */
struct mensur_document_texts {
    struct mensur_document_texts *next; /* the block that was filled before it; NULL */
    size_t used, room;
    char bytes[];
};
#define TEXTS_ROOM 4096

void mensur_document_open(struct mensur_document *document, const struct mensur_style *style,
                          bool narrow) {
    *document = (struct mensur_document){
        .style = *style, .narrow = narrow, .explain = true, .spread = true};
}

/* Keeps the texts up to `used` bytes of a block, and those of the blocks before it. */
static void forget_texts(struct mensur_document *document, const struct mensur_document_texts *last,
                         size_t used) {
    struct mensur_document_texts *texts = document->texts;
    while (texts != NULL && texts != last && texts->next != NULL) {
        struct mensur_document_texts *next = texts->next;
        free(texts);
        texts = next;
    }
    document->texts = texts;
    if (texts != NULL) {
        texts->used = used;
    }
}

void mensur_document_clear(struct mensur_document *document) {
    document->token_count = document->column_count = document->drawing_count = 0;
    document->before_rows = NULL;
    forget_texts(document, NULL, 0);
}

void mensur_document_clear_rows(struct mensur_document *document) {
    size_t count = 0;
    while (count < document->token_count && document->tokens[count].kind != MENSUR_TOKEN_ROW) {
        count++;
    }
    document->token_count = count;
    if (count > 0) {
        document->tokens[0].number = MENSUR_TABLE_WRITTEN;
    }
    forget_texts(document, document->before_rows, document->before_rows_used);
}

void mensur_document_free(struct mensur_document *document) {
    mensur_document_clear(document);
    free(document->texts);
    free(document->tokens);
    free(document->columns);
    free(document->drawings);
    document->texts = NULL;
    document->tokens = NULL;
    document->columns = NULL;
    document->drawings = NULL;
    document->token_room = document->column_room = document->drawing_room = 0;
}

void mensur_document_fail(struct mensur_document *document, enum mensur_status status) {
    if (document->status == MENSUR_OK) {
        document->status = status;
    }
}

/* Room for one more item behind `count` of them; false without memory. */
static bool grow(struct mensur_document *document, void **items, size_t count, size_t *room,
                 size_t size) {
    if (document->status != MENSUR_OK) {
        return false;
    }
    if (count == *room) {
        size_t more = *room == 0 ? 64 : 2 * *room;
        void *grown = realloc(*items, more * size);
        if (grown == NULL) {
            mensur_document_fail(document, MENSUR_MEMORY);
            return false;
        }
        *items = grown;
        *room = more;
    }
    return true;
}

/* A copy of length bytes that the document keeps; "" without memory. */
static const char *keep(struct mensur_document *document, const char *text, size_t length) {
    struct mensur_document_texts *texts = document->texts;
    if (document->status != MENSUR_OK || length == 0) {
        return "";
    }
    if (texts == NULL || texts->room - texts->used < length + 1) {
        size_t room = length + 1 > TEXTS_ROOM ? length + 1 : TEXTS_ROOM;
        struct mensur_document_texts *more = malloc(sizeof(*more) + room);
        if (more == NULL) {
            mensur_document_fail(document, MENSUR_MEMORY);
            return "";
        }
        *more = (struct mensur_document_texts){.next = texts, .room = room};
        document->texts = texts = more;
    }
    char *copy = texts->bytes + texts->used;
    memcpy(copy, text, length);
    copy[length] = '\0';
    texts->used += length + 1;
    return copy;
}

static void add(struct mensur_document *document, enum mensur_token_kind kind, size_t number,
                const char *text, size_t length) {
    void *tokens = document->tokens;
    const char *kept = keep(document, text, length);
    if (grow(document, &tokens, document->token_count, &document->token_room,
             sizeof(struct mensur_token))) {
        document->tokens = tokens;
        document->tokens[document->token_count++] = (struct mensur_token){kind, number, kept};
    }
}

static void begin(struct mensur_document *document, enum mensur_token_kind kind, size_t number) {
    add(document, kind, number, "", 0);
}

static void say_text(struct mensur_document *document, const char *text) {
    add(document, MENSUR_TOKEN_WORDS, 0, text, strlen(text));
}

/* Adds the argument that a letter behind a percent sign stands for. */
static void say_value(struct mensur_document *document, char letter, va_list *values) {
    const struct mensur_style *style = &document->style;
    const char *name;
    switch (letter) {
    case 's':
        say_text(document, va_arg(*values, const char *));
        break;
    case 'n':
        name = va_arg(*values, const char *);
        add(document, MENSUR_TOKEN_NAME, 0, name, strlen(name));
        break;
    case 'l':
        say_text(document, mensur_show_cut_unit(style, va_arg(*values, double)).text);
        break;
    case 'p':
        say_text(document, mensur_show_unit(style, MENSUR_FORCE, va_arg(*values, double)).text);
        break;
    case 'r':
        say_text(document, mensur_show_ratio(style, va_arg(*values, double)).text);
        break;
    case 'b':
        say_text(document, mensur_show(style, MENSUR_NUMBER, va_arg(*values, double)).text);
        break;
    case 'z':
        say_text(document, mensur_show_count(va_arg(*values, size_t)).text);
        break;
    default:
        say_text(document, "%");
    }
}

static void say(struct mensur_document *document, const char *format, va_list *values) {
    while (*format != '\0') {
        size_t length = strcspn(format, "%");
        if (length > 0) {
            add(document, MENSUR_TOKEN_WORDS, 0, format, length);
        }
        format += length;
        if (*format == '%') {
            say_value(document, format[1], values);
            format += 2;
        }
    }
}

/* Runs `say` with the values behind `format`, the last parameter. */
#define SAY(document, format)                                                                      \
    do {                                                                                           \
        va_list values;                                                                            \
        va_start(values, format);                                                                  \
        say(document, format, &values);                                                            \
        va_end(values);                                                                            \
    } while (0)

void mensur_say(struct mensur_document *document, const char *format, ...) {
    SAY(document, format);
}

bool mensur_sentence_ends(const char *sentence) {
    size_t length = strlen(sentence);
    return length > 0 && strchr(".!?", sentence[length - 1]) != NULL;
}

static struct mensur_texts sentences_of(struct mensur_document *document,
                                        const struct mensur_facts *facts) {
    struct mensur_texts sentences = {0};
    mensur_document_fail(document, mensur_sentences(facts, &document->style, &sentences));
    return sentences;
}

void mensur_say_facts(struct mensur_document *document, const struct mensur_facts *facts) {
    struct mensur_texts sentences = sentences_of(document, facts);
    if (sentences.count > 0) {
        mensur_say(document, "%s", sentences.items[0]);
    }
    mensur_texts_clear(&sentences);
}

void mensur_say_list(struct mensur_document *document, const struct mensur_facts *facts) {
    struct mensur_texts sentences = sentences_of(document, facts);
    for (size_t i = 0; i < sentences.count; i++) {
        mensur_say(document, i == 0 ? "%s" : ", %s", sentences.items[i]);
    }
    mensur_texts_clear(&sentences);
}

void mensur_gap(struct mensur_document *document) {
    begin(document, MENSUR_TOKEN_GAP, 0);
}

void mensur_heading(struct mensur_document *document, size_t level, const char *format, ...) {
    begin(document, MENSUR_TOKEN_HEADING, level);
    SAY(document, format);
}

void mensur_paragraph(struct mensur_document *document, size_t indent, const char *format, ...) {
    begin(document, MENSUR_TOKEN_PARAGRAPH, indent);
    SAY(document, format);
}

void mensur_line(struct mensur_document *document) {
    begin(document, MENSUR_TOKEN_LINE, 0);
}

void mensur_point(struct mensur_document *document, const char *format, ...) {
    begin(document, MENSUR_TOKEN_POINT, 0);
    SAY(document, format);
}

void mensur_points(struct mensur_document *document, const struct mensur_facts *facts) {
    struct mensur_texts sentences = sentences_of(document, facts);
    for (size_t i = 0; i < sentences.count; i++) {
        const char *sentence = sentences.items[i];
        mensur_point(document, mensur_sentence_ends(sentence) ? "%s" : "%s.", sentence);
    }
    mensur_texts_clear(&sentences);
}

const char *mensur_footnote_word(enum mensur_footnote_kind kind) {
    switch (kind) {
    case MENSUR_FOOTNOTE_WARNING:
        return "Warning: ";
    case MENSUR_FOOTNOTE_CAUTION:
        return "Caution: ";
    case MENSUR_FOOTNOTE_SOURCE:
        return "Sources: ";
    default:
        return "";
    }
}

void mensur_footnote(struct mensur_document *document, enum mensur_footnote_kind kind,
                     const char *format, ...) {
    begin(document, MENSUR_TOKEN_FOOTNOTE, kind);
    SAY(document, format);
}

void mensur_footnotes(struct mensur_document *document, enum mensur_footnote_kind kind,
                      const struct mensur_facts *facts) {
    struct mensur_texts sentences = sentences_of(document, facts);
    for (size_t i = 0; i < sentences.count; i++) {
        mensur_footnote(document, kind, "%s", sentences.items[i]);
    }
    mensur_texts_clear(&sentences);
}

void mensur_drawing(struct mensur_document *document, struct mensur_illustration drawing) {
    void *drawings = document->drawings;
    if (grow(document, &drawings, document->drawing_count, &document->drawing_room,
             sizeof(drawing))) {
        document->drawings = drawings;
        document->drawings[document->drawing_count] = drawing;
        begin(document, MENSUR_TOKEN_DRAWING, document->drawing_count++);
    }
}

void mensur_table(struct mensur_document *document, enum mensur_table_kind kind,
                  const char *caption, ...) {
    document->before_rows = NULL;
    document->first_column = document->column_count;
    begin(document, MENSUR_TOKEN_TABLE, kind);
    SAY(document, caption);
}

void mensur_column(struct mensur_document *document, struct mensur_table_column column) {
    void *columns = document->columns;
    column.label = keep(document, column.label, strlen(column.label));
    if (column.unit != NULL) {
        column.unit = keep(document, column.unit, strlen(column.unit));
    }
    if (grow(document, &columns, document->column_count, &document->column_room, sizeof(column))) {
        document->columns = columns;
        document->columns[document->column_count] = column;
        begin(document, MENSUR_TOKEN_COLUMN, document->column_count++);
    }
}

void mensur_column_of(struct mensur_document *document, enum mensur_table_cells cells,
                      const char *label, const char *unit, size_t width) {
    mensur_column(document, (struct mensur_table_column){
                                .label = label, .unit = unit, .width = width, .cells = cells});
}

void mensur_column_behind(struct mensur_document *document, enum mensur_table_cells cells,
                          const char *label, size_t gap, size_t width) {
    mensur_column(document, (struct mensur_table_column){
                                .label = label, .width = width, .gap = gap, .cells = cells});
}

void mensur_row(struct mensur_document *document) {
    begin(document, MENSUR_TOKEN_ROW, 0);
    document->cell = document->first_column;
    if (document->before_rows == NULL && document->texts != NULL) {
        document->before_rows = document->texts;
        document->before_rows_used = document->texts->used;
    }
}

void mensur_cell(struct mensur_document *document, const char *text) {
    add(document, MENSUR_TOKEN_CELL, 0, text, strlen(text));
    document->cell++;
}

void mensur_cells(struct mensur_document *document, size_t count, ...) {
    va_list texts;
    va_start(texts, count);
    for (size_t i = 0; i < count; i++) {
        mensur_cell(document, va_arg(texts, const char *));
    }
    va_end(texts);
}

/* A bare number in a table has at most so many columns. */
#define FIGURE_WIDTH 7

static struct mensur_shown show(const struct mensur_style *style,
                                const struct mensur_table_column *column, double value) {
    size_t width = column->width <= FIGURE_WIDTH ? column->width - 1 : FIGURE_WIDTH;
    return column->finer ? mensur_show_finer(style, column->figure->kind, value)
                         : mensur_figure_within(column->figure, style, value, width);
}

const char *mensur_told_name(const char *string) {
    return string != NULL ? string : "(no string)";
}

void mensur_cells_of(struct mensur_document *document, size_t count, const void *record) {
    for (size_t i = 0; i < count && document->cell < document->column_count; i++) {
        const struct mensur_table_column *column = &document->columns[document->cell];
        if (column->figure->type == MENSUR_FIGURE_NUMBER) {
            double value = mensur_figure_value(column->figure, record);
            mensur_cell(document, show(&document->style, column, value).text);
        } else {
            const char *name = mensur_figure_text(column->figure, record);
            mensur_cell(document, mensur_told_name(name));
        }
    }
}

void mensur_cell_figure(struct mensur_document *document, enum mensur_kind kind, double value) {
    mensur_cell(document, mensur_show(&document->style, kind, value).text);
}
