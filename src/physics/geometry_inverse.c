/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inverses of the side view: the neck, stop or projection that gives a wished figure.
 *
 * Symbols as in geometry.c. Where board_nut = board the neck's slope does not depend on its length,
 * and the nut runs along a straight line: in axes along and square to the neck the bridge's top
 * lies at
 *     p = S cos(theta) + Y sin(theta),  r = Y cos(theta) - S sin(theta),  Y = arch + bridge -
 * overstand, and the nut at (-N, h), so L^2 = (N + p)^2 + (r - h)^2. */
#include "geometry.h"

#include "domain.h"
#include "geometry_parts.h"
#include "solve.h"

/* The search runs between these multiples of the present neck or stop. */
#define SEARCH_FROM 0.1
#define SEARCH_TO 10.0

/* A view of which one measurement is varied until a figure is met. */
struct wish {
    struct mensur_side_view view;
    double wanted;
};

/* NaN where the view is outside its domain: the solver treats NaN as "no value". */
static double string_length_of(const struct mensur_side_view *view) {
    struct mensur_geometry geometry;
    if (mensur_geometry_solve(view, &geometry) != MENSUR_OK) {
        return NAN;
    }
    return geometry.string_length;
}

static double length_off_by_neck(double neck, void *context) {
    struct wish *wish = context;
    wish->view.neck = neck;
    return string_length_of(&wish->view) - wish->wanted;
}

static double length_off_by_stop(double stop, void *context) {
    struct wish *wish = context;
    wish->view.stop = stop;
    return string_length_of(&wish->view) - wish->wanted;
}

static double reach_off_by_neck(double neck, void *context) {
    struct wish *wish = context;
    struct mensur_board_line line;
    wish->view.neck = neck;
    if (mensur_board_line_solve(&wish->view, &line) != MENSUR_OK) {
        return NAN;
    }
    return -line.nut_x - wish->wanted;
}

static double note_off_by_neck(double neck, void *context) {
    struct wish *wish = context;
    double semitones;
    wish->view.neck = neck;
    if (mensur_body_at_semitones(string_length_of(&wish->view), neck, &semitones) != MENSUR_OK) {
        return NAN;
    }
    return semitones - wish->wanted;
}

static enum mensur_status solve_neck(struct mensur_solver *solver, mensur_function *off,
                                     const struct mensur_side_view *view, double wanted,
                                     double *neck) {
    struct wish wish = {.view = *view, .wanted = wanted};
    return mensur_solve_root(solver, off, &wish, SEARCH_FROM * view->neck, SEARCH_TO * view->neck,
                             neck);
}

/* Stores a neck; MENSUR_NO_ANSWER where it is not positive. */
static enum mensur_status give_neck(double found, double *neck) {
    if (!is_positive(found)) {
        return MENSUR_NO_ANSWER;
    }
    *neck = found;
    return MENSUR_OK;
}

static enum mensur_status neck_for_length_closed(const struct mensur_side_view *view, double length,
                                                 double *neck) {
    struct mensur_board_line line;
    enum mensur_status status = mensur_board_line_solve(view, &line);
    if (status != MENSUR_OK) {
        return status;
    }
    double y = view->arch + view->bridge - view->overstand;
    double p = view->stop * line.cos_neck + y * line.sin_neck;
    double off = y * line.cos_neck - view->stop * line.sin_neck - line.height;
    double square = (length - off) * (length + off);
    if (!(square >= 0.0)) {
        return MENSUR_NO_ANSWER;
    }
    return give_neck(sqrt(square) - p, neck);
}

enum mensur_status mensur_neck_for_length(struct mensur_solver *solver,
                                          const struct mensur_side_view *view, double length,
                                          double *neck) {
    if (!mensur_is_side_view(view) || !is_positive(length)) {
        return MENSUR_DOMAIN;
    }
    if (is_same(view->board_nut, view->board)) {
        return neck_for_length_closed(view, length, neck);
    }
    return solve_neck(solver, length_off_by_neck, view, length, neck);
}

enum mensur_status mensur_neck_for_left_reach(struct mensur_solver *solver,
                                              const struct mensur_side_view *view, double reach,
                                              double *neck) {
    if (!mensur_is_side_view(view) || isnan(view->body_straight) || !is_positive(reach)) {
        return MENSUR_DOMAIN;
    }
    double before_body = reach - view->body_straight;
    if (!is_same(view->board_nut, view->board)) {
        return solve_neck(solver, reach_off_by_neck, view, before_body, neck);
    }
    struct mensur_board_line line;
    enum mensur_status status = mensur_board_line_solve(view, &line);
    if (status != MENSUR_OK) {
        return status;
    }
    return give_neck((before_body - line.height * line.sin_neck) / line.cos_neck, neck);
}

enum mensur_status mensur_neck_for_body_note(struct mensur_solver *solver,
                                             const struct mensur_side_view *view, double semitones,
                                             double *neck) {
    if (!mensur_is_side_view(view) || !is_positive(semitones)) {
        return MENSUR_DOMAIN;
    }
    return solve_neck(solver, note_off_by_neck, view, semitones, neck);
}

/* The stop below which no line of the board reaches the projection. */
static double least_stop(const struct mensur_side_view *view) {
    double rise = view->arch + view->projection - view->overstand;
    double q = view->board * (view->neck / hypot(view->neck, view->board - view->board_nut));
    return q > fabs(rise) ? sqrt((q - rise) * (q + rise)) * (1.0 + 1e-12) : 0.0;
}

enum mensur_status mensur_stop_for_length(struct mensur_solver *solver,
                                          const struct mensur_side_view *view, double length,
                                          double *stop) {
    if (!mensur_is_side_view(view) || !is_positive(length)) {
        return MENSUR_DOMAIN;
    }
    struct wish wish = {.view = *view, .wanted = length};
    wish.view.body_straight = NAN; /* so that the search may try stops past the body's end */
    double found, least = fmax(SEARCH_FROM * view->stop, least_stop(view));
    enum mensur_status status =
        mensur_solve_root(solver, length_off_by_stop, &wish, least, SEARCH_TO * view->stop, &found);
    if (status != MENSUR_OK) {
        return status;
    }
    if (found >= view->body_straight) {
        return MENSUR_NO_ANSWER;
    }
    *stop = found;
    return MENSUR_OK;
}

enum mensur_status mensur_stop_per_2_neck(double stop, double neck, double *ratio) {
    if (!is_positive(stop) || !is_positive(neck)) {
        return MENSUR_DOMAIN;
    }
    return give(2.0 * stop / neck, ratio);
}

enum mensur_status mensur_neck_for_ratio(double stop, double ratio, double *neck) {
    return mensur_stop_per_2_neck(stop, ratio, neck);
}

enum mensur_status mensur_stop_for_ratio(double neck, double ratio, double *stop) {
    if (!is_positive(neck) || !is_positive(ratio)) {
        return MENSUR_DOMAIN;
    }
    return give(0.5 * ratio * neck, stop);
}

enum mensur_status mensur_body_at_semitones(double string_length, double neck, double *semitones) {
    if (!is_positive(string_length) || !is_positive(neck) || !(neck < string_length)) {
        return MENSUR_DOMAIN;
    }
    /* For a short neck L/(L - N) is near 1 and its rounding would cost digits: log1p there. */
    double octaves = neck < 0.5 * string_length ? -log1p(-neck / string_length) / MENSUR_LN2
                                                : log2(string_length / (string_length - neck));
    return give(12.0 * octaves, semitones);
}

/* True where what the neck's slope depends on, except the projection, lies in its domain. */
static bool is_neck_view(const struct mensur_side_view *view) {
    return is_positive(view->stop) && is_positive(view->neck) && is_not_negative(view->overstand) &&
           is_positive(view->board) && is_positive(view->board_nut) && is_positive(view->arch);
}

enum mensur_status mensur_projection_for_slope(const struct mensur_side_view *view,
                                               double neck_slope, double *projection) {
    if (!is_neck_view(view) || !(fabs(neck_slope) < 0.5 * MENSUR_PI)) {
        return MENSUR_DOMAIN;
    }
    double drop = view->board - view->board_nut;
    double q = view->board * (view->neck / hypot(view->neck, drop));
    double slope = neck_slope + atan(drop / view->neck);
    double across = sin(slope);
    double along = cos(slope);
    if (!(along > 0.0) || !(view->stop + q * across > 0.0)) {
        return MENSUR_NO_ANSWER; /* the board's line would pass the bridge behind the neck */
    }
    double rise = (q + view->stop * across) / along;
    double found = rise - view->arch + view->overstand;
    if (!is_positive(found)) {
        return MENSUR_NO_ANSWER; /* the line meets the belly before the bridge */
    }
    *projection = found;
    return MENSUR_OK;
}
