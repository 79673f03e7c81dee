/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading and printing numbers in any locale: rows, round trips, and comparison with the exact
 * arithmetic of the C library. */
#include "check.h"

#include <float.h>
#include <locale.h>
#include <stdint.h>

#include "number.h"

struct reading_row {
    const char *text;
    bool comma;
    enum mensur_status status;
    size_t used;
    double value;
};

static const struct reading_row readings[] = {
    {"222", false, MENSUR_OK, 3, 222.0},
    {"+222.5", false, MENSUR_OK, 6, 222.5},
    {"-0.75 mm", false, MENSUR_OK, 5, -0.75},
    {"8.75in", false, MENSUR_OK, 4, 8.75},
    {"8-3/4", false, MENSUR_OK, 1, 8.0},
    {".5", false, MENSUR_OK, 2, 0.5},
    {"5.", false, MENSUR_OK, 1, 5.0},
    {"5.mm", false, MENSUR_OK, 1, 5.0},
    {"1,5", false, MENSUR_OK, 1, 1.0},
    {"1,5", true, MENSUR_OK, 3, 1.5},
    {"1.5", true, MENSUR_OK, 3, 1.5},
    {"1.234,5", true, MENSUR_OK, 5, 1.234},
    {"1,234.5", true, MENSUR_OK, 5, 1.234},
    {"3e2", false, MENSUR_OK, 3, 300.0},
    {"3E-2x", false, MENSUR_OK, 4, 0.03},
    {"3e", false, MENSUR_OK, 1, 3.0},
    {"3e+", false, MENSUR_OK, 1, 3.0},
    {"0x10", false, MENSUR_OK, 1, 0.0},
    {"007.250", false, MENSUR_OK, 7, 7.25},
    {"0000", false, MENSUR_OK, 4, 0.0},
    {"0.000000000000000000000000000000000000000123", false, MENSUR_OK, 44, 1.23e-40},
    {"123456789012345678901234567890", false, MENSUR_OK, 30, 123456789012345678901234567890.0},
    {"9007199254740993", false, MENSUR_OK, 16, 9007199254740992.0}, /* 2^53 + 1: a tie, to even */
    {"9007199254740993.00000000000000000000000000000001", false, MENSUR_OK, 49, 9007199254740994.0},
    {"0.1", false, MENSUR_OK, 3, 0.1},
    {"1e23", false, MENSUR_OK, 4, 1e23},
    {"2.2250738585072011e-308", false, MENSUR_OK, 23, 2.2250738585072011e-308},
    {"1e-400", false, MENSUR_OK, 6, 0.0},
    {"1.7976931348623157e308", false, MENSUR_OK, 22, DBL_MAX},
    {"1e309", false, MENSUR_DOMAIN, 0, 0},
    {"1e99999999999", false, MENSUR_DOMAIN, 0, 0},
    {"", false, MENSUR_DATA, 0, 0},
    {"-", false, MENSUR_DATA, 0, 0},
    {".", false, MENSUR_DATA, 0, 0},
    {",5", false, MENSUR_DATA, 0, 0},
    {" 5", false, MENSUR_DATA, 0, 0},
    {"inf", false, MENSUR_DATA, 0, 0},
    {"nan", false, MENSUR_DATA, 0, 0},
    {"+-5", false, MENSUR_DATA, 0, 0},
    {"e5", false, MENSUR_DATA, 0, 0},
};

static void check_readings(void) {
    for (size_t i = 0; i < COUNT_OF(readings); i++) {
        const struct reading_row *row = &readings[i];
        size_t used = 77;
        double value = 4.25;
        check_status(row->text,
                     mensur_number_read(row->text, strlen(row->text), row->comma, &used, &value),
                     row->status);
        check_close(row->text, value, row->status == MENSUR_OK ? row->value : 4.25, 0, 0);
        assert_int_equal(used, row->status == MENSUR_OK ? row->used : 77);
    }
}

static void reads(void **state) {
    (void)state;
    check_readings();
}

static void reads_no_further_than_told(void **state) {
    (void)state;
    size_t used;
    double value;
    check_status("2225", mensur_number_read("2225", 3, false, &used, &value), MENSUR_OK);
    check_close("2225", value, 222.0, 0, 0);
    check_status("1.5", mensur_number_read("1.5", 2, false, &used, &value), MENSUR_OK);
    check_close("1.5", value, 1.0, 0, 0);
    assert_int_equal(used, 1);
}

/* 0.333... with ten thousand digits, and a number that only its last digit distinguishes from a tie
 */
static void reads_long_ones(void **state) {
    (void)state;
    static char text[12000];
    size_t used;
    double value;
    memset(text, '3', 10000);
    text[0] = '0';
    text[1] = '.';
    check_status("long", mensur_number_read(text, 10000, false, &used, &value), MENSUR_OK);
    check_close("long", value, 1.0 / 3.0, 0, 0);
    assert_int_equal(used, 10000);
    snprintf(text, sizeof(text), "%s", "9007199254740993.");
    memset(text + 17, '0', 9000);
    text[17 + 8999] = '1';
    check_status("tie", mensur_number_read(text, 9017, false, &used, &value), MENSUR_OK);
    check_close("tie", value, 9007199254740994.0, 0, 0);
}

/* 0 with an exponent of 400; a decimal point after more digits than are kept; more digits than are
 * read. */
static void reads_extreme_lengths(void **state) {
    (void)state;
    static char text[100100];
    size_t used = 0;
    double value = 1.5;
    check_status("0e400", mensur_number_read("0e400", 5, false, &used, &value), MENSUR_OK);
    check_close("0e400", value, 0, 0, 0);
    assert_int_equal(used, 5);
    memset(text, '0', sizeof text);
    memcpy(text, "0.125", 5);
    check_status("long", mensur_number_read(text, sizeof text, false, &used, &value), MENSUR_OK);
    check_close("long", value, 0.125, 0, 0);
    assert_int_equal(used, 100000);
    memcpy(text, "7", 1);
    memset(text + 1, '0', 899);
    memcpy(text + 900, ".25e-900", 9);
    check_status("point", mensur_number_read(text, 908, false, &used, &value), MENSUR_OK);
    check_close("point", value, 0.7, 0, 0);
    assert_int_equal(used, 908);
    check_status("exponent without digits", mensur_number_read("3e+x", 4, false, &used, &value),
                 MENSUR_OK);
    check_close("exponent without digits", value, 3, 0, 0);
    assert_int_equal(used, 1);
}

struct printing_row {
    double value;
    int decimals;
    const char *text;
};

static const struct printing_row printings[] = {
    {375.8456, 1, "375.8"},
    {0.05, 1, "0.1"},   /* the double above 0.05 */
    {0.25, 1, "0.2"},   /* a tie, to even */
    {0.75, 1, "0.8"},   /* a tie, to even */
    {2.5, 0, "2"},      /* a tie, to even */
    {3.5, 0, "4"},      /* a tie, to even */
    {1.005, 2, "1.00"}, /* the double below 1.005 */
    {-0.04, 1, "0.0"},
    {-0.0, 3, "0.000"},
    {-0.06, 1, "-0.1"},
    {0.0, 0, "0"},
    {999.96, 1, "1000.0"},
    {999.9999, 4, "999.9999"},
    {999.99996, 4, "1000.0000"},
    {9.999999, 6, "9.999999"},
    {-10.0, 6, "-10.000000"},
    {0.0000005, 6, "0.000000"}, /* the double below it */
    {0.0000011, 6, "0.000001"},
    {12345.678949999999, 4, "12345.6789"},
    {1e20, 2, "100000000000000000000.00"},
    {1e-300, 2, "0.00"},
    {2.75, -3, "3"}, /* at least 0 decimals */
    {0.1, 99, "0.10000000000000001"},
    {-1e-300, 17, "0.00000000000000000"},
    {0.1, 17, "0.10000000000000001"},
    {NAN, 2, "?"},
    {INFINITY, 2, "?"},
};

static void check_printings(void) {
    char text[MENSUR_NUMBER_ROOM];
    for (size_t i = 0; i < COUNT_OF(printings); i++) {
        size_t length = mensur_number_print(printings[i].value, printings[i].decimals, text);
        assert_string_equal(text, printings[i].text);
        assert_int_equal(length, strlen(text));
    }
}

static void prints(void **state) {
    (void)state;
    check_printings();
    char text[MENSUR_NUMBER_ROOM];
    assert_int_equal(mensur_number_print(-DBL_MAX, 17, text), 1 + 309 + 1 + 17);
}

static const struct printing_row significants[] = {
    {375.8456, 6, "375.846"},
    {375.8456, 0, "4e+02"}, /* at least 1 digit */
    {0.1, 99, "0.10000000000000001"},
    {375.8, 6, "375.8"},
    {200.0, 6, "200"},
    {123456.4, 6, "123456"},
    {999999.6, 6, "1e+06"},
    {99999.96, 6, "100000"},
    {0.00999999999, 6, "0.01"},
    {0.01, 6, "0.01"},
    {0.001234567, 6, "0.00123457"},
    {0.0001234567, 6, "0.000123457"},
    {0.00001234567, 6, "1.23457e-05"},
    {-2.5, 1, "-2"},
    {0.0, 6, "0"},
    {-0.0, 6, "0"},
    {0.1, 17, "0.10000000000000001"},
    {1.0 / 3.0, 15, "0.333333333333333"},
    {NAN, 6, "?"},
    {-INFINITY, 6, "?"},
};

static void check_significants(void) {
    char text[MENSUR_NUMBER_ROOM];
    for (size_t i = 0; i < COUNT_OF(significants); i++) {
        size_t length =
            mensur_number_print_significant(significants[i].value, significants[i].decimals, text);
        assert_string_equal(text, significants[i].text);
        assert_int_equal(length, strlen(text));
    }
}

static void prints_significant(void **state) {
    (void)state;
    check_significants();
}

static uint64_t next_random(uint64_t *seed) {
    *seed ^= *seed << 13; /* xorshift (Marsaglia 2003) */
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

/* In turn a double of random bits, if finite, and a number of usual size. */
static double random_double(uint64_t *seed, int turn) {
    uint64_t bits = next_random(seed);
    double value;
    if (turn % 2 == 1) {
        return (double)(int64_t)(bits >> 24) / 1048576.0 / (double)(1 + next_random(seed) % 1000);
    }
    memcpy(&value, &bits, sizeof(value));
    return isfinite(value) ? value : 1.5;
}

/* The C library's printf and strtod, in the C locale, round exactly: they are the reference. */
static void agrees_with_exact_arithmetic(void **state) {
    (void)state;
    uint64_t seed = UINT64_C(88172645463325252);
    char mine[MENSUR_NUMBER_ROOM], theirs[MENSUR_NUMBER_ROOM];
    for (int i = 0; i < 60000; i++) {
        double value = random_double(&seed, i), back;
        size_t used;
        int digits = 1 + (int)(next_random(&seed) % 17);
        snprintf(theirs, sizeof(theirs), "%.*g", digits, value);
        mensur_number_print_significant(value, digits, mine);
        if (strcmp(theirs, "-0") != 0) {
            assert_string_equal(mine, theirs);
        }
        check_status(theirs, mensur_number_read(theirs, strlen(theirs), false, &used, &back),
                     isinf(strtod(theirs, NULL)) ? MENSUR_DOMAIN : MENSUR_OK);
        check_close(theirs, back, isinf(strtod(theirs, NULL)) ? back : strtod(theirs, NULL), 0, 0);
        snprintf(theirs, sizeof(theirs), "%.*f", digits, value);
        mensur_number_print(value, digits, mine);
        if (theirs[0] != '-' || strspn(theirs, "-0.") < strlen(theirs)) {
            assert_string_equal(mine, theirs);
        }
    }
}

static void returns_what_it_printed(void **state) {
    (void)state;
    uint64_t seed = UINT64_C(3141592653589793);
    char text[MENSUR_NUMBER_ROOM];
    for (int i = 0; i < 20000; i++) {
        double value = random_double(&seed, i), back = NAN;
        size_t used, length = mensur_number_print_significant(value, 17, text);
        check_status(text, mensur_number_read(text, length, false, &used, &back), MENSUR_OK);
        check_close(text, back, value, 0, 0);
        assert_int_equal(used, length);
    }
}

static void trusts_no_locale(void **state) {
    (void)state;
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "cs_CZ.UTF-8",
                                        "ps_AF.UTF-8"};
    bool any = false;
    for (size_t i = 0; i < COUNT_OF(names); i++) {
        if (setlocale(LC_ALL, names[i]) != NULL) {
            any = true;
            check_readings();
            check_printings();
            check_significants();
        }
    }
    setlocale(LC_ALL, "C");
    if (!any) {
        print_message("# no locale with a decimal comma here\n");
        return;
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads),
        cmocka_unit_test(reads_no_further_than_told),
        cmocka_unit_test(reads_long_ones),
        cmocka_unit_test(reads_extreme_lengths),
        cmocka_unit_test(prints),
        cmocka_unit_test(prints_significant),
        cmocka_unit_test(agrees_with_exact_arithmetic),
        cmocka_unit_test(returns_what_it_printed),
        cmocka_unit_test(trusts_no_locale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
