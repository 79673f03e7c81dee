/* SPDX-License-Identifier: GPL-3.0-or-later */
/* players.csv: a stature, or upper arm and forearm, and further measurements of a player. */
#include <math.h>

#include "table.h"
#include "tables.h"

enum {
    NAME,
    STATURE,
    UPPER_ARM,
    FOREARM,
    HAND,
    SPAN,
    REST_SIDE,
    REST_FORWARD,
    YAW,
    NOTE,
    COLUMN_COUNT
};

static const char *const columns[COLUMN_COUNT] = {"name", "stature", "upper_arm", "forearm",
                                                  "hand", "span",    "rest_side", "rest_forward",
                                                  "yaw",  "note"};

static bool has_enough(const struct reading *reading) {
    return mensur_has_column(reading, STATURE) ||
           (mensur_has_column(reading, UPPER_ARM) && mensur_has_column(reading, FOREARM));
}

static void read_yaw(struct reading *reading, struct mensur_player *player) {
    player->yaw = mensur_cell_quantity(reading, YAW, MENSUR_ANGLE, RANGE_ANY);
    if (fabs(mensur_from_si(MENSUR_ANGLE, player->yaw.value)) > 180.0) {
        mensur_cell_error(reading, YAW, "yaw: it is out of its range, which is -180 to 180 deg");
    }
}

static void read_measures(struct reading *reading, struct mensur_player *player) {
    const struct {
        struct mensur_quantity *to;
        enum range range;
    } lengths[] = {
        [STATURE] = {&player->stature, RANGE_POSITIVE},
        [UPPER_ARM] = {&player->upper_arm, RANGE_POSITIVE},
        [FOREARM] = {&player->forearm, RANGE_POSITIVE},
        [HAND] = {&player->hand, RANGE_POSITIVE},
        [SPAN] = {&player->span, RANGE_POSITIVE},
        [REST_SIDE] = {&player->rest_side, RANGE_ANY},
        [REST_FORWARD] = {&player->rest_forward, RANGE_ANY},
    };
    for (int i = STATURE; i <= REST_FORWARD; i++) {
        *lengths[i].to = mensur_cell_quantity(reading, i, MENSUR_LENGTH, lengths[i].range);
    }
    read_yaw(reading, player);
}

static enum mensur_status keep(struct reading *reading, struct mensur_player *player) {
    struct mensur_stock *stock = reading->context;
    struct mensur_player *rows = mensur_grow(stock->players, stock->player_count, sizeof(*rows));
    if (rows == NULL) {
        return MENSUR_MEMORY;
    }
    stock->players = rows;
    enum mensur_status status = mensur_cell_copy(reading, NAME, &player->name);
    if (status == MENSUR_OK) {
        status = mensur_cell_copy(reading, NOTE, &player->note);
    }
    if (status != MENSUR_OK) {
        mensur_player_clear(player);
        return status;
    }
    rows[stock->player_count++] = *player;
    return MENSUR_OK;
}

static enum mensur_status take_row(struct reading *reading) {
    struct mensur_player player = {0};
    read_measures(reading, &player);
    bool enough = mensur_cell_given(reading, STATURE) ||
                  (mensur_cell_given(reading, UPPER_ARM) && mensur_cell_given(reading, FOREARM));
    if (!enough && !reading->head_bad) {
        mensur_cell_error(reading, STATURE,
                          "stature: the cell is empty; a player needs a stature, or both upper_arm "
                          "and forearm");
    }
    return mensur_row_good(reading) ? keep(reading, &player) : MENSUR_OK;
}

static const struct layout layout = {
    .columns = columns,
    .count = COLUMN_COUNT,
    .required = 1,
    .named = true,
    .has_enough = has_enough,
    .needs_one = "the columns are missing that every row needs: stature, or both upper_arm and "
                 "forearm",
    .take_row = take_row};

enum mensur_status mensur_read_players(struct mensur_source *source, struct mensur_report *report,
                                       struct mensur_stock *stock) {
    return mensur_table_read_into(&layout, source, report, stock);
}
