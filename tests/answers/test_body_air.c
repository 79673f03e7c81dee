/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The air of two bodies side by side: which are compared, with what, and what is said. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "demo.h"
#include "said.h"

/* Two violas; heron of the demonstration, and it with another body. */
struct pair {
    struct mensur_instrument one, other;
};

static struct pair make_pair(const struct demo *demo) {
    struct pair pair;
    check_status("one", mensur_instrument_copy(&demo->heron, &pair.one), MENSUR_OK);
    check_status("other", mensur_instrument_copy(&demo->heron, &pair.other), MENSUR_OK);
    demo_set(&pair.other, MENSUR_FIELD_BODY, 395);
    demo_set(&pair.other, MENSUR_FIELD_WIDTH_UPPER, 186);
    demo_set(&pair.other, MENSUR_FIELD_WIDTH_MIDDLE, 128);
    demo_set(&pair.other, MENSUR_FIELD_WIDTH_LOWER, 235);
    demo_set(&pair.other, MENSUR_FIELD_RIB, 36);
    demo_set(&pair.other, MENSUR_FIELD_F_LENGTH, 80);
    return pair;
}

static void rename_family(struct mensur_instrument *instrument, const char *family) {
    free(instrument->family);
    instrument->family = malloc(strlen(family) + 1);
    assert_non_null(instrument->family);
    strcpy(instrument->family, family);
}

/* Compares them, clears them, and gives what is said of the air, "" where nothing is. */
static void compare(const struct demo *demo, struct pair *pair, struct mensur_comparison *out) {
    struct mensur_fault fault = {""};
    const struct mensur_instrument *both[] = {&pair->one, &pair->other};
    enum mensur_status status =
        mensur_ask_compare(&demo->shop.stock, both, 2, &demo->terms, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
    mensur_instrument_clear(&pair->one);
    mensur_instrument_clear(&pair->other);
}

static size_t air_fact(const struct mensur_comparison *comparison) {
    for (size_t i = 0; i < comparison->remarks.count; i++) {
        enum mensur_fact_kind kind = comparison->remarks.items[i].kind;
        if (kind >= MENSUR_FACT_AIR_APART && kind <= MENSUR_FACT_AIR_TOO_UNLIKE) {
            return i;
        }
    }
    return comparison->remarks.count;
}

/* The law in its printed form, in mm: 410 and 395, depths 38 and 36 and the archings. */
static double by_hand(void) {
    double a1 = 410 * (0.32 * 192 + 0.27 * 132 + 0.34 * 243);
    double a2 = 395 * (0.32 * 186 + 0.27 * 128 + 0.34 * 235);
    double arched = (13.5 + 4.2 + 13 + 4.2) / 2 - 3.2;
    double ratio = pow(a2 / a1, -0.5) * pow((36 + arched) / (38 + arched) * 82 / 80, -0.30);
    return 12 * log2(ratio);
}

static void test_law(void **state) {
    struct mensur_comparison comparison;
    struct pair pair = make_pair(*state);
    compare(*state, &pair, &comparison);
    const struct mensur_profile *other = &comparison.instruments[1];
    check_close("apart", other->air_semitones_above_first, by_hand(), 1e-12, 0);
    check_close("first", comparison.instruments[0].air_semitones_above_first, 0, 0, 0);
    check_close("difference", comparison.differences[0].air_semitones_above_first, by_hand(), 1e-12,
                0);
    check_close("volume", comparison.instruments[0].lengths.air_volume,
                0.85e-9 * 410 * (0.32 * 192 + 0.27 * 132 + 0.34 * 243) *
                    (38 + (13.5 + 4.2 + 13 + 4.2) / 2 - 3.2),
                0, 1e-14);
    assert_true(isnan(other->lengths.air_note));
    check_holds(said(&comparison.remarks, air_fact(&comparison)), "semitones higher");
    mensur_comparison_clear(&comparison);
}

/* A note that was measured on either body is told of the other too; both measured stand as they
 * are. */
static void test_notes(void **state) {
    static const struct { double one, other; } rows[] = {{223, NAN}, {NAN, 231}, {223, 231}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison comparison;
        struct pair pair = make_pair(*state);
        double apart = i == 2 ? 12 * log2(231.0 / 223.0) : by_hand();
        pair.one.measure[MENSUR_FIELD_AIR_NOTE].value = rows[i].one;
        pair.other.measure[MENSUR_FIELD_AIR_NOTE].value = rows[i].other;
        compare(*state, &pair, &comparison);
        double first = comparison.instruments[0].lengths.air_note;
        double second = comparison.instruments[1].lengths.air_note;
        check_close("apart", comparison.instruments[1].air_semitones_above_first, apart, 1e-12, 0);
        check_close("ratio", 12 * log2(second / first), apart, 1e-12, 0);
        check_close("measured", i == 1 ? second : first, i == 1 ? 231 : 223, 0, 0);
        /* C3 in pure fifths from 440 Hz is 130.37 Hz */
        check_close("place", comparison.remarks.items[air_fact(&comparison)].number[2],
                    12 * log2(second / (440 * 8.0 / 27.0)), 1e-9, 0);
        check_holds(said(&comparison.remarks, air_fact(&comparison)), "above its lowest string");
        mensur_comparison_clear(&comparison);
    }
}

static void unmeasured(struct pair *pair) {
    pair->other.measure[MENSUR_FIELD_PLATE] = MENSUR_UNKNOWN;
    pair->other.measure[MENSUR_FIELD_BACK_ARCH] = MENSUR_UNKNOWN; /* then a usual one is assumed */
}

static void flat(struct pair *pair) {
    demo_set(&pair->other, MENSUR_FIELD_BACK_ARCH, 0);
}

static void two_families(struct pair *pair) {
    rename_family(&pair->other, "violin");
}

static void basses(struct pair *pair) {
    rename_family(&pair->one, "bass");
    rename_family(&pair->other, "bass");
}

static void too_small(struct pair *pair) {
    demo_set(&pair->other, MENSUR_FIELD_BODY, 325);
}

static void too_narrow(struct pair *pair) {
    demo_set(&pair->other, MENSUR_FIELD_WIDTH_LOWER, 100);
}

static void not_asked(struct pair *pair) {
    pair->other.measure[MENSUR_FIELD_WIDTH_UPPER] = MENSUR_UNKNOWN;
    pair->other.measure[MENSUR_FIELD_WIDTH_MIDDLE] = MENSUR_UNKNOWN;
    pair->other.measure[MENSUR_FIELD_WIDTH_LOWER] = MENSUR_UNKNOWN;
    pair->other.measure[MENSUR_FIELD_F_LENGTH] = MENSUR_UNKNOWN;
}

static void test_refusals(void **state) {
    static const struct {
        void (*make)(struct pair *pair);
        const char *says; /* "": nothing is said of it */
    } rows[] = {{unmeasured, "back arch, plate"},
                {flat, "a flat back"},
                {two_families, "two families"},
                {basses, "cut shoulders"},
                {too_small, "too far apart"},
                {too_narrow, "too far apart"},
                {not_asked, ""}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison comparison;
        struct pair pair = make_pair(*state);
        rows[i].make(&pair);
        compare(*state, &pair, &comparison);
        size_t fact = air_fact(&comparison);
        assert_true(isnan(comparison.instruments[1].air_semitones_above_first));
        assert_true((fact < comparison.remarks.count) == (*rows[i].says != '\0'));
        if (fact < comparison.remarks.count) {
            check_holds(said(&comparison.remarks, fact), rows[i].says);
        }
        mensur_comparison_clear(&comparison);
    }
}

/* A change of the body leaves the note that was measured before it; one of the neck does not. */
static void test_changed(void **state) {
    const struct demo *demo = *state;
    static const struct {
        enum mensur_field field;
        double mm;
        bool moves;
    } rows[] = {{MENSUR_FIELD_RIB, 41, true}, {MENSUR_FIELD_NECK, 152, false}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_instrument heron;
        struct mensur_comparison comparison;
        struct mensur_fault fault = {""};
        const struct mensur_change change = {.field = rows[i].field,
                                             .value = {rows[i].mm / 1000, 0}};
        check_status("copy", mensur_instrument_copy(&demo->heron, &heron), MENSUR_OK);
        heron.measure[MENSUR_FIELD_AIR_NOTE].value = 223;
        check_status("change",
                     mensur_ask_change(&demo->shop.stock, &heron, &change, 1, &demo->terms, &fault,
                                       &comparison),
                     MENSUR_OK);
        double note = comparison.instruments[1].lengths.air_note;
        assert_true((note < 222) == rows[i].moves);
        assert_true((air_fact(&comparison) < comparison.remarks.count) == rows[i].moves);
        mensur_comparison_clear(&comparison);
        mensur_instrument_clear(&heron);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_law),
        cmocka_unit_test(test_notes),
        cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_changed),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
