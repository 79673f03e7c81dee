/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A changed instrument that stands alone has the figures of the change; what gives way to what; and
 * what cannot be changed. */
#include "ask.h"
#include "demo.h"

static struct mensur_change to(enum mensur_field field, double mm) {
    return (struct mensur_change){.field = field, .value = {.value = mm / 1000}};
}

static struct mensur_change by(enum mensur_field field, double mm) {
    return (struct mensur_change){.field = field, .relative = true, .value = {.value = mm / 1000}};
}

static void profile(const struct demo *demo, const struct mensur_instrument *instrument,
                    const struct mensur_terms *terms, struct mensur_profile *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_profile(&demo->shop.stock, instrument, terms, MENSUR_PART_ALL, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* Alone it measures what it measures beside what it was. */
static void check_alone(const struct demo *demo, const char *row,
                        const struct mensur_instrument *instrument,
                        const struct mensur_change *changes, size_t count, enum mensur_hold hold) {
    struct mensur_terms terms = demo->terms;
    struct mensur_fault fault = {""};
    struct mensur_instrument changed;
    struct mensur_comparison beside;
    struct mensur_profile alone;
    terms.hold = hold;
    check_status(row,
                 mensur_instrument_changed(&demo->shop.stock, instrument, changes, count, &terms,
                                           &fault, &changed),
                 MENSUR_OK);
    check_status(
        row,
        mensur_ask_change(&demo->shop.stock, instrument, changes, count, &terms, &fault, &beside),
        MENSUR_OK);
    profile(demo, &changed, &terms, &alone);
    const struct mensur_lengths *got = &alone.lengths;
    const struct mensur_lengths *want = &beside.instruments[1].lengths;
    check_close(row, got->string_length, want->string_length, 0, 1e-13);
    check_close(row, got->neck_slope, want->neck_slope, 1e-13, 0);
    check_close(row, got->break_angle, want->break_angle, 0, 1e-13);
    check_close(row, got->bow_room, want->bow_room, 1e-15, 1e-13);
    check_close(row, alone.total_tension, beside.instruments[1].total_tension, 0, 1e-12);
    mensur_profile_clear(&alone);
    mensur_comparison_clear(&beside);
    mensur_instrument_clear(&changed);
}

static void stands_alone(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument measured;
    demo_model_violin(&measured);
    demo_set(&measured, MENSUR_FIELD_STRING_LENGTH, 329.3);
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        struct mensur_change change;
        enum mensur_hold hold;
    } rows[] = {
        {"longer neck", &demo->kestrel, by(MENSUR_FIELD_NECK, 7), MENSUR_HOLD_PROJECTION},
        {"shorter neck", &demo->kestrel, by(MENSUR_FIELD_NECK, -4), MENSUR_HOLD_PROJECTION},
        {"shorter stop, slope held", &demo->heron, by(MENSUR_FIELD_STOP, -5), MENSUR_HOLD_SLOPE},
        {"clearances stay", &demo->wren, by(MENSUR_FIELD_PROJECTION, -1), MENSUR_HOLD_SLOPE},
        {"measured string", &measured, by(MENSUR_FIELD_NECK, 2), MENSUR_HOLD_PROJECTION},
        {"measured string set", &measured, by(MENSUR_FIELD_STRING_LENGTH, -1.5),
         MENSUR_HOLD_PROJECTION},
        {"string alone",
         &demo->dipper,
         {.of = MENSUR_CHANGE_TUNING, .text = "five-string"},
         MENSUR_HOLD_PROJECTION},
        {"other strings",
         &demo->kestrel,
         {.of = MENSUR_CHANGE_STRINGS, .text = "viola steel"},
         MENSUR_HOLD_PROJECTION},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        check_alone(demo, rows[i].row, rows[i].instrument, &rows[i].change, 1, rows[i].hold);
    }
    mensur_instrument_clear(&measured);
}

/* Of a string alone stop and neck may be set, whatever is held: there was no slope before. */
static void out_of_a_string(void **state) {
    const struct demo *demo = *state;
    const struct mensur_change both[] = {to(MENSUR_FIELD_STOP, 222), to(MENSUR_FIELD_NECK, 148)};
    struct mensur_terms terms = demo->terms;
    struct mensur_comparison c;
    struct mensur_fault fault = {""};
    terms.hold = MENSUR_HOLD_SLOPE;
    check_status("both",
                 mensur_ask_change(&demo->shop.stock, &demo->dipper, both, 2, &terms, &fault, &c),
                 MENSUR_OK);
    check_close("measured", c.instruments[1].lengths.string_length, 0.358, 0, 0);
    check_close("ratio", c.instruments[1].lengths.stop_per_2_neck, 3.0, 0, 1e-15);
    check_close("no slope before", c.instruments[0].lengths.neck_slope, NAN, 0, 0);
    mensur_comparison_clear(&c);
}

/* What says the same in another way gives way, unless it is set in the same breath. */
static void gives_way(void **state) {
    const struct demo *demo = *state;
    const struct mensur_change arch = to(MENSUR_FIELD_ARCH_FULL, 18.7);
    const struct mensur_change edge = to(MENSUR_FIELD_EDGE, 4.2);
    const struct mensur_change bridge = to(MENSUR_FIELD_BRIDGE, 38.25);
    const struct mensur_change low = to(MENSUR_FIELD_CLEARANCE_LOW, 6.1);
    const struct mensur_change strings = {.of = MENSUR_CHANGE_STRINGS, .text = "viola steel"};
    const struct mensur_change tuning = {.of = MENSUR_CHANGE_TUNING, .text = "viola"};
    const struct {
        const char *row;
        struct mensur_change changes[4];
        size_t count;
        enum mensur_field field;
        double want; /* mm; NaN: not written down any more */
    } rows[] = {
        {"arch gives way", {arch, edge}, 2, MENSUR_FIELD_ARCH, NAN},
        {"clearance gives way", {strings, tuning, bridge}, 3, MENSUR_FIELD_CLEARANCE_LOW, NAN},
        {"bridge gives way", {low}, 1, MENSUR_FIELD_BRIDGE, NAN},
        {"clearance is set too",
         {strings, tuning, low, bridge},
         4,
         MENSUR_FIELD_CLEARANCE_LOW,
         6.1},
        {"bridge is set too", {strings, tuning, bridge, low}, 4, MENSUR_FIELD_BRIDGE, 38.25},
    };
    struct mensur_instrument viola;
    check_status("copy", mensur_instrument_copy(&demo->heron, &viola), MENSUR_OK);
    demo_set(&viola, MENSUR_FIELD_CLEARANCE_LOW, 6);
    demo_set(&viola, MENSUR_FIELD_CLEARANCE_HIGH, 4);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument changed;
        struct mensur_fault fault = {""};
        enum mensur_status status =
            mensur_instrument_changed(&demo->shop.stock, &viola, rows[i].changes, rows[i].count,
                                      &demo->terms, &fault, &changed);
        check_status(fault.text, status, MENSUR_OK);
        check_close(rows[i].row, changed.measure[rows[i].field].value, rows[i].want / 1000, 0, 0);
        mensur_instrument_clear(&changed);
    }
    mensur_instrument_clear(&viola);
}

/* A string length that was computed may be moved too: it is then one that was measured. */
static void moves_computed_length(void **state) {
    const struct demo *demo = *state;
    const struct mensur_change longer = by(MENSUR_FIELD_STRING_LENGTH, 2.5);
    struct mensur_comparison c;
    struct mensur_fault fault = {""};
    check_status(
        "longer",
        mensur_ask_change(&demo->shop.stock, &demo->kestrel, &longer, 1, &demo->terms, &fault, &c),
        MENSUR_OK);
    check_close("longer", c.differences[0].lengths.string_length, 0.0025, 1e-15, 0);
    check_close("geometry", c.differences[0].lengths.string_length_geometry, 0, 0, 0);
    mensur_comparison_clear(&c);
}

/* Without a family an arch over the ribs says nothing without the edge: the geometry is lost, and
 * the measured string is what remains. */
static void loses_geometry(void **state) {
    const struct demo *demo = *state;
    const struct mensur_change arch = to(MENSUR_FIELD_ARCH_FULL, 15.5);
    struct mensur_instrument violin;
    struct mensur_comparison c;
    struct mensur_fault fault = {""};
    demo_bare_violin(&violin);
    demo_set(&violin, MENSUR_FIELD_STRING_LENGTH, 328.5);
    violin.built = true;
    check_status("arch",
                 mensur_ask_change(&demo->shop.stock, &violin, &arch, 1, &demo->terms, &fault, &c),
                 MENSUR_OK);
    check_close("length", c.instruments[1].lengths.string_length, 0.3285, 0, 0);
    check_close("slope", c.instruments[1].lengths.neck_slope, NAN, 0, 0);
    assert_false(c.cuts_built);
    mensur_comparison_clear(&c);
    mensur_instrument_clear(&violin);
}

/* What was asked to be other is proposed; what only follows, or is as it was, is not. */
static void proposes(void **state) {
    const struct demo *demo = *state;
    const struct {
        const char *row;
        size_t count;
        struct mensur_change changes[3];
        const char *fields[3];
        double now[3], proposed[3]; /* mm */
    } rows[] = {
        {"nothing", 0, {{.of = MENSUR_CHANGE_MEASURE}}, {NULL}, {0}, {0}},
        {"neck", 1, {to(MENSUR_FIELD_NECK, 150)}, {"neck"}, {144}, {150}},
        {"by", 1, {by(MENSUR_FIELD_NECK, 6)}, {"neck"}, {144}, {150}},
        {"the file's own", 1, {to(MENSUR_FIELD_NECK, 144)}, {NULL}, {0}, {0}},
        {"not in the file", 1, {to(MENSUR_FIELD_BOARD, 9)}, {"board"}, {NAN}, {9}},
        {"two and a set",
         3,
         {to(MENSUR_FIELD_NECK, 150),
          {.of = MENSUR_CHANGE_STRINGS, .text = "viola gut light"},
          to(MENSUR_FIELD_STOP, 218)},
         {"stop", "neck", "strings"},
         {214, 144, NAN},
         {218, 150, NAN}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct mensur_fault fault = {""};
        struct mensur_instrument changed;
        struct mensur_profile alone;
        check_status(rows[i].row,
                     mensur_instrument_changed(&demo->shop.stock, &demo->kestrel, rows[i].changes,
                                               rows[i].count, &demo->terms, &fault, &changed),
                     MENSUR_OK);
        profile(demo, &changed, &demo->terms, &alone);
        size_t known = 0;
        for (; known < 3 && rows[i].fields[known] != NULL; known++) {
            assert_true(known < alone.proposed_count);
            const struct mensur_proposal *got = &alone.proposed[known];
            assert_string_equal(got->field, rows[i].fields[known]);
            check_close(rows[i].row, got->now * 1e3, rows[i].now[known], 0, 1e-9);
            check_close(rows[i].row, got->proposed * 1e3, rows[i].proposed[known], 0, 1e-9);
        }
        assert_int_equal(alone.proposed_count, known);
        if (known == 3) {
            assert_string_equal(alone.proposed[2].now_text, "viola gut");
            assert_string_equal(alone.proposed[2].proposed_text, "viola gut light");
        }
        mensur_profile_clear(&alone);
        mensur_instrument_clear(&changed);
    }
    struct mensur_profile plain;
    profile(demo, &demo->kestrel, &demo->terms, &plain);
    assert_int_equal(plain.proposed_count, 0);
    mensur_profile_clear(&plain);
}

/* What the file lacks is taken from the changes, and from those alone that give what it lacks. */
static void completes(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument lacking, whole;
    struct mensur_profile want;
    demo_bare_violin(&lacking);
    lacking.measure[MENSUR_FIELD_OVERSTAND] = MENSUR_UNKNOWN;
    demo_model_violin(&whole);
    profile(demo, &whole, &demo->terms, &want);
    const struct mensur_change overstand = to(MENSUR_FIELD_OVERSTAND, 6.5);
    const struct mensur_change family = {.of = MENSUR_CHANGE_FAMILY, .text = "violin"};
    const struct mensur_change size = {.of = MENSUR_CHANGE_SIZE, .text = "violin 4/4"};
    const struct mensur_change tuning = {.of = MENSUR_CHANGE_TUNING, .text = "violin"};
    const struct {
        const char *row;
        struct mensur_change changes[2];
        enum mensur_status want;
        const char *says; /* refused; OK: "same": the whole one's string */
    } rows[] = {
        {"overstand", {overstand, tuning}, MENSUR_OK, "same"},
        {"the neck is not lacking", {overstand, to(MENSUR_FIELD_NECK, 140)}, MENSUR_OK, "same"},
        {"nor is it added to", {by(MENSUR_FIELD_NECK, 2), overstand}, MENSUR_OK, "same"},
        {"family", {family, tuning}, MENSUR_OK, ""},
        {"size", {size, tuning}, MENSUR_OK, ""},
        {"still lacking", {to(MENSUR_FIELD_NECK, 132), tuning}, MENSUR_NO_ANSWER, "overstand is m"},
        {"added to nothing",
         {by(MENSUR_FIELD_OVERSTAND, 1), tuning},
         MENSUR_NO_ANSWER,
         "overstand is m"},
        {"no family", {{.of = MENSUR_CHANGE_FAMILY, .text = "viorin"}, tuning}, MENSUR_USE, "mean"},
        {"less than nothing",
         {to(MENSUR_FIELD_OVERSTAND, -1), tuning},
         MENSUR_USE,
         "leave its domain"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_fault fault = {""};
        struct mensur_instrument got = {.line = 77};
        struct mensur_profile alone;
        check_status(rows[i].row,
                     mensur_instrument_completed(&demo->shop.stock, &lacking, rows[i].changes, 2,
                                                 &demo->terms, &fault, &got),
                     rows[i].want);
        if (rows[i].want != MENSUR_OK) {
            check_holds(fault.text, rows[i].says);
            assert_int_equal(got.line, 77);
            continue;
        }
        profile(demo, &got, &demo->terms, &alone);
        assert_int_equal(alone.proposed_count, 0);
        if (rows[i].says[0] != '\0') {
            check_close(rows[i].row, alone.lengths.string_length, want.lengths.string_length, 0,
                        1e-13);
        }
        mensur_profile_clear(&alone);
        mensur_instrument_clear(&got);
    }
    struct mensur_fault kept = {"why the changes have no answer"};
    struct mensur_instrument got = {.line = 77};
    check_status("lacks nothing",
                 mensur_instrument_completed(&demo->shop.stock, &whole, &family, 1, &demo->terms,
                                             &kept, &got),
                 MENSUR_NO_ANSWER);
    assert_string_equal(kept.text, "why the changes have no answer");
    assert_int_equal(got.line, 77);
    mensur_profile_clear(&want);
    mensur_instrument_clear(&lacking);
    mensur_instrument_clear(&whole);
}

static void refuses(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument no_body, on_board, steep, clear;
    demo_bare_violin(&no_body);
    no_body.measure[MENSUR_FIELD_BODY] = MENSUR_UNKNOWN;
    demo_set(&no_body, MENSUR_FIELD_BODY_STRAIGHT, 354);
    demo_bare_violin(&on_board);
    demo_set(&on_board, MENSUR_FIELD_BRIDGE, 26);
    demo_bare_violin(&steep); /* a neck that falls towards the nut */
    demo_set(&steep, MENSUR_FIELD_OVERSTAND, 100);
    demo_bare_violin(&clear); /* strings a hair over the board, under a bridge that follows */
    clear.measure[MENSUR_FIELD_BRIDGE] = MENSUR_UNKNOWN;
    demo_set(&clear, MENSUR_FIELD_NUT, 0.3);
    demo_set(&clear, MENSUR_FIELD_CLEARANCE_LOW, 0.06);
    demo_set(&clear, MENSUR_FIELD_CLEARANCE_HIGH, 0.06);
    const struct {
        const char *row;
        const struct mensur_instrument *instrument;
        struct mensur_change changes[2];
        enum mensur_status want;
    } rows[] = {
        {"body", &no_body, {to(MENSUR_FIELD_STOP, 354.5), by(MENSUR_FIELD_NECK, 1)}, MENSUR_USE},
        {"strings on the board",
         &on_board,
         {by(MENSUR_FIELD_NECK, 1), by(MENSUR_FIELD_STOP, 1)},
         MENSUR_NO_ANSWER},
        {"bridge set on the board",
         &demo->kestrel,
         {to(MENSUR_FIELD_BRIDGE, 31), by(MENSUR_FIELD_NECK, 1)},
         MENSUR_NO_ANSWER},
        {"line into the belly",
         &steep,
         {to(MENSUR_FIELD_STOP, 340), by(MENSUR_FIELD_NECK, 1)},
         MENSUR_NO_ANSWER},
        {"no bridge alone",
         &clear,
         {by(MENSUR_FIELD_NECK, -20), to(MENSUR_FIELD_NUT, 0.45)},
         MENSUR_NO_ANSWER},
    };
    struct mensur_terms terms = demo->terms;
    terms.hold = MENSUR_HOLD_SLOPE;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_fault fault = {""};
        struct mensur_instrument changed = {.line = 77};
        check_status(rows[i].row,
                     mensur_instrument_changed(&demo->shop.stock, rows[i].instrument,
                                               rows[i].changes, 2, &terms, &fault, &changed),
                     rows[i].want);
        assert_true(fault.text[0] != '\0');
        assert_int_equal(changed.line, 77);
    }
    struct mensur_fault fault = {""};
    struct mensur_comparison c = {.count = 77};
    check_status(
        "change",
        mensur_ask_change(&demo->shop.stock, &on_board, rows[1].changes, 1, &terms, &fault, &c),
        MENSUR_NO_ANSWER);
    const struct mensur_instrument *const one[] = {&demo->kestrel};
    check_status("compare", mensur_ask_compare(&demo->shop.stock, one, 1, &terms, &fault, &c),
                 MENSUR_USE);
    check_holds(fault.text, "two instruments");
    assert_int_equal(c.count, 77);
    mensur_instrument_clear(&no_body);
    mensur_instrument_clear(&on_board);
    mensur_instrument_clear(&steep);
    mensur_instrument_clear(&clear);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stands_alone),   cmocka_unit_test(out_of_a_string),
        cmocka_unit_test(gives_way),      cmocka_unit_test(moves_computed_length),
        cmocka_unit_test(loses_geometry), cmocka_unit_test(proposes),
        cmocka_unit_test(completes),      cmocka_unit_test(refuses)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
