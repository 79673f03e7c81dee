/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bridge's height for a clearance at the board's end.
 *
 * Symbols as in geometry.c, with c0 the clearance at the nut, b the bridge and d the distance of
 * the board's end. With D = D0 + b sin(psi) and c1 = (b - projection) cos(psi), the straight line
 * c = c0 + (c1 - c0) d/D gives
 *     b = ((c0 + projection cos(psi)) d + (c - c0) D0) / (d cos(psi) - (c - c0) sin(psi)). */
#include "geometry.h"

#include "domain.h"
#include "geometry_parts.h"
#include "solve.h"

#define DOUBLINGS 60

struct bridge_wish {
    const struct mensur_side_view *view;
    struct mensur_board_line line;
    double board_share;
    double clearance;
};

static double at_nut(const struct bridge_wish *wish) {
    return wish->view->nut * wish->line.cos_taper;
}

/* D0: the nut to the foot of the bridge, along the board. */
static double along_board(const struct bridge_wish *wish) {
    const struct mensur_board_line *line = &wish->line;
    return (wish->view->stop - line->nut_x) * line->cos_slope +
           (wish->view->arch - line->nut_y) * line->sin_slope;
}

static double bridge_at(const struct bridge_wish *wish, double board_length) {
    const struct mensur_board_line *line = &wish->line;
    double c0 = at_nut(wish);
    double more = wish->clearance - c0;
    double foot = along_board(wish);
    double above = (c0 + wish->view->projection * line->cos_slope) * board_length + more * foot;
    double bridge = above / (board_length * line->cos_slope - more * line->sin_slope);
    /* A board that ends past the bridge has no clearance there. */
    return board_length < foot + bridge * line->sin_slope ? bridge : NAN;
}

/* Clearance at the share of the string less the wished one, over the bridge's height. */
static double clearance_off(double bridge, void *context) {
    const struct bridge_wish *wish = context;
    const struct mensur_board_line *line = &wish->line;
    double run = wish->view->stop - line->nut_x;
    double rise = wish->view->arch + bridge - line->nut_y;
    double part =
        wish->board_share * hypot(run, rise) / (run * line->cos_slope + rise * line->sin_slope);
    double c0 = at_nut(wish);
    double c1 = (bridge - wish->view->projection) * line->cos_slope;
    return c0 + (c1 - c0) * part - wish->clearance;
}

/* The clearance grows with the bridge: double its height above the board's line until it is
 * enough. */
static enum mensur_status solve_bridge(struct mensur_solver *solver, struct bridge_wish *wish,
                                       double *bridge) {
    double low = wish->view->projection;
    double more = wish->clearance;
    for (int i = 0; i < DOUBLINGS; i++) {
        if (clearance_off(low + more, wish) >= 0.0) {
            return mensur_solve_root(solver, clearance_off, wish, low, low + more, bridge);
        }
        more *= 2.0;
    }
    return MENSUR_NO_ANSWER;
}

enum mensur_status mensur_bridge_for_clearance(struct mensur_solver *solver,
                                               const struct mensur_side_view *view,
                                               double board_length, double board_share,
                                               double clearance, double *bridge) {
    bool board =
        isnan(board_length) ? board_share > 0.0 && board_share < 1.0 : is_positive(board_length);
    if (!mensur_is_board_view(view) || !board || !is_positive(clearance)) {
        return MENSUR_DOMAIN;
    }
    struct bridge_wish wish = {.view = view, .board_share = board_share, .clearance = clearance};
    enum mensur_status status = mensur_board_line_solve(view, &wish.line);
    if (status != MENSUR_OK) {
        return status;
    }
    double found;
    if (isnan(board_length)) {
        status = solve_bridge(solver, &wish, &found);
        if (status != MENSUR_OK) {
            return status;
        }
    } else {
        found = bridge_at(&wish, board_length);
    }
    if (!(found > view->projection) || !is_positive(found)) {
        return MENSUR_NO_ANSWER; /* not above the board's line, or NaN */
    }
    *bridge = found;
    return MENSUR_OK;
}
