/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as rows of CSV: an instrument, string, place, step or file each. */
#include "csv_cells.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"
#include "telling.h"

/* Room for a number in a new cell; the comma before it, which the first has not, is written. */
static inline char *cell_room(struct mensur_csv *row) {
    char *at = mensur_out_room(row->out, MENSUR_NUMBER_ROOM + 1);
    size_t comma = row->begun ? 1 : 0;
    *at = ',';
    mensur_out_wrote(row->out, comma);
    row->begun = true;
    return at + comma;
}

static inline void begin_cell(struct mensur_csv *row) {
    (void)cell_room(row);
}

void mensur_csv_word(struct mensur_csv *row, const char *word) {
    begin_cell(row);
    mensur_out_text(row->out, word);
}

/* A spreadsheet computes what starts so; an apostrophe before it makes it a text. */
static const char *guard(const char *text) {
    char first = *text;
    bool formula = first == '=' || first == '+' || first == '-' || first == '@' || first == '\t' ||
                   first == '\r';
    return formula ? "'" : "";
}

void mensur_csv_quoted(struct mensur_csv *row, const char *before, const char *text) {
    size_t plain = strcspn(text, ",\"\r\n");
    bool quoted = text[plain] != '\0';
    begin_cell(row);
    if (quoted) {
        mensur_out_bytes(row->out, "\"", 1);
    }
    mensur_out_text(row->out, before);
    for (const char *quote; quoted && (quote = strchr(text, '"')) != NULL; text = quote + 1) {
        mensur_out_bytes(row->out, text, (size_t)(quote - text));
        mensur_out_bytes(row->out, "\"\"", 2);
    }
    mensur_out_bytes(row->out, text, quoted ? strlen(text) : plain);
    if (quoted) {
        mensur_out_bytes(row->out, "\"", 1);
    }
}

void mensur_csv_text(struct mensur_csv *row, const char *key, const char *text) {
    if (row->head) {
        mensur_csv_word(row, key);
    } else if (text == NULL) {
        begin_cell(row);
    } else {
        mensur_csv_quoted(row, guard(text), text);
    }
}

/* Written where it is to stand: of these cells there are most. */
static inline void number_cell(struct mensur_csv *row, enum mensur_kind kind, double si) {
    double value = mensur_from_si(kind, si);
    char *room = cell_room(row);
    if (isfinite(value)) {
        mensur_out_wrote(row->out, kind == MENSUR_LENGTH
                                       ? mensur_number_print(value, 4, room)
                                       : mensur_number_print_significant(value, 6, room));
    }
}

void mensur_csv_number(struct mensur_csv *row, const char *key, enum mensur_kind kind, double si) {
    if (row->head) {
        mensur_csv_word(row, key);
    } else {
        number_cell(row, kind, si);
    }
}

void mensur_csv_known(struct mensur_csv *row, const char *key, enum mensur_known known) {
    if (row->head) {
        mensur_csv_word(row, key);
        return;
    }
    char *room = cell_room(row);
    /* Bytes without an end are meant. NOLINTBEGIN(bugprone-not-null-terminated-result) */
    if (known == MENSUR_YES) {
        memcpy(room, "true", 4);
        mensur_out_wrote(row->out, 4);
    } else if (known == MENSUR_NO) {
        memcpy(room, "false", 5);
        mensur_out_wrote(row->out, 5);
    }
    /* NOLINTEND(bugprone-not-null-terminated-result) */
}

void mensur_csv_count(struct mensur_csv *row, const char *key, long count) {
    char digits[32];
    snprintf(digits, sizeof(digits), "%ld", count);
    mensur_csv_word(row, row->head ? key : digits);
}

/* The cell of a figure; of a difference only a number. */
static inline void figure_cell(struct mensur_csv *row, const struct mensur_figure *figure,
                               const void *record, bool difference) {
    if (figure->type == MENSUR_FIGURE_NUMBER && !row->head) {
        number_cell(row, figure->kind, mensur_figure_value(figure, record));
    } else if (row->head) {
        mensur_csv_word(row, figure->key);
    } else if (difference) {
        mensur_csv_word(row, "");
    } else if (figure->type == MENSUR_FIGURE_KNOWN) {
        mensur_csv_known(row, figure->key, mensur_figure_known(figure, record));
    } else {
        mensur_csv_text(row, figure->key, mensur_figure_text(figure, record));
    }
}

void mensur_csv_figures(struct mensur_csv *row, enum mensur_scope scope, const void *record,
                        bool difference) {
    struct mensur_figures all = mensur_figures(scope);
    for (size_t i = 0; i < all.count; i++) {
        if ((all.items[i].flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            figure_cell(row, &all.items[i], record, difference);
        }
    }
}

void mensur_csv_end(struct mensur_csv *row) {
    mensur_out_line(row->out);
    row->begun = false;
}

void mensur_csv_rows(struct mensur_presenter *presenter, mensur_csv_row_of *write,
                     const void *answer, size_t count) {
    struct mensur_csv row = {
        .out = &presenter->out, .heading = presenter->heading, .owners = presenter->owners};
    if (presenter->answers == 0) {
        row.head = true;
        write(&row, answer, 0);
        mensur_csv_end(&row);
        row.head = false;
    }
    for (size_t i = 0; i < count; i++) {
        write(&row, answer, i);
        mensur_csv_end(&row);
    }
}

static bool is_key(const char *word) {
    struct mensur_figures all = mensur_figures(MENSUR_SCOPE_INSTRUMENT);
    bool key = strcmp(word, "instrument") == 0;
    for (size_t i = 0; i < all.count && !key; i++) {
        key = strcmp(word, all.items[i].key) == 0;
    }
    return key;
}

/* A head of the owner's as it is written, "own_" before it where a key is the same. */
static void owners_head(struct mensur_csv *row, const char *head) {
    mensur_csv_quoted(row, is_key(head) ? "own_" : guard(head), head);
}

/* A cell of the owner's; a number is none that a spreadsheet computes. */
static void owners_cell(struct mensur_csv *row, const char *text) {
    size_t length = strlen(text), used = 0;
    double value;
    if (mensur_number_read(text, length, false, &used, &value) == MENSUR_OK && used == length) {
        mensur_csv_word(row, text);
    } else {
        mensur_csv_quoted(row, guard(text), text);
    }
}

void mensur_csv_owners(struct mensur_csv *row) {
    const struct mensur_texts *heads = row->heading->owners;
    const char *cell = row->owners;
    for (size_t i = 0; heads != NULL && i < heads->count; i++) {
        if (row->head) {
            owners_head(row, heads->items[i]);
        } else {
            owners_cell(row, cell != NULL ? cell : "");
            cell = cell != NULL ? cell + strlen(cell) + 1 : NULL;
        }
    }
}

/* An instrument of which a view tells; the parts that CSV has are those of a flag. */
struct viewed {
    const struct mensur_view *view;
    const struct mensur_profile *profile;
    unsigned in;
};

/* The owner's columns stand behind an instrument in one row. */
static void profile_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct viewed *viewed = answer;
    const struct mensur_view_part *part = viewed->view->told;
    bool one_row = true;
    mensur_csv_text(row, "instrument", viewed->profile->instrument);
    for (size_t k = 0; k < MENSUR_VIEW_PARTS && part[k].in != 0; k++) {
        if ((part[k].in & viewed->in) == 0) {
            continue;
        }
        const struct mensur_records records = mensur_records_of(viewed->profile, part[k].scope);
        size_t at = part[k].list != NULL && !row->head ? i * records.size : 0;
        const void *record = at == 0 ? records.items : (const char *)records.items + at;
        one_row = one_row && part[k].list == NULL;
        if (part[k].keys == NULL) {
            mensur_csv_figures(row, part[k].scope, record, false);
        }
        for (size_t n = 0; part[k].keys != NULL && part[k].keys[n] != NULL; n++) {
            figure_cell(row, mensur_figure_named(part[k].scope, part[k].keys[n]), record, false);
        }
    }
    if (one_row) {
        mensur_csv_owners(row);
    }
}

/* How many rows: one for each item of the list that is told. */
static size_t rows_of(const struct viewed *viewed) {
    const struct mensur_view_part *part = viewed->view->told;
    for (size_t k = 0; k < MENSUR_VIEW_PARTS && part[k].in != 0; k++) {
        if ((part[k].in & viewed->in) != 0 && part[k].list != NULL) {
            return mensur_records_of(viewed->profile, part[k].scope).count;
        }
    }
    return 1;
}

static bool has_part(const struct mensur_view *view, unsigned in) {
    for (size_t k = 0; k < MENSUR_VIEW_PARTS && view->told[k].in != 0; k++) {
        if ((view->told[k].in & in) != 0) {
            return true;
        }
    }
    return false;
}

static void csv_profile(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct viewed viewed = {presenter->heading->view, profile, MENSUR_VIEW_CSV};
    if (presenter->style.true_places && has_part(viewed.view, MENSUR_VIEW_CSV_TRUE)) {
        viewed.in = MENSUR_VIEW_CSV_TRUE;
    }
    mensur_csv_rows(presenter, profile_row, &viewed, rows_of(&viewed));
}

static void csv_answer(struct mensur_presenter *presenter, const struct mensur_answer_kind *kind,
                       const void *record) {
    kind->csv(presenter, record);
}

static void csv_open(struct mensur_presenter *presenter) {
    (void)presenter; /* the head waits for the first answer, which settles its columns */
}

/* A file of instruments may be without a row; its answer still has a head. */
static void csv_close(struct mensur_presenter *presenter) {
    static const struct mensur_profile none;
    const struct viewed viewed = {presenter->heading->view, &none, MENSUR_VIEW_CSV};
    if (presenter->answers == 0 && viewed.view != NULL) {
        mensur_csv_rows(presenter, profile_row, &viewed, 0);
    }
}

const struct mensur_writer mensur_csv_writer = {csv_open, csv_profile, csv_answer, csv_close, NULL};
