/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "by_vectors.h"
#include "check.h"
#include "geometry.h"
#include "views.h"

#include <gsl/gsl_errno.h>

/* The two figures of the documented example, to all its digits. */
struct example {
    struct view_mm mm;
    double length_mm, length_within, break_degrees, break_within;
};

static const struct example examples[] = {
    {VIOLIN_LEVEL_BOARD, 328.0729, 5e-5, 158.3274, 5e-5},
    {VIOLIN, 328.0659, 5e-5, 157.9506, 5e-5},
    {VIOLIN, 328.1, 0.05, 158.0, 0.05},
    {VIOLIN, 328.5, 1.5, 158.0, 1.0}, /* common practice, no source: 327 to 330 mm, 158 degrees */
    {VIOLA, 375.8, 0.05, 157.6, 0.05},
    {CELLO, 689.5, 0.05, 154.1, 0.05},
};

static void usual_values(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(examples); i++) {
        const struct example *row = &examples[i];
        struct mensur_side_view view = view_of(&row->mm);
        struct mensur_geometry found;
        check_status(row->mm.name, mensur_geometry_solve(&view, &found), MENSUR_OK);
        check_close(row->mm.name, found.string_length / MM, row->length_mm, row->length_within, 0);
        check_close(row->mm.name, found.break_angle / DEGREE, row->break_degrees, row->break_within,
                    0);
    }
}

static void violin(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN_LEVEL_BOARD;
    struct mensur_side_view view = view_of(&mm);
    struct mensur_geometry found;
    double semitones, clearance;
    check_status("violin", mensur_geometry_solve(&view, &found), MENSUR_OK);
    check_status("violin", mensur_body_at_semitones(found.string_length, view.neck, &semitones),
                 MENSUR_OK);
    check_close("hand at the body", semitones, 8.736, 5e-4, 0);
    double board = 5.0 / 6.0 * found.string_length;
    check_status("violin", mensur_clearance(&view, &found, board, 0.75 * MM, board, &clearance),
                 MENSUR_OK);
    check_close("clearance at the end", clearance / MM, 5.036, 5e-4, 0);
    check_close("bow reach", found.bow_reach, view.body_straight - view.stop, 0, 1e-15);
    assert_true(found.string_length > view.stop + view.neck);
}

static void compare(const struct mensur_side_view *view, const struct mensur_geometry *got) {
    struct by_vectors want = solve_by_vectors(view);
    check_close("board's line", (double)want.off_board, 0, 1e-16, 0);
    check_close("nut x", got->nut_x, (double)want.nut_x, 0, 1e-13);
    check_close("nut y", got->nut_y, (double)want.nut_y, 1e-15, 1e-12);
    check_close("length", got->string_length, (double)want.string_length, 0, 1e-14);
    check_close("taper", got->board_taper, (double)want.taper, 1e-18, 1e-14);
    check_close("board's slope", got->board_slope, (double)want.slope, 1e-15, 1e-12);
    check_close("neck's slope", got->neck_slope, (double)want.neck_slope, 1e-15, 1e-12);
    check_close("front", got->front_angle, (double)want.front, 1e-14, 1e-12);
    check_close("back", got->back_angle, (double)want.back, 1e-14, 1e-12);
    check_close("break", got->break_angle, (double)want.break_angle, 0, 1e-12);
    check_close("down", got->down_factor, (double)want.down_factor, 1e-14, 1e-12);
    check_close("left reach", got->left_reach, view->body_straight - (double)want.nut_x, 0, 1e-13);
    long double up = (long double)view->arch + view->projection - view->overstand;
    long double run = view->stop - want.nut_x, rise = (long double)got->top_y - want.nut_y;
    check_close("rise", got->rise, (double)up, 0, 1e-14);
    check_close("board's top", got->board_top,
                (double)(up * want.along_x - view->stop * want.along_y), 1e-16, 1e-12);
    check_close("nut's height", got->nut_height, view->board_nut + view->nut, 0, 1e-15);
    check_close("board's way", got->board_way, (double)(run * want.along_x + rise * want.along_y),
                0, 1e-13);
    check_close("above the bridge", got->above_bridge,
                (double)((view->bridge - (long double)view->projection) * want.along_x), 0, 1e-12);
}

static void by_vectors(void **state) {
    (void)state;
    uint64_t seed = 20230917;
    for (int i = 0; i < 3000; i++) {
        struct mensur_side_view view = random_view(&seed);
        struct mensur_geometry found;
        check_status("random view", mensur_geometry_solve(&view, &found), MENSUR_OK);
        compare(&view, &found);
    }
}

/* Boards that slope down: the projection line below the neck's gluing surface; and one board
 * thickness above it, where the slope is 0. */
static void low_projections(void **state) {
    (void)state;
    const double projections_mm[] = {0.3, 1.7, 3.0, 5.0, 5.0000001, 5.1};
    for (size_t i = 0; i < COUNT_OF(projections_mm); i++) {
        const struct view_mm mm = {
            "low", 355, 11, 195, 130, 12.5, 10, 10, 0.4, 17.5, projections_mm[i], 9.3, 4};
        struct mensur_side_view view = view_of(&mm);
        struct mensur_geometry found;
        check_status("low", mensur_geometry_solve(&view, &found), MENSUR_OK);
        compare(&view, &found);
    }
}

static void clearances(void **state) {
    (void)state;
    uint64_t seed = 77;
    for (int i = 0; i < 1000; i++) {
        struct mensur_side_view view = random_view(&seed);
        struct mensur_geometry found;
        double got;
        check_status("random view", mensur_geometry_solve(&view, &found), MENSUR_OK);
        struct by_vectors by = solve_by_vectors(&view);
        double board = random_between(&seed, 0.5, 0.95) * found.string_length;
        double hollow = random_between(&seed, 0.0, 0.003);
        double distance = random_between(&seed, 0.0, 1.0) * board;
        check_status("random view", mensur_clearance(&view, &found, board, hollow, distance, &got),
                     MENSUR_OK);
        long double want = clearance_by_vectors(&view, &by, board, hollow, distance);
        check_close("clearance", got, (double)want, 2e-15, 1e-12);
    }
}

static void without_body(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    view.body_straight = NAN;
    struct mensur_geometry found;
    check_status("no body", mensur_geometry_solve(&view, &found), MENSUR_OK);
    check_close("no body", found.string_length / MM, 328.0659, 5e-5, 0);
    const double unknown[] = {found.back_angle, found.break_angle, found.down_factor,
                              found.left_reach, found.bow_reach};
    for (size_t i = 0; i < COUNT_OF(unknown); i++) {
        check_close("no body", unknown[i], NAN, 0, 0);
    }
}

/* One measurement of a good view replaced. */
struct wrong_view {
    const char *name;
    size_t field;
    double value;
    enum mensur_status want;
};

#define FIELD(name) offsetof(struct mensur_side_view, name)

static const struct wrong_view wrong_views[] = {
    {"body ends at the bridge", FIELD(body_straight), 0.195, MENSUR_DOMAIN},
    {"body infinite", FIELD(body_straight), INFINITY, MENSUR_DOMAIN},
    {"no stop", FIELD(stop), 0.0, MENSUR_DOMAIN},
    {"stop unknown", FIELD(stop), NAN, MENSUR_DOMAIN},
    {"stop behind the edge", FIELD(stop), -0.195, MENSUR_DOMAIN},
    {"neck infinite", FIELD(neck), INFINITY, MENSUR_DOMAIN},
    {"no neck", FIELD(neck), 0.0, MENSUR_DOMAIN},
    {"neck sunk into the edge", FIELD(overstand), -0.001, MENSUR_DOMAIN},
    {"no board", FIELD(board), 0.0, MENSUR_DOMAIN},
    {"board unknown at the nut", FIELD(board_nut), NAN, MENSUR_DOMAIN},
    {"nut under the board", FIELD(nut), -0.0001, MENSUR_DOMAIN},
    {"flat belly", FIELD(arch), 0.0, MENSUR_DOMAIN},
    {"no projection", FIELD(projection), 0.0, MENSUR_DOMAIN},
    {"bridge as high as the projection", FIELD(bridge), 0.027, MENSUR_DOMAIN},
    {"bridge unknown", FIELD(bridge), NAN, MENSUR_DOMAIN},
    {"saddle under the edge", FIELD(saddle), -0.004, MENSUR_DOMAIN},
    {"stop over 1e60 m", FIELD(stop), 1e61, MENSUR_DOMAIN},
};

static void refuses(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    for (size_t i = 0; i < COUNT_OF(wrong_views); i++) {
        struct mensur_side_view view = view_of(&mm);
        memcpy((char *)&view + wrong_views[i].field, &wrong_views[i].value, sizeof(double));
        struct mensur_geometry found = {.string_length = 12.5, .left_reach = -3.25};
        check_status(wrong_views[i].name, mensur_geometry_solve(&view, &found),
                     wrong_views[i].want);
        check_close(wrong_views[i].name, found.string_length, 12.5, 0, 0);
        check_close(wrong_views[i].name, found.left_reach, -3.25, 0, 0);
    }
}

/* A board thicker than the distance to the bridge has no line to it; one nearly as thick, on a high
 * overstand, would be vertical; one that is thin at the nut and thick at the body would have a neck
 * that slopes back over the body. Overstand, board and board at the nut in mm. */
static const double no_lines[][3] = {{6.5, 197.8, 197.8}, {6.5, 250, 250}, {6.5, 4000, 4000},
                                     {400, 250, 250},     {900, 210, 210}, {900, 150, 10}};

static void no_line(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(no_lines); i++) {
        struct view_mm mm = VIOLIN_LEVEL_BOARD;
        mm.overstand = no_lines[i][0];
        mm.board = no_lines[i][1];
        mm.board_nut = no_lines[i][2];
        struct mensur_side_view view = view_of(&mm);
        struct mensur_geometry found = {.string_length = 12.5};
        check_status("thick", mensur_geometry_solve(&view, &found), MENSUR_NO_ANSWER);
        check_close("thick", found.string_length, 12.5, 0, 0);
    }
    /* a nut of 3 m on a neck that slopes down: the string would start past the bridge */
    struct view_mm tall = VIOLIN;
    tall.overstand = 60;
    tall.nut = 3000;
    struct mensur_side_view view = view_of(&tall);
    struct mensur_geometry found = {.string_length = 12.5};
    check_status("tall", mensur_geometry_solve(&view, &found), MENSUR_NO_ANSWER);
    check_close("tall", found.string_length, 12.5, 0, 0);
}

/* board_length, hollow, distance in m. */
static const struct {
    const char *name;
    double board_length, hollow, distance;
} wrong_places[] = {
    {"no board", 0.0, 0.001, 0.0},         {"board unknown", NAN, 0.001, 0.1},
    {"hump", 0.27, -0.001, 0.1},           {"hollow infinite", 0.27, INFINITY, 0.1},
    {"behind the nut", 0.27, 0.001, -0.1}, {"past the board", 0.27, 0.001, 0.2701},
    {"past the bridge", 0.5, 0.001, 0.4},
};

static void refuses_clearances(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    struct mensur_geometry found;
    check_status("violin", mensur_geometry_solve(&view, &found), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(wrong_places); i++) {
        double clearance = 12.5;
        check_status(wrong_places[i].name,
                     mensur_clearance(&view, &found, wrong_places[i].board_length,
                                      wrong_places[i].hollow, wrong_places[i].distance, &clearance),
                     MENSUR_DOMAIN);
        check_close(wrong_places[i].name, clearance, 12.5, 0, 0);
    }
    const struct mensur_geometry unsolved = {.string_length = 0.328};
    double clearance = 12.5;
    check_status("geometry of no view",
                 mensur_clearance(&view, &unsolved, 0.27, 0.001, 0.1, &clearance), MENSUR_DOMAIN);
    view.neck = NAN;
    check_status("view of no neck", mensur_clearance(&view, &found, 0.27, 0.001, 0.1, &clearance),
                 MENSUR_DOMAIN);
    check_close("untouched", clearance, 12.5, 0, 0);
}

/* body and rise in any one unit. */
static const double body_and_rise[][2] = {
    {355, 11},    {410, 13},    {755, 20},      {1130.7, 63.1}, {355, 1e-3},     {355, 1e-7},
    {355, 1e-9},  {355, 1e-30}, {355, 0},       {355, 88.75},   {355, 150},      {355, 177},
    {355, 177.4}, {1, 0.4999},  {2.5e-7, 1e-8}, {8.3e9, 4.1e9}, {355, 177.4999},
};

static void backs(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(body_and_rise); i++) {
        double body = body_and_rise[i][0], rise = body_and_rise[i][1];
        struct mensur_back back = {NAN, NAN, NAN};
        check_status("back", mensur_body_straight(body, rise, &back), MENSUR_OK);
        double chord = back.straight;
        assert_true(chord <= body);
        check_close("half", back.half, chord / 2, 0, 1e-15);
        check_close("bend", back.bend * back.half, 2 * rise, 0, 1e-15);
        long double want = (long double)body - 2.0L * (long double)rise;
        double spare = (double)arc_less_rises((long double)chord, (long double)rise);
        check_close("arc", spare, (double)want, 0, 1e-12);
    }
}

static void refuses_backs(void **state) {
    (void)state;
    static const struct {
        double body, rise;
        enum mensur_status want;
    } rows[] = {
        {0, 11, MENSUR_DOMAIN},         {-355, 11, MENSUR_DOMAIN},    {NAN, 11, MENSUR_DOMAIN},
        {355, -1, MENSUR_DOMAIN},       {355, NAN, MENSUR_DOMAIN},    {INFINITY, 11, MENSUR_DOMAIN},
        {355, 177.5, MENSUR_NO_ANSWER}, {355, 400, MENSUR_NO_ANSWER},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_back back = {12.5, 12.5, 12.5};
        check_status("back", mensur_body_straight(rows[i].body, rows[i].rise, &back), rows[i].want);
        check_close("back", back.straight, 12.5, 0, 0);
    }
}

/* Heights over the middle, in mm; worked out from (R - z)^2 + x^2 = R^2: 3, 4, 5; 5, 12, 13; 8, 15,
 * 17. */
static const struct {
    double middle, radius, tilt, across, want;
} crown_rows[] = {
    {33, 50, 0, 0, 33},          {33, 50, 0, 30, 23},    {33, 50, 0, -30, 23},
    {33, 13, 0, 5, 32},          {33, 17, 0, 8, 31},     {33, 50, 0, 50, -17},
    {33, 50, 0.1, 30, 20},       {33, 50, 0.1, -30, 26}, {0, 50, -0.5, 40, 0},
    {33, 1e9, 0, 10, 33 - 5e-8},
};

static void crowns(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(crown_rows); i++) {
        double height = NAN;
        check_status("crown",
                     mensur_crown_height(crown_rows[i].middle * MM, crown_rows[i].radius * MM,
                                         crown_rows[i].tilt, crown_rows[i].across * MM, &height),
                     MENSUR_OK);
        check_close("crown", height / MM, crown_rows[i].want, 1e-13, 1e-14);
    }
}

static void refuses_crowns(void **state) {
    (void)state;
    static const double rows[][4] = {
        {-1, 50, 0, 0},  {33, 0, 0, 0},   {33, -50, 0, 0},  {33, 50, 0, 50.1}, {33, 50, 0, -50.1},
        {NAN, 50, 0, 0}, {33, NAN, 0, 0}, {33, 50, NAN, 0}, {33, 50, 0, NAN},  {INFINITY, 50, 0, 0},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        double height = 12.5;
        check_status("crown",
                     mensur_crown_height(rows[i][0], rows[i][1], rows[i][2], rows[i][3], &height),
                     MENSUR_DOMAIN);
        check_close("untouched", height, 12.5, 0, 0);
    }
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(usual_values),
        cmocka_unit_test(violin),
        cmocka_unit_test(by_vectors),
        cmocka_unit_test(low_projections),
        cmocka_unit_test(clearances),
        cmocka_unit_test(without_body),
        cmocka_unit_test(refuses),
        cmocka_unit_test(no_line),
        cmocka_unit_test(refuses_clearances),
        cmocka_unit_test(backs),
        cmocka_unit_test(refuses_backs),
        cmocka_unit_test(crowns),
        cmocka_unit_test(refuses_crowns),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
