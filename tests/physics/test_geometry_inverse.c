/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "geometry.h"
#include "views.h"
#include "with_solver.h"

#include <gsl/gsl_errno.h>

static struct mensur_geometry solved(const struct mensur_side_view *view) {
    struct mensur_geometry found = {.string_length = NAN};
    check_status("random view", mensur_geometry_solve(view, &found), MENSUR_OK);
    return found;
}

static double note_of(const struct mensur_side_view *view) {
    double semitones = NAN;
    check_status("note",
                 mensur_body_at_semitones(solved(view).string_length, view->neck, &semitones),
                 MENSUR_OK);
    return semitones;
}

/* Every inverse from a start that is off, against the neck or stop that the figures came from. */
static void check_inverses(const struct mensur_side_view *view, double off) {
    struct mensur_geometry figures = solved(view);
    double note = note_of(view);
    struct mensur_side_view start = *view;
    double found;
    start.neck = view->neck * off;
    check_status("length", mensur_neck_for_length(solver, &start, figures.string_length, &found),
                 MENSUR_OK);
    check_close("neck for length", found, view->neck, 1e-13 * figures.string_length, 1e-12);
    check_status("reach", mensur_neck_for_left_reach(solver, &start, figures.left_reach, &found),
                 MENSUR_OK);
    check_close("neck for reach", found, view->neck, 1e-13 * figures.left_reach, 1e-12);
    check_status("note", mensur_neck_for_body_note(solver, &start, note, &found), MENSUR_OK);
    check_close("neck for note", found, view->neck, 0, 1e-12);
    start = *view;
    start.stop = view->stop * fmin(off, 1.0);
    check_status("stop", mensur_stop_for_length(solver, &start, figures.string_length, &found),
                 MENSUR_OK);
    check_close("stop for length", found, view->stop, 1e-13 * figures.string_length, 1e-12);
}

static void necks_and_stops(void **state) {
    (void)state;
    const struct view_mm usual[] = {VIOLIN_LEVEL_BOARD, VIOLIN, VIOLA, CELLO};
    for (size_t i = 0; i < COUNT_OF(usual); i++) {
        struct mensur_side_view view = view_of(&usual[i]);
        check_inverses(&view, 1.0);
        check_inverses(&view, 0.55);
        check_inverses(&view, 1.45);
    }
    uint64_t seed = 1636;
    for (int i = 0; i < 500; i++) {
        struct mensur_side_view view = random_view(&seed);
        check_inverses(&view, random_between(&seed, 0.5, 1.5));
        view.board_nut = view.board;
        check_inverses(&view, random_between(&seed, 0.5, 1.5));
    }
}

/* A thick board and a low projection: no line exists at a tenth of the stop, where the search would
 * begin. */
static void low_board(void **state) {
    (void)state;
    const struct view_mm mm = {"low", 140, 5, 80, 60, 9, 9, 9, 0.4, 7, 3, 9, 4};
    struct mensur_side_view view = view_of(&mm);
    double found;
    check_status("low", mensur_stop_for_length(solver, &view, solved(&view).string_length, &found),
                 MENSUR_OK);
    check_close("low", found, view.stop, 0, 1e-12);
}

/* A board whose taper is below the precision of a double goes through the solver, which must find
 * the neck of the closed form. The library has no closed form for the note; it is here:
 * with N = k L, k = 1 - 2^(-s/12), the nut's line gives a quadratic equation for N. */
static double neck_for_note_closed(const struct mensur_side_view *view, double semitones) {
    double theta = solved(view).neck_slope;
    double y = view->arch + view->bridge - view->overstand;
    double p = view->stop * cos(theta) + y * sin(theta);
    double g = y * cos(theta) - view->stop * sin(theta) - (view->board_nut + view->nut);
    double k = 1.0 - exp2(-semitones / 12.0);
    double a = 1.0 / (k * k) - 1.0;
    return (p + sqrt(p * p + a * (p * p + g * g))) / a;
}

static void closed_against_solver(void **state) {
    (void)state;
    uint64_t seed = 1822;
    for (int i = 0; i < 500; i++) {
        struct mensur_side_view level = random_view(&seed);
        level.board_nut = level.board;
        struct mensur_side_view tapered = level;
        tapered.board_nut = nextafter(level.board, 0.0);
        double length = solved(&level).string_length * random_between(&seed, 0.9, 1.2);
        double reach = level.body_straight + level.neck * random_between(&seed, 0.8, 1.3);
        double note = note_of(&level) * random_between(&seed, 0.8, 1.3);
        double closed, searched;
        check_status("length", mensur_neck_for_length(solver, &level, length, &closed), MENSUR_OK);
        check_status("length", mensur_neck_for_length(solver, &tapered, length, &searched),
                     MENSUR_OK);
        check_close("neck for length", searched, closed, 1e-13 * length, 1e-12);
        check_status("reach", mensur_neck_for_left_reach(solver, &level, reach, &closed),
                     MENSUR_OK);
        check_status("reach", mensur_neck_for_left_reach(solver, &tapered, reach, &searched),
                     MENSUR_OK);
        check_close("neck for reach", searched, closed, 1e-13 * reach, 1e-12);
        check_status("note", mensur_neck_for_body_note(solver, &level, note, &searched), MENSUR_OK);
        check_close("neck for note", searched, neck_for_note_closed(&level, note), 0, 1e-12);
    }
}

/* The string length grows with neck and with stop, so that every wish is one interval. */
static void lengths_grow(void **state) {
    (void)state;
    uint64_t seed = 355;
    for (int i = 0; i < 200; i++) {
        struct mensur_side_view view = random_view(&seed);
        view.body_straight = NAN;
        double by_neck = 0.0, by_stop = 0.0;
        for (int step = 0; step <= 20; step++) {
            double part = 0.5 + 0.05 * step;
            struct mensur_side_view other = view;
            other.neck = view.neck * part;
            double length = solved(&other).string_length;
            assert_true(length > by_neck);
            by_neck = length;
            other = view;
            other.stop = view.stop * part;
            length = solved(&other).string_length;
            assert_true(length > by_stop);
            by_stop = length;
        }
    }
}

static void slopes(void **state) {
    (void)state;
    uint64_t seed = 1893;
    for (int i = 0; i < 500; i++) {
        struct mensur_side_view view = random_view(&seed);
        double slope = solved(&view).neck_slope, found;
        struct mensur_side_view unread = view;
        unread.projection = unread.bridge = unread.saddle = unread.nut = NAN;
        check_status("slope", mensur_projection_for_slope(&unread, slope, &found), MENSUR_OK);
        check_close("projection", found, view.projection, 1e-15 * view.stop, 1e-13);
    }
}

static void ratios(void **state) {
    (void)state;
    double found;
    check_status("violin", mensur_stop_per_2_neck(0.195, 0.130, &found), MENSUR_OK);
    check_close("violin", found, 3.0, 0, 1e-15); /* common practice, no source */
    check_status("neck", mensur_neck_for_ratio(0.2217, 2.93, &found), MENSUR_OK);
    check_close("neck", found, 0.15133105802047781, 0, 1e-15);
    check_status("stop", mensur_stop_for_ratio(found, 2.93, &found), MENSUR_OK);
    check_close("stop", found, 0.2217, 0, 1e-15);
}

/* Lengths in mm; the short neck with a long string needs the log1p form. Values by hand:
 * the octave at half the string, a fifth at a third, and 2^(1/12) to ten digits. */
static const struct {
    const char *name;
    double length, neck, want, within;
} body_notes[] = {
    {"octave", 657, 328.5, 12.0, 1e-13},
    {"two octaves", 328, 246, 24.0, 1e-13},
    {"a third of the string", 327, 109, 7.01955000865387, 1e-13}, /* 3/2: 701.955 cents */
    {"a fourth", 328, 82, 4.98044999134613, 1e-13},
    {"neck of 1e-12 of the string", 1e9, 1e-3, 1.7312340490676216e-11,
     1e-25}, /* 12e-12/ln 2, and 5e-13 of it */
    {"neck nearly as long as the string", 1.0, 1.0 - 0x1p-50, 600.0, 1e-12},
};

static void body_notes_by_hand(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(body_notes); i++) {
        double found;
        check_status(body_notes[i].name,
                     mensur_body_at_semitones(body_notes[i].length, body_notes[i].neck, &found),
                     MENSUR_OK);
        check_close(body_notes[i].name, found, body_notes[i].want, body_notes[i].within, 0);
    }
}

/* The one inverse that needs no solver. */
static enum mensur_status projection_for_slope(struct mensur_solver *unused,
                                               const struct mensur_side_view *view, double slope,
                                               double *projection) {
    (void)unused;
    return mensur_projection_for_slope(view, slope, projection);
}

typedef enum mensur_status inverse(struct mensur_solver *, const struct mensur_side_view *, double,
                                   double *);
typedef enum mensur_status pair(double, double, double *);

/* Figures that no view of a violin can have; lengths in m. */
static const struct {
    const char *name;
    inverse *call;
    double wish;
    enum mensur_status want;
} refusals[] = {
    {"length 0", mensur_neck_for_length, 0, MENSUR_DOMAIN},
    {"length unknown", mensur_neck_for_length, NAN, MENSUR_DOMAIN},
    {"length under the stop", mensur_neck_for_length, 0.19, MENSUR_NO_ANSWER},
    {"length of 11 m", mensur_neck_for_length, 11, MENSUR_NO_ANSWER},
    {"note unknown", mensur_neck_for_body_note, NAN, MENSUR_DOMAIN},
    {"reach infinite", mensur_neck_for_left_reach, INFINITY, MENSUR_DOMAIN},
    {"reach within the body", mensur_neck_for_left_reach, 0.35, MENSUR_NO_ANSWER},
    {"note 0", mensur_neck_for_body_note, 0, MENSUR_DOMAIN},
    {"note below the string", mensur_neck_for_body_note, -3, MENSUR_DOMAIN},
    {"note at the bridge", mensur_neck_for_body_note, 99, MENSUR_NO_ANSWER},
    {"stop for length 0", mensur_stop_for_length, 0, MENSUR_DOMAIN},
    {"stop past the body's end", mensur_stop_for_length, 0.52, MENSUR_NO_ANSWER},
    {"stop for a length under the neck", mensur_stop_for_length, 0.1, MENSUR_NO_ANSWER},
    {"slope upright", projection_for_slope, 1.5707963267948970, MENSUR_DOMAIN},
    {"slope unknown", projection_for_slope, NAN, MENSUR_DOMAIN},
    {"slope into the belly", projection_for_slope, -0.05, MENSUR_NO_ANSWER},
    {"slope straight down", projection_for_slope, -1.57, MENSUR_NO_ANSWER},
};

static const struct {
    const char *name;
    pair *call;
    double a, b;
} pair_refusals[] = {
    {"no neck", mensur_stop_per_2_neck, 0.195, 0},
    {"stop unknown", mensur_stop_per_2_neck, NAN, 0.13},
    {"ratio negative", mensur_neck_for_ratio, 0.195, -3},
    {"ratio infinite", mensur_stop_for_ratio, 0.13, INFINITY},
    {"no neck for a ratio", mensur_stop_for_ratio, 0, 3},
    {"neck as long as the string", mensur_body_at_semitones, 0.328, 0.328},
    {"string unknown", mensur_body_at_semitones, NAN, 0.13},
    {"no neck to meet", mensur_body_at_semitones, 0.328, 0},
};

static void refuses(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    struct mensur_side_view view = view_of(&mm);
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        check_status(refusals[i].name, refusals[i].call(solver, &view, refusals[i].wish, &found),
                     refusals[i].want);
        check_close(refusals[i].name, found, 12.5, 0, 0);
    }
    for (size_t i = 0; i < COUNT_OF(pair_refusals); i++) {
        check_status(pair_refusals[i].name,
                     pair_refusals[i].call(pair_refusals[i].a, pair_refusals[i].b, &found),
                     MENSUR_DOMAIN);
        check_close(pair_refusals[i].name, found, 12.5, 0, 0);
    }
}

/* Arguments that only the closed forms refuse, and views outside their domain. */
static void refuses_views(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN_LEVEL_BOARD;
    struct mensur_side_view level = view_of(&mm);
    double found = 12.5;
    check_status("short", mensur_neck_for_length(solver, &level, 0.19, &found), MENSUR_NO_ANSWER);
    check_status("tiny", mensur_neck_for_length(solver, &level, 0.001, &found), MENSUR_NO_ANSWER);
    check_status("reach", mensur_neck_for_left_reach(solver, &level, 0.35, &found),
                 MENSUR_NO_ANSWER);
    level.body_straight = NAN;
    check_status("no body", mensur_neck_for_left_reach(solver, &level, 0.48, &found),
                 MENSUR_DOMAIN);
    level.bridge = level.projection;
    check_status("bridge", mensur_neck_for_length(solver, &level, 0.33, &found), MENSUR_DOMAIN);
    check_status("bridge", mensur_neck_for_body_note(solver, &level, 8.7, &found), MENSUR_DOMAIN);
    check_status("bridge", mensur_neck_for_left_reach(solver, &level, 0.48, &found), MENSUR_DOMAIN);
    check_status("bridge", mensur_stop_for_length(solver, &level, 0.33, &found), MENSUR_DOMAIN);
    level.board = NAN;
    check_status("board", mensur_projection_for_slope(&level, 0.1, &found), MENSUR_DOMAIN);
    level.bridge = 0.033;
    level.board = level.board_nut = 0.25;
    check_status("thick", mensur_neck_for_length(solver, &level, 0.33, &found), MENSUR_NO_ANSWER);
    level.body_straight = 0.354;
    check_status("thick", mensur_neck_for_left_reach(solver, &level, 0.48, &found),
                 MENSUR_NO_ANSWER);
    level.board = level.board_nut = 0.4;
    check_status("thick", mensur_projection_for_slope(&level, -0.8, &found), MENSUR_NO_ANSWER);
    check_close("untouched", found, 12.5, 0, 0);
}

/* A board that is thin at the nut and thicker than the stop at the body: longer necks have no line
 * to the bridge, so that the function has no value at the end of the search. */
static void refuses_wedges(void **state) {
    (void)state;
    const struct view_mm mm = {"wedge", 355, 11, 195, 130, 6.5, 250, 7, 0.4, 11.5, 27, 33, 4};
    struct mensur_side_view wedge = view_of(&mm);
    double found = 12.5;
    assert_true(isfinite(solved(&wedge).string_length));
    check_status("length", mensur_neck_for_length(solver, &wedge, 0.33, &found), MENSUR_NO_ANSWER);
    check_status("reach", mensur_neck_for_left_reach(solver, &wedge, 0.48, &found),
                 MENSUR_NO_ANSWER);
    check_status("note", mensur_neck_for_body_note(solver, &wedge, 8.7, &found), MENSUR_NO_ANSWER);
    check_close("untouched", found, 12.5, 0, 0);
}

/* A violin's view with one of the values replaced that the neck's slope depends on. */
static const struct {
    const char *name;
    size_t field;
    double value, slope;
    enum mensur_status want;
} wrong_necks[] = {
    {"no stop", offsetof(struct mensur_side_view, stop), 0, 0.1, MENSUR_DOMAIN},
    {"neck unknown", offsetof(struct mensur_side_view, neck), NAN, 0.1, MENSUR_DOMAIN},
    {"neck sunk in", offsetof(struct mensur_side_view, overstand), -0.001, 0.1, MENSUR_DOMAIN},
    {"no board at the nut", offsetof(struct mensur_side_view, board_nut), 0, 0.1, MENSUR_DOMAIN},
    {"flat belly", offsetof(struct mensur_side_view, arch), 0, 0.1, MENSUR_DOMAIN},
    {"board thicker than the stop", offsetof(struct mensur_side_view, board), 0.25, 0.7,
     MENSUR_NO_ANSWER},
};

static void refuses_slopes(void **state) {
    (void)state;
    const struct view_mm mm = VIOLIN;
    for (size_t i = 0; i < COUNT_OF(wrong_necks); i++) {
        struct mensur_side_view view = view_of(&mm);
        double found = 12.5;
        memcpy((char *)&view + wrong_necks[i].field, &wrong_necks[i].value, sizeof(double));
        check_status(wrong_necks[i].name,
                     mensur_projection_for_slope(&view, wrong_necks[i].slope, &found),
                     wrong_necks[i].want);
        check_close(wrong_necks[i].name, found, 12.5, 0, 0);
    }
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(necks_and_stops),
        cmocka_unit_test(low_board),
        cmocka_unit_test(closed_against_solver),
        cmocka_unit_test(lengths_grow),
        cmocka_unit_test(slopes),
        cmocka_unit_test(ratios),
        cmocka_unit_test(body_notes_by_hand),
        cmocka_unit_test(refuses),
        cmocka_unit_test(refuses_views),
        cmocka_unit_test(refuses_wedges),
        cmocka_unit_test(refuses_slopes),
    };
    return cmocka_run_group_tests(tests, make_solver, free_solver);
}
