/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: what differs in words, then arms and hand instrument by instrument. */
#include <math.h>
#include <string.h>

#include "text.h"

#define ARM_COLUMNS 7
#define FRAMES 8 /* positions in one block */

static void gather(struct mensur_presenter *presenter, const struct mensur_reaching *reaching) {
    enum mensur_status status = mensur_gather_assumed(&presenter->gathered, &presenter->style,
                                                      reaching->player, &reaching->assumed);
    if (status == MENSUR_OK) {
        status = mensur_gather_facts(&presenter->gathered, &presenter->style, &reaching->warnings);
    }
    for (size_t i = 0; i < reaching->count && status == MENSUR_OK; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        status = mensur_gather_assumed(&presenter->gathered, &presenter->style, reach->instrument,
                                       &reach->assumed);
        if (status == MENSUR_OK) {
            status = mensur_gather_facts(&presenter->gathered, &presenter->style, &reach->warnings);
        }
    }
    mensur_out_fail(&presenter->out, status);
}

static void write_arm(const struct mensur_table *table, const struct mensur_style *style,
                      const struct mensur_reaching *reaching, const struct mensur_reach *reach) {
    struct mensur_shown left = mensur_show(style, MENSUR_LENGTH, reach->left_reach);
    struct mensur_shown bow = mensur_show(style, MENSUR_LENGTH, reach->bow_reach);
    struct mensur_shown away = mensur_show(style, MENSUR_LENGTH, reach->distance);
    struct mensur_shown longest = mensur_show(style, MENSUR_LENGTH, reaching->longest);
    struct mensur_shown elbow = mensur_show(style, MENSUR_ANGLE, reach->elbow);
    static const char *const answers[] = {
        [MENSUR_NO] = "no", [MENSUR_YES] = "yes", [MENSUR_UNSURE] = "?"};
    const char *cells[ARM_COLUMNS] = {reach->instrument,
                                      left.text,
                                      bow.text,
                                      away.text,
                                      longest.text,
                                      reach->can_reach == MENSUR_NO ? "-" : elbow.text,
                                      answers[reach->can_reach]};
    mensur_table_row(table, cells);
}

static void write_arms(struct mensur_presenter *presenter, const struct mensur_reaching *reaching) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    const struct mensur_table_column columns[ARM_COLUMNS] = {
        {{"", "instrument"}, 21, true},   {{"left reach", unit}, 11, false},
        {{"bow reach", unit}, 11, false}, {{"to nut", unit}, 9, false},
        {{"arm", unit}, 9, false},        {{"elbow", "deg"}, 9, false},
        {{"reached", ""}, 9, false},
    };
    struct mensur_table table = {&presenter->out, columns, ARM_COLUMNS};
    mensur_out_line(&presenter->out);
    mensur_table_head(&table);
    for (size_t i = 0; i < reaching->count; i++) {
        write_arm(&table, &presenter->style, reaching, &reaching->instruments[i]);
    }
    mensur_paragraph(&presenter->out, 0, 0,
                     "Left reach: lower end of the body to the nut; bow reach: to the bridge. To "
                     "nut: from the left shoulder, seen from above; arm: upper arm and forearm "
                     "stretched out. Elbow: 180 is a stretched arm.");
}

/* A row of frames from a position on; a star behind those that are wider than the span. */
static void write_frames(const struct mensur_table *table, const struct mensur_style *style,
                         const struct mensur_reaching *reaching, const struct mensur_reach *reach,
                         size_t start) {
    struct mensur_shown frames[FRAMES];
    const char *cells[1 + 2 * FRAMES] = {reach->instrument};
    for (size_t i = 0; 2 * i + 1 < table->count; i++) {
        bool there = start + i < reach->position_count;
        const struct mensur_position *position = &reach->positions[there ? start + i : 0];
        frames[i] = there ? mensur_show_within(style, MENSUR_LENGTH, position->frame, 5)
                          : (struct mensur_shown){""};
        cells[1 + 2 * i] = frames[i].text;
        cells[2 + 2 * i] =
            there && mensur_reaching_too_wide(reaching, position) == MENSUR_YES ? "*" : "";
    }
    mensur_table_row(table, cells);
}

/* Names of positions come from the instrument that has most of them. */
static const struct mensur_reach *most_positions(const struct mensur_reaching *reaching) {
    const struct mensur_reach *most = &reaching->instruments[0];
    for (size_t i = 1; i < reaching->count; i++) {
        if (reaching->instruments[i].position_count > most->position_count) {
            most = &reaching->instruments[i];
        }
    }
    return most;
}

static void write_block(struct mensur_presenter *presenter, const struct mensur_reaching *reaching,
                        size_t start) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    const struct mensur_reach *most = most_positions(reaching);
    struct mensur_table_column columns[1 + 2 * FRAMES] = {{{"position", unit}, 21, true}};
    struct mensur_table table = {&presenter->out, columns, 1};
    for (size_t i = start; i < most->position_count && i < start + FRAMES; i++) {
        columns[table.count++] =
            (struct mensur_table_column){{most->positions[i].name, NULL}, 5, false};
        columns[table.count++] = (struct mensur_table_column){{NULL, NULL}, 2, true};
    }
    mensur_table_head(&table);
    for (size_t i = 0; i < reaching->count; i++) {
        write_frames(&table, &presenter->style, reaching, &reaching->instruments[i], start);
    }
}

static void write_hand(struct mensur_presenter *presenter, const struct mensur_reaching *reaching) {
    const struct mensur_style *style = &presenter->style;
    struct mensur_wrap wrap;
    size_t positions = most_positions(reaching)->position_count;
    if (positions == 0) {
        return;
    }
    mensur_text_title(presenter, "The hand's frame, first finger to fourth");
    for (size_t start = 0; start < positions; start += FRAMES) {
        write_block(presenter, reaching, start);
    }
    mensur_text_begin(presenter, &wrap);
    if (isnan(reaching->span)) {
        mensur_wrap_say(&wrap, "No span of the hand is given for ", reaching->player,
                        ", so nothing is held against it.", NULL);
    } else {
        mensur_wrap_say(&wrap, "The hand of ", reaching->player, " spans ",
                        mensur_show_unit(style, MENSUR_LENGTH, reaching->span).text,
                        "; * is wider than that.", NULL);
    }
    mensur_wrap_close(&wrap);
}

void mensur_text_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching) {
    mensur_text_part(presenter);
    gather(presenter, reaching);
    mensur_text_points(presenter, &reaching->remarks);
    if (reaching->count > 0) {
        write_arms(presenter, reaching);
        write_hand(presenter, reaching);
    }
}
