/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach as rows of CSV, an instrument each; and true places, one each. */
#include <stdio.h>

#include "csv_cells.h"

/* As many positions as the instrument with most of them has; positions are counted alike in all
 * families. */
static const struct mensur_reach *most_positions(const struct mensur_reaching *reaching) {
    const struct mensur_reach *most = &reaching->instruments[0];
    for (size_t i = 1; i < reaching->count; i++) {
        if (reaching->instruments[i].position_count > most->position_count) {
            most = &reaching->instruments[i];
        }
    }
    return most;
}

static void reaching_head(struct mensur_csv *row, const struct mensur_reach *most) {
    mensur_csv_word(row, "instrument");
    mensur_csv_word(row, "player");
    mensur_csv_keys(row, MENSUR_SCOPE_REACH);
    for (size_t i = 0; i < most->position_count; i++) {
        char key[32];
        snprintf(key, sizeof(key), "frame_%s_mm", most->positions[i].name);
        mensur_csv_word(row, key);
    }
    mensur_csv_word(row, "span_mm");
    mensur_csv_end(row);
}

static void reach_row(struct mensur_csv *row, const struct mensur_reaching *reaching,
                      const struct mensur_reach *reach, size_t positions) {
    mensur_csv_text(row, reach->instrument);
    mensur_csv_text(row, reaching->player);
    mensur_csv_cells(row, MENSUR_SCOPE_REACH, reach, false);
    for (size_t i = 0; i < positions; i++) {
        if (i < reach->position_count) {
            mensur_csv_number(row, MENSUR_LENGTH, reach->positions[i].frame);
        } else {
            mensur_csv_word(row, "");
        }
    }
    mensur_csv_number(row, MENSUR_LENGTH, reaching->span);
    mensur_csv_end(row);
}

void mensur_csv_reaching(struct mensur_presenter *presenter,
                         const struct mensur_reaching *reaching) {
    struct mensur_csv row = {&presenter->out, false};
    if (reaching->count == 0) {
        return;
    }
    const struct mensur_reach *most = most_positions(reaching);
    if (presenter->answers == 0) {
        reaching_head(&row, most);
    }
    for (size_t i = 0; i < reaching->count; i++) {
        reach_row(&row, reaching, &reaching->instruments[i], most->position_count);
    }
}

void mensur_csv_true_places(struct mensur_presenter *presenter,
                            const struct mensur_profile *profile) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        mensur_csv_word(&row, "instrument");
        mensur_csv_keys(&row, MENSUR_SCOPE_TRUE_PLACE);
        mensur_csv_end(&row);
    }
    for (size_t i = 0; i < profile->true_place_count; i++) {
        mensur_csv_text(&row, profile->instrument);
        mensur_csv_cells(&row, MENSUR_SCOPE_TRUE_PLACE, &profile->true_places[i], false);
        mensur_csv_end(&row);
    }
}
