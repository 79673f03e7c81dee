/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "player_reach.h"

static const double pi = 3.14159265358979323846;

/* An arm in mm and degrees, a reach, and the elbow of a known triangle: right angles (3-4-5,
 * 8-15-17), the arm just stretched, folded, too short, too long; and the wrist nearer than the nut
 * by a share of the hand. */
static const struct {
    const char *name;
    double upper, fore, hand, share, side, forward, yaw, reach;
    bool stretched;
    double elbow, distance, wrist;
} arms[] = {
    {"right angle", 300, 400, 190, 0, 0, 0, 90, 500, false, 90, 500, 500},
    {"right angle, ahead", 80, 150, 190, 0, 0, 0, 0, 170, false, 90, 170, 170},
    {"equal sides", 311, 311, 190, 0, 0, 0, 37, 311, false, 60, 311, 311},
    {"rest beside", 300, 400, 190, 0, 120, 0, 90, 620, false, 90, 500, 500},
    {"rest beside and before", 300, 400, 190, 0, -300, 160, 0, 240, false, 90, 500, 500},
    {"to the wrist", 300, 400, 180, 0.35, 0, 0, 90, 563, false, 90, 563, 500},
    {"to the wrist, beside and before", 300, 400, 250, 0.4, -360, 240, 0, 240, false, 90, 600, 500},
    {"stretched", 320, 256, 190, 0, 0, 0, 0, 576, false, 180, 576, 576},
    {"stretched to the wrist", 320, 256, 200, 0.25, 0, 0, 0, 626, false, 180, 626, 576},
    {"folded", 320, 256, 190, 0, 0, 0, 0, 64, false, 0, 64, 64},
    {"too far", 320, 256, 200, 0.25, 0, 0, 0, 627, true, NAN, 627, 577},
    {"too near", 320, 256, 190, 0, 0, 0, 0, 63, false, NAN, 63, 63},
    {"nearer than the wrist", 300, 300, 200, 0.5, 0, 0, 0, 80, false, 0, 80, 0},
    {"behind the back", 300, 400, 190, 0, 0, 0, -180, 500, false, 90, 500, 500},
};

static void elbows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(arms); i++) {
        struct mensur_arm arm = {.upper_arm = arms[i].upper,
                                 .forearm = arms[i].fore,
                                 .hand = arms[i].hand,
                                 .rest_side = arms[i].side,
                                 .rest_forward = arms[i].forward,
                                 .yaw = arms[i].yaw * pi / 180,
                                 .wrist_share = arms[i].share};
        struct mensur_elbow found = {.angle = NAN};
        check_status(arms[i].name, mensur_elbow(&arm, arms[i].reach, &found), MENSUR_OK);
        assert_int_equal(found.stretched, arms[i].stretched);
        check_close(arms[i].name, found.angle * 180 / pi, arms[i].elbow, 0, 1e-12);
        check_close(arms[i].name, found.distance, arms[i].distance, 0, 1e-12);
        check_close(arms[i].name, found.wrist, arms[i].wrist, 0, 1e-12);
        check_close(arms[i].name, hypot(found.side, found.forward), found.distance, 0, 1e-15);
    }
}

/* Round trip: the wrist's position is computed from an elbow angle, and the angle must be found
 * again, to the last digits where the arm is nearly stretched or folded. */
static void turned_points(void **state) {
    (void)state;
    const long double angles[] = {1e-4L, 0.03L, 0.7L, 1.5707L, 2.9L, 3.1L, 3.1415L};
    for (size_t i = 0; i < COUNT_OF(angles); i++) {
        long double upper = 0.3113L, fore = 0.2517L;
        long double hand_x = upper - fore * cosl(angles[i]);
        long double hand_y = fore * sinl(angles[i]);
        double reach = (double)hypotl(hand_x, hand_y);
        struct mensur_arm arm = {
            .upper_arm = (double)upper, .forearm = (double)fore, .hand = 0.17, .yaw = 0.9};
        struct mensur_elbow found = {.angle = NAN};
        check_status("turned", mensur_elbow(&arm, reach, &found), MENSUR_OK);
        assert_false(found.stretched);
        /* Lengths rounded by 1e-16 m in all move the elbow by reach/(upper fore sin(elbow)) of it.
         */
        double digit = 1e-16 * reach / (double)(upper * fore * sinl(angles[i]));
        check_close("turned", found.angle, (double)angles[i], digit, 1e-14);
    }
}

/* The ratios that the header states: those of adults rounded from ANSUR II (2012); rest, yaw and
 * wrist our own. */
static void segments(void **state) {
    (void)state;
    const double statures[] = {1.628, 1.756, 1.1};
    for (size_t i = 0; i < COUNT_OF(statures); i++) {
        const double ages[] = {NAN, 18, 44};
        struct mensur_usual_arm usual;
        check_status("segments", mensur_arm_from_stature(statures[i], ages[i], &usual), MENSUR_OK);
        check_close("upper arm", usual.arm.upper_arm / statures[i], 0.191, 0, 1e-15);
        check_close("forearm", usual.arm.forearm / statures[i], 0.150, 0, 1e-15);
        check_close("hand", usual.arm.hand / statures[i], 0.110, 0, 1e-15);
        check_close("side", usual.arm.rest_side / statures[i], 0.11, 0, 1e-15);
        check_close("forward", usual.arm.rest_forward / statures[i], 0.036, 0, 1e-15);
        check_close("yaw", usual.arm.yaw, pi / 4, 0, 1e-15);
        check_close("wrist", usual.arm.wrist_share, 0.35, 0, 1e-15);
        /* Shoulder to wrist varies by 0.0101 of the stature in ANSUR II's men. */
        check_close("arm's spread",
                    hypot(usual.spread.upper_arm, usual.spread.forearm) / statures[i], 0.0101, 0,
                    0.01);
        check_close("hand's spread", usual.spread.hand / statures[i], 0.0042, 0, 1e-15);
        check_close("yaw's spread", usual.spread.yaw * 180 / pi, 5, 0, 1e-14);
        check_close("wrist's spread", usual.spread.wrist_share, 0.1 / sqrt(3.0), 0, 1e-15);
        /* The same arm, measured, has the same hand and rest but for the digits of the ratios. */
        struct mensur_usual_arm measured;
        check_status("measured",
                     mensur_arm_from_segments(usual.arm.upper_arm, usual.arm.forearm, &measured),
                     MENSUR_OK);
        check_close("upper arm", measured.arm.upper_arm, usual.arm.upper_arm, 0, 0);
        check_close("forearm", measured.arm.forearm, usual.arm.forearm, 0, 0);
        check_close("hand", measured.arm.hand / (measured.arm.upper_arm + measured.arm.forearm),
                    0.323, 0, 1e-15);
        check_close("hand", measured.arm.hand, usual.arm.hand, 0, 0.005);
        check_close("side", measured.arm.rest_side, usual.arm.rest_side, 0, 0.005);
        check_close("forward", measured.arm.rest_forward, usual.arm.rest_forward, 0, 0.005);
        check_close("yaw", measured.arm.yaw, usual.arm.yaw, 0, 0);
        check_close("hand", measured.spread.hand, usual.spread.hand, 0, 0.005);
        check_close("rest", measured.spread.rest_side, usual.spread.rest_side, 0, 0.005);
        check_close("kept", measured.spread.upper_arm + measured.spread.forearm, 0, 0, 0);
    }
}

/* Means of R. G. Snyder and others, UM-HSRI-77-17 (1977), read at second hand: shoulder to elbow
 * and elbow to wrist as joint links, hand, each over the stature; to 0.005 of it. */
static const struct {
    const char *who;
    double age, upper, fore, hand;
} children[] = {
    {"boys", 2.75, 0.183, 0.139, 0.113},  {"boys", 6, 0.188, 0.144, 0.112},
    {"boys", 9, 0.192, 0.148, 0.109},     {"boys", 12, 0.193, 0.150, 0.109},
    {"boys", 15, 0.194, 0.153, 0.109},    {"boys", 18.25, 0.195, 0.153, 0.108},
    {"girls", 2.75, 0.184, 0.139, 0.112}, {"girls", 6, 0.188, 0.141, 0.110},
    {"girls", 9, 0.191, 0.144, 0.109},    {"girls", 12, 0.194, 0.147, 0.109},
    {"girls", 15, 0.195, 0.148, 0.107},   {"girls", 18.25, 0.193, 0.146, 0.106},
};

static void of_children(void **state) {
    (void)state;
    struct mensur_usual_arm usual;
    for (size_t i = 0; i < COUNT_OF(children); i++) {
        check_status(children[i].who, mensur_arm_from_stature(1.0, children[i].age, &usual),
                     MENSUR_OK);
        check_close(children[i].who, usual.arm.upper_arm, children[i].upper, 0.005, 0);
        check_close(children[i].who, usual.arm.forearm, children[i].fore, 0.005, 0);
        check_close(children[i].who, usual.arm.hand, children[i].hand, 0.005, 0);
    }
    /* The lines themselves, to 13 years, and half way from there to the adults'. */
    check_status("at 7.3", mensur_arm_from_stature(1.19, 7.3, &usual), MENSUR_OK);
    check_close("at 7.3", usual.arm.upper_arm, 1.19 * (0.180 + 0.0011 * 7.3), 0, 1e-14);
    check_close("at 7.3", usual.arm.forearm, 1.19 * (0.136 + 0.0009 * 7.3), 0, 1e-14);
    check_status("at 15.5", mensur_arm_from_stature(1.61, 15.5, &usual), MENSUR_OK);
    check_close("at 15.5", usual.arm.upper_arm, 1.61 * (0.1943 + 0.191) / 2, 0, 1e-14);
    check_close("at 15.5", usual.arm.forearm, 1.61 * (0.1477 + 0.150) / 2, 0, 1e-14);
}

static const struct {
    const char *name;
    struct mensur_arm arm; /* upper arm, forearm, hand, rest, yaw, share */
    double reach;
} refusals[] = {
    {"no upper arm", {0, 0.25, 0.18, 0.1, 0.05, 0.7, 0.35}, 0.5},
    {"forearm negative", {0.3, -0.25, 0.18, 0.1, 0.05, 0.7, 0.35}, 0.5},
    {"forearm unknown", {0.3, NAN, 0.18, 0.1, 0.05, 0.7, 0.35}, 0.5},
    {"no hand", {0.3, 0.25, 0, 0.1, 0.05, 0.7, 0.35}, 0.5},
    {"hand unknown", {0.3, 0.25, NAN, 0.1, 0.05, 0.7, 0.35}, 0.5},
    {"rest unknown", {0.3, 0.25, 0.18, NAN, 0.05, 0.7, 0.35}, 0.5},
    {"rest infinite", {0.3, 0.25, 0.18, 0.1, INFINITY, 0.7, 0.35}, 0.5},
    {"yaw over a half turn", {0.3, 0.25, 0.18, 0.1, 0.05, 3.2, 0.35}, 0.5},
    {"yaw unknown", {0.3, 0.25, 0.18, 0.1, 0.05, NAN, 0.35}, 0.5},
    {"wrist beyond the nut", {0.3, 0.25, 0.18, 0.1, 0.05, 0.7, -0.1}, 0.5},
    {"wrist unknown", {0.3, 0.25, 0.18, 0.1, 0.05, 0.7, NAN}, 0.5},
    {"no reach", {0.3, 0.25, 0.18, 0.1, 0.05, 0.7, 0.35}, 0},
    {"reach unknown", {0.3, 0.25, 0.18, 0.1, 0.05, 0.7, 0.35}, NAN},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct mensur_elbow found = {true, 12.5, 12.5, 12.5, 12.5, 12.5};
        check_status(refusals[i].name, mensur_elbow(&refusals[i].arm, refusals[i].reach, &found),
                     MENSUR_DOMAIN);
        assert_true(found.stretched);
        check_close(refusals[i].name, found.angle, 12.5, 0, 0);
        check_close(refusals[i].name, found.wrist, 12.5, 0, 0);
    }
    const double people[][2] = {{0, NAN}, {-1.7, NAN}, {NAN, NAN},     {INFINITY, NAN},
                                {1.3, 0}, {1.3, -9},   {1.3, INFINITY}};
    for (size_t i = 0; i < COUNT_OF(people); i++) {
        struct mensur_usual_arm usual = {.arm = {.yaw = 12.5}};
        check_status("stature", mensur_arm_from_stature(people[i][0], people[i][1], &usual),
                     MENSUR_DOMAIN);
        check_close("stature", usual.arm.yaw + usual.spread.yaw, 12.5, 0, 0);
    }
    const double measured[][2] = {{0, 0.25}, {0.3, -0.25}, {NAN, 0.25}, {0.3, NAN}};
    for (size_t i = 0; i < COUNT_OF(measured); i++) {
        struct mensur_usual_arm usual = {.arm = {.yaw = 12.5}};
        check_status("arm", mensur_arm_from_segments(measured[i][0], measured[i][1], &usual),
                     MENSUR_DOMAIN);
        check_close("arm", usual.arm.yaw + usual.spread.yaw, 12.5, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(elbows),      cmocka_unit_test(turned_points), cmocka_unit_test(segments),
        cmocka_unit_test(of_children), cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
