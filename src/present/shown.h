/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures in the unit in which they are to be shown, rounded as a workshop reads them. */
#ifndef MENSUR_PRESENT_SHOWN_H
#define MENSUR_PRESENT_SHOWN_H

#include "figures.h"
#include "present.h"
#include "state.h"

/* A figure as text; wide enough for any. */
struct mensur_shown {
    char text[64];
};

/* Whether a style sets answers down to be read, in words and in the units of the workshop; the
 * other formats hold data, in mm and N. */
static inline bool mensur_style_is_prose(const struct mensur_style *style) {
#define IS_PROSE(id, word, ending, prose, writer) prose,
    static const bool is_prose[] = {MENSUR_FORMATS(IS_PROSE)};
#undef IS_PROSE
    return is_prose[style->format];
}

/* Whether an answer may name the program's commands and options: not in a part of a page, which has
 * controls for what they would ask. */
static inline bool mensur_style_names_options(const struct mensur_style *style) {
    return style->html_parts == 0;
}

/* The unit of a kind as it is shown: "mm" or "in", "kg", "N" or "lb", "semitones", "" ... */
const char *mensur_shown_unit(const struct mensur_style *style, enum mensur_kind kind);

/* A value in SI as a number in its kind's shown unit. */
double mensur_shown_value(const struct mensur_style *style, enum mensur_kind kind, double value);

/* A bare number with decimals in at most width columns, 5 or more; "?" where it is not known. */
struct mensur_shown mensur_show_number(double value, int decimals, size_t width);

/* A value in SI, as a bare number in its kind's shown unit: lengths to 0.1 mm or 0.01 in, forces
 * to 0.1 kg, 0.1 N or 0.1 lb, angles and semitones to 0.1, bare numbers to four digits. */
struct mensur_shown mensur_show(const struct mensur_style *style, enum mensur_kind kind,
                                double value);
/* The same in at most so many columns, 5 or more; rounded more coarsely where that takes it. */
struct mensur_shown mensur_show_within(const struct mensur_style *style, enum mensur_kind kind,
                                       double value, size_t width);
/* The same as mensur_show to one decimal more; forces to two digits, as of a bow. */
struct mensur_shown mensur_show_finer(const struct mensur_style *style, enum mensur_kind kind,
                                      double value);
/* How sure a value is, to the places that it is shown with; to two digits where that would be more,
 * and to one where it would be none (JCGM 100:2008, 7.2.6, from memory). */
struct mensur_shown mensur_show_plus_minus(const struct mensur_style *style, enum mensur_kind kind,
                                           double plus_minus);
/* The same as mensur_show with its unit, which no line break parts from it; in a full answer a
 * force in N too: "4.4 kg (43.3 N)". */
struct mensur_shown mensur_show_unit(const struct mensur_style *style, enum mensur_kind kind,
                                     double value);
/* "(43.3 N)", beside a force in kg or lb in a full answer; "" elsewhere. */
struct mensur_shown mensur_show_in_newtons(const struct mensur_style *style, double force);
/* A length that is cut or set, as a bare number: to 0.1 mm, or in inches as a fraction of 1/64; and
 * with its unit, which no line break parts from it. */
struct mensur_shown mensur_show_cut(const struct mensur_style *style, double value);
struct mensur_shown mensur_show_cut_unit(const struct mensur_style *style, double value);
/* A + before a figure that is more than nothing. */
struct mensur_shown mensur_shown_signed(struct mensur_shown shown);
/* The same as mensur_show, with its sign. */
struct mensur_shown mensur_show_difference(const struct mensur_style *style, enum mensur_kind kind,
                                           double value);
/* The number of the neck in neck : stop on the usual base: 2 for what is held under the chin, 7 for
 * cello and bass. */
double mensur_shown_neck_base(const char *held);
double mensur_shown_base(const struct mensur_style *style);
/* neck : stop on the base of the style, "2 : 2.97" or "7 : 10.0", which no line break parts. */
struct mensur_shown mensur_show_ratio(const struct mensur_style *style, double stop_per_2_neck);
/* "362.0 to 376.0 mm", "up to 560.0 mm", "368.0 mm or more"; "any" where both sides are open. */
struct mensur_shown mensur_show_range(const struct mensur_style *style, enum mensur_kind kind,
                                      double low, double high);
/* The same of ratios: "2 : 2.80 to 2 : 3.10". */
struct mensur_shown mensur_show_ratio_range(const struct mensur_style *style, double low,
                                            double high);
/* A figure of the table as a bare number in at most so many columns. */
struct mensur_shown mensur_figure_within(const struct mensur_figure *figure,
                                         const struct mensur_style *style, double value,
                                         size_t width);
/* A figure of the table in its shown unit, the one that is a ratio as the trade tells it; and a
 * difference of two, with its sign. */
struct mensur_shown mensur_figure_show(const struct mensur_figure *figure,
                                       const struct mensur_style *style, double value);
struct mensur_shown mensur_figure_difference(const struct mensur_figure *figure,
                                             const struct mensur_style *style, double value);
/* A count. */
struct mensur_shown mensur_show_count(size_t count);

/* A note, without its octave, as a neck is named by it: "a D", "an E-flat". */
struct mensur_shown mensur_neck_named(const char *note);

#endif
