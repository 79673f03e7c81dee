/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "template_figures.h"

#include <math.h>
#include <stdio.h>

#include "draw_side.h"
#include "shown.h"

#define MM 1000.0 /* in a m */
#define TEXT 3.0
#define LINE 3.8 /* from one line of text to the next */
/* Round what is drawn: room for labels and register marks. */
#define ROOM 24.0
#define ABOVE 4.0
#define UNDER 10.0
/* Where dimension lines stand: under the edge, and over the board. */
#define UNDER_EDGE 14.0
#define OVER_BOARD 18.0

enum { CROWN_STEPS = 24 };

static const struct mensur_pen cut_line = {MENSUR_PAINT_INK, 0.3, MENSUR_DASH_NONE};
static const struct mensur_pen thin = {MENSUR_PAINT_SOFT, 0.15, MENSUR_DASH_NONE};
static const struct mensur_pen dashed = {MENSUR_PAINT_SOFT, 0.2, MENSUR_DASH_LONG};

struct figure {
    const struct mensur_canvas *canvas;
    const struct mensur_profile *profile;
    const struct mensur_side_points *side; /* its, m */
    const struct mensur_style *style;
};

static struct mensur_point in_mm(struct mensur_point point) {
    return (struct mensur_point){point.x * MM, point.y * MM};
}

static struct mensur_point point(double x, double y) {
    return (struct mensur_point){x, y};
}

static struct mensur_point on_neck(const struct figure *figure, double along, double over) {
    return in_mm(mensur_side_on_neck(figure->side, along / MM, over / MM));
}

static void line(const struct figure *figure, struct mensur_pen pen, double x1, double y1,
                 double x2, double y2) {
    mensur_canvas_line(figure->canvas, pen, point(x1, y1), point(x2, y2));
}

/* A name, and under it a length and whether it is assumed. */
static void label(const struct figure *figure, enum mensur_anchor anchor, double x, double y,
                  const char *name, double length, enum mensur_origin from) {
    struct mensur_lettering letters = {.size = TEXT, .anchor = anchor, .paint = MENSUR_PAINT_INK};
    struct mensur_lettering soft = {.size = TEXT, .anchor = anchor, .paint = MENSUR_PAINT_SOFT};
    char text[96];
    if (isnan(length)) {
        return;
    }
    snprintf(text, sizeof text, "%s%s", mensur_show_cut(figure->style, length).text,
             from == MENSUR_ORIGIN_ASSUMED ? " assumed" : "");
    if (mensur_canvas_holds(figure->canvas, soft, x, y, name) &&
        mensur_canvas_holds(figure->canvas, letters, x, y - LINE, text)) {
        mensur_canvas_text(figure->canvas, soft, x, y, name);
        mensur_canvas_text(figure->canvas, letters, x, y - LINE, text);
    }
}

static void label_side(const struct figure *figure, enum mensur_anchor anchor, double x, double y,
                       const char *name, double length, const char *field) {
    label(figure, anchor, x, y, name, length, mensur_side_origin(figure->profile, field, length));
}

/* A dimension line with ticks square to it. */
static void dimension(const struct figure *figure, struct mensur_point from,
                      struct mensur_point to) {
    double length = hypot(to.x - from.x, to.y - from.y);
    double x = (to.y - from.y) / length * 1.5, y = -(to.x - from.x) / length * 1.5;
    line(figure, thin, from.x, from.y, to.x, to.y);
    line(figure, thin, from.x - x, from.y - y, from.x + x, from.y + y);
    line(figure, thin, to.x - x, to.y - y, to.x + x, to.y + y);
}

/* x of the lower end, or as far as the figure goes without one. */
static double end_of(const struct mensur_side_points *side) {
    return (isnan(side->body_straight) ? side->top_x * 1.2 : side->body_straight) * MM;
}

static void draw_neck(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    double neck = side->neck * MM, board = side->board * MM, nut = side->board_nut * MM;
    double heel = side->heel * MM;
    struct mensur_point root = point(0.0, side->overstand * MM);
    struct mensur_point foot = on_neck(figure, neck, 0.0);
    struct mensur_point top = on_neck(figure, neck, nut);
    struct mensur_point end = in_mm(mensur_side_board_end(side));
    struct mensur_point string = point(side->nut_x * MM, side->nut_y * MM);
    struct mensur_point over = on_neck(figure, 0.0, board);
    struct mensur_point head = on_neck(figure, neck + 5.0, 0.0);
    struct mensur_point head_top = on_neck(figure, neck + 5.0, nut);
    const struct mensur_point wedge[] = {over, root, foot, top, end};
    const struct mensur_point block[] = {foot, head, head_top, string};
    mensur_canvas_lines(figure->canvas, cut_line, wedge, 5);
    mensur_canvas_line(figure->canvas, cut_line, top, string);
    mensur_canvas_lines(figure->canvas, dashed, block, 4);
    line(figure, cut_line, 0.0, root.y, 0.0, -9.0);
    line(figure, dashed, foot.x + 2.0, 0.0, 0.0, 0.0);
    double over_board = board + OVER_BOARD;
    dimension(figure, on_neck(figure, neck, over_board), on_neck(figure, 0.0, over_board));
    struct mensur_point middle = on_neck(figure, neck * 0.6, over_board + 3.0 + LINE);
    label_side(figure, MENSUR_ANCHOR_END, middle.x, middle.y, "neck", side->neck, "neck");
    label_side(figure, MENSUR_ANCHOR_START, 3.0, -5.0, "overstand", side->overstand, "overstand");
    label_side(figure, MENSUR_ANCHOR_START, string.x - 21.0, string.y + 3.0 + LINE, "nut",
               side->nut, "nut");
    label_side(figure, MENSUR_ANCHOR_START, foot.x - 21.0, foot.y - 5.0, "board", side->board_nut,
               "board_nut");
    if (heel > 0.0 && heel < neck) {
        struct mensur_point thumb = on_neck(figure, heel, -5.0);
        mensur_canvas_line(figure->canvas, cut_line, on_neck(figure, heel, 0.0), thumb);
        /* clear of the edge's line, and of what is on its other side */
        double y = thumb.y - 4.0 < LINE + 5.0 ? fmin(thumb.y - 4.0, -5.0) : thumb.y - 4.0;
        label_side(figure, MENSUR_ANCHOR_MIDDLE, fmin(thumb.x, -13.0), y, "heel", side->heel,
                   "heel");
    }
}

/* What stands over the board: its thickness at the edge, its end, the string's length. */
static void label_board(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    struct mensur_point end = in_mm(mensur_side_board_end(side));
    double slope = (side->top_y - side->nut_y) / (side->top_x - side->nut_x);
    double at_root = (side->nut_y - side->nut_x * slope) * MM;
    double middle = (side->nut_x + side->top_x) * MM / 2.0;
    label_side(figure, MENSUR_ANCHOR_MIDDLE, 0.0, at_root + 4.0 + LINE, "board", side->board,
               "board");
    label(figure, MENSUR_ANCHOR_END, middle + 30.0,
          (side->nut_y + side->top_y) * MM / 2.0 + 30.0 * slope + 4.0 + LINE, "string",
          figure->profile->lengths.string_length, MENSUR_ORIGIN_MEASURED);
    label_side(figure, MENSUR_ANCHOR_END, end.x, end.y - 7.0, "board long", side->board_length,
               "board_length");
    line(figure, thin, end.x, end.y, end.x, end.y - 4.0);
}

static void draw_at_bridge(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    double x = side->top_x * MM, arch = side->arch * MM;
    double projection = arch + side->projection * MM, top = side->top_y * MM;
    struct mensur_point end = in_mm(mensur_side_board_end(side));
    line(figure, cut_line, x, 0.0, x, top);
    line(figure, cut_line, x - 12.0, arch, x + 12.0, arch);
    line(figure, thin, x - 9.0, projection, x, projection);
    line(figure, thin, x, top, x + 9.0, top);
    mensur_canvas_line(figure->canvas, dashed, end, point(x, projection));
    dimension(figure, point(x - 7.0, arch), point(x - 7.0, projection));
    dimension(figure, point(x + 7.0, arch), point(x + 7.0, top));
    dimension(figure, point(x + 7.0, 0.0), point(x + 7.0, arch));
    label_side(figure, MENSUR_ANCHOR_END, x - 9.0, (arch + projection) / 2.0, "projection",
               side->projection, "projection");
    label_side(figure, MENSUR_ANCHOR_START, x + 9.0, (arch + top) / 2.0, "bridge", side->bridge,
               "bridge");
    label_side(figure, MENSUR_ANCHOR_START, x + 9.0, arch / 2.0 + 1.0, "arch", side->arch, "arch");
}

static void draw_body(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    double end = end_of(side), stop = side->top_x * MM;
    line(figure, cut_line, 0.0, 0.0, end, 0.0);
    mensur_canvas_line(figure->canvas, cut_line, point(side->nut_x * MM, side->nut_y * MM),
                       point(stop, side->top_y * MM));
    dimension(figure, point(0.0, -UNDER_EDGE), point(stop, -UNDER_EDGE));
    label_side(figure, MENSUR_ANCHOR_MIDDLE, stop / 2.0, -UNDER_EDGE - 5.0, "stop", side->top_x,
               "stop");
    if (isnan(side->body_straight)) {
        return;
    }
    mensur_canvas_line(figure->canvas, cut_line, point(stop, side->top_y * MM),
                       point(end, side->saddle * MM));
    line(figure, cut_line, end, -9.0, end, side->saddle * MM);
    line(figure, cut_line, end, side->saddle * MM, end - 5.0, side->saddle * MM);
    label_side(figure, MENSUR_ANCHOR_END, end - 3.0, -5.0, "saddle", side->saddle, "saddle");
    dimension(figure, point(stop, -UNDER_EDGE), point(end, -UNDER_EDGE));
    label(figure, MENSUR_ANCHOR_MIDDLE, (stop + end) / 2.0, -UNDER_EDGE - 5.0, "to the end",
          side->body_straight - side->top_x, MENSUR_ORIGIN_MEASURED);
}

/* What is said along the lines, where there is room. */
static void name_lines(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    struct mensur_lettering soft = {.size = TEXT, .paint = MENSUR_PAINT_SOFT};
    struct mensur_point slope = on_neck(figure, side->neck * MM * 0.75, -6.0);
    char text[96];
    snprintf(text, sizeof text, "slope %s\xC2\xB0",
             mensur_show(figure->style, MENSUR_ANGLE, side->neck_slope).text);
    mensur_canvas_text(figure->canvas, soft, slope.x, slope.y, text);
    mensur_canvas_text(figure->canvas, soft, side->top_x * MM * 0.25, 1.2, "the belly's edge");
    if (side->top_x > 0.25) { /* once more on a page further right */
        mensur_canvas_text(figure->canvas, soft, side->top_x * MM * 0.8, 1.2, "the belly's edge");
    }
}

/* Height of the crown, mm, at a place across from the middle. */
static double crown_at(double middle, double radius, double tilt, double x) {
    return middle - x * x / (radius + sqrt(fmax(radius * radius - x * x, 0.0))) - tilt * x;
}

static void draw_crown(const struct figure *figure, double x, double y, double middle,
                       double radius, double tilt, double half) {
    struct mensur_point arc[CROWN_STEPS + 1];
    for (int i = 0; i <= CROWN_STEPS; i++) {
        double across = half * (2.0 * i / CROWN_STEPS - 1.0);
        arc[i] = point(x + across, y + crown_at(middle, radius, tilt, across));
    }
    mensur_canvas_lines(figure->canvas, cut_line, arc, CROWN_STEPS + 1);
}

/* Over each string its note, and under it a figure. */
static void draw_crossing(const struct figure *figure, const char *note, double x, double y,
                          double height, double shown) {
    double apart = figure->side->spacing_bridge * MM / (double)figure->side->crossing_count;
    struct mensur_lettering letters = {.size = fmin(TEXT, fmax(0.45 * apart, 1.5)),
                                       .anchor = MENSUR_ANCHOR_MIDDLE,
                                       .paint = MENSUR_PAINT_INK};
    line(figure, thin, x, y, x, y + height);
    mensur_canvas_disc(figure->canvas, x, y + height, 0.5);
    mensur_canvas_text(figure->canvas, letters, x, y - 4.5,
                       mensur_show_cut(figure->style, shown).text);
    letters.bold = true;
    mensur_canvas_text(figure->canvas, letters, x, y + height + 2.5, note);
}

static void title(const struct figure *figure, double x, double y, const char *text) {
    struct mensur_lettering letters = {
        .size = TEXT, .anchor = MENSUR_ANCHOR_MIDDLE, .bold = true, .paint = MENSUR_PAINT_INK};
    mensur_canvas_text(figure->canvas, letters, x, y, text);
}

static void draw_bridge(const struct figure *figure) {
    const struct mensur_side_points *side = figure->side;
    struct mensur_lettering soft = {
        .size = TEXT, .anchor = MENSUR_ANCHOR_MIDDLE, .paint = MENSUR_PAINT_SOFT};
    double bridge = side->bridge * MM, outer = side->spacing_bridge * MM / 2.0;
    double feet = side->foot_spacing * MM / 2.0;
    double wide = fmax(isnan(feet) ? 0.0 : feet, isnan(outer) ? 0.0 : outer) + 8.0;
    line(figure, cut_line, -wide, 0.0, wide, 0.0);
    line(figure, dashed, 0.0, 0.0, 0.0, bridge);
    title(figure, 0.0, bridge + 12.0, "bridge");
    mensur_canvas_text(figure->canvas, soft, 0.0, bridge + 8.0, "from the tailpiece");
    mensur_canvas_text(figure->canvas, soft, 0.0, -8.5, "heights over the belly");
    if (side->crossing_count > 0) {
        const struct mensur_crossing *low = &side->crossings[0];
        const struct mensur_crossing *high = &side->crossings[side->crossing_count - 1];
        double across = high->at_bridge - low->at_bridge;
        double tilt = across > 0.0 ? (low->above_belly - high->above_belly) / across : 0.0;
        draw_crown(figure, 0.0, 0.0, bridge, side->crown * MM, tilt, outer + 4.0);
        for (size_t i = 0; i < side->crossing_count; i++) {
            const struct mensur_crossing *one = &side->crossings[i];
            draw_crossing(figure, one->note, one->at_bridge * MM, 0.0, one->above_belly * MM,
                          one->above_belly);
        }
        dimension(figure, point(-outer, -12.0), point(outer, -12.0));
        label_side(figure, MENSUR_ANCHOR_MIDDLE, 0.0, -16.5, "outer strings", side->spacing_bridge,
                   "spacing_bridge");
    }
    if (!isnan(feet)) {
        dimension(figure, point(-feet, -24.5), point(feet, -24.5));
        line(figure, cut_line, -feet, 0.0, -feet, 2.5);
        line(figure, cut_line, feet, 0.0, feet, 2.5);
        label_side(figure, MENSUR_ANCHOR_MIDDLE, 0.0, -29.0, "feet", side->foot_spacing,
                   "foot_spacing");
    }
}

/* The nut, its middle at (x, y) on the board's top. */
static void draw_nut(const struct figure *figure, double x, double y) {
    const struct mensur_side_points *side = figure->side;
    struct mensur_lettering soft = {
        .size = TEXT, .anchor = MENSUR_ANCHOR_MIDDLE, .paint = MENSUR_PAINT_SOFT};
    double outer = side->spacing_nut * MM / 2.0, nut = side->nut * MM;
    double radius = side->crown * MM * side->spacing_nut / side->spacing_bridge;
    if (side->crossing_count == 0) {
        return;
    }
    title(figure, x, y + nut + 13.0, "nut");
    mensur_canvas_text(figure->canvas, soft, x, y + nut + 9.5, "from the tailpiece");
    draw_crown(figure, x, y, nut, radius, 0.0, outer + 2.5);
    draw_crown(figure, x, y, 0.0, radius, 0.0, outer + 2.5);
    for (size_t i = 0; i < side->crossing_count; i++) {
        const struct mensur_crossing *one = &side->crossings[i];
        struct mensur_lettering letters = {
            .size = 2.6, .anchor = MENSUR_ANCHOR_MIDDLE, .bold = true, .paint = MENSUR_PAINT_INK};
        double at = x + one->at_nut * MM;
        /* notes that stand close are set in two rows */
        double row = outer * 2.0 < 5.0 * (double)side->crossing_count && i % 2 == 1 ? 2.6 : 0.0;
        mensur_canvas_disc(figure->canvas, at, y + one->above_board * MM, 0.4);
        mensur_canvas_text(figure->canvas, letters, at, y + nut + 2.3 + row, one->note);
    }
    dimension(figure, point(x - outer, y - 12.0), point(x + outer, y - 12.0));
    label_side(figure, MENSUR_ANCHOR_MIDDLE, x, y - 16.5, "outer strings", side->spacing_nut,
               "spacing_nut");
}

/* Half of what the bridge, and of what the nut takes across. */
static double half_bridge(const struct mensur_side_points *side) {
    return fmax(fmax(isnan(side->foot_spacing) ? 0.0 : side->foot_spacing,
                     isnan(side->spacing_bridge) ? 0.0 : side->spacing_bridge) *
                    MM / 2.0,
                12.0) +
           12.0;
}

static double half_nut(const struct mensur_side_points *side) {
    return fmax(isnan(side->spacing_nut) ? 0.0 : side->spacing_nut * MM / 2.0, 16.0) + 6.0;
}

/* The nut stands beside the bridge. */
static double nut_place(const struct mensur_side_points *side) {
    return half_bridge(side) + half_nut(side);
}

struct mensur_area mensur_template_area(enum mensur_template_figure which,
                                        const struct mensur_profile *profile) {
    const struct mensur_side_points *side = &profile->side;
    if (which == MENSUR_TEMPLATE_BRIDGE) {
        double top = side->bridge * MM + 18.0;
        return (struct mensur_area){-half_bridge(side), top,
                                    half_bridge(side) + half_nut(side) + nut_place(side),
                                    top + 36.0};
    }
    struct mensur_point foot = in_mm(mensur_side_on_neck(side, side->neck, 0.0));
    double left = fmin(foot.x, side->nut_x * MM) - ROOM;
    double over = in_mm(mensur_side_on_neck(side, 0.0, side->board)).y + OVER_BOARD + 8.0;
    double top = fmax(fmax(side->top_y, side->nut_y) * MM + ABOVE, over);
    double bottom = fmin(foot.y, -UNDER_EDGE - 5.0) - UNDER;
    return (struct mensur_area){left, top, end_of(side) + 3.0 - left, top - bottom};
}

void mensur_template_draw(enum mensur_template_figure which, const struct mensur_canvas *canvas,
                          const struct mensur_profile *profile, const struct mensur_style *style) {
    const struct figure figure = {
        .canvas = canvas, .profile = profile, .side = &profile->side, .style = style};
    if (which == MENSUR_TEMPLATE_BRIDGE) {
        draw_bridge(&figure);
        draw_nut(&figure, nut_place(&profile->side), 0.0);
        return;
    }
    draw_body(&figure);
    draw_neck(&figure);
    label_board(&figure);
    draw_at_bridge(&figure);
    name_lines(&figure);
}
