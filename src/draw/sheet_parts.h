/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of the finger sheet: the part of the strings that it shows, and what is around it. All in
 * mm. */
#ifndef MENSUR_DRAW_SHEET_PARTS_H
#define MENSUR_DRAW_SHEET_PARTS_H

#include "sheet.h"
#include "shapes.h"
#include "shown.h"

#define MENSUR_SHEET_MM 1000.0 /* mm in a m */
#define MENSUR_SHEET_MARGIN 10.0
#define MENSUR_SHEET_OVERLAP 20.0
#define MENSUR_SHEET_STRIP_HEIGHT 74.0
/* From a strip's top to the beginning of its notes and to the end of its distances. */
#define MENSUR_SHEET_NOTES 30.0
#define MENSUR_SHEET_NOTES_END 73.0
/* Top of the first strip. */
#define MENSUR_SHEET_STRIPS 29.0

struct mensur_sheet_view {
    const struct mensur_sheet *sheet;
    struct mensur_shapes shapes;
    size_t page, pages;
    double width, height; /* of the page */
    double from, to;      /* mm from the nut at the page's left and right margin */
};

/* mm on the page of a distance from the nut in m; whether it is within the margins. */
double mensur_sheet_x(const struct mensur_sheet_view *view, double from_nut);
bool mensur_sheet_shows(const struct mensur_sheet_view *view, double from_nut);
/* Letters of a size in mm. */
struct mensur_lettering mensur_sheet_letters(double size, enum mensur_anchor anchor);

/* Title, page marks, bars, register marks. */
void mensur_sheet_frame(struct mensur_sheet_view *view);
/* The strip of instrument i, its top at y. */
void mensur_sheet_strip(struct mensur_sheet_view *view, size_t i, double y);

/* Name of the note so many semitones above a written one, without its octave; static text, ""
 * where the note cannot be read. */
const char *mensur_note_above(const char *note, int semitones);

#endif
