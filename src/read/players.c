/* SPDX-License-Identifier: GPL-3.0-or-later */
/* players.csv: a stature, or upper arm and forearm, the age, and further measurements of a
 * player. */
#include <math.h>

#include "tables.h"

enum { NAME, STATURE, UPPER_ARM, FOREARM };

static void check_yaw(struct reading *reading, int column, void *row) {
    const struct mensur_player *player = row;
    if (fabs(mensur_from_si(MENSUR_ANGLE, player->yaw.value)) > 180.0) {
        mensur_cell_error(reading, column, "yaw: it is out of its range, which is -180 to 180 deg");
    }
}

static void check_age(struct reading *reading, int column, void *row) {
    const struct mensur_player *player = row;
    if (player->age > 120.0) {
        mensur_cell_error(reading, column, "age: it is out of its range, which is up to 120 years");
    }
}

static void check(struct reading *reading, void *row) {
    (void)row;
    if (!reading->head_bad && !mensur_has_enough(reading, mensur_cell_given)) {
        mensur_cell_error(reading, STATURE,
                          "stature: the cell is empty; a player needs a stature, or both upper_arm "
                          "and forearm");
    }
}

#define AT(member) .at = offsetof(struct mensur_player, member)

static const struct column columns[] = {
    [NAME] = {.name = "name", .how = CELL_TEXT, AT(name), .required = true},
    [STATURE] = {.name = "stature", .how = CELL_QUANTITY, AT(stature)},
    [UPPER_ARM] = {.name = "upper_arm", .how = CELL_QUANTITY, AT(upper_arm)},
    [FOREARM] = {.name = "forearm", .how = CELL_QUANTITY, AT(forearm)},
    {.name = "age", .how = CELL_VALUE, AT(age), .kind = MENSUR_NUMBER, .rule = check_age},
    {.name = "hand", .how = CELL_QUANTITY, AT(hand)},
    {.name = "span", .how = CELL_QUANTITY, AT(span)},
    {.name = "rest_side", .how = CELL_QUANTITY, AT(rest_side), .domain = MENSUR_ANY_SIGN},
    {.name = "rest_forward", .how = CELL_QUANTITY, AT(rest_forward), .domain = MENSUR_ANY_SIGN},
    {.name = "yaw",
     .how = CELL_QUANTITY,
     AT(yaw),
     .kind = MENSUR_ANGLE,
     .domain = MENSUR_ANY_SIGN,
     .rule = check_yaw},
    {.name = "note", .how = CELL_TEXT, AT(note)},
};

const struct layout mensur_players_layout = {
    .columns = columns,
    .count = sizeof(columns) / sizeof(columns[0]),
    .named = true,
    .enough = {{STATURE, STATURE}, {UPPER_ARM, FOREARM}},
    .needs_one = "the columns are missing that every row needs: stature, or both upper_arm and "
                 "forearm",
    .check = check};
