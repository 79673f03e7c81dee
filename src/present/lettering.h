/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in a drawing: its approximate width, and how it is shortened. The widths are an approximate
 * table of our own for sans-serif letters, rather too wide, because the reader's font is unknown.
 */
#ifndef MENSUR_PRESENT_LETTERING_H
#define MENSUR_PRESENT_LETTERING_H

#include "sink.h"

/* Width of a text at a font size, both in the same unit. */
double mensur_lettering_width(const char *text, double size);

/* How many bytes of a text go into a line of a width: up to a blank, or all of a word that is
 * wider; blanks before the next line are left to the caller. */
size_t mensur_lettering_line(const char *text, double size, double width);

/* A copy for a drawing: without control characters, with at most three marks on one letter,
 * shortened by an ellipsis to a width; isolated where it is written from right to left, so that the
 * order of the text around it stays. NULL without memory; the caller frees it. */
char *mensur_lettering_fit(const char *text, double size, double width);

/* The same, shortened in its middle: names that begin alike end differently. Text that is written
 * from right to left is shortened as above. */
char *mensur_lettering_fit_ends(const char *text, double size, double width);

/* Whether any letter of it is written from right to left. */
bool mensur_lettering_turns(const char *text);

/* A copy of a name for a sentence: only control characters are left out; isolated as above. */
char *mensur_lettering_whole(const char *text);

#endif
