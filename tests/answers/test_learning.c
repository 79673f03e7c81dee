/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shop teaches, by figures worked by hand; tests/cli/learn.py has whole shops. */
#include "demo.h"
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

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(medians), cmocka_unit_test(slips)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
