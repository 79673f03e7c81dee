/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a drawing: each is placed below the last one and adds sentences to the description.
 */
#ifndef MENSUR_DRAW_DRAW_H
#define MENSUR_DRAW_DRAW_H

#include "drawing_style.h"
#include "present.h"
#include "shapes.h"
#include "shown.h"

/* Width of a drawing, CSS px: narrow, so that it is legible on a phone. */
#define MENSUR_PAGE_WIDTH 480.0
#define MENSUR_PAGE_MARGIN 16.0
/* The same of a brief one, for a projector: its letters are larger where it fills a screen. */
#define MENSUR_BRIEF_WIDTH 300.0

/* Font sizes, CSS px. */
#define MENSUR_SIZE_HEADING 16.0
#define MENSUR_SIZE_LABEL 13.0
/* Width of bold letters over that of plain ones (ours). */
#define MENSUR_DRAW_BOLDER 1.12

/* The instruments that are drawn; the others are compared with the first. */
struct mensur_drawn {
    const struct mensur_profile *const *profiles;
    size_t count;
    const enum mensur_state *states; /* of each; NULL: names alone, of one with changes that it is
                                        proposed */
    const struct mensur_decision *decision; /* that they are about; NULL: none */
};

/* A drawing while it is made. */
struct mensur_draw {
    struct mensur_shapes shapes;
    const struct mensur_style *style;
    struct mensur_axes *axes; /* as of a drawing's style */
    bool brief;               /* without heading and notes */
    bool numbered;            /* numbers in place of the names of measurements */
    bool over;                /* the third side view over the second */
    double y;                 /* where the next part begins */
};

/* An empty drawing; and an illustration put together in it, `title` says what it shows. MENSUR_OK
 * or MENSUR_MEMORY; shapes have a status of their own. */
struct mensur_draw mensur_draw_begin(const struct mensur_style *style);
enum mensur_status mensur_draw_compose(const struct mensur_illustration *of,
                                       struct mensur_draw *draw, const char **title);

/* The heading of a part; moves down. */
void mensur_draw_heading(struct mensur_draw *draw, const char *text);
/* State and name of instrument i, "proposed: kestrel", or its name; the caller frees it; NULL
 * without memory. */
char *mensur_draw_name(const struct mensur_drawn *drawn, size_t i);
/* The pen of instrument i, the fill of its bars, its colour; the fourth's are the first's. */
struct mensur_pen mensur_draw_pen(size_t i, double width);
enum mensur_paint mensur_draw_bar(size_t i);
enum mensur_paint mensur_draw_ink(size_t i);
/* Its name at base line y; where `sample`, a sample of its bars before it, and in their colour;
 * else in that of its state, of the model another one. */
void mensur_draw_legend(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i,
                        double y, bool sample);
/* A line under the heading: text, the unit of the figures, and what the brackets mean. */
void mensur_draw_note(struct mensur_draw *draw, const char *text, enum mensur_kind kind,
                      bool brackets);
/* Names instrument i in the description. */
void mensur_draw_say_name(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i);
/* Letters in the usual sizes. */
struct mensur_lettering mensur_draw_letters(enum mensur_anchor anchor);
struct mensur_lettering mensur_draw_strong(enum mensur_anchor anchor);
struct mensur_lettering mensur_draw_soft(enum mensur_anchor anchor);
/* Text on a box of the paper's colour, where lines run behind it. */
void mensur_draw_plate(struct mensur_draw *draw, struct mensur_lettering letters, double x,
                       double y, const char *text);
/* "361.9", followed by the difference from the first, "(-13.9)", or "(=)" where both print alike;
 * without it for the first itself. */
struct mensur_shown mensur_draw_figure(const struct mensur_draw *draw, enum mensur_kind kind,
                                       double value, double first, bool is_first);
/* The same of a length that is cut or set. */
struct mensur_shown mensur_draw_cut(const struct mensur_draw *draw, double value, double first,
                                    bool is_first);
/* Steps of 1, 2 or 5 times a power of ten, at most `count` of them over a range. */
double mensur_draw_step(double range, int count);
/* A dimension line with ticks at its ends, as one shape; a level one. */
void mensur_draw_dimension(struct mensur_draw *draw, struct mensur_point from,
                           struct mensur_point to);
void mensur_draw_level(struct mensur_draw *draw, double x1, double x2, double y);

/* What is wished, in words: "string length: 370 to 380". */
void mensur_draw_wish_text(const struct mensur_draw *draw, const struct mensur_want *want,
                           char *text, size_t room);

/* The parts. */
void mensur_draw_side(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_bridge(struct mensur_draw *draw, const struct mensur_profile *profile);
void mensur_draw_measures(struct mensur_draw *draw, const struct mensur_profile *profile,
                          const struct mensur_decision *decision);
void mensur_draw_places(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_tension(struct mensur_draw *draw, const struct mensur_drawn *drawn);
void mensur_draw_wishes(struct mensur_draw *draw, const struct mensur_decision *decision);
void mensur_draw_restring(struct mensur_draw *draw, const struct mensur_restringing *restringing);
void mensur_draw_plane(struct mensur_draw *draw, const struct mensur_map *map);

#endif
