/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What moves and what stays when an instrument is changed. */
#include "demo.h"
#include "said.h"

static void ask(const struct demo *demo, const struct mensur_instrument *instrument,
                const struct mensur_change *changes, size_t count, enum mensur_hold hold,
                struct mensur_comparison *out) {
    struct mensur_terms terms = demo->terms;
    struct mensur_fault fault = {""};
    terms.hold = hold;
    enum mensur_status status =
        mensur_ask_change(&demo->shop.stock, instrument, changes, count, &terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

static struct mensur_change by(enum mensur_field field, double mm) {
    return (struct mensur_change){.field = field, .relative = true, .value = {mm / 1000, 0}};
}

static struct mensur_change to(enum mensur_field field, double mm) {
    return (struct mensur_change){.field = field, .value = {mm / 1000, 0}};
}

static void test_relative_is_absolute(void **state) {
    const struct demo *demo = *state;
    static const struct {
        enum mensur_field field;
        double by, to;
    } rows[] = {{MENSUR_FIELD_NECK, 6, 150},
                {MENSUR_FIELD_STOP, -3, 211},
                {MENSUR_FIELD_OVERSTAND, 1.5, 9.5},
                {MENSUR_FIELD_BRIDGE, -1.25, 37.75},
                /* assumed, 0.5 (214/225)^0.3; and derived from arch_full 17.7 less edge 4.2 */
                {MENSUR_FIELD_NUT, 0.25, 0.25 + 0.5 * 0.98507517969933},
                {MENSUR_FIELD_ARCH, 0.5, 14.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_change changes[] = {by(rows[i].field, rows[i].by),
                                          to(rows[i].field, rows[i].to)};
        struct mensur_comparison a;
        struct mensur_comparison b;
        ask(demo, &demo->kestrel, &changes[0], 1, MENSUR_HOLD_PROJECTION, &a);
        ask(demo, &demo->kestrel, &changes[1], 1, MENSUR_HOLD_PROJECTION, &b);
        check_close("same string", a.instruments[1].lengths.string_length,
                    b.instruments[1].lengths.string_length, 0, 1e-14);
        check_close("same break angle", a.instruments[1].lengths.break_angle,
                    b.instruments[1].lengths.break_angle, 0, 1e-13);
        check_close("difference", a.differences[0].lengths.string_length,
                    a.instruments[1].lengths.string_length - a.instruments[0].lengths.string_length,
                    1e-18, 0);
        mensur_comparison_clear(&a);
        mensur_comparison_clear(&b);
    }
}

/* An assumed board keeps its share of the string, 0.8 on a viola, when the neck moves, and the
 * afterlength its sixth; a measured board stays. */
static void test_board(void **state) {
    const struct demo *demo = *state;
    struct mensur_change change = by(MENSUR_FIELD_NECK, 6);
    struct mensur_instrument measured = demo->kestrel; /* texts borrowed */
    struct mensur_comparison c;
    ask(demo, &demo->kestrel, &change, 1, MENSUR_HOLD_PROJECTION, &c);
    double string = c.differences[0].lengths.string_length;
    check_close("bow room grows by a fifth", c.differences[0].lengths.bow_room, 0.2 * string, 1e-15,
                0);
    check_close("afterlength", c.differences[0].lengths.afterlength, string / 6, 1e-15, 0);
    mensur_comparison_clear(&c);
    demo_set(&measured, MENSUR_FIELD_BOARD_LENGTH, 290);
    ask(demo, &measured, &change, 1, MENSUR_HOLD_PROJECTION, &c);
    check_close("bow room grows as the string", c.differences[0].lengths.bow_room, string, 1e-15,
                0);
    mensur_comparison_clear(&c);
}

/* A bridge that is assumed keeps its height above the projection where that changes, and where it
 * follows from a slope that is held. */
static void test_assumed_bridge(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument bare = demo->kestrel; /* texts borrowed */
    const struct mensur_change changes[] = {by(MENSUR_FIELD_PROJECTION, 1),
                                            by(MENSUR_FIELD_STOP, -4)};
    bare.measure[MENSUR_FIELD_BRIDGE] = MENSUR_UNKNOWN;
    for (size_t i = 0; i < COUNT_OF(changes); i++) {
        struct mensur_comparison c;
        ask(demo, &bare, &changes[i], 1, MENSUR_HOLD_SLOPE, &c);
        const struct mensur_side_points *now = &c.instruments[0].side;
        const struct mensur_side_points *then = &c.instruments[1].side;
        assert_true(fabs(then->projection - now->projection) > 5e-4);
        check_close("above the board's line", then->bridge - then->projection,
                    now->bridge - now->projection, 1e-15, 0);
        mensur_comparison_clear(&c);
    }
}

/* A held slope keeps the neck's angle while the bridge moves; a held projection does not. */
static void test_hold(void **state) {
    const struct demo *demo = *state;
    struct mensur_change change = by(MENSUR_FIELD_STOP, -5);
    struct mensur_comparison slope;
    struct mensur_comparison projection;
    ask(demo, &demo->heron, &change, 1, MENSUR_HOLD_SLOPE, &slope);
    ask(demo, &demo->heron, &change, 1, MENSUR_HOLD_PROJECTION, &projection);
    check_close("slope", slope.differences[0].lengths.neck_slope, 0, 1e-13, 0);
    assert_true(projection.differences[0].lengths.neck_slope > 1e-3);
    mensur_comparison_clear(&slope);
    mensur_comparison_clear(&projection);
}

/* A measured string keeps its difference from the geometry, and may itself be set. */
static void test_measured_length(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_change changes[] = {by(MENSUR_FIELD_NECK, 2),
                                      to(MENSUR_FIELD_STRING_LENGTH, 331)};
    struct mensur_comparison c;
    demo_model_violin(&violin);
    demo_set(&violin, MENSUR_FIELD_STRING_LENGTH, 329);
    ask(demo, &violin, changes, 1, MENSUR_HOLD_PROJECTION, &c);
    check_close("used", c.instruments[0].lengths.string_length, 0.329, 1e-15, 0);
    check_close("moves as the geometry", c.differences[0].lengths.string_length,
                c.differences[0].lengths.string_length_geometry, 1e-15, 0);
    mensur_comparison_clear(&c);
    ask(demo, &violin, &changes[1], 1, MENSUR_HOLD_PROJECTION, &c);
    check_close("set", c.instruments[1].lengths.string_length, 0.331, 1e-15, 0);
    mensur_comparison_clear(&c);
    mensur_instrument_clear(&violin);
}

/* Wren's bridge follows from its clearances: they stay, the bridge moves. */
static void test_clearance_follows(void **state) {
    const struct demo *demo = *state;
    struct mensur_change change = by(MENSUR_FIELD_PROJECTION, 2);
    struct mensur_comparison c;
    ask(demo, &demo->wren, &change, 1, MENSUR_HOLD_PROJECTION, &c);
    check_close("clearance", c.instruments[1].lengths.clearance_at_board_end, 0.0055, 1e-12, 0);
    mensur_comparison_clear(&c);
}

static void test_strings(void **state) {
    const struct demo *demo = *state;
    struct mensur_change change = {.set = "viola steel"};
    struct mensur_comparison c;
    ask(demo, &demo->kestrel, &change, 1, MENSUR_HOLD_PROJECTION, &c);
    check_close("same string length", c.differences[0].lengths.string_length, 0, 0, 0);
    assert_string_equal(c.instruments[1].set, "viola steel");
    assert_string_not_equal(c.instruments[1].strings[0].string, c.instruments[0].strings[0].string);
    mensur_comparison_clear(&c);
}

static void test_refusals(void **state) {
    const struct demo *demo = *state;
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        struct mensur_change change;
        enum mensur_status want;
    } rows[] = {
        {"neck below nothing", &demo->kestrel, by(MENSUR_FIELD_NECK, -144), MENSUR_USE},
        {"neck over three metres", &demo->kestrel, to(MENSUR_FIELD_NECK, 3001), MENSUR_USE},
        {"nothing to add to", &demo->dipper, by(MENSUR_FIELD_NECK, 4), MENSUR_USE},
        {"stop beyond the body", &demo->kestrel, to(MENSUR_FIELD_STOP, 411), MENSUR_USE},
        {"no such set", &demo->kestrel, {.set = "none of these"}, MENSUR_USE},
        {"no such tuning", &demo->kestrel, {.tuning = "none of these"}, MENSUR_USE},
        {"string on the board", &demo->kestrel, to(MENSUR_FIELD_BRIDGE, 31), MENSUR_NO_ANSWER}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_fault fault = {""};
        struct mensur_comparison out = {.count = 77};
        check_status(rows[i].row,
                     mensur_ask_change(&demo->shop.stock, rows[i].instrument, &rows[i].change, 1,
                                       &demo->terms, &fault, &out),
                     rows[i].want);
        assert_true(fault.text[0] != '\0');
        assert_int_equal(out.count, 77); /* untouched on failure */
    }
}

/* Remarks speak where intuition fails. */
static void test_remarks(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *pairs[][2] = {{&demo->kestrel, &demo->wren},
                                                  {&demo->kestrel, &demo->heron}};
    static const char *const parts[] = {"has the shorter back", "The backs are the same"};
    for (size_t i = 0; i < COUNT_OF(pairs); i++) {
        struct mensur_fault fault = {""};
        struct mensur_comparison c;
        check_status(parts[i],
                     mensur_ask_compare(&demo->shop.stock, pairs[i], 2, &demo->terms, &fault, &c),
                     MENSUR_OK);
        check_holds(said(&c.remarks, 0), parts[i]);
        mensur_comparison_clear(&c);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_relative_is_absolute),
                                       cmocka_unit_test(test_board),
                                       cmocka_unit_test(test_assumed_bridge),
                                       cmocka_unit_test(test_hold),
                                       cmocka_unit_test(test_measured_length),
                                       cmocka_unit_test(test_clearance_follows),
                                       cmocka_unit_test(test_strings),
                                       cmocka_unit_test(test_refusals),
                                       cmocka_unit_test(test_remarks)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
