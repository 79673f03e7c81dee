/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: what differs in words, then arms and hand instrument by instrument. */
#include <math.h>

#include "result_use.h"
#include "tell.h"

#define FRAMES 8 /* positions in one block of 80 columns */

static void tell_arms(struct mensur_document *document, const struct mensur_reaching *reaching) {
    static const char *const answers[] = {
        [MENSUR_NO] = "no", [MENSUR_YES] = "yes", [MENSUR_UNSURE] = "?"};
    static const struct mensur_told reaches[] = {{"left_reach_mm", 11, NULL, NULL, false},
                                                 {"bow_reach_mm", 11, NULL, NULL, false},
                                                 {"distance_mm", 9, NULL, NULL, false}},
                                    elbow[] = {{"elbow_deg", 9, NULL, NULL, false}};
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The arms of %n", reaching->player);
    mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, 21);
    mensur_tell_columns(document, MENSUR_SCOPE_REACH, reaches, 3);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "arm",
                     mensur_shown_unit(&document->style, MENSUR_LENGTH), 9);
    mensur_tell_columns(document, MENSUR_SCOPE_REACH, elbow, 1);
    mensur_column_of(document, MENSUR_CELLS_FIGURES,
                     mensur_figure_named(MENSUR_SCOPE_REACH, "can_reach")->label, "", 9);
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        mensur_row(document);
        mensur_cell(document, reach->instrument);
        mensur_cells_of(document, 3, reach);
        mensur_cell_figure(document, MENSUR_LENGTH, reaching->longest);
        if (reach->can_reach == MENSUR_NO) {
            mensur_cell(document, "-");
        } else {
            mensur_cells_of(document, 1, reach);
        }
        mensur_cell(document, answers[reach->can_reach]);
    }
    mensur_paragraph(document, 0,
                     "Left reach: lower end of the body to the nut; bow reach: to the bridge. To "
                     "nut: from the left shoulder, seen from above; arm: upper arm and forearm "
                     "stretched out. Elbow: 180 is a stretched arm.");
}

const struct mensur_reach *mensur_told_most_positions(const struct mensur_reaching *reaching) {
    const struct mensur_reach *most = &reaching->instruments[0];
    for (size_t i = 1; i < reaching->count; i++) {
        if (reaching->instruments[i].position_count > most->position_count) {
            most = &reaching->instruments[i];
        }
    }
    return most;
}

/* Frames from a position on; a star behind those that are wider than the span. */
static void tell_frames(struct mensur_document *document, const struct mensur_reaching *reaching,
                        size_t start, size_t end) {
    const struct mensur_reach *most = mensur_told_most_positions(reaching);
    mensur_table(document, MENSUR_TABLE, "The hand's frame from position %s on",
                 most->positions[start].name);
    mensur_column_of(document, MENSUR_CELLS_NAMES, "position",
                     mensur_shown_unit(&document->style, MENSUR_LENGTH), 21);
    for (size_t i = start; i < end; i++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, most->positions[i].name, NULL, 5);
        mensur_column_of(document, MENSUR_CELLS_MARKS, "", NULL, 2);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        mensur_row(document);
        mensur_cell(document, reach->instrument);
        for (size_t j = start; j < end && j < reach->position_count; j++) {
            const struct mensur_position *position = &reach->positions[j];
            bool wide = mensur_reaching_too_wide(reaching, position) == MENSUR_YES;
            mensur_cells(
                document, 2,
                mensur_show_within(&document->style, MENSUR_LENGTH, position->frame, 5).text,
                wide ? "*" : "");
        }
    }
}

static void tell_hand(struct mensur_document *document, const struct mensur_reaching *reaching) {
    size_t positions = mensur_told_most_positions(reaching)->position_count;
    size_t most = document->narrow ? FRAMES : positions;
    if (positions == 0) {
        return;
    }
    mensur_heading(document, MENSUR_HEADING_PART, "The hand's frame, first finger to fourth");
    for (size_t start = 0; start < positions; start += most) {
        tell_frames(document, reaching, start, start + most < positions ? start + most : positions);
    }
    if (isnan(reaching->span)) {
        mensur_paragraph(document, 0,
                         "No span of the hand is given for %n, so nothing is held against it.",
                         reaching->player);
    } else {
        mensur_paragraph(document, 0, "The hand of %n spans %l; * is wider than that.",
                         reaching->player, reaching->span);
    }
}

void mensur_tell_reaching(struct mensur_document *document,
                          const struct mensur_reaching *reaching) {
    mensur_points(document, &reaching->remarks);
    if (reaching->count > 0) {
        tell_arms(document, reaching);
        tell_hand(document, reaching);
    }
}
