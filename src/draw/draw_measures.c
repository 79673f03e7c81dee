/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where each length of an instrument is measured: three figures of an instrument that is nobody's,
 * not to scale, so that a height of half a millimetre is seen as well as the body. A row of the
 * table below is a measurement; the places in it are px from the figure's upper left corner. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "draw.h"
#include "figures.h"
#include "lettering.h"
#include "result_use.h"

#define QUARTER_TURN 1.5707963267948966

enum { LEAD_MAX = 3, ARCH_STEPS = 48, CURVE_STEPS = 5, POINTS_MAX = 192 };

#define TICK 3.5
/* Font size of a number that stands for a name, and how far beside the end of a line one may stand
 * that a name stands at. */
#define NUMBER_SIZE 20.0
#define BESIDE 12.0
/* Height of capitals and digits over the font size (a common one). */
#define CAPITAL 0.73

/* What is measured between two points, the line from there to its name, and the name's place. */
struct place {
    const char *field;
    struct mensur_point from, to;
    struct mensur_point lead[LEAD_MAX]; /* {0, 0}: no more of them */
    enum mensur_anchor anchor;
    struct mensur_point name;
};

#define START MENSUR_ANCHOR_START
#define MIDDLE MENSUR_ANCHOR_MIDDLE
#define END MENSUR_ANCHOR_END

/* The lengths, from the side: nut at 96, edge at 216, bridge at 340, lower end at 452. */
static const struct place lengths[] = {
    {"string_length", {89.9, 29.3}, {333.9, 3.3}, {{0, 0}}, END, {206, 11}},
    {"board_length", {94.7, 68.1}, {283.7, 47.9}, {{0, 0}}, END, {212, 51}},
    {"behind_nut", {40, 130}, {94, 130}, {{0, 0}}, START, {14, 147}},
    {"afterlength", {343, 42}, {403, 69}, {{0, 0}}, END, {466, 32}},
    {"heel", {170, 131}, {216, 131}, {{0, 0}}, START, {222, 135}},
    {"neck", {96, 184}, {216, 184}, {{0, 0}}, MIDDLE, {156, 200}},
    {"stop", {216, 184}, {340, 184}, {{0, 0}}, MIDDLE, {278, 200}},
    {"body_straight", {216, 214}, {452, 214}, {{0, 0}}, MIDDLE, {334, 230}},
    {"body", {400, 163}, {400, 163}, {{400, 163}, {400, 176}}, MIDDLE, {400, 189}},
};

/* The heights, from the side: nut at 60, edge at 190, bridge at 330, lower end at 450. */
static const struct place heights[] = {
    {"clearance_low", {267, 54}, {267, 85.7}, {{267, 54}, {267, 9}, {264, 9}}, END, {260, 13}},
    {"clearance_high",
     {257, 57.6},
     {257, 88.3},
     {{257, 57.6}, {257, 27}, {254, 27}},
     END,
     {250, 31}},
    {"hollow", {120, 124}, {120, 132}, {{120, 124}, {120, 66}}, MIDDLE, {120, 62}},
    {"bridge", {343, 120}, {343, 32}, {{343, 32}, {343, 20}}, START, {339, 16}},
    {"saddle", {458, 150}, {458, 128}, {{458, 128}, {458, 67}}, END, {466, 62}},
    {"nut", {52, 127}, {52, 140}, {{52, 127}, {52, 115}}, START, {16, 111}},
    {"board_nut", {52, 140}, {52, 156}, {{52, 156}, {52, 196}}, START, {16, 209}},
    {"overstand", {197, 128}, {197, 150}, {{197, 150}, {197, 174}, {201, 174}}, START, {204, 179}},
    {"board", {183, 107.8}, {183, 129}, {{183, 129}, {183, 256}}, END, {188, 269}},
    {"projection", {322, 120}, {322, 71.5}, {{322, 120}, {322, 190}, {319, 190}}, END, {316, 195}},
    {"arch", {334, 120}, {334, 150}, {{334, 150}, {334, 206}, {331, 206}}, END, {328, 211}},
    {"arch_full", {349, 120}, {349, 162}, {{349, 162}, {349, 168}}, START, {341, 180}},
    {"edge", {442, 150}, {442, 162}, {{442, 162}, {442, 190}, {439, 190}}, END, {436, 195}},
    {"rib", {459, 162}, {459, 232}, {{459, 206}, {440, 206}}, END, {437, 211}},
    {"back_arch", {330, 244}, {330, 266}, {{330, 266}, {330, 278}}, MIDDLE, {330, 290}},
    {"plate", {215, 244}, {215, 251}, {{215, 251}, {215, 278}}, MIDDLE, {215, 290}},
};

/* The widths, from above: nut at 60, edge at 150, bridge at 322, lower end at 440; middle at 106.
 */
static const struct place widths[] = {
    {"width_upper", {205, 48}, {205, 164}, {{205, 48}, {205, 34}}, MIDDLE, {196, 30}},
    {"width_lower", {392, 34}, {392, 178}, {{392, 34}, {392, 32}}, MIDDLE, {404, 30}},
    {"f_length", {290, 64}, {306, 92}, {{290, 64}, {290, 12}}, END, {293, 8}},
    {"spacing_bridge", {314, 88}, {314, 124}, {{314, 88}, {314, 12}}, START, {310, 8}},
    {"spacing_nut", {52, 98}, {52, 114}, {{52, 98}, {52, 84}}, START, {16, 80}},
    {"width_middle", {268, 68}, {268, 144}, {{268, 144}, {268, 188}}, END, {274, 201}},
    {"foot_spacing", {326, 92}, {326, 120}, {{326, 120}, {326, 208}}, START, {316, 221}},
    {"spacing_tail", {368, 96}, {368, 116}, {{368, 116}, {376, 188}}, END, {472, 201}},
};

/* One figure while it is drawn. */
struct figure {
    struct mensur_draw *draw;
    const struct mensur_profile *profile;
    const char *most; /* the field that is framed; NULL: none */
    double y;         /* of its upper side on the page */
};

static const struct mensur_pen outline = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
static const struct mensur_pen string = {MENSUR_PAINT_INK, 1.6, MENSUR_DASH_NONE};
static const struct mensur_pen measure = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_NONE};
static const struct mensur_pen dotted = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_DOTS};
static const struct mensur_pen frame = {MENSUR_PAINT_OTHER, 2.0, MENSUR_DASH_NONE};

static void line(const struct figure *figure, struct mensur_pen pen, double x1, double y1,
                 double x2, double y2) {
    mensur_shape_line(&figure->draw->shapes, pen, x1, figure->y + y1, x2, figure->y + y2);
}

static void path_with(const struct figure *figure, struct mensur_pen pen, enum mensur_paint fill,
                      const struct mensur_point *points, size_t count, bool closed) {
    struct mensur_point placed[POINTS_MAX];
    for (size_t i = 0; i < count; i++) {
        placed[i] = (struct mensur_point){points[i].x, figure->y + points[i].y};
    }
    mensur_shape_path(&figure->draw->shapes, pen, fill, placed, count, closed);
}

static void path(const struct figure *figure, enum mensur_paint fill,
                 const struct mensur_point *points, size_t count, bool closed) {
    path_with(figure, outline, fill, points, count, closed);
}

#define PATH(figure, fill, closed, ...)                                                            \
    path(figure, fill, (const struct mensur_point[]){__VA_ARGS__},                                 \
         sizeof((const struct mensur_point[]){__VA_ARGS__}) / sizeof(struct mensur_point), closed)

/* A curve of the shape of half a wave, between two points of one height. */
static void arch(const struct figure *figure, struct mensur_pen pen, enum mensur_paint fill,
                 double x1, double x2, double y, double rise) {
    struct mensur_point points[ARCH_STEPS + 1];
    for (size_t i = 0; i <= ARCH_STEPS; i++) {
        double part = (double)i / ARCH_STEPS;
        points[i] =
            (struct mensur_point){x1 + part * (x2 - x1), y - rise * sin(2.0 * QUARTER_TURN * part)};
    }
    path_with(figure, pen, fill, points, ARCH_STEPS + 1, false);
}

/* A neck and a body from the side: the belly's edge at y, the ribs' height, the back's arching;
 * under the board the neck's wood from the nut to the heel. */
struct side {
    double nut, edge, bridge, end;         /* x */
    double y, edge_high, ribs;             /* y of the edge's top; heights */
    double board_nut, board_edge;          /* y of the board's top */
    double glue_nut, glue_edge;            /* y of its underside */
    double belly, back;                    /* rise of the belly, of the back */
    double string_nut, string_top, saddle; /* y of the string */
    double board_end, tail;                /* x of the board's end, of the tailpiece */
};

static double on_line(double x1, double y1, double x2, double y2, double x) {
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1);
}

static void draw_side(const struct figure *figure, const struct side *s) {
    double floor = s->y + 2.0 * s->edge_high + s->ribs;
    double board_end = on_line(s->nut, s->board_nut, s->edge, s->board_edge, s->board_end);
    double tail = on_line(s->bridge, s->string_top, s->end, s->saddle, s->tail);
    arch(figure, outline, MENSUR_PAINT_TINT, s->edge, s->end, s->y, s->belly);
    arch(figure, outline, MENSUR_PAINT_TINT, s->edge, s->end, floor, -s->back);
    PATH(figure, MENSUR_PAINT_PAPER, true, {s->edge, s->y}, {s->end, s->y}, {s->end, floor},
         {s->edge, floor});
    PATH(figure, MENSUR_PAINT_TINT, true, {s->edge, s->y}, {s->end, s->y},
         {s->end, s->y + s->edge_high}, {s->edge, s->y + s->edge_high});
    PATH(figure, MENSUR_PAINT_TINT, true, {s->edge, floor}, {s->end, floor},
         {s->end, floor - s->edge_high}, {s->edge, floor - s->edge_high});
    PATH(figure, MENSUR_PAINT_TINT, true, {s->nut, s->glue_nut}, {s->edge, s->glue_edge},
         {s->edge, floor}, {s->edge - 10.0, floor}, {s->edge - 16.0, s->y + 0.5 * (floor - s->y)},
         {s->edge - 34.0, s->y + 6.0}, {s->nut, s->glue_nut + 18.0});
    PATH(figure, MENSUR_PAINT_TINT, true, {s->nut, s->board_nut}, {s->board_end, board_end},
         {s->board_end, board_end + 0.5 * (s->glue_edge - s->board_edge)}, {s->edge, s->glue_edge},
         {s->nut, s->glue_nut});
    PATH(figure, MENSUR_PAINT_TINT, true, {s->bridge - 8.0, s->y - s->belly},
         {s->bridge - 2.0, s->string_top}, {s->bridge + 2.0, s->string_top},
         {s->bridge + 8.0, s->y - s->belly});
    PATH(figure, MENSUR_PAINT_SOFT, true, {s->tail, tail}, {s->end - 10.0, s->saddle - 6.0},
         {s->end - 10.0, s->saddle}, {s->tail + 4.0, tail + 8.0});
    line(figure, string, s->nut, s->string_nut, s->bridge, s->string_top);
    line(figure, string, s->bridge, s->string_top, s->end, s->saddle);
    line(figure, (struct mensur_pen){MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE}, s->nut - 1.5,
         s->glue_nut, s->nut - 1.5, s->string_nut);
    line(figure, (struct mensur_pen){MENSUR_PAINT_INK, 3.0, MENSUR_DASH_NONE}, s->end - 1.5, s->y,
         s->end - 1.5, s->saddle);
}

/* The name in words with the figure: "stop 222.0"; in brackets where that was not measured. */
static void name_text(const struct figure *figure, const struct mensur_measure *of, char *text,
                      size_t room) {
    bool measured = of->origin == MENSUR_ORIGIN_MEASURED;
    snprintf(text, room, "%s%s %s%s", measured ? "" : "(", of->field,
             isnan(of->value) ? "?" : mensur_show_cut(figure->draw->style, of->value).text,
             measured ? "" : ")");
    for (char *at = strchr(text, '_'); at != NULL; at = strchr(at, '_')) {
        *at = ' ';
    }
}

/* Where a name stands; a number, which is narrower, stands where the line to it ends. */
static void name_place(const struct figure *figure, const struct place *place,
                       enum mensur_anchor *anchor, struct mensur_point *at) {
    int last = 0;
    *anchor = place->anchor;
    *at = place->name;
    if (!figure->draw->numbered) {
        return;
    }
    while (last + 1 < LEAD_MAX && place->lead[last + 1].x > 0.0) {
        last++;
    }
    struct mensur_point end = place->lead[last];
    if (last == 0) { /* along what is measured */
        end = (struct mensur_point){0.5 * (place->from.x + place->to.x),
                                    0.5 * (place->from.y + place->to.y)};
    }
    bool from_side =
        last > 0 ? fabs(end.y - place->lead[last - 1].y) < 0.5 : fabs(at->y - end.y) < TICK + 1.0;
    if (from_side) {
        at->y = end.y + 0.5 * CAPITAL * NUMBER_SIZE;
        return;
    }
    if (at->y > end.y) {
        at->y = fmax(at->y, end.y + 3.0 + CAPITAL * NUMBER_SIZE);
    }
    if (fabs(at->x - end.x) > BESIDE) {
        *anchor = MIDDLE;
        at->x = end.x;
    }
}

static void put_name(const struct figure *figure, const struct place *place,
                     const struct mensur_measure *of) {
    static const char *const says[] = {[MENSUR_ORIGIN_UNKNOWN] = ": not known",
                                       [MENSUR_ORIGIN_MEASURED] = "",
                                       [MENSUR_ORIGIN_ASSUMED] = ": assumed",
                                       [MENSUR_ORIGIN_FOLLOWS] = ": follows from the others"};
    bool most = figure->most != NULL && strcmp(figure->most, of->field) == 0;
    bool numbered = figure->draw->numbered;
    struct mensur_shapes *shapes = &figure->draw->shapes;
    struct mensur_point at;
    enum mensur_anchor anchor;
    char text[96], number[12];
    snprintf(number, sizeof number, "%d", (int)(of - figure->profile->measures) + 1);
    name_text(figure, of, text, sizeof text);
    name_place(figure, place, &anchor, &at);
    struct mensur_lettering letters = of->origin == MENSUR_ORIGIN_MEASURED
                                          ? mensur_draw_letters(anchor)
                                          : mensur_draw_soft(anchor);
    letters.size = numbered ? NUMBER_SIZE : letters.size;
    double width = mensur_lettering_width(numbered ? number : text, letters.size) + 8.0;
    double share = anchor == START ? 0.0 : anchor == MIDDLE ? 0.5 : 1.0;
    if (most) {
        double rise = CAPITAL * letters.size + 3.0;
        mensur_shape_box(shapes, frame, MENSUR_PAINT_PAPER, at.x - 4.0 - share * (width - 8.0),
                         figure->y + at.y - rise, width, rise + (numbered ? 3.0 : 4.5));
    }
    mensur_shape_text(shapes, letters, at.x, figure->y + at.y, numbered ? number : text);
    MENSUR_SHAPE_SAY(shapes, "%s%s%s%s%s.", numbered ? number : "", numbered ? ": " : "", text,
                     says[of->origin], most ? ", matters most" : "");
}

static void put_place(const struct figure *figure, const struct place *place) {
    double run = place->to.x - place->from.x, rise = place->to.y - place->from.y;
    double along = fmax(hypot(run, rise), 1e-9), x = TICK * rise / along, y = TICK * run / along;
    const struct mensur_measure *of = mensur_measure_named(figure->profile, place->field);
    if (of == NULL) {
        return;
    }
    line(figure, measure, place->from.x, place->from.y, place->to.x, place->to.y);
    line(figure, measure, place->from.x - x, place->from.y + y, place->from.x + x,
         place->from.y - y);
    line(figure, measure, place->to.x - x, place->to.y + y, place->to.x + x, place->to.y - y);
    for (int i = 1; i < LEAD_MAX && place->lead[i].x > 0.0; i++) {
        line(figure, measure, place->lead[i - 1].x, place->lead[i - 1].y, place->lead[i].x,
             place->lead[i].y);
    }
    put_name(figure, place, of);
}

#define PLACES(figure, rows)                                                                       \
    for (size_t at = 0; at < sizeof(rows) / sizeof(rows)[0]; at++) {                               \
        put_place(figure, &(rows)[at]);                                                            \
    }

static void draw_lengths(struct figure *figure) {
    static const struct side side = {.nut = 96,
                                     .edge = 216,
                                     .bridge = 340,
                                     .end = 452,
                                     .y = 112,
                                     .edge_high = 5,
                                     .ribs = 26,
                                     .board_nut = 90,
                                     .board_edge = 78,
                                     .glue_nut = 98,
                                     .glue_edge = 96,
                                     .belly = 16,
                                     .back = 14,
                                     .string_nut = 82,
                                     .string_top = 56,
                                     .saddle = 106,
                                     .board_end = 285,
                                     .tail = 398};
    for (int i = 0; i < 4; i++) {
        const double x[] = {96, 216, 340, 452}, from[] = {152, 150, 96, 150},
                     to[] = {190, 220, 190, 220};
        line(figure, dotted, x[i], from[i], x[i], to[i]);
    }
    draw_side(figure, &side);
    PATH(figure, MENSUR_PAINT_TINT, true, {96, 98}, {96, 116}, {60, 122}, {30, 112}, {34, 96},
         {60, 102});
    mensur_shape_disc(&figure->draw->shapes, outline, MENSUR_PAINT_PAPER, 40, figure->y + 106, 4.0);
    line(figure, string, 94, 82, 41, 103);
    line(figure, dotted, 40, 110, 40, 130);
    arch(figure, measure, MENSUR_PAINT_NONE, 216, 452, 153, -14);
    PLACES(figure, lengths)
    figure->y += 240.0;
}

static void draw_heights(struct figure *figure) {
    static const struct side side = {.nut = 60,
                                     .edge = 190,
                                     .bridge = 330,
                                     .end = 450,
                                     .y = 150,
                                     .edge_high = 12,
                                     .ribs = 70,
                                     .board_nut = 140,
                                     .board_edge = 106,
                                     .glue_nut = 156,
                                     .glue_edge = 128,
                                     .belly = 30,
                                     .back = 22,
                                     .string_nut = 127,
                                     .string_top = 32,
                                     .saddle = 128,
                                     .board_end = 262,
                                     .tail = 404};
    draw_side(figure, &side);
    line(figure, dotted, 262, 87.2, 330, 69.4);
    PLACES(figure, heights)
    figure->y += 306.0;
}

/* Points of half the body's outline, as shares of its length and px from its middle (for the
 * picture only). */
static const struct mensur_point body_shape[] = {
    {0.0, 8},   {0.015, 34}, {0.08, 52}, {0.18, 58}, {0.28, 53}, {0.34, 46},  {0.4, 39}, {0.48, 38},
    {0.55, 44}, {0.59, 54},  {0.7, 66},  {0.83, 72}, {0.93, 62}, {0.985, 36}, {1.0, 8}};
enum { BODY_POINTS = sizeof body_shape / sizeof body_shape[0] };

static double between(double before, double from, double to, double after, double part) {
    return from + 0.5 * part *
                      (to - before +
                       part * (2.0 * before - 5.0 * from + 4.0 * to - after +
                               part * (3.0 * (from - to) + after - before)));
}

/* A smooth curve through the points (Catmull and Rom), mirrored. */
static void draw_body(const struct figure *figure) {
    enum { HALF = (BODY_POINTS - 1) * CURVE_STEPS + 1 };
    struct mensur_point points[2 * HALF];
    for (size_t i = 0; i < HALF; i++) {
        size_t at = i / CURVE_STEPS < BODY_POINTS - 1 ? i / CURVE_STEPS : BODY_POINTS - 2;
        double part = (double)(i - at * CURVE_STEPS) / CURVE_STEPS;
        const struct mensur_point *from = &body_shape[at], *to = from + 1;
        const struct mensur_point *before = at > 0 ? from - 1 : from;
        const struct mensur_point *after = at + 2 < BODY_POINTS ? to + 1 : to;
        double x = 150.0 + 290.0 * between(before->x, from->x, to->x, after->x, part);
        double half = between(before->y, from->y, to->y, after->y, part);
        points[i] = (struct mensur_point){x, 106.0 - half};
        points[2 * (size_t)HALF - 1 - i] = (struct mensur_point){x, 106.0 + half};
    }
    path(figure, MENSUR_PAINT_TINT, points, 2 * (size_t)HALF, true);
}

static void draw_widths(struct figure *figure) {
    draw_body(figure);
    PATH(figure, MENSUR_PAINT_PAPER, true, {60, 97}, {268, 90}, {268, 122}, {60, 115});
    PATH(figure, MENSUR_PAINT_SOFT, true, {368, 96}, {432, 100}, {432, 112}, {368, 116});
    PATH(figure, MENSUR_PAINT_PAPER, true, {318, 84}, {326, 84}, {326, 128}, {318, 128});
    for (int i = 0; i < 2; i++) {
        double side = i == 0 ? -1.0 : 1.0;
        line(figure, string, 60, 106 + side * 8.0, 322, 106 + side * 18.0);
        line(figure, string, 322, 106 + side * 18.0, 368, 106 + side * 10.0);
        line(figure, outline, 290, 106 + side * 42.0, 306, 106 + side * 14.0);
    }
    PLACES(figure, widths)
    figure->y += 232.0;
}

/* What is framed, and of which ± it is which share. */
struct framed {
    const char *field; /* NULL: none */
    char text[256];
};

/* Whether a decision's matter is a length of this instrument; a liked one's bears its name. */
static const char *own_field(const struct mensur_decision *decision,
                             const struct mensur_profile *profile,
                             const struct mensur_matter *matter) {
    const char *field = matter->field;
    if (decision->has_like && profile == &decision->like) {
        size_t length = strlen(profile->instrument);
        length = length < MENSUR_MATTER_OWNER ? length : MENSUR_MATTER_OWNER;
        bool named = strncmp(field, profile->instrument, length) == 0 && field[length] == ' ';
        field = named ? field + length + 1 : "";
    }
    const struct mensur_measure *of = mensur_measure_named(profile, field);
    return of != NULL ? of->field : NULL;
}

/* Of what a decision's ± comes from most, the first; without a decision of what the string length's
 * does, which is a length. */
static struct framed frame_of(const struct mensur_profile *profile,
                              const struct mensur_decision *decision) {
    struct framed framed = {NULL, "None is framed as what matters most: no ± is stated."};
    const struct mensur_spread *spread = profile->spread;
    if (decision != NULL && decision->matter_count > 0) {
        const struct mensur_matter *most = &decision->matters[0];
        framed.field = own_field(decision, profile, most);
        snprintf(framed.text, sizeof framed.text, "%s %s %% of the ± of the verdict's %s%s%s.",
                 framed.field != NULL ? "Framed: matters most," : "None is framed:",
                 mensur_show_number(most->share * 100.0, 0, 4).text,
                 decision->for_stop ? "stop" : "neck", framed.field != NULL ? "" : " comes from ",
                 framed.field != NULL ? "" : most->field);
        return framed;
    }
    for (size_t i = 0; spread != NULL && framed.field == NULL && i < spread->matter_count; i++) {
        const struct mensur_matter *matter = &spread->matters[i];
        const struct mensur_measure *of = mensur_measure_named(profile, matter->field);
        const struct mensur_figure *figure =
            mensur_figure_named(MENSUR_SCOPE_INSTRUMENT, matter->of);
        if (of != NULL && figure != NULL) {
            framed.field = of->field;
            snprintf(framed.text, sizeof framed.text, "Framed: matters most, %s %% of the %s's ±.",
                     mensur_show_number(matter->share * 100.0, 0, 4).text, figure->label);
        }
    }
    return framed;
}

/* A note, broken into lines that fit. */
static void put_note(struct mensur_draw *draw, const char *text) {
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    const double room = MENSUR_PAGE_WIDTH - 2.0 * MENSUR_PAGE_MARGIN;
    letters.size = draw->numbered ? NUMBER_SIZE : letters.size;
    while (*text != '\0') {
        size_t length = mensur_lettering_line(text, letters.size, room);
        char piece[320];
        snprintf(piece, sizeof piece, "%.*s", (int)length, text);
        mensur_shape_fitted(&draw->shapes, letters, MENSUR_PAGE_MARGIN, draw->y + 6.0, room, piece);
        draw->y += 1.3 * letters.size;
        text += length;
        text += strspn(text, " ");
    }
}

void mensur_draw_measures(struct mensur_draw *draw, const struct mensur_profile *profile,
                          const struct mensur_decision *decision) {
    const struct framed framed = frame_of(profile, decision);
    const char *unit = draw->style->inches ? "inches" : "mm";
    char text[160];
    if (draw->numbered) {
        draw->y += 12.0;
        snprintf(text, sizeof text,
                 "Where each length is measured, not to scale. Grey: not "
                 "measured.");
    } else {
        mensur_draw_heading(draw, "Where each length is measured");
        snprintf(text, sizeof text,
                 "Not to scale; in %s. In brackets and grey: not measured, but assumed, or "
                 "following from the others; ?: not known.",
                 unit);
    }
    put_note(draw, text);
    put_note(draw, framed.text);
    struct figure figure = {draw, profile, framed.field, draw->y + 10.0};
    draw_lengths(&figure);
    draw_heights(&figure);
    draw_widths(&figure);
    draw->y = figure.y;
}
