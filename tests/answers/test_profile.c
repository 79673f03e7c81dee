/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An instrument's figures: the worked violin to every printed digit, what is assumed, what is left
 * unknown, what is refused. */
#include "demo.h"
#include "figures.h"
#include "said.h"

struct wanted_figure {
    const char *row;
    double want; /* mm, degrees, semitones as printed */
    double tolerance;
    enum mensur_kind kind;
    size_t offset;
};

#define LENGTH_OF(member) offsetof(struct mensur_lengths, member)

static void check_figures(const struct mensur_profile *profile, const struct wanted_figure *rows,
                          size_t count) {
    for (size_t i = 0; i < count; i++) {
        double si =
            *(const double *)(const void *)((const char *)&profile->lengths + rows[i].offset);
        check_close(rows[i].row, mensur_from_si(rows[i].kind, si), rows[i].want, rows[i].tolerance,
                    0);
    }
}

static void profile_of(const struct demo *demo, const struct mensur_instrument *instrument,
                       struct mensur_profile *out) {
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, &demo->terms, MENSUR_PART_ALL,
                                    &fault, out),
                 MENSUR_OK);
}

/* The design's worked violin; half a unit of the last printed digit. */
static void test_model_violin(void **state) {
    static const struct wanted_figure untapered[] = {
        {"string", 328.0729, 5e-5, MENSUR_LENGTH, LENGTH_OF(string_length)},
        {"break angle", 158.3274, 5e-5, MENSUR_ANGLE, LENGTH_OF(break_angle)},
        {"note at the body", 8.736, 5e-4, MENSUR_SEMITONES, LENGTH_OF(body_at_semitones)},
        /* the board ends at 0.823 of the string: 5.036 at 5/6 less its share of the slope */
        {"clearance", 4.9785, 5e-5, MENSUR_LENGTH, LENGTH_OF(clearance_at_board_end)},
        /* the violin's outer strings 1 mm below and above it: common practice, no source */
        {"clearance, low", 5.9785, 5e-5, MENSUR_LENGTH, LENGTH_OF(clearance_low)},
        {"clearance, high", 3.9785, 5e-5, MENSUR_LENGTH, LENGTH_OF(clearance_high)},
        {"nothing behind the bridge", NAN, 0, MENSUR_SEMITONES, LENGTH_OF(afterlength_semitones)},
        /* common practice, no source: 327 to 330 mm and about 158 degrees */
        {"string in practice", 328.5, 1.5, MENSUR_LENGTH, LENGTH_OF(string_length)},
        {"break angle in practice", 158, 0.5, MENSUR_ANGLE, LENGTH_OF(break_angle)}};
    static const struct wanted_figure tapered[] = {
        {"string", 328.0659, 5e-5, MENSUR_LENGTH, LENGTH_OF(string_length)},
        {"break angle", 157.9506, 5e-5, MENSUR_ANGLE, LENGTH_OF(break_angle)},
        /* 12 log2(328.0659/54.5) */
        {"behind the bridge", 31.0759, 5e-4, MENSUR_SEMITONES, LENGTH_OF(afterlength_semitones)}};
    struct mensur_instrument violin;
    struct mensur_profile profile;
    demo_model_violin(&violin);
    profile_of(*state, &violin, &profile);
    check_figures(&profile, untapered, COUNT_OF(untapered));
    mensur_profile_clear(&profile);
    demo_set(&violin, MENSUR_FIELD_BOARD, 8.7);
    demo_set(&violin, MENSUR_FIELD_BOARD_NUT, 7);
    demo_set(&violin, MENSUR_FIELD_AFTERLENGTH, 54.5);
    profile_of(*state, &violin, &profile);
    check_figures(&profile, tapered, COUNT_OF(tapered));
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&violin);
}

/* The families' usual values with the usual stop and neck (common practice, no source). */
static void test_usual_values(void **state) {
    static const struct {
        const char *family;
        double stop, neck, length;
    } rows[] = {
        {"violin", 195, 130, 328.0}, {"viola", 222, 150, 375.5}, {"cello", 400, 280, 689.1}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument instrument;
        struct mensur_profile profile;
        mensur_instrument_init(&instrument);
        (void)mensur_text_copy("x", 1, &instrument.name);
        (void)mensur_text_copy(rows[i].family, strlen(rows[i].family), &instrument.family);
        demo_set(&instrument, MENSUR_FIELD_STOP, rows[i].stop);
        demo_set(&instrument, MENSUR_FIELD_NECK, rows[i].neck);
        profile_of(*state, &instrument, &profile);
        check_close(rows[i].family, profile.lengths.string_length * 1000, rows[i].length, 0.05, 0);
        /* A back that is not measured is never invented. */
        check_close(rows[i].family, profile.lengths.body, NAN, 0, 0);
        check_close(rows[i].family, profile.lengths.left_reach, NAN, 0, 0);
        check_close(rows[i].family, profile.total_tension, NAN, 0, 0);
        assert_true(profile.assumed.count >= 9);
        mensur_profile_clear(&profile);
        mensur_instrument_clear(&instrument);
    }
}

static void test_string_alone(void **state) {
    const struct demo *demo = *state;
    struct mensur_profile profile;
    profile_of(demo, &demo->dipper, &profile);
    check_close("string", profile.lengths.string_length, 0.358, 1e-15, 0);
    assert_int_equal(profile.lengths.string_length_measured, MENSUR_YES);
    check_close("geometry", profile.lengths.string_length_geometry, NAN, 0, 0);
    check_close("down factor", profile.lengths.down_factor, NAN, 0, 0);
    check_close("force on the belly", profile.total_force_on_belly, NAN, 0, 0);
    assert_true(profile.total_tension > 150 && profile.total_tension < 250);
    assert_int_equal(profile.position_count, 8);
    mensur_profile_clear(&profile);
}

/* T = 4 L^2 f^2 mu by hand for a plain gut string of 0.68 mm: mu = pi/4 1300 d^2. */
static void test_pull_by_hand(void **state) {
    const struct demo *demo = *state;
    struct mensur_profile profile;
    profile_of(demo, &demo->kestrel, &profile);
    const struct mensur_string_figures *a = &profile.strings[3];
    double length = profile.lengths.string_length;
    assert_string_equal(a->note, "A4");
    check_close("tension", a->tension, 4 * length * length * 440 * 440 * a->linear_density, 0,
                1e-14);
    check_close("belly", a->force_on_belly, a->tension * profile.lengths.down_factor, 0, 1e-14);
    check_close("total", profile.total_tension,
                profile.strings[0].tension + profile.strings[1].tension +
                    profile.strings[2].tension + a->tension,
                0, 1e-14);
    assert_int_equal(a->in_made_for_range, MENSUR_NO);
    mensur_profile_clear(&profile);
}

static void test_fingers(void **state) {
    const struct demo *demo = *state;
    struct mensur_profile profile;
    profile_of(demo, &demo->heron, &profile);
    double length = profile.lengths.string_length;
    check_close("octave", profile.places[12].from_nut, length / 2, 0, 1e-15);
    check_close("two octaves", profile.places[24].from_nut, length * 3 / 4, 0, 1e-15);
    check_close("last", profile.places[24].to_next, NAN, 0, 0);
    assert_string_equal(profile.positions[0].name, "half");
    assert_string_equal(profile.positions[7].name, "7");
    check_close("seventh position", profile.positions[7].first_finger, length / 2, 0, 1e-15);
    check_close("frame", profile.positions[1].frame,
                profile.places[7].from_nut - profile.places[2].from_nut, 0, 1e-14);
    mensur_profile_clear(&profile);
}

static void test_warnings(void **state) {
    const struct demo *demo = *state;
    static const struct {
        enum mensur_field field;
        double mm;
        const char *part;
    } rows[] = {{MENSUR_FIELD_STRING_LENGTH, 340, "one of them is off"},
                {MENSUR_FIELD_ARCH, 15.5, "arch_full"},
                {MENSUR_FIELD_CLEARANCE_LOW, 12, "would want one of"},
                {MENSUR_FIELD_BRIDGE, 28, "will rattle"}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument violin;
        struct mensur_profile profile;
        demo_model_violin(&violin);
        demo_set(&violin, rows[i].field, rows[i].mm);
        profile_of(demo, &violin, &profile);
        assert_int_equal(said_count(&profile.warnings), 1);
        check_holds(said(&profile.warnings, 0), rows[i].part);
        mensur_profile_clear(&profile);
        mensur_instrument_clear(&violin);
    }
}

static void test_refusals(void **state) {
    const struct demo *demo = *state;
    static const struct {
        enum mensur_field field;
        double mm;
        const char *part, *remedy;
    } rows[] = {{MENSUR_FIELD_BRIDGE, 26, "bridge 26.0 mm, projection 27.0 mm", "a higher bridge"},
                {MENSUR_FIELD_BACK_ARCH, 400, "body 355.0 mm, back_arch 400.0 mm", "leave out"},
                {MENSUR_FIELD_BOARD, 700, "a board 700.0 mm thick", "check these five"},
                {MENSUR_FIELD_STOP, 354.9, "the stop, 354.9 mm, reaches past the body",
                 "check stop, body and back_arch"},
                {MENSUR_FIELD_BOARD_LENGTH, 330, "board_length 330.0 mm reaches to the bridge",
                 "a board of 270.0 mm is usual"}}; /* 0.823 of 328.07 */
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument violin;
        struct mensur_profile profile;
        struct mensur_fault fault = {""};
        demo_model_violin(&violin);
        demo_set(&violin, rows[i].field, rows[i].mm);
        check_status(rows[i].part,
                     mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_ALL,
                                        &fault, &profile),
                     MENSUR_NO_ANSWER);
        check_holds(fault.text, rows[i].part);
        check_holds(fault.text, rows[i].remedy);
        mensur_instrument_clear(&violin);
    }
}

/* A projection that is assumed, and a board that is too long for the clearances, are named as the
 * cause; what the message names does. */
static void test_remedies(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    demo_model_violin(&violin);
    violin.measure[MENSUR_FIELD_PROJECTION] = MENSUR_UNKNOWN;
    demo_set(&violin, MENSUR_FIELD_BRIDGE, 26);
    check_status("bridge",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_NO_ANSWER);
    check_holds(fault.text, "projection 27.0 mm (usual at this stop); give the projection");
    demo_set(&violin, MENSUR_FIELD_PROJECTION, 21);
    check_status("measured",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    mensur_profile_clear(&profile);
    violin.measure[MENSUR_FIELD_BRIDGE] = MENSUR_UNKNOWN;
    demo_set(&violin, MENSUR_FIELD_CLEARANCE_LOW, 5.5);
    demo_set(&violin, MENSUR_FIELD_CLEARANCE_HIGH, 3.5);
    demo_set(&violin, MENSUR_FIELD_BOARD_LENGTH, 345);
    check_status("board",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_NO_ANSWER);
    check_holds(fault.text, "board_length 345.0 mm reaches to the bridge");
    check_holds(fault.text, "a board of 269.");
    demo_set(&violin, MENSUR_FIELD_BOARD_LENGTH, 269.5);
    check_status("usual board",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&violin);
}

/* Without a family nothing is usual: the answer says what is missing. */
static void test_no_family(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument violin;
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    demo_model_violin(&violin);
    free(violin.family);
    violin.family = NULL;
    violin.measure[MENSUR_FIELD_OVERSTAND] = MENSUR_UNKNOWN;
    check_status("no overstand",
                 mensur_ask_profile(&demo->shop.stock, &violin, &demo->terms, MENSUR_PART_ALL,
                                    &fault, &profile),
                 MENSUR_NO_ANSWER);
    check_holds(fault.text, "overstand is missing");
    demo_set(&violin, MENSUR_FIELD_OVERSTAND, 6.5);
    profile_of(demo, &violin, &profile);
    check_close("string", profile.lengths.string_length * 1000, 328.0729, 5e-5, 0);
    assert_int_equal(profile.position_count, 0);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&violin);
}

/* Where the strings of a violin cross bridge and nut: on an arc of 1.25 times the spacing, tilted
 * by the clearances (worked by hand from docs/physics.md, section 3); none without spacing or
 * family. */
static void test_crossings(void **state) {
    struct mensur_instrument violin;
    struct mensur_profile profile;
    demo_model_violin(&violin);
    demo_set(&violin, MENSUR_FIELD_SPACING_BRIDGE, 36);
    demo_set(&violin, MENSUR_FIELD_SPACING_NUT, 15);
    demo_set(&violin, MENSUR_FIELD_BODY_STRAIGHT, NAN);
    profile_of(*state, &violin, &profile);
    const struct mensur_side_points *side = &profile.side;
    assert_int_equal(side->crossing_count, 4);
    assert_string_equal(side->crossings[0].note, "G3");
    assert_string_equal(side->crossings[3].note, "E5");
    check_close("crown", side->crown, 0.045, 0, 1e-12);
    check_close("low string, across", side->crossings[0].at_bridge, -0.018, 0, 1e-12);
    check_close("next, at the nut", side->crossings[1].at_nut, -0.0025, 0, 1e-12);
    double tilt = (profile.lengths.clearance_low - profile.lengths.clearance_high) / 0.036 *
                  profile.lengths.string_length / side->board_length;
    /* 45 - sqrt(45^2 - 18^2) = 3.7568 mm, 45 - sqrt(45^2 - 6^2) = 0.4018 mm */
    check_close("low", side->crossings[0].above_belly, 0.033 - 0.0037568 + tilt * 0.018, 1e-7, 0);
    check_close("third", side->crossings[2].above_belly, 0.033 - 0.0004018 - tilt * 0.006, 1e-7, 0);
    static const struct {
        const char *field;
        enum mensur_origin origin;
    } rows[] = {{"spacing_nut", MENSUR_ORIGIN_MEASURED},
                {"heel", MENSUR_ORIGIN_ASSUMED},
                {"rib", MENSUR_ORIGIN_UNKNOWN},
                {"body_straight", MENSUR_ORIGIN_FOLLOWS}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct mensur_measure *measure = mensur_measure_named(&profile, rows[i].field);
        assert_non_null(measure);
        assert_int_equal(measure->origin, rows[i].origin);
    }
    assert_null(mensur_measure_named(&profile, "spacing"));
    mensur_profile_clear(&profile);
    free(violin.family);
    violin.family = NULL;
    demo_set(&violin, MENSUR_FIELD_SPACING_NUT, NAN);
    profile_of(*state, &violin, &profile);
    assert_true(isnan(profile.side.heel));
    assert_int_equal(profile.side.crossing_count, 0);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&violin);
}

/* Lengths that are asked for alone are those of all parts, to the last bit; how sure they are too.
 */
static void test_lengths_alone(void **state) {
    const struct demo *demo = *state;
    const struct mensur_instrument *const rows[] = {&demo->heron, &demo->kestrel, &demo->wren,
                                                    &demo->swift, &demo->bittern, &demo->dipper};
    const struct mensur_figures figures = mensur_figures(MENSUR_SCOPE_INSTRUMENT);
    for (size_t i = 0; i < 2 * COUNT_OF(rows); i++) {
        struct mensur_instrument instrument = *rows[i / 2]; /* texts borrowed */
        struct mensur_profile whole, alone;
        struct mensur_fault fault;
        bool unsure = i % 2 == 1 && !isnan(instrument.measure[MENSUR_FIELD_STOP].value);
        instrument.measure[MENSUR_FIELD_STOP].plus_minus = unsure ? 0.0005 : 0.0;
        profile_of(demo, &instrument, &whole);
        check_status(instrument.name,
                     mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                        MENSUR_PART_LENGTHS | MENSUR_PART_FIGURES_ALONE, &fault,
                                        &alone),
                     MENSUR_OK);
        assert_true(!unsure || (whole.spread != NULL && alone.spread != NULL));
        for (size_t k = 0; k < figures.count; k++) {
            const struct mensur_figure *figure = &figures.items[k];
            if (figure->type != MENSUR_FIGURE_NUMBER) {
                continue;
            }
            check_close(figure->key, mensur_figure_value(figure, &alone.lengths),
                        mensur_figure_value(figure, &whole.lengths), 0, 0);
            if (unsure) {
                check_close(figure->key, mensur_figure_value(figure, &alone.spread->lengths),
                            mensur_figure_value(figure, &whole.spread->lengths), 0, 0);
            }
        }
        mensur_profile_clear(&whole);
        mensur_profile_clear(&alone);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_model_violin), cmocka_unit_test(test_usual_values),
        cmocka_unit_test(test_string_alone), cmocka_unit_test(test_pull_by_hand),
        cmocka_unit_test(test_fingers),      cmocka_unit_test(test_warnings),
        cmocka_unit_test(test_refusals),     cmocka_unit_test(test_remedies),
        cmocka_unit_test(test_no_family),    cmocka_unit_test(test_crossings),
        cmocka_unit_test(test_lengths_alone)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
