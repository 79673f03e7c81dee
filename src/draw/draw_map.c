/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plane of stop (to the right) and neck (upwards), a millimetre of either drawn alike: lines of
 * equal string length fall, rays of equal neck : stop rise, the wishes are bands between two lines,
 * and each instrument is a point. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "draw.h"
#include "figures.h"
#include "lettering.h"

/* The square of the plane, px. */
#define LEFT 58.0
#define RIGHT (MENSUR_PAGE_WIDTH - 62.0)
#define SIDE (RIGHT - LEFT)
#define STEPS_MOST 7   /* ticks of an axis, at most */
#define RAYS_MOST 6    /* rays, at most */
#define ELLIPSE 48     /* corners of an ellipse */
#define BOXES_MOST 256 /* places that are taken by letters and points */

struct box {
    double left, top, right, bottom;
};

struct plane {
    struct mensur_draw *draw;
    const struct mensur_map *map;
    double top;   /* px, of the square */
    double scale; /* px per m */
    struct box taken[BOXES_MOST];
    size_t taken_count;
};

static double x_of(const struct plane *plane, double stop) {
    return LEFT + (stop - plane->map->stop_low) * plane->scale;
}

static double y_of(const struct plane *plane, double neck) {
    return plane->top + SIDE - (neck - plane->map->neck_low) * plane->scale;
}

static bool overlap(const struct box *one, const struct box *other) {
    return one->left < other->right && other->left < one->right && one->top < other->bottom &&
           other->top < one->bottom;
}

/* Whether a box lies inside the square and where nothing else is. */
static bool is_free(const struct plane *plane, const struct box *box) {
    bool is = box->left >= LEFT + 2.0 && box->right <= RIGHT - 2.0 &&
              box->top >= plane->top + 2.0 && box->bottom <= plane->top + SIDE - 2.0;
    for (size_t i = 0; i < plane->taken_count && is; i++) {
        is = !overlap(box, &plane->taken[i]);
    }
    return is;
}

static void take(struct plane *plane, struct box box) {
    if (plane->taken_count < BOXES_MOST) {
        plane->taken[plane->taken_count++] = box;
    }
}

static struct box box_of(struct mensur_lettering letters, double x, double y, const char *text) {
    double width = mensur_lettering_width(text, letters.size) * (letters.bold ? 1.12 : 1.0) + 4.0;
    double left = letters.anchor == MENSUR_ANCHOR_START ? x - 2.0
                  : letters.anchor == MENSUR_ANCHOR_END ? x + 2.0 - width
                                                        : x - width / 2.0;
    return (struct box){left, y - letters.size * 0.95, left + width, y + letters.size * 0.3};
}

/* The part of the line from one point to another that lies inside the square; false where none
 * does. */
static bool clip(const struct plane *plane, struct mensur_point *from, struct mensur_point *to) {
    const double edges[4][3] = {{1.0, 0.0, -LEFT},
                                {-1.0, 0.0, RIGHT},
                                {0.0, 1.0, -plane->top},
                                {0.0, -1.0, plane->top + SIDE}};
    double begin = 0.0, end = 1.0;
    double dx = to->x - from->x, dy = to->y - from->y;
    for (size_t i = 0; i < 4; i++) {
        double inside = edges[i][0] * from->x + edges[i][1] * from->y + edges[i][2];
        double growth = edges[i][0] * dx + edges[i][1] * dy;
        if (growth > 0.0) {
            begin = fmax(begin, -inside / growth);
        } else if (growth < 0.0) {
            end = fmin(end, -inside / growth);
        } else if (inside < 0.0) {
            return false;
        }
    }
    if (begin >= end) {
        return false;
    }
    *to = (struct mensur_point){from->x + end * dx, from->y + end * dy};
    *from = (struct mensur_point){from->x + begin * dx, from->y + begin * dy};
    return true;
}

/* A line through necks at the map's stops, as far as it lies in the square; where it enters on the
 * left and where it leaves on the right. False: it does not touch the square. */
static bool draw_curve(const struct plane *plane, struct mensur_pen pen, const double *necks,
                       struct mensur_point *enters, struct mensur_point *leaves) {
    struct mensur_point path[MENSUR_MAP_COLUMNS + 1];
    size_t count = 0;
    for (size_t i = 0; i + 1 < MENSUR_MAP_COLUMNS; i++) {
        struct mensur_point from = {x_of(plane, plane->map->stops[i]), y_of(plane, necks[i])};
        struct mensur_point to = {x_of(plane, plane->map->stops[i + 1]), y_of(plane, necks[i + 1])};
        if (isnan(necks[i]) || isnan(necks[i + 1]) || !clip(plane, &from, &to)) {
            continue;
        }
        if (count == 0) {
            path[count++] = from;
        }
        path[count++] = to;
    }
    if (count < 2) {
        return false;
    }
    mensur_shape_path(&plane->draw->shapes, pen, MENSUR_PAINT_NONE, path, count, false);
    *enters = path[0];
    *leaves = path[count - 1];
    return true;
}

static void draw_lengths(struct plane *plane) {
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    letters.size = 12.0;
    for (size_t i = 0; i < plane->map->line_count; i++) {
        const struct mensur_map_line *line = &plane->map->lines[i];
        struct mensur_point enters, leaves;
        if (!draw_curve(plane, pen, line->necks, &enters, &leaves)) {
            continue;
        }
        int decimals = plane->draw->style->inches ? 2 : 0;
        double value = mensur_shown_value(plane->draw->style, MENSUR_LENGTH, line->string_length);
        struct mensur_shown shown = mensur_show_number(value, decimals, 7);
        /* At the left edge, or along the top. */
        bool above = enters.y < plane->top + 1.0;
        double x = above ? enters.x + 2.0 : enters.x + 4.0;
        double y = above ? plane->top + 15.0 : enters.y + 14.0;
        struct box box = box_of(letters, x, y, shown.text);
        if (is_free(plane, &box)) {
            mensur_draw_plate(plane->draw, letters, x, y, shown.text);
            take(plane, box);
        }
    }
}

/* Rays through the corner in which stop and neck are nothing. */
static void draw_rays(struct plane *plane) {
    const struct mensur_map *map = plane->map;
    double base = plane->draw->style->neck_base > 0.0 ? plane->draw->style->neck_base : 2.0;
    double least = base * map->stop_low / map->neck_high;
    double most = base * map->stop_high / map->neck_low;
    double step = mensur_draw_step(most - least, RAYS_MOST);
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_DOTS};
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    letters.size = 12.0;
    int first = (int)ceil(least / step), last = (int)floor(most / step);
    for (int i = first; i <= last; i++) {
        double ratio = i * step;
        struct mensur_point from = {x_of(plane, map->stop_low),
                                    y_of(plane, base * map->stop_low / ratio)};
        struct mensur_point to = {x_of(plane, map->stop_high),
                                  y_of(plane, base * map->stop_high / ratio)};
        if (!clip(plane, &from, &to)) {
            continue;
        }
        mensur_shape_line(&plane->draw->shapes, pen, from.x, from.y, to.x, to.y);
        struct mensur_shown text = mensur_show_ratio(plane->draw->style, 2.0 * ratio / base);
        if (to.x > RIGHT - 1.0) {
            mensur_shape_text(&plane->draw->shapes, letters, RIGHT + 4.0, to.y + 4.0, text.text);
        }
    }
}

static void draw_axis(struct plane *plane, bool upwards) {
    const struct mensur_map *map = plane->map;
    const struct mensur_style *style = plane->draw->style;
    struct mensur_shapes *shapes = &plane->draw->shapes;
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_NONE};
    struct mensur_lettering letters =
        mensur_draw_soft(upwards ? MENSUR_ANCHOR_END : MENSUR_ANCHOR_MIDDLE);
    double low = mensur_shown_value(style, MENSUR_LENGTH, upwards ? map->neck_low : map->stop_low);
    double high =
        mensur_shown_value(style, MENSUR_LENGTH, upwards ? map->neck_high : map->stop_high);
    double step = mensur_draw_step(high - low, STEPS_MOST);
    int decimals = step < 0.1 ? 2 : step < 1.0 ? 1 : 0;
    int first = (int)ceil(low / step), last = (int)floor(high / step);
    for (int i = first; i <= last; i++) {
        double at = i * step;
        double along = (at - low) / (high - low) * SIDE;
        struct mensur_shown shown = mensur_show_number(at, decimals, 7);
        if (upwards) {
            double y = plane->top + SIDE - along;
            mensur_shape_line(shapes, pen, LEFT - 5.0, y, LEFT, y);
            mensur_shape_text(shapes, letters, LEFT - 8.0, y + 4.5, shown.text);
        } else {
            mensur_shape_line(shapes, pen, LEFT + along, plane->top + SIDE, LEFT + along,
                              plane->top + SIDE + 5.0);
            mensur_shape_text(shapes, letters, LEFT + along, plane->top + SIDE + 19.0, shown.text);
        }
    }
}

static void draw_frame(struct plane *plane) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_MIDDLE);
    mensur_shape_box(&plane->draw->shapes, pen, MENSUR_PAINT_NONE, LEFT, plane->top, SIDE, SIDE);
    draw_axis(plane, false);
    draw_axis(plane, true);
    mensur_shape_text(&plane->draw->shapes, letters, LEFT + SIDE / 2.0, plane->top + SIDE + 38.0,
                      "stop");
    letters.upright = true;
    mensur_shape_text(&plane->draw->shapes, letters, 20.0, plane->top + SIDE / 2.0, "neck");
}

/* What lies between two lines of necks, as far as it lies in the square. */
static void draw_between(const struct plane *plane, enum mensur_paint fill, const double *low,
                         const double *high) {
    const struct mensur_map *map = plane->map;
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    for (size_t i = 0; i + 1 < MENSUR_MAP_COLUMNS;) {
        struct mensur_point path[2 * MENSUR_MAP_COLUMNS];
        size_t first = i, count = 0;
        while (i < MENSUR_MAP_COLUMNS && !isnan(low[i]) && !isnan(high[i]) &&
               high[i] > map->neck_low && low[i] < map->neck_high) {
            path[count++] = (struct mensur_point){x_of(plane, map->stops[i]),
                                                  y_of(plane, fmax(low[i], map->neck_low))};
            i++;
        }
        for (size_t k = i; k > first; k--) {
            path[count++] = (struct mensur_point){x_of(plane, map->stops[k - 1]),
                                                  y_of(plane, fmin(high[k - 1], map->neck_high))};
        }
        if (count >= 4) {
            mensur_shape_path(&plane->draw->shapes, none, fill, path, count, true);
        }
        i += count == 0 ? 1 : 0;
    }
}

/* The number of a wish at the right end of an edge of its band. */
static void number_edge(struct plane *plane, size_t i, struct mensur_point at) {
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_END);
    char text[24];
    snprintf(text, sizeof text, "%zu", i + 1);
    double x = at.x - 5.0;
    double y = fmin(at.y - 3.0, plane->top + SIDE - 4.0);
    struct box box = box_of(letters, x, y, text);
    if (is_free(plane, &box)) {
        mensur_draw_plate(plane->draw, letters, x, y, text);
        take(plane, box);
    }
}

static void draw_bands(struct plane *plane) {
    const struct mensur_map *map = plane->map;
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.5, MENSUR_DASH_LONG};
    if (map->band_count > 1) {
        for (size_t i = 0; i < map->band_count; i++) {
            draw_between(plane, MENSUR_PAINT_TINT, map->bands[i].low, map->bands[i].high);
        }
    }
    draw_between(plane, MENSUR_PAINT_HATCH, map->common_low, map->common_high);
    for (size_t i = 0; i < map->band_count; i++) {
        const double *edges[] = {map->bands[i].low, map->bands[i].high};
        const double bound[] = {map->bands[i].want.low, map->bands[i].want.high};
        for (size_t k = 0; k < 2; k++) {
            struct mensur_point enters, leaves;
            if (!isnan(bound[k]) && draw_curve(plane, pen, edges[k], &enters, &leaves)) {
                number_edge(plane, i, leaves);
            }
        }
    }
}

static void draw_ellipse(const struct plane *plane, const struct mensur_map_point *point) {
    struct mensur_point path[ELLIPSE];
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_NONE};
    double width = fmax(point->stop_plus_minus * plane->scale, 0.8);
    double height = fmax(point->neck_plus_minus * plane->scale, 0.8);
    for (size_t i = 0; i < ELLIPSE; i++) {
        double angle = 2.0 * acos(-1.0) * (double)i / ELLIPSE;
        path[i] = (struct mensur_point){x_of(plane, point->lengths.stop) + width * cos(angle),
                                        y_of(plane, point->lengths.neck) + height * sin(angle)};
    }
    mensur_shape_path(&plane->draw->shapes, pen, MENSUR_PAINT_NONE, path, ELLIPSE, true);
}

static void draw_point(struct plane *plane, const struct mensur_map_point *point) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.4, MENSUR_DASH_NONE};
    double x = x_of(plane, point->lengths.stop);
    double y = y_of(plane, point->lengths.neck);
    if (point->stop_plus_minus > 0.0 || point->neck_plus_minus > 0.0) {
        draw_ellipse(plane, point);
    }
    if (point->changed) {
        mensur_shape_box(&plane->draw->shapes, pen, MENSUR_PAINT_INK, x - 4.0, y - 4.0, 8.0, 8.0);
    } else {
        mensur_shape_disc(&plane->draw->shapes, pen,
                          point->asked ? MENSUR_PAINT_INK : MENSUR_PAINT_PAPER, x, y, 4.0);
    }
    take(plane, (struct box){x - 5.0, y - 5.0, x + 5.0, y + 5.0});
}

/* The name beside its point: right, left, above or below, where there is room. */
static void name_point(struct plane *plane, const struct mensur_map_point *point) {
    static const struct {
        double x, y;
        enum mensur_anchor anchor;
    } at[] = {{8.0, 4.5, MENSUR_ANCHOR_START},
              {-8.0, 4.5, MENSUR_ANCHOR_END},
              {0.0, -9.0, MENSUR_ANCHOR_MIDDLE},
              {0.0, 18.0, MENSUR_ANCHOR_MIDDLE}};
    char *name = mensur_lettering_whole(point->name);
    if (name == NULL) {
        plane->draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
        struct mensur_lettering letters =
            point->asked ? mensur_draw_strong(at[i].anchor) : mensur_draw_letters(at[i].anchor);
        double x = x_of(plane, point->lengths.stop) + at[i].x;
        double y = y_of(plane, point->lengths.neck) + at[i].y;
        struct box box = box_of(letters, x, y, name);
        if (box.right - box.left < SIDE * 0.6 && is_free(plane, &box)) {
            mensur_draw_plate(plane->draw, letters, x, y, name);
            take(plane, box);
            break;
        }
    }
    free(name);
}

static void draw_points(struct plane *plane) {
    const struct mensur_map *map = plane->map;
    for (size_t i = 0; i < map->point_count; i++) {
        draw_point(plane, &map->points[i]);
    }
    for (size_t i = 0; i < map->point_count; i++) {
        name_point(plane, &map->points[i]);
    }
}

static bool any_changed(const struct mensur_map *map) {
    bool any = false;
    for (size_t i = 0; i < map->point_count; i++) {
        any = any || map->points[i].changed;
    }
    return any;
}

static void explain_line(struct mensur_draw *draw, const char *text) {
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y, text);
    MENSUR_SHAPE_SAY(&draw->shapes, "%s", text);
    draw->y += 19.0;
}

/* Which wish a number is, and what the marks mean. */
static void explain(struct plane *plane) {
    const struct mensur_map *map = plane->map;
    struct mensur_draw *draw = plane->draw;
    for (size_t i = 0; i < map->band_count; i++) {
        char text[240], wish[200];
        mensur_draw_wish_text(draw, &map->bands[i].want, wish, sizeof wish);
        snprintf(text, sizeof text, "(%zu) %s", i + 1, wish);
        mensur_shape_fitted(&draw->shapes, mensur_draw_letters(MENSUR_ANCHOR_START),
                            MENSUR_PAGE_MARGIN, draw->y,
                            MENSUR_PAGE_WIDTH - 2.0 * MENSUR_PAGE_MARGIN, text);
        MENSUR_SHAPE_SAY(&draw->shapes, "Wish %zu: %s.", i + 1, wish);
        draw->y += 19.0;
    }
    if (map->band_count > 0) {
        bool somewhere = false;
        for (size_t i = 0; i < MENSUR_MAP_COLUMNS; i++) {
            somewhere = somewhere || (map->common_high[i] > map->neck_low &&
                                      map->common_low[i] < map->neck_high);
        }
        explain_line(draw, somewhere ? "Hatched: every wish is met."
                                     : "Nothing on this map meets every wish.");
    }
    explain_line(draw, any_changed(map)
                           ? "Filled: asked about; square: proposed; open: others of the shop."
                           : "Filled: asked about; open: others of the shop.");
}

static void describe(struct plane *plane) {
    const struct mensur_map *map = plane->map;
    struct mensur_draw *draw = plane->draw;
    for (size_t i = 0; i < map->point_count; i++) {
        const struct mensur_map_point *point = &map->points[i];
        char *name = mensur_lettering_whole(point->name);
        if (name == NULL) {
            draw->shapes.status = MENSUR_MEMORY;
            return;
        }
        MENSUR_SHAPE_SAY(&draw->shapes, "%s: stop %s, neck %s, string %s%s.", name,
                         mensur_show_cut(draw->style, point->lengths.stop).text,
                         mensur_show_cut(draw->style, point->lengths.neck).text,
                         mensur_show_cut(draw->style, point->lengths.string_length).text,
                         point->meets_all == MENSUR_YES  ? "; it meets every wish"
                         : point->meets_all == MENSUR_NO ? "; it does not meet every wish"
                                                         : "");
        free(name);
    }
}

void mensur_draw_plane(struct mensur_draw *draw, const struct mensur_map *map) {
    struct plane plane = {.draw = draw, .map = map};
    struct mensur_style style = *draw->style;
    const struct mensur_style *before = draw->style;
    style.neck_base = mensur_shown_neck_base(map->held);
    draw->style = &style;
    mensur_draw_heading(draw, "Stop and neck");
    mensur_draw_note(draw, "Falling lines: one string length. Rising, dotted: one neck : stop.",
                     MENSUR_LENGTH, false);
    plane.top = draw->y + 4.0;
    plane.scale = SIDE / (map->stop_high - map->stop_low);
    if (draw->axes != NULL) {
        draw->axes->map_left = LEFT;
        draw->axes->map_bottom = plane.top + SIDE;
        draw->axes->map_stop = map->stop_low;
        draw->axes->map_neck = map->neck_low;
        draw->axes->map_scale = plane.scale;
    }
    draw_bands(&plane);
    draw_rays(&plane);
    draw_lengths(&plane);
    draw_points(&plane);
    draw_frame(&plane);
    draw->y = plane.top + SIDE + 62.0;
    explain(&plane);
    describe(&plane);
    draw->style = before;
}
