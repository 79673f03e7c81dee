/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scale of forces that bars of tension stand on. */
#ifndef MENSUR_FORCE_AXIS_H
#define MENSUR_FORCE_AXIS_H

#include "draw.h"

#define BARS 60.0 /* px where the bars begin */
#define BARS_END 296.0
#define BAR 10.0
/* Right ends of the columns of figures. */
#define COLUMN_TENSION 346.0
#define COLUMN_MARGIN (MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN)

/* What two drawings say of tensions. */
#define FORCE_NOTE "At pitch; margin: semitones higher, until it breaks."
#define FORCE_TOTAL "all strings together"
#define FORCE_ON_BELLY "pressing the belly"
/* That there is nothing to draw; moves down. */
void force_say_none(struct mensur_draw *draw);

struct force_axis {
    double scale; /* px per N */
    double most;  /* N at the right end */
};

/* Holds the greatest tension, and breaking ones up to three times that: beyond, the bars would be
 * too short to compare; N. */
struct force_axis force_axis_make(double tension, double breaking);
/* The place of a force; whether it lies on the scale (an unknown one does not). */
double force_axis_at(const struct force_axis *axis, double force);
bool force_axis_holds(const struct force_axis *axis, double force);
/* The vertical lines over the height of the bars, which begin at draw->y, and their figures. */
void force_axis_draw(struct mensur_draw *draw, const struct force_axis *axis, double height);
/* The cross where a string breaks. */
void force_break_mark(struct mensur_draw *draw, double x, double y);

#endif
