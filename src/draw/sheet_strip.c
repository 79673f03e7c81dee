/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One instrument on the sheet: positions, semitones, the strings with their notes, distances. */
#include <math.h>
#include <string.h>

#include "sheet_parts.h"

/* From the strip's top. */
#define NAME 6.0
#define POSITIONS 12.0
#define LEVEL 4.6
#define NUMBERS 33.0
#define STRINGS 35.0
#define STRINGS_HEIGHT 26.0
#define DISTANCES 64.0

enum { LEVELS = 5 };

static const struct mensur_pen fine = {MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};
static const struct mensur_pen soft = {MENSUR_PAINT_SOFT, 0.15, MENSUR_DASH_NONE};
static const struct mensur_pen no_pen = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};

/* The part of a line that the page shows. */
static void draw_within(struct mensur_sheet_view *view, struct mensur_pen pen, double from,
                        double to, double y) {
    double left = fmax(mensur_sheet_x(view, from), MENSUR_SHEET_MARGIN);
    double right = fmin(mensur_sheet_x(view, to), view->width - MENSUR_SHEET_MARGIN);
    if (left < right) {
        mensur_shape_line(&view->shapes, pen, left, y, right, y);
    }
}

static void draw_tick(struct mensur_sheet_view *view, struct mensur_pen pen, double from_nut,
                      double y1, double y2) {
    if (mensur_sheet_shows(view, from_nut)) {
        double x = mensur_sheet_x(view, from_nut);
        mensur_shape_line(&view->shapes, pen, x, y1, x, y2);
    }
}

/* The first level that is free at this place. */
static size_t free_level(const double *ends, double first) {
    size_t level = 0;
    while (level + 1 < LEVELS && first < ends[level] + 0.002) {
        level++;
    }
    return level;
}

/* The hand's frame in each position, from first finger to fourth. */
static void draw_positions(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                           double y) {
    struct mensur_lettering letters = mensur_sheet_letters(2.8, MENSUR_ANCHOR_START);
    double ends[LEVELS] = {-1.0, -1.0, -1.0, -1.0, -1.0};
    for (size_t i = 0; i < profile->position_count; i++) {
        const struct mensur_position *position = &profile->positions[i];
        size_t level = free_level(ends, position->first_finger);
        double at = y + POSITIONS + LEVEL * (double)level;
        bool half = strcmp(position->name, "half") == 0;
        char label[64];
        strcpy(label, half ? "half position" : "position ");
        strncat(label, half ? "" : position->name, 8);
        ends[level] = position->fourth_finger;
        draw_within(view, fine, position->first_finger, position->fourth_finger, at);
        draw_tick(view, fine, position->first_finger, at, at + 2.2);
        draw_tick(view, fine, position->fourth_finger, at, at + 2.2);
        if (mensur_sheet_shows(view, position->first_finger)) {
            mensur_shape_text(&view->shapes, letters,
                              mensur_sheet_x(view, position->first_finger) + 1.0, at + 3.2, label);
        }
    }
}

static double string_apart(const struct mensur_profile *profile) {
    size_t count = profile->string_count == 0 ? 1 : profile->string_count;
    return fmin(6.5, STRINGS_HEIGHT / (double)count);
}

/* Lowest string at the bottom, as seen with the nut on the left. */
static void draw_strings(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                         double y) {
    double apart = string_apart(profile);
    struct mensur_lettering letters = mensur_sheet_letters(3.0, MENSUR_ANCHOR_END);
    letters.bold = true;
    for (size_t i = 0; i < profile->string_count; i++) {
        double at = y + STRINGS + apart * (double)(profile->string_count - i) - 0.4 * apart;
        draw_within(view, soft, 0.0, profile->lengths.string_length, at + 1.0);
        if (mensur_sheet_shows(view, 0.0)) {
            mensur_shape_text(&view->shapes, letters, mensur_sheet_x(view, 0.0) - 3.6, at + 0.4,
                              profile->strings[i].note);
        }
    }
}

/* The notes at one place, on each string to the left of its line. */
static void put_notes(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                      const struct mensur_finger_place *place, double y) {
    double apart = string_apart(profile);
    struct mensur_lettering letters = mensur_sheet_letters(2.6, MENSUR_ANCHOR_END);
    for (size_t i = 0; i < profile->string_count; i++) {
        const char *name =
            mensur_note_above(profile->strings[i].note, (int)lround(place->semitones));
        double at = y + STRINGS + apart * (double)(profile->string_count - i) - 0.4 * apart;
        letters.bold = strlen(name) == 1;
        mensur_shape_text(&view->shapes, letters, mensur_sheet_x(view, place->from_nut) - 0.5,
                          at + 0.4, name);
    }
}

static void draw_place(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                       const struct mensur_finger_place *place, double y) {
    struct mensur_lettering numbers = mensur_sheet_letters(2.8, MENSUR_ANCHOR_MIDDLE);
    struct mensur_lettering letters = mensur_sheet_letters(2.6, MENSUR_ANCHOR_END);
    bool octave = lround(place->semitones) % 12 == 0;
    struct mensur_pen pen = {MENSUR_PAINT_INK, octave ? 0.45 : 0.25, MENSUR_DASH_NONE};
    double x = mensur_sheet_x(view, place->from_nut);
    if (!mensur_sheet_shows(view, place->from_nut)) {
        return;
    }
    letters.upright = true;
    numbers.bold = octave;
    draw_tick(view, pen, place->from_nut, y + STRINGS - 1.0, y + DISTANCES - 1.5);
    mensur_shape_text(&view->shapes, numbers, x, y + NUMBERS,
                      mensur_show_count((size_t)lround(place->semitones)).text);
    mensur_shape_text(&view->shapes, letters, x + 0.9, y + DISTANCES - 0.7,
                      mensur_show(&view->sheet->figures, MENSUR_LENGTH, place->from_nut).text);
    put_notes(view, profile, place, y);
}

/* Nut or bridge: a block whose edge is the end of the sounding string. */
static void draw_end(struct mensur_sheet_view *view, double from_nut, bool nut, double y) {
    struct mensur_lettering letters = mensur_sheet_letters(2.8, MENSUR_ANCHOR_START);
    double x = mensur_sheet_x(view, from_nut);
    if (!mensur_sheet_shows(view, from_nut)) {
        return;
    }
    letters.anchor = MENSUR_ANCHOR_END;
    mensur_shape_box(&view->shapes, no_pen, MENSUR_PAINT_SOFT, nut ? x - 2.6 : x, y + STRINGS - 1.0,
                     2.6, DISTANCES - STRINGS - 0.5);
    draw_tick(view, fine, from_nut, y + STRINGS - 1.0, y + DISTANCES - 1.5);
    letters.upright = true;
    mensur_shape_text(&view->shapes, letters, nut ? x - 0.3 : x + 2.2, y + DISTANCES - 0.7,
                      nut ? "nut" : "bridge");
}

static void put_name(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                     double y) {
    struct mensur_lettering letters = mensur_sheet_letters(4.2, MENSUR_ANCHOR_START);
    struct mensur_lettering small = mensur_sheet_letters(3.3, MENSUR_ANCHOR_END);
    struct mensur_shown length =
        mensur_show_unit(&view->sheet->figures, MENSUR_LENGTH, profile->lengths.string_length);
    char line[160] = "string ";
    strncat(line, length.text, 64);
    strncat(line, "; distances from the nut in ", 40);
    strncat(line, mensur_shown_unit(&view->sheet->figures, MENSUR_LENGTH), 8);
    letters.bold = true;
    double left = MENSUR_SHEET_MARGIN + (view->page > 0 ? MENSUR_SHEET_OVERLAP : 0.0);
    double right = view->width - MENSUR_SHEET_MARGIN -
                   (view->page + 1 < view->pages ? MENSUR_SHEET_OVERLAP : 0.0);
    mensur_shape_fitted(&view->shapes, letters, left, y + NAME, 110.0, profile->instrument);
    mensur_shape_text(&view->shapes, small, right, y + NAME, line);
}

/* A note on where the bridge is, where it lies beyond the last page. */
static void put_beyond(struct mensur_sheet_view *view, const struct mensur_profile *profile,
                       double y) {
    double length = profile->lengths.string_length;
    double last = profile->places[profile->place_count - 1].from_nut;
    struct mensur_lettering letters = mensur_sheet_letters(2.8, MENSUR_ANCHOR_END);
    if (view->page + 1 < view->pages || length * 1000.0 <= view->to) {
        return;
    }
    char line[160] = "the bridge stands ";
    strncat(line, mensur_show_unit(&view->sheet->figures, MENSUR_LENGTH, length - last).text, 64);
    strncat(line, " beyond the last line", 40);
    mensur_shape_text(&view->shapes, letters, view->width - MENSUR_SHEET_MARGIN, y + STRINGS - 6.5,
                      line);
}

void mensur_sheet_strip(struct mensur_sheet_view *view, size_t i, double y) {
    const struct mensur_profile *profile = &view->sheet->profiles[i];
    put_name(view, profile, y);
    draw_positions(view, profile, y);
    draw_strings(view, profile, y);
    draw_end(view, 0.0, true, y);
    draw_end(view, profile->lengths.string_length, false, y);
    for (size_t j = 0; j < profile->place_count; j++) {
        if (profile->places[j].from_nut > 0.0) {
            draw_place(view, profile, &profile->places[j], y);
        }
    }
    put_beyond(view, profile, y);
    mensur_shape_say(
        &view->shapes, "String of ",
        mensur_show_unit(&view->sheet->figures, MENSUR_LENGTH, profile->lengths.string_length).text,
        ": ", profile->instrument, ".", NULL);
}
