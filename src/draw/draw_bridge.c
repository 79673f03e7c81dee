/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The geometry of one instrument at its bridge, enlarged: slope, projection, angles, and how the
 * strings' tension presses the belly. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "draw_side.h"

/* Width shown on either side of the bridge, as a multiple of its height. */
#define ASIDE 1.35
#define TENSION_ARROW 116.0

enum { HUMP_POINTS = 17 };

static const struct mensur_pen thin = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_NONE};
static const struct mensur_pen dashed = {MENSUR_PAINT_SOFT, 1.2, MENSUR_DASH_LONG};

struct detail {
    const struct mensur_profile *profile;
    const struct mensur_side_points *side;
    struct mensur_side_frame frame;
    double left, right; /* px of the window */
};

static struct mensur_point at(const struct detail *detail, double x, double y) {
    return mensur_side_at(&detail->frame, x, y);
}

/* The part of a line of the side view that lies within the window. */
static void draw_within(struct mensur_draw *draw, const struct detail *detail,
                        struct mensur_pen pen, struct mensur_point from, struct mensur_point to) {
    double left = fmax(from.x, detail->left);
    double right = fmin(to.x, detail->right);
    double slope = (to.y - from.y) / (to.x - from.x);
    if (left < right) {
        mensur_shape_line(&draw->shapes, pen, left, from.y + slope * (left - from.x), right,
                          from.y + slope * (right - from.x));
    }
}

static void draw_body(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    struct mensur_pen edge = {MENSUR_PAINT_INK, 2.0, MENSUR_DASH_NONE};
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    struct mensur_point belly = at(detail, side->top_x, side->arch);
    struct mensur_point base = at(detail, side->top_x, 0.0);
    double drop = (base.y - belly.y) * 0.16; /* not measured: for the picture only */
    struct mensur_point hump[HUMP_POINTS + 2];
    for (size_t i = 0; i < HUMP_POINTS; i++) {
        double aside = 2.0 * (double)i / (HUMP_POINTS - 1) - 1.0;
        hump[i] = (struct mensur_point){belly.x + aside * (belly.x - detail->left),
                                        belly.y + drop * aside * aside};
    }
    hump[HUMP_POINTS] = (struct mensur_point){detail->right, base.y};
    hump[HUMP_POINTS + 1] = (struct mensur_point){detail->left, base.y};
    struct mensur_pen outline = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_NONE};
    mensur_shape_path(&draw->shapes, none, MENSUR_PAINT_TINT, hump, HUMP_POINTS + 2, true);
    mensur_shape_path(&draw->shapes, outline, MENSUR_PAINT_NONE, hump, HUMP_POINTS, false);
    mensur_shape_line(&draw->shapes, edge, detail->left, base.y, detail->right, base.y);
}

static void draw_bridge(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    struct mensur_pen outline = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    double foot = side->bridge * 0.07;
    double head = side->bridge * 0.03;
    struct mensur_point points[] = {
        at(detail, side->top_x - foot, side->arch), at(detail, side->top_x - head, side->top_y),
        at(detail, side->top_x + head, side->top_y), at(detail, side->top_x + foot, side->arch)};
    mensur_shape_path(&draw->shapes, outline, MENSUR_PAINT_TINT, points, 4, true);
}

static void draw_strings(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    struct mensur_pen string = {MENSUR_PAINT_INK, 2.0, MENSUR_DASH_NONE};
    struct mensur_pen board = {MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE};
    struct mensur_point top = at(detail, side->top_x, side->top_y);
    struct mensur_point end = mensur_side_board_end(side);
    struct mensur_point board_end = at(detail, end.x, end.y);
    struct mensur_point line_end = at(detail, side->top_x, side->arch + side->projection);
    struct mensur_point start = {board_end.x - 400.0 * cos(side->board_slope),
                                 board_end.y + 400.0 * sin(side->board_slope)};
    draw_within(draw, detail, board, start, board_end);
    draw_within(draw, detail, dashed, board_end, line_end);
    draw_within(draw, detail, string, at(detail, side->nut_x, side->nut_y), top);
    if (!isnan(side->body_straight)) {
        draw_within(draw, detail, string, top, at(detail, side->body_straight, side->saddle));
    }
}

/* A height above a line, on a dimension line at x. */
static void draw_height(struct mensur_draw *draw, double x, double y1, double y2, double figure_y,
                        const char *label, const char *figure) {
    bool left = x < MENSUR_PAGE_WIDTH / 2.0;
    struct mensur_lettering soft = mensur_draw_soft(left ? MENSUR_ANCHOR_END : MENSUR_ANCHOR_START);
    struct mensur_lettering letters =
        mensur_draw_letters(left ? MENSUR_ANCHOR_END : MENSUR_ANCHOR_START);
    double text_x = x + (left ? -7.0 : 7.0);
    mensur_shape_line(&draw->shapes, thin, x, y1, x, y2);
    mensur_shape_line(&draw->shapes, thin, x - 4.0, y1, x + 4.0, y1);
    mensur_shape_line(&draw->shapes, thin, x - 4.0, y2, x + 4.0, y2);
    mensur_shape_text(&draw->shapes, soft, text_x, figure_y - 3.0, label);
    mensur_shape_text(&draw->shapes, letters, text_x, figure_y + 12.0, figure);
}

static void draw_heights(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    struct mensur_point top = at(detail, side->top_x, side->top_y);
    struct mensur_point line = at(detail, side->top_x, side->arch + side->projection);
    struct mensur_point belly = at(detail, side->top_x, side->arch);
    struct mensur_point base = at(detail, side->top_x, 0.0);
    double aside = 22.0 + side->bridge * 0.07 * detail->frame.scale;
    draw_height(draw, top.x - aside, line.y, belly.y, (line.y + 2.0 * belly.y) / 3.0, "projection",
                mensur_show_cut(draw->style, side->projection).text);
    mensur_shape_line(&draw->shapes, thin, line.x, line.y, line.x - aside, line.y);
    draw_height(draw, top.x + aside, top.y, belly.y, (line.y + 2.0 * belly.y) / 3.0, "bridge",
                mensur_show_cut(draw->style, side->bridge).text);
    mensur_shape_line(&draw->shapes, thin, top.x, top.y, top.x + aside, top.y);
    draw_height(draw, top.x + aside + 84.0, belly.y, base.y, (belly.y + base.y) / 2.0, "arch",
                mensur_show_cut(draw->style, side->arch).text);
    mensur_shape_line(&draw->shapes, dashed, belly.x, belly.y, top.x + aside + 84.0, belly.y);
}

static void draw_arrow(struct mensur_draw *draw, struct mensur_point from, double dx, double dy,
                       double length) {
    struct mensur_pen pen = {MENSUR_PAINT_OTHER, 2.4, MENSUR_DASH_NONE};
    double x = from.x + dx * length;
    double y = from.y + dy * length;
    mensur_shape_line(&draw->shapes, pen, from.x, from.y, x - dx * 8.0, y - dy * 8.0);
    mensur_shape_head(&draw->shapes, MENSUR_PAINT_OTHER, x, y, dx, dy, 12.0);
}

/* The tension along the string on both sides and its force on the belly; arrows to one scale. */
static void draw_forces(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    const struct mensur_profile *profile = detail->profile;
    struct mensur_point top = at(detail, side->top_x, side->top_y);
    double press = profile->total_force_on_belly / profile->total_tension * TENSION_ARROW;
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_START);
    letters.paint = MENSUR_PAINT_OTHER;
    if (!isfinite(press) || isnan(side->back_angle)) {
        return;
    }
    draw_arrow(draw, top, -cos(side->front_angle), sin(side->front_angle), TENSION_ARROW);
    draw_arrow(draw, top, cos(side->back_angle), sin(side->back_angle), TENSION_ARROW);
    draw_arrow(draw, top, 0.0, 1.0, press);
    mensur_shape_text(&draw->shapes, letters, detail->left, top.y - 12.0, "tension in all");
    mensur_shape_text(&draw->shapes, letters, detail->left, top.y + 4.0,
                      mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_tension).text);
    letters.anchor = MENSUR_ANCHOR_END;
    mensur_shape_text(&draw->shapes, letters, detail->right, top.y - 12.0, "on the belly");
    mensur_shape_text(
        &draw->shapes, letters, detail->right, top.y + 4.0,
        mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_force_on_belly).text);
}

static struct mensur_shown show_angle(const struct mensur_draw *draw, double angle) {
    struct mensur_shown shown = mensur_show(draw->style, MENSUR_ANGLE, angle);
    strcat(shown.text, "\xC2\xB0");
    return shown;
}

static void draw_break_angle(struct mensur_draw *draw, const struct detail *detail) {
    struct mensur_point top = at(detail, detail->side->top_x, detail->side->top_y);
    double angle = detail->profile->lengths.break_angle;
    char text[96];
    if (isnan(angle)) {
        return;
    }
    snprintf(text, sizeof text, "break angle %s", show_angle(draw, angle).text);
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_MIDDLE), top.x, top.y - 12.0,
                      text);
}

static void list_figure(struct mensur_draw *draw, const char *name, enum mensur_kind kind,
                        double value) {
    struct mensur_shown figure =
        kind == MENSUR_ANGLE ? show_angle(draw, value) : mensur_show_unit(draw->style, kind, value);
    if (isnan(value)) {
        return;
    }
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y, name);
    mensur_shape_text(&draw->shapes, mensur_draw_letters(MENSUR_ANCHOR_END), 366.0, draw->y,
                      figure.text);
    MENSUR_SHAPE_SAY(&draw->shapes, "%s %s.", name, figure.text);
    draw->y += 18.0;
}

static void list_rest(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_side_points *side = detail->side;
    const struct mensur_lengths *lengths = &detail->profile->lengths;
    list_figure(draw, "slope of the neck", MENSUR_ANGLE, side->neck_slope);
    list_figure(draw, "slope of the board's top", MENSUR_ANGLE, side->board_slope);
    list_figure(draw, "string before the bridge, against the edge", MENSUR_ANGLE,
                side->front_angle);
    list_figure(draw, "string behind the bridge, against the edge", MENSUR_ANGLE, side->back_angle);
    list_figure(draw, "lowest string over the board's end", MENSUR_LENGTH, lengths->clearance_low);
    list_figure(draw, "highest string over the board's end", MENSUR_LENGTH,
                lengths->clearance_high);
    list_figure(draw, "from the board's end to the bridge", MENSUR_LENGTH, lengths->bow_room);
}

static void say_bridge(struct mensur_draw *draw, const struct detail *detail) {
    const struct mensur_profile *profile = detail->profile;
    const struct mensur_side_points *side = detail->side;
    MENSUR_SHAPE_SAY(&draw->shapes, "At the bridge: arch %s, projection %s, bridge %s.",
                     mensur_show_cut_unit(draw->style, side->arch).text,
                     mensur_show_cut_unit(draw->style, side->projection).text,
                     mensur_show_cut_unit(draw->style, side->bridge).text);
    if (!isnan(profile->total_force_on_belly)) {
        MENSUR_SHAPE_SAY(
            &draw->shapes, "The strings have a tension of %s in all and press the belly with %s.",
            mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_tension).text,
            mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_force_on_belly).text);
    }
    if (!isnan(profile->lengths.break_angle)) {
        MENSUR_SHAPE_SAY(&draw->shapes, "Break angle %s degrees.",
                         mensur_show(draw->style, MENSUR_ANGLE, profile->lengths.break_angle).text);
    }
}

void mensur_draw_bridge(struct mensur_draw *draw, const struct mensur_profile *profile) {
    const struct mensur_side_points *side = &profile->side;
    if (!side->known) {
        return;
    }
    struct detail detail = {.profile = profile,
                            .side = side,
                            .left = MENSUR_PAGE_MARGIN,
                            .right = MENSUR_PAGE_WIDTH - MENSUR_PAGE_MARGIN};
    double middle = MENSUR_PAGE_WIDTH / 2.0;
    detail.frame.scale = (middle - MENSUR_PAGE_MARGIN) / (ASIDE * side->bridge);
    detail.frame.x = middle - side->top_x * detail.frame.scale;
    mensur_draw_heading(draw, "At the bridge, enlarged");
    mensur_draw_note(draw, "Dashed: the line of the board's top. Arrows to one scale.",
                     MENSUR_LENGTH, false);
    detail.frame.y = draw->y + 30.0 + side->top_y * detail.frame.scale;
    draw_body(draw, &detail);
    draw_bridge(draw, &detail);
    draw_strings(draw, &detail);
    draw_heights(draw, &detail);
    draw_forces(draw, &detail);
    draw_break_angle(draw, &detail);
    say_bridge(draw, &detail);
    draw->y = detail.frame.y + 30.0;
    list_rest(draw, &detail);
    draw->y += 6.0;
}
