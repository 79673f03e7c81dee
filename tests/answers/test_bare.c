/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments of which little is known: without family, tuning or strings, or with strings of which
 * something is left out. What is not known stays unknown, and is never made up. */
#include "demo.h"
#include "remarks.h"
#include "setup.h"
#include "working.h"
#include "said.h"

static void profile(const struct demo *demo, const struct mensur_stock *stock,
                    const struct mensur_instrument *instrument, unsigned parts,
                    struct mensur_profile *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_profile(stock, instrument, &demo->terms, parts, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* No tuning: no strings, no places of theirs, nothing said about their pull. */
static void without_tuning(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_profile p;
    demo_bare_violin(&violin);
    profile(demo, &demo->shop.stock, &violin, MENSUR_PART_ALL | MENSUR_PART_TRUE_PLACES, &p);
    assert_int_equal(p.string_count, 0);
    assert_int_equal(p.true_place_count, 0);
    assert_int_equal(p.position_count, 0);
    check_close("pull", p.total_tension, NAN, 0, 0);
    check_close("reach", p.lengths.left_reach, NAN, 0, 0);
    assert_false(said_holds(&p.warnings, "names no family"));
    mensur_profile_clear(&p);
    profile(demo, &demo->shop.stock, &violin, MENSUR_PART_LENGTHS | MENSUR_PART_FINGERS, &p);
    assert_true(said_holds(&p.warnings, "names no family"));
    mensur_profile_clear(&p);
    violin.set = NULL;
    (void)mensur_text_copy("viola gut", 9, &violin.set);
    profile(demo, &demo->shop.stock, &violin, MENSUR_PART_ALL, &p);
    assert_int_equal(p.string_count, 0);
    assert_string_equal(p.set, "viola gut");
    assert_false(said_holds(&p.warnings, "string"));
    mensur_profile_clear(&p);
    mensur_instrument_clear(&violin);
}

static const struct {
    const char *row;
    enum mensur_field unknown, given; /* STRING_LENGTH: nothing is taken away */
    double given_mm;
    enum mensur_status want;
    const char *fault;
} setups[] = {
    {"all", MENSUR_FIELD_STRING_LENGTH, MENSUR_FIELD_SADDLE, 4, MENSUR_OK, ""},
    {"body unknown", MENSUR_FIELD_BODY, MENSUR_FIELD_SADDLE, 4, MENSUR_OK, ""},
    {"straight body", MENSUR_FIELD_BODY, MENSUR_FIELD_BODY_STRAIGHT, 354, MENSUR_OK, ""},
    {"rise of the back unknown", MENSUR_FIELD_BACK_ARCH, MENSUR_FIELD_SADDLE, 4, MENSUR_OK, ""},
    {"neck unknown", MENSUR_FIELD_NECK, MENSUR_FIELD_SADDLE, 4, MENSUR_NO_ANSWER,
     "neck is missing"},
    {"bridge unknown", MENSUR_FIELD_BRIDGE, MENSUR_FIELD_SADDLE, 4, MENSUR_NO_ANSWER,
     "bridge is missing"},
    {"clearance for bridge", MENSUR_FIELD_BRIDGE, MENSUR_FIELD_CLEARANCE_LOW, 5, MENSUR_OK, ""},
    {"the other clearance", MENSUR_FIELD_BRIDGE, MENSUR_FIELD_CLEARANCE_HIGH, 4, MENSUR_OK, ""},
    {"back rises too far", MENSUR_FIELD_STRING_LENGTH, MENSUR_FIELD_BACK_ARCH, 180,
     MENSUR_NO_ANSWER, "back_arch"},
};

static void without_family(void **state) {
    const struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(setups); i++) {
        struct mensur_instrument violin;
        struct mensur_fault fault = {""};
        struct mensur_profile p = {.string_count = 77};
        demo_bare_violin(&violin);
        violin.measure[setups[i].unknown] = MENSUR_UNKNOWN;
        demo_set(&violin, setups[i].given, setups[i].given_mm);
        check_status(setups[i].row,
                     mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_ALL,
                                        &fault, &p),
                     setups[i].want);
        check_holds(fault.text, setups[i].fault);
        if (setups[i].want == MENSUR_OK) {
            bool straight = setups[i].unknown == MENSUR_FIELD_STRING_LENGTH ||
                            setups[i].given == MENSUR_FIELD_BODY_STRAIGHT ||
                            setups[i].unknown == MENSUR_FIELD_BRIDGE;
            assert_int_equal(!isnan(p.lengths.break_angle), straight);
            assert_true(p.lengths.string_length > 0.32);
            mensur_profile_clear(&p);
        } else {
            assert_int_equal(p.string_count, 77);
        }
        mensur_instrument_clear(&violin);
    }
}

/* What is said of clearances and pitch. */
static void warnings(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        double bridge, low, high, a4; /* mm, Hz; NaN: not given */
        const char *warning;
        bool warned;
    } rows[] = {
        {"they agree", 33, NAN, 4, 440, "would want one of", false},
        {"they do not", 33, NAN, 5.8, 440, "would want one of", true},
        {"a slip is said once", 33, NAN, 9, 440, "would want one of", false},
        {"and it is said", 33, NAN, 9, 440, "clearance_high 9: measure again", true},
        {"no bridge would", 33, 0.05, 0.05, 440, "would want one of", false},
        {"low pitch", 33, NAN, NAN, 379.9, "outside 380 to 480", true},
        {"lowest pitch", 33, NAN, NAN, 380, "outside 380 to 480", false},
        {"high pitch", 33, NAN, NAN, 480.1, "outside 380 to 480", true},
        {"highest pitch", 33, NAN, NAN, 480, "outside 380 to 480", false},
    };
    struct mensur_terms terms = demo->terms;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument violin;
        struct mensur_profile p;
        struct mensur_fault fault = {""};
        demo_model_violin(&violin);
        demo_set(&violin, MENSUR_FIELD_BRIDGE, rows[i].bridge);
        demo_set(&violin, MENSUR_FIELD_CLEARANCE_LOW, rows[i].low);
        demo_set(&violin, MENSUR_FIELD_CLEARANCE_HIGH, rows[i].high);
        terms.a4 = rows[i].a4;
        check_status(
            rows[i].row,
            mensur_ask_profile(&demo->shop.stock, &violin, &terms, MENSUR_PART_ALL, &fault, &p),
            MENSUR_OK);
        if (said_holds(&p.warnings, rows[i].warning) != rows[i].warned) {
            fail_msg("%s: %s", rows[i].row,
                     said_count(&p.warnings) > 0 ? said(&p.warnings, 0) : "silent");
        }
        mensur_profile_clear(&p);
        mensur_instrument_clear(&violin);
    }
}

/* Of one clearance the other follows by what is usual, and that is told; both need no telling. */
static void clearances_assumed(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *row;
        double low, high;
        const char *assumed;
    } rows[] = {{"high", NAN, 4, "clearance_high against the mean"},
                {"low", 6, NAN, "clearance_low against the mean"},
                {"both", 6, 4, NULL}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument violin;
        struct mensur_profile p;
        const char *told = NULL;
        check_status("copy", mensur_instrument_copy(&demo->swift, &violin), MENSUR_OK);
        violin.measure[MENSUR_FIELD_BRIDGE] = MENSUR_UNKNOWN;
        demo_set(&violin, MENSUR_FIELD_CLEARANCE_LOW, rows[i].low);
        demo_set(&violin, MENSUR_FIELD_CLEARANCE_HIGH, rows[i].high);
        profile(demo, &demo->shop.stock, &violin, MENSUR_PART_ALL, &p);
        for (size_t k = 0; k < p.assumed.count; k++) {
            if (strstr(p.assumed.items[k].field, "against the mean") != NULL) {
                told = p.assumed.items[k].field;
            }
        }
        if (rows[i].assumed == NULL) {
            assert_null(told);
        } else {
            assert_string_equal(told, rows[i].assumed);
        }
        check_close(rows[i].row, p.lengths.clearance_at_board_end, 0.005, 1e-12, 0);
        mensur_profile_clear(&p);
        mensur_instrument_clear(&violin);
    }
}

/* A list that is full takes no more. */
static void full_list(void **state) {
    struct mensur_assumptions assumed = {.count = 0};
    (void)state;
    for (int i = 0; i < MENSUR_RESULT_ASSUMED + 2; i++) {
        assume(&assumed, "stop", MENSUR_BEHIND_ALL, 0.195 + i, MENSUR_LENGTH, NULL);
    }
    assert_int_equal(assumed.count, MENSUR_RESULT_ASSUMED);
    check_close("last", assumed.items[MENSUR_RESULT_ASSUMED - 1].value,
                0.195 + MENSUR_RESULT_ASSUMED - 1, 0, 0);
}

/* Positions between the semitones, and one beyond what a step's ratio can say. */
static void odd_positions(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock = demo->shop.stock;
    struct mensur_family family = *mensur_stock_family(&stock, "violin");
    struct mensur_terms terms = demo->terms;
    struct mensur_fault fault = {""};
    struct mensur_profile p;
    family.position_count = 2;
    family.positions[0] = (struct mensur_hand){"half", 1.5, 5};
    family.positions[1] = (struct mensur_hand){"1", 24000, 5};
    stock.families = &family;
    stock.family_count = 1;
    terms.steps = MENSUR_STEPS_PYTHAGOREAN;
    check_status("swift",
                 mensur_ask_profile(&stock, &demo->swift, &terms, MENSUR_PART_FINGERS, &fault, &p),
                 MENSUR_OK);
    double length = p.lengths.string_length;
    check_close("1.5", p.positions[0].first_finger, length * (1 - exp2(-1.5 / 12)), 0, 1e-14);
    check_close("24000", p.positions[1].first_finger, length, 0, 1e-15);
    mensur_profile_clear(&p);
}

/* A string of unknown weight has no true places; one whose packet states an impossible pitch has no
 * density. */
static void odd_strings(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock;
    struct mensur_profile p, plain;
    profile(demo, &demo->shop.stock, &demo->kestrel, MENSUR_PART_ALL | MENSUR_PART_TRUE_PLACES,
            &plain);
    demo_own_strings(demo, 0, &stock);
    size_t changed = 0;
    for (size_t i = 0; i < stock.string_count; i++) {
        struct mensur_string_spec *spec = &stock.strings[i];
        if (spec->set != NULL && strcmp(spec->set, demo->kestrel.set) == 0 &&
            strcmp(spec->note.name, "A4") == 0) {
            spec->linear_density = spec->diameter = spec->density = MENSUR_UNKNOWN;
            for (size_t k = 0; k < MENSUR_WRAPS_MAX; k++) {
                spec->wraps[k].density = spec->wraps[k].thickness = MENSUR_UNKNOWN;
            }
            spec->core_diameter.value = 0.0003;
            spec->modulus.value = 3e9;
            spec->material = NULL;
            spec->stated_tension.value = 60;
            spec->stated_length.value = 0.37;
            spec->stated_a4.value = -440;
            changed++;
        }
    }
    assert_int_equal(changed, 1);
    profile(demo, &stock, &demo->kestrel, MENSUR_PART_ALL | MENSUR_PART_TRUE_PLACES, &p);
    check_close("A4", p.strings[3].tension, NAN, 0, 0);
    check_close("all", p.total_tension, NAN, 0, 0);
    assert_int_equal(plain.true_place_count, 4 * 24);
    assert_int_equal(p.true_place_count, 3 * 24);
    check_close("D4", p.true_places[71].from_nut_low, plain.true_places[71].from_nut_low, 0, 0);
    mensur_profile_clear(&p);
    mensur_profile_clear(&plain);
    free(stock.strings);
}

/* A tuning of one string stands in the middle of the board. */
static void one_string(void **state) {
    const struct demo *demo = *state;
    struct mensur_stock stock = demo->shop.stock;
    struct mensur_tuning one = *mensur_stock_tuning(&stock, "violin");
    struct mensur_profile p, four;
    profile(demo, &stock, &demo->swift, MENSUR_PART_ALL, &four);
    one.count = 1;
    one.notes[0] = one.notes[1];
    stock.tunings = &one;
    stock.tuning_count = 1;
    profile(demo, &stock, &demo->swift, MENSUR_PART_ALL, &p);
    assert_int_equal(p.string_count, 1);
    check_close("tension", p.total_tension, four.strings[1].tension, 0, 1e-14);
    /* lower than the second of four stands, by a sixth of what lies between the outer ones */
    assert_true(p.strings[0].press_force_octave < four.strings[1].press_force_octave);
    mensur_profile_clear(&p);
    mensur_profile_clear(&four);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(without_tuning), cmocka_unit_test(without_family),
        cmocka_unit_test(warnings),       cmocka_unit_test(clearances_assumed),
        cmocka_unit_test(full_list),      cmocka_unit_test(odd_positions),
        cmocka_unit_test(odd_strings),    cmocka_unit_test(one_string)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
