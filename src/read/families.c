/* SPDX-License-Identifier: GPL-3.0-or-later */
/* families.csv: how a family is held, its positions, the usual value of each measurement. */
#include <math.h>
#include <string.h>

#include "number.h"
#include "tables.h"

static void read_held(struct reading *reading, int column, void *row) {
    static const char *const words[] = {
        [MENSUR_CHIN] = "chin", [MENSUR_KNEE] = "knee", [MENSUR_STANDING] = "standing"};
    struct mensur_family *family = row;
    const char *text = mensur_cell_text(reading, column);
    char cut[MENSUR_SHORT_ROOM];
    for (int i = 0; text != NULL && i < 3; i++) {
        if (strcmp(text, words[i]) == 0) {
            family->held = (enum mensur_held)i;
            return;
        }
    }
    mensur_cell_error(reading, column, "held: \"%s\" will not do; write chin, knee or standing",
                      text != NULL ? mensur_log_short(text, cut) : "");
}

static void need_frame(struct reading *reading, int column, void *row) {
    (void)row;
    if (!mensur_cell_given(reading, column)) {
        mensur_cell_error(reading, column,
                          "frame_semitones: the cell is empty; write how many semitones the hand "
                          "spans from first to fourth finger");
    }
}

/* Rising counts of semitones above the open string, separated by blanks; false where the text is
 * anything else. */
static bool read_positions(const char *text, bool decimal_comma, struct mensur_family *family) {
    size_t count = 0;
    double before = 0;
    while (*text != '\0') {
        size_t used;
        double value;
        if (count == MENSUR_POSITIONS_MAX ||
            mensur_number_read(text, strlen(text), decimal_comma, &used, &value) != MENSUR_OK ||
            (text[used] != ' ' && text[used] != '\0') || !(value > before)) {
            return false;
        }
        family->positions[count++] = before = value;
        text += used + strspn(text + used, " ");
    }
    family->position_count = count;
    return count > 0;
}

static void take_positions(struct reading *reading, int column, void *row) {
    const char *text = mensur_cell_text(reading, column);
    if (text == NULL || !read_positions(text, reading->row->decimal_comma, row)) {
        char cut[MENSUR_SHORT_ROOM];
        mensur_cell_error(reading, column,
                          "positions: \"%s\" will not do; write up to %d rising counts of "
                          "semitones, for example 1 2 4 5 7",
                          text != NULL ? mensur_log_short(text, cut) : "", MENSUR_POSITIONS_MAX);
    }
}

/* Without an offset the clearance is the mean. */
static void check(struct reading *reading, void *row) {
    struct mensur_family *family = row;
    (void)reading;
    if (isnan(family->clearance_high_offset)) {
        family->clearance_high_offset = 0.0;
    }
    if (isnan(family->clearance_low_offset)) {
        family->clearance_low_offset = 0.0;
    }
}

#define AT(member) .at = offsetof(struct mensur_family, member)

static const struct column columns[] = {
    {.name = "name", .how = CELL_TEXT, AT(name), .required = true},
    {.name = "held", .required = true, .rule = read_held},
    {.name = "frame_semitones",
     .how = CELL_VALUE,
     AT(frame_semitones),
     .kind = MENSUR_SEMITONES,
     .required = true,
     .rule = need_frame},
    {.name = "positions", .required = true, .rule = take_positions},
    {.name = "source", .how = CELL_TEXT, AT(source)},
#define USUAL(id, title, values, meaning)                                                          \
    {.name = (title), .how = CELL_VALUE, AT(usual[MENSUR_FIELD_##id]), .domain = MENSUR_##values},
    MENSUR_FIELD_LIST(USUAL)
#undef USUAL
        {.name = "clearance_high_offset",
         .how = CELL_VALUE,
         AT(clearance_high_offset),
         .domain = MENSUR_ANY_SIGN},
    {.name = "clearance_low_offset",
     .how = CELL_VALUE,
     AT(clearance_low_offset),
     .domain = MENSUR_ANY_SIGN},
};

const struct layout mensur_families_layout = {.columns = columns,
                                              .count = sizeof(columns) / sizeof(columns[0]),
                                              .named = true,
                                              .check = check};
