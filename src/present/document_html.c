/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a document as HTML without the page around it: text is escaped, names are isolated (bdi),
 * every table has a region that scrolls by itself, a caption, and a scope for each heading. */
#include <stdio.h>
#include <string.h>

#include "document.h"
#include "lettering.h"
#include "letters.h"
#include "markup.h"

/* So many right-to-left names are isolated inside words too. */
#define TURNING_NAMES 64

/* What is being written. */
struct writer {
    const struct mensur_document *document;
    struct mensur_html *html;
    struct mensur_out *out;
    const char *turning[TURNING_NAMES];
    size_t turning_count;
    const struct mensur_table_column *columns; /* of the table */
    size_t column_count;
};

static const struct mensur_token *token_at(const struct writer *writer, size_t i) {
    static const struct mensur_token end = {.kind = MENSUR_TOKEN_GAP, .text = ""};
    return i < writer->document->token_count ? &writer->document->tokens[i] : &end;
}

/* Collects the right-to-left names of the document, which sentences hold as plain words. */
static void find_names(struct writer *writer) {
    for (size_t i = 0; i < writer->document->token_count; i++) {
        const struct mensur_token *token = &writer->document->tokens[i];
        if (token->kind != MENSUR_TOKEN_NAME || writer->turning_count == TURNING_NAMES) {
            continue;
        }
        size_t known = 0;
        while (known < writer->turning_count && strcmp(writer->turning[known], token->text) != 0) {
            known++;
        }
        if (known == writer->turning_count && mensur_lettering_turns(token->text)) {
            writer->turning[writer->turning_count++] = token->text;
        }
    }
}

static void put_name(const struct writer *writer, const char *name) {
    mensur_markup_open(writer->out, "bdi");
    mensur_markup_text(writer->out, name);
    mensur_out_text(writer->out, "</bdi>");
}

/* The longest of the names that stands at a place of words; NULL where none does. */
static const char *name_at(const struct writer *writer, const char *text) {
    const char *found = NULL;
    for (size_t i = 0; i < writer->turning_count; i++) {
        const char *name = writer->turning[i];
        if (strncmp(text, name, strlen(name)) == 0 &&
            (found == NULL || strlen(name) > strlen(found))) {
            found = name;
        }
    }
    return found;
}

static void put_words(const struct writer *writer, const char *text) {
    if (writer->turning_count == 0) {
        mensur_markup_text(writer->out, text);
        return;
    }
    const char *from = text;
    for (const char *at = text; *at != '\0';) {
        const char *name = name_at(writer, at);
        if (name == NULL) {
            at++;
            continue;
        }
        mensur_markup_part(writer->out, from, (size_t)(at - from));
        put_name(writer, name);
        at += strlen(name);
        from = at;
    }
    mensur_markup_text(writer->out, from);
}

/* The runs from token i on. Tells which token follows them. */
static size_t put_runs(const struct writer *writer, size_t i) {
    for (; token_at(writer, i)->kind <= MENSUR_TOKEN_NAME; i++) {
        const struct mensur_token *token = token_at(writer, i);
        if (token->kind == MENSUR_TOKEN_NAME) {
            put_name(writer, token->text);
        } else {
            put_words(writer, token->text);
        }
    }
    return i;
}

/* Ends the list or table that is open, unless it is this one. */
static void end_open(struct mensur_html *html, const char *unless) {
    if (strcmp(html->open, unless) == 0) {
        return;
    }
    if (strcmp(html->open, "table") == 0) {
        mensur_markup_finish(html->out, "tbody");
        mensur_markup_finish(html->out, "table");
        mensur_markup_finish(html->out, "div");
    } else if (*html->open != '\0') {
        mensur_markup_finish(html->out, html->open);
    }
    html->open = "";
}

static void begin_list(struct mensur_html *html) {
    end_open(html, "ul");
    if (*html->open == '\0') {
        mensur_markup_open(html->out, "ul");
        html->open = "ul";
    }
}

static size_t put_item(const struct writer *writer, size_t i, const char *end) {
    begin_list(writer->html);
    mensur_markup_open(writer->out, "li");
    i = put_runs(writer, i);
    mensur_out_text(writer->out, end);
    mensur_markup_finish(writer->out, "li");
    return i;
}

static size_t put_element(const struct writer *writer, size_t i, const char *name,
                          const char *class) {
    mensur_markup_start(writer->out, name);
    if (class != NULL) {
        mensur_markup_attribute(writer->out, "class", class);
    }
    mensur_markup_end(writer->out);
    i = put_runs(writer, i);
    while (token_at(writer, i)->kind == MENSUR_TOKEN_LINE) {
        mensur_out_text(writer->out, " ");
        i = put_runs(writer, i + 1);
    }
    mensur_markup_finish(writer->out, name);
    return i;
}

static size_t put_heading(const struct writer *writer, size_t i, size_t level) {
    char name[3] = {'h', (char)('0' + (level < 6 ? level : 6)), '\0'};
    return put_element(writer, i, name, NULL);
}

static size_t put_note(const struct writer *writer, size_t i) {
    static const char *const headings[] = {
        [MENSUR_FOOTNOTE_ASSUMED] = "What was assumed", [MENSUR_FOOTNOTE_WARNING] = "Warnings",
        [MENSUR_FOOTNOTE_WARNINGS_LEFT] = "Warnings",   [MENSUR_FOOTNOTE_CAUTION] = "Cautions",
        [MENSUR_FOOTNOTE_SOURCE] = "Sources",           [MENSUR_FOOTNOTE_ORIGIN] = "",
    };
    struct mensur_html *html = writer->html;
    size_t kind = token_at(writer, i)->number;
    if (kind == MENSUR_FOOTNOTE_ORIGIN) {
        end_open(html, "");
        return put_element(writer, i + 1, "p", "soft");
    }
    if (strcmp(html->notes, headings[kind]) != 0) {
        char name[3] = {'h', (char)('0' + html->note_level), '\0'};
        end_open(html, "");
        mensur_markup_element(html->out, name, headings[kind]);
        html->notes = headings[kind];
    }
    size_t last = i;
    while (token_at(writer, last + 1)->kind <= MENSUR_TOKEN_NAME) {
        last++;
    }
    return put_item(writer, i + 1, mensur_sentence_ends(token_at(writer, last)->text) ? "" : ".");
}

static void put_drawing(const struct writer *writer,
                        const struct mensur_illustration *illustration) {
    const struct mensur_style *style = &writer->document->style;
    struct mensur_html *html = writer->html;
    char id[64];
    if (style->illustrate == NULL) {
        return;
    }
    snprintf(id, sizeof(id), "%.40s%zu", html->id, ++html->drawings);
    end_open(html, "");
    mensur_markup_open(html->out, "figure");
    mensur_out_line(html->out);
    mensur_out_flush(html->out);
    if (html->out->status == MENSUR_OK) {
        mensur_out_fail(html->out, style->illustrate(illustration, id, style, &html->out->sink));
    }
    mensur_markup_finish(html->out, "figure");
}

/* Marks without a label of their own stand behind the cell before them. */
static bool joins(const struct mensur_table_column *column) {
    return column->cells == MENSUR_CELLS_MARKS && *column->label == '\0';
}

static bool is_words(const struct mensur_table_column *column) {
    return column->cells != MENSUR_CELLS_FIGURES;
}

static void start_cell(const struct writer *writer, const char *name, const char *scope,
                       bool words) {
    mensur_markup_start(writer->out, name);
    if (scope != NULL) {
        mensur_markup_attribute(writer->out, "scope", scope);
    }
    if (words) {
        mensur_markup_attribute(writer->out, "class", "words");
    }
    mensur_markup_end(writer->out);
}

/* Label and unit: "tension, N", "note at the body". */
static void put_column_head(const struct writer *writer, const struct mensur_table_column *column,
                            bool words) {
    const char *name = *column->label == '\0' ? "td" : "th";
    start_cell(writer, name, *column->label == '\0' ? NULL : "col", words);
    if (column->number > 0) {
        put_name(writer, column->label);
    } else {
        size_t length = strcspn(column->label, "\n");
        mensur_markup_part(writer->out, column->label, length);
        if (column->label[length] == '\n') {
            mensur_out_text(writer->out, " ");
            mensur_markup_text(writer->out, column->label + length + 1);
        }
    }
    if (column->unit != NULL && *column->unit != '\0') {
        mensur_markup_text(writer->out, ", ");
        mensur_markup_text(writer->out, column->unit);
    }
    mensur_markup_finish(writer->out, name);
}

/* The region, the caption from token i on, and the head. */
static void put_table_head(const struct writer *writer, size_t i) {
    struct mensur_html *html = writer->html;
    struct mensur_out *out = writer->out;
    struct mensur_shown number = mensur_show_count(++html->tables);
    mensur_markup_start(out, "div");
    mensur_markup_attribute(out, "class", "wide");
    mensur_markup_attribute(out, "role", "region");
    mensur_markup_attribute(out, "tabindex", "0");
    mensur_markup_id(out, "aria-labelledby", "", html->id, number.text, "");
    mensur_markup_end(out);
    mensur_markup_open(out, "table");
    mensur_markup_start(out, "caption");
    mensur_markup_id(out, "id", "", html->id, number.text, "");
    mensur_markup_end(out);
    (void)put_runs(writer, i);
    mensur_markup_finish(out, "caption");
    mensur_markup_open(out, "thead");
    mensur_markup_open(out, "tr");
    for (size_t column = 0; column < writer->column_count; column++) {
        if (!joins(&writer->columns[column])) {
            const struct mensur_table_column *of = &writer->columns[column];
            put_column_head(writer, of, column > 0 && is_words(of));
        }
    }
    mensur_markup_finish(out, "tr");
    mensur_markup_finish(out, "thead");
    mensur_markup_open(out, "tbody");
}

/* Begins the table at token i, or goes on with the one that is open. */
static size_t begin_table(struct writer *writer, size_t i) {
    bool written = token_at(writer, i)->number == MENSUR_TABLE_WRITTEN;
    size_t caption = i + 1;
    for (i++; token_at(writer, i)->kind <= MENSUR_TOKEN_NAME;) {
        i++;
    }
    writer->column_count = 0;
    for (; token_at(writer, i)->kind == MENSUR_TOKEN_COLUMN; i++) {
        if (writer->column_count++ == 0) {
            writer->columns = &writer->document->columns[token_at(writer, i)->number];
        }
    }
    if (!written) {
        end_open(writer->html, "");
        put_table_head(writer, caption);
        writer->html->open = "table";
    }
    return i;
}

/* Behind a cell's text, apart from it, so that a page can set figures below each other. */
static void put_mark(const struct writer *writer, const char *mark) {
    if (*mark == '\0') {
        return;
    }
    mensur_markup_start(writer->out, "span");
    mensur_markup_attribute(writer->out, "class", "mark");
    mensur_markup_end(writer->out);
    mensur_out_text(writer->out, MENSUR_NO_BREAK);
    mensur_markup_text(writer->out, mark);
    mensur_out_text(writer->out, "</span>");
}

static size_t put_row(const struct writer *writer, size_t i) {
    mensur_markup_open(writer->out, "tr");
    for (size_t column = 0; column < writer->column_count; column++) {
        const struct mensur_table_column *of = &writer->columns[column];
        bool there = token_at(writer, i)->kind == MENSUR_TOKEN_CELL;
        const char *text = there ? token_at(writer, i++)->text : "";
        const char *name = column == 0 ? "th" : "td";
        start_cell(writer, name, column == 0 ? "row" : NULL, column > 0 && is_words(of));
        if (of->cells == MENSUR_CELLS_NAMES && *text != '\0') {
            put_name(writer, text);
        } else {
            mensur_markup_text(writer->out, text);
        }
        if (column + 1 < writer->column_count && joins(of + 1)) {
            const char *mark = token_at(writer, i)->text;
            column++;
            if (token_at(writer, i)->kind == MENSUR_TOKEN_CELL) {
                put_mark(writer, mark);
                i++;
            }
        }
        mensur_markup_finish(writer->out, name);
    }
    mensur_markup_finish(writer->out, "tr");
    return i;
}

void mensur_html_open(struct mensur_html *html, struct mensur_out *out, const char *id,
                      size_t level) {
    *html = (struct mensur_html){
        .out = out, .level = level, .note_level = level, .id = id, .open = "", .notes = ""};
}

void mensur_html_close(struct mensur_html *html) {
    end_open(html, "");
}

void mensur_document_html(const struct mensur_document *document, struct mensur_html *html) {
    struct writer writer = {.document = document, .html = html, .out = html->out};
    mensur_out_fail(html->out, document->status);
    find_names(&writer);
    for (size_t i = 0; i < document->token_count;) {
        const struct mensur_token *token = &document->tokens[i];
        switch (token->kind) {
        case MENSUR_TOKEN_HEADING:
            end_open(html, "");
            i = put_heading(&writer, i + 1, html->level + token->number - MENSUR_HEADING_SECTION);
            break;
        case MENSUR_TOKEN_PARAGRAPH:
            end_open(html, "");
            i = put_element(&writer, i + 1, "p", NULL);
            break;
        case MENSUR_TOKEN_POINT:
            i = put_item(&writer, i + 1, "");
            break;
        case MENSUR_TOKEN_FOOTNOTE:
            i = put_note(&writer, i);
            break;
        case MENSUR_TOKEN_TABLE:
            i = begin_table(&writer, i);
            break;
        case MENSUR_TOKEN_ROW:
            i = put_row(&writer, i + 1);
            break;
        case MENSUR_TOKEN_DRAWING:
            put_drawing(&writer, &document->drawings[token->number]);
            i++;
            break;
        default: /* a gap; what stands where it means nothing */
            i++;
        }
    }
}
