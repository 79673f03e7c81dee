/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fingers fall, and how wide the hand stands in each position. */
#include <math.h>
#include <string.h>

#include "text.h"

/* The first position, in which the hand is measured by every teacher; NULL where there is none. */
static const struct mensur_position *first_position(const struct mensur_profile *profile) {
    for (size_t i = 0; i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, "1") == 0) {
            return &profile->positions[i];
        }
    }
    return profile->position_count > 0 ? &profile->positions[0] : NULL;
}

static void write_sentence(struct mensur_presenter *presenter,
                           const struct mensur_profile *profile) {
    const struct mensur_style *style = &presenter->style;
    const struct mensur_position *first = first_position(profile);
    struct mensur_wrap wrap;
    mensur_text_begin(presenter, &wrap);
    mensur_wrap_say(&wrap, profile->instrument, ", ",
                    mensur_show_unit(style, MENSUR_LENGTH, profile->lengths.string_length).text,
                    " of string", NULL);
    if (first != NULL) {
        mensur_wrap_say(&wrap, ": in position ", first->name, " the hand spans ",
                        mensur_show_unit(style, MENSUR_LENGTH, first->frame).text,
                        " from first finger to fourth", NULL);
    }
    if (first != NULL && !isnan(profile->frame_semitones)) {
        mensur_wrap_say(&wrap, " (",
                        mensur_show(style, MENSUR_NUMBER, profile->frame_semitones).text,
                        " semitones)", NULL);
    }
    mensur_wrap_say(&wrap, ".", NULL);
    mensur_wrap_close(&wrap);
}

#define HALF 3

struct place_cells {
    struct mensur_shown text[HALF];
};

static struct place_cells place_cells(const struct mensur_style *style,
                                      const struct mensur_profile *profile, size_t i) {
    if (i >= profile->place_count) {
        return (struct place_cells){{{""}, {""}, {""}}};
    }
    const struct mensur_finger_place *place = &profile->places[i];
    struct place_cells cells = {{mensur_show(style, MENSUR_NUMBER, place->semitones),
                                 mensur_show(style, MENSUR_LENGTH, place->from_nut),
                                 mensur_show(style, MENSUR_LENGTH, place->to_next)}};
    if (isnan(place->to_next)) {
        cells.text[2] = (struct mensur_shown){""};
    }
    return cells;
}

/* Two columns of places: the lower half, and the upper half beside it. */
static void write_places(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    const struct mensur_table_column columns[2 * HALF] = {
        {{"semitones", ""}, 10, false},  {{"from nut", unit}, 11, false},
        {{"to next", unit}, 10, false},  {{"semitones", ""}, 18, false},
        {{"from nut", unit}, 11, false}, {{"to next", unit}, 10, false},
    };
    struct mensur_table table = {&presenter->out, columns, sizeof columns / sizeof columns[0]};
    size_t rows = (profile->place_count + 1) / 2;
    mensur_table_head(&table);
    for (size_t i = 0; i < rows; i++) {
        struct place_cells low = place_cells(&presenter->style, profile, i);
        struct place_cells high = place_cells(&presenter->style, profile, i + rows);
        const char *cells[2 * HALF] = {low.text[0].text,  low.text[1].text,  low.text[2].text,
                                       high.text[0].text, high.text[1].text, high.text[2].text};
        mensur_table_row(&table, cells);
    }
}

static void write_positions(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    const struct mensur_table_column columns[] = {
        {{"", "position"}, 10, true},
        {{"first finger", unit}, 15, false},
        {{"fourth finger", unit}, 15, false},
        {{"hand's frame", unit}, 15, false},
    };
    struct mensur_table table = {&presenter->out, columns, 4};
    mensur_out_line(&presenter->out);
    mensur_table_head(&table);
    for (size_t i = 0; i < profile->position_count; i++) {
        const struct mensur_position *position = &profile->positions[i];
        const struct mensur_style *style = &presenter->style;
        struct mensur_shown first = mensur_show(style, MENSUR_LENGTH, position->first_finger);
        struct mensur_shown fourth = mensur_show(style, MENSUR_LENGTH, position->fourth_finger);
        struct mensur_shown frame = mensur_show(style, MENSUR_LENGTH, position->frame);
        const char *cells[] = {position->name, first.text, fourth.text, frame.text};
        mensur_table_row(&table, cells);
    }
    if (presenter->answers == 0) {
        mensur_paragraph(&presenter->out, 0, 0,
                         "Fingers are measured from the nut; the frame is first finger to fourth.");
    }
}

void mensur_text_fingers(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    mensur_text_part(presenter);
    mensur_text_gather(presenter, profile->instrument, profile);
    write_sentence(presenter, profile);
    mensur_text_points(presenter, &profile->remarks);
    mensur_out_line(&presenter->out);
    write_places(presenter, profile);
    if (profile->position_count > 0) {
        write_positions(presenter, profile);
    }
    mensur_text_spread(presenter, profile->instrument, profile->spread);
    if (presenter->style.true_places) {
        mensur_text_true_places(presenter, profile);
    }
}
