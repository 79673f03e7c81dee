/* SPDX-License-Identifier: GPL-3.0-or-later */
/* True finger places beside the simple ones, string by string. */
#include <stdio.h>
#include <string.h>

#include "text.h"

#define STRINGS 4 /* in one block */

/* Where each string's places begin. */
struct block {
    const struct mensur_profile *profile;
    size_t starts[STRINGS];
    size_t strings;
};

static bool starts_string(const struct mensur_profile *profile, size_t i) {
    return i == 0 || strcmp(profile->true_places[i].note, profile->true_places[i - 1].note) != 0;
}

/* "19.8-20.0": from the place of the held string to that of the free one. */
static struct mensur_shown between(const struct mensur_style *style,
                                   const struct mensur_true_place *place) {
    struct mensur_shown low = mensur_show_within(style, MENSUR_LENGTH, place->from_nut_low, 6);
    struct mensur_shown high = mensur_show_within(style, MENSUR_LENGTH, place->from_nut_high, 6);
    struct mensur_shown both;
    if (strcmp(low.text, high.text) == 0) {
        return low;
    }
    snprintf(both.text, sizeof(both.text), "%.7s-%.7s", low.text, high.text);
    return both;
}

/* The place of a block's string at the same semitone as row i of its first; NULL where none is. */
static const struct mensur_true_place *place_at(const struct block *block, size_t string,
                                                size_t i) {
    size_t at = block->starts[string] + i;
    bool own =
        at < block->profile->true_place_count && (i == 0 || !starts_string(block->profile, at));
    return own ? &block->profile->true_places[at] : NULL;
}

static const struct mensur_finger_place *simple_place(const struct mensur_profile *profile,
                                                      double semitones) {
    for (size_t i = 0; i < profile->place_count; i++) {
        if (!(profile->places[i].semitones < semitones)) {
            return &profile->places[i];
        }
    }
    return NULL;
}

static void write_rows(struct mensur_presenter *presenter, const struct block *block,
                       const struct mensur_table *table) {
    const struct mensur_style *style = &presenter->style;
    const struct mensur_true_place *first;
    for (size_t i = 0; (first = place_at(block, 0, i)) != NULL; i++) {
        const struct mensur_finger_place *simple = simple_place(block->profile, first->semitones);
        struct mensur_shown cells[2 + STRINGS] = {
            mensur_show(style, MENSUR_NUMBER, first->semitones), {"?"}};
        const char *texts[2 + STRINGS] = {cells[0].text, cells[1].text};
        if (simple != NULL) {
            cells[1] = mensur_show(style, MENSUR_LENGTH, simple->from_nut);
        }
        for (size_t j = 0; j < block->strings; j++) {
            const struct mensur_true_place *place = place_at(block, j, i);
            cells[2 + j] = place != NULL ? between(style, place) : (struct mensur_shown){"?"};
            texts[2 + j] = cells[2 + j].text;
        }
        mensur_table_row(table, texts);
    }
}

static void write_block(struct mensur_presenter *presenter, const struct block *block) {
    const char *unit = mensur_shown_unit(&presenter->style, MENSUR_LENGTH);
    struct mensur_table_column columns[2 + STRINGS] = {{{"semitones", ""}, 10, false},
                                                       {{"simple", unit}, 10, false}};
    for (size_t j = 0; j < block->strings; j++) {
        columns[2 + j] = (struct mensur_table_column){
            {block->profile->true_places[block->starts[j]].note, unit}, 15, false};
    }
    struct mensur_table table = {&presenter->out, columns, 2 + block->strings};
    mensur_table_head(&table);
    write_rows(presenter, block, &table);
}

void mensur_text_true_places(struct mensur_presenter *presenter,
                             const struct mensur_profile *profile) {
    struct block block = {.profile = profile};
    mensur_text_title(presenter, "True places");
    if (profile->true_place_count == 0) {
        mensur_paragraph(&presenter->out, 0, 0,
                         "Not known: they need stop, neck and the stiffness of the strings.");
        return;
    }
    for (size_t i = 0; i < profile->true_place_count; i++) {
        if (starts_string(profile, i)) {
            block.starts[block.strings++] = i;
        }
        if (block.strings == STRINGS &&
            place_at(&block, STRINGS - 1, i + 1 - block.starts[STRINGS - 1]) == NULL) {
            write_block(presenter, &block);
            block.strings = 0;
        }
    }
    if (block.strings > 0) {
        write_block(presenter, &block);
    }
    mensur_paragraph(&presenter->out, 0, 0,
                     "Stopping stretches a string and sharpens it, so the finger stands nearer to "
                     "the nut than the simple law says: from a string that is held at nut and "
                     "bridge to one that slides there freely. Measured from the nut.");
}
