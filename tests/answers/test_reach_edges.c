/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reach where parts of an arm are left out, where two instruments are one, and where an instrument
 * has no family that says how it is held. */
#include "demo.h"
#include "reach.h"
#include "somebody.h"
#include "said.h"

/* Which parts follow, and from what. mm, NaN not given. */
static const struct {
    const char *row;
    double stature, upper, fore, side, forward;
    enum mensur_status want;
    bool upper_told, fore_told, side_told, forward_told;
} arms[] = {
    {"stature", 1700, NAN, NAN, NAN, NAN, MENSUR_OK, true, true, true, true},
    {"stature and upper arm", 1700, 310, NAN, 180, 60, MENSUR_OK, false, true, false, false},
    {"arm", NAN, 312, 245, NAN, NAN, MENSUR_OK, false, false, true, true},
    {"arm and side", NAN, 312, 245, 185, NAN, MENSUR_OK, false, false, false, true},
    {"arm and both rests", NAN, 312, 245, 185, 60, MENSUR_OK, false, false, false, false},
    {"stature and arm", 1700, 312, 245, NAN, NAN, MENSUR_OK, false, false, true, true},
    {"upper arm alone", NAN, 312, NAN, 185, 60, MENSUR_USE, false, false, false, false},
    {"stature of nothing", 0, 312, 245, 185, 60, MENSUR_USE, false, false, false, false},
};

static bool told(const struct mensur_reaching *reaching, const char *field) {
    for (size_t i = 0; i < reaching->assumed.count; i++) {
        if (strcmp(reaching->assumed.items[i].field, field) == 0) {
            return true;
        }
    }
    return false;
}

static void follows(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    for (size_t i = 0; i < COUNT_OF(arms); i++) {
        struct mensur_player player = nobody();
        struct mensur_reaching reaching = {.count = 77};
        struct mensur_fault fault = {""};
        player.stature = mm(arms[i].stature);
        player.upper_arm = mm(arms[i].upper);
        player.forearm = mm(arms[i].fore);
        player.rest_side = mm(arms[i].side);
        player.rest_forward = mm(arms[i].forward);
        check_status(
            arms[i].row,
            mensur_ask_reach(&demo->shop.stock, one, 1, &player, &demo->terms, &fault, &reaching),
            arms[i].want);
        if (arms[i].want != MENSUR_OK) {
            assert_int_equal(reaching.count, 77);
            continue;
        }
        assert_false(told(&reaching, "stature"));
        assert_int_equal(told(&reaching, "upper_arm"), arms[i].upper_told);
        assert_int_equal(told(&reaching, "forearm"), arms[i].fore_told);
        assert_int_equal(told(&reaching, "rest_side"), arms[i].side_told);
        assert_int_equal(told(&reaching, "rest_forward"), arms[i].forward_told);
        if (arms[i].side_told) {
            double side = isnan(arms[i].stature) ? 0.323 * (arms[i].upper + arms[i].fore)
                                                 : 0.11 * arms[i].stature;
            check_close(arms[i].row, reaching.rest_side * 1000, side, 0, 1e-14);
        }
        mensur_reaching_clear(&reaching);
    }
}

/* One instrument beside itself: the elbow as there, and nothing said of the hand. */
static void beside_itself(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const both[] = {&demo->kestrel, &demo->kestrel};
    const struct mensur_player *middle = mensur_stock_player(&demo->shop.stock, "middle");
    struct mensur_reaching reaching;
    struct mensur_fault fault = {""};
    check_status(
        "both",
        mensur_ask_reach(&demo->shop.stock, both, 2, middle, &demo->terms, &fault, &reaching),
        MENSUR_OK);
    check_holds(said(&reaching.remarks, 0), "On kestrel the elbow of middle stands as on kestrel");
    check_holds(said(&reaching.remarks, 1), "reaches just as far, the bow arm just as far");
    check_close("apart", reaching.instruments[1].elbow_apart, 0, 0, 0);
    assert_false(said_holds(&reaching.remarks, "In position 1"));
    mensur_reaching_clear(&reaching);
}

/* Without a family there is no reach and no position, on whichever side it stands. */
static void without_family(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    const struct mensur_player *middle = mensur_stock_player(&demo->shop.stock, "middle");
    demo_bare_violin(&violin);
    const struct mensur_instrument *const pairs[][2] = {{&violin, &demo->kestrel},
                                                        {&demo->kestrel, &violin}};
    for (size_t i = 0; i < 2; i++) {
        struct mensur_reaching reaching;
        struct mensur_fault fault = {""};
        check_status("pair",
                     mensur_ask_reach(&demo->shop.stock, pairs[i], 2, middle, &demo->terms, &fault,
                                      &reaching),
                     MENSUR_OK);
        const struct mensur_reach *bare = &reaching.instruments[i];
        assert_int_equal(bare->position_count, 0);
        assert_int_equal(bare->stretched, MENSUR_UNSURE);
        assert_true(said_holds(&reaching.remarks, "model violin: its left reach is not known"));
        assert_true(said_holds(&reaching.remarks, "On kestrel"));
        mensur_reaching_clear(&reaching);
    }
    mensur_instrument_clear(&violin);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(follows), cmocka_unit_test(beside_itself),
                                       cmocka_unit_test(without_family)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
