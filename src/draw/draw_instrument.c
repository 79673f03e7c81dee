/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view of one instrument: body, neck and head, board, nut, bridge, strings, tailpiece. */
#include <math.h>
#include <string.h>

#include "draw_side.h"
#include "result_use.h"

#define QUARTER_TURN 1.5707963267948966

enum { ARCH_STEPS = 24, SCROLL_STEPS = 14, VOLUTE_STEPS = 30, BUTTON_PX = 7 };

/* How far the head leans back from the neck, rad: for the picture only. */
#define HEAD_LEAN 0.2

/* Shares that are for the picture only, by how the instrument is held (common practice, no
 * source): ribs of the straight back, edge of the ribs, wood under the board and head of the neck.
 */
struct build {
    double ribs, edge, wood, head;
};

static const struct mensur_pen no_pen = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};

static const struct {
    enum mensur_paint wood, board, nut;
    struct mensur_pen outline;
    enum mensur_dash string;
} looks[] = {[MENSUR_SIDE_INK] = {MENSUR_PAINT_TINT,
                                  MENSUR_PAINT_SOFT,
                                  MENSUR_PAINT_INK,
                                  {MENSUR_PAINT_INK, 1.3, MENSUR_DASH_NONE},
                                  MENSUR_DASH_NONE},
             [MENSUR_SIDE_THIN] = {MENSUR_PAINT_PAPER,
                                   MENSUR_PAINT_HATCH,
                                   MENSUR_PAINT_INK,
                                   {MENSUR_PAINT_INK, 0.7, MENSUR_DASH_NONE},
                                   MENSUR_DASH_NONE},
             [MENSUR_SIDE_LIKED] = {MENSUR_PAINT_PAPER,
                                    MENSUR_PAINT_HATCH_OTHER,
                                    MENSUR_PAINT_INK,
                                    {MENSUR_PAINT_SECOND, 1.0, MENSUR_DASH_NONE},
                                    MENSUR_DASH_NONE},
             [MENSUR_SIDE_OVER] = {MENSUR_PAINT_NONE,
                                   MENSUR_PAINT_NONE,
                                   MENSUR_PAINT_OTHER,
                                   {MENSUR_PAINT_OTHER, 1.5, MENSUR_DASH_NONE},
                                   MENSUR_DASH_LONG}};

/* One instrument while it is drawn. */
struct pencil {
    struct mensur_draw *draw;
    const struct mensur_profile *profile;
    const struct mensur_side_points *side;
    const struct mensur_side_frame *frame;
    struct mensur_pen outline, dashed;
    enum mensur_paint wood, board, nut;
    enum mensur_dash string;
    double end;        /* x of the body's lower end, or of the bridge where that is unknown */
    double ribs, edge; /* m */
};

static struct build build_of(const struct mensur_profile *profile) {
    static const struct build chin = {0.087, 0.12, 0.092, 0.62};
    static const struct build knee = {0.152, 0.045, 0.052, 0.55};
    static const struct build standing = {0.18, 0.035, 0.05, 0.5};
    const char *held = profile->held == NULL ? "chin" : profile->held;
    return strcmp(held, "knee") == 0 ? knee : strcmp(held, "standing") == 0 ? standing : chin;
}

static double end_of(const struct mensur_side_points *side) {
    return isnan(side->body_straight) ? side->top_x : side->body_straight;
}

double mensur_side_ribs(const struct mensur_profile *profile) {
    const struct mensur_side_points *side = &profile->side;
    double body = isnan(side->body_straight) ? 1.8 * side->top_x : side->body_straight;
    return side->rib > 0.0 ? side->rib : build_of(profile).ribs * body;
}

double mensur_side_wood(const struct mensur_profile *profile) {
    return build_of(profile).wood * profile->side.neck;
}

enum mensur_origin mensur_side_origin(const struct mensur_profile *profile, const char *field,
                                      double drawn) {
    const struct mensur_measure *measure = mensur_measure_named(profile, field);
    enum mensur_origin origin = measure == NULL ? MENSUR_ORIGIN_UNKNOWN : measure->origin;
    return origin == MENSUR_ORIGIN_UNKNOWN && !isnan(drawn) ? MENSUR_ORIGIN_ASSUMED : origin;
}

struct mensur_point mensur_side_at(const struct mensur_side_frame *frame, double x, double y) {
    return (struct mensur_point){frame->x + x * frame->scale, frame->y - y * frame->scale};
}

struct mensur_point mensur_side_on_neck(const struct mensur_side_points *side, double along,
                                        double over) {
    double sine = sin(side->neck_slope);
    double cosine = cos(side->neck_slope);
    return (struct mensur_point){-along * cosine - over * sine,
                                 side->overstand - along * sine + over * cosine};
}

struct mensur_point mensur_side_board_end(const struct mensur_side_points *side) {
    struct mensur_point start = mensur_side_on_neck(side, side->neck, side->board_nut);
    return (struct mensur_point){start.x + side->board_length * cos(side->board_slope),
                                 start.y + side->board_length * sin(side->board_slope)};
}

/* A place of the head, by its distance from the nut along its own line and its height over that. */
static struct mensur_point on_head(const struct mensur_side_points *side, double along,
                                   double over) {
    struct mensur_point nut = mensur_side_on_neck(side, side->neck, 0.0);
    double lean = side->neck_slope + HEAD_LEAN;
    return (struct mensur_point){nut.x - along * cos(lean) - over * sin(lean),
                                 nut.y - along * sin(lean) + over * cos(lean)};
}

static double scroll_radius(double head) {
    return 0.17 * head;
}

struct mensur_side_room mensur_side_room(const struct mensur_profile *profile) {
    const struct mensur_side_points *side = &profile->side;
    struct build build = build_of(profile);
    double ribs = mensur_side_ribs(profile);
    double back = side->back_arch > 0.0 ? side->back_arch : 0.0;
    double head = build.head * side->neck;
    double radius = scroll_radius(head);
    double scroll = -on_head(side, head - radius, -1.35 * radius).y;
    double body = ribs * (1.0 + 2.0 * build.edge) + back;
    return (struct mensur_side_room){.head = head, .below = scroll > body ? scroll : body};
}

static void put(const struct pencil *pencil, struct mensur_pen pen, enum mensur_paint fill,
                const struct mensur_point *points, size_t count, bool closed) {
    struct mensur_point placed[SCROLL_STEPS + VOLUTE_STEPS];
    for (size_t i = 0; i < count; i++) {
        placed[i] = mensur_side_at(pencil->frame, points[i].x, points[i].y);
    }
    mensur_shape_path(&pencil->draw->shapes, pen, fill, placed, count, closed);
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

/* Belly and back between their edges, the ribs between them; dashed where the ribs were not
 * measured. */
static void draw_body(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    double end = pencil->end, edge = pencil->edge, ribs = pencil->ribs;
    double back = side->back_arch > 0.0 ? side->back_arch : 0.0;
    double floor = -2.0 * edge - ribs;
    bool open = isnan(side->body_straight);
    bool measured = side->rib > 0.0;
    struct mensur_point belly[ARCH_STEPS + 2], arch[ARCH_STEPS + 1];
    for (size_t i = 0; i <= ARCH_STEPS; i++) {
        double part = (double)i / ARCH_STEPS;
        belly[i] = (struct mensur_point){end * part, belly_height(side, end * part)};
        double rise = back * sin(2.0 * QUARTER_TURN * part);
        arch[i] = (struct mensur_point){end * part, floor - rise};
    }
    belly[ARCH_STEPS + 1] = (struct mensur_point){end, 0.0};
    struct mensur_point side_wall[] = {
        {0.0, -edge}, {end - edge, -edge}, {end - edge, -edge - ribs}, {0.0, -edge - ribs}};
    struct mensur_point top[] = {{0.0, 0.0}, {end, 0.0}, {end, -edge}, {0.0, -edge}};
    struct mensur_point bottom[] = {
        {0.0, floor}, {end, floor}, {end, floor + edge}, {0.0, floor + edge}};
    put(pencil, no_pen, pencil->wood, belly, ARCH_STEPS + (open ? 2 : 1), true);
    put(pencil, pencil->outline, MENSUR_PAINT_NONE, belly, ARCH_STEPS + 1, false);
    put(pencil, pencil->outline, pencil->wood, arch, ARCH_STEPS + 1, false);
    put(pencil, no_pen, MENSUR_PAINT_PAPER, side_wall, 4, true);
    put(pencil, measured ? pencil->outline : pencil->dashed, MENSUR_PAINT_NONE, side_wall + 1,
        open ? 0 : 2, false);
    put(pencil, pencil->outline, pencil->wood, top, 4, true);
    put(pencil, measured ? pencil->outline : pencil->dashed, pencil->wood, bottom, 4, true);
}

size_t mensur_side_heel(const struct mensur_side_points *side, double wood, double depth,
                        struct mensur_point *points) {
    double heel = fmax(fmin(isnan(side->heel) ? 0.0 : side->heel, 0.6 * side->neck), 0.5 * wood);
    struct mensur_point from = mensur_side_on_neck(side, 1.15 * heel, -wood);
    struct mensur_point turn = mensur_side_on_neck(side, 0.25 * heel, -wood);
    struct mensur_point to = {-0.2 * heel, -depth};
    size_t count = 0;
    points[count++] = mensur_side_on_neck(side, side->neck, 0.0);
    points[count++] = mensur_side_on_neck(side, side->neck, -0.85 * wood);
    for (size_t i = 0; i <= 10; i++) {
        double t = (double)i / 10.0, a = (1.0 - t) * (1.0 - t), b = 2.0 * t * (1.0 - t);
        points[count++] = (struct mensur_point){a * from.x + b * turn.x + t * t * to.x,
                                                a * from.y + b * turn.y + t * t * to.y};
    }
    points[count++] = (struct mensur_point){0.0, -depth};
    points[count++] = (struct mensur_point){0.0, side->overstand};
    return count;
}

static void draw_neck(const struct pencil *pencil) {
    struct mensur_point points[MENSUR_SIDE_HEEL];
    double depth = 2.0 * pencil->edge + pencil->ribs;
    size_t count = mensur_side_heel(pencil->side, mensur_side_wood(pencil->profile), depth, points);
    put(pencil, pencil->outline, pencil->wood, points, count, true);
}

/* Pegbox and scroll, indicated: a spiral of our own. */
static void draw_head(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    double wood = mensur_side_wood(pencil->profile);
    double head = build_of(pencil->profile).head * side->neck;
    double radius = scroll_radius(head);
    double centre = head - radius, over = -0.35 * radius;
    struct mensur_point points[SCROLL_STEPS + 6], spiral[VOLUTE_STEPS];
    size_t count = 0;
    points[count++] = on_head(side, 0.0, 0.0);
    points[count++] = on_head(side, centre - 1.25 * radius, -0.25 * radius);
    for (size_t i = 0; i < SCROLL_STEPS; i++) {
        double turn = 2.4 - 5.0 * (double)i / (SCROLL_STEPS - 1);
        points[count++] = on_head(side, centre + radius * cos(turn), over + radius * sin(turn));
    }
    points[count++] = on_head(side, centre - 1.6 * radius, -1.3 * radius);
    points[count++] = on_head(side, 0.25 * head, -1.2 * wood);
    points[count++] = on_head(side, 0.0, -0.85 * wood);
    put(pencil, pencil->outline, pencil->wood, points, count, true);
    for (size_t i = 0; i < VOLUTE_STEPS; i++) {
        double part = (double)i / (VOLUTE_STEPS - 1);
        double turn = 2.9 - 9.4 * part;
        double away = radius * (0.92 - 0.74 * part);
        spiral[i] = on_head(side, centre + away * cos(turn), over + away * sin(turn));
    }
    put(pencil, pencil->outline, MENSUR_PAINT_NONE, spiral, VOLUTE_STEPS, false);
}

static void draw_board(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    struct mensur_point end = mensur_side_board_end(side);
    double under =
        side->board * 0.6; /* thickness over the body is not measured: for the picture only */
    struct mensur_point points[] = {mensur_side_on_neck(side, side->neck, 0.0),
                                    mensur_side_on_neck(side, side->neck, side->board_nut),
                                    end,
                                    {end.x, end.y - under},
                                    {0.0, side->overstand}};
    put(pencil, pencil->outline, pencil->board, points, 5, true);
}

/* A thin block from the gluing surface's end up to the string. */
static void draw_nut(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    struct mensur_point foot = mensur_side_on_neck(side, side->neck, 0.0);
    struct mensur_point from = mensur_side_at(pencil->frame, foot.x, foot.y);
    struct mensur_point to = mensur_side_at(pencil->frame, side->nut_x, side->nut_y);
    struct mensur_pen pen = {pencil->nut, 3.0, MENSUR_DASH_NONE};
    mensur_shape_line(&pencil->draw->shapes, pen, from.x - 1.5, from.y, to.x - 1.5, to.y);
}

static void draw_bridge(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    double foot = side->bridge * 0.07; /* half its thickness, not measured: for the picture only */
    double head = side->bridge * 0.025;
    struct mensur_point points[] = {{side->top_x - foot, side->arch},
                                    {side->top_x - head, side->top_y},
                                    {side->top_x + head, side->top_y},
                                    {side->top_x + foot, side->arch}};
    put(pencil, pencil->outline, pencil->wood, points, 4, true);
}

/* The string behind the bridge, the tailpiece where it ends, its gut over the saddle, the button.
 */
static void draw_tail(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    const struct mensur_side_frame *frame = pencil->frame;
    double run = side->body_straight - side->top_x, fall = side->top_y - side->saddle;
    double whole = hypot(run, fall), after = pencil->profile->lengths.afterlength;
    double from = isnan(after) ? 1.0 : fmin(after / whole, 0.9), to = 0.5 * (from + 1.0);
    to = fmax(to, 0.93);
    double thick = 0.05 * whole;
    struct mensur_point tailpiece[] = {
        {side->top_x + from * run, side->top_y - from * fall},
        {side->top_x + to * run, side->top_y - to * fall},
        {side->top_x + to * run, side->top_y - to * fall - 0.5 * thick},
        {side->top_x + (from + 0.04) * run, side->top_y - (from + 0.04) * fall - thick}};
    struct mensur_point middle =
        mensur_side_at(frame, side->body_straight, -pencil->edge - 0.5 * pencil->ribs);
    struct mensur_point foot = mensur_side_at(frame, side->body_straight, 0.0);
    struct mensur_point over = mensur_side_at(frame, side->body_straight, side->saddle);
    struct mensur_pen saddle = {MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE};
    struct mensur_point gut[] = {
        {tailpiece[1].x, tailpiece[1].y},
        {side->body_straight, side->saddle},
        {side->body_straight + 2.0 / frame->scale, -pencil->edge},
        {side->body_straight + 2.0 / frame->scale, -pencil->edge - 0.5 * pencil->ribs}};
    put(pencil, pencil->outline, MENSUR_PAINT_NONE, gut, 4, false);
    if (from < 0.9) {
        put(pencil, pencil->outline, pencil->board, tailpiece, 4, true);
    }
    mensur_shape_line(&pencil->draw->shapes, saddle, foot.x - 1.5, foot.y, over.x - 1.5, over.y);
    mensur_shape_box(&pencil->draw->shapes, pencil->outline, pencil->board, middle.x,
                     middle.y - BUTTON_PX / 2.0, BUTTON_PX, BUTTON_PX);
}

static void draw_string(const struct pencil *pencil) {
    const struct mensur_side_points *side = pencil->side;
    struct mensur_pen pen = {pencil->outline.paint, fmax(pencil->outline.width, 1.2),
                             pencil->string};
    bool open = isnan(side->body_straight);
    double whole = hypot(side->body_straight - side->top_x, side->top_y - side->saddle);
    double after = pencil->profile->lengths.afterlength;
    double part = isnan(after) ? 1.0 : fmin(after / whole, 1.0);
    struct mensur_point points[] = {
        {side->nut_x, side->nut_y},
        {side->top_x, side->top_y},
        {side->top_x + part * (side->body_straight - side->top_x),
         side->top_y - part * (side->top_y - side->saddle)},
    };
    put(pencil, pen, MENSUR_PAINT_NONE, points, open ? 2 : 3, false);
}

void mensur_side_instrument(struct mensur_draw *draw, const struct mensur_profile *profile,
                            const struct mensur_side_frame *frame, enum mensur_side_look look) {
    double ribs = mensur_side_ribs(profile);
    const struct pencil pencil = {
        .draw = draw,
        .profile = profile,
        .side = &profile->side,
        .frame = frame,
        .outline = looks[look].outline,
        .dashed = {MENSUR_PAINT_SOFT, looks[look].outline.width, MENSUR_DASH_DOTS},
        .wood = looks[look].wood,
        .board = looks[look].board,
        .nut = looks[look].nut,
        .string = looks[look].string,
        .end = end_of(&profile->side),
        .ribs = ribs,
        .edge = build_of(profile).edge * ribs};
    if (look != MENSUR_SIDE_OVER) {
        draw_body(&pencil);
        draw_neck(&pencil);
        draw_head(&pencil);
        draw_board(&pencil);
    }
    draw_bridge(&pencil);
    if (look != MENSUR_SIDE_OVER && !isnan(profile->side.body_straight)) {
        draw_tail(&pencil);
    }
    draw_string(&pencil);
    draw_nut(&pencil);
}
