/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Writes a document as text of at most 80 columns. Running text is broken at blanks, and inside a
 * word only where the word alone is wider; tables have columns of fixed width, and a name that is
 * too wide for its column gets lines of its own.
 */
#include <string.h>

#include "document.h"
#include "letters.h"

/* Indents of a MENSUR_TOKEN_LINE: of its first line, and of those it is broken into. */
#define LINE_INDENT 4
#define LINE_REST 6

/* Running text. */
struct wrap {
    struct mensur_out *out;
    size_t column; /* where the line ends so far */
    size_t indent; /* of the lines that follow, less than 72 */
    bool started;  /* the line holds a word of this text */
    bool glued;    /* the word goes on with the one before */
    size_t bytes;  /* of the word that is not yet written */
    size_t width;  /* its columns */
    char word[512];
};

static void break_line(struct wrap *wrap) {
    mensur_out_line(wrap->out);
    mensur_out_blanks(wrap->out, wrap->indent);
    wrap->column = wrap->indent;
    wrap->started = false;
}

static void write_word(struct wrap *wrap) {
    if (wrap->bytes == 0) {
        return;
    }
    size_t gap = wrap->started && !wrap->glued ? 1 : 0;
    if (wrap->column + gap + wrap->width > MENSUR_TEXT_WIDTH) {
        break_line(wrap);
        gap = 0;
    }
    mensur_out_blanks(wrap->out, gap);
    mensur_out_bytes(wrap->out, wrap->word, wrap->bytes);
    wrap->column += gap + wrap->width;
    wrap->started = true;
    wrap->glued = false;
    wrap->bytes = 0;
    wrap->width = 0;
}

static void add_letter(struct wrap *wrap, const struct mensur_letter *letter) {
    bool too_wide = wrap->width + letter->width > MENSUR_TEXT_WIDTH - wrap->indent;
    if (too_wide || wrap->bytes + letter->length > sizeof(wrap->word)) {
        write_word(wrap);
        wrap->glued = true;
    }
    memcpy(wrap->word + wrap->bytes, letter->bytes, letter->length);
    wrap->bytes += letter->length;
    wrap->width += letter->width;
}

static void say(struct wrap *wrap, const char *text) {
    while (*text != '\0') {
        struct mensur_letter letter = mensur_letter_at(text);
        if (letter.breaks) {
            write_word(wrap);
            wrap->glued = false;
        } else {
            add_letter(wrap, &letter);
        }
        text += letter.used;
    }
}

static bool is_run(const struct mensur_document *document, size_t i) {
    return i < document->token_count && document->tokens[i].kind <= MENSUR_TOKEN_NAME;
}

static bool is_note(const struct mensur_document *document, size_t i,
                    enum mensur_footnote_kind kind) {
    return i < document->token_count && document->tokens[i].kind == MENSUR_TOKEN_FOOTNOTE &&
           document->tokens[i].number == kind;
}

/* Says the runs from token i on. Tells which token follows them. */
static size_t say_runs(const struct mensur_document *document, size_t i, struct wrap *wrap) {
    for (; is_run(document, i); i++) {
        say(wrap, document->tokens[i].text);
    }
    return i;
}

/* Runs from where the line ends so far, the lines that follow indented. Ends the line. */
static size_t write_runs(const struct mensur_document *document, size_t i, struct mensur_out *out,
                         size_t column, size_t indent) {
    struct wrap wrap = {.out = out, .column = column, .indent = indent};
    i = say_runs(document, i, &wrap);
    write_word(&wrap);
    mensur_out_line(out);
    return i;
}

static size_t write_heading(const struct mensur_document *document, size_t i,
                            struct mensur_out *out) {
    struct wrap wrap = {.out = out};
    mensur_out_line(out);
    mensur_out_strong(out, true);
    i = say_runs(document, i, &wrap);
    write_word(&wrap);
    mensur_out_strong(out, false);
    mensur_out_line(out);
    return i;
}

/* All sources in one paragraph. */
static size_t write_sources(const struct mensur_document *document, size_t i,
                            struct mensur_out *out) {
    struct wrap wrap = {.out = out, .indent = 2};
    say(&wrap, mensur_footnote_word(MENSUR_FOOTNOTE_SOURCE));
    for (bool last = false; !last;) {
        i = say_runs(document, i, &wrap);
        last = !is_note(document, i, MENSUR_FOOTNOTE_SOURCE);
        bool ended = mensur_sentence_ends(document->tokens[i - 1].text);
        say(&wrap, ended ? " " : last ? "." : "; ");
        i += last ? 0 : 1;
    }
    write_word(&wrap);
    mensur_out_line(out);
    return i;
}

/* A blank line before the first note, in a full answer before each kind of notes. */
static size_t write_note(const struct mensur_document *document, size_t i, size_t before,
                         struct mensur_out *out) {
    enum mensur_footnote_kind kind = (enum mensur_footnote_kind)document->tokens[i].number;
    bool first = document->style.full || kind == MENSUR_FOOTNOTE_SOURCE ? before != kind
                                                                        : before == SIZE_MAX;
    if (first && kind != MENSUR_FOOTNOTE_WARNINGS_LEFT) {
        mensur_out_line(out);
    }
    if (kind == MENSUR_FOOTNOTE_SOURCE) {
        return write_sources(document, i + 1, out);
    }
    struct wrap wrap = {.out = out, .indent = kind == MENSUR_FOOTNOTE_ORIGIN ? 0 : 2};
    say(&wrap, mensur_footnote_word(kind));
    i = say_runs(document, i + 1, &wrap);
    write_word(&wrap);
    mensur_out_line(out);
    return i;
}

/* The columns of the table that is being written. */
struct table {
    struct mensur_out *out;
    const struct mensur_table_column *columns;
    size_t count;
};

/* Writes a figure so that it ends at a column, from where the line ends so far; a figure that is
 * too wide takes from the gap before the next. Tells where the line ends now. */
static size_t figure_cell(const struct table *table, const char *text, size_t at, size_t end) {
    size_t wide = mensur_shown_width(text);
    size_t gap = at + wide < end ? end - at - wide : at > 0 ? 1 : 0;
    if (wide == 0) {
        return at;
    }
    mensur_out_blanks(table->out, gap);
    mensur_out_shown(table->out, text);
    return at + gap + wide;
}

/* Writes words from a column on, in lines of their own where they are too wide. Tells where the
 * line ends now. */
static size_t words_cell(const struct table *table, size_t i, const char *text, size_t at,
                         size_t start) {
    size_t wide = mensur_shown_width(text);
    size_t width = table->columns[i].width - table->columns[i].gap;
    start += table->columns[i].gap;
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
    struct wrap wrap = {.out = table->out, .column = at, .indent = start};
    say(&wrap, text);
    write_word(&wrap);
    mensur_out_line(table->out);
    return 0;
}

static size_t write_cell(const struct table *table, size_t i, const char *text, size_t at,
                         size_t start) {
    return table->columns[i].cells != MENSUR_CELLS_FIGURES
               ? words_cell(table, i, text, at, start)
               : figure_cell(table, text, at, start + table->columns[i].width);
}

static size_t write_row(const struct mensur_document *document, size_t i,
                        const struct table *table) {
    size_t start = 0, at = 0;
    for (size_t cell = 0; cell < table->count && i < document->token_count &&
                          document->tokens[i].kind == MENSUR_TOKEN_CELL;
         cell++, i++) {
        at = write_cell(table, cell, document->tokens[i].text, at, start);
        start += table->columns[cell].width;
    }
    if (at > 0) {
        mensur_out_line(table->out);
    }
    return i;
}

/* A label that is a name too wide for its column. */
static bool is_numbered(const struct mensur_table_column *column) {
    return column->number > 0 && (mensur_shown_width(column->label) >= column->width ||
                                  strlen(column->label) >= sizeof(struct mensur_shown));
}

static struct mensur_shown number_of(const struct mensur_table_column *column) {
    struct mensur_shown shown = {"("};
    strcat(shown.text, mensur_show_count(column->number).text);
    strcat(shown.text, ")");
    return shown;
}

/* The second line of a column's head, which words have alone; NULL where it has one line. */
static const char *second_line(const struct mensur_table_column *column) {
    const char *parted = strchr(column->label, '\n');
    return parted != NULL ? parted + 1 : column->unit;
}

/* What stands in a line of a column's head. */
static struct mensur_shown head_cell(const struct mensur_table_column *column, size_t line,
                                     size_t lines) {
    struct mensur_shown shown = {""};
    const char *second = second_line(column);
    bool words = column->cells != MENSUR_CELLS_FIGURES && second == NULL;
    if (column->cells == MENSUR_CELLS_MARKS || (words && line + 1 < lines)) {
        return shown;
    }
    if (is_numbered(column)) {
        return line == 0 ? number_of(column) : shown;
    }
    const char *text = line == 0 || words ? column->label : second != NULL ? second : "";
    size_t length = strcspn(text, "\n");
    if (length < sizeof(shown.text)) {
        memcpy(shown.text, text, length);
        shown.text[length] = '\0';
    }
    return shown;
}

/* Names that do not fit, above the table; then one or two lines of head. */
static void write_head(const struct table *table) {
    size_t lines = 1;
    for (size_t i = 0; i < table->count; i++) {
        const struct mensur_table_column *column = &table->columns[i];
        lines = second_line(column) != NULL ? 2 : lines;
        if (is_numbered(column)) {
            struct mensur_shown number = number_of(column);
            struct wrap wrap = {
                .out = table->out, .column = strlen(number.text) + 1, .indent = LINE_INDENT};
            mensur_out_text(table->out, number.text);
            mensur_out_blanks(table->out, 1);
            say(&wrap, column->label);
            write_word(&wrap);
            mensur_out_line(table->out);
        }
    }
    for (size_t line = 0; line < lines; line++) {
        size_t start = 0, at = 0;
        mensur_out_strong(table->out, true);
        for (size_t i = 0; i < table->count; i++) {
            at = write_cell(table, i, head_cell(&table->columns[i], line, lines).text, at, start);
            start += table->columns[i].width;
        }
        mensur_out_strong(table->out, false);
        mensur_out_line(table->out);
    }
}

/* Writes the head of the table that begins at token i. Tells which token follows its columns. */
static size_t begin_table(const struct mensur_document *document, size_t i, struct table *table) {
    size_t kind = document->tokens[i++].number;
    table->count = 0;
    while (is_run(document, i)) {
        i++; /* the caption */
    }
    for (; i < document->token_count && document->tokens[i].kind == MENSUR_TOKEN_COLUMN; i++) {
        if (table->count++ == 0) {
            table->columns = &document->columns[document->tokens[i].number];
        }
    }
    if (kind == MENSUR_TABLE) {
        write_head(table);
    }
    return i;
}

void mensur_document_text(const struct mensur_document *document, struct mensur_out *out) {
    struct table table = {.out = out};
    size_t notes = SIZE_MAX; /* kind of the last one */
    mensur_out_fail(out, document->status);
    for (size_t i = 0; i < document->token_count;) {
        const struct mensur_token *token = &document->tokens[i];
        switch (token->kind) {
        case MENSUR_TOKEN_GAP: /* one that ends the document parts nothing */
            if (++i < document->token_count) {
                mensur_out_line(out);
            }
            break;
        case MENSUR_TOKEN_HEADING:
            i = write_heading(document, i + 1, out);
            break;
        case MENSUR_TOKEN_PARAGRAPH:
            i = write_runs(document, i + 1, out, 0, token->number);
            break;
        case MENSUR_TOKEN_LINE:
            mensur_out_blanks(out, LINE_INDENT);
            i = write_runs(document, i + 1, out, LINE_INDENT, LINE_REST);
            break;
        case MENSUR_TOKEN_POINT:
            mensur_out_text(out, "- ");
            i = write_runs(document, i + 1, out, 2, 2);
            break;
        case MENSUR_TOKEN_FOOTNOTE:
            i = write_note(document, i, notes, out);
            notes = token->number;
            break;
        case MENSUR_TOKEN_TABLE:
            i = begin_table(document, i, &table);
            break;
        case MENSUR_TOKEN_ROW:
            i = write_row(document, i + 1, &table);
            break;
        default: /* drawings; what stands where it means nothing */
            i++;
        }
    }
}
