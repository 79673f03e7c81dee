/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shared by the parts of a drawing. */
#include "draw.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lettering.h"

void mensur_draw_heading(struct mensur_draw *draw, const char *text) {
    struct mensur_lettering letters = {
        .size = MENSUR_SIZE_HEADING, .bold = true, .paint = MENSUR_PAINT_INK};
    mensur_shape_text(&draw->shapes, letters, MENSUR_PAGE_MARGIN, draw->y + 20.0, text);
    draw->y += 32.0;
}

void mensur_draw_note(struct mensur_draw *draw, const char *text, enum mensur_kind kind,
                      bool brackets) {
    const char *shown = mensur_shown_unit(draw->style, kind);
    const char *unit = strcmp(shown, "in") == 0 ? "inches" : shown;
    char line[96];
    snprintf(line, sizeof line, "Figures in %s%s", unit,
             brackets ? "; in brackets: more or less than the first." : ".");
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    double width = draw->shapes.width - 2.0 * MENSUR_PAGE_MARGIN;
    letters.size = 12.5;
    mensur_shape_fitted(&draw->shapes, letters, MENSUR_PAGE_MARGIN, draw->y + 6.0, width, text);
    mensur_shape_fitted(&draw->shapes, letters, MENSUR_PAGE_MARGIN, draw->y + 22.0, width, line);
    draw->y += 40.0;
}

/* The word of its state; "" where there is nothing to say of it. */
static const char *word_of(const struct mensur_drawn *drawn, size_t i) {
    return drawn->states != NULL                    ? mensur_state_word(drawn->states[i])
           : drawn->profiles[i]->proposed_count > 0 ? mensur_state_word(MENSUR_STATE_PROPOSED)
                                                    : "";
}

char *mensur_draw_name(const struct mensur_drawn *drawn, size_t i) {
    const char *name = drawn->profiles[i]->instrument, *word = word_of(drawn, i);
    const char *between = *word != '\0' ? ": " : "";
    size_t room = strlen(word) + strlen(between) + strlen(name) + 1;
    char *text = calloc(room, 1);
    if (text != NULL) {
        strcat(strcat(strcat(text, word), between), name);
    }
    return text;
}

void mensur_draw_say_name(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i) {
    char *name = mensur_lettering_whole(drawn->profiles[i]->instrument);
    if (name == NULL) {
        draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    const char *word = word_of(drawn, i);
    MENSUR_SHAPE_SAY(&draw->shapes, "%s%s%s:", word, *word != '\0' ? ", " : "", name);
    free(name);
}

enum mensur_paint mensur_draw_ink(size_t i) {
    return i % 3 == 1 ? MENSUR_PAINT_OTHER : MENSUR_PAINT_INK;
}

struct mensur_pen mensur_draw_pen(size_t i, double width) {
    static const enum mensur_dash dashes[] = {MENSUR_DASH_NONE, MENSUR_DASH_LONG, MENSUR_DASH_DOTS};
    return (struct mensur_pen){mensur_draw_ink(i), width, dashes[i % 3]};
}

enum mensur_paint mensur_draw_bar(size_t i) {
    static const enum mensur_paint fills[] = {MENSUR_PAINT_TINT, MENSUR_PAINT_HATCH_OTHER,
                                              MENSUR_PAINT_HATCH};
    return fills[i % 3];
}

struct mensur_lettering mensur_draw_letters(enum mensur_anchor anchor) {
    return (struct mensur_lettering){
        .size = MENSUR_SIZE_LABEL, .anchor = anchor, .paint = MENSUR_PAINT_INK};
}

struct mensur_lettering mensur_draw_strong(enum mensur_anchor anchor) {
    struct mensur_lettering letters = mensur_draw_letters(anchor);
    letters.bold = true;
    return letters;
}

struct mensur_lettering mensur_draw_soft(enum mensur_anchor anchor) {
    struct mensur_lettering letters = mensur_draw_letters(anchor);
    letters.paint = MENSUR_PAINT_SOFT;
    return letters;
}

void mensur_draw_legend(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i,
                        double y, bool sample) {
    double x = MENSUR_PAGE_MARGIN + (sample ? 30.0 : 0.0);
    char *name = mensur_draw_name(drawn, i);
    struct mensur_pen pen = {mensur_draw_ink(i), 1.0, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_START);
    letters.paint = sample || drawn->states == NULL          ? mensur_draw_ink(i)
                    : drawn->states[i] == MENSUR_STATE_MODEL ? MENSUR_PAINT_OTHER
                                                             : MENSUR_PAINT_INK;
    if (name == NULL) {
        draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    if (sample) {
        mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(i), MENSUR_PAGE_MARGIN, y - 10.0, 22.0,
                         10.0);
    }
    letters.size = 14.0;
    double room = draw->shapes.width - MENSUR_PAGE_MARGIN - x;
    double width = mensur_lettering_width(name, letters.size) * MENSUR_DRAW_BOLDER + 6.0;
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    mensur_shape_box(&draw->shapes, none, MENSUR_PAINT_PAPER, x - 3.0, y - 13.0,
                     width < room ? width : room, 18.0);
    mensur_shape_fitted(&draw->shapes, letters, x, y, room / MENSUR_DRAW_BOLDER, name);
    free(name);
}

void mensur_draw_plate(struct mensur_draw *draw, struct mensur_lettering letters, double x,
                       double y, const char *text) {
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    double width =
        mensur_lettering_width(text, letters.size) * (letters.bold ? MENSUR_DRAW_BOLDER : 1.0) +
        6.0;
    double left = letters.anchor == MENSUR_ANCHOR_START ? x - 3.0
                  : letters.anchor == MENSUR_ANCHOR_END ? x + 3.0 - width
                                                        : x - width / 2.0;
    mensur_shape_box(&draw->shapes, none, MENSUR_PAINT_PAPER, left, y - letters.size * 0.9, width,
                     letters.size * 1.2);
    mensur_shape_text(&draw->shapes, letters, x, y, text);
}

/* A figure with how much it differs from the first one's, as both are shown. */
static struct mensur_shown against(const struct mensur_draw *draw, enum mensur_kind kind,
                                   struct mensur_shown shown, struct mensur_shown than,
                                   double more_by) {
    struct mensur_shown more = {"="};
    if (strcmp(than.text, shown.text) != 0) {
        more = mensur_show_difference(draw->style, kind, more_by);
    }
    size_t used = strlen(shown.text);
    if (used + strlen(more.text) + 4 < sizeof shown.text) {
        snprintf(shown.text + used, sizeof shown.text - used, " (%s)", more.text);
    }
    return shown;
}

struct mensur_shown mensur_draw_figure(const struct mensur_draw *draw, enum mensur_kind kind,
                                       double value, double first, bool is_first) {
    struct mensur_shown shown = mensur_show(draw->style, kind, value);
    return is_first || !isfinite(value - first)
               ? shown
               : against(draw, kind, shown, mensur_show(draw->style, kind, first), value - first);
}

struct mensur_shown mensur_draw_cut(const struct mensur_draw *draw, double value, double first,
                                    bool is_first) {
    struct mensur_shown shown = mensur_show_cut(draw->style, value);
    return is_first || !isfinite(value - first)
               ? shown
               : against(draw, MENSUR_LENGTH, shown, mensur_show_cut(draw->style, first),
                         value - first);
}

double mensur_draw_step(double range, int count) {
    double least = range / count;
    double power = pow(10.0, floor(log10(least)));
    double share = least / power;
    return power * (share <= 1.0 ? 1.0 : share <= 2.0 ? 2.0 : share <= 5.0 ? 5.0 : 10.0);
}

void mensur_draw_dimension(struct mensur_draw *draw, struct mensur_point from,
                           struct mensur_point to) {
    const double tick = 4.0;
    double length = hypot(to.x - from.x, to.y - from.y);
    double across = length > 0.0 ? tick * (to.x - from.x) / length : tick;
    double along = length > 0.0 ? tick * (to.y - from.y) / length : 0.0;
    const struct mensur_point points[] = {
        {from.x + along, from.y - across}, {from.x - along, from.y + across}, from, to,
        {to.x - along, to.y + across},     {to.x + along, to.y - across}};
    mensur_shape_path(&draw->shapes, (struct mensur_pen){MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_NONE},
                      MENSUR_PAINT_NONE, points, sizeof points / sizeof points[0], false);
}

void mensur_draw_level(struct mensur_draw *draw, double x1, double x2, double y) {
    mensur_draw_dimension(draw, (struct mensur_point){x1, y}, (struct mensur_point){x2, y});
}
