/* SPDX-License-Identifier: GPL-3.0-or-later */
/* positions.csv: lists of the left hand's positions, which families name. */
#include <string.h>

#include "tables.h"

enum { LIST, POSITION, FIRST, FRAME };

static void need_cells(struct reading *reading) {
    for (int i = LIST; i <= FRAME; i++) {
        if (!mensur_cell_given(reading, i)) {
            mensur_cell_error(reading, i, "%s: the cell is empty; every row needs it",
                              reading->layout->columns[i].name);
        }
    }
}

/* A name stands once in its list, which has room for so many. No row that is kept lacks either. */
static void check_list(struct reading *reading, const struct mensur_list_position *position) {
    size_t before = 0;
    for (size_t i = 0; i < reading->stock->position_count; i++) {
        const struct mensur_list_position *other = &reading->stock->positions[i];
        if (strcmp(other->list, position->list) != 0) {
            continue;
        }
        before++;
        if (strcmp(other->name, position->name) == 0) {
            char cut[MENSUR_SHORT_ROOM];
            mensur_cell_error(reading, POSITION,
                              "position: \"%s\" stands in this list already; give each its own "
                              "name",
                              mensur_log_short(position->name, cut));
            return;
        }
    }
    if (before >= MENSUR_POSITIONS_MAX) {
        mensur_cell_error(reading, LIST, "positions: a list has at most %d positions",
                          MENSUR_POSITIONS_MAX);
    }
}

static void check(struct reading *reading, void *row) {
    const struct mensur_list_position *position = row;
    if (reading->head_bad) {
        return;
    }
    need_cells(reading);
    if (!reading->row_bad && strlen(position->name) >= MENSUR_POSITION_ROOM) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, POSITION, "position: \"%s\" is too long; write at most %d bytes",
                          mensur_log_short(position->name, cut), MENSUR_POSITION_ROOM - 1);
    }
    if (!reading->row_bad) {
        check_list(reading, position);
    }
}

#define AT(member) .at = offsetof(struct mensur_list_position, member)

static const struct column columns[] = {
    [LIST] = {.name = "positions", .how = CELL_TEXT, AT(list), .required = true},
    [POSITION] = {.name = "position", .how = CELL_TEXT, AT(name), .required = true},
    [FIRST] = {.name = "first_finger_semitones",
               .how = CELL_VALUE,
               AT(first),
               .kind = MENSUR_SEMITONES,
               .required = true},
    [FRAME] = {.name = "frame_semitones",
               .how = CELL_VALUE,
               AT(frame),
               .kind = MENSUR_SEMITONES,
               .required = true},
    {.name = "source", .how = CELL_TEXT, AT(source)},
};

const struct layout mensur_positions_layout = {
    .columns = columns, .count = sizeof(columns) / sizeof(columns[0]), .check = check};
