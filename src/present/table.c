/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows and heads of tables of text. */
#include "table.h"

#include "wrap.h"

/* Writes a figure so that it ends at a column, from where the line ends so far; a figure that is
 * too wide takes from the gap before the next. Tells where the line ends now. */
static size_t figure_cell(const struct mensur_table *table, const char *text, size_t at,
                          size_t end) {
    size_t wide = mensur_shown_width(text);
    size_t gap = at + wide < end ? end - at - wide : at > 0 ? 1 : 0;
    if (wide == 0) {
        return at;
    }
    mensur_out_blanks(table->out, gap);
    mensur_out_shown(table->out, text);
    return at + gap + wide;
}

/* Writes a text from a column on, in lines of its own where it is too wide. Tells where the line
 * ends now. */
static size_t text_cell(const struct mensur_table *table, size_t i, const char *text, size_t at,
                        size_t start) {
    size_t wide = mensur_shown_width(text);
    size_t width = table->columns[i].width;
    if (wide == 0) {
        return at;
    }
    if (at < start) {
        mensur_out_blanks(table->out, start - at);
        at = start;
    }
    if (wide < width || (i + 1 == table->count && at + wide <= MENSUR_TEXT_WIDTH)) {
        mensur_out_shown(table->out, text);
        return at + wide;
    }
    struct mensur_wrap wrap;
    mensur_wrap_open(&wrap, table->out, at, start);
    mensur_wrap_say(&wrap, text, NULL);
    mensur_wrap_close(&wrap);
    return 0;
}

void mensur_table_row(const struct mensur_table *table, const char *const *cells) {
    size_t start = 0, at = 0;
    for (size_t i = 0; i < table->count; i++) {
        const struct mensur_table_column *column = &table->columns[i];
        at = column->left ? text_cell(table, i, cells[i], at, start)
                          : figure_cell(table, cells[i], at, start + column->width);
        start += column->width;
    }
    if (at > 0) {
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
    size_t start = 0, at = 0;
    mensur_out_strong(table->out, true);
    for (size_t i = 0; i < table->count; i++) {
        const struct mensur_table_column *column = &table->columns[i];
        const char *head = column->head[line] != NULL ? column->head[line] : "";
        at = column->left ? text_cell(table, i, head, at, start)
                          : figure_cell(table, head, at, start + column->width);
        start += column->width;
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
