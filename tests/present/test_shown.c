/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "letters.h"
#include "shown.h"

static const struct mensur_style metric = {0};
static const struct mensur_style inches = {.inches = true, .force_unit = MENSUR_FORCE_LB};
static const struct mensur_style newtons = {.force_unit = MENSUR_FORCE_N};
static const struct mensur_style full = {.full = true};

static const struct {
    const struct mensur_style *style;
    enum mensur_kind kind;
    double value;
    const char *bare, *unit;
} rows[] = {
    {&metric, MENSUR_LENGTH, 0.36193, "361.9", "mm"},
    {&inches, MENSUR_LENGTH, 0.36193, "14.25", "in"}, /* 361.93 / 25.4 */
    {&newtons, MENSUR_LENGTH, -0.00304, "-3.0", "mm"},
    {&newtons, MENSUR_FORCE, 62.37, "62.4", "N"},
    {&metric, MENSUR_FORCE, 62.37, "6.4", "kg"},  /* 62.37 / 9.80665 */
    {&inches, MENSUR_FORCE, 62.37, "14.0", "lb"}, /* 62.37 / 4.4482216152605 */
    {&metric, MENSUR_ANGLE, 2.7633, "158.3", "deg"},
    {&metric, MENSUR_SEMITONES, 8.64, "8.6", "semitones"},
    {&metric, MENSUR_LINEAR_DENSITY, 0.000893, "0.893", "g/m"},
    {&metric, MENSUR_STRESS, 314.4e6, "314", "MPa"},
    {&metric, MENSUR_LINEAR_DENSITY, 0.004907, "4.91", "g/m"},
    {&metric, MENSUR_LINEAR_DENSITY, 0.02493, "24.9", "g/m"},
    {&metric, MENSUR_FREQUENCY, 195.5556, "195.6", "Hz"},
    {&metric, MENSUR_NUMBER, 0.5, "0.5", ""},
    {&metric, MENSUR_LENGTH, NAN, "?", "mm"},
    {&metric, MENSUR_LENGTH, INFINITY, "?", "mm"},
    {&newtons, MENSUR_FORCE, 3.7e22, "3.7e+22", "N"}, /* no table breaks */
    {&newtons, MENSUR_FORCE, -3.7e22, "-4e+22", "N"},
    {&metric, MENSUR_LENGTH, -1e-7, "0.0", "mm"},
};

static void test_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_string_equal(mensur_show(rows[i].style, rows[i].kind, rows[i].value).text,
                            rows[i].bare);
        assert_string_equal(mensur_shown_unit(rows[i].style, rows[i].kind), rows[i].unit);
        struct mensur_shown whole = mensur_show_unit(rows[i].style, rows[i].kind, rows[i].value);
        check_holds(whole.text, rows[i].bare);
        check_holds(whole.text, rows[i].unit);
    }
}

static void test_differences(void **state) {
    (void)state;
    static const struct {
        double value;
        const char *want;
    } of[] = {{0.0065, "+6.5"},  {-0.0065, "-6.5"}, {0.00004, "0.0"},
              {-0.00004, "0.0"}, {NAN, "?"},        {0, "0.0"}};
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        assert_string_equal(mensur_show_difference(&metric, MENSUR_LENGTH, of[i].value).text,
                            of[i].want);
    }
}

static void test_ranges(void **state) {
    (void)state;
    static const struct {
        double low, high;
        const char *want;
    } of[] = {
        {0.368, 0.376, "368.0 to 376.0" MENSUR_NO_BREAK "mm"},
        {0.368, NAN, "368.0" MENSUR_NO_BREAK "mm or more"},
        {NAN, 0.376, "up to 376.0" MENSUR_NO_BREAK "mm"},
        {0.37601, 0.37602, "376.0" MENSUR_NO_BREAK "mm"},
        {NAN, NAN, "any"},
    };
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        assert_string_equal(mensur_show_range(&metric, MENSUR_LENGTH, of[i].low, of[i].high).text,
                            of[i].want);
    }
    assert_string_equal(mensur_show_ratio_range(&metric, 2.8, NAN).text,
                        "2" MENSUR_NO_BREAK ":" MENSUR_NO_BREAK "2.80 or more");
}

static void test_narrow(void **state) {
    (void)state;
    assert_string_equal(mensur_show_within(&newtons, MENSUR_FORCE, 1234.56, 5).text, "1235");
    assert_string_equal(mensur_show_within(&newtons, MENSUR_FORCE, 123.456, 5).text, "123.5");
    /* two digits of a force: 1.317 N is 0.134 kg */
    assert_string_equal(mensur_show_finer(&metric, MENSUR_FORCE, 1.317).text, "0.13");
    assert_string_equal(mensur_show_finer(&newtons, MENSUR_FORCE, 1.317).text, "1.3");
    assert_string_equal(mensur_show_finer(&newtons, MENSUR_FORCE, 13.17).text, "13");
    assert_string_equal(mensur_show_finer(&newtons, MENSUR_FORCE, 0.01317).text, "0.013");
    assert_string_equal(mensur_show_unit(&full, MENSUR_FORCE, 62.37).text,
                        "6.4" MENSUR_NO_BREAK "kg" MENSUR_NO_BREAK "(62.4" MENSUR_NO_BREAK "N)");
    assert_string_equal(mensur_show_number(2.96666, 2, 7).text, "2.97");
    assert_string_equal(mensur_show_number(NAN, 2, 7).text, "?");
}

/* A ± ends where the value ends, with one or two digits. */
static void test_plus_minus(void **state) {
    (void)state;
    static const struct {
        const struct mensur_style *style;
        enum mensur_kind kind;
        double value;
        const char *want;
    } sure[] = {
        {&metric, MENSUR_LENGTH, 0.000493, "0.5"},   {&metric, MENSUR_LENGTH, 0.00306, "3.1"},
        {&metric, MENSUR_LENGTH, 0.0126, "13"},      {&metric, MENSUR_LENGTH, 0.000012, "0.01"},
        {&metric, MENSUR_LENGTH, 0.00095, "0.9"},    {&inches, MENSUR_LENGTH, 0.000493, "0.02"},
        {&metric, MENSUR_SEMITONES, 0.0153, "0.02"}, {&newtons, MENSUR_FORCE, 0.94, "0.9"},
        {&metric, MENSUR_LENGTH, NAN, "?"},
    };
    for (size_t i = 0; i < COUNT_OF(sure); i++) {
        assert_string_equal(mensur_show_plus_minus(sure[i].style, sure[i].kind, sure[i].value).text,
                            sure[i].want);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),        cmocka_unit_test(test_plus_minus),
        cmocka_unit_test(test_differences), cmocka_unit_test(test_ranges),
        cmocka_unit_test(test_narrow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
