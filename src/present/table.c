/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows and heads of tables of text. */
#include "table.h"

#include "wrap.h"

/* Writes a figure so that it ends where its column ends. */
static void figure_cell(const struct mensur_table *table, const char *text, size_t width) {
    size_t wide = mensur_shown_width(text);
    mensur_out_blanks(table->out, wide < width ? width - wide : 0);
    mensur_out_shown(table->out, text);
}

/* Writes a text from where its column starts; on lines of its own where it is too wide. Tells
 * whether it has ended the row's line. */
static bool text_cell(const struct mensur_table *table, size_t i, size_t start, const char *text) {
    size_t wide = mensur_shown_width(text);
    size_t width = table->columns[i].width;
    bool last = i + 1 == table->count;
    if (wide < width || (last && start + wide <= MENSUR_TEXT_WIDTH)) {
        mensur_out_shown(table->out, text);
        mensur_out_blanks(table->out, wide < width ? width - wide : 0);
        return false;
    }
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, table->out, start, start);
    mensur_wrap_say(&wrap, text, NULL);
    mensur_wrap_close(&wrap);
    mensur_out_blanks(table->out, last ? 0 : start + width);
    return last;
}

void mensur_table_row(const struct mensur_table *table, const char *const *cells) {
    size_t start = 0;
    bool ended = false;
    for (size_t i = 0; i < table->count; i++) {
        const struct mensur_table_column *column = &table->columns[i];
        if (column->left) {
            ended = text_cell(table, i, start, cells[i]);
        } else {
            figure_cell(table, cells[i], column->width);
        }
        start += column->width;
    }
    if (!ended) {
        mensur_out_line(table->out);
    }
}

static bool has_head(const struct mensur_table *table, size_t line) {
    for (size_t i = 0; i < table->count; i++) {
        if (table->columns[i].head[line] != NULL) {
            return true;
        }
    }
    return false;
}

static void head_line(const struct mensur_table *table, size_t line) {
    mensur_out_strong(table->out, true);
    for (size_t i = 0; i < table->count; i++) {
        const struct mensur_table_column *column = &table->columns[i];
        const char *head = column->head[line] != NULL ? column->head[line] : "";
        if (column->left) {
            size_t wide = mensur_shown_width(head);
            mensur_out_shown(table->out, head);
            mensur_out_blanks(table->out, wide < column->width ? column->width - wide : 0);
        } else {
            figure_cell(table, head, column->width);
        }
    }
    mensur_out_strong(table->out, false);
    mensur_out_line(table->out);
}

void mensur_table_head(const struct mensur_table *table) {
    for (size_t line = 0; line < 2; line++) {
        if (has_head(table, line)) {
            head_line(table, line);
        }
    }
}
