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
#define STRIP_HEIGHT 74.0
/* From a strip's top to the beginning of its notes and to the end of its distances. */
#define NOTES 30.0
#define NOTES_END 73.0
/* Top of the first strip. */
#define STRIPS 29.0
#define BEFORE_NUT 10.0 /* mm, for the names of the open strings */
#define BEHIND_LAST 8.0

/* From a strip's top. */
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

/* A page: the part of the strings that it shows. */
struct view {
    const struct mensur_sheet *sheet;
    struct mensur_shapes shapes;
    size_t page, pages;
    double width, height; /* of the page */
    double from, to;      /* mm from the nut at the page's left and right margin */
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
    mensur_shape_text(&view->shapes, title, MARGIN, 14.0, "Finger places at true size");
    mensur_shape_text(
        &view->shapes, letters, MARGIN, 19.5,
        "Print at 100 % (actual size, no fitting to the page) and hold a ruler to the "
        "bars at the foot.");
    mensur_shape_text(&view->shapes, letters, MARGIN, 24.0,
                      "A note is stopped at the line on its right. Lay the nut's edge on the "
                      "string's edge of the nut.");
    MENSUR_SHAPE_SAY(&view->shapes, "Finger places at true size, to print at 100 %%.");
}

/* "page 1 of 2" and a row of small pages, this one filled. */
static void put_order(struct view *view) {
    double right = view->width - MARGIN;
    mensur_tile_number(&view->shapes, right, 13.5, view->page, view->pages);
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
    double x = cut ? MARGIN + OVERLAP / 2.0 : view->width - MARGIN - OVERLAP / 2.0;
    double top = STRIPS + 1.0;
    double bottom = view->height - 26.0;
    letters.anchor = cut ? MENSUR_ANCHOR_START : MENSUR_ANCHOR_END;
    /* the line does not cross the notes */
    double from = top;
    for (size_t i = 0; i < view->sheet->count; i++) {
        double strip = STRIPS + STRIP_HEIGHT * (double)i;
        mensur_shape_line(&view->shapes, dashed, x, from, x, strip + NOTES);
        from = strip + NOTES_END;
    }
    mensur_shape_line(&view->shapes, dashed, x, from, x, bottom);
    mensur_tile_cross(&view->shapes, x, top, name);
    mensur_tile_cross(&view->shapes, x, bottom, name);
    mensur_shape_text(&view->shapes, letters, cut ? x + 6.0 : x - 6.0, bottom + 1.0,
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
    double right = fmin(x_of(view, to), view->width - MARGIN);
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

/* The first level that is free at this place. */
static size_t free_level(const double *ends, double first) {
    size_t level = 0;
    while (level + 1 < LEVELS && first < ends[level] + 0.002) {
        level++;
    }
    return level;
}

/* The hand's frame in each position, from first finger to fourth. */
static void draw_positions(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double ends[LEVELS] = {-1.0, -1.0, -1.0, -1.0, -1.0};
    for (size_t i = 0; i < profile->position_count; i++) {
        const struct mensur_position *position = &profile->positions[i];
        size_t level = free_level(ends, position->first_finger);
        double at = y + POSITIONS + LEVEL * (double)level;
        bool half = strcmp(position->name, "half") == 0;
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

static double string_apart(const struct mensur_profile *profile) {
    size_t count = profile->string_count == 0 ? 1 : profile->string_count;
    return fmin(6.5, STRINGS_HEIGHT / (double)count);
}

/* Lowest string at the bottom, as seen with the nut on the left. */
static void draw_strings(struct view *view, const struct mensur_profile *profile, double y) {
    double apart = string_apart(profile);
    struct mensur_lettering letters = letters_of(3.0, MENSUR_ANCHOR_END);
    letters.bold = true;
    for (size_t i = 0; i < profile->string_count; i++) {
        double at = y + STRINGS + apart * (double)(profile->string_count - i) - 0.4 * apart;
        draw_within(view, soft, 0.0, profile->lengths.string_length, at + 1.0);
        if (shows(view, 0.0)) {
            mensur_shape_text(&view->shapes, letters, x_of(view, 0.0) - 3.6, at + 0.4,
                              profile->strings[i].note);
        }
    }
}

/* The notes at one place, on each string to the left of its line. */
static void put_notes(struct view *view, const struct mensur_profile *profile,
                      const struct mensur_finger_place *place, double y) {
    double apart = string_apart(profile);
    struct mensur_lettering letters = letters_of(2.6, MENSUR_ANCHOR_END);
    for (size_t i = 0; i < profile->string_count; i++) {
        const char *name =
            mensur_note_above(profile->strings[i].note, (int)lround(place->semitones));
        double at = y + STRINGS + apart * (double)(profile->string_count - i) - 0.4 * apart;
        letters.bold = strlen(name) == 1;
        mensur_shape_text(&view->shapes, letters, x_of(view, place->from_nut) - 0.5, at + 0.4,
                          name);
    }
}

static void draw_place(struct view *view, const struct mensur_profile *profile,
                       const struct mensur_finger_place *place, double y) {
    struct mensur_lettering numbers = letters_of(2.8, MENSUR_ANCHOR_MIDDLE);
    struct mensur_lettering letters = letters_of(2.6, MENSUR_ANCHOR_END);
    bool octave = lround(place->semitones) % 12 == 0;
    struct mensur_pen pen = {MENSUR_PAINT_INK, octave ? 0.45 : 0.25, MENSUR_DASH_NONE};
    double x = x_of(view, place->from_nut);
    if (!shows(view, place->from_nut)) {
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
static void draw_end(struct view *view, double from_nut, bool nut, double y) {
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_START);
    double x = x_of(view, from_nut);
    if (!shows(view, from_nut)) {
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

static void put_name(struct view *view, const struct mensur_profile *profile, double y) {
    struct mensur_lettering letters = letters_of(4.2, MENSUR_ANCHOR_START);
    struct mensur_lettering small = letters_of(3.3, MENSUR_ANCHOR_END);
    struct mensur_shown length =
        mensur_show_cut_unit(&view->sheet->figures, profile->lengths.string_length);
    char line[160];
    snprintf(line, sizeof line, "string %s; distances from the nut in %s", length.text,
             mensur_shown_unit(&view->sheet->figures, MENSUR_LENGTH));
    letters.bold = true;
    double left = MARGIN + (view->page > 0 ? OVERLAP : 0.0);
    double right = view->width - MARGIN - (view->page + 1 < view->pages ? OVERLAP : 0.0);
    mensur_shape_fitted(&view->shapes, letters, left, y + NAME, 110.0, profile->instrument);
    mensur_shape_text(&view->shapes, small, right, y + NAME, line);
}

/* A note on where the bridge is, where it lies beyond the last page. */
static void put_beyond(struct view *view, const struct mensur_profile *profile, double y) {
    double length = profile->lengths.string_length;
    double last = profile->places[profile->place_count - 1].from_nut;
    struct mensur_lettering letters = letters_of(2.8, MENSUR_ANCHOR_END);
    if (view->page + 1 < view->pages || length * 1000.0 <= view->to) {
        return;
    }
    char line[160];
    snprintf(line, sizeof line, "the bridge stands %s beyond the last line",
             mensur_show_unit(&view->sheet->figures, MENSUR_LENGTH, length - last).text);
    mensur_shape_text(&view->shapes, letters, view->width - MARGIN, y + STRINGS - 6.5, line);
}

static void put_strip(struct view *view, size_t i, double y) {
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
    MENSUR_SHAPE_SAY(
        &view->shapes, "String of %s: %s.",
        mensur_show_cut_unit(&view->sheet->figures, profile->lengths.string_length).text,
        profile->instrument);
}

/* mm from the nut that must be shown: the last place of either; for a strip the bridge too. */
static double needed(const struct mensur_sheet *sheet) {
    double most = NAN;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct mensur_profile *profile = &sheet->profiles[i];
        if (profile->place_count == 0 || isnan(profile->lengths.string_length)) {
            return NAN;
        }
        most = fmax(most, profile->places[profile->place_count - 1].from_nut * MM);
        if (sheet->paper == MENSUR_SHEET_STRIP) {
            most = fmax(most, profile->lengths.string_length * MM);
        }
    }
    return most + BEHIND_LAST;
}

static enum mensur_status look(const struct mensur_sheet *sheet, struct view *view) {
    double end = needed(sheet);
    *view = (struct view){.sheet = sheet, .pages = 1};
    if (!isfinite(end)) {
        return MENSUR_NO_ANSWER;
    }
    if (sheet->paper == MENSUR_SHEET_STRIP) {
        /* at least wide enough for the bars */
        view->width = fmax(end + BEFORE_NUT + 2.0 * MARGIN, 250.0);
        view->height = STRIPS + STRIP_HEIGHT * (double)sheet->count + 33.0;
        return MENSUR_OK;
    }
    struct mensur_tile_size size = mensur_tile_paper(sheet->paper);
    view->width = size.width;
    view->height = size.height;
    size_t pages = mensur_tile_count(end + BEFORE_NUT, view->width - 2.0 * MARGIN, OVERLAP);
    view->pages = pages < MENSUR_SHEET_PAGES ? pages : MENSUR_SHEET_PAGES;
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
    struct mensur_svg svg = {.id = "sheet", .title = "Finger places at true size", .unit = "mm"};
    struct view view;
    struct mensur_out out;
    enum mensur_status status = look(sheet, &view);
    if (status != MENSUR_OK || page >= view.pages) {
        return status == MENSUR_OK ? MENSUR_DOMAIN : status;
    }
    double window = view.width - 2.0 * MARGIN;
    view.page = page;
    view.from = (window - OVERLAP) * (double)page - BEFORE_NUT;
    view.to = view.from + window;
    view.shapes.width = view.width;
    view.shapes.height = view.height;
    view.shapes.dash = 2.0;
    put_frame(&view);
    for (size_t i = 0; i < sheet->count; i++) {
        put_strip(&view, i, STRIPS + STRIP_HEIGHT * (double)i);
    }
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &view.shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&view.shapes);
    return out.status;
}
