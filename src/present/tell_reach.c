/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: what differs in words, then arms and hand instrument by instrument. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "result_use.h"
#include "telling.h"

/* Columns of the table of frames: the instrument, a frame at least, the star behind it. */
enum { NAMES = 21, FRAME = 5, STAR = 2 };

/* "117 ± 10" in whole degrees, the ± at least 1; "117" where there is none. */
static struct mensur_shown degrees(double angle, double plus_minus, bool difference) {
    struct mensur_shown value = mensur_show_number(mensur_from_si(MENSUR_ANGLE, angle), 0, 5);
    double degrees = mensur_from_si(MENSUR_ANGLE, plus_minus);
    if (difference) {
        value = mensur_shown_signed(value);
    }
    if (!isnan(angle) && !isnan(degrees)) {
        strcat(value.text, " \302\261 ");
        strcat(value.text, mensur_show_number(fmax(degrees, 1.0), 0, 5).text);
    }
    return value;
}

static void tell_arms(struct mensur_document *document, const struct mensur_reaching *reaching) {
    static const struct mensur_told reaches[] = {{"left_reach_mm", 11, NULL, NULL, false},
                                                 {"bow_reach_mm", 11, NULL, NULL, false},
                                                 {"wrist_mm", 10, NULL, NULL, false}};
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The arms of %n", reaching->player);
    mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, 21);
    mensur_tell_columns(document, MENSUR_SCOPE_REACH, reaches, 3);
    mensur_column_of(document, MENSUR_CELLS_FIGURES,
                     mensur_figure_named(MENSUR_SCOPE_REACH, "elbow_deg")->label,
                     mensur_shown_unit(&document->style, MENSUR_ANGLE), 12);
    if (reaching->count > 1) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES,
                         mensur_figure_named(MENSUR_SCOPE_REACH, "elbow_apart_deg")->label,
                         mensur_shown_unit(&document->style, MENSUR_ANGLE), 12);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        mensur_row(document);
        mensur_cell(document, reach->instrument);
        mensur_cells_of(document, 3, reach);
        mensur_cell(document, reach->stretched == MENSUR_YES
                                  ? "stretched"
                                  : degrees(reach->elbow, reach->elbow_plus_minus, false).text);
        if (reaching->count > 1) {
            mensur_cell(
                document,
                i == reaching->reference
                    ? "-"
                    : degrees(reach->elbow_apart, reach->elbow_apart_plus_minus, true).text);
        }
    }
    mensur_paragraph(document, 0,
                     "Left reach: lower end of the body to the nut; bow reach: to the bridge; to "
                     "wrist: from the left shoulder, hand in first position. Stretched arm: %l, "
                     "180 degrees. \302\261: one standard uncertainty%s.",
                     reaching->longest,
                     reaching->count > 1 ? "; a difference is surer (the same arm)" : "");
    mensur_paragraph(document, 0, "");
    mensur_say_facts(document, &reaching->basis);
    mensur_say(document, ".");
}

static size_t frame_width(const char *name) {
    size_t width = strlen(name) + 1;
    return width > FRAME ? width : FRAME;
}

/* Where the names from `start` on that fit 80 columns end. */
static size_t fitting(const struct mensur_told_positions *told, size_t start) {
    size_t width = NAMES, end = start;
    while (end < told->count && width + frame_width(told->names[end]) + STAR <= 80) {
        width += frame_width(told->names[end++]) + STAR;
    }
    return end > start ? end : start + 1;
}

/* The names of the positions on all instruments. */
static struct mensur_told_positions positions_of(const struct mensur_reaching *reaching) {
    struct mensur_told_positions told = {.count = 0};
    for (size_t i = 0; i < reaching->count; i++) {
        mensur_told_positions_add(&told, reaching->instruments[i].positions,
                                  reaching->instruments[i].position_count);
    }
    return told;
}

/* Frames from a position on; a star behind those that are wider than the span. */
static void tell_frames(struct mensur_document *document, const struct mensur_reaching *reaching,
                        const struct mensur_told_positions *told, size_t start, size_t end) {
    mensur_table(document, MENSUR_TABLE, "The hand's frame from position %s on",
                 told->names[start]);
    mensur_column_of(document, MENSUR_CELLS_NAMES, "position",
                     mensur_shown_unit(&document->style, MENSUR_LENGTH), NAMES);
    for (size_t i = start; i < end; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, told->names[i], NULL,
                         frame_width(told->names[i]));
        mensur_column_of(document, MENSUR_CELLS_MARKS, "", NULL, STAR);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        mensur_row(document);
        mensur_cell(document, reach->instrument);
        for (size_t j = start; j < end; j++) {
            const struct mensur_position *position =
                mensur_told_position(reach->positions, reach->position_count, told->names[j]);
            if (position == NULL) {
                mensur_cells(document, 2, "", "");
                continue;
            }
            bool wide = mensur_reaching_too_wide(reaching, position) == MENSUR_YES;
            mensur_cells(
                document, 2,
                mensur_show_within(&document->style, MENSUR_LENGTH, position->frame, 5).text,
                wide ? "*" : "");
        }
    }
}

static void tell_hand(struct mensur_document *document, const struct mensur_reaching *reaching) {
    const struct mensur_told_positions told = positions_of(reaching);
    if (told.count == 0) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "The hand's frame, first finger to fourth");
    for (size_t start = 0, end; start < told.count; start = end) {
        end = document->narrow ? fitting(&told, start) : told.count;
        tell_frames(document, reaching, &told, start, end);
    }
    mensur_paragraph(document, 0, "The hand of %n spans %l; * is wider than that.",
                     reaching->player, reaching->span);
}

/* "8 to 10", "from 12"; "-" where the table has none. */
static struct mensur_shown ages(const struct mensur_pupil_size *size) {
    struct mensur_shown low = mensur_show_number(size->age_low, 0, 3), shown = {"-"};
    if (!isnan(size->age_low) && isnan(size->age_high)) {
        strcpy(shown.text, "from ");
        strcat(shown.text, low.text);
    } else if (!isnan(size->age_low)) {
        shown = low;
        strcat(shown.text, " to ");
        strcat(shown.text, mensur_show_number(size->age_high, 0, 3).text);
    }
    return shown;
}

/* A length, "-" where the table of sizes has none. */
static struct mensur_shown length_or_none(const struct mensur_style *style, double length) {
    struct mensur_shown none = {"-"};
    return isnan(length) ? none : mensur_show_within(style, MENSUR_LENGTH, length, 6);
}

/* The sizes of a family: reach and elbow of what is held under the chin, else statures. */
static void tell_sizes(struct mensur_document *document, const struct mensur_reaching *reaching) {
    const struct mensur_style *style = &document->style;
    bool under_chin = reaching->instruments[0].stretched != MENSUR_UNSURE;
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The sizes for %n", reaching->player);
    mensur_column_of(document, MENSUR_CELLS_NAMES, "size", NULL, 22);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "string length",
                     mensur_shown_unit(style, MENSUR_LENGTH), 14);
    if (under_chin) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "left reach",
                         mensur_shown_unit(style, MENSUR_LENGTH), 12);
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "elbow",
                         mensur_shown_unit(style, MENSUR_ANGLE), 12);
    } else {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "stature from",
                         mensur_shown_unit(style, MENSUR_LENGTH), 14);
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "to",
                         mensur_shown_unit(style, MENSUR_LENGTH), 10);
    }
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "teachers' ages", "years", 16);
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        const struct mensur_pupil_size *size = &reaching->sizes[i];
        mensur_row(document);
        mensur_cell(document, reach->instrument);
        mensur_cell(document,
                    mensur_show_within(style, MENSUR_LENGTH, reach->string_length, 6).text);
        if (under_chin) {
            mensur_cell(document,
                        mensur_show_within(style, MENSUR_LENGTH, reach->left_reach, 6).text);
            mensur_cell(document, reach->stretched == MENSUR_YES
                                      ? "stretched"
                                      : degrees(reach->elbow, reach->elbow_plus_minus, false).text);
        } else {
            mensur_cell(document, length_or_none(style, size->stature_low).text);
            mensur_cell(document, length_or_none(style, size->stature_high).text);
        }
        mensur_cell(document, ages(size).text);
    }
    mensur_paragraph(document, 0, "Common practice or from memory: sizes, ages, heights.%s",
                     under_chin ? " \302\261: standard uncertainty." : "");
    if (under_chin) {
        mensur_paragraph(document, 0, "");
        mensur_say_facts(document, &reaching->basis);
        mensur_say(document, ".");
    }
}

static bool any_reach(const struct mensur_reaching *reaching) {
    for (size_t i = 0; i < reaching->count; i++) {
        if (!isnan(reaching->instruments[i].left_reach)) {
            return true;
        }
    }
    return false;
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_reaching *reaching = record;
    struct mensur_document *document = &presenter->document;
    /* The proportions of an arm are told below the table of sizes, in brief without its lengths. */
    if (reaching->sizes == NULL || !presenter->style.no_sources) {
        telling_gather(presenter, reaching->player, &reaching->assumed, MENSUR_BEHIND_ALL,
                       &reaching->warnings);
    }
    /* That the sizes have usual heights is said once, below their table. */
    for (size_t i = 0; i < reaching->count && reaching->sizes == NULL; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        telling_gather(presenter, reach->instrument, &reach->assumed, MENSUR_VIEW_BEHIND_LENGTHS,
                       &reach->warnings);
    }
    mensur_points(document, &reaching->remarks);
    if (reaching->sizes != NULL) {
        tell_sizes(document, reaching);
        return;
    }
    if (any_reach(reaching)) {
        tell_arms(document, reaching);
    }
    /* In brief the points alone say in which positions the span is too small. */
    if (!isnan(reaching->span) && !document->style.no_sources) {
        tell_hand(document, reaching);
    }
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
    mensur_csv_figures(row, MENSUR_SCOPE_REACH, reach, false);
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
        mensur_csv_figures(row, MENSUR_SCOPE_PUPIL_SIZE, &reaching->sizes[i], false);
    }
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_reaching *reaching = record;
    if (reaching->count > 0) {
        struct reached reached = {reaching, positions_of(reaching)};
        mensur_csv_rows(presenter, reach_row, &reached, reaching->count);
    }
}

/* An answer for each instrument. */
static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_reaching *reaching = record;
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        struct mensur_json answer = json_begin_answer(presenter);
        struct mensur_texts warnings = {0};
        mensur_json_text(&answer, "instrument", reach->instrument);
        mensur_json_text(&answer, "player", reaching->player);
        json_put_figures(&answer, MENSUR_SCOPE_REACH, reach, false);
        mensur_json_begin(&answer, "frame_mm", '{');
        for (size_t j = 0; j < reach->position_count; j++) {
            mensur_json_any_key(&answer, reach->positions[j].name);
            mensur_json_number(&answer, NULL, MENSUR_LENGTH, reach->positions[j].frame);
        }
        mensur_json_end(&answer, '}');
        mensur_json_number(&answer, "span_mm", MENSUR_LENGTH, reaching->span);
        if (reaching->sizes != NULL) {
            mensur_json_number(&answer, "string_length_mm", MENSUR_LENGTH, reach->string_length);
            json_put_figures(&answer, MENSUR_SCOPE_PUPIL_SIZE, &reaching->sizes[i], false);
        }
        mensur_json_begin(&answer, "assumed", '[');
        json_add_assumed(&answer, NULL, &reaching->assumed);
        json_add_assumed(&answer, NULL, &reach->assumed);
        mensur_json_end(&answer, ']');
        json_add_sentences(&answer, &reaching->warnings, &warnings);
        json_add_sentences(&answer, &reach->warnings, &warnings);
        json_put_warnings(&answer, &warnings);
        json_end_part(presenter, &answer, i, reaching->count);
    }
}

static void cautions(const void *record, struct mensur_facts *cautions) {
    cautions_of_reaching(record, cautions);
}

static void clear(void *record) {
    mensur_reaching_clear(record);
}

const struct mensur_answer_kind mensur_reaching_answer = {
    .size = sizeof(struct mensur_reaching),
    .clear = clear,
    .sources = mensur_sources_reach,
    .cautions = cautions,
    .undrawn = "a reach",
    .tell = tell,
    .csv = csv,
    .json = json,
};
