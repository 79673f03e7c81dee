/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "player_reach.h"

static const double pi = 3.14159265358979323846;

/* An arm in mm and degrees, a reach, and the elbow of a known triangle: right angles (3-4-5,
 * 8-15-17), the arm just stretched, folded, too short, too long. */
static const struct {
    const char *name;
    double upper, fore, side, forward, yaw, reach;
    bool reached;
    double elbow, distance;
} arms[] = {
    {"right angle", 300, 400, 0, 0, 90, 500, true, 90, 500},
    {"right angle, ahead", 80, 150, 0, 0, 0, 170, true, 90, 170},
    {"equal sides", 311, 311, 0, 0, 37, 311, true, 60, 311},
    {"rest beside", 300, 400, 120, 0, 90, 620, true, 90, 500},
    {"rest beside and before", 300, 400, -300, 160, 0, 240, true, 90, 500},
    {"stretched", 320, 256, 0, 0, 0, 576, true, 180, 576},
    {"folded", 320, 256, 0, 0, 0, 64, true, 0, 64},
    {"too far", 320, 256, 0, 0, 0, 577, false, NAN, 577},
    {"too near", 320, 256, 0, 0, 0, 63, false, NAN, 63},
    {"behind the back", 300, 400, 0, 0, -180, 500, true, 90, 500},
};

static void elbows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(arms); i++) {
        struct mensur_arm arm = {arms[i].upper, arms[i].fore, arms[i].side, arms[i].forward,
                                 arms[i].yaw * pi / 180};
        struct mensur_elbow found = {.angle = NAN};
        check_status(arms[i].name, mensur_elbow(&arm, arms[i].reach, &found), MENSUR_OK);
        assert_int_equal(found.reached, arms[i].reached);
        check_close(arms[i].name, found.angle * 180 / pi, arms[i].elbow, 0, 1e-12);
        check_close(arms[i].name, found.distance, arms[i].distance, 0, 1e-12);
        check_close(arms[i].name, hypot(found.side, found.forward), found.distance, 0, 1e-15);
    }
}

/* Round trip: the nut's position is computed from an elbow angle, and the angle must be found
 * again, to the last digits where the arm is nearly stretched or folded. */
static void turned_points(void **state) {
    (void)state;
    const long double angles[] = {1e-4L, 0.03L, 0.7L, 1.5707L, 2.9L, 3.1L, 3.1415L};
    for (size_t i = 0; i < COUNT_OF(angles); i++) {
        long double upper = 0.3113L, fore = 0.2517L;
        long double hand_x = upper - fore * cosl(angles[i]);
        long double hand_y = fore * sinl(angles[i]);
        double reach = (double)hypotl(hand_x, hand_y);
        struct mensur_arm arm = {(double)upper, (double)fore, 0, 0, 0.9};
        struct mensur_elbow found = {.angle = NAN};
        check_status("turned", mensur_elbow(&arm, reach, &found), MENSUR_OK);
        assert_true(found.reached);
        /* Lengths rounded by 1e-16 m in all move the elbow by reach/(upper fore sin(elbow)) of it.
         */
        double digit = 1e-16 * reach / (double)(upper * fore * sinl(angles[i]));
        check_close("turned", found.angle, (double)angles[i], digit, 1e-14);
    }
}

/* Ratios as printed; rest and yaw are our own. */
static void segments(void **state) {
    (void)state;
    const double statures[] = {1.628, 1.756, 1.1};
    for (size_t i = 0; i < COUNT_OF(statures); i++) {
        struct mensur_arm arm;
        double hand;
        check_status("segments", mensur_arm_from_stature(statures[i], &arm, &hand), MENSUR_OK);
        check_close("upper arm", arm.upper_arm / statures[i], 0.186, 0, 1e-15);
        check_close("forearm", arm.forearm / statures[i], 0.146, 0, 1e-15);
        check_close("hand", hand / statures[i], 0.108, 0, 1e-15);
        check_close("side", arm.rest_side / statures[i], 0.11, 0, 1e-15);
        check_close("forward", arm.rest_forward / statures[i], 0.036, 0, 1e-15);
        check_close("yaw", arm.yaw, pi / 4, 0, 1e-15);
    }
}

static const struct {
    const char *name;
    struct mensur_arm arm;
    double reach;
} refusals[] = {
    {"no upper arm", {0, 0.25, 0.1, 0.05, 0.7}, 0.5},
    {"forearm negative", {0.3, -0.25, 0.1, 0.05, 0.7}, 0.5},
    {"forearm unknown", {0.3, NAN, 0.1, 0.05, 0.7}, 0.5},
    {"rest unknown", {0.3, 0.25, NAN, 0.05, 0.7}, 0.5},
    {"rest infinite", {0.3, 0.25, 0.1, INFINITY, 0.7}, 0.5},
    {"yaw over a half turn", {0.3, 0.25, 0.1, 0.05, 3.2}, 0.5},
    {"yaw unknown", {0.3, 0.25, 0.1, 0.05, NAN}, 0.5},
    {"no reach", {0.3, 0.25, 0.1, 0.05, 0.7}, 0},
    {"reach unknown", {0.3, 0.25, 0.1, 0.05, 0.7}, NAN},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct mensur_elbow found = {true, 12.5, 12.5, 12.5, 12.5};
        check_status(refusals[i].name, mensur_elbow(&refusals[i].arm, refusals[i].reach, &found),
                     MENSUR_DOMAIN);
        assert_true(found.reached);
        check_close(refusals[i].name, found.angle, 12.5, 0, 0);
        check_close(refusals[i].name, found.distance, 12.5, 0, 0);
    }
    const double statures[] = {0, -1.7, NAN, INFINITY};
    for (size_t i = 0; i < COUNT_OF(statures); i++) {
        struct mensur_arm arm = {.yaw = 12.5};
        double hand = 12.5;
        check_status("stature", mensur_arm_from_stature(statures[i], &arm, &hand), MENSUR_DOMAIN);
        check_close("stature", arm.yaw + hand, 25, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(elbows),
        cmocka_unit_test(turned_points),
        cmocka_unit_test(segments),
        cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
