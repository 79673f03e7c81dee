/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on a line of necks (or stops): what each wish allows, what all of them allow, where
 * the strings are as long as they are made for, the recommended and the present neck, and the usual
 * one where nothing is wished. */
#include <math.h>
#include <stdio.h>

#include "draw.h"
#include "figures.h"

#define BAR 12.0
#define ROW 44.0
#define BAR_TOP 22.0 /* below the row's */
/* The same where the ends of the bars are dragged: there is room for a handle below the label. */
#define ROW_DRAGGED 68.0
#define BAR_TOP_DRAGGED 36.0
/* px above the bars for the labels of the present and the recommended neck. */
#define HEADROOM_NOW 22.0
#define HEADROOM_BOTH 40.0
#define HEADROOM_USUAL 57.0
#define STEPS_MOST 8 /* ticks of the scale, at most */

struct line {
    const struct mensur_decision *decision;
    double low, high; /* m at the page's margins */
    double row;       /* px from one bar to the next */
    double bar;       /* px from the top of a row to that of its bar */
    double top, bottom;
};

static double at(const struct line *line, double place) {
    double width = MENSUR_PAGE_WIDTH - 2.0 * MENSUR_PAGE_MARGIN;
    return MENSUR_PAGE_MARGIN + (place - line->low) / (line->high - line->low) * width;
}

static double clamped(const struct line *line, double place) {
    return fmin(fmax(at(line, place), MENSUR_PAGE_MARGIN), MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN);
}

static const char *thing(const struct mensur_decision *decision) {
    return decision->for_stop ? "stop" : "neck";
}

static double present_place(const struct mensur_decision *decision) {
    return decision->for_stop ? decision->present.lengths.stop : decision->present.lengths.neck;
}

static bool has_made_for(const struct mensur_decision *decision) {
    return !isnan(decision->made_for_place_low) || !isnan(decision->made_for_place_high);
}

/* Nothing being wished, the usual place is told. */
static bool tells_usual(const struct mensur_decision *decision) {
    return decision->want_count == 0 && !isnan(decision->usual_place);
}

static size_t row_count(const struct mensur_decision *decision) {
    return decision->want_count + (has_made_for(decision) ? 1 : 0);
}

static void include_place(struct line *line, double place) {
    line->low = fmin(line->low, place); /* fmin and fmax ignore NaN */
    line->high = fmax(line->high, place);
}

static struct line measure(const struct mensur_decision *decision) {
    double present = present_place(decision);
    struct line line = {.decision = decision, .low = present, .high = present};
    include_place(&line, decision->recommended_place);
    for (size_t i = 0; i < decision->want_count; i++) {
        include_place(&line, decision->wants[i].place_low);
        include_place(&line, decision->wants[i].place_high);
    }
    include_place(&line, decision->made_for_place_low);
    include_place(&line, decision->made_for_place_high);
    if (tells_usual(decision)) {
        include_place(&line, decision->usual_place);
    }
    /* The scale ends at 0.6 and 1.4 of the present: a wish far away would shrink the rest. */
    line.low = fmax(line.low, present * 0.6);
    line.high = fmin(line.high, present * 1.4);
    double more = fmax((line.high - line.low) * 0.15, 0.003);
    line.low -= more;
    line.high += more;
    line.row = ROW;
    line.bar = BAR_TOP;
    return line;
}

/* On the axis that is kept, or is to be. */
static void keep_axis(struct line *line, struct mensur_axes *axes) {
    if (axes->keep && axes->wish_high > axes->wish_low) {
        line->low = axes->wish_low;
        line->high = axes->wish_high;
    }
    line->row = ROW_DRAGGED;
    line->bar = BAR_TOP_DRAGGED;
    axes->wish_left = MENSUR_PAGE_MARGIN;
    axes->wish_right = MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN;
    axes->wish_low = line->low;
    axes->wish_high = line->high;
}

void mensur_draw_wish_text(const struct mensur_draw *draw, const struct mensur_want *want,
                           char *text, size_t room) {
    enum mensur_wish_kind kind;
    const char *note = mensur_wish_of(want->what, &kind);
    const struct mensur_figure *figure = mensur_wish_figure(kind);
    bool ratio = (figure->flags & MENSUR_FIGURE_RATIO) != 0;
    struct mensur_shown range = mensur_show_range(draw->style, want->kind, want->low, want->high);
    snprintf(text, room, "%s%s%s%s: %s", figure->label, ratio ? " as 2 to" : "",
             *note != '\0' ? " of " : "", note, range.text);
}

static void label_wish(struct mensur_draw *draw, const struct mensur_want *want, double y) {
    char text[200];
    mensur_draw_wish_text(draw, want, text, sizeof text);
    mensur_draw_plate(draw, mensur_draw_letters(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN, y, text);
    MENSUR_SHAPE_SAY(&draw->shapes, "Wish for %s (%s).", text, want->origin);
}

/* The places that a wish allows; an arrow where a side is open or lies beyond the page. */
static void draw_bar(struct mensur_draw *draw, const struct line *line, double low, double high,
                     struct mensur_pen pen, double y) {
    bool open_low = !(low >= line->low);
    bool open_high = !(high <= line->high);
    double x1 = open_low ? MENSUR_PAGE_MARGIN : clamped(line, low);
    double x2 = open_high ? MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN : clamped(line, high);
    double middle = y + BAR / 2.0;
    mensur_shape_box(&draw->shapes, pen, MENSUR_PAINT_TINT, x1 + (open_low ? 10.0 : 0.0), y,
                     fmax(x2 - x1 - (open_low ? 10.0 : 0.0) - (open_high ? 10.0 : 0.0), 0.5), BAR);
    if (open_low) {
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x1, middle, -1.0, 0.0, 12.0);
    }
    if (open_high) {
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x2, middle, 1.0, 0.0, 12.0);
    }
}

static void draw_wish(struct mensur_draw *draw, const struct line *line, size_t i) {
    const struct mensur_want *want = &line->decision->wants[i];
    double y = line->top + line->row * (double)i;
    label_wish(draw, want, y + 16.0);
    if (want->within_reach) {
        MENSUR_SHAPE_SAY(
            &draw->shapes, "It allows a %s of %s.", thing(line->decision),
            mensur_show_range(draw->style, MENSUR_LENGTH, want->place_low, want->place_high).text);
    } else {
        mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                          y + 33.0, "beyond what was searched");
        MENSUR_SHAPE_SAY(&draw->shapes, "Nothing that was searched meets it.");
    }
}

/* The lengths that the strings are made for, which are no wish, in the last row. */
static void draw_made_for(struct mensur_draw *draw, const struct line *line) {
    const struct mensur_decision *decision = line->decision;
    const struct mensur_profile *present = &decision->present;
    double y = line->top + line->row * (double)decision->want_count;
    char text[200];
    snprintf(
        text, sizeof text, "its strings are made for: %s",
        mensur_show_range(draw->style, MENSUR_LENGTH, present->made_for_low, present->made_for_high)
            .text);
    mensur_draw_plate(draw, mensur_draw_letters(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN, y + 16.0,
                      text);
    MENSUR_SHAPE_SAY(&draw->shapes, "Not wished: %s. That is a %s of %s.", text, thing(decision),
                     mensur_show_range(draw->style, MENSUR_LENGTH, decision->made_for_place_low,
                                       decision->made_for_place_high)
                         .text);
}

/* The places that meet all wishes, through all rows. */
static void draw_common(struct mensur_draw *draw, const struct line *line) {
    const struct mensur_decision *decision = line->decision;
    struct mensur_pen pen = {MENSUR_PAINT_INK, 0.8, MENSUR_DASH_DOTS};
    if (!decision->can_meet_all || decision->want_count == 0) {
        return;
    }
    double x1 =
        isnan(decision->place_low) ? MENSUR_PAGE_MARGIN : clamped(line, decision->place_low);
    double x2 = isnan(decision->place_high) ? MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN
                                            : clamped(line, decision->place_high);
    mensur_shape_box(&draw->shapes, pen, MENSUR_PAINT_HATCH, x1, line->top + 4.0, x2 - x1,
                     line->bottom - line->top - 4.0);
}

/* The gap between the two wishes that exclude each other. */
static void draw_conflict(struct mensur_draw *draw, const struct line *line) {
    const struct mensur_conflict *conflict = &line->decision->conflict;
    double x1 = clamped(line, line->decision->wants[conflict->first].place_high);
    double x2 = clamped(line, line->decision->wants[conflict->second].place_low);
    double y = line->bottom + 32.0;
    struct mensur_shown gap = mensur_show_unit(draw->style, MENSUR_LENGTH, conflict->gap);
    struct mensur_pen pen = {MENSUR_PAINT_OTHER, 1.0, MENSUR_DASH_LONG};
    char text[96];
    snprintf(text, sizeof text, "%s of %s lie between", gap.text, thing(line->decision));
    mensur_shape_line(&draw->shapes, pen, x1, line->top + 20.0, x1, y + 4.0);
    mensur_shape_line(&draw->shapes, pen, x2, line->top + 20.0, x2, y + 4.0);
    mensur_draw_level(draw, x1, x2, y);
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_MIDDLE);
    letters.paint = MENSUR_PAINT_OTHER;
    double middle = fmin(fmax((x1 + x2) / 2.0, 110.0), MENSUR_PAGE_WIDTH - 110.0);
    mensur_shape_text(&draw->shapes, letters, middle, y + 18.0, text);
    MENSUR_SHAPE_SAY(&draw->shapes, "Not all wishes can be met: %s what two of them allow.", text);
}

/* A vertical line through all rows with its label above them. */
static void draw_mark(struct mensur_draw *draw, const struct line *line, double place,
                      const char *name, struct mensur_pen pen, double label_y) {
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_MIDDLE);
    char text[96];
    double x = clamped(line, place);
    snprintf(text, sizeof text, "%s %s", name, mensur_show_cut(draw->style, place).text);
    letters.paint = pen.paint;
    letters.anchor = x < 110.0                       ? MENSUR_ANCHOR_START
                     : x > MENSUR_PAGE_WIDTH - 110.0 ? MENSUR_ANCHOR_END
                                                     : MENSUR_ANCHOR_MIDDLE;
    mensur_shape_line(&draw->shapes, pen, x, label_y + 5.0, x, line->bottom);
    double shift = letters.anchor == MENSUR_ANCHOR_START ? -2.0
                   : letters.anchor == MENSUR_ANCHOR_END ? 2.0
                                                         : 0.0;
    mensur_shape_text(&draw->shapes, letters, x + shift, label_y, text);
}

static void draw_marks(struct mensur_draw *draw, const struct line *line) {
    const struct mensur_decision *decision = line->decision;
    struct mensur_pen now = {MENSUR_PAINT_OTHER, 1.6, MENSUR_DASH_LONG};
    struct mensur_pen best = {MENSUR_PAINT_INK, 2.2, MENSUR_DASH_NONE};
    struct mensur_pen usual = {MENSUR_PAINT_SOFT, 1.6, MENSUR_DASH_DOTS};
    if (decision->leave) {
        draw_mark(draw, line, present_place(decision),
                  decision->place_proposed ? "proposed, stays" : "now, left as it is", best,
                  line->top - 8.0);
    } else {
        draw_mark(
            draw, line, present_place(decision),
            mensur_state_word(decision->place_proposed ? MENSUR_STATE_PROPOSED : MENSUR_STATE_NOW),
            now, line->top - 8.0);
    }
    if (!isnan(decision->recommended_place) && !decision->leave) {
        draw_mark(draw, line, decision->recommended_place,
                  mensur_state_word(MENSUR_STATE_RECOMMENDED), best, line->top - 25.0);
        MENSUR_SHAPE_SAY(&draw->shapes, "Recommended: %s.",
                         mensur_show_cut_unit(draw->style, decision->recommended_place).text);
    }
    if (!isnan(decision->nearest_place)) {
        draw_mark(draw, line, decision->nearest_place, "nearest", usual, line->top - 25.0);
        MENSUR_SHAPE_SAY(
            &draw->shapes, "Nearest: %s.",
            mensur_show_unit(draw->style, MENSUR_LENGTH, decision->nearest_place).text);
    }
    if (tells_usual(decision)) {
        draw_mark(draw, line, decision->usual_place, "usual", usual,
                  line->top - (decision->leave ? 25.0 : 42.0));
        MENSUR_SHAPE_SAY(&draw->shapes, "Usual: %s.",
                         mensur_show_unit(draw->style, MENSUR_LENGTH, decision->usual_place).text);
    }
    MENSUR_SHAPE_SAY(&draw->shapes, "%s: %s.", decision->place_proposed ? "Proposed" : "Now",
                     mensur_show_cut_unit(draw->style, present_place(decision)).text);
    if (decision->place_proposed && !isnan(decision->place_before)) {
        MENSUR_SHAPE_SAY(&draw->shapes, "Now: %s.",
                         mensur_show_cut_unit(draw->style, decision->place_before).text);
    }
}

static void draw_axis(struct mensur_draw *draw, const struct line *line) {
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_NONE};
    double low = mensur_shown_value(draw->style, MENSUR_LENGTH, line->low);
    double high = mensur_shown_value(draw->style, MENSUR_LENGTH, line->high);
    double step = mensur_draw_step(high - low, STEPS_MOST);
    double metre = (high - low) / (line->high - line->low);
    mensur_shape_line(&draw->shapes, pen, MENSUR_PAGE_MARGIN, line->bottom,
                      MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN, line->bottom);
    int decimals = step < 0.1 ? 2 : step < 1.0 ? 1 : 0;
    double first = ceil(low / step);
    for (int i = 0; i <= STEPS_MOST && (first + i) * step <= high; i++) {
        double tick = (first + i) * step;
        double x = at(line, tick / metre);
        mensur_shape_line(&draw->shapes, pen, x, line->bottom, x, line->bottom + 5.0);
        mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), x,
                          line->bottom + 19.0, mensur_show_number(tick, decimals, 7).text);
    }
}

void mensur_draw_wishes(struct mensur_draw *draw, const struct mensur_decision *decision) {
    struct line line = measure(decision);
    struct mensur_pen asked = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    struct mensur_pen unasked = {MENSUR_PAINT_SOFT, 1.2, MENSUR_DASH_DOTS};
    bool wished = decision->want_count > 0;
    if (draw->axes != NULL) {
        keep_axis(&line, draw->axes);
    }
    mensur_draw_heading(draw, !wished ? (decision->for_stop ? "The stop, without a wish"
                                                            : "The neck, without a wish")
                              : decision->for_stop ? "The stop that each wish allows"
                                                   : "The neck that each wish allows");
    mensur_draw_note(draw,
                     !wished                  ? "What its strings are made for, and what is usual."
                     : decision->can_meet_all ? "Hatched: every wish is met."
                                              : "No one place meets every wish.",
                     MENSUR_LENGTH, false);
    line.top = draw->y + (tells_usual(decision) && !decision->leave ? HEADROOM_USUAL
                          : tells_usual(decision) || !isnan(decision->nearest_place) ||
                                  !(isnan(decision->recommended_place) || decision->leave)
                              ? HEADROOM_BOTH
                              : HEADROOM_NOW);
    line.bottom = line.top + line.row * (double)row_count(decision) + 4.0;
    if (draw->axes != NULL) {
        draw->axes->wish_top = line.top + line.bar + BAR / 2.0;
        draw->axes->wish_row = line.row;
    }
    draw_common(draw, &line);
    draw_axis(draw, &line);
    for (size_t i = 0; i < decision->want_count; i++) {
        if (decision->wants[i].within_reach) {
            draw_bar(draw, &line, decision->wants[i].place_low, decision->wants[i].place_high,
                     asked, line.top + line.row * (double)i + line.bar);
        }
    }
    if (has_made_for(decision)) {
        draw_bar(draw, &line, decision->made_for_place_low, decision->made_for_place_high, unasked,
                 line.top + line.row * (double)decision->want_count + line.bar);
    }
    if (decision->conflict.exists) {
        draw_conflict(draw, &line);
    }
    draw_marks(draw, &line);
    for (size_t i = 0; i < decision->want_count; i++) {
        draw_wish(draw, &line, i);
    }
    if (has_made_for(decision)) {
        draw_made_for(draw, &line);
    }
    draw->y = line.bottom + (decision->conflict.exists ? 70.0 : 34.0);
}
