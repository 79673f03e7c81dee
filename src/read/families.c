/* SPDX-License-Identifier: GPL-3.0-or-later */
/* families.csv: how a family is held, its positions, the usual value of each measurement. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"
#include "shop_files.h"
#include "tables.h"
#include "usual.h"

/* The columns that are spoken of, by number. */
enum { HELD = 1, SMALL_FAMILY = 9 };

static void read_held(struct reading *reading, int column, void *row) {
    struct mensur_family *family = row;
    const char *text = mensur_cell_text(reading, column);
    char cut[MENSUR_SHORT_ROOM];
    for (int i = 0; text != NULL && i < 3; i++) {
        if (strcmp(text, mensur_held_word((enum mensur_held)i)) == 0) {
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
        struct mensur_hand *hand = &family->positions[count];
        *hand = (struct mensur_hand){.name = "half", .first = value};
        if (count > 0) {
            snprintf(hand->name, sizeof hand->name, "%u", (unsigned)(count % MENSUR_POSITIONS_MAX));
        }
        count++;
        before = value;
        text += used + strspn(text + used, " ");
    }
    family->position_count = count;
    return count > 0;
}

/* The rows of a list of positions.csv, which has MENSUR_POSITIONS_MAX at most; false where there is
 * none. */
static bool take_list(const struct reading *reading, const char *list,
                      struct mensur_family *family) {
    size_t count = 0;
    for (size_t i = 0; i < reading->stock->position_count; i++) {
        const struct mensur_list_position *row = &reading->stock->positions[i];
        if (strcmp(row->list, list) == 0) {
            struct mensur_hand *hand = &family->positions[count++];
            *hand = (struct mensur_hand){.first = row->first, .frame = row->frame};
            memcpy(hand->name, row->name, strlen(row->name) + 1);
        }
    }
    family->position_count = count;
    return count > 0;
}

/* Counts of semitones, or the name of a list. Counts are kept with decimal points. */
static void take_positions(struct reading *reading, int column, void *row) {
    char *text = mensur_cell_text(reading, column);
    char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
    if (text != NULL && take_list(reading, text, row)) {
        return;
    }
    if (text != NULL && read_positions(text, reading->row->decimal_comma, row)) {
        for (char *comma; (comma = strchr(text, ',')) != NULL;) {
            *comma = '.';
        }
        return;
    }
    if (text == NULL || strchr("+-.0123456789", *text) != NULL) {
        mensur_cell_error(
            reading, column,
            "positions: \"%s\" will not do; write up to %d rising counts of "
            "semitones, for example 1 2 4 5 7, or the name of a list in positions.csv",
            text != NULL ? mensur_log_short(text, cut) : "", MENSUR_POSITIONS_MAX);
    } else if (!reading->bad.is[MENSUR_TABLE_POSITIONS]) {
        struct known_names known = mensur_names_in(reading->stock, MENSUR_TABLE_POSITIONS);
        mensur_cell_error(reading, column, "positions: positions.csv has no list \"%s\"; %s",
                          mensur_log_short(text, cut),
                          mensur_reading_suggest(reading, text, &known, suggestion));
    }
}

static void check_frets(struct reading *reading, int column, void *row) {
    const struct mensur_family *family = row;
    if (!isnan(family->frets) && !(family->frets >= 1.0 && family->frets <= 24.0 &&
                                   !(family->frets > floor(family->frets)))) {
        mensur_cell_error(reading, column,
                          "frets: write how many there are, 1 to 24, for example 7; leave the cell "
                          "empty where there are none");
    }
}

static void check_share(struct reading *reading, int column, void *row) {
    const struct mensur_family *family = row;
    if (family->board_share >= 1.0) {
        mensur_cell_error(reading, column,
                          "board_share: it is 1 or more; write the board's share of the string's "
                          "length, for example 0.82");
    }
}

/* A family whose values another takes stands in a row above. */
static void check_above(struct reading *reading, int column, void *row) {
    const char *name = mensur_cell_text(reading, column);
    (void)row;
    if (name != NULL && mensur_stock_family(reading->stock, name) == NULL) {
        char cut[MENSUR_SHORT_ROOM], suggestion[MENSUR_SUGGEST_ROOM];
        struct known_names known = mensur_names_in(reading->stock, MENSUR_TABLE_FAMILIES);
        mensur_cell_error(reading, column, "%s: there is no family \"%s\" in a row above; %s",
                          reading->layout->columns[column].name, mensur_log_short(name, cut),
                          mensur_reading_suggest(reading, name, &known, suggestion));
    }
}

/* What is usual in a family where it says nothing itself: that of the family it is like, at its
 * stop. */
static void take_like(const struct reading *reading, struct mensur_family *family) {
    const struct mensur_family *like = mensur_stock_family(reading->stock, family->like);
    if (like == NULL) {
        return;
    }
    struct mensur_size at = mensur_size_at(reading->stock, like, family->usual[MENSUR_FIELD_STOP]);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        enum mensur_field field = (enum mensur_field)f;
        bool neck = field == MENSUR_FIELD_NECK && !isnan(family->neck_semitones);
        if (isnan(family->usual[f]) && !neck) {
            family->usual[f] = mensur_size_usual(&at, field);
        }
        if (isnan(family->spread[f])) {
            family->spread[f] = mensur_size_spread(&at, field);
        }
    }
    if (isnan(family->board_share)) {
        family->board_share = mensur_size_board_share(&at);
    }
    if (isnan(family->afterlength_share)) {
        family->afterlength_share = mensur_size_afterlength_share(&at);
    }
}

/* Outer clearances less their mean; without any the clearance is the mean. */
static void check(struct reading *reading, void *row) {
    struct mensur_family *family = row;
    for (size_t i = 0; i < family->position_count; i++) {
        struct mensur_hand *hand = &family->positions[i];
        hand->frame = hand->frame > 0.0 ? hand->frame : family->frame_semitones;
    }
    if (family->like != NULL) {
        take_like(reading, family);
    }
    double half =
        (family->usual[MENSUR_FIELD_CLEARANCE_HIGH] - family->usual[MENSUR_FIELD_CLEARANCE_LOW]) /
        2.0;
    half = isnan(half) ? 0.0 : half;
    if (isnan(family->clearance_high_offset)) {
        family->clearance_high_offset = half;
    }
    if (isnan(family->clearance_low_offset)) {
        family->clearance_low_offset = -half;
    }
    if (!reading->head_bad && !reading->row_bad && family->small_family != NULL &&
        !(family->small_to < family->own_from)) {
        mensur_cell_error(reading, SMALL_FAMILY,
                          "small_family: it needs small_to and own_from, the stop up to which its "
                          "values hold and a longer one from which the row's own do");
    }
}

#define AT(member) .at = offsetof(struct mensur_family, member)

static const struct column columns[] = {
    {.name = "name", .how = CELL_TEXT, AT(name), .required = true},
    [HELD] = {.name = "held", .required = true, .rule = read_held},
    {.name = "frame_semitones",
     .how = CELL_VALUE,
     AT(frame_semitones),
     .kind = MENSUR_SEMITONES,
     .required = true,
     .rule = need_frame},
    {.name = "positions",
     .how = CELL_TEXT,
     AT(positions_as_written),
     .required = true,
     .rule = take_positions},
    {.name = "like", .how = CELL_TEXT, AT(like), .rule = check_above},
    {.name = "neck_semitones", .how = CELL_VALUE, AT(neck_semitones), .kind = MENSUR_SEMITONES},
    {.name = "board_share",
     .how = CELL_VALUE,
     AT(board_share),
     .kind = MENSUR_NUMBER,
     .rule = check_share},
    {.name = "afterlength_share", .how = CELL_VALUE, AT(afterlength_share), .kind = MENSUR_NUMBER},
    {.name = "frets", .how = CELL_VALUE, AT(frets), .kind = MENSUR_NUMBER, .rule = check_frets},
    [SMALL_FAMILY] = {.name = "small_family",
                      .how = CELL_TEXT,
                      AT(small_family),
                      .rule = check_above},
    {.name = "small_to", .how = CELL_VALUE, AT(small_to)},
    {.name = "own_from", .how = CELL_VALUE, AT(own_from)},
/* The spreads of what is a share of the string are parts of it. */
#define USUAL(id, title, unit, values, power, way, meaning)                                        \
    {.name = (title),                                                                              \
     .how = CELL_VALUE,                                                                            \
     AT(usual[MENSUR_FIELD_##id]),                                                                 \
     .kind = MENSUR_##unit,                                                                        \
     .domain = MENSUR_##values},                                                                   \
        {.name = title "_spread",                                                                  \
         .how = CELL_VALUE,                                                                        \
         AT(spread[MENSUR_FIELD_##id]),                                                            \
         .kind = MENSUR_FIELD_##id == MENSUR_FIELD_BOARD_LENGTH ||                                 \
                         MENSUR_FIELD_##id == MENSUR_FIELD_AFTERLENGTH                             \
                     ? MENSUR_NUMBER                                                               \
                     : MENSUR_##unit,                                                              \
         .domain = MENSUR_NOT_NEGATIVE},
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
    {.name = "source", .how = CELL_TEXT, AT(source)},
};

const struct layout mensur_families_layout = {.columns = columns,
                                              .count = sizeof(columns) / sizeof(columns[0]),
                                              .named = true,
                                              .check = check};

bool mensur_family_cell(const struct mensur_family *family, size_t i,
                        struct mensur_table_cell *cell) {
    if (i >= sizeof columns / sizeof columns[0]) {
        return false;
    }
    const struct column *column = &columns[i];
    const void *record = family;
    const void *member = (const char *)record + column->at;
    *cell = (struct mensur_table_cell){.head = column->name, .kind = column->kind, .number = NAN};
    if (column->how == CELL_TEXT) {
        cell->text = *(char *const *)member;
    } else if (column->how == CELL_VALUE) {
        cell->number = *(const double *)member;
    } else { /* held: of all others the texts are kept */
        cell->text = mensur_held_word(family->held);
    }
    return true;
}
