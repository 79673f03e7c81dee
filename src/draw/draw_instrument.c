/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view of one instrument: belly, board, nut, bridge, saddle, string. */
#include <math.h>

#include "draw_side.h"

#define QUARTER_TURN 1.5707963267948966

enum { BELLY_STEPS = 24 };

static const struct mensur_pen outline = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_NONE};
static const struct mensur_pen no_pen = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};

struct mensur_point mensur_side_at(const struct mensur_side_frame *frame, double x, double y) {
    return (struct mensur_point){frame->x + x * frame->scale, frame->y - y * frame->scale};
}

/* Height of the belly between its ends: the arch under the bridge, smooth on both sides. Only the
 * height under the bridge is measured; the curve is for the picture. */
static double belly_height(const struct mensur_side_points *side, double x) {
    double stop = side->top_x;
    if (x <= stop) {
        return side->arch * sin(QUARTER_TURN * x / stop);
    }
    return side->arch * cos(QUARTER_TURN * (x - stop) / (side->body_straight - stop));
}

static void draw_belly(struct mensur_draw *draw, const struct mensur_side_points *side,
                       const struct mensur_side_frame *frame) {
    struct mensur_point points[BELLY_STEPS + 2];
    double end = isnan(side->body_straight) ? side->top_x : side->body_straight;
    size_t count = BELLY_STEPS + 1;
    for (size_t i = 0; i < count; i++) {
        double x = end * (double)i / BELLY_STEPS;
        points[i] = mensur_side_at(frame, x, belly_height(side, x));
    }
    if (isnan(side->body_straight)) {
        points[count++] = mensur_side_at(frame, end, 0.0);
    }
    mensur_shape_path(&draw->shapes, no_pen, MENSUR_PAINT_TINT, points, count, true);
    mensur_shape_path(&draw->shapes, outline, MENSUR_PAINT_NONE, points, BELLY_STEPS + 1, false);
    struct mensur_point left = mensur_side_at(frame, 0.0, 0.0);
    struct mensur_point right = mensur_side_at(frame, end, 0.0);
    struct mensur_pen edge = {MENSUR_PAINT_INK, 2.0, MENSUR_DASH_NONE};
    mensur_shape_line(&draw->shapes, edge, left.x, left.y, right.x, right.y);
}

/* The top of the board at the nut. */
static struct mensur_point board_start(const struct mensur_side_points *side) {
    double sine = sin(side->neck_slope);
    double cosine = cos(side->neck_slope);
    return (struct mensur_point){-side->neck * cosine - side->board_nut * sine,
                                 side->overstand - side->neck * sine + side->board_nut * cosine};
}

struct mensur_point mensur_side_board_end(const struct mensur_side_points *side) {
    struct mensur_point start = board_start(side);
    return (struct mensur_point){start.x + side->board_length * cos(side->board_slope),
                                 start.y + side->board_length * sin(side->board_slope)};
}

static void draw_board(struct mensur_draw *draw, const struct mensur_side_points *side,
                       const struct mensur_side_frame *frame) {
    struct mensur_point start = board_start(side);
    struct mensur_point end = mensur_side_board_end(side);
    double sine = sin(side->neck_slope);
    double cosine = cos(side->neck_slope);
    double under =
        side->board * 0.6; /* thickness over the body is not measured: for the picture only */
    struct mensur_point points[] = {
        mensur_side_at(frame, -side->neck * cosine, side->overstand - side->neck * sine),
        mensur_side_at(frame, start.x, start.y),
        mensur_side_at(frame, end.x, end.y),
        mensur_side_at(frame, end.x, end.y - under),
        mensur_side_at(frame, 0.0, side->overstand),
    };
    struct mensur_point root = mensur_side_at(frame, 0.0, 0.0);
    mensur_shape_line(&draw->shapes, outline, root.x, root.y, points[4].x, points[4].y);
    mensur_shape_path(&draw->shapes, outline, MENSUR_PAINT_TINT, points, 5, true);
}

/* A thin block on the gluing surface's end, up to the string. */
static void draw_nut(struct mensur_draw *draw, const struct mensur_side_points *side,
                     const struct mensur_side_frame *frame) {
    double sine = sin(side->neck_slope);
    double cosine = cos(side->neck_slope);
    struct mensur_point foot =
        mensur_side_at(frame, -side->neck * cosine, side->overstand - side->neck * sine);
    struct mensur_point top = mensur_side_at(frame, side->nut_x, side->nut_y);
    struct mensur_pen pen = {MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE};
    mensur_shape_line(&draw->shapes, pen, foot.x - 1.5, foot.y, top.x - 1.5, top.y);
}

static void draw_bridge(struct mensur_draw *draw, const struct mensur_side_points *side,
                        const struct mensur_side_frame *frame) {
    double foot = side->bridge * 0.07; /* half its thickness, not measured: for the picture only */
    double head = side->bridge * 0.025;
    struct mensur_point points[] = {
        mensur_side_at(frame, side->top_x - foot, side->arch),
        mensur_side_at(frame, side->top_x - head, side->top_y),
        mensur_side_at(frame, side->top_x + head, side->top_y),
        mensur_side_at(frame, side->top_x + foot, side->arch),
    };
    mensur_shape_path(&draw->shapes, outline, MENSUR_PAINT_TINT, points, 4, true);
}

static void draw_string(struct mensur_draw *draw, const struct mensur_side_points *side,
                        const struct mensur_side_frame *frame) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.8, MENSUR_DASH_NONE};
    struct mensur_point points[] = {
        mensur_side_at(frame, side->nut_x, side->nut_y),
        mensur_side_at(frame, side->top_x, side->top_y),
        mensur_side_at(frame, side->body_straight, side->saddle),
    };
    mensur_shape_path(&draw->shapes, pen, MENSUR_PAINT_NONE, points,
                      isnan(side->body_straight) ? 2 : 3, false);
    if (!isnan(side->body_straight)) {
        struct mensur_point foot = mensur_side_at(frame, side->body_straight, 0.0);
        struct mensur_pen saddle = {MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE};
        mensur_shape_line(&draw->shapes, saddle, foot.x - 1.5, foot.y, foot.x - 1.5, points[2].y);
    }
}

void mensur_side_instrument(struct mensur_draw *draw, const struct mensur_side_points *side,
                            const struct mensur_side_frame *frame) {
    draw_belly(draw, side, frame);
    draw_board(draw, side, frame);
    draw_bridge(draw, side, frame);
    draw_string(draw, side, frame);
    draw_nut(draw, side, frame);
}
