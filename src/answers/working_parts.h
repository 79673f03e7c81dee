/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts that workings are put together from. */
#ifndef MENSUR_WORKING_PARTS_H
#define MENSUR_WORKING_PARTS_H

#include "formula_sources.h"
#include "profile.h"
#include "workbook.h"

/* The lengths: the side view, and what follows from the string length. */
void working_lengths(struct workbook *book, const struct setup *setup);

/* The nut and the string length alone, of an instrument whose measurements were told before. */
void working_points(struct workbook *book, const struct setup *setup);

/* String length and down factor where they are taken from another working. */
void working_string_length(struct workbook *book, const struct setup *setup);
void working_down_factor(struct workbook *book, const struct setup *setup);

/* Strings on an instrument, with their figures. */
struct working_strings {
    const struct setup *setup;
    size_t count;
    struct string_model models[MENSUR_STRINGS_MAX];
    struct mensur_string_figures figures[MENSUR_STRINGS_MAX];
};

/* Pitch, density, tension and what follows, law by law. */
void working_laws(struct workbook *book, const struct working_strings *strings);

/* The same of an instrument's own strings; feel: of bow and finger, too. */
void working_strings(struct workbook *book, const struct setup *setup, bool feel);

/* Pitch, density and tension alone. */
void working_tensions(struct workbook *book, const struct setup *setup);

/* What bow and finger feel of each string. */
void working_feel(struct workbook *book, const struct working_strings *strings);

/* The totals of the strings. */
void working_totals(struct workbook *book, const struct mensur_string_figures *strings,
                    size_t count);

/* The decision on the neck (or the stop) of an instrument. */
void working_decision(struct workbook *book, const struct mensur_instrument *instrument,
                      const struct mensur_decision *decision);

/* By how much the fingers stand wider on a string of another length. */
void working_wider(struct workbook *book, double length, double other);

/* Frames of the hand in the positions. */
void working_frames(struct workbook *book, const struct setup *setup,
                    const struct mensur_position *positions, size_t count);

#endif
