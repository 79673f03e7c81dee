/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finger sheet: where every note of every string is stopped, at true size, to be printed and
 * laid under the strings, which stand at their spacing from nut to bridge. Pages are SVG, sized in
 * mm; they overlap, and register marks say how they are put together. Each bears a bar of 100 mm
 * and one of 4 in, to check the printer.
 *
 * Every function returns MENSUR_OK, MENSUR_NO_ANSWER (no finger places are known), MENSUR_DOMAIN
 * (no such page), MENSUR_WRITE (what the sink answered) or MENSUR_MEMORY. */
#ifndef MENSUR_SHEET_H
#define MENSUR_SHEET_H

#include "drawing_style.h"
#include "present.h"
#include "tiles.h"

/* What it is called. */
#define MENSUR_SHEET_TITLE "Finger places at true size"

/* The most instruments on one sheet, and the most pages of one. */
#define MENSUR_SHEET_INSTRUMENTS 2
#define MENSUR_SHEET_PAGES MENSUR_TILE_PAGES

/* What a sheet shows, and how. */
struct mensur_sheet {
    const struct mensur_profile *profiles; /* with their finger places; borrowed */
    size_t count;                          /* 1 or MENSUR_SHEET_INSTRUMENTS */
    enum mensur_sheet_paper paper;
    enum mensur_sheet_marks marks;
    bool added;                  /* the added tapes, too */
    const char *heading;         /* of the shop, above the title; NULL: none */
    struct mensur_style figures; /* inches are obeyed */
};

/* How many pages a sheet has: 1 or more. */
enum mensur_status mensur_sheet_pages(const struct mensur_sheet *sheet, size_t *pages);

/* Writes one page as SVG: 0 to pages less 1. */
enum mensur_status mensur_sheet_page(const struct mensur_sheet *sheet, size_t page,
                                     const struct mensur_sink *sink);

/* Name of the note so many semitones above a written one, without its octave; static text, ""
 * where the note cannot be read. */
const char *mensur_note_above(const char *note, int semitones);

#endif
