/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pages.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw.h"
#include "lettering.h"
#include "utf8.h"
#include "svg.h"
#include "tiles.h"

/* CSS px, 96 to the inch. */
#define PX_PER_MM (96.0 / 25.4)
#define MARGIN (14.0 * PX_PER_MM)
#define FOOT 24.0 /* of the page's number, inside the lower margin */
#define TEXT 12.0
#define SMALL 11.0
#define LEADING 1.3
#define ROW_PAD 4.0   /* above and below a row's text, together */
#define CELL_PAD 12.0 /* between columns */
#define GAP 6.0
#define APART 18.0  /* between two drawings */
#define INDENT 12.0 /* of a point */
#define COLUMNS_MOST 16

/* Running text is gathered here before it is broken. */
#define RUN_ROOM 4096

struct flow {
    const struct mensur_document *document;
    struct mensur_shapes shapes; /* of the wanted page alone */
    double width, height;        /* of a page */
    double left, right, bottom;
    double y; /* where the next block begins */
    size_t page, wanted;
    enum mensur_status status;
};

static const struct mensur_token *token_at(const struct flow *flow, size_t i) {
    static const struct mensur_token end = {.kind = MENSUR_TOKEN_GAP, .text = ""};
    return i < flow->document->token_count ? &flow->document->tokens[i] : &end;
}

static bool is_run(const struct flow *flow, size_t i) {
    return i < flow->document->token_count && token_at(flow, i)->kind <= MENSUR_TOKEN_NAME;
}

static bool is_drawn(const struct flow *flow) {
    return flow->page == flow->wanted;
}

/* Room for a block; a page further where there is none. */
static void make_room(struct flow *flow, double height) {
    if (flow->y + height > flow->bottom && flow->y > MARGIN) {
        flow->page++;
        flow->y = MARGIN;
    }
}

static void put(struct flow *flow, struct mensur_lettering letters, double x, double y,
                const char *text) {
    if (is_drawn(flow)) {
        mensur_shape_text(&flow->shapes, letters, x, y, text);
    }
}

static void rule(struct flow *flow, double y, double right) {
    const struct mensur_pen pen = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_NONE};
    if (is_drawn(flow)) {
        mensur_shape_line(&flow->shapes, pen, flow->left, y, right, y);
    }
}

/* Gathers the runs from token i on behind `lead`; tells which token follows them. */
static size_t gather(struct flow *flow, size_t i, const char *lead, char *text) {
    size_t used = strlen(lead);
    memcpy(text, lead, used + 1);
    for (; is_run(flow, i); i++) {
        const struct mensur_token *token = token_at(flow, i);
        char *name = token->kind == MENSUR_TOKEN_NAME ? mensur_lettering_whole(token->text) : NULL;
        const char *more = name != NULL ? name : token->text;
        size_t length = strlen(more);
        length =
            length < RUN_ROOM - 1 - used ? length : mensur_utf8_whole(more, RUN_ROOM - 1 - used);
        memcpy(text + used, more, length);
        used += length;
        text[used] = '\0';
        free(name);
    }
    return i;
}

/* A text, broken into lines; the lines behind the first are indented. */
static void flow_text(struct flow *flow, struct mensur_lettering letters, double x, double hang,
                      const char *text) {
    double lead = letters.size * LEADING;
    /* Bold letters are wider than the table of widths says. */
    double size = letters.size * (letters.bold ? 1.12 : 1.0);
    for (bool first = true; *text != '\0'; first = false) {
        char line[RUN_ROOM];
        double from = x + (first ? 0.0 : hang);
        size_t length = mensur_lettering_line(text, size, flow->right - from);
        memcpy(line, text, length);
        line[length] = '\0';
        make_room(flow, lead);
        put(flow, letters, from, flow->y + letters.size, line);
        flow->y += lead;
        text += length;
        text += strspn(text, " ");
    }
}

static struct mensur_lettering plain(double size) {
    return (struct mensur_lettering){.size = size, .paint = MENSUR_PAINT_INK};
}

static size_t flow_heading(struct flow *flow, size_t i) {
    static const double sizes[] = {20.0, 14.5, 12.5, 12.5};
    char text[RUN_ROOM];
    size_t level = token_at(flow, i)->number;
    struct mensur_lettering letters = plain(sizes[level < 4 ? level : 3]);
    size_t next = gather(flow, i + 1, "", text);
    letters.bold = true;
    if (*text == '\0') {
        return next;
    }
    if (level != MENSUR_HEADING_TITLE) {
        flow->y += level == MENSUR_HEADING_SECTION ? 10.0 : GAP;
        make_room(flow, letters.size * LEADING + 4.0 * TEXT); /* it stays with what follows */
    }
    if (level == MENSUR_HEADING_SECTION && flow->y > MARGIN) {
        rule(flow, flow->y, flow->right);
        flow->y += GAP;
    }
    flow_text(flow, letters, flow->left, 0.0, text);
    flow->y += 2.0;
    return next;
}

static size_t flow_paragraph(struct flow *flow, size_t i) {
    char text[RUN_ROOM];
    size_t next = gather(flow, i + 1, "", text);
    while (token_at(flow, next)->kind == MENSUR_TOKEN_LINE) {
        char more[RUN_ROOM];
        next = gather(flow, next + 1, " ", more);
        strncat(text, more, RUN_ROOM - 1 - strlen(text));
    }
    flow_text(flow, plain(TEXT), flow->left, 0.0, text);
    flow->y += 4.0;
    return next;
}

static size_t flow_point(struct flow *flow, size_t i) {
    char text[RUN_ROOM];
    size_t next = gather(flow, i + 1, "\342\200\223 ", text);
    flow_text(flow, plain(TEXT), flow->left, INDENT, text);
    flow->y += 2.0;
    return next;
}

/* Notes of one kind are one paragraph. */
static size_t flow_notes(struct flow *flow, size_t i) {
    enum mensur_footnote_kind kind = (enum mensur_footnote_kind)token_at(flow, i)->number;
    struct mensur_lettering letters = plain(SMALL);
    char text[RUN_ROOM];
    letters.bold = kind == MENSUR_FOOTNOTE_WARNING || kind == MENSUR_FOOTNOTE_CAUTION;
    letters.paint = letters.bold ? MENSUR_PAINT_INK : MENSUR_PAINT_SOFT;
    size_t next = gather(flow, i + 1, mensur_footnote_word(kind), text);
    while (kind == MENSUR_FOOTNOTE_SOURCE && token_at(flow, next)->kind == MENSUR_TOKEN_FOOTNOTE &&
           token_at(flow, next)->number == kind) {
        char more[RUN_ROOM];
        next = gather(flow, next + 1, mensur_sentence_ends(text) ? " " : ". ", more);
        strncat(text, more, RUN_ROOM - 1 - strlen(text));
    }
    flow_text(flow, letters, flow->left, INDENT, text);
    flow->y += 2.0;
    return next;
}

/* A table while it is set. */
struct table {
    const struct mensur_table_column *columns;
    size_t count;
    size_t first; /* token of the first row */
    double size;
    double x[COLUMNS_MOST], width[COLUMNS_MOST];
};

static void head_text(const struct mensur_table_column *column, char *text, size_t room) {
    bool unit = column->unit != NULL && *column->unit != '\0';
    snprintf(text, room, "%s%s%s", column->label, unit ? ", " : "", unit ? column->unit : "");
    for (char *at = text; *at != '\0'; at++) {
        *at = *at == '\n' ? ' ' : *at;
    }
}

/* How wide a column has to be for its cells and the longest word of its head. */
static void widen(struct table *table, size_t column, const char *text, bool head) {
    char word[128];
    for (const char *at = text; *at != '\0';) {
        size_t length = head ? strcspn(at, " ") : strlen(at);
        snprintf(word, sizeof word, "%.*s", (int)(length < 127 ? length : 127), at);
        table->width[column] =
            fmax(table->width[column],
                 mensur_lettering_width(word, table->size * (head ? 1.12 : 1.0)) + CELL_PAD);
        at += length + strspn(at + length, " ");
    }
}

static void measure(const struct flow *flow, struct table *table) {
    char text[128];
    for (size_t k = 0; k < table->count; k++) {
        table->width[k] = 0.0;
        head_text(&table->columns[k], text, sizeof text);
        widen(table, k, text, true);
    }
    for (size_t i = table->first; token_at(flow, i)->kind == MENSUR_TOKEN_ROW;) {
        size_t k = 0;
        for (i++; token_at(flow, i)->kind == MENSUR_TOKEN_CELL; i++, k++) {
            if (k < table->count) {
                widen(table, k, token_at(flow, i)->text, false);
            }
        }
    }
}

/* The table that begins at token i, its columns set as wide as their texts; smaller letters where
 * that is too wide for the page. */
static size_t begin_table(const struct flow *flow, size_t i, struct table *table) {
    *table = (struct table){.size = SMALL};
    for (i++; is_run(flow, i);) {
        i++; /* the caption */
    }
    for (; token_at(flow, i)->kind == MENSUR_TOKEN_COLUMN; i++) {
        if (table->count < COLUMNS_MOST && table->count++ == 0) {
            table->columns = &flow->document->columns[token_at(flow, i)->number];
        }
    }
    table->first = i;
    double room = flow->right - flow->left;
    for (int tries = 0; tries < 5; tries++) {
        measure(flow, table);
        double all = 0.0;
        for (size_t k = 0; k < table->count; k++) {
            all += table->width[k];
        }
        if (all <= room) {
            break;
        }
        table->size *= fmax(room / all, 0.6);
    }
    double x = flow->left;
    for (size_t k = 0; k < table->count; k++) {
        table->x[k] = x;
        x += table->width[k];
    }
    return i;
}

/* Where a text of a column stands: figures end at its right side. */
static void put_cell(struct flow *flow, const struct table *table, size_t k, double y,
                     const char *text, bool bold) {
    struct mensur_lettering letters = plain(table->size);
    bool right = table->columns[k].cells == MENSUR_CELLS_FIGURES && k > 0;
    letters.bold = bold;
    letters.anchor = right ? MENSUR_ANCHOR_END : MENSUR_ANCHOR_START;
    put(flow, letters, right ? table->x[k] + table->width[k] - CELL_PAD / 2.0 : table->x[k], y,
        text);
}

/* The head in as many lines as its longest has words. */
static void put_head(struct flow *flow, const struct table *table) {
    double lead = table->size * LEADING;
    size_t lines = 1;
    for (int pass = 0; pass < 2; pass++) {
        if (pass == 1) {
            make_room(flow, lead * (double)(lines + 2));
        }
        for (size_t k = 0; k < table->count; k++) {
            char text[128], line[128];
            double room = table->width[k] - CELL_PAD / 2.0;
            size_t count = 0;
            head_text(&table->columns[k], text, sizeof text);
            for (const char *at = text; *at != '\0'; count++) {
                size_t length = mensur_lettering_line(at, table->size * 1.12, room);
                snprintf(line, sizeof line, "%.*s", (int)length, at);
                if (pass == 1) {
                    put_cell(flow, table, k, flow->y + table->size + lead * (double)count, line,
                             true);
                }
                at += length;
                at += strspn(at, " ");
            }
            lines = count > lines ? count : lines;
        }
    }
    flow->y += lead * (double)lines + 2.0;
    size_t last = table->count - 1;
    rule(flow, flow->y, table->x[last] + table->width[last]);
    flow->y += 2.0;
}

static size_t flow_table(struct flow *flow, size_t i) {
    struct table table;
    double lead;
    i = begin_table(flow, i, &table);
    lead = table.size + ROW_PAD;
    flow->y += GAP;
    put_head(flow, &table);
    for (; token_at(flow, i)->kind == MENSUR_TOKEN_ROW;) {
        size_t k = 0, page = flow->page;
        make_room(flow, lead);
        if (flow->page != page) {
            put_head(flow, &table);
        }
        for (i++; token_at(flow, i)->kind == MENSUR_TOKEN_CELL; i++, k++) {
            if (k < table.count) {
                put_cell(flow, &table, k, flow->y + table.size, token_at(flow, i)->text, false);
            }
        }
        flow->y += lead;
    }
    flow->y += GAP;
    return i;
}

static void place(struct flow *flow, const struct mensur_draw *draw, double x, double scale) {
    if (is_drawn(flow)) {
        mensur_shapes_place(&flow->shapes, &draw->shapes, x, flow->y, scale);
    }
}

/* One drawing, or two that follow each other. */
static size_t flow_drawings(struct flow *flow, size_t i) {
    struct mensur_draw draws[2];
    size_t count = 0;
    double height = 0.0;
    double scale = (flow->right - flow->left - APART) / 2.0 / MENSUR_PAGE_WIDTH;
    for (; count < 2 && token_at(flow, i)->kind == MENSUR_TOKEN_DRAWING; i++) {
        const char *title;
        draws[count] = mensur_draw_begin(&flow->document->style);
        enum mensur_status status = mensur_draw_compose(
            &flow->document->drawings[token_at(flow, i)->number], &draws[count], &title);
        flow->status = flow->status == MENSUR_OK ? status : flow->status;
        height = fmax(height, draws[count].y + 4.0);
        count++;
    }
    scale = fmin(scale, (flow->bottom - MARGIN) / height);
    make_room(flow, height * scale);
    for (size_t k = 0; k < count; k++) {
        place(flow, &draws[k], flow->left + (double)k * (MENSUR_PAGE_WIDTH * scale + APART), scale);
        mensur_shapes_clear(&draws[k].shapes);
    }
    flow->y += height * scale + GAP;
    return i;
}

static void flow_all(struct flow *flow) {
    for (size_t i = 0; i < flow->document->token_count;) {
        switch (token_at(flow, i)->kind) {
        case MENSUR_TOKEN_HEADING:
            i = flow_heading(flow, i);
            break;
        case MENSUR_TOKEN_PARAGRAPH:
            i = flow_paragraph(flow, i);
            break;
        case MENSUR_TOKEN_POINT:
            i = flow_point(flow, i);
            break;
        case MENSUR_TOKEN_FOOTNOTE:
            i = flow_notes(flow, i);
            break;
        case MENSUR_TOKEN_TABLE:
            i = flow_table(flow, i);
            break;
        case MENSUR_TOKEN_DRAWING:
            i = flow_drawings(flow, i);
            break;
        default: /* a gap; what stands where it means nothing */
            i++;
        }
    }
}

static struct flow begin(const struct mensur_document *document, enum mensur_sheet_paper paper,
                         size_t wanted) {
    struct mensur_tile_size size = mensur_tile_paper(paper);
    struct flow flow = {.document = document, .wanted = wanted, .status = document->status};
    flow.width = size.height * PX_PER_MM; /* upright */
    flow.height = size.width * PX_PER_MM;
    flow.left = MARGIN;
    flow.right = flow.width - MARGIN;
    flow.bottom = flow.height - MARGIN - FOOT;
    flow.y = MARGIN;
    flow.shapes.width = flow.width;
    flow.shapes.height = flow.height;
    flow.shapes.dash = 5.0;
    return flow;
}

enum mensur_status mensur_pages_count(const struct mensur_document *document,
                                      enum mensur_sheet_paper paper, size_t *pages) {
    struct flow flow = begin(document, paper, SIZE_MAX);
    flow_all(&flow);
    mensur_shapes_clear(&flow.shapes);
    *pages = flow.page + 1;
    return flow.status;
}

/* "page 1 of 2" at the foot. */
static void put_number(struct flow *flow, size_t pages) {
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_END);
    char text[64];
    letters.size = SMALL;
    snprintf(text, sizeof text, "page %zu of %zu", flow->wanted + 1, pages);
    mensur_shape_text(&flow->shapes, letters, flow->right, flow->height - MARGIN, text);
}

enum mensur_status mensur_pages_write(const struct mensur_document *document,
                                      enum mensur_sheet_paper paper, size_t page,
                                      const struct mensur_sink *sink) {
    const struct mensur_svg svg = {.id = "mensur", .title = "A dossier", .unit = ""};
    struct flow flow = begin(document, paper, page);
    struct mensur_out out;
    flow_all(&flow);
    put_number(&flow, flow.page + 1);
    mensur_out_open(&out, sink, false);
    mensur_out_fail(&out, flow.status);
    mensur_svg_write(&out, &svg, &flow.shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&flow.shapes);
    return out.status;
}
