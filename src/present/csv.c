/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as rows of CSV: an instrument, string, place, step or file each. */
#include "csv_cells.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"
#include "tell.h"

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

/* A key of the head, or a word of our own. */
static void word_cell(struct mensur_csv *row, const char *word) {
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

/* Text from elsewhere; `before` is a word of our own that stands before it, or empty. */
static void text_cell(struct mensur_csv *row, const char *before, const char *text) {
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
        word_cell(row, key);
    } else if (text == NULL) {
        begin_cell(row);
    } else {
        text_cell(row, guard(text), text);
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
        word_cell(row, key);
    } else {
        number_cell(row, kind, si);
    }
}

static void known_cell(struct mensur_csv *row, const char *key, enum mensur_known known) {
    if (row->head) {
        word_cell(row, key);
        return;
    }
    char *room = cell_room(row);
    if (known == MENSUR_YES) {
        memcpy(room, "true", 4);
        mensur_out_wrote(row->out, 4);
    } else if (known == MENSUR_NO) {
        memcpy(room, "false", 5);
        mensur_out_wrote(row->out, 5);
    }
}

static void count_cell(struct mensur_csv *row, const char *key, long count) {
    char digits[32];
    snprintf(digits, sizeof(digits), "%ld", count);
    word_cell(row, row->head ? key : digits);
}

/* The cell of a figure; of a difference only a number. */
static inline void figure_cell(struct mensur_csv *row, const struct mensur_figure *figure,
                               const void *record, bool difference) {
    if (figure->type == MENSUR_FIGURE_NUMBER && !row->head) {
        number_cell(row, figure->kind, mensur_figure_value(figure, record));
    } else if (row->head) {
        word_cell(row, figure->key);
    } else if (difference) {
        word_cell(row, "");
    } else if (figure->type == MENSUR_FIGURE_KNOWN) {
        known_cell(row, figure->key, mensur_figure_known(figure, record));
    } else {
        mensur_csv_text(row, figure->key, mensur_figure_text(figure, record));
    }
}

/* The published figures of a record; of a difference only its numbers. */
static void cells(struct mensur_csv *row, enum mensur_scope scope, const void *record,
                  bool difference) {
    struct mensur_figures all = mensur_figures(scope);
    for (size_t i = 0; i < all.count; i++) {
        if ((all.items[i].flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            figure_cell(row, &all.items[i], record, difference);
        }
    }
}

static void figures(struct mensur_csv *row, enum mensur_scope scope, const void *record) {
    cells(row, scope, record, false);
}

void mensur_csv_end(struct mensur_csv *row) {
    mensur_out_line(row->out);
    row->begun = false;
}

/* Writes the cells of a row of an answer. Of the head it writes the keys, and the answer may hold
 * no row. */
typedef void row_of(struct mensur_csv *row, const void *answer, size_t i);

/* Writes the rows of an answer, and the head above the first. */
static void write_rows(struct mensur_presenter *presenter, row_of *write, const void *answer,
                       size_t count) {
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
    text_cell(row, is_key(head) ? "own_" : guard(head), head);
}

/* A cell of the owner's; a number is none that a spreadsheet computes. */
static void owners_cell(struct mensur_csv *row, const char *text) {
    size_t length = strlen(text), used = 0;
    double value;
    if (mensur_number_read(text, length, false, &used, &value) == MENSUR_OK && used == length) {
        word_cell(row, text);
    } else {
        text_cell(row, guard(text), text);
    }
}

/* The columns of the owner's, behind those of the answer. */
static void owners_cells(struct mensur_csv *row) {
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
            figures(row, part[k].scope, record);
        }
        for (size_t n = 0; part[k].keys != NULL && part[k].keys[n] != NULL; n++) {
            figure_cell(row, mensur_figure_named(part[k].scope, part[k].keys[n]), record, false);
        }
    }
    if (one_row) {
        owners_cells(row);
    }
}

/* The instruments, and behind them the differences. */
static void compared_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_comparison *comparison = answer;
    bool difference = i >= comparison->count;
    const struct mensur_profile *profile =
        difference ? &comparison->differences[i - comparison->count] : &comparison->instruments[i];
    mensur_csv_text(row, "row", difference ? "difference" : "instrument");
    mensur_csv_text(row, "instrument", profile->instrument);
    cells(row, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    cells(row, MENSUR_SCOPE_TOTAL, profile, difference);
    cells(row, MENSUR_SCOPE_COMPARED, profile, difference);
}

static void step_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_step none;
    const struct mensur_decision *decision = answer;
    const struct mensur_step *step = row->head ? &none : &decision->steps[i];
    mensur_csv_text(row, "instrument", decision->present.instrument);
    mensur_csv_number(row, decision->for_stop ? "stop_mm" : "neck_mm", MENSUR_LENGTH, step->place);
    figures(row, MENSUR_SCOPE_STEP, step);
    for (size_t j = 0; j < decision->present.string_count; j++) {
        char key[32];
        snprintf(key, sizeof(key), "tension_%s_N", decision->present.strings[j].note);
        mensur_csv_number(row, key, MENSUR_FORCE, step->tension[j]);
    }
    figures(row, MENSUR_SCOPE_STEP_TOTAL, step);
    known_cell(row, "present", step->present ? MENSUR_YES : MENSUR_NO);
    known_cell(row, "recommended", step->recommended ? MENSUR_YES : MENSUR_NO);
}

/* The totals of the present strings, "present_" before their keys. */
static void present_totals(struct mensur_csv *row, const struct mensur_profile *present) {
    struct mensur_figures all = mensur_figures(MENSUR_SCOPE_TOTAL);
    for (size_t i = 0; i < all.count; i++) {
        const struct mensur_figure *figure = &all.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            char key[48];
            snprintf(key, sizeof(key), "present_%s", figure->key);
            mensur_csv_number(row, key, figure->kind, mensur_figure_value(figure, present));
        }
    }
}

static void choice_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_choice none;
    const struct mensur_restringing *restringing = answer;
    size_t number = row->head ? 0 : i / restringing->string_count;
    const struct mensur_choice *choice = row->head ? &none : &restringing->choices[number];
    size_t string = i - number * restringing->string_count;
    count_cell(row, "choice", (long)number + 1);
    mensur_csv_text(row, "instrument", restringing->present.instrument);
    figures(row, MENSUR_SCOPE_STRING, &choice->strings[string]);
    known_cell(row, "kept", choice->kept[string] ? MENSUR_YES : MENSUR_NO);
    figures(row, MENSUR_SCOPE_CHOICE, choice);
    figures(row, MENSUR_SCOPE_CHOICE_TOTAL, choice);
    present_totals(row, &restringing->present);
}

/* A reach, with the frames of all positions that any of the instruments has. */
struct reached {
    const struct mensur_reaching *reaching;
    struct mensur_told_positions positions;
};

/* The key of a position's frame: "frame_1_extended_mm". */
static void frame_key(const char *name, char *key, size_t room) {
    snprintf(key, room, "frame_%s_mm", name);
    for (char *at = key; (at = strchr(at, ' ')) != NULL;) {
        *at = '_';
    }
}

static void reach_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct reached *reached = answer;
    const struct mensur_reaching *reaching = reached->reaching;
    const struct mensur_reach *reach = &reaching->instruments[i];
    mensur_csv_text(row, "instrument", reach->instrument);
    mensur_csv_text(row, "player", reaching->player);
    figures(row, MENSUR_SCOPE_REACH, reach);
    for (size_t j = 0; j < reached->positions.count; j++) {
        const char *name = reached->positions.names[j];
        const struct mensur_position *position =
            mensur_told_position(reach->positions, reach->position_count, name);
        char key[40];
        frame_key(name, key, sizeof(key));
        mensur_csv_number(row, key, MENSUR_LENGTH, position != NULL ? position->frame : NAN);
    }
    mensur_csv_number(row, "span_mm", MENSUR_LENGTH, reaching->span);
    if (reaching->sizes != NULL) {
        mensur_csv_number(row, "string_length_mm", MENSUR_LENGTH,
                          reaching->instruments[i].string_length);
        figures(row, MENSUR_SCOPE_PUPIL_SIZE, &reaching->sizes[i]);
    }
}

/* A file that was checked. */
struct checked {
    const char *file;
    long rows;
    const struct mensur_texts *warnings;
};

static void checked_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct checked *checked = answer;
    (void)i; /* one row an answer */
    mensur_csv_text(row, "file", checked->file);
    count_cell(row, "rows", checked->rows);
    count_cell(row, "warnings", (long)checked->warnings->count);
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
    write_rows(presenter, profile_row, &viewed, rows_of(&viewed));
}

static void csv_comparison(struct mensur_presenter *presenter,
                           const struct mensur_comparison *comparison) {
    write_rows(presenter, compared_row, comparison, 2 * comparison->count - 1);
}

static void csv_decision(struct mensur_presenter *presenter,
                         const struct mensur_decision *decision) {
    write_rows(presenter, step_row, decision, decision->step_count);
}

static void csv_restringing(struct mensur_presenter *presenter,
                            const struct mensur_restringing *restringing) {
    write_rows(presenter, choice_row, restringing,
               restringing->choice_count * restringing->string_count);
}

static void csv_reaching(struct mensur_presenter *presenter,
                         const struct mensur_reaching *reaching) {
    if (reaching->count > 0) {
        struct reached reached = {reaching, mensur_told_positions_of(reaching)};
        write_rows(presenter, reach_row, &reached, reaching->count);
    }
}

static void ranked_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_ranking *ranking = answer;
    const struct mensur_sought *sought = &ranking->sought;
    const struct mensur_ranked *ranked = row->head ? NULL : ranking->rows[i];
    mensur_csv_text(row, "instrument", row->head ? NULL : ranked->name);
    count_cell(row, "rank", (long)i + 1);
    mensur_csv_number(row, "distance", MENSUR_NUMBER, row->head ? NAN : ranked->distance);
    for (size_t k = 0; k < sought->figure_count; k++) {
        const struct mensur_figure *figure = sought->figures[k].figure;
        if (sought->figures[k].told) {
            mensur_csv_number(row, figure->key, figure->kind, row->head ? NAN : ranked->values[k]);
        }
    }
    if (sought->has_like) {
        mensur_csv_number(row, "air_semitones_above_liked", MENSUR_SEMITONES,
                          row->head ? NAN : ranked->air_apart);
    }
    row->owners = row->head ? NULL : ranked->cells;
    owners_cells(row);
}

static void csv_ranking(struct mensur_presenter *presenter, const struct mensur_ranking *ranking) {
    write_rows(presenter, ranked_row, ranking, ranking->count);
}

static void map_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_map_point none;
    const struct mensur_map *map = answer;
    const struct mensur_map_point *point = row->head ? &none : &map->points[i];
    mensur_csv_text(row, "instrument", point->name);
    figures(row, MENSUR_SCOPE_INSTRUMENT, &point->lengths);
    known_cell(row, "meets_all", point->meets_all);
    known_cell(row, "asked", point->asked ? MENSUR_YES : MENSUR_NO);
    known_cell(row, "changed", point->changed ? MENSUR_YES : MENSUR_NO);
}

static void csv_map(struct mensur_presenter *presenter, const struct mensur_map *map) {
    write_rows(presenter, map_row, map, map->point_count);
}

static void csv_check(struct mensur_presenter *presenter, const char *file, const char *row_name,
                      long rows, const struct mensur_texts *warnings) {
    (void)row_name;
    write_rows(presenter, checked_row, &(struct checked){file, rows, warnings}, 1);
}

/* A row of instruments.csv: heads and units are those of that file. */
static void scaled_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_scaled *scaled = answer;
    (void)i; /* one row an answer */
    for (size_t j = 0; j < scaled->cell_count; j++) {
        const struct mensur_scaled_cell *cell = &scaled->cells[j];
        if (cell->text != NULL) {
            mensur_csv_text(row, cell->head, cell->text);
        } else {
            mensur_csv_number(row, cell->head, MENSUR_LENGTH, cell->length);
        }
    }
}

static void csv_scaled(struct mensur_presenter *presenter, const struct mensur_told_scaled *told) {
    write_rows(presenter, scaled_row, told->scaled, 1);
}

/* A number as a table of the shop has it: fifteen digits, so that nothing is lost on the way. */
static void exact_cell(struct mensur_csv *row, const struct mensur_table_cell *cell) {
    char room[MENSUR_NUMBER_ROOM];
    (void)mensur_number_print_significant(mensur_from_si(cell->kind, cell->number), 15, room);
    word_cell(row, room);
}

/* A row of families.csv: texts as they stand there, as it is to be read again. */
static void learned_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_learned *learned = answer;
    const struct mensur_learned_family *family = &learned->families[i];
    for (size_t j = 0; j < family->cell_count; j++) {
        const struct mensur_table_cell *cell = &family->cells[j];
        if (row->head) {
            word_cell(row, cell->head);
        } else if (cell->text != NULL) {
            text_cell(row, "", cell->text);
        } else if (isnan(cell->number)) {
            word_cell(row, "");
        } else {
            exact_cell(row, cell);
        }
    }
}

static void csv_learned(struct mensur_presenter *presenter, const struct mensur_learned *learned) {
    write_rows(presenter, learned_row, learned, learned->count);
}

static void csv_open(struct mensur_presenter *presenter) {
    (void)presenter; /* the head waits for the first answer, which settles its columns */
}

/* A file of instruments may be without a row; its answer still has a head. */
static void csv_close(struct mensur_presenter *presenter) {
    static const struct mensur_profile none;
    const struct viewed viewed = {presenter->heading->view, &none, MENSUR_VIEW_CSV};
    if (presenter->answers == 0 && viewed.view != NULL) {
        write_rows(presenter, profile_row, &viewed, 0);
    }
}

const struct mensur_writer mensur_csv_writer = {
    csv_open, csv_profile, csv_comparison, csv_decision, csv_restringing, csv_reaching, csv_ranking,
    csv_map,  csv_scaled,  csv_check,      csv_learned,  csv_close,       NULL,
};
