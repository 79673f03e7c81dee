/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Side view on the centre line: plane geometry of straight lines.
 *
 * S stop, N neck, H = arch + projection - overstand: the projection line's height above the
 * neck's gluing surface, over the bridge line. q = board cos(phi): distance of the board's top
 * from the gluing surface at x = 0, square to the board's top.
 *
 * The board's top passes at q from (0, overstand) and through (S, arch + projection), so its slope
 * psi has  H cos(psi) - S sin(psi) = q,  so that  psi = atan2(H, S) - asin(q/sqrt(H^2 + S^2)).
 * Sine and cosine are computed without the difference of two nearly equal angles:
 *     w = sqrt(H^2 + S^2 - q^2)
 *     sin(psi) = (H w - S q)/(H^2 + S^2) = (H^2 - q^2)/(H w + S q)
 *     cos(psi) = (S w + H q)/(H^2 + S^2) */
#include "geometry.h"

#include "domain.h"
#include "geometry_parts.h"

/* Steps of Newton's method: three in practice, more where the rise is nearly half the body. */
#define STEPS_MOST 64

bool mensur_is_board_view(const struct mensur_side_view *view) {
    return is_positive(view->stop) && is_positive(view->neck) && is_not_negative(view->overstand) &&
           is_positive(view->board) && is_positive(view->board_nut) && is_not_negative(view->nut) &&
           is_positive(view->arch) && is_positive(view->projection);
}

bool mensur_is_side_view(const struct mensur_side_view *view) {
    bool body = isnan(view->body_straight) ||
                (is_positive(view->body_straight) && view->body_straight > view->stop);
    return mensur_is_board_view(view) && is_positive(view->bridge) &&
           view->bridge > view->projection && is_not_negative(view->saddle) && body;
}

/* Slope of the board's top; false where no line at q from the gluing surface has that rise. */
static bool solve_slope(double rise, double run, double q, struct mensur_board_line *line) {
    double square = run * run + (rise - q) * (rise + q);
    if (!(square >= 0.0)) {
        return false;
    }
    double w = sqrt(square);
    double whole = rise * rise + run * run;
    double up = rise * w + run * q;
    line->sin_slope = rise > 0.0 ? (rise - q) * (rise + q) / up : (rise * w - run * q) / whole;
    line->cos_slope = (run * w + rise * q) / whole;
    line->slope = atan2(line->sin_slope, line->cos_slope);
    return true;
}

static void place_nut(const struct mensur_side_view *view, struct mensur_board_line *line) {
    line->height = view->board_nut + view->nut;
    line->nut_x = -view->neck * line->cos_neck - line->height * line->sin_neck;
    line->nut_y = view->overstand - view->neck * line->sin_neck + line->height * line->cos_neck;
}

enum mensur_status mensur_board_line_solve(const struct mensur_side_view *view,
                                           struct mensur_board_line *out) {
    struct mensur_board_line line;
    double drop = view->board - view->board_nut;
    line.taper = atan(drop / view->neck);
    line.cos_taper = view->neck / hypot(view->neck, drop);
    line.rise = view->arch + view->projection - view->overstand;
    line.top = view->board * line.cos_taper;
    if (!solve_slope(line.rise, view->stop, line.top, &line)) {
        return MENSUR_NO_ANSWER;
    }
    line.neck_slope = line.slope - line.taper;
    line.sin_neck = sin(line.neck_slope);
    line.cos_neck = cos(line.neck_slope);
    if (!(line.cos_slope > 0.0) || !(line.cos_neck > 0.0)) {
        return MENSUR_NO_ANSWER; /* a neck that points straight up or back over the body */
    }
    place_nut(view, &line);
    *out = line;
    return MENSUR_OK;
}

/* What depends on the lower end of the body; NaN where body_straight is NaN. */
static void measure_body(const struct mensur_side_view *view, struct mensur_geometry *out) {
    out->bow_reach = view->body_straight - view->stop;
    out->left_reach = view->body_straight - out->nut_x;
    out->back_angle = atan2(out->top_y - view->saddle, out->bow_reach);
    out->break_angle = MENSUR_PI - out->front_angle - out->back_angle;
    out->down_factor = sin(out->front_angle) + sin(out->back_angle);
}

/* The line of the board's top, above which the string stands. */
static void measure_board(const struct mensur_side_view *view, struct mensur_geometry *out) {
    double along = cos(out->board_slope);
    double across = sin(out->board_slope);
    out->above_nut = view->nut * cos(out->board_taper);
    out->above_bridge = (view->bridge - view->projection) * along;
    out->board_way = (out->top_x - out->nut_x) * along + (out->top_y - out->nut_y) * across;
}

enum mensur_status mensur_geometry_solve(const struct mensur_side_view *view,
                                         struct mensur_geometry *out) {
    struct mensur_board_line line;
    if (!mensur_is_side_view(view)) {
        return MENSUR_DOMAIN;
    }
    enum mensur_status status = mensur_board_line_solve(view, &line);
    if (status != MENSUR_OK) {
        return status;
    }
    struct mensur_geometry found = {.nut_x = line.nut_x,
                                    .nut_y = line.nut_y,
                                    .top_x = view->stop,
                                    .top_y = view->arch + view->bridge,
                                    .board_taper = line.taper,
                                    .board_slope = line.slope,
                                    .neck_slope = line.neck_slope,
                                    .rise = line.rise,
                                    .board_top = line.top,
                                    .nut_height = line.height};
    double run = found.top_x - found.nut_x;
    double rise = found.top_y - found.nut_y;
    if (!(run > 0.0)) {
        return MENSUR_NO_ANSWER; /* the nut would lie beyond the bridge */
    }
    found.string_length = hypot(run, rise);
    found.front_angle = atan2(rise, run);
    measure_body(view, &found);
    measure_board(view, &found);
    *out = found;
    return MENSUR_OK;
}

/* A parabola's arc less twice its rise, against body less twice the rise: with a half the chord
 * and t = 2 rise/a the arc is a (sqrt(1 + t^2) + asinh(t)/t), and 2 rise = a t. The derivative of
 * the difference by a is 2 asinh(t)/t, which grows with a (a convex function): from any start
 * Newton's first step lands on or above the root, and the next ones decrease to it. The iteration
 * ends with the step that rounding keeps from decreasing. */
static double half_chord_of(double spare, double back_arch, double start) {
    double half_chord = start;
    for (int i = 0; i < STEPS_MOST; i++) {
        double t = 2.0 * back_arch / half_chord;
        double bend = t > 1e-9 ? asinh(t) / t : 1.0;
        double off = half_chord * (1.0 / (sqrt(1.0 + t * t) + t) + bend) - spare;
        double next = half_chord - off / (2.0 * bend);
        if (i > 0 && !(next < half_chord)) {
            break;
        }
        half_chord = next;
    }
    return half_chord;
}

enum mensur_status mensur_body_straight(double body, double back_arch, struct mensur_back *out) {
    if (!is_positive(body) || !is_not_negative(back_arch)) {
        return MENSUR_DOMAIN;
    }
    double straight = body;
    if (!is_same(back_arch, 0.0)) {
        double spare = body - 2.0 * back_arch;
        if (!(spare > 0.0)) {
            return MENSUR_NO_ANSWER; /* shorter than the way up to the arching and down again */
        }
        /* Start: to the second power of t the arc is 2 a (1 + t^2/6). */
        double square = body * body - 32.0 / 3.0 * back_arch * back_arch;
        double start = 0.25 * (body + sqrt(fmax(square, 0.0)));
        straight = fmin(2.0 * half_chord_of(spare, back_arch, start), body);
    }
    double half = straight / 2.0;
    *out = (struct mensur_back){.half = half, .bend = 2.0 * back_arch / half, .straight = straight};
    return MENSUR_OK;
}

enum mensur_status mensur_clearance(const struct mensur_side_view *view,
                                    const struct mensur_geometry *geometry, double board_length,
                                    double hollow, double distance, double *clearance) {
    if (!mensur_is_side_view(view) || !is_positive(board_length) || !is_not_negative(hollow) ||
        !is_not_negative(distance) || distance > board_length) {
        return MENSUR_DOMAIN;
    }
    if (!is_positive(geometry->board_way) || distance > geometry->board_way) {
        return MENSUR_DOMAIN; /* not the geometry of this view, or past its bridge */
    }
    double u = distance / board_length;
    double straight = geometry->above_nut + (geometry->above_bridge - geometry->above_nut) *
                                                (distance / geometry->board_way);
    return give(straight + 4.0 * hollow * u * (1.0 - u), clearance);
}

enum mensur_status mensur_crown_height(double middle, double radius, double tilt, double across,
                                       double *height) {
    if (!is_not_negative(middle) || !is_positive(radius) || !is_number(tilt) ||
        !(fabs(across) <= radius)) {
        return MENSUR_DOMAIN;
    }
    double rest = sqrt((radius - across) * (radius + across));
    return give(middle - across * across / (radius + rest) - tilt * across, height);
}
