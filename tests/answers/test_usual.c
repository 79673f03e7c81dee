/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is usual in a family at every size: values by the powers, what follows from them. */
#include "demo.h"
#include "said.h"
#include "usual.h"

/* Body, stop and neck by size; string length, break angle and mean clearance at the board's end as
 * worked out apart from values scaled to hundredths of a millimetre. Violins from a quarter to full
 * size and violas from 380 mm by published tables without set-up; all else common practice, no
 * source, basses and the smallest sizes from memory. */
static const struct size {
    const char *name, *family;
    double body, stop, neck;         /* mm */
    double length, angle, clearance; /* mm, degrees, mm */
} sizes[] = {
    {"violin 4/4", "violin", 355, 195, 130, 328.0, 158.2, 4.6},
    {"violin 7/8", "violin", 345, 189, 126, 317.9, 158.2, 4.4},
    {"violin 3/4", "violin", 335, 183, 122, 307.8, 158.2, 4.3},
    {"violin 1/2", "violin", 320, 171, 114, 287.7, 158.7, 4.0},
    {"violin 1/4", "violin", 285, 159, 106, 267.5, 157.3, 3.7},
    {"violin 1/8", "violin", 258, 142, 94.5, 238.7, 157.4, 3.3},
    {"violin 1/16", "violin", 228, 126, 84, 212.0, 157.0, 3.0},
    {"viola 13 in (33.0 cm)", "viola", 330, 181.2, 120.8, 304.8, 158.1, 4.2},
    {"viola 14 in (35.6 cm)", "viola", 356, 195.4, 130.3, 328.7, 158.2, 4.5},
    {"viola 38.0 cm", "viola", 380, 211.0, 140.5, 354.8, 157.5, 4.9},
    {"viola 39.0 cm", "viola", 390, 216.5, 144.5, 364.4, 157.6, 5.1},
    {"viola 39.5 cm", "viola", 395, 219.0, 146.0, 368.5, 157.6, 5.1},
    {"viola 40.0 cm", "viola", 400, 222.0, 148.0, 373.5, 157.6, 5.2},
    {"viola 40.5 cm", "viola", 405, 223.0, 148.5, 375.0, 157.9, 5.2},
    {"viola 41.0 cm", "viola", 410, 224.0, 149.5, 377.0, 158.1, 5.2},
    {"viola 41.5 cm", "viola", 415, 225.0, 150.0, 378.5, 158.4, 5.3},
    {"viola 42.0 cm", "viola", 420, 226.0, 150.5, 380.1, 158.6, 5.3},
    {"viola 42.5 cm", "viola", 425, 227.0, 151.5, 382.1, 158.8, 5.3},
    {"viola 43.0 cm", "viola", 430, 228.0, 152.0, 383.6, 159.0, 5.3},
    {"viola 43.5 cm", "viola", 435, 229.0, 152.5, 385.1, 159.2, 5.4},
    {"cello 4/4", "cello", 755, 400, 280, 689.1, 154.7, 6.3},
    {"cello 7/8", "cello", 730, 383, 268, 659.7, 154.9, 6.1},
    {"cello 3/4", "cello", 690, 362, 253.5, 623.7, 154.9, 5.7},
    {"cello 1/2", "cello", 645, 332, 232.5, 572.0, 155.3, 5.3},
    {"cello 1/4", "cello", 580, 297, 208, 511.7, 155.3, 4.7},
    {"bass 4/4 (rare)", "bass", 1160, 622, 452, 1093.2, 151.1, 8.8},
    {"bass 3/4, D neck", "bass", 1110, 603, 437, 1058.6, 150.6, 8.5},
    {"bass 3/4, E-flat neck", "bass", 1110, 578, 480, 1075.9, 152.0, 8.2},
    {"bass 1/2", "bass", 1020, 560, 404, 981.2, 150.1, 7.9},
    {"bass 1/4", "bass", 940, 515, 372, 902.8, 150.1, 7.3},
};

static void bare(const struct size *size, struct mensur_instrument *out) {
    mensur_instrument_init(out);
    check_status(size->name, mensur_text_copy(size->name, strlen(size->name), &out->name),
                 MENSUR_OK);
    check_status(size->name, mensur_text_copy(size->family, strlen(size->family), &out->family),
                 MENSUR_OK);
    demo_set(out, MENSUR_FIELD_BODY, size->body);
    demo_set(out, MENSUR_FIELD_STOP, size->stop);
    if (!isnan(size->neck)) {
        demo_set(out, MENSUR_FIELD_NECK, size->neck);
    }
}

static void profile_of(const struct demo *demo, const struct size *size,
                       struct mensur_profile *out) {
    struct mensur_instrument instrument;
    struct mensur_fault fault = {""};
    bare(size, &instrument);
    enum mensur_status status = mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                                   MENSUR_PART_LENGTHS, &fault, out);
    check_status(fault.text, status, MENSUR_OK);
    mensur_instrument_clear(&instrument);
}

static double degrees(double radians) {
    return mensur_from_si(MENSUR_ANGLE, radians);
}

/* With body, stop and neck alone every size has a set-up that could be built. */
static void every_size(void **state) {
    for (size_t i = 0; i < COUNT_OF(sizes); i++) {
        struct mensur_profile profile;
        profile_of(*state, &sizes[i], &profile);
        double angle = degrees(profile.lengths.break_angle);
        check_close(sizes[i].name, angle, sizes[i].angle, 0.16, 0);
        check_close(sizes[i].name, profile.lengths.string_length * 1e3, sizes[i].length, 0.1, 0);
        check_close(sizes[i].name, profile.lengths.clearance_at_board_end * 1e3, sizes[i].clearance,
                    0.12, 0);
        if (strcmp(sizes[i].family, "cello") == 0) {
            assert_true(angle > 153 && angle < 156.5);
        } else if (strcmp(sizes[i].family, "bass") != 0) {
            assert_true(angle > 156.5 && angle < 159.5);
        }
        if (profile.warnings.count > 0) {
            fail_msg("%s: %s", sizes[i].name, said(&profile.warnings, 0));
        }
        mensur_profile_clear(&profile);
    }
}

/* Usual values at a stop, mm: by hand, value (stop/reference)^power. */
static void by_hand(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family;
        enum mensur_field field;
        double stop, want; /* mm */
    } rows[] = {
        {"violin", MENSUR_FIELD_BRIDGE, 195, 32.5},
        {"violin", MENSUR_FIELD_BRIDGE, 171, 28.5},            /* 32.5 171/195 */
        {"violin", MENSUR_FIELD_NECK, 171, 114},               /* 2 : 3 */
        {"violin", MENSUR_FIELD_ARCH, 97.5, 8.41848},          /* 11.5 0.5^0.45 */
        {"violin", MENSUR_FIELD_OVERSTAND, 97.5, 4.59619},     /* 6.5 0.5^0.5 */
        {"violin", MENSUR_FIELD_BOARD, 97.5, 5.73983},         /* 8.7 0.5^0.6 */
        {"violin", MENSUR_FIELD_NUT, 97.5, 0.324900},          /* 0.4 0.5^0.3 */
        {"violin", MENSUR_FIELD_CLEARANCE_LOW, 97.5, 3.38565}, /* 5.5 0.5^0.7 */
        {"violin", MENSUR_FIELD_SPACING_NUT, 97.5, 9.81095},   /* 16.5 0.5^0.75 */
        {"violin", MENSUR_FIELD_FOOT_SPACING, 97.5, 16.6126},  /* 31 0.5^0.9 */
        {"violin", MENSUR_FIELD_HEEL, 97.5, 14.1421},          /* 20 0.5^0.5 */
        {"violin", MENSUR_FIELD_BRIDGE, NAN, 32.5},
        {"violin", MENSUR_FIELD_BODY, 195, NAN},
        {"viola", MENSUR_FIELD_BRIDGE, 225, 38.5},
        {"viola", MENSUR_FIELD_BRIDGE, 213, 36.4467}, /* 38.5 213/225 */
        {"viola", MENSUR_FIELD_BRIDGE, 211, 36.1044}, /* its own from here */
        {"viola", MENSUR_FIELD_BRIDGE, 205, 34.1667}, /* a violin's, 32.5 205/195, to here */
        {"viola", MENSUR_FIELD_BRIDGE, 208, 35.1356}, /* the middle of the two */
        {"viola", MENSUR_FIELD_OVERSTAND, 195, 6.5},
        {"viola", MENSUR_FIELD_NECK, 222, 148},
        {"cello", MENSUR_FIELD_BRIDGE, 400, 88.5},
        {"cello", MENSUR_FIELD_NECK, 362, 253.4}, /* 7 : 10 */
        {"bass", MENSUR_FIELD_BRIDGE, 603, 158.7},
        {"bass", MENSUR_FIELD_FOOT_SPACING, 603, NAN},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct mensur_family *family = mensur_stock_family(&demo->shop.stock, rows[i].family);
        double got =
            mensur_family_usual(&demo->shop.stock, family, rows[i].field, rows[i].stop / 1e3);
        check_close(mensur_field_info(rows[i].field)->name, got * 1e3, rows[i].want, 0, 1e-5);
    }
    check_close("no family", mensur_family_usual(&demo->shop.stock, NULL, MENSUR_FIELD_ARCH, 0.2),
                NAN, 0, 0);
}

/* A bass's neck puts the thumb in its heel eight semitones above the open string: D on the G
 * string for the first finger, a semitone lower. The string is the side view's. */
static void bass_necks(void **state) {
    const struct demo *demo = *state;
    const struct mensur_family *bass = mensur_stock_family(&demo->shop.stock, "bass");
    static const double stops[] = {515, 560, 578, 603, 622};
    for (size_t i = 0; i < COUNT_OF(stops); i++) {
        const struct size size = {
            .name = "bass", .family = "bass", .body = 1100, .stop = stops[i], .neck = NAN};
        struct mensur_profile profile;
        profile_of(demo, &size, &profile);
        double length = profile.lengths.string_length;
        double heel =
            mensur_family_usual(&demo->shop.stock, bass, MENSUR_FIELD_HEEL, stops[i] / 1e3);
        check_close("semitones", 12 * log2(length / (length - (profile.lengths.neck - heel))), 8,
                    0.005, 0);
        mensur_profile_clear(&profile);
    }
}

/* Without a neck the usual one is assumed; with a measured string nothing is invented. */
static void no_neck(void **state) {
    const struct demo *demo = *state;
    struct size size = {.name = "plan", .family = "viola", .body = 405, .stop = 220, .neck = NAN};
    struct mensur_profile profile;
    struct mensur_instrument measured;
    struct mensur_fault fault = {""};
    profile_of(demo, &size, &profile);
    check_close("neck", profile.lengths.neck * 1e3, 146.6667, 0, 1e-6);
    assert_string_equal(profile.assumed.items[1].field, "neck");
    assert_true(profile.assumed.items[1].scaled);
    mensur_profile_clear(&profile);
    /* a change of the stop takes it along; one of the neck sets it */
    static const struct {
        struct mensur_change change;
        double neck; /* mm */
    } rows[] = {{{.field = MENSUR_FIELD_STOP, .relative = true, .value = {0.003, 0}}, 148.6667},
                {{.field = MENSUR_FIELD_NECK, .relative = true, .value = {0.003, 0}}, 149.6667},
                {{.field = MENSUR_FIELD_BRIDGE, .relative = true, .value = {0.001, 0}}, 146.6667}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_comparison c;
        bare(&size, &measured);
        check_status("change",
                     mensur_ask_change(&demo->shop.stock, &measured, &rows[i].change, 1,
                                       &demo->terms, &fault, &c),
                     MENSUR_OK);
        check_close("changed", c.instruments[1].lengths.neck * 1e3, rows[i].neck, 0, 1e-6);
        mensur_comparison_clear(&c);
        mensur_instrument_clear(&measured);
    }
    size.stop = 225;
    profile_of(demo, &size, &profile);
    check_close("neck", profile.lengths.neck * 1e3, 150, 0, 1e-12);
    assert_false(profile.assumed.items[1].scaled);
    mensur_profile_clear(&profile);
    bare(&size, &measured);
    demo_set(&measured, MENSUR_FIELD_STRING_LENGTH, 372);
    check_status("measured",
                 mensur_ask_profile(&demo->shop.stock, &measured, &demo->terms, MENSUR_PART_LENGTHS,
                                    &fault, &profile),
                 MENSUR_OK);
    check_close("neck", profile.lengths.neck, NAN, 0, 0);
    check_close("angle", profile.lengths.break_angle, NAN, 0, 0);
    mensur_profile_clear(&profile);
    mensur_instrument_clear(&measured);
}

/* Outer clearances go with the size, and the mean that one of them stands for. */
static void one_clearance(void **state) {
    const struct demo *demo = *state;
    static const struct {
        const char *family;
        double stop, low, want; /* mm */
    } rows[] = {{"violin", 195, 5.5, 4.5},
                {"violin", 97.5, 3.38565, 2.77008}, /* less 0.5^0.7 */
                {"cello", 400, 8, 6.5}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct size size = {.name = "x",
                                  .family = rows[i].family,
                                  .body = 2 * rows[i].stop,
                                  .stop = rows[i].stop,
                                  .neck = 2 * rows[i].stop / 3};
        struct mensur_instrument instrument;
        struct mensur_profile profile;
        struct mensur_fault fault = {""};
        bare(&size, &instrument);
        demo_set(&instrument, MENSUR_FIELD_CLEARANCE_LOW, rows[i].low);
        check_status("profile",
                     mensur_ask_profile(&demo->shop.stock, &instrument, &demo->terms,
                                        MENSUR_PART_LENGTHS, &fault, &profile),
                     MENSUR_OK);
        check_close("mean", profile.lengths.clearance_at_board_end * 1e3, rows[i].want, 0, 1e-5);
        mensur_profile_clear(&profile);
        mensur_instrument_clear(&instrument);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_size), cmocka_unit_test(by_hand),
                                       cmocka_unit_test(bass_necks), cmocka_unit_test(no_neck),
                                       cmocka_unit_test(one_clearance)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
