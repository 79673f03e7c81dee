/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which instruments suit: the first line answers, a table has the nearest of them. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "telling.h"

enum { ROWS_MAX = 20, COLUMNS_TEXT = 80, OWN_WIDTH = 13, FIGURE_WIDTH = 10 };

/* Columns of the owner's that were asked, or sorted by; at most `room`. */
static size_t asked_owners(const struct mensur_sought *sought, size_t room, size_t *places) {
    size_t count = 0;
    memset(places, 0, room * sizeof *places);
    for (size_t i = 0; i <= sought->count; i++) {
        const struct mensur_sought_column *column =
            i < sought->count ? &sought->lines[i].column : &sought->sort;
        bool there = column->kind != MENSUR_SOUGHT_OWNER || count == room;
        for (size_t k = 0; k < count && !there; k++) {
            there = places[k] == column->place;
        }
        if (!there) {
            places[count++] = column->place;
        }
    }
    return count;
}

static const char *own_cell(const char *cells, size_t place) {
    for (; cells != NULL && place > 0; place--) {
        cells += strlen(cells) + 1;
    }
    return cells == NULL ? "" : cells;
}

/* The next figure from there on that has a column of its own. */
static size_t next_figure(const struct mensur_sought *sought, size_t i) {
    size_t first = sought->has_like ? MENSUR_NEAR_COUNT : MENSUR_NEAR_LEFT + 1;
    i = i < first ? first : i;
    while (i < sought->figure_count && !sought->figures[i].told) {
        i++;
    }
    return i;
}

/* "14.0 shorter" of a row less the liked one. */
static struct mensur_shown apart(const struct mensur_document *document,
                                 const struct mensur_sought *sought,
                                 const struct mensur_ranked *row, size_t near, const char *more,
                                 const char *less) {
    struct mensur_shown shown;
    double by = row->values[near] - sought->liked[near];
    bool part = mensur_near_info(near)->is_part;
    double size = fabs(part ? 100.0 * by / sought->liked[near] : by);
    enum mensur_kind kind = part ? MENSUR_NUMBER : sought->figures[near].figure->kind;
    struct mensur_shown number =
        part ? mensur_show_number(size, 0, 8) : mensur_show(&document->style, kind, size);
    if (isnan(by)) {
        snprintf(shown.text, sizeof shown.text, "?");
    } else if (strspn(number.text, "0.") == strlen(number.text)) {
        snprintf(shown.text, sizeof shown.text, "the same");
    } else {
        snprintf(shown.text, sizeof shown.text, "%.20s%s %s", number.text, part ? " %" : "",
                 by > 0.0 ? more : less);
    }
    return shown;
}

/* What a wish is about, in words. */
static void say_line(struct mensur_document *document, const struct mensur_texts *heads,
                     const struct mensur_sought_line *line) {
    const struct mensur_sought_column *column = &line->column;
    if (column->kind == MENSUR_SOUGHT_OWNER) {
        mensur_say(document, "%n", heads->items[column->place]);
    } else if (column->kind == MENSUR_SOUGHT_WORD) {
        char name[16] = "";
        strncat(name, column->name, column->name_length < 15 ? column->name_length : 15);
        mensur_say(document, "%s %n", name, line->text);
    } else {
        mensur_say(document, "%s%s%s",
                   column->figure->label != NULL ? column->figure->label : column->figure->key,
                   line->note[0] != '\0' ? " of " : "", line->note);
    }
}

/* Nothing was asked but what an instrument is to be like: its family alone is held. */
static bool is_implied(const struct mensur_sought *sought) {
    return sought->count == 1 && sought->lines[0].implied;
}

static void tell_first(struct mensur_document *document, const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    mensur_paragraph(document, 0, "");
    if (sought->count > 0) {
        mensur_say(document, "%s of %z instruments ",
                   ranking->met == 0 ? "None" : mensur_show_count(ranking->met).text,
                   ranking->asked);
    }
    if (sought->count == 0) {
        mensur_say(document, "%z instruments", ranking->asked);
    } else if (is_implied(sought)) {
        mensur_say(document, "%s of the family %n", ranking->met < 2 ? "is" : "are",
                   sought->lines[0].text);
    } else {
        mensur_say(document, "%s the wishes", ranking->met < 2 ? "meets" : "meet");
    }
    if (ranking->count > 0 && sought->has_like && sought->sort.kind == MENSUR_SOUGHT_NOTHING) {
        mensur_say(document, "; nearest in the hand to %n: %n", sought->like,
                   ranking->rows[0]->name);
    }
    mensur_say(document, ".");
}

/* Bodies whose air stands nearer than this are alike, semitones. */
#define ALIKE 0.3

/* How the air of the nearest body that was measured for it sounds beside the liked one's. */
static void tell_air(struct mensur_document *document, const struct mensur_ranking *ranking) {
    for (size_t i = 0; i < ranking->count; i++) {
        double by = ranking->rows[i]->air_apart;
        if (isnan(by)) {
            continue;
        }
        if (fabs(by) < ALIKE) {
            mensur_paragraph(document, 0, "The air in %n sounds as in %n, as far as a ruler tells.",
                             ranking->rows[i]->name, ranking->sought.like);
        } else {
            mensur_paragraph(document, 0,
                             "The air in %n sounds about %s semitones %s than in %n, give or take "
                             "0.3.",
                             ranking->rows[i]->name, mensur_show_number(fabs(by), 1, 6).text,
                             by > 0.0 ? "higher" : "lower", ranking->sought.like);
        }
        return;
    }
}

static void tell_columns(struct mensur_document *document, const struct mensur_texts *heads,
                         const struct mensur_sought *sought, size_t figures, const size_t *own,
                         size_t owners) {
    mensur_table(document, MENSUR_TABLE, "Instruments that suit");
    mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, sought->has_like ? 16 : 18);
    if (sought->has_like) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "steps\naway", NULL, 6);
    }
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "string",
                     mensur_told_unit(document, MENSUR_LENGTH), 7);
    if (sought->has_like) {
        mensur_column_behind(document, MENSUR_CELLS_WORDS, "the string", 2, 15);
        mensur_column_of(document, MENSUR_CELLS_WORDS, "to the nut", NULL, 12);
        mensur_column_of(document, MENSUR_CELLS_WORDS, "tension", NULL, 11);
    } else {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "left reach",
                         mensur_told_unit(document, MENSUR_LENGTH), 12);
    }
    for (size_t i = next_figure(sought, 0); i < sought->figure_count && figures > 0;
         i = next_figure(sought, i + 1), figures--) {
        const struct mensur_figure *figure = sought->figures[i].figure;
        mensur_column_of(document, MENSUR_CELLS_FIGURES,
                         figure->label != NULL ? figure->label : figure->key,
                         mensur_told_unit(document, figure->kind), FIGURE_WIDTH + 8);
    }
    for (size_t i = 0; i < owners; i++) {
        mensur_column_behind(document, MENSUR_CELLS_NAMES, heads->items[own[i]], 2, OWN_WIDTH);
    }
}

static void tell_row(struct mensur_document *document, const struct mensur_sought *sought,
                     const struct mensur_ranked *row, size_t figures, const size_t *own,
                     size_t owners) {
    mensur_row(document);
    mensur_cell(document, row->name);
    if (sought->has_like) {
        mensur_cell(document, mensur_show_number(row->distance, 1, 6).text);
    }
    mensur_cell_figure(document, MENSUR_LENGTH, row->values[MENSUR_NEAR_LENGTH]);
    if (sought->has_like) {
        mensur_cells(document, 3,
                     apart(document, sought, row, MENSUR_NEAR_LENGTH, "longer", "shorter").text,
                     apart(document, sought, row, MENSUR_NEAR_LEFT, "further", "nearer").text,
                     apart(document, sought, row, MENSUR_NEAR_TENSION, "more", "less").text);
    } else {
        mensur_cell_figure(document, MENSUR_LENGTH, row->values[MENSUR_NEAR_LEFT]);
    }
    for (size_t i = next_figure(sought, 0); i < sought->figure_count && figures > 0;
         i = next_figure(sought, i + 1), figures--) {
        mensur_cell_figure(document, sought->figures[i].figure->kind, row->values[i]);
    }
    for (size_t i = 0; i < owners; i++) {
        mensur_cell(document, own_cell(row->cells, own[i]));
    }
}

static void tell_table(struct mensur_document *document, const struct mensur_texts *heads,
                       const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    size_t own[MENSUR_SOUGHT_LINES + 1];
    size_t used = sought->has_like ? 67 : 37;
    size_t figures = sought->figure_count;
    size_t most = ranking->count;
    size_t owners = asked_owners(sought, MENSUR_SOUGHT_LINES + 1, own);
    bool narrow = document->narrow;
    if (narrow) { /* what finds no room in 80 columns is in CSV and JSON */
        size_t room = used < COLUMNS_TEXT ? COLUMNS_TEXT - used : 0;
        size_t fit = room / OWN_WIDTH;
        owners = owners < fit ? owners : fit;
        room -= owners * OWN_WIDTH;
        figures = figures < room / (FIGURE_WIDTH + 8) ? figures : room / (FIGURE_WIDTH + 8);
    }
    if (narrow && !document->style.full && sought->top == 0 && most > ROWS_MAX) {
        most = ROWS_MAX;
    }
    mensur_gap(document);
    tell_columns(document, heads, sought, figures, own, owners);
    for (size_t i = 0; i < most; i++) {
        tell_row(document, sought, ranking->rows[i], figures, own, owners);
    }
    if (most < ranking->count) {
        mensur_paragraph(document, 0,
                         "... and %z more; --top N, --full, --format csv and --format json have "
                         "them.",
                         ranking->count - most);
    }
}

/* What the nearest has of a wish that it misses. */
static void say_missed(struct mensur_document *document, const struct mensur_ranking *ranking,
                       const struct mensur_sought_column *column) {
    const struct mensur_ranked *nearest = ranking->nearest;
    if (column->kind == MENSUR_SOUGHT_OWNER) {
        const char *cell = own_cell(nearest->cells, column->place);
        mensur_say(document, *cell == '\0' ? " (empty)" : " (%n)", cell);
    } else if (column->kind == MENSUR_SOUGHT_WORD && column->place == 1) {
        mensur_say(document, " (%n)", *nearest->family == '\0' ? "none" : nearest->family);
    }
    for (size_t k = 0; k < ranking->sought.figure_count; k++) {
        const struct mensur_figure *figure = ranking->sought.figures[k].figure;
        double value = nearest->values[k];
        if (column->kind != MENSUR_SOUGHT_FIGURE || figure != column->figure) {
            continue;
        }
        struct mensur_shown shown = (figure->flags & MENSUR_FIGURE_RATIO) != 0
                                        ? mensur_figure_show(figure, &document->style, value)
                                        : mensur_show_unit(&document->style, figure->kind, value);
        mensur_say(document, " (%s)", isnan(value) ? "not known" : shown.text);
    }
}

/* Which wish excludes most. */
static void tell_worst(struct mensur_document *document, const struct mensur_texts *heads,
                       const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    size_t worst = 0;
    for (size_t i = 1; i < sought->count; i++) {
        worst = ranking->excluded[i] > ranking->excluded[worst] ? i : worst;
    }
    if (sought->count > 0 && ranking->asked > 0) {
        mensur_paragraph(document, 0, "The wish for the ");
        say_line(document, heads, &sought->lines[worst]);
        mensur_say(document, " excludes most: %z of %z.", ranking->excluded[worst], ranking->asked);
    }
}

/* Nothing meets the wishes: which of them excludes most, and what comes nearest. */
static void tell_nothing(struct mensur_document *document, const struct mensur_texts *heads,
                         const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    if (is_implied(sought)) {
        return; /* as the first line says */
    }
    tell_worst(document, heads, ranking);
    if (ranking->nearest == NULL) {
        return;
    }
    mensur_paragraph(document, 0, "Nearest to the wishes: %n, which misses the ",
                     ranking->nearest->name);
    const char *between = "";
    for (size_t i = 0; i < sought->count; i++) {
        if (ranking->nearest_missed[i]) {
            mensur_say(document, between);
            say_line(document, heads, &sought->lines[i]);
            say_missed(document, ranking, &sought->lines[i].column);
            between = ", the ";
        }
    }
    mensur_say(document, ".");
}

/* That the liked one's family alone was asked, where the first line does not say so, and the way to
 * all. */
static void tell_family(struct mensur_document *document, const struct mensur_sought *sought,
                        const struct mensur_sought_line *line) {
    if (!is_implied(sought)) {
        mensur_say(document, " Of its family alone: %n.", line->text);
    }
    if (mensur_style_names_options(&document->style)) {
        mensur_say(document, " family=any opens all families.");
    }
}

static void tell_notes(struct mensur_document *document, const struct mensur_texts *heads,
                       const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    if (sought->has_like) {
        mensur_paragraph(document, 0, "Steps away in the hand: a step is what one would notice");
        if (document->style.full) {
            mensur_say(
                document, " (ours: %s of string",
                mensur_show_unit(&document->style, MENSUR_LENGTH, sought->near[MENSUR_NEAR_LENGTH])
                    .text);
            mensur_say(
                document, ", %s of left reach",
                mensur_show_unit(&document->style, MENSUR_LENGTH, sought->near[MENSUR_NEAR_LEFT])
                    .text);
            mensur_say(
                document, ", %s of bow reach",
                mensur_show_unit(&document->style, MENSUR_LENGTH, sought->near[MENSUR_NEAR_BOW])
                    .text);
            mensur_say(
                document, ", %s at the body",
                mensur_show_unit(&document->style, MENSUR_SEMITONES, sought->near[MENSUR_NEAR_NOTE])
                    .text);
            mensur_say(document, ", %s %% of the tension)",
                       mensur_show_number(100.0 * sought->near[MENSUR_NEAR_TENSION], 1, 8).text);
        }
        mensur_say(document, ". To the nut: from the body's lower end. Compared with %n.",
                   sought->like);
        for (size_t i = 0; i < sought->count; i++) {
            if (sought->lines[i].implied) {
                tell_family(document, sought, &sought->lines[i]);
            }
        }
        size_t little = 0;
        for (size_t i = 0; i < ranking->count; i++) {
            little += ranking->rows[i]->little_known;
        }
        if (little > 0) {
            mensur_say(document, " Little known, and so last: %z.", little);
        }
    }
    for (size_t i = 0; i < sought->count; i++) {
        const struct mensur_sought_line *line = &sought->lines[i];
        if (ranking->unknown[i] == 0) {
            continue;
        }
        mensur_paragraph(document, 0, "%z %s ", ranking->unknown[i],
                         ranking->unknown[i] == 1 ? "row has" : "rows have");
        mensur_say(document, line->text != NULL                         ? "nothing in "
                             : line->column.kind == MENSUR_SOUGHT_OWNER ? "no number in "
                                                                        : "no known ");
        if (line->column.kind == MENSUR_SOUGHT_WORD) {
            char name[16] = "";
            strncat(name, line->column.name,
                    line->column.name_length < 15 ? line->column.name_length : 15);
            mensur_say(document, "%s", name);
        } else {
            say_line(document, heads, line);
        }
        mensur_say(document, ", and so %s left out.", ranking->unknown[i] == 1 ? "is" : "are");
    }
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_ranking *ranking = record;
    struct mensur_document *document = &presenter->document;
    tell_first(document, ranking);
    if (ranking->count > 0) {
        tell_table(document, presenter->heading->owners, ranking);
    } else {
        tell_nothing(document, presenter->heading->owners, ranking);
    }
    mensur_gap(document);
    tell_air(document, ranking);
    tell_notes(document, presenter->heading->owners, ranking);
}

static void ranked_row(struct mensur_csv *row, const void *answer, size_t i) {
    const struct mensur_ranking *ranking = answer;
    const struct mensur_sought *sought = &ranking->sought;
    const struct mensur_ranked *ranked = row->head ? NULL : ranking->rows[i];
    mensur_csv_text(row, "instrument", ranked == NULL ? NULL : ranked->name);
    mensur_csv_count(row, "rank", (long)i + 1);
    mensur_csv_number(row, "distance", MENSUR_NUMBER, ranked == NULL ? NAN : ranked->distance);
    for (size_t k = 0; k < sought->figure_count; k++) {
        const struct mensur_figure *figure = sought->figures[k].figure;
        if (sought->figures[k].told) {
            mensur_csv_number(row, figure->key, figure->kind,
                              ranked == NULL ? NAN : ranked->values[k]);
        }
    }
    if (sought->has_like) {
        mensur_csv_number(row, "air_semitones_above_liked", MENSUR_SEMITONES,
                          ranked == NULL ? NAN : ranked->air_apart);
    }
    row->owners = ranked == NULL ? NULL : ranked->cells;
    mensur_csv_owners(row);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_ranking *ranking = record;
    mensur_csv_rows(presenter, ranked_row, ranking, ranking->count);
}

/* The cells of the owner's columns by their heads. */
static void put_own(struct mensur_json *to, const struct mensur_texts *heads, const char *cells) {
    mensur_json_begin(to, "own", '{');
    for (size_t i = 0; heads != NULL && i < heads->count; i++) {
        mensur_json_any_key(to, heads->items[i]);
        mensur_json_text(to, NULL, cells == NULL ? "" : cells);
        cells = cells == NULL ? NULL : cells + strlen(cells) + 1;
    }
    mensur_json_end(to, '}');
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_ranking *ranking = record;
    const struct mensur_sought *sought = &ranking->sought;
    for (size_t i = 0; i < ranking->count; i++) {
        const struct mensur_ranked *row = ranking->rows[i];
        struct mensur_json answer = json_begin_answer(presenter);
        mensur_json_text(&answer, "instrument", row->name);
        mensur_json_count(&answer, "rank", (long)i + 1);
        mensur_json_number(&answer, "distance", MENSUR_NUMBER, row->distance);
        for (size_t k = 0; k < sought->figure_count; k++) {
            const struct mensur_figure *figure = sought->figures[k].figure;
            if (sought->figures[k].told) {
                mensur_json_number(&answer, figure->key, figure->kind, row->values[k]);
            }
        }
        if (sought->has_like) {
            mensur_json_number(&answer, "air_semitones_above_liked", MENSUR_SEMITONES,
                               row->air_apart);
        }
        put_own(&answer, presenter->heading->owners, row->cells);
        json_put_empty(&answer, "assumed");
        json_put_empty(&answer, "warnings");
        json_end_part(presenter, &answer, i, ranking->count);
    }
}

static void clear(void *record) {
    mensur_ranking_clear(record);
}

const struct mensur_answer_kind mensur_ranking_answer = {
    .size = sizeof(struct mensur_ranking),
    .clear = clear,
    .sources = mensur_sources_tension,
    .undrawn = "what is found",
    .tell = tell,
    .csv = csv,
    .json = json,
};
