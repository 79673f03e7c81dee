/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the fingers fall, how wide the hand stands in each position, and the true places. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tell.h"

static void tell_sentence(struct mensur_document *document, const struct mensur_profile *profile) {
    /* The first position, in which the hand is measured by every teacher. */
    const struct mensur_position *first = mensur_told_record(profile, MENSUR_SCOPE_POSITION, "1");
    if (first == NULL && profile->position_count > 0) {
        first = &profile->positions[0];
    }
    mensur_paragraph(document, 0, "%n, %l of string", profile->instrument,
                     profile->lengths.string_length);
    if (first != NULL) {
        mensur_say(document, ": the hand spans %s in position %s",
                   mensur_show_unit(&document->style, MENSUR_LENGTH, first->frame).text,
                   first->name);
        if (document->style.full && !isnan(profile->frame_semitones)) {
            mensur_say(document, ", first finger to fourth, %b semitones",
                       profile->frame_semitones);
        }
    }
    mensur_say(document, ".");
}

static bool fretted(const struct mensur_profile *profile) {
    return profile->frets >= 1.0;
}

/* Of an instrument with frets they alone are told, and all places in a full answer. */
static size_t place_rows(const struct mensur_document *document,
                         const struct mensur_profile *profile) {
    size_t frets = fretted(profile) ? (size_t)profile->frets + 1 : profile->place_count;
    return document->style.full || frets > profile->place_count ? profile->place_count : frets;
}

static void tell_place(struct mensur_document *document, const struct mensur_profile *profile,
                       size_t i) {
    if (i >= place_rows(document, profile)) {
        mensur_cells(document, 3, "", "", "");
        return;
    }
    const struct mensur_finger_place *place = &profile->places[i];
    mensur_cell_figure(document, MENSUR_NUMBER, place->semitones);
    mensur_cell_figure(document, MENSUR_LENGTH, place->from_nut);
    if (isnan(place->to_next)) {
        mensur_cell(document, "");
    } else {
        mensur_cell_figure(document, MENSUR_LENGTH, place->to_next);
    }
}

/* Within 80 columns in two halves: the lower one, and the upper one beside it. */
static void tell_places(struct mensur_document *document, const struct mensur_profile *profile) {
    const char *semitone = fretted(profile) ? "fret" : NULL;
    const struct mensur_told low[] = {{"semitones", 10, semitone, "", false},
                                      {"from_nut_mm", 11, NULL, NULL, false},
                                      {"to_next_mm", 10, NULL, NULL, false}},
                             high[] = {{"semitones", 18, semitone, "", false},
                                       {"from_nut_mm", 11, NULL, NULL, false},
                                       {"to_next_mm", 10, NULL, NULL, false}};
    size_t count = place_rows(document, profile);
    size_t rows = document->narrow ? (count + 1) / 2 : count;
    mensur_table(document, MENSUR_TABLE,
                 fretted(profile) ? "Frets on %n, from the nut and from fret to fret"
                                  : "Finger places on %n, above the open string",
                 profile->instrument);
    mensur_tell_columns(document, MENSUR_SCOPE_PLACE, low, 3);
    if (document->narrow) {
        mensur_tell_columns(document, MENSUR_SCOPE_PLACE, high, 3);
    }
    for (size_t i = 0; i < rows; i++) {
        mensur_row(document);
        tell_place(document, profile, i);
        if (document->narrow) {
            tell_place(document, profile, i + rows);
        }
    }
}

/* The longest name, and whether one is a thumb's. */
static size_t widest_name(const struct mensur_told_positions *told, bool *thumb) {
    size_t widest = 0;
    *thumb = false;
    for (size_t i = 0; i < told->count; i++) {
        size_t width = strlen(told->names[i]) + 1;
        widest = width > widest ? width : widest;
        *thumb = *thumb || strncmp(told->names[i], "thumb", 5) == 0;
    }
    return widest;
}

static void explain_frame(struct mensur_document *document, bool thumb) {
    if (document->explain) {
        mensur_paragraph(document, 0,
                         "Fingers are measured from the nut; the frame is first finger to "
                         "fourth%s.",
                         thumb ? ", in thumb position thumb to third" : "");
    }
}

enum { NAME_LEAST = 10, NARROW_ROWS = 9 };

/* More than fit a screen stand in two halves side by side, without the fourth finger. */
static void tell_positions(struct mensur_document *document, const struct mensur_profile *profile) {
    struct mensur_told_positions told = {.count = 0};
    bool thumb = false, halves = document->narrow && profile->position_count > NARROW_ROWS;
    size_t count = profile->position_count, rows = halves ? (count + 1) / 2 : count;
    mensur_told_positions_add(&told, profile->positions, count);
    size_t name = widest_name(&told, &thumb);
    name = name > NAME_LEAST ? name : NAME_LEAST;
    const struct mensur_told all[] = {{"position", name, NULL, NULL, false},
                                      {"first_finger_mm", 15, NULL, NULL, false},
                                      {"fourth_finger_mm", 15, NULL, NULL, false},
                                      {"frame_mm", 15, "hand's frame", NULL, false}},
                             brief[] = {{"position", name, NULL, NULL, false},
                                        {"first_finger_mm", 12, "first", NULL, false},
                                        {"frame_mm", 9, "frame", NULL, false}};
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Positions of the hand on %n", profile->instrument);
    mensur_tell_columns(document, MENSUR_SCOPE_POSITION, halves ? brief : all, halves ? 3 : 4);
    if (halves) {
        mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 2);
        mensur_tell_columns(document, MENSUR_SCOPE_POSITION, brief, 3);
    }
    for (size_t i = 0; i < rows; i++) {
        mensur_row(document);
        mensur_cells_of(document, halves ? 3 : 4, &profile->positions[i]);
        if (halves && i + rows < count) {
            mensur_cell(document, "");
            mensur_cells_of(document, 3, &profile->positions[i + rows]);
        }
    }
    explain_frame(document, thumb);
}

#define STRINGS 4 /* in one block of true places, which fits 80 columns */

/* Where each string's true places begin. */
struct block {
    const struct mensur_profile *profile;
    size_t starts[MENSUR_RESULT_STRINGS];
    size_t strings;
};

static bool starts_string(const struct mensur_profile *profile, size_t i) {
    return i == 0 || strcmp(profile->true_places[i].note, profile->true_places[i - 1].note) != 0;
}

/* To half a millimetre, or a fiftieth of an inch: downward, or upward. */
static struct mensur_shown half(const struct mensur_style *style, double place, bool up) {
    const double step = style->inches ? 0.02 : 0.5;
    double in_steps = mensur_shown_value(style, MENSUR_LENGTH, place) / step;
    /* what the decimals of a number may have moved past a step is no reason for another one */
    double whole = up ? ceil(in_steps - 1e-9) : floor(in_steps + 1e-9);
    return mensur_show_number(whole * step, style->inches ? 2 : 1, 6);
}

/* "19.5-20.5": from the place of the string that is sharpened most to that of the least. */
static struct mensur_shown between(const struct mensur_style *style,
                                   const struct mensur_true_place *place) {
    struct mensur_shown low = half(style, place->from_nut_low, false);
    struct mensur_shown high = half(style, place->from_nut_high, true);
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

static void tell_block(struct mensur_document *document, const struct block *block) {
    const struct mensur_style *style = &document->style;
    const char *unit = mensur_shown_unit(style, MENSUR_LENGTH);
    const struct mensur_true_place *first;
    mensur_table(document, MENSUR_TABLE, "True places on %n, from %s", block->profile->instrument,
                 block->profile->true_places[block->starts[0]].note);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "semitones", "", 10);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "simple", unit, 10);
    for (size_t j = 0; j < block->strings; j++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES,
                         block->profile->true_places[block->starts[j]].note, unit, 15);
    }
    for (size_t i = 0; (first = place_at(block, 0, i)) != NULL; i++) {
        const struct mensur_finger_place *simple = simple_place(block->profile, first->semitones);
        mensur_row(document);
        mensur_cell_figure(document, MENSUR_NUMBER, first->semitones);
        mensur_cell_figure(document, MENSUR_LENGTH, simple != NULL ? simple->from_nut : NAN);
        for (size_t j = 0; j < block->strings; j++) {
            const struct mensur_true_place *place = place_at(block, j, i);
            mensur_cell(document, place != NULL ? between(style, place).text : "?");
        }
    }
}

static void tell_true_places(struct mensur_document *document,
                             const struct mensur_profile *profile) {
    struct block block = {.profile = profile};
    size_t most = document->narrow ? STRINGS : MENSUR_RESULT_STRINGS;
    mensur_heading(document, MENSUR_HEADING_PART, "True places");
    if (profile->true_place_count == 0) {
        mensur_paragraph(document, 0,
                         "Not known: they need stop, neck and the stiffness of the strings.");
        return;
    }
    for (size_t i = 0; i < profile->true_place_count; i++) {
        if (starts_string(profile, i)) {
            if (block.strings == most) {
                tell_block(document, &block);
                block.strings = 0;
            }
            block.starts[block.strings++] = i;
        }
    }
    tell_block(document, &block);
    mensur_paragraph(
        document, 0,
        "Stopping stretches a string and sharpens it, so the finger stands nearer to "
        "the nut than the simple law says: from a stiff string that is held at nut and "
        "bridge to one that slides there freely. Measured from the nut, to half a "
        "millimetre.");
}

void mensur_tell_fingers(struct mensur_document *document, const struct mensur_profile *profile) {
    tell_sentence(document, profile);
    mensur_points(document, &profile->remarks);
    mensur_gap(document);
    tell_places(document, profile);
    if (profile->position_count > 0) {
        tell_positions(document, profile);
    }
    mensur_tell_spread(document, profile->instrument, profile->spread, MENSUR_SURE_FINGERS);
    if (document->style.true_places) {
        tell_true_places(document, profile);
    }
}

static void place_cell(struct mensur_document *document, const struct mensur_profile *profile,
                       size_t i) {
    if (i < profile->place_count) {
        mensur_cell_figure(document, MENSUR_LENGTH, profile->places[i].from_nut);
    } else {
        mensur_cell(document, "");
    }
}

/* From the nut on both, the lower octave beside the upper one. */
static void tell_places_of_two(struct mensur_document *document,
                               const struct mensur_profile *const *of) {
    size_t count = of[0]->place_count, rows = (count + 1) / 2;
    mensur_table(document, MENSUR_TABLE, "Finger places from the nut on %n and %n",
                 of[0]->instrument, of[1]->instrument);
    for (size_t octave = 0; octave < 2; octave++) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, "semitones", "", octave == 0 ? 10 : 16);
        for (size_t k = 0; k < 2; k++) {
            mensur_column(document, (struct mensur_table_column){
                                        .label = of[k]->instrument,
                                        .unit = mensur_shown_unit(&document->style, MENSUR_LENGTH),
                                        .width = 12,
                                        .number = octave == 0 ? k + 1 : 0});
        }
    }
    for (size_t i = 0; i < rows; i++) {
        mensur_row(document);
        for (size_t at = i; at <= i + rows; at += rows) {
            if (at < count) {
                mensur_cell_figure(document, MENSUR_NUMBER, of[0]->places[at].semitones);
            } else {
                mensur_cell(document, "");
            }
            place_cell(document, of[0], at);
            place_cell(document, of[1], at);
        }
    }
}

/* The position of that name on two instruments: first finger and frame, or the frame alone. */
static void tell_position_of_two(struct mensur_document *document,
                                 const struct mensur_profile *const *of, const char *name,
                                 bool first) {
    mensur_cell(document, name);
    for (size_t k = 0; k < 2; k++) {
        const struct mensur_position *position =
            mensur_told_position(of[k]->positions, of[k]->position_count, name);
        if (position == NULL) {
            mensur_cells(document, first ? 2 : 1, "", "");
            continue;
        }
        if (first) {
            mensur_cell_figure(document, MENSUR_LENGTH, position->first_finger);
        }
        mensur_cell_figure(document, MENSUR_LENGTH, position->frame);
    }
}

/* Their columns; of one of two halves without the first finger. */
static void columns_of_two(struct mensur_document *document, size_t name, bool half) {
    mensur_column_of(document, MENSUR_CELLS_WORDS, "position", NULL, name);
    for (size_t k = 0; k < 2; k++) {
        if (!half) {
            mensur_column_of(document, MENSUR_CELLS_FIGURES, k == 0 ? "(1) first" : "(2) first",
                             "finger", 14);
        }
        mensur_column_of(document, MENSUR_CELLS_FIGURES,
                         !half    ? "hand's"
                         : k == 0 ? "(1)"
                                  : "(2)",
                         "frame", half ? 9 : 12);
    }
}

static void tell_positions_of_two(struct mensur_document *document,
                                  const struct mensur_profile *const *of) {
    struct mensur_told_positions told = {.count = 0};
    bool thumb = false;
    mensur_told_positions_add(&told, of[0]->positions, of[0]->position_count);
    mensur_told_positions_add(&told, of[1]->positions, of[1]->position_count);
    size_t name = widest_name(&told, &thumb);
    bool halves = document->narrow && told.count > NARROW_ROWS;
    size_t rows = halves ? (told.count + 1) / 2 : told.count;
    name = name > NAME_LEAST ? name : NAME_LEAST;
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "First finger, and the hand's frame, on %n and %n",
                 of[0]->instrument, of[1]->instrument);
    columns_of_two(document, name, halves);
    if (halves) {
        mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 2);
        columns_of_two(document, name, true);
    }
    for (size_t i = 0; i < rows; i++) {
        mensur_row(document);
        tell_position_of_two(document, of, told.names[i], !halves);
        if (halves && i + rows < told.count) {
            mensur_cell(document, "");
            tell_position_of_two(document, of, told.names[i + rows], false);
        }
    }
    if (thumb) {
        explain_frame(document, thumb);
    }
}

/* How the second's fingers stand against the first's. */
static void tell_apart(struct mensur_document *document, const struct mensur_facts *remarks) {
    for (size_t i = 0; i < remarks->count; i++) {
        if (remarks->items[i].kind == MENSUR_FACT_FINGERS_APART ||
            remarks->items[i].kind == MENSUR_FACT_FRAMES_ALIKE) {
            struct mensur_facts one = {.items = &remarks->items[i], .count = 1};
            mensur_points(document, &one);
        }
    }
}

void mensur_tell_fingers_of_two(struct mensur_document *document, const struct mensur_profile *one,
                                const struct mensur_profile *two) {
    const struct mensur_profile *const of[] = {one, two};
    tell_sentence(document, one);
    tell_sentence(document, two);
    tell_apart(document, &two->remarks);
    mensur_gap(document);
    tell_places_of_two(document, of);
    if (one->position_count + two->position_count > 0) {
        tell_positions_of_two(document, of);
    }
    for (size_t k = 0; k < 2; k++) {
        mensur_tell_spread(document, of[k]->instrument, of[k]->spread, MENSUR_SURE_FINGERS);
    }
}
