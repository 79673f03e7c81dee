/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "by_vectors.h"

#include <math.h>

struct vector {
    long double x, y;
};

static struct vector from_to(struct vector a, struct vector b) {
    return (struct vector){b.x - a.x, b.y - a.y};
}

static struct vector add(struct vector a, long double factor, struct vector b) {
    return (struct vector){a.x + factor * b.x, a.y + factor * b.y};
}

static struct vector quarter_turn(struct vector a) {
    return (struct vector){-a.y, a.x};
}

static long double dot(struct vector a, struct vector b) {
    return a.x * b.x + a.y * b.y;
}

static long double cross(struct vector a, struct vector b) {
    return a.x * b.y - a.y * b.x;
}

static struct vector unit(struct vector a) {
    long double size = hypotl(a.x, a.y);
    return (struct vector){a.x / size, a.y / size};
}

static long double angle_between(struct vector a, struct vector b) {
    return atan2l(fabsl(cross(a, b)), dot(a, b));
}

/* The point at which the upper tangent from a point touches a circle. */
static struct vector tangent_point(struct vector centre, long double radius, struct vector from) {
    struct vector out = from_to(centre, from);
    long double whole = dot(out, out);
    long double tangent = sqrtl(whole - radius * radius);
    struct vector foot = add(centre, radius * radius / whole, out);
    return add(foot, radius * tangent / whole, quarter_turn(out));
}

/* The vector a turned back by the angle of the vector (run, rise). */
static struct vector turn_back(struct vector a, long double run, long double rise) {
    struct vector by = unit((struct vector){run, rise});
    return (struct vector){a.x * by.x + a.y * by.y, a.y * by.x - a.x * by.y};
}

static void look_from_top(const struct mensur_side_view *view, struct vector nut, struct vector top,
                          struct by_vectors *by) {
    struct vector saddle = {(long double)view->body_straight, (long double)view->saddle};
    struct vector forward = unit(from_to(top, nut));
    struct vector backward = unit(from_to(top, saddle));
    struct vector x = {1.0L, 0.0L};
    by->front = atan2l(-forward.y, -forward.x);
    by->back = atan2l(-backward.y, dot(backward, x));
    by->break_angle = angle_between(forward, backward);
    if (cross(forward, backward) < 0.0L) { /* the string bends upwards: it lifts off the bridge */
        by->break_angle = 2.0L * acosl(-1.0L) - by->break_angle;
    }
    by->down_factor = -(forward.y + backward.y);
}

struct by_vectors solve_by_vectors(const struct mensur_side_view *view) {
    struct by_vectors by;
    long double drop = (long double)view->board - (long double)view->board_nut;
    long double neck = (long double)view->neck;
    long double radius = (long double)view->board * neck / hypotl(neck, drop);
    struct vector root = {0.0L, (long double)view->overstand};
    struct vector aim = {(long double)view->stop,
                         (long double)view->arch + (long double)view->projection};
    struct vector touch = tangent_point(root, radius, aim);
    struct vector board = unit(from_to(touch, aim));
    struct vector gluing = turn_back(board, neck, drop);
    struct vector end = add(root, -neck, gluing);
    struct vector corner = add(end, (long double)view->board_nut, quarter_turn(gluing));
    struct vector nut = add(corner, (long double)view->nut, quarter_turn(gluing));
    struct vector top = {(long double)view->stop,
                         (long double)view->arch + (long double)view->bridge};
    by.nut_x = nut.x;
    by.nut_y = nut.y;
    by.string_length = hypotl(top.x - nut.x, top.y - nut.y);
    by.taper = atan2l(drop, neck);
    by.slope = atan2l(board.y, board.x);
    by.neck_slope = atan2l(gluing.y, gluing.x);
    by.off_board = cross(board, from_to(touch, corner));
    by.at_x = touch.x;
    by.at_y = touch.y;
    by.along_x = board.x;
    by.along_y = board.y;
    look_from_top(view, nut, top, &by);
    return by;
}

long double clearance_by_vectors(const struct mensur_side_view *view, const struct by_vectors *by,
                                 double board_length, double hollow, double distance) {
    struct vector at = {by->at_x, by->at_y};
    struct vector along = {by->along_x, by->along_y};
    struct vector nut = {by->nut_x, by->nut_y};
    struct vector top = {(long double)view->stop,
                         (long double)view->arch + (long double)view->bridge};
    struct vector string = from_to(nut, top);
    struct vector there = add(nut, (long double)distance / dot(string, along), string);
    long double u = (long double)distance / (long double)board_length;
    return cross(along, from_to(at, there)) + 4.0L * (long double)hollow * u * (1.0L - u);
}

/* sqrt(1 + s^2) - s over one half of the parabola, s its slope, by Gauss's five points on many
 * pieces (Abramowitz and Stegun, table 25.4; digits from memory). x = y^4 makes the pieces
 * short near the vertex, where the integrand changes fastest. */
long double arc_less_rises(long double chord, long double rise) {
    static const long double place[5] = {
        0.0L, -0.538469310105683091036314420700208805L, 0.538469310105683091036314420700208805L,
        -0.906179845938663992797626878299392965L, 0.906179845938663992797626878299392965L};
    static const long double weight[5] = {
        0.568888888888888888888888888888888889L, 0.478628670499366468041291514835638193L,
        0.478628670499366468041291514835638193L, 0.236926885056189087514264040719917363L,
        0.236926885056189087514264040719917363L};
    const int pieces = 4000;
    long double half = 0.5L * chord;
    long double sum = 0.0L;
    for (int i = 0; i < pieces; i++) {
        for (int j = 0; j < 5; j++) {
            long double y = ((long double)i + 0.5L + 0.5L * place[j]) / (long double)pieces;
            long double slope = 2.0L * rise * (y * y * y * y) / half;
            sum += weight[j] * 4.0L * (y * y * y) / (hypotl(1.0L, slope) + slope);
        }
    }
    return sum * half / (long double)pieces;
}
