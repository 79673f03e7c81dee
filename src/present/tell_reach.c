/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: what differs in words, then arms and hand instrument by instrument. */
#include <math.h>
#include <string.h>

#include "result_use.h"
#include "tell.h"

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
    const struct mensur_told_positions told = mensur_told_positions_of(reaching);
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

void mensur_tell_reaching(struct mensur_document *document,
                          const struct mensur_reaching *reaching) {
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
