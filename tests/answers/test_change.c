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

/* What is held where nothing is asked: the slope of what is built, where its bridge moves and its
 * neck stays. */
static void test_hold_unasked(void **state) {
    const struct demo *demo = *state;
    const struct {
        const char *row;
        bool built;
        struct mensur_change changes[2];
        enum mensur_hold asked;
        bool slope, cuts;
    } rows[] = {
        {"a plan", false, {by(MENSUR_FIELD_STOP, -5)}, MENSUR_HOLD_UNASKED, false, false},
        {"built", true, {by(MENSUR_FIELD_STOP, -5)}, MENSUR_HOLD_UNASKED, true, false},
        {"asked", true, {by(MENSUR_FIELD_STOP, -5)}, MENSUR_HOLD_PROJECTION, false, true},
        {"asked of a plan", false, {by(MENSUR_FIELD_STOP, -5)}, MENSUR_HOLD_SLOPE, true, false},
        {"with another bridge",
         true,
         {by(MENSUR_FIELD_STOP, -5), by(MENSUR_FIELD_BRIDGE, 1)},
         MENSUR_HOLD_UNASKED,
         true,
         false},
        {"with another neck",
         true,
         {by(MENSUR_FIELD_STOP, -5), by(MENSUR_FIELD_NECK, 2)},
         MENSUR_HOLD_UNASKED,
         false,
         true},
        {"with another overstand",
         true,
         {by(MENSUR_FIELD_STOP, -5), by(MENSUR_FIELD_OVERSTAND, 1)},
         MENSUR_HOLD_UNASKED,
         false,
         true},
        {"becomes built",
         false,
         {by(MENSUR_FIELD_STOP, -5), {.of = MENSUR_CHANGE_BUILT, .built = true}},
         MENSUR_HOLD_UNASKED,
         true,
         false},
        {"a neck", true, {by(MENSUR_FIELD_NECK, 2)}, MENSUR_HOLD_UNASKED, false, true},
        {"a neck of a plan", false, {by(MENSUR_FIELD_NECK, 2)}, MENSUR_HOLD_UNASKED, false, false},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        struct mensur_instrument heron;
        size_t count = rows[i].changes[1].value.value != 0.0 || rows[i].changes[1].built ? 2 : 1;
        check_status(rows[i].row, mensur_instrument_copy(&demo->heron, &heron), MENSUR_OK);
        heron.built = rows[i].built;
        ask(demo, &heron, rows[i].changes, count, rows[i].asked, &c);
        double turned = fabs(c.differences[0].lengths.neck_slope);
        if ((turned < 1e-13) != rows[i].slope || (turned > 1e-4) == rows[i].slope) {
            fail_msg("%s: the neck turns by %g", rows[i].row, turned);
        }
        if (c.cuts_built != rows[i].cuts) {
            fail_msg("%s: %s", rows[i].row, c.cuts_built ? "cut" : "not cut");
        }
        mensur_comparison_clear(&c);
        mensur_instrument_clear(&heron);
    }
}

/* With the slope held a measured bridge keeps its height, and the bridge that is named brings the
 * clearance back; an assumed one keeps the clearance by itself. */
static void test_bridge_under_slope(void **state) {
    const struct demo *demo = *state;
    static const double moves[] = {-12, -3, 0.5, 9};
    for (size_t i = 0; i < COUNT_OF(moves); i++) {
        struct mensur_change changes[] = {by(MENSUR_FIELD_STOP, moves[i]),
                                          to(MENSUR_FIELD_BRIDGE, 0)};
        struct mensur_comparison c;
        struct mensur_instrument heron;
        check_status("copy", mensur_instrument_copy(&demo->heron, &heron), MENSUR_OK);
        heron.built = true;
        ask(demo, &heron, changes, 1, MENSUR_HOLD_UNASKED, &c);
        double clearance = c.instruments[0].lengths.clearance_at_board_end;
        check_close("bridge", c.instruments[1].side.bridge, 0.039, 1e-15, 0);
        assert_int_equal(c.verdict_count, 1);
        assert_int_equal(c.remarks.items[0].kind, MENSUR_FACT_SLOPE_HELD);
        const double *told = c.remarks.items[0].number;
        check_close("projection", told[1], c.instruments[1].side.projection, 0, 1e-14);
        check_close("clearance", told[2], c.differences[0].lengths.clearance_at_board_end, 1e-15,
                    0);
        changes[1].value.value = told[4];
        mensur_comparison_clear(&c);
        ask(demo, &heron, changes, 2, MENSUR_HOLD_UNASKED, &c);
        check_close("kept", c.instruments[1].lengths.clearance_at_board_end, clearance, 1e-12, 0);
        check_close("slope", c.differences[0].lengths.neck_slope, 0, 1e-13, 0);
        mensur_comparison_clear(&c);
        heron.measure[MENSUR_FIELD_BRIDGE] = MENSUR_UNKNOWN;
        ask(demo, &heron, changes, 1, MENSUR_HOLD_UNASKED, &c);
        check_close("assumed bridge", c.differences[0].lengths.clearance_at_board_end, 0, 2e-7, 0);
        check_close("slope", c.differences[0].lengths.neck_slope, 0, 1e-13, 0);
        assert_true(fabs(c.instruments[1].side.bridge - c.instruments[0].side.bridge) > 1e-5);
        assert_int_equal(c.remarks.items[0].kind, MENSUR_FACT_SLOPE_HELD_CLEARANCE);
        mensur_comparison_clear(&c);
        mensur_instrument_clear(&heron);
    }
}

/* The same strings at another pitch: frequencies are those of ISO 16's A4 and pure fifths, tensions
 * go as their squares (Mersenne), and whether one breaks is said before all else. */
static void test_pitch(void **state) {
    const struct demo *demo = *state;
    const struct {
        const char *row;
        struct mensur_change change;
        double ratio[4];         /* of each string's frequency to what it was */
        const char *tuned_to[4]; /* "" where it has its own note */
        enum mensur_fact_kind first;
    } rows[] = {
        {"a low A4",
         {.of = MENSUR_CHANGE_A4, .value = {415, 0}},
         {415.0 / 440, 415.0 / 440, 415.0 / 440, 415.0 / 440},
         {"", "", "", ""},
         MENSUR_FACT_STRINGS_HOLD},
        {"scordatura",
         {.of = MENSUR_CHANGE_TUNING, .text = "C3 G3 D4 Bb4"},
         {1, 1, 1, 256.0 / 243}, /* five fifths below, three octaves up */
         {"", "", "", "Bb4"},
         MENSUR_FACT_STRINGS_HOLD},
        {"a whole tone down",
         {.of = MENSUR_CHANGE_TUNING, .text = "Bb2 F3 C4 G4"},
         {8.0 / 9, 8.0 / 9, 8.0 / 9, 8.0 / 9},
         {"Bb2", "F3", "C4", "G4"},
         MENSUR_FACT_STRINGS_HOLD},
        {"the highest up a fifth",
         {.of = MENSUR_CHANGE_TUNING, .text = "C3 G3 D4 E5"},
         {1, 1, 1, 1.5},
         {"", "", "", "E5"},
         MENSUR_FACT_STRINGS_HOLD},
        {"a pitch that breaks them",
         {.of = MENSUR_CHANGE_A4, .value = {880, 0}},
         {2, 2, 2, 2},
         {"", "", "", ""},
         MENSUR_FACT_STRINGS_BREAK},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        ask(demo, &demo->kestrel, &rows[i].change, 1, MENSUR_HOLD_UNASKED, &c);
        for (size_t s = 0; s < 4; s++) {
            const struct mensur_string_figures *was = &c.instruments[0].strings[s];
            const struct mensur_string_figures *is = &c.instruments[1].strings[s];
            double ratio = rows[i].ratio[s];
            assert_string_equal(is->string, was->string);
            assert_string_equal(is->tuned_to, rows[i].tuned_to[s]);
            check_close(rows[i].row, is->frequency / was->frequency, ratio, 0, 1e-12);
            /* A string that is weighed slack thins a little as it is drawn tighter. */
            check_close(rows[i].row, is->tension / was->tension, ratio * ratio, 0, 0.06);
        }
        assert_true(c.verdict_count > 0 && c.remarks.items[0].kind == rows[i].first);
        mensur_comparison_clear(&c);
    }
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
    struct mensur_change change = {.of = MENSUR_CHANGE_STRINGS, .text = "viola steel"};
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
        {"no such set",
         &demo->kestrel,
         {.of = MENSUR_CHANGE_STRINGS, .text = "none of these"},
         MENSUR_USE},
        {"no such tuning",
         &demo->kestrel,
         {.of = MENSUR_CHANGE_TUNING, .text = "none of these"},
         MENSUR_USE},
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
                                       cmocka_unit_test(test_hold_unasked),
                                       cmocka_unit_test(test_bridge_under_slope),
                                       cmocka_unit_test(test_pitch),
                                       cmocka_unit_test(test_measured_length),
                                       cmocka_unit_test(test_clearance_follows),
                                       cmocka_unit_test(test_strings),
                                       cmocka_unit_test(test_refusals),
                                       cmocka_unit_test(test_remarks)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
