/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a drawing: each lays its answer out below the last one, and says it in words. */
#ifndef MENSUR_DRAW_DRAW_H
#define MENSUR_DRAW_DRAW_H

#include "present.h"
#include "shapes.h"
#include "shown.h"

/* The page that parts are laid out on, in CSS px: narrow, so that a phone shows it legibly. */
#define MENSUR_PAGE_WIDTH 480.0
#define MENSUR_PAGE_MARGIN 16.0

/* Sizes of letters. */
#define MENSUR_SIZE_HEADING 16.0
#define MENSUR_SIZE_LABEL 13.0

/* What is drawn: instruments, the first of which the others are held against. */
struct mensur_drawn {
    const struct mensur_profile *const *profiles;
    size_t count;
    const char *const *roles; /* "as it is" ...; NULL: the names alone tell them apart */
};

/* A drawing in the making. */
struct mensur_draw {
    struct mensur_shapes shapes;
    const struct mensur_style *style;
    double y; /* where the next part begins */
};

/* The heading of a part; moves down. */
void mensur_draw_heading(struct mensur_draw *draw, const char *text);
/* "as changed: kestrel", "kestrel"; the caller's to free; NULL without memory. */
char *mensur_draw_name(const struct mensur_drawn *drawn, size_t i);
/* The pen of instrument i, and the fill of its bars. */
struct mensur_pen mensur_draw_pen(size_t i, double width);
enum mensur_paint mensur_draw_bar(size_t i);
enum mensur_paint mensur_draw_ink(size_t i);
/* Its name, and before it a sample of its bars where `sample`, at a base line. */
void mensur_draw_legend(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i,
                        double y, bool sample);
/* A line under the heading; which unit the figures are in, and what stands in brackets. */
void mensur_draw_note(struct mensur_draw *draw, const char *text, enum mensur_kind kind,
                      bool brackets);
/* Names instrument i in the description. */
void mensur_draw_say_name(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i);
/* Letters in the usual sizes. */
struct mensur_lettering mensur_draw_letters(enum mensur_anchor anchor);
struct mensur_lettering mensur_draw_strong(enum mensur_anchor anchor);
struct mensur_lettering mensur_draw_soft(enum mensur_anchor anchor);
/* Text on a plate of paper, where lines run behind it. */
void mensur_draw_plate(struct mensur_draw *draw, struct mensur_lettering letters, double x,
                       double y, const char *text);
/* "361.9", and behind it "(-13.9)" where there is something to hold it against; "(=)" where the two
 * are shown alike. */
struct mensur_shown mensur_draw_figure(const struct mensur_draw *draw, enum mensur_kind kind,
                                       double value, double first, bool is_first);
/* Steps of 1, 2 or 5 times a power of ten, at most `count` of them over a range. */
double mensur_draw_step(double range, int count);
/* A dimension line from x1 to x2 with ticks at its ends. */
void mensur_draw_dimension(struct mensur_draw *draw, double x1, double x2, double y);

/* The parts. */
void mensur_draw_side(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_bridge(struct mensur_draw *draw, const struct mensur_profile *profile);
void mensur_draw_places(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_pull(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_wishes(struct mensur_draw *draw, const struct mensur_decision *decision);

#endif
