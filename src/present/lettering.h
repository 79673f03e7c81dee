/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in a picture: how wide it is about, and how it is shortened. The widths are our own rough
 * table for sans-serif letters, on the wide side, because the font is the reader's. */
#ifndef MENSUR_PRESENT_LETTERING_H
#define MENSUR_PRESENT_LETTERING_H

#include "sink.h"

/* Width of a text at a font size, both in the same unit. */
double mensur_lettering_width(const char *text, double size);

/* A copy that a picture can bear: no control characters, few marks over one letter, shortened by
 * an ellipsis to a width; isolated where it runs from right to left, so that it turns nothing
 * around it. NULL without memory; the caller's to free. */
char *mensur_lettering_fit(const char *text, double size, double width);

/* Whether a letter of it runs from right to left. */
bool mensur_lettering_turns(const char *text);

/* A copy of a name, whole but for control characters, to stand in a sentence; isolated as above. */
char *mensur_lettering_whole(const char *text);

#endif
