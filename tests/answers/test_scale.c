/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A model in another size: every measurement against its rule, worked out by hand. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "demo.h"
#include "said.h"
#include "scale.h"
#include "worked.h"

static struct mensur_scaling to_body(double mm) {
    return (struct mensur_scaling){.by = MENSUR_SCALE_TO_BODY, .value = mm / 1000};
}

static void scale(const struct demo *demo, const struct mensur_instrument *model,
                  const struct mensur_scaling *scaling, struct mensur_scaled *scaled,
                  struct mensur_instrument *out) {
    struct mensur_fault fault = {""};
    enum mensur_status status =
        mensur_ask_scale(&demo->shop.stock, model, scaling, &demo->terms, &fault, scaled, out);
    check_status(fault.text, status, MENSUR_OK);
}

/* A model of a family and a body in mm with every measurement; they need not fit each other but
 * where they are checked. */
static void make_model(const struct demo *demo, const char *family, double body,
                       struct mensur_instrument *out) {
    static const double shares[MENSUR_FIELD_COUNT] = {
        [MENSUR_FIELD_BODY_STRAIGHT] = 0.997, [MENSUR_FIELD_BACK_ARCH] = 0.03,
        [MENSUR_FIELD_STOP] = 0.54,           [MENSUR_FIELD_NECK] = 0.36,
        [MENSUR_FIELD_OVERSTAND] = 0.02,      [MENSUR_FIELD_BOARD] = 0.025,
        [MENSUR_FIELD_BOARD_NUT] = 0.02,      [MENSUR_FIELD_NUT] = 0.001,
        [MENSUR_FIELD_ARCH] = 0.033,          [MENSUR_FIELD_ARCH_FULL] = 0.044,
        [MENSUR_FIELD_EDGE] = 0.011,          [MENSUR_FIELD_PROJECTION] = 0.077,
        [MENSUR_FIELD_BRIDGE] = 0.0925,       [MENSUR_FIELD_SADDLE] = 0.012,
        [MENSUR_FIELD_AFTERLENGTH] = 0.15,    [MENSUR_FIELD_BEHIND_NUT] = 0.12,
        [MENSUR_FIELD_BOARD_LENGTH] = 0.74,   [MENSUR_FIELD_HOLLOW] = 0.002,
        [MENSUR_FIELD_HEEL] = 0.056,          [MENSUR_FIELD_SPACING_BRIDGE] = 0.09,
        [MENSUR_FIELD_SPACING_NUT] = 0.045,   [MENSUR_FIELD_SPACING_TAIL] = 0.08,
        [MENSUR_FIELD_FOOT_SPACING] = 0.087,  [MENSUR_FIELD_WIDTH_UPPER] = 0.47,
        [MENSUR_FIELD_WIDTH_MIDDLE] = 0.31,   [MENSUR_FIELD_WIDTH_LOWER] = 0.58,
        [MENSUR_FIELD_RIB] = 0.088,           [MENSUR_FIELD_PLATE] = 0.008,
        [MENSUR_FIELD_F_LENGTH] = 0.21};
    check_status("copy", mensur_instrument_copy(&demo->heron, out), MENSUR_OK);
    free(out->family);
    out->family = malloc(strlen(family) + 1);
    assert_non_null(out->family);
    strcpy(out->family, family);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        out->measure[f] = MENSUR_UNKNOWN;
        if (shares[f] > 0) {
            demo_set(out, (enum mensur_field)f, shares[f] * body);
        }
    }
    demo_set(out, MENSUR_FIELD_BODY, body);
}

/* Exponents of the ratio of the bodies; those not named are held. NAN: no power. */
static const struct {
    const char *family;
    double from, to;
    double exponents[MENSUR_FIELD_COUNT];
} powers[] = {
    /* model.md, 12: violas from 380 to 440 */
    {"viola",
     410,
     395,
     {[MENSUR_FIELD_BODY] = 1,
      [MENSUR_FIELD_BODY_STRAIGHT] = 1,
      [MENSUR_FIELD_BACK_ARCH] = 0.45,
      [MENSUR_FIELD_STOP] = 0.4,
      [MENSUR_FIELD_NECK] = 0.4,
      [MENSUR_FIELD_ARCH] = 0.45,
      [MENSUR_FIELD_ARCH_FULL] = 0.45,
      [MENSUR_FIELD_PROJECTION] = 0.4,
      [MENSUR_FIELD_BRIDGE] = NAN,
      [MENSUR_FIELD_AFTERLENGTH] = 0.4,
      [MENSUR_FIELD_BOARD_LENGTH] = 0.4,
      [MENSUR_FIELD_WIDTH_UPPER] = 1,
      [MENSUR_FIELD_WIDTH_MIDDLE] = 1,
      [MENSUR_FIELD_WIDTH_LOWER] = 1,
      [MENSUR_FIELD_F_LENGTH] = 1}},
    /* full size: the outline alone */
    {"violin",
     355,
     360,
     {[MENSUR_FIELD_BODY] = 1,
      [MENSUR_FIELD_BODY_STRAIGHT] = 1,
      [MENSUR_FIELD_WIDTH_UPPER] = 1,
      [MENSUR_FIELD_WIDTH_MIDDLE] = 1,
      [MENSUR_FIELD_WIDTH_LOWER] = 1}},
    {"cello",
     755,
     742,
     {[MENSUR_FIELD_BODY] = 1,
      [MENSUR_FIELD_BODY_STRAIGHT] = 1,
      [MENSUR_FIELD_WIDTH_UPPER] = 1,
      [MENSUR_FIELD_WIDTH_MIDDLE] = 1,
      [MENSUR_FIELD_WIDTH_LOWER] = 1}},
    /* other sizes: the fits to published sizes of violins, and section 9 with the stop */
    {"violin",
     355,
     310,
     {[MENSUR_FIELD_BODY] = 1,
      [MENSUR_FIELD_BODY_STRAIGHT] = 1,
      [MENSUR_FIELD_BACK_ARCH] = 0.45,
      [MENSUR_FIELD_STOP] = 1,
      [MENSUR_FIELD_NECK] = 1,
      [MENSUR_FIELD_OVERSTAND] = 0.5,
      [MENSUR_FIELD_BOARD] = 0.6,
      [MENSUR_FIELD_BOARD_NUT] = 0.6,
      [MENSUR_FIELD_NUT] = 0.3,
      [MENSUR_FIELD_ARCH] = 0.45,
      [MENSUR_FIELD_ARCH_FULL] = 0.61,
      [MENSUR_FIELD_EDGE] = 1.23,
      [MENSUR_FIELD_PROJECTION] = 1,
      [MENSUR_FIELD_BRIDGE] = 1,
      [MENSUR_FIELD_SADDLE] = 1,
      [MENSUR_FIELD_AFTERLENGTH] = 1,
      [MENSUR_FIELD_BEHIND_NUT] = 1,
      [MENSUR_FIELD_BOARD_LENGTH] = 1,
      [MENSUR_FIELD_HOLLOW] = 1,
      [MENSUR_FIELD_HEEL] = 0.5,
      [MENSUR_FIELD_SPACING_BRIDGE] = 0.75,
      [MENSUR_FIELD_SPACING_NUT] = 0.75,
      [MENSUR_FIELD_SPACING_TAIL] = 0.75,
      [MENSUR_FIELD_FOOT_SPACING] = 0.9,
      [MENSUR_FIELD_WIDTH_UPPER] = 1.14,
      [MENSUR_FIELD_WIDTH_MIDDLE] = 1.03,
      [MENSUR_FIELD_WIDTH_LOWER] = 1.08,
      [MENSUR_FIELD_RIB] = 0.65,
      [MENSUR_FIELD_F_LENGTH] = 1}},
};

static bool is_number_of(double value) {
    return !isnan(value);
}

static void test_rules(void **state) {
    const struct demo *demo = *state;
    for (size_t i = 0; i < COUNT_OF(powers); i++) {
        struct mensur_instrument model, out;
        struct mensur_scaled scaled;
        const struct mensur_scaling scaling = to_body(powers[i].to);
        double r = powers[i].to / powers[i].from;
        make_model(demo, powers[i].family, powers[i].from, &model);
        scale(demo, &model, &scaling, &scaled, &out);
        check_close("ratio", scaled.ratio, r, 0, 1e-15);
        for (size_t j = 0; j < scaled.measure_count; j++) {
            const struct mensur_scaled_measure *measure = &scaled.measures[j];
            enum mensur_field field;
            check_status(measure->field, mensur_field_find(measure->field, &field), MENSUR_OK);
            double exponent = powers[i].exponents[field];
            assert_true(is_number_of(measure->exponent) == is_number_of(exponent));
            check_close(measure->field, measure->from, model.measure[field].value, 0, 0);
            check_close(measure->field, out.measure[field].value, measure->to, 0, 0);
            if (is_number_of(exponent)) {
                check_close(measure->field, measure->exponent, exponent, 1e-15, 0);
                check_close(measure->field, log(measure->to / measure->from), exponent * log(r),
                            1e-14, 1e-12);
                assert_true((measure->rule == MENSUR_SCALE_HELD) == !(exponent > 0));
            } else {
                /* the bridge: by the millimetres of the projection */
                check_close("clearance", measure->to - out.measure[MENSUR_FIELD_PROJECTION].value,
                            measure->from - model.measure[MENSUR_FIELD_PROJECTION].value, 1e-16, 0);
            }
        }
        mensur_scaled_clear(&scaled);
        mensur_instrument_clear(&out);
        mensur_instrument_clear(&model);
    }
}

/* A viola that leaves 380 to 440: 0.555 of the body to 400 mm, then 0.2 mm for each; set-up with
 * the stop, by no power of the body. */
static void test_other_violas(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument model, out;
    struct mensur_scaled scaled;
    const struct mensur_scaling scaling = to_body(365);
    const double stops = 0.555 * 365 / (0.555 * 400 + 0.2 * 10);
    make_model(demo, "viola", 410, &model);
    scale(demo, &model, &scaling, &scaled, &out);
    for (size_t i = 0; i < scaled.measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled.measures[i];
        double by = measure->to / measure->from;
        if (strcmp(measure->field, "stop") == 0 || strcmp(measure->field, "neck") == 0) {
            check_close(measure->field, by, stops, 0, 1e-14);
            assert_true(isnan(measure->exponent));
        } else if (strcmp(measure->field, "spacing_nut") == 0) {
            check_close(measure->field, by, pow(stops, 0.75), 0, 1e-14);
            assert_true(isnan(measure->exponent));
        } else if (strcmp(measure->field, "width_upper") == 0) {
            check_close(measure->field, by, pow(365.0 / 410.0, 1.06), 0, 1e-14);
        }
    }
    mensur_scaled_clear(&scaled);
    mensur_instrument_clear(&out);
    mensur_instrument_clear(&model);
}

/* A table of violas without known author (body 390 to 430 mm; shared/published, topic 10), against
 * the exponent 0.4: within what a maker marks. */
static void test_published_violas(void **state) {
    (void)state;
    static const struct {
        const char *what;
        double small, large, off;
    } rows[] = {{"stop", 219, 227.5, 0.5},
                {"neck", 146, 152, 0.5},
                {"projection", 31.5, 32.5, 0.3},
                {"board", 290, 300, 2}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        check_close(rows[i].what, rows[i].small * pow(430.0 / 390.0, 0.4), rows[i].large,
                    rows[i].off, 0);
    }
}

/* There and back, and to the same size: as before. */
static void test_back_again(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family;
        double from, to;
    } rows[] = {{"viola", 410, 395},  {"viola", 410, 410},  {"viola", 410, 365},
                {"viola", 365, 345},  {"violin", 355, 361}, {"violin", 355, 290},
                {"cello", 755, 760},  {"cello", 755, 600},  {"bass", 1100, 1000},
                {"violin", 355, 355}, {"viola", 440, 380}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument model, there, back;
        struct mensur_scaled one, other;
        const struct mensur_scaling to = to_body(rows[i].to), from = to_body(rows[i].from);
        make_model(demo, rows[i].family, rows[i].from, &model);
        scale(demo, &model, &to, &one, &there);
        scale(demo, &there, &from, &other, &back);
        for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
            if (!isnan(model.measure[f].value)) {
                check_close(mensur_field_info((enum mensur_field)f)->name, back.measure[f].value,
                            model.measure[f].value, 0, 1e-13);
            }
        }
        mensur_scaled_clear(&one);
        mensur_scaled_clear(&other);
        mensur_instrument_clear(&there);
        mensur_instrument_clear(&back);
        mensur_instrument_clear(&model);
    }
}

static double length_of(const struct demo *demo, const struct mensur_instrument *instrument) {
    struct mensur_profile profile;
    struct mensur_fault fault = {""};
    check_status("profile",
                 mensur_ask_profile(&demo->shop.stock, instrument, &demo->terms,
                                    MENSUR_PART_LENGTHS, &fault, &profile),
                 MENSUR_OK);
    double length = profile.lengths.string_length;
    mensur_profile_clear(&profile);
    return length;
}

/* A size is found by its string: within its own rules, below and above them. */
static void test_by_string(void **state) {
    const struct demo *demo = *state;
    static const double wanted[] = {375, 370, 366, 385, 340, 300, 420};
    for (size_t i = 0; i < COUNT_OF(wanted); i++) {
        struct mensur_instrument out;
        struct mensur_scaled scaled;
        const struct mensur_scaling scaling = {.by = MENSUR_SCALE_TO_STRING_LENGTH,
                                               .value = wanted[i] / 1000};
        scale(demo, &demo->heron, &scaling, &scaled, &out);
        check_close("string", length_of(demo, &out), wanted[i] / 1000, 0, 1e-12);
        mensur_scaled_clear(&scaled);
        mensur_instrument_clear(&out);
    }
}

/* A measured string keeps what it exceeds the geometry by; the plan has no air note of its own. */
static void test_measured_string(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument model, out, bare;
    struct mensur_scaled scaled;
    const struct mensur_scaling scaling = to_body(395);
    check_status("copy", mensur_instrument_copy(&demo->heron, &model), MENSUR_OK);
    double geometry = length_of(demo, &model);
    model.measure[MENSUR_FIELD_STRING_LENGTH].value = geometry + 0.0012;
    model.measure[MENSUR_FIELD_AIR_NOTE].value = 223;
    model.built = true;
    scale(demo, &model, &scaling, &scaled, &out);
    check_status("copy", mensur_instrument_copy(&out, &bare), MENSUR_OK);
    bare.measure[MENSUR_FIELD_STRING_LENGTH] = MENSUR_UNKNOWN;
    check_close("excess", length_of(demo, &out) - length_of(demo, &bare), 0.0012, 1e-14, 0);
    assert_true(isnan(out.measure[MENSUR_FIELD_AIR_NOTE].value));
    assert_false(out.built);
    assert_string_equal(out.name, "heron 395");
    mensur_scaled_clear(&scaled);
    mensur_instrument_clear(&bare);
    mensur_instrument_clear(&out);
    mensur_instrument_clear(&model);
}

/* What is kept stays, and what follows it does not move. */
static void test_kept(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument model, out;
    struct mensur_scaled scaled;
    struct mensur_scaling scaling = to_body(310);
    scaling.keep = 1ULL << MENSUR_FIELD_STOP | 1ULL << MENSUR_FIELD_RIB;
    make_model(demo, "violin", 355, &model);
    model.measure[MENSUR_FIELD_STOP].value = 0.180;
    scale(demo, &model, &scaling, &scaled, &out);
    check_close("stop", out.measure[MENSUR_FIELD_STOP].value, 0.180, 0, 0);
    check_close("rib", out.measure[MENSUR_FIELD_RIB].value, model.measure[MENSUR_FIELD_RIB].value,
                0, 0);
    check_close("neck, with the stop", out.measure[MENSUR_FIELD_NECK].value,
                model.measure[MENSUR_FIELD_NECK].value, 0, 1e-15);
    for (size_t i = 0; i < scaled.measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled.measures[i];
        bool kept = strcmp(measure->field, "stop") == 0 || strcmp(measure->field, "rib") == 0;
        assert_true((measure->rule == MENSUR_SCALE_KEPT) == kept);
    }
    mensur_scaled_clear(&scaled);
    mensur_instrument_clear(&out);
    mensur_instrument_clear(&model);
}

/* With the air kept the two bodies sound alike, and heron's ribs follow H2/H1 = r r^(-1/q). */
static void test_air_kept(void **state) {
    const struct demo *demo = *state;
    struct mensur_instrument out;
    struct mensur_scaled scaled;
    struct mensur_comparison comparison;
    struct mensur_fault fault = {""};
    struct mensur_scaling scaling = to_body(395);
    scaling.keep_air = true;
    scale(demo, &demo->heron, &scaling, &scaled, &out);
    const struct mensur_instrument *both[] = {&demo->heron, &out};
    check_status("compare",
                 mensur_ask_compare(&demo->shop.stock, both, 2, &demo->terms, &fault, &comparison),
                 MENSUR_OK);
    check_close("alike", comparison.instruments[1].air_semitones_above_first, 0, 1e-12, 0);
    const double depth = comparison.instruments[0].air.depth, r = 395.0 / 410.0;
    check_close("ribs", scaled.rib_more, depth * (r * pow(r, -1 / 0.30) - 1), 0, 1e-12);
    check_close("least", scaled.rib_more_least, depth * (r * pow(r, -1 / 0.42) - 1), 0, 1e-12);
    check_close("most", scaled.rib_more_most, depth * (r * pow(r, -1 / 0.25) - 1), 0, 1e-12);
    check_close("written",
                out.measure[MENSUR_FIELD_RIB].value - demo->heron.measure[MENSUR_FIELD_RIB].value,
                scaled.rib_more, 1e-15, 0);
    mensur_comparison_clear(&comparison);
    mensur_scaled_clear(&scaled);
    mensur_instrument_clear(&out);
}

/* Each printed step comes out: bodies with an air to compare, and a size of other rules. */
static void test_working(void **state) {
    const struct demo *demo = *state;
    static const double bodies[] = {395, 370};
    for (size_t i = 0; i < COUNT_OF(bodies); i++) {
        struct mensur_instrument out;
        struct mensur_scaled scaled;
        struct mensur_working working;
        struct mensur_fault fault = {""};
        const struct mensur_scaling scaling = to_body(bodies[i]);
        scale(demo, &demo->heron, &scaling, &scaled, &out);
        check_status("working",
                     mensur_ask_working_scale(&demo->shop.stock, &demo->heron, &out, &scaled, NULL,
                                              &demo->terms, &fault, &working),
                     MENSUR_OK);
        assert_true(check_working(&working) > 40);
        assert_non_null(find_line(&working, "heron", "volume of the air in the body"));
        assert_non_null(find_line(&working, NULL, "note of the air above that of the first"));
        assert_non_null(find_line(&working, out.name, "stop"));
        mensur_working_clear(&working);
        mensur_scaled_clear(&scaled);
        mensur_instrument_clear(&out);
    }
}

static void test_refusals(void **state) {
    const struct demo *demo = *state;
    const struct {
        const struct mensur_instrument *model;
        struct mensur_scaling scaling;
        enum mensur_status status;
        const char *says;
    } rows[] = {
        {&demo->heron, {.value = NAN}, MENSUR_USE, "say which size"},
        {&demo->heron, to_body(1000), MENSUR_USE, "between half and twice"},
        {&demo->heron, to_body(NAN), MENSUR_USE, "between half and twice"},
        {&demo->heron, {MENSUR_SCALE_TO_RATIO, 0.1, false, 0, false, NULL}, MENSUR_USE, "half"},
        {&demo->heron,
         {MENSUR_SCALE_TO_STRING_LENGTH, 0.9, false, 0, false, NULL},
         MENSUR_USE,
         "no size of it"},
        {&demo->dipper, to_body(380), MENSUR_USE, "its body was not measured"},
        {&demo->heron,
         {MENSUR_SCALE_TO_BODY, 0.395, false, 1ULL << MENSUR_FIELD_NUT, false, NULL},
         MENSUR_USE,
         "nothing to keep"},
        {&demo->heron,
         {MENSUR_SCALE_TO_BODY, 0.395, false, 1ULL << MENSUR_FIELD_BODY, false, NULL},
         MENSUR_USE,
         "cannot be kept"},
        {&demo->heron,
         {MENSUR_SCALE_TO_BODY, 0.395, false, 1ULL << MENSUR_FIELD_STRING_LENGTH, false, NULL},
         MENSUR_USE,
         "--string-length"},
        {&demo->heron,
         {MENSUR_SCALE_TO_BODY, 0.395, false, 1ULL << MENSUR_FIELD_RIB, true, NULL},
         MENSUR_USE,
         "keep one of the two"},
        {&demo->wren,
         {MENSUR_SCALE_TO_BODY, 0.380, false, 0, true, NULL},
         MENSUR_USE,
         "its air is not known"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument out;
        struct mensur_scaled scaled;
        struct mensur_fault fault = {""};
        check_status(rows[i].says,
                     mensur_ask_scale(&demo->shop.stock, rows[i].model, &rows[i].scaling,
                                      &demo->terms, &fault, &scaled, &out),
                     rows[i].status);
        check_holds(fault.text, rows[i].says);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rules),
        cmocka_unit_test(test_other_violas),
        cmocka_unit_test(test_published_violas),
        cmocka_unit_test(test_back_again),
        cmocka_unit_test(test_by_string),
        cmocka_unit_test(test_measured_string),
        cmocka_unit_test(test_kept),
        cmocka_unit_test(test_air_kept),
        cmocka_unit_test(test_working),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
