/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shop teaches, by figures worked by hand; tests/cli/learn.py has whole shops. */
#include "demo.h"
#include "instrument.h"
#include "learning.h"

#define MOST 10

/* Nuts of violins with a stop of 195 mm; their median and spread, worked by hand: of fewer than ten
 * the sample's standard deviation, from ten on 1.4826 times the median distance from the median,
 * unless that is 0. */
static const struct {
    size_t count;
    double nuts[MOST], median, spread; /* mm */
} rows[] = {
    {5, {0.60, 0.38, 0.44, 0.40, 0.42}, 0.42, 0.0878635305460},
    {6, {0.40, 0.40, 0.40, 0.40, 0.40, 0.40}, 0.40, 0.0},
    {6, {0.38, 0.40, 0.41, 0.43, 0.44, 0.46}, 0.42, 0.0289827534924},
    {10, {0.36, 0.90, 0.38, 0.40, 0.40, 0.42, 0.42, 0.44, 0.46, 0.48}, 0.42, 0.044478},
    {10, {0.40, 0.40, 0.40, 0.40, 0.40, 0.40, 0.40, 0.40, 0.40, 0.50}, 0.40, 0.0316227766017},
};

static struct mensur_learnt learn(const struct demo *demo, size_t count, const double *nuts,
                                  struct mensur_texts *said, struct mensur_learning **learning) {
    const struct mensur_stock *stock = &demo->shop.stock;
    const struct mensur_family *violin = mensur_stock_family(stock, "violin");
    struct mensur_learnt learnt;
    assert_int_equal(mensur_learning_begin(stock, learning), MENSUR_OK);
    for (size_t i = 0; i < count; i++) {
        struct mensur_instrument instrument;
        demo_model_violin(&instrument);
        demo_set(&instrument, MENSUR_FIELD_NUT, nuts[i]);
        assert_int_equal(mensur_learning_add(*learning, violin, &instrument, "shop.csv", said),
                         MENSUR_OK);
        mensur_instrument_clear(&instrument);
    }
    assert_int_equal(mensur_learning_row(*learning, (size_t)(violin - stock->families), &learnt),
                     MENSUR_OK);
    return learnt;
}

static void medians(void **state) {
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct mensur_learning *learning = NULL;
        struct mensur_texts said = {0};
        struct mensur_learnt learnt = learn(*state, rows[i].count, rows[i].nuts, &said, &learning);
        assert_true(learnt.learnt);
        assert_int_equal(said.count, 0);
        check_close("stop", learnt.row.usual[MENSUR_FIELD_STOP] * 1000.0, 195.0, 1e-12, 0);
        check_close("nut", learnt.row.usual[MENSUR_FIELD_NUT] * 1000.0, rows[i].median, 1e-12, 0);
        check_close("spread", learnt.row.spread[MENSUR_FIELD_NUT] * 1000.0, rows[i].spread, 1e-12,
                    0);
        /* what nobody states is the family's */
        check_close("saddle", learnt.row.usual[MENSUR_FIELD_SADDLE] * 1000.0, 4.0, 1e-12, 0);
        mensur_learning_free(learning);
    }
}

static void slips(void **state) {
    static const double five[] = {0.4, 40.0, 0.42, 0.44, 0.46}, four[] = {0.4, 0.4, 0.4, 0.4};
    struct mensur_learning *learning = NULL;
    struct mensur_texts said = {0};
    struct mensur_learnt learnt = learn(*state, 5, five, &said, &learning);
    assert_true(learnt.learnt);
    assert_int_equal(said.count, 1);
    assert_non_null(strstr(said.items[0], "nut 40"));
    assert_non_null(strstr(said.items[0], "left out"));
    /* four are left: the family's */
    check_close("nut", learnt.row.usual[MENSUR_FIELD_NUT] * 1000.0, 0.4, 1e-12, 0);
    check_close("spread", learnt.row.spread[MENSUR_FIELD_NUT] * 1000.0, 0.1, 1e-12, 0);
    mensur_texts_clear(&said);
    mensur_learning_free(learning);
    learnt = learn(*state, 4, four, &said, &learning);
    assert_false(learnt.learnt);
    assert_int_equal(learnt.instruments, 4);
    mensur_learning_free(learning);
    mensur_learning_free(NULL);
}

static const char families[] =
    "name,held,frame_semitones,positions,stop,neck,bridge,projection,clearance_low,clearance_high,"
    "clearance_low_offset,board_share,afterlength_share,like,source\n"
    "violin,chin,5,violin,195,130,33,27,5.5,3.5,,0.82,0.166,,a book\n"
    "long,chin,5,violin,,,,,,,0.2,0.9,0.2,violin,the shop's own: 7 instruments\n"
    "short,chin,5,violin,,,,,,,,,,violin,the shop's own: 7 instruments; the rest: a book\n"
    "plain,chin,5,violin,195,130,,,,,,,,,\n"
    "tall,chin,5,violin,195,130,60,10,,,,,,,\n";

/* Five instruments of a family with these heights, mm; NaN: not stated. */
static struct mensur_learnt learn_heights(const struct mensur_stock *stock, const char *name,
                                          double bridge, double projection,
                                          struct mensur_learning *learning) {
    const struct mensur_family *family = mensur_stock_family(stock, name);
    struct mensur_texts said = {0};
    struct mensur_learnt learnt;
    for (int i = 0; i < 5; i++) {
        struct mensur_instrument instrument;
        mensur_instrument_init(&instrument);
        demo_set(&instrument, MENSUR_FIELD_STOP, 195);
        demo_set(&instrument, MENSUR_FIELD_BRIDGE, bridge);
        demo_set(&instrument, MENSUR_FIELD_PROJECTION, projection);
        assert_int_equal(mensur_learning_add(learning, family, &instrument, "shop.csv", &said),
                         MENSUR_OK);
    }
    if (said.count > 0) {
        fail_msg("%s", said.items[0]);
    }
    assert_int_equal(mensur_learning_row(learning, (size_t)(family - stock->families), &learnt),
                     MENSUR_OK);
    assert_true(learnt.learnt);
    return learnt;
}

/* What a row says itself stays where nobody states it; heights that no pair is known of stand by
 * themselves, and a bridge lower than the pair is apart moves no projection. */
static void rows_of_a_shop(void **state) {
    static const struct {
        const char *family;
        double bridge, projection;         /* of the five, mm */
        double row_bridge, row_projection; /* learnt, mm */
        double board, afterlength, offset; /* shares, mm; NaN: left empty */
        const char *source;
    } shops[] = {
        {"long", 35, 28, 35, 28, 0.9, 0.2, 0.2, "the shop's own: 5 instruments"},
        {"short", 35, NAN, 35, 29, NAN, NAN, NAN,
         "the shop's own: 5 instruments; the rest: a book"},
        {"plain", 35, NAN, 35, NAN, NAN, NAN, NAN, "the shop's own: 5 instruments"},
        {"plain", NAN, 28, NAN, 28, NAN, NAN, NAN, "the shop's own: 5 instruments"},
        {"tall", 48, NAN, 60, 10, NAN, NAN, NAN, "the shop's own: 5 instruments"},
    };
    const struct mensur_bytes bytes = {MENSUR_TABLE_FAMILIES, (const unsigned char *)families,
                                       strlen(families)};
    struct mensur_report report = {.errors = {0}};
    struct mensur_shop shop;
    (void)state;
    check_status("shop", mensur_shop_open_bytes("test", &bytes, 1, &report, &shop), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(shops); i++) {
        struct mensur_learning *learning = NULL;
        assert_int_equal(mensur_learning_begin(&shop.stock, &learning), MENSUR_OK);
        const struct mensur_learnt learnt = learn_heights(
            &shop.stock, shops[i].family, shops[i].bridge, shops[i].projection, learning);
        check_close("bridge", learnt.row.usual[MENSUR_FIELD_BRIDGE] * 1000, shops[i].row_bridge,
                    1e-12, 0);
        check_close("projection", learnt.row.usual[MENSUR_FIELD_PROJECTION] * 1000,
                    shops[i].row_projection, 1e-12, 0);
        check_close("board", learnt.row.board_share, shops[i].board, 0, 0);
        check_close("afterlength", learnt.row.afterlength_share, shops[i].afterlength, 0, 0);
        check_close("offset", learnt.row.clearance_low_offset * 1000, shops[i].offset, 1e-12, 0);
        assert_string_equal(learnt.row.source, shops[i].source);
        mensur_learning_free(learning);
    }
    mensur_shop_clear(&shop);
}

/* A row of another unit teaches nothing at all, and is said once. */
static void row_in_centimetres(void **state) {
    const struct demo *demo = *state;
    const struct mensur_stock *stock = &demo->shop.stock;
    const struct mensur_family *violin = mensur_stock_family(stock, "violin");
    struct mensur_learning *learning = NULL;
    struct mensur_texts said = {0};
    struct mensur_learnt learnt;
    struct mensur_instrument instrument;
    demo_model_violin(&instrument);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        instrument.measure[f].value /= 10;
    }
    assert_int_equal(mensur_learning_begin(stock, &learning), MENSUR_OK);
    assert_int_equal(mensur_learning_add(learning, violin, &instrument, "shop.csv", &said),
                     MENSUR_OK);
    assert_int_equal(said.count, 1);
    assert_non_null(strstr(said.items[0], "left out"));
    assert_int_equal(mensur_learning_row(learning, (size_t)(violin - stock->families), &learnt),
                     MENSUR_OK);
    assert_int_equal(learnt.instruments, 0);
    assert_int_equal(learnt.without_stop, 1);
    mensur_texts_clear(&said);
    mensur_instrument_clear(&instrument);
    mensur_learning_free(learning);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(medians), cmocka_unit_test(slips),
                                       cmocka_unit_test(rows_of_a_shop),
                                       cmocka_unit_test(row_in_centimetres)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
