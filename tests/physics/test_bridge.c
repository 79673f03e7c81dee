/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "geometry.h"
#include "views.h"
#include "with_solver.h"

#include <gsl/gsl_errno.h>

/* Bridge to clearance and back, for a board of known length and for one that follows the string. */
static void check_round_trip(const struct mensur_side_view *view, double board_part) {
    struct mensur_geometry found;
    struct mensur_side_view unread = *view;
    unread.bridge = unread.saddle = unread.body_straight = NAN;
    double clearance, bridge;
    check_status("view", mensur_geometry_solve(view, &found), MENSUR_OK);
    double board = board_part * found.string_length;
    check_status("board", mensur_clearance(view, &found, board, 0.0013, board, &clearance),
                 MENSUR_OK);
    if (clearance <= 0.0) {
        return;
    }
    check_status("board",
                 mensur_bridge_for_clearance(solver, &unread, board, 5.0 / 6, clearance, &bridge),
                 MENSUR_OK);
    check_close("board", bridge, view->bridge, 1e-15, 1e-12);
}

static void check_default_board(const struct mensur_side_view *view) {
    struct mensur_geometry found;
    double clearance, bridge;
    check_status("view", mensur_geometry_solve(view, &found), MENSUR_OK);
    double board = 5.0 / 6.0 * found.string_length;
    check_status("5/6", mensur_clearance(view, &found, board, 0, board, &clearance), MENSUR_OK);
    if (clearance <= 0.0) {
        return;
    }
    check_status("5/6", mensur_bridge_for_clearance(solver, view, NAN, 5.0 / 6, clearance, &bridge),
                 MENSUR_OK);
    check_close("5/6", bridge, view->bridge, 1e-15, 1e-12);
}

static void round_trips(void **state) {
    (void)state;
    const struct view_mm usual[] = {VIOLIN_LEVEL_BOARD, VIOLIN, VIOLA, CELLO};
    for (size_t i = 0; i < COUNT_OF(usual); i++) {
        struct mensur_side_view view = view_of(&usual[i]);
        check_round_trip(&view, 0.81);
        check_default_board(&view);
    }
    uint64_t seed = 833;
    for (int i = 0; i < 1000; i++) {
        struct mensur_side_view view = random_view(&seed);
        check_round_trip(&view, random_between(&seed, 0.55, 0.95));
        check_default_board(&view);
    }
}

/* A clearance of 0.5 m at 0.1 m of board needs a bridge of over a metre, which is found. */
static void tall_bridge(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    double bridge, clearance;
    check_status("tall bridge",
                 mensur_bridge_for_clearance(solver, &view, 0.1, 5.0 / 6, 0.5, &bridge), MENSUR_OK);
    view.bridge = bridge;
    struct mensur_geometry found;
    check_status("tall bridge", mensur_geometry_solve(&view, &found), MENSUR_OK);
    check_status("tall bridge", mensur_clearance(&view, &found, 0.1, 0, 0.1, &clearance),
                 MENSUR_OK);
    check_close("tall bridge", clearance, 0.5, 0, 1e-12);
}

/* Lengths in m, on a violin. */
static const struct {
    const char *name;
    double board_length, clearance;
    enum mensur_status want;
} refusals[] = {
    {"no board", 0, 0.005, MENSUR_DOMAIN},
    {"board infinite", INFINITY, 0.005, MENSUR_DOMAIN},
    {"no clearance", NAN, 0, MENSUR_DOMAIN},
    {"clearance unknown", 0.27, NAN, MENSUR_DOMAIN},
    {"clearance negative", 0.27, -0.001, MENSUR_DOMAIN},
    {"clearance under that of a string to the projection", 0.27, 5e-5, MENSUR_NO_ANSWER},
    {"the same, board unknown", NAN, 5e-5, MENSUR_NO_ANSWER},
    {"board past the bridge", 0.34, 0.005, MENSUR_NO_ANSWER},
    {"board of 3.4 m", 3.4, 0.005, MENSUR_NO_ANSWER},
};

static void refuses(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    double bridge = 12.5;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        check_status(refusals[i].name,
                     mensur_bridge_for_clearance(solver, &view, refusals[i].board_length, 5.0 / 6,
                                                 refusals[i].clearance, &bridge),
                     refusals[i].want);
    }
    const double shares[] = {0, 1, NAN};
    for (size_t i = 0; i < COUNT_OF(shares); i++) {
        check_status("share",
                     mensur_bridge_for_clearance(solver, &view, NAN, shares[i], 0.005, &bridge),
                     MENSUR_DOMAIN);
    }
    view.board = view.board_nut = 0.25;
    check_status("thick", mensur_bridge_for_clearance(solver, &view, NAN, 5.0 / 6, 0.005, &bridge),
                 MENSUR_NO_ANSWER);
    view.board_nut = NAN;
    check_status("unknown",
                 mensur_bridge_for_clearance(solver, &view, NAN, 5.0 / 6, 0.005, &bridge),
                 MENSUR_DOMAIN);
    check_close("untouched", bridge, 12.5, 0, 0);
}

/* A violin near the greatest lengths of the domain: its bridge would exceed them. And a vertical
 * board behind the bridge (stop and board of 1e-30 m), whose clearance no bridge raises. */
static void no_bridge(void **state) {
    (void)state;
    const struct view_mm giant = {"giant", 355, 11, 195, 130, 6.5, 8.7, 7, 0.4, 11.5, 27, 33, 4};
    struct mensur_side_view view = view_of(&giant);
    double *const lengths[] = {&view.stop,      &view.neck, &view.overstand, &view.board,
                               &view.board_nut, &view.nut,  &view.arch,      &view.projection};
    double bridge = 12.5;
    for (size_t i = 0; i < COUNT_OF(lengths); i++) {
        *lengths[i] *= 1e60;
    }
    check_status("giant",
                 mensur_bridge_for_clearance(solver, &view, 0.1e60, 5.0 / 6, 0.5e60, &bridge),
                 MENSUR_NO_ANSWER);
    const struct view_mm upright = {"upright", 355, 11,   1e-27, 130, 6.5, 1e-27,
                                    1e-27,     0.4, 11.5, 27,    33,  4};
    view = view_of(&upright);
    check_status("upright",
                 mensur_bridge_for_clearance(solver, &view, NAN, 5.0 / 6, 0.005, &bridge),
                 MENSUR_NO_ANSWER);
    check_close("untouched", bridge, 12.5, 0, 0);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(round_trips),
        cmocka_unit_test(tall_bridge),
        cmocka_unit_test(refuses),
        cmocka_unit_test(no_bridge),
    };
    return cmocka_run_group_tests(tests, make_solver, free_solver);
}
