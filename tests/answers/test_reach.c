/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's reach: proportions against measured people, the elbow against vectors, and what is
 * answered where something is not known. */
#include "../physics/published_table.h"
#include "demo.h"
#include "somebody.h"
#include "said.h"

static const double pi = 3.14159265358979323846;

static struct mensur_reaching ask(const struct demo *demo, const struct mensur_player *player,
                                  const struct mensur_instrument *const *instruments,
                                  size_t count) {
    struct mensur_reaching out;
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_reach(&demo->shop.stock, instruments, count, player, &demo->terms, &fault, &out);
    check_status(fault.text, status, MENSUR_OK);
    return out;
}

/* The mean of a row of the published table, mm: the first number of the cell. */
static double mean_of(const struct published_table *table, const char *quantity) {
    for (size_t i = 0; i < table->count; i++) {
        if (strcmp(table->rows[i].cells[QUANTITY], quantity) == 0) {
            double numbers[8];
            /* The people were measured, and the table was read. */
            assert_string_equal(table->rows[i].cells[STATUS], "VERIFIED");
            assert_true(numbers_after(table->rows[i].cells[EXPECTED], "", numbers, 8) == 5);
            return numbers[0];
        }
    }
    fail_msg("no row %s", quantity);
    return NAN;
}

/* Drillis and Contini's ratios (1966, second hand) of the mean statures of ANSUR II (2012), held
 * against the lengths of the same people. The ratios run from joint to joint, the survey from
 * landmark to landmark:
 * - upper arm against acromion-radiale, forearm against radiale-stylion: bone to bone on either
 *   side, so comparable; within 5 %, one standard deviation of either length;
 * - shoulder-elbow and forearm-hand lengths are taken on the bent arm and hold the elbow's point
 *   (and the hand, to the finger tip), so each must be longer, by 2 to 20 %. */
static void proportions(void **state) {
    const struct demo *demo = *state;
    static const char *const people[] = {"men", "women"};
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    struct published_table table = {0};
    published_read(MENSUR_SHARED_DIR "/published/check-values.csv", &table);
    for (size_t i = 0; i < COUNT_OF(people); i++) {
        char row[80];
        struct mensur_player player = nobody();
        snprintf(row, sizeof row, "stature, %s", people[i]);
        player.stature = mm(mean_of(&table, row));
        struct mensur_reaching reaching = ask(demo, &player, one, 1);
        snprintf(row, sizeof row, "acromion-radiale length (upper arm), %s", people[i]);
        check_close(row, reaching.upper_arm * 1000.0, mean_of(&table, row), 0, 0.05);
        snprintf(row, sizeof row, "radiale-stylion length (forearm), %s", people[i]);
        check_close(row, reaching.forearm * 1000.0, mean_of(&table, row), 0, 0.05);
        snprintf(row, sizeof row, "shoulder-elbow length, %s", people[i]);
        double elbow = mean_of(&table, row) / (reaching.upper_arm * 1000.0);
        assert_true(elbow > 1.02 && elbow < 1.2);
        snprintf(row, sizeof row, "forearm-hand length, %s", people[i]);
        double hand = 0.108 * player.stature.value; /* of the same source */
        double tip = mean_of(&table, row) / ((reaching.forearm + hand) * 1000.0);
        assert_true(tip > 1.02 && tip < 1.2);
        /* The instrument rests on the left half of the body. */
        snprintf(row, sizeof row, "biacromial breadth, %s", people[i]);
        assert_true(reaching.rest_side * 1000.0 < mean_of(&table, row) / 2.0);
        mensur_reaching_clear(&reaching);
    }
    published_clear(&table);
}

/* Where circles around shoulder and nut cross there is the elbow; the angle there, by a dot
 * product. All in long double, none of it the library's. */
static long double elbow_by_vectors(long double upper, long double fore, long double x,
                                    long double y) {
    long double d = hypotl(x, y);
    long double along = (upper * upper - fore * fore + d * d) / (2 * d);
    long double across = sqrtl(upper * upper - along * along);
    long double ex = (along * x - across * y) / d, ey = (along * y + across * x) / d;
    long double ux = -ex, uy = -ey, fx = x - ex, fy = y - ey;
    return acosl((ux * fx + uy * fy) / (hypotl(ux, uy) * hypotl(fx, fy)));
}

static void elbows(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const all[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                                   &demo->swift};
    /* upper arm, forearm, rest to the side, before, yaw; mm and degrees */
    static const double rows[][5] = {{312, 245, 185, 60, 45},
                                     {351.3, 280.7, -23, 17.5, 30},
                                     {402, 331, 211, -41, 71.5},
                                     {299, 299, 190.25, 33, -12},
                                     {610, 90.5, 177, 48.75, 52}};
    size_t reached = 0;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_player player = nobody();
        player.upper_arm = mm(rows[i][0]);
        player.forearm = mm(rows[i][1]);
        player.rest_side = mm(rows[i][2]);
        player.rest_forward = mm(rows[i][3]);
        player.yaw.value = rows[i][4] * pi / 180;
        struct mensur_reaching reaching = ask(demo, &player, all, COUNT_OF(all));
        assert_int_equal(reaching.assumed.count, 0);
        for (size_t k = 0; k < reaching.count; k++) {
            const struct mensur_reach *reach = &reaching.instruments[k];
            long double yaw = (long double)rows[i][4] * acosl(-1.0L) / 180;
            long double x =
                (long double)reach->left_reach * sinl(yaw) - (long double)rows[i][2] / 1000;
            long double y =
                (long double)reach->left_reach * cosl(yaw) + (long double)rows[i][3] / 1000;
            check_close("distance", reach->distance, (double)hypotl(x, y), 0, 1e-13);
            long double away = hypotl(x, y) * 1000;
            if (away <= (long double)(rows[i][0] + rows[i][1]) &&
                away >= (long double)fabs(rows[i][0] - rows[i][1])) {
                reached++;
                assert_int_equal(reach->can_reach, MENSUR_YES);
                check_close("elbow", reach->elbow,
                            (double)elbow_by_vectors((long double)rows[i][0] / 1000,
                                                     (long double)rows[i][1] / 1000, x, y),
                            0, 1e-10);
            } else {
                assert_int_equal(reach->can_reach, MENSUR_NO);
                assert_true(isnan(reach->elbow));
            }
        }
        mensur_reaching_clear(&reaching);
    }
    assert_in_range(reached, 8, 19); /* some do not reach */
}

/* A short arm: the nut of the long-stopped viola is out of reach, and that is an answer. */
static void out_of_reach(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->heron};
    assert_non_null(small);
    struct mensur_reaching reaching = ask(demo, small, both, 2);
    check_close("longest", reaching.longest, 0.332 * 1.510, 0, 1e-14);
    assert_int_equal(reaching.instruments[0].can_reach, MENSUR_YES);
    assert_int_equal(reaching.instruments[1].can_reach, MENSUR_NO);
    assert_true(isnan(reaching.instruments[1].elbow));
    assert_true(reaching.instruments[1].distance > reaching.longest);
    /* What differs comes first. */
    check_holds(said(&reaching.remarks, 0),
                "Against kestrel, the left arm on heron reaches 6.0 mm");
    check_holds(said(&reaching.remarks, 0), "the bow arm 8.0 mm less far");
    assert_true(said_holds(&reaching.remarks, "On heron small cannot reach the nut"));
    assert_true(
        said_holds(&reaching.remarks, "On kestrel the left hand of small comes to the nut"));
    assert_true(said_holds(&reaching.warnings, "no span of the hand"));
    assert_int_equal(mensur_reaching_too_wide(&reaching, &reaching.instruments[0].positions[0]),
                     MENSUR_UNSURE);
    mensur_reaching_clear(&reaching);
}

/* An arm that cannot fold so tightly does not come to the nut either. */
static void too_near(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->swift};
    struct mensur_player player = nobody();
    player.upper_arm = mm(900.0);
    player.forearm = mm(120.0);
    player.rest_side = mm(171.0);
    player.rest_forward = mm(52.0);
    struct mensur_reaching reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.instruments[0].can_reach, MENSUR_NO);
    assert_true(said_holds(&reaching.remarks, "nearer than the arm folds"));
    mensur_reaching_clear(&reaching);
}

static const struct mensur_assumed *assumed(const struct mensur_assumptions *list,
                                            const char *field) {
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->items[i].field, field) == 0) {
            return &list->items[i];
        }
    }
    return NULL;
}

/* What a player leaves out follows from the stature, and a stature from the arm. */
static void defaults(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->wren};
    struct mensur_player player = nobody();
    player.upper_arm = mm(0.186 * 1666.0);
    player.forearm = mm(0.146 * 1666.0);
    struct mensur_reaching reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.assumed.count, 4);
    check_close("stature", assumed(&reaching.assumed, "stature")->value, 1.666, 0, 1e-14);
    check_close("side", assumed(&reaching.assumed, "rest_side")->value, 0.11 * 1.666, 0, 1e-14);
    check_close("forward", assumed(&reaching.assumed, "rest_forward")->value, 0.036 * 1.666, 0,
                1e-14);
    check_close("yaw", assumed(&reaching.assumed, "yaw")->value, pi / 4, 0, 1e-15);
    assert_null(assumed(&reaching.assumed, "upper_arm"));
    mensur_reaching_clear(&reaching);

    player = nobody();
    player.stature = mm(1727.0);
    player.forearm = mm(251.0);
    player.yaw.value = 0.6;
    reaching = ask(demo, &player, one, 1);
    assert_int_equal(reaching.assumed.count, 3);
    check_close("upper arm", assumed(&reaching.assumed, "upper_arm")->value, 0.186 * 1.727, 0,
                1e-14);
    check_close("forearm", reaching.forearm, 0.251, 0, 1e-15);
    check_close("longest", reaching.longest, 0.186 * 1.727 + 0.251, 0, 1e-14);
    assert_null(assumed(&reaching.assumed, "stature"));
    mensur_reaching_clear(&reaching);
}

/* The hand's frame by position, against its span. */
static void spans(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const both[] = {&demo->heron, &demo->bittern};
    struct mensur_player player = nobody();
    struct mensur_profile profile;
    struct mensur_fault fault;
    player.stature = mm(1702.0);
    player.span = mm(78.5);
    struct mensur_reaching reaching = ask(demo, &player, both, 2);
    for (size_t i = 0; i < 2; i++) {
        const struct mensur_reach *reach = &reaching.instruments[i];
        check_status("profile",
                     mensur_ask_profile(&demo->shop.stock, both[i], &demo->terms,
                                        MENSUR_PART_FINGERS, &fault, &profile),
                     MENSUR_OK);
        assert_int_equal(reach->position_count, profile.position_count);
        for (size_t k = 0; k < reach->position_count; k++) {
            check_close("frame", reach->positions[k].frame, profile.positions[k].frame, 0, 0);
            assert_int_equal(mensur_reaching_too_wide(&reaching, &reach->positions[k]),
                             profile.positions[k].frame > 0.0785 ? MENSUR_YES : MENSUR_NO);
        }
        mensur_profile_clear(&profile);
    }
    assert_true(
        said_holds(&reaching.remarks, "wider than the span of 78.5 mm in position half, 1:"));
    /* A cello is not held under the chin: no reach; the hand is answered all the same. */
    assert_true(isnan(reaching.instruments[1].left_reach));
    assert_true(isnan(reaching.instruments[1].bow_reach));
    assert_true(isnan(reaching.instruments[1].elbow));
    assert_int_equal(reaching.instruments[1].can_reach, MENSUR_UNSURE);
    assert_int_equal(reaching.instruments[1].warnings.count, 0);
    assert_true(said_holds(&reaching.remarks, "On bittern the hand's frame is wider"));
    mensur_reaching_clear(&reaching);

    player.span = mm(131.0);
    reaching = ask(demo, &player, both, 1);
    assert_true(said_holds(&reaching.remarks, "within the span of 131.0 mm in every position"));
    mensur_reaching_clear(&reaching);
}

/* Only the string of this one was measured. */
static void no_geometry(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *tall = mensur_stock_player(&demo->shop.stock, "tall");
    const struct mensur_instrument *const one[] = {&demo->dipper};
    struct mensur_reaching reaching = ask(demo, tall, one, 1);
    assert_true(isnan(reaching.instruments[0].left_reach));
    assert_int_equal(reaching.instruments[0].can_reach, MENSUR_UNSURE);
    assert_true(reaching.instruments[0].position_count > 0);
    mensur_reaching_clear(&reaching);
}

static void inches(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->heron};
    struct mensur_terms terms = demo->terms;
    struct mensur_reaching reaching;
    struct mensur_fault fault;
    check_status("inches",
                 mensur_ask_reach(&demo->shop.stock, both, 2, small, &terms, &fault, &reaching),
                 MENSUR_OK);
    check_holds(said_as(&reaching.remarks, &(struct mensur_style){.inches = true}, 0),
                "0.24 in farther");
    mensur_reaching_clear(&reaching);
}

static void refuses(void **state) {
    const struct demo *demo = *state;
    const struct mensur_player *small = mensur_stock_player(&demo->shop.stock, "small");
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    struct mensur_reaching out;
    struct mensur_fault fault;
    struct mensur_player player = nobody();
    memset(&out, 0x5a, sizeof out);
    check_status("no instrument",
                 mensur_ask_reach(&demo->shop.stock, one, 0, small, &demo->terms, &fault, &out),
                 MENSUR_USE);
    player.upper_arm = mm(303.0);
    check_status("half an arm",
                 mensur_ask_reach(&demo->shop.stock, one, 1, &player, &demo->terms, &fault, &out),
                 MENSUR_USE);
    check_holds(fault.text, "somebody: neither a stature, nor upper_arm and forearm");
    struct mensur_instrument low;
    demo_model_violin(&low);
    demo_set(&low, MENSUR_FIELD_BRIDGE, 27.1);
    demo_set(&low, MENSUR_FIELD_NUT, 0.0);
    demo_set(&low, MENSUR_FIELD_PROJECTION, 27.4);
    const struct mensur_instrument *const bad[] = {&demo->kestrel, &low};
    check_status("string on the board",
                 mensur_ask_reach(&demo->shop.stock, bad, 2, small, &demo->terms, &fault, &out),
                 MENSUR_NO_ANSWER);
    check_holds(fault.text, "model violin");
    mensur_instrument_clear(&low);
    const unsigned char *bytes = (const unsigned char *)&out;
    for (size_t i = 0; i < sizeof out; i++) {
        assert_int_equal(bytes[i], 0x5a); /* untouched */
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(proportions), cmocka_unit_test(elbows),   cmocka_unit_test(out_of_reach),
        cmocka_unit_test(too_near),    cmocka_unit_test(defaults), cmocka_unit_test(spans),
        cmocka_unit_test(no_geometry), cmocka_unit_test(inches),   cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
