/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as rows of CSV: an instrument, string, place, step or file each. */
#include <stdio.h>
#include <string.h>

#include "csv_cells.h"

static void lengths_head(struct mensur_csv *row) {
    mensur_csv_word(row, "instrument");
    mensur_csv_keys(row, MENSUR_SCOPE_INSTRUMENT);
    mensur_csv_end(row);
}

static void tension_head(struct mensur_csv *row) {
    mensur_csv_word(row, "instrument");
    mensur_csv_word(row, "string_length_mm");
    mensur_csv_keys(row, MENSUR_SCOPE_STRING);
    mensur_csv_end(row);
}

static void fingers_head(struct mensur_csv *row) {
    mensur_csv_word(row, "instrument");
    mensur_csv_word(row, "string_length_mm");
    mensur_csv_keys(row, MENSUR_SCOPE_HAND);
    mensur_csv_keys(row, MENSUR_SCOPE_PLACE);
    mensur_csv_end(row);
}

static void csv_lengths(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        lengths_head(&row);
    }
    mensur_csv_text(&row, profile->instrument);
    mensur_csv_cells(&row, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, false);
    mensur_csv_end(&row);
}

static void csv_tension(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        tension_head(&row);
    }
    for (size_t i = 0; i < profile->string_count; i++) {
        mensur_csv_text(&row, profile->instrument);
        mensur_csv_number(&row, MENSUR_LENGTH, profile->lengths.string_length);
        mensur_csv_cells(&row, MENSUR_SCOPE_STRING, &profile->strings[i], false);
        mensur_csv_end(&row);
    }
}

static void csv_fingers(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->style.true_places) {
        mensur_csv_true_places(presenter, profile);
        return;
    }
    if (presenter->answers == 0) {
        fingers_head(&row);
    }
    for (size_t i = 0; i < profile->place_count; i++) {
        mensur_csv_text(&row, profile->instrument);
        mensur_csv_number(&row, MENSUR_LENGTH, profile->lengths.string_length);
        mensur_csv_cells(&row, MENSUR_SCOPE_HAND, profile, false);
        mensur_csv_cells(&row, MENSUR_SCOPE_PLACE, &profile->places[i], false);
        mensur_csv_end(&row);
    }
}

static void compared_row(struct mensur_csv *row, const struct mensur_profile *profile,
                         bool difference) {
    mensur_csv_word(row, difference ? "difference" : "instrument");
    mensur_csv_text(row, profile->instrument);
    mensur_csv_cells(row, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    mensur_csv_cells(row, MENSUR_SCOPE_TOTAL, profile, difference);
    mensur_csv_end(row);
}

static void csv_comparison(struct mensur_presenter *presenter,
                           const struct mensur_comparison *comparison) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        mensur_csv_word(&row, "row");
        mensur_csv_word(&row, "instrument");
        mensur_csv_keys(&row, MENSUR_SCOPE_INSTRUMENT);
        mensur_csv_keys(&row, MENSUR_SCOPE_TOTAL);
        mensur_csv_end(&row);
    }
    for (size_t i = 0; i < comparison->count; i++) {
        compared_row(&row, &comparison->instruments[i], false);
    }
    for (size_t i = 0; i + 1 < comparison->count; i++) {
        compared_row(&row, &comparison->differences[i], true);
    }
}

static void decision_head(struct mensur_csv *row, const struct mensur_decision *decision) {
    mensur_csv_word(row, "instrument");
    mensur_csv_word(row, decision->for_stop ? "stop_mm" : "neck_mm");
    mensur_csv_keys(row, MENSUR_SCOPE_STEP);
    for (size_t i = 0; i < decision->present.string_count; i++) {
        char key[32];
        snprintf(key, sizeof(key), "tension_%s_N", decision->present.strings[i].note);
        mensur_csv_word(row, key);
    }
    mensur_csv_keys(row, MENSUR_SCOPE_STEP_TOTAL);
    mensur_csv_word(row, "present");
    mensur_csv_word(row, "recommended");
    mensur_csv_end(row);
}

static void step_row(struct mensur_csv *row, const struct mensur_decision *decision,
                     const struct mensur_step *step) {
    mensur_csv_text(row, decision->present.instrument);
    mensur_csv_number(row, MENSUR_LENGTH, step->place);
    mensur_csv_cells(row, MENSUR_SCOPE_STEP, step, false);
    for (size_t i = 0; i < decision->present.string_count; i++) {
        mensur_csv_number(row, MENSUR_FORCE, step->tension[i]);
    }
    mensur_csv_cells(row, MENSUR_SCOPE_STEP_TOTAL, step, false);
    mensur_csv_known(row, step->present ? MENSUR_YES : MENSUR_NO);
    mensur_csv_known(row, step->recommended ? MENSUR_YES : MENSUR_NO);
    mensur_csv_end(row);
}

static void csv_decision(struct mensur_presenter *presenter,
                         const struct mensur_decision *decision) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        decision_head(&row, decision);
    }
    for (size_t i = 0; i < decision->step_count; i++) {
        step_row(&row, decision, &decision->steps[i]);
    }
}

static void choice_rows(struct mensur_csv *row, const struct mensur_restringing *restringing,
                        size_t number) {
    const struct mensur_choice *choice = &restringing->choices[number];
    char digits[32];
    snprintf(digits, sizeof(digits), "%zu", number + 1);
    for (size_t i = 0; i < restringing->string_count; i++) {
        mensur_csv_word(row, digits);
        mensur_csv_text(row, restringing->present.instrument);
        mensur_csv_cells(row, MENSUR_SCOPE_STRING, &choice->strings[i], false);
        mensur_csv_cells(row, MENSUR_SCOPE_CHOICE, choice, false);
        mensur_csv_end(row);
    }
}

static void csv_restringing(struct mensur_presenter *presenter,
                            const struct mensur_restringing *restringing) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        mensur_csv_word(&row, "choice");
        mensur_csv_word(&row, "instrument");
        mensur_csv_keys(&row, MENSUR_SCOPE_STRING);
        mensur_csv_keys(&row, MENSUR_SCOPE_CHOICE);
        mensur_csv_end(&row);
    }
    for (size_t i = 0; i < restringing->choice_count; i++) {
        choice_rows(&row, restringing, i);
    }
}

static void csv_check(struct mensur_presenter *presenter, const char *file, long rows,
                      const struct mensur_texts *warnings) {
    struct mensur_csv row = {&presenter->out, false};
    if (presenter->answers == 0) {
        mensur_csv_word(&row, "file");
        mensur_csv_word(&row, "rows");
        mensur_csv_word(&row, "warnings");
        mensur_csv_end(&row);
    }
    char digits[32];
    mensur_csv_text(&row, file);
    snprintf(digits, sizeof(digits), "%ld", rows);
    mensur_csv_word(&row, digits);
    snprintf(digits, sizeof(digits), "%zu", warnings->count);
    mensur_csv_word(&row, digits);
    mensur_csv_end(&row);
}

static void csv_open(struct mensur_presenter *presenter) {
    (void)presenter; /* the head waits for the first answer, which settles its columns */
}

/* A file of instruments may be without a row; its answer still has a head. */
static void csv_close(struct mensur_presenter *presenter) {
    struct mensur_csv row = {&presenter->out, false};
    const char *command = presenter->heading->command;
    if (presenter->answers > 0) {
        return;
    }
    if (strcmp(command, "lengths") == 0) {
        lengths_head(&row);
    } else if (strcmp(command, "tension") == 0) {
        tension_head(&row);
    } else if (strcmp(command, "fingers") == 0) {
        fingers_head(&row);
    }
}

const struct mensur_writer mensur_csv_writer = {
    csv_open,        csv_lengths,         csv_tension, csv_fingers, csv_comparison, csv_decision,
    csv_restringing, mensur_csv_reaching, csv_check,   csv_close,   NULL,
};
