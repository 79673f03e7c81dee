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
    if (any_reach(reaching)) {
        tell_arms(document, reaching);
    }
    /* In brief the points alone say in which positions the span is too small. */
    if (!isnan(reaching->span) && !document->style.no_sources) {
        tell_hand(document, reaching);
    }
}
