/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An answer in the form in which people read it, made once for all media: headings, paragraphs,
 * points, tables, drawings and footnotes in their order. document_text.c writes it as text,
 * document_html.c as HTML.
 *
 * The functions that add to a document return no status: the first failure is kept as the
 * document's, and after it nothing is added. A long answer is written and cleared in parts.
 *
 * `format` is a text in which these are replaced by the arguments behind it:
 *   %s  words (const char *)
 *   %n  a name (const char *); in HTML its direction does not affect the text around it
 *   %l  a length in m that is cut or set, %p a force in N: with its shown unit (double)
 *   %r  a ratio as 2 : it (or on the style's base), %b a bare number to four digits (double)
 *   %z  a count (size_t)
 *   %%  a percent sign
 */
#ifndef MENSUR_PRESENT_DOCUMENT_H
#define MENSUR_PRESENT_DOCUMENT_H

#include "figures.h"
#include "shown.h"
#include "sink.h"

enum mensur_token_kind {
    /* Runs of text of the token before them that is none. */
    MENSUR_TOKEN_WORDS,
    MENSUR_TOKEN_NAME,
    /* What begins something; `number` is the level of a heading, by how much the lines of a
     * paragraph are indented behind its first, the kind of a note or a table, the index of a
     * column or a drawing. */
    MENSUR_TOKEN_GAP,
    MENSUR_TOKEN_HEADING,
    MENSUR_TOKEN_PARAGRAPH,
    MENSUR_TOKEN_LINE,
    MENSUR_TOKEN_POINT,
    MENSUR_TOKEN_FOOTNOTE,
    MENSUR_TOKEN_TABLE,
    MENSUR_TOKEN_COLUMN,
    MENSUR_TOKEN_ROW,
    MENSUR_TOKEN_CELL,
    MENSUR_TOKEN_DRAWING
};

struct mensur_token {
    enum mensur_token_kind kind;
    size_t number;
    const char *text; /* of a run or a cell */
};

/* What stands below the answers; notes of one kind stand together. */
enum mensur_footnote_kind {
    MENSUR_FOOTNOTE_ASSUMED,
    MENSUR_FOOTNOTE_WARNING,
    MENSUR_FOOTNOTE_WARNINGS_LEFT, /* how many more there are */
    MENSUR_FOOTNOTE_CAUTION,
    MENSUR_FOOTNOTE_SOURCE,
    MENSUR_FOOTNOTE_ORIGIN
};

/* The word before footnotes of a kind, "Warning: "; "" where there is none. */
const char *mensur_footnote_word(enum mensur_footnote_kind kind);

/* Levels of headings. */
enum { MENSUR_HEADING_TITLE, MENSUR_HEADING_SECTION, MENSUR_HEADING_PART, MENSUR_HEADING_ABOUT };

enum mensur_table_cells {
    MENSUR_CELLS_FIGURES, /* ranged right */
    MENSUR_CELLS_WORDS,   /* ranged left */
    MENSUR_CELLS_NAMES,   /* the same */
    MENSUR_CELLS_MARKS    /* the same; explained below the table */
};

enum mensur_table_kind {
    MENSUR_TABLE,
    MENSUR_TABLE_BARE,   /* in text without a head */
    MENSUR_TABLE_WRITTEN /* its head was written already */
};

/* A column of a table. The first one holds what its row is about. */
struct mensur_table_column {
    const char *label; /* '\n' parts the two lines of a text's head; of marks: in HTML alone, and
                          with "" they stand behind the cell before them */
    const char *unit;  /* or what else stands below the label in text; NULL: nothing */
    size_t width;      /* in text, with the gap to its neighbour: before a figure, behind words */
    enum mensur_table_cells cells;
    size_t gap;    /* blanks before it, in text, part of the width */
    size_t number; /* not 0: the label is a name, which in text, where it is too wide for its
                      column, stands above the table behind this number */
    const struct mensur_figure *figure; /* its cells are of records; NULL: they are texts */
    bool finer;                         /* to one decimal more than the figure's kind */
};

struct mensur_document {
    struct mensur_style style;
    bool narrow;  /* 80 columns: what would be wider is told in blocks */
    bool explain; /* the words of a table are explained; once is enough */
    bool spread;  /* how sure the figures are is told below each answer */
    enum mensur_status status;
    struct mensur_token *tokens;
    size_t token_count, token_room;
    struct mensur_table_column *columns;
    size_t column_count, column_room;
    struct mensur_illustration *drawings;
    size_t drawing_count, drawing_room;
    struct mensur_document_texts *texts;       /* the block that is being filled */
    size_t first_column;                       /* of the table that is told */
    size_t cell;                               /* column of the cell that comes next */
    struct mensur_document_texts *before_rows; /* texts, when the first row of a table was told */
    size_t before_rows_used;
};

void mensur_document_open(struct mensur_document *document, const struct mensur_style *style,
                          bool narrow);
/* Forgets what was told, and keeps its room. */
void mensur_document_clear(struct mensur_document *document);
/* Forgets the rows of the table that was told since the document was opened or cleared, and nothing
 * before it; its head being written, more rows may follow. */
void mensur_document_clear_rows(struct mensur_document *document);
void mensur_document_free(struct mensur_document *document);
void mensur_document_fail(struct mensur_document *document, enum mensur_status status);

/* Adds to what was begun last. */
void mensur_say(struct mensur_document *document, const char *format, ...);
/* Adds what facts say, the first sentence of it, without a full stop. */
void mensur_say_facts(struct mensur_document *document, const struct mensur_facts *facts);
/* Adds all that facts say, parted by commas. */
void mensur_say_list(struct mensur_document *document, const struct mensur_facts *facts);
bool mensur_sentence_ends(const char *sentence);

/* An empty line in text. */
void mensur_gap(struct mensur_document *document);
void mensur_heading(struct mensur_document *document, size_t level, const char *format, ...);
/* In text its first line begins at the margin, the others are indented. */
void mensur_paragraph(struct mensur_document *document, size_t indent, const char *format, ...);
/* In text a new line of the paragraph, which is indented by 4, those behind it by 6. */
void mensur_line(struct mensur_document *document);
/* One of a list. */
void mensur_point(struct mensur_document *document, const char *format, ...);
/* A list of what facts say. */
void mensur_points(struct mensur_document *document, const struct mensur_facts *facts);
void mensur_footnote(struct mensur_document *document, enum mensur_footnote_kind kind,
                     const char *format, ...);
/* Footnotes of what facts say, one each. */
void mensur_footnotes(struct mensur_document *document, enum mensur_footnote_kind kind,
                      const struct mensur_facts *facts);
void mensur_drawing(struct mensur_document *document, struct mensur_illustration drawing);

/* A table; its columns follow, and its rows. The caption is for HTML. */
void mensur_table(struct mensur_document *document, enum mensur_table_kind kind,
                  const char *caption, ...);
void mensur_column(struct mensur_document *document, struct mensur_table_column column);
/* The usual ones; and one with a gap before it, so many blanks of its width. */
void mensur_column_of(struct mensur_document *document, enum mensur_table_cells cells,
                      const char *label, const char *unit, size_t width);
void mensur_column_behind(struct mensur_document *document, enum mensur_table_cells cells,
                          const char *label, size_t gap, size_t width);
void mensur_row(struct mensur_document *document);
void mensur_cell(struct mensur_document *document, const char *text);
/* So many cells, each a const char *. */
void mensur_cells(struct mensur_document *document, size_t count, ...);
/* The name of a string, or that there is none. */
const char *mensur_told_name(const char *string);
/* So many cells with the figures of a record, as their columns say; a text that is not there is a
 * string that the instrument lacks. */
void mensur_cells_of(struct mensur_document *document, size_t count, const void *record);
/* A cell with a figure of a kind in its shown unit. */
void mensur_cell_figure(struct mensur_document *document, enum mensur_kind kind, double value);

/* Makes text of it. */
void mensur_document_text(const struct mensur_document *document, struct mensur_out *out);

/* HTML, written in one or more parts. */
struct mensur_html {
    struct mensur_out *out;
    size_t level;            /* h1 to h6 of a MENSUR_HEADING_SECTION */
    size_t note_level;       /* of the headings of notes */
    const char *id;          /* begins every id; letters and digits, fewer than 40 */
    size_t tables, drawings; /* written so far */
    const char *open;        /* element that is not ended yet, "" none */
    const char *notes;       /* heading of the notes that were written last */
};

/* Drawings go straight to the sink of the output. */
void mensur_html_open(struct mensur_html *html, struct mensur_out *out, const char *id,
                      size_t level);
void mensur_document_html(const struct mensur_document *document, struct mensur_html *html);
/* Ends what is open. */
void mensur_html_close(struct mensur_html *html);

#endif
