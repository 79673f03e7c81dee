/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells and rows of CSV, and what keeps a name from becoming a formula. */
#include "csv_cells.h"

#include <math.h>
#include <string.h>

#include "number.h"

static void begin_cell(struct mensur_csv *row) {
    if (row->begun) {
        mensur_out_bytes(row->out, ",", 1);
    }
    row->begun = true;
}

void mensur_csv_word(struct mensur_csv *row, const char *word) {
    begin_cell(row);
    mensur_out_text(row->out, word);
}

/* A spreadsheet computes what starts so; an apostrophe before it makes it a text. */
static bool is_formula(char first) {
    return first == '=' || first == '+' || first == '-' || first == '@' || first == '\t' ||
           first == '\r';
}

static bool wants_quotes(const char *text, size_t length) {
    bool wants = false;
    for (size_t i = 0; i < length; i++) {
        wants |= text[i] == ',' || text[i] == '"' || text[i] == '\r' || text[i] == '\n';
    }
    return wants;
}

static void quoted_text(struct mensur_csv *row, const char *text) {
    mensur_out_text(row->out, is_formula(*text) ? "\"'" : "\"");
    for (const char *quote; (quote = strchr(text, '"')) != NULL; text = quote + 1) {
        mensur_out_bytes(row->out, text, (size_t)(quote - text));
        mensur_out_text(row->out, "\"\"");
    }
    mensur_out_text(row->out, text);
    mensur_out_text(row->out, "\"");
}

void mensur_csv_text(struct mensur_csv *row, const char *text) {
    begin_cell(row);
    if (text == NULL) {
        return;
    }
    size_t length = strlen(text);
    if (wants_quotes(text, length)) {
        quoted_text(row, text);
        return;
    }
    if (is_formula(*text)) {
        mensur_out_bytes(row->out, "'", 1);
    }
    mensur_out_bytes(row->out, text, length);
}

/* Written where it is to stand: of these cells there are most. */
void mensur_csv_number(struct mensur_csv *row, enum mensur_kind kind, double si) {
    double value = mensur_from_si(kind, si);
    char *room = mensur_out_room(row->out, MENSUR_NUMBER_ROOM + 1), *at = room;
    if (row->begun) {
        *at++ = ',';
    }
    row->begun = true;
    if (isfinite(value)) {
        at += kind == MENSUR_LENGTH ? mensur_number_print(value, 4, at)
                                    : mensur_number_print_significant(value, 6, at);
    }
    mensur_out_wrote(row->out, (size_t)(at - room));
}

void mensur_csv_known(struct mensur_csv *row, enum mensur_known known) {
    mensur_csv_word(row, known == MENSUR_YES ? "true" : known == MENSUR_NO ? "false" : "");
}

void mensur_csv_keys(struct mensur_csv *row, enum mensur_scope scope) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        if ((figures.items[i].flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            mensur_csv_word(row, figures.items[i].key);
        }
    }
}

void mensur_csv_cells(struct mensur_csv *row, enum mensur_scope scope, const void *record,
                      bool difference) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) == 0) {
            continue;
        }
        if (figure->type == MENSUR_FIGURE_NUMBER) {
            mensur_csv_number(row, figure->kind, mensur_figure_value(figure, record));
        } else if (difference) {
            mensur_csv_word(row, "");
        } else if (figure->type == MENSUR_FIGURE_KNOWN) {
            mensur_csv_known(row, mensur_figure_known(figure, record));
        } else {
            mensur_csv_text(row, mensur_figure_text(figure, record));
        }
    }
}

void mensur_csv_end(struct mensur_csv *row) {
    mensur_out_line(row->out);
    row->begun = false;
}
