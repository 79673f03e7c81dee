/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet: its pages, what is around the strings on each (title, order of the pages, bars,
 * register marks), and the strip of each instrument (positions, semitones, the strings with their
 * notes, distances). */
#include "sheet.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "shapes.h"
#include "shown.h"
#include "svg.h"
#include "tiles.h"

/* All in mm. */
#define MM 1000.0 /* in a m */
#define MARGIN MENSUR_TILE_MARGIN
#define OVERLAP 20.0
/* Top of the first strip. */
#define STRIPS 29.0
#define BEFORE_NUT 10.0 /* mm, for the names of the open strings */
#define BEHIND_LAST 8.0

/* From a strip's top; below the strings from their end. */
#define NAME 3.0
#define POSITIONS 9.0
#define LEVEL 3.8
#define NUMBERS 27.5
#define STRINGS 29.5
#define TICKS_END 1.0
#define RINGS 3.4
#define DISTANCES 6.4
#define DISTANCES_END 14.5
#define STRIP_REST (STRINGS + 15.5)
#define STRINGS_LEAST 26.0 /* of paper for the strings */
#define BESIDE_STRINGS 2.0 /* of the outer ones, both together */
#define FOOT 29.0          /* of the page: bars and the lower register marks */

enum { LEVELS = 4 };

/* Where the fingers stand in the first position, and where teachers lay tapes: the first set, and
 * the added ones. Common practice, no source. */
static const struct tape {
    const char *held;
    int semitones;
    bool added;
    const char *finger, *name;
} tapes[] = {
    {"chin", 2, false, "1", "1st finger"},
    {"chin", 4, false, "2", "high 2nd, close to 3"},
    {"chin", 5, false, "3", "3rd finger"},
    {"chin", 7, false, "4", "4th finger, the next open string"},
    {"chin", 1, true, "1", "low 1st"},
    {"chin", 3, true, "2", "low 2nd, close to 1"},
    {"chin", 6, true, "3", "high 3rd (or low 4th)"},
    {"knee", 2, false, "1", "1st finger"},
    {"knee", 4, false, "3", "3rd finger"},
    {"knee", 5, false, "4", "4th finger"},
    {"knee", 3, true, "2", "2nd finger"},
    {"knee", 1, true, "1", "extended back"},
    {"knee", 6, true, "4", "extended forward"},
    {"knee", 7, true, "1", "4th position"},
    {"standing", 2, false, "1", "1st finger, 1st position"},
    {"standing", 4, false, "4", "4th finger, 1st position"},
    {"standing", 3, true, "2", "2nd finger"},
    {"standing", 1, true, "1", "half position"},
    {"standing", 5, true, "1", "3rd position"},
    {"standing", 7, true, "1", "thumb at the heel of a D neck"},
};

enum { TAPES = sizeof tapes / sizeof tapes[0] };

static const struct mensur_pen fine = {MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};
static const struct mensur_pen soft = {MENSUR_PAINT_SOFT, 0.15, MENSUR_DASH_NONE};
static const struct mensur_pen no_pen = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};

/* A page: the part of the strings that it shows. */
struct view {
    const struct mensur_sheet *sheet;
    struct mensur_shapes shapes;
    size_t page, pages;
    double width, height; /* of the page */
    double window;        /* mm of string that a page shows: every page the same */
    double from, to;      /* mm from the nut where they begin, at the left margin, and end */
    double strings;       /* height that the strings of a strip have, mm */
    bool narrowed;        /* closer together than they lie, so that two strips fit the page */
};

/* Spelt as they most often are in string music (common practice, no source): three sharps, two
 * flats. */
static const char *const names[] = {"C",  "C#", "D",  "Eb", "E",  "F",
                                    "F#", "G",  "G#", "A",  "Bb", "B"};

/* Semitones above C of a written note; -1 where it is not a note. */
static int key_of(const char *note) {
    static const char letters[] = "C.D.EF.G.A.B";
    const char *at = *note == '\0' || *note == '.' ? NULL : strchr(letters, *note);
    if (at == NULL) {
        return -1;
    }
    int key = (int)(at - letters) + 12;
    for (note++; *note == '#' || *note == 'b'; note++) {
        key += *note == '#' ? 1 : -1;
    }
    return key;
}

const char *mensur_note_above(const char *note, int semitones) {
    int key = key_of(note);
    return key < 0 || semitones < 0 ? "" : names[(key + semitones) % 12];
}

static double x_of(const struct view *view, double from_nut) {
    return MARGIN + from_nut * MM - view->from;
}

static bool shows(const struct view *view, double from_nut) {
    return from_nut * MM >= view->from && from_nut * MM <= view->to;
}

static double strip_height(const struct view *view) {
    return STRIP_REST + view->strings;
}

static bool fretted(const struct mensur_profile *profile) {
    return profile->frets >= 1.0;
}

static enum mensur_sheet_marks marks_of(const struct mensur_sheet *sheet,
                                        const struct mensur_profile *profile) {
    if (sheet->marks == MENSUR_SHEET_USUAL) {
        return fretted(profile) ? MENSUR_SHEET_FRETS : MENSUR_SHEET_SEMITONES;
    }
    return sheet->marks;
}

/* The finger of the first position at a place, or its tape; NULL: none. */
static const struct tape *tape_at(const struct mensur_profile *profile, double semitones) {
    for (size_t i = 0; i < TAPES; i++) {
        if (profile->held != NULL && !fretted(profile) &&
            strcmp(profile->held, tapes[i].held) == 0 && lround(semitones) == tapes[i].semitones) {
            return &tapes[i];
        }
    }
    return NULL;
}

/* Whether a place has a line across the strings. */
static bool is_marked(const struct mensur_sheet *sheet, const struct mensur_profile *profile,
                      const struct mensur_finger_place *place) {
    const struct tape *tape;
    switch (marks_of(sheet, profile)) {
    case MENSUR_SHEET_TAPES:
        tape = tape_at(profile, place->semitones);
        return tape != NULL && (sheet->added || !tape->added);
    case MENSUR_SHEET_FRETS:
        return place->semitones > 0.5 && place->semitones < profile->frets + 0.5;
    default:
        return place->from_nut > 0.0;
    }
}

/* The last place that is marked; NULL: none is. */
static const struct mensur_finger_place *last_marked(const struct mensur_sheet *sheet,
                                                     const struct mensur_profile *profile) {
    for (size_t i = profile->place_count; i > 0; i--) {
        if (is_marked(sheet, profile, &profile->places[i - 1])) {
            return &profile->places[i - 1];
        }
    }
    return NULL;
}

/* From outer string to outer string at a place, mm. */
static double spacing_at(const struct mensur_profile *profile, double from_nut) {
    double part = from_nut / profile->lengths.string_length;
    return MM * (profile->spacing_nut + (profile->spacing_bridge - profile->spacing_nut) * part);
}

/* Height of string i at a place: the lowest at the bottom, as seen with the nut on the left. */
static double string_y(const struct view *view, const struct mensur_profile *profile, double y,
                       size_t i, double from_nut) {
    /* a little lower, so that the notes of the highest stay below the lines' beginning */
    double middle = y + STRINGS + view->strings / 2.0 + 0.8;
    size_t count = profile->string_count;
    double spacing = spacing_at(profile, from_nut);
    if (view->narrowed || isnan(spacing)) {
        spacing =
            fmin(6.5, STRINGS_LEAST / (double)(count == 0 ? 1 : count)) * ((double)count - 1.0);
    }
    return count < 2 ? middle : middle + spacing * (0.5 - (double)i / ((double)count - 1.0));
}

static struct mensur_lettering letters_of(double size, enum mensur_anchor anchor) {
    return (struct mensur_lettering){.size = size, .anchor = anchor, .paint = MENSUR_PAINT_INK};
}

static void put_title(struct view *view) {
    struct mensur_lettering title = letters_of(4.6, MENSUR_ANCHOR_START);
    struct mensur_lettering letters = letters_of(3.3, MENSUR_ANCHOR_START);
    title.bold = true;
    if (view->sheet->heading != NULL) {
        mensur_shape_fitted(&view->shapes, letters, MARGIN, 8.8, view->width - 2.0 * MARGIN,
                            view->sheet->heading);
    }
    mensur_shape_text(&view->shapes, title, MARGIN, 14.0, MENSUR_SHEET_TITLE);
    mensur_shape_text(
        &view->shapes, letters, MARGIN, 18.6,
        "Print at 100 % (actual size, no fitting to the page) and hold a ruler to the "
        "bars at the foot.");
    mensur_shape_text(&view->shapes, letters, MARGIN, 22.6,
                      "A note is stopped at the line on its right. Lay the nut's edge on the "
                      "string's edge of the nut.");
    MENSUR_SHAPE_SAY(&view->shapes, MENSUR_SHEET_TITLE ", to print at 100 %%.");
}

/* The last semitone of either instrument before the page is joined to the next. */
static long last_before_seam(const struct view *view) {
    double end = view->page + 1 < view->pages ? view->to - OVERLAP / 2.0 : view->to;
    long last = 0;
    for (size_t i = 0; i < view->sheet->count; i++) {
        const struct mensur_profile *profile = &view->sheet->profiles[i];
        for (size_t j = 0; j < profile->place_count; j++) {
            const struct mensur_finger_place *place = &profile->places[j];
            if (is_marked(view->sheet, profile, place) && place->from_nut * MM <= end) {
                long semitone = lround(place->semitones);
                last = semitone > last ? semitone : last;
            }
        }
    }
    return last;
}

/* "page 1 of 2" and a row of small pages, this one filled. */
static void put_order(struct view *view) {
    char until[64];
    double right = view->width - MARGIN;
    snprintf(until, sizeof until, ", to semitone %ld", last_before_seam(view));
    mensur_tile_number(&view->shapes, right, 13.5, view->page, view->pages, until);
    for (size_t i = 0; view->pages > 1 && i < view->pages; i++) {
        double x = right - 7.0 * (double)(view->pages - i) + 1.0;
        mensur_shape_box(&view->shapes, fine,
                         i == view->page ? MENSUR_PAINT_INK : MENSUR_PAINT_NONE, x, 16.0, 6.0, 4.2);
    }
}

/* Where this page joins the next: both pages have the same two crosses. */
static void put_seam(struct view *view, size_t after, bool cut) {
    char name[2] = {(char)('A' + (int)(after % 26)), '\0'};
    struct mensur_pen dashed = {MENSUR_PAINT_SOFT, 0.2, MENSUR_DASH_LONG};
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double x = (cut ? view->from + OVERLAP / 2.0 : view->to - OVERLAP / 2.0) + MARGIN - view->from;
    double top = STRIPS - 2.8;
    double bottom = view->height - 24.5;
    letters.anchor = cut ? MENSUR_ANCHOR_START : MENSUR_ANCHOR_END;
    /* the line crosses neither words nor notes */
    double from = STRIPS + strip_height(view) * (double)view->sheet->count + 1.0;
    if (from < bottom) {
        mensur_shape_line(&view->shapes, dashed, x, from, x, bottom);
    }
    mensur_tile_cross(&view->shapes, x, top, name);
    mensur_tile_cross(&view->shapes, x, bottom, name);
    mensur_shape_text(&view->shapes, letters, cut ? x + 8.0 : x - 6.0, bottom + 3.0,
                      cut ? "Cut along the dashed line and lay crosses on crosses."
                          : "The next page lies on here.");
}

static void put_frame(struct view *view) {
    put_title(view);
    put_order(view);
    mensur_tile_bar(&view->shapes, MARGIN, view->height - 16.0, 10.0, 10, "100 mm");
    mensur_tile_bar(&view->shapes, MARGIN + 120.0, view->height - 16.0, MENSUR_MM_PER_INCH / 2.0, 8,
                    "4 in");
    if (view->page > 0) {
        put_seam(view, view->page - 1, true);
    }
    if (view->page + 1 < view->pages) {
        put_seam(view, view->page, false);
    }
}

/* The part of a line that the page shows. */
static void draw_within(struct view *view, struct mensur_pen pen, double from, double to,
                        double y) {
    double left = fmax(x_of(view, from), MARGIN);
    double right = fmin(x_of(view, to), MARGIN + view->window);
    if (left < right) {
        mensur_shape_line(&view->shapes, pen, left, y, right, y);
    }
}

static void draw_tick(struct view *view, struct mensur_pen pen, double from_nut, double y1,
                      double y2) {
    if (shows(view, from_nut)) {
        double x = x_of(view, from_nut);
        mensur_shape_line(&view->shapes, pen, x, y1, x, y2);
    }
}

/* The first level that is free at this place; LEVELS: none is. */
static size_t free_level(const double *ends, double first) {
    size_t level = 0;
    while (level < LEVELS && first < ends[level] + 0.002) {
        level++;
    }
    return level;
}

/* The hand's frame in each position, from first finger to fourth. */
static void draw_positions(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double ends[LEVELS] = {-1.0, -1.0, -1.0, -1.0};
    for (size_t i = 0; i < profile->position_count; i++) {
        const struct mensur_position *position = &profile->positions[i];
        size_t level = free_level(ends, position->first_finger);
        double at = y + POSITIONS + LEVEL * (double)level;
        bool half = strcmp(position->name, "half") == 0;
        if (level == LEVELS) {
            continue;
        }
        char label[64];
        snprintf(label, sizeof label, half ? "%s position" : "position %s", position->name);
        ends[level] = position->fourth_finger;
        draw_within(view, fine, position->first_finger, position->fourth_finger, at);
        draw_tick(view, fine, position->first_finger, at, at + 2.2);
        draw_tick(view, fine, position->fourth_finger, at, at + 2.2);
        if (shows(view, position->first_finger)) {
            mensur_shape_text(&view->shapes, letters, x_of(view, position->first_finger) + 1.0,
                              at + 3.2, label);
        }
    }
}

/* From nut to bridge, as far as the page shows them. */
static void draw_strings(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(3.0, MENSUR_ANCHOR_END);
    double from = fmax(0.0, view->from / MM);
    double to = fmin(profile->lengths.string_length, view->to / MM);
    letters.bold = true;
    for (size_t i = 0; i < profile->string_count; i++) {
        mensur_shape_line(&view->shapes, soft, x_of(view, from),
                          string_y(view, profile, y, i, from), x_of(view, to),
                          string_y(view, profile, y, i, to));
        if (shows(view, 0.0)) {
            mensur_shape_text(&view->shapes, letters, x_of(view, 0.0) - 3.6,
                              string_y(view, profile, y, i, 0.0) + 1.0, profile->strings[i].note);
        }
    }
}

/* The notes at one place, on each string to the left of its line. */
static void put_notes(struct view *view, const struct mensur_profile *profile,
                      const struct mensur_finger_place *place, double y) {
    struct mensur_lettering letters = letters_of(2.4, MENSUR_ANCHOR_END);
    for (size_t i = 0; i < profile->string_count; i++) {
        const char *name =
            mensur_note_above(profile->strings[i].note, (int)lround(place->semitones));
        letters.bold = strlen(name) == 1;
        mensur_shape_text(&view->shapes, letters, x_of(view, place->from_nut) - 0.5,
                          string_y(view, profile, y, i, place->from_nut) - 0.4, name);
    }
}

/* Where each string truly sounds the notes: a bar along it, between the two bounds. */
static void draw_true_places(struct view *view, const struct mensur_profile *profile, double y) {
    const struct mensur_pen pen = {MENSUR_PAINT_OTHER, 0.9, MENSUR_DASH_NONE};
    size_t string = 0;
    for (size_t i = 0; i < profile->true_place_count; i++) {
        const struct mensur_true_place *place = &profile->true_places[i];
        while (string < profile->string_count &&
               strcmp(profile->strings[string].note, place->note) != 0) {
            string++;
        }
        if (string < profile->string_count && shows(view, place->from_nut_low) &&
            shows(view, place->from_nut_high)) {
            /* under the string, where no note stands */
            double at = string_y(view, profile, y, string, place->from_nut_low) + 0.6;
            double end = string_y(view, profile, y, string, place->from_nut_high) + 0.6;
            mensur_shape_line(
                &view->shapes, pen, x_of(view, place->from_nut_low), at,
                fmax(x_of(view, place->from_nut_high), x_of(view, place->from_nut_low) + 0.3), end);
        }
    }
}

static void put_finger(struct view *view, double x, double y, const char *finger) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_MIDDLE);
    letters.bold = true;
    mensur_shape_disc(&view->shapes, fine, MENSUR_PAINT_PAPER, x, y, 1.9);
    mensur_shape_text(&view->shapes, letters, x, y + 1.0, finger);
}

static struct mensur_pen pen_of(const struct view *view, const struct mensur_profile *profile,
                                const struct mensur_finger_place *place) {
    bool octave = lround(place->semitones) % 12 == 0;
    const struct tape *tape = tape_at(profile, place->semitones);
    switch (marks_of(view->sheet, profile)) {
    case MENSUR_SHEET_TAPES:
        return tape != NULL && !tape->added
                   ? (struct mensur_pen){MENSUR_PAINT_INK, 0.7, MENSUR_DASH_NONE}
                   : (struct mensur_pen){MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};
    case MENSUR_SHEET_FRETS:
        return (struct mensur_pen){MENSUR_PAINT_INK, 0.6, MENSUR_DASH_NONE};
    default:
        return (struct mensur_pen){MENSUR_PAINT_INK, octave ? 0.45 : 0.25, MENSUR_DASH_NONE};
    }
}

static void draw_place(struct view *view, const struct mensur_profile *profile,
                       const struct mensur_finger_place *place, double y) {
    struct mensur_lettering numbers = letters_of(2.8, MENSUR_ANCHOR_MIDDLE);
    struct mensur_lettering letters = letters_of(2.6, MENSUR_ANCHOR_END);
    const struct tape *tape = tape_at(profile, place->semitones);
    double below = y + STRINGS + view->strings;
    double x = x_of(view, place->from_nut);
    bool tapes_too = marks_of(view->sheet, profile) == MENSUR_SHEET_TAPES;
    if (!shows(view, place->from_nut)) {
        return;
    }
    letters.upright = true;
    numbers.bold = lround(place->semitones) % 12 == 0;
    draw_tick(view, pen_of(view, profile, place), place->from_nut, y + STRINGS - 1.0,
              below + TICKS_END);
    mensur_shape_text(&view->shapes, numbers, x, y + NUMBERS,
                      mensur_show_count((size_t)lround(place->semitones)).text);
    if (tape != NULL && (tapes_too || !tape->added)) {
        put_finger(view, x, below + RINGS, tape->finger);
    }
    mensur_shape_text(&view->shapes, letters, x + 0.9, below + DISTANCES,
                      mensur_show(&view->sheet->figures, MENSUR_LENGTH, place->from_nut).text);
    put_notes(view, profile, place, y);
}

/* The other place of a fret that stands for two notes, dashed. */
static void draw_other_frets(struct view *view, const struct mensur_profile *profile, double y) {
    const struct mensur_pen pen = {MENSUR_PAINT_OTHER, 0.3, MENSUR_DASH_LONG};
    for (size_t i = 0; i < profile->remarks.count; i++) {
        const struct mensur_fact *fact = &profile->remarks.items[i];
        if (fact->kind == MENSUR_FACT_FRET_TAKEN) {
            draw_tick(view, pen, fact->number[1], y + STRINGS - 1.0,
                      y + STRINGS + view->strings + TICKS_END);
        }
    }
}

/* Nut or bridge: a block whose edge is the end of the sounding string. */
static void draw_end(struct view *view, double from_nut, bool nut, double y) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double x = x_of(view, from_nut);
    if (!shows(view, from_nut)) {
        return;
    }
    letters.anchor = MENSUR_ANCHOR_END;
    mensur_shape_box(&view->shapes, no_pen, MENSUR_PAINT_SOFT, nut ? x - 2.6 : x, y + STRINGS - 1.0,
                     2.6, view->strings + 1.0 + TICKS_END);
    draw_tick(view, fine, from_nut, y + STRINGS - 1.0, y + STRINGS + view->strings + TICKS_END);
    letters.upright = true;
    mensur_shape_text(&view->shapes, letters, nut ? x - 0.3 : x + 2.2,
                      y + STRINGS + view->strings + DISTANCES, nut ? "nut" : "bridge");
}

/* How the strings are spaced on the sheet. */
static const char *spread_words(const struct view *view, const struct mensur_profile *profile) {
    if (view->narrowed || isnan(spacing_at(profile, 0.0))) {
        return "drawn beside each other, not at their spacing";
    }
    return profile->spacing_assumed ? "at their usual spacing, assumed" : "at their spacing";
}

static void put_name(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(4.2, MENSUR_ANCHOR_START);
    struct mensur_lettering small = letters_of(3.3, MENSUR_ANCHOR_END);
    struct mensur_shown length =
        mensur_show_cut_unit(&view->sheet->figures, profile->lengths.string_length);
    char line[160];
    snprintf(line, sizeof line, "string %s; from the nut in %s; strings %s", length.text,
             mensur_shown_unit(&view->sheet->figures, MENSUR_LENGTH), spread_words(view, profile));
    letters.bold = true;
    double left = MARGIN + (view->page > 0 ? OVERLAP : 0.0);
    double right = view->width - MARGIN;
    mensur_shape_fitted(&view->shapes, letters, left, y + NAME, 100.0, profile->instrument);
    mensur_shape_text(&view->shapes, small, right, y + NAME, line);
}

/* A note on where the bridge is, where it lies beyond the last page. */
static void put_beyond(struct view *view, const struct mensur_profile *profile, double y) {
    double length = profile->lengths.string_length;
    const struct mensur_finger_place *marked = last_marked(view->sheet, profile);
    double last = marked == NULL ? 0.0 : marked->from_nut;
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_END);
    if (view->page + 1 < view->pages || length * 1000.0 <= view->to) {
        return;
    }
    char line[160];
    snprintf(line, sizeof line, "the bridge stands %s beyond the last line",
             mensur_show_unit(&view->sheet->figures, MENSUR_LENGTH, length - last).text);
    /* Clear of the last figure, or of the name that follows. */
    double below = view->sheet->count > 1 ? -1.5 : 3.8;
    mensur_shape_text(&view->shapes, letters, view->width - MARGIN,
                      y + STRINGS + view->strings + DISTANCES_END + below, line);
}

/* What the tapes are called, in place of the positions. */
static void put_tape_names(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double at = y + POSITIONS;
    for (int added = 0; added <= (view->sheet->added ? 1 : 0); added++) {
        char line[320];
        size_t used = (size_t)snprintf(line, sizeof line, "%s",
                                       added ? "Added, thin (semitone): " : "Tapes (semitone): ");
        for (size_t i = 0; i < TAPES && used < sizeof line; i++) {
            if (profile->held != NULL && strcmp(tapes[i].held, profile->held) == 0 &&
                tapes[i].added == (added == 1)) {
                used += (size_t)snprintf(line + used, sizeof line - used, "%d %s; ",
                                         tapes[i].semitones, tapes[i].name);
            }
        }
        line[used >= 2 && used < sizeof line ? used - 2 : sizeof line - 1] = '\0';
        mensur_shape_fitted(&view->shapes, letters, MARGIN + 8.0, at,
                            view->width - 2.0 * MARGIN - 16.0, line);
        at += 4.6;
    }
    if (view->page == 0) {
        mensur_shape_text(&view->shapes, letters, MARGIN + 8.0, at,
                          "Where teachers lay them: common practice, no source.");
    }
}

static void put_strip(struct view *view, size_t i, double y) {
    const struct mensur_profile *profile = &view->sheet->profiles[i];
    put_name(view, profile, y);
    if (marks_of(view->sheet, profile) == MENSUR_SHEET_TAPES) {
        put_tape_names(view, profile, y);
    } else {
        draw_positions(view, profile, y);
    }
    draw_strings(view, profile, y);
    draw_end(view, 0.0, true, y);
    draw_end(view, profile->lengths.string_length, false, y);
    draw_other_frets(view, profile, y);
    for (size_t j = 0; j < profile->place_count; j++) {
        if (is_marked(view->sheet, profile, &profile->places[j])) {
            draw_place(view, profile, &profile->places[j], y);
        }
    }
    if (view->sheet->figures.true_places) {
        draw_true_places(view, profile, y);
    }
    put_beyond(view, profile, y);
    MENSUR_SHAPE_SAY(
        &view->shapes, "String of %s: %s.",
        mensur_show_cut_unit(&view->sheet->figures, profile->lengths.string_length).text,
        profile->instrument);
}

/* mm from the nut that must be shown: the last mark of either; for a strip the bridge too. */
static double needed(const struct mensur_sheet *sheet) {
    double most = NAN;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_profile *profile = &sheet->profiles[i];
        const struct mensur_finger_place *last = last_marked(sheet, profile);
        if (last == NULL || isnan(profile->lengths.string_length)) {
            return NAN;
        }
        most = fmax(most, last->from_nut * MM);
        if (sheet->paper == MENSUR_SHEET_STRIP) {
            most = fmax(most, profile->lengths.string_length * MM);
        }
    }
    return most + BEHIND_LAST;
}

/* The height that the strings want as far as the sheet goes. */
static double strings_height(const struct mensur_sheet *sheet, double end) {
    double most = STRINGS_LEAST;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_profile *profile = &sheet->profiles[i];
        double to = fmin(end / MM, profile->lengths.string_length);
        most = fmax(most, spacing_at(profile, to) + BESIDE_STRINGS);
    }
    return most;
}

static enum mensur_status look(const struct mensur_sheet *sheet, struct view *view) {
    double end = needed(sheet);
    *view = (struct view){.sheet = sheet, .pages = 1};
    if (!isfinite(end)) {
        return MENSUR_NO_ANSWER;
    }
    view->strings = strings_height(sheet, end);
    if (sheet->paper == MENSUR_SHEET_STRIP) {
        /* at least wide enough for the bars */
        view->width = fmax(end + BEFORE_NUT + 2.0 * MARGIN, 250.0);
        view->height = STRIPS + strip_height(view) * (double)sheet->count + 33.0;
        view->window = view->width - 2.0 * MARGIN;
        return MENSUR_OK;
    }
    struct mensur_tile_size size = mensur_tile_paper(sheet->paper);
    view->width = size.width;
    view->height = size.height;
    size_t pages = mensur_tile_count(end + BEFORE_NUT, view->width - 2.0 * MARGIN, OVERLAP);
    view->pages = pages < MENSUR_SHEET_PAGES ? pages : MENSUR_SHEET_PAGES;
    view->narrowed = STRIPS + strip_height(view) * (double)sheet->count > view->height - FOOT + 5.0;
    view->strings = view->narrowed ? STRINGS_LEAST : view->strings;
    /* the pages share the string evenly, so that none is a stub */
    view->window = view->width - 2.0 * MARGIN;
    if (view->pages > 1) {
        double shared = end + BEFORE_NUT + OVERLAP * ((double)view->pages - 1.0);
        view->window = fmin(view->window, shared / (double)view->pages);
    }
    return MENSUR_OK;
}

enum mensur_status mensur_sheet_pages(const struct mensur_sheet *sheet, size_t *pages) {
    struct view view;
    enum mensur_status status = look(sheet, &view);
    if (status == MENSUR_OK) {
        *pages = view.pages;
    }
    return status;
}

enum mensur_status mensur_sheet_page(const struct mensur_sheet *sheet, size_t page,
                                     const struct mensur_sink *sink) {
    struct mensur_svg svg = {.id = "sheet", .title = MENSUR_SHEET_TITLE, .unit = "mm"};
    struct view view;
    struct mensur_out out;
    enum mensur_status status = look(sheet, &view);
    if (status != MENSUR_OK || page >= view.pages) {
        return status == MENSUR_OK ? MENSUR_DOMAIN : status;
    }
    view.page = page;
    view.from = (view.window - OVERLAP) * (double)page - BEFORE_NUT;
    view.to = view.from + view.window;
    view.shapes.width = view.width;
    view.shapes.height = view.height;
    view.shapes.dash = 2.0;
    put_frame(&view);
    for (size_t i = 0; i < sheet->count; i++) {
        put_strip(&view, i, STRIPS + strip_height(&view) * (double)i);
    }
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &view.shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&view.shapes);
    return out.status;
}
