/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wishes as they are typed. */
#include "ask.h"
#include "check.h"

#define OPEN NAN

static const struct {
    const char *text;
    enum mensur_wish_kind kind;
    double low, high; /* SI */
    const char *note;
    bool percent;
} good[] = {
    {"368..376", MENSUR_WISH_STRING_LENGTH, 0.368, 0.376, "", false},
    {"368.5..376,25", MENSUR_WISH_STRING_LENGTH, 0.3685, 0.37625, "", false},
    {"14.5in..37.6 cm", MENSUR_WISH_STRING_LENGTH, 0.3683, 0.376, "", false},
    {"14-1/2\"..", MENSUR_WISH_STRING_LENGTH, 0.3683, OPEN, "", false},
    {"..560", MENSUR_WISH_LEFT_REACH, OPEN, 0.560, "", false},
    {"370..370", MENSUR_WISH_STRING_LENGTH, 0.370, 0.370, "", false},
    {"2:2.9..2:3.1", MENSUR_WISH_RATIO, 2.9, 3.1, "", false},
    {"3:4.5..", MENSUR_WISH_RATIO, 3.0, OPEN, "", false},
    {"8.4..8.9", MENSUR_WISH_BODY_NOTE, 8.4, 8.9, "", false},
    {"A4=50..58", MENSUR_WISH_TENSION, 50, 58, "A4", false},
    {"Bb2=5kgf..", MENSUR_WISH_TENSION, 49.03325, OPEN, "Bb2", false},
    {"95%..105%", MENSUR_WISH_TENSION, 0.95, 1.05, "", true},
    {"C3=..102.5%", MENSUR_WISH_TENSION, OPEN, 1.025, "C3", true},
    {"180..220", MENSUR_WISH_TOTAL_TENSION, 180, 220, "", false},
    /* the unit of one end is that of the other */
    {"A4=5..6kg", MENSUR_WISH_TENSION, 49.03325, 58.8399, "A4", false},
    {"A4=5 kg..6", MENSUR_WISH_TENSION, 49.03325, 58.8399, "A4", false},
    {"A4=50N..6kg", MENSUR_WISH_TENSION, 50, 58.8399, "A4", false},
    {"4-5kg", MENSUR_WISH_BELLY_FORCE, 39.2266, 49.03325, "", false},
    {"..20lbf", MENSUR_WISH_BELLY_FORCE, OPEN, 88.964432305210, "", false},
    /* a hyphen parts two ends, but not a mixed number and no exponent */
    {"370-380", MENSUR_WISH_STRING_LENGTH, 0.370, 0.380, "", false},
    {"370 - 38 cm", MENSUR_WISH_STRING_LENGTH, 0.370, 0.380, "", false},
    {"14-1/2\"-14-3/4\"", MENSUR_WISH_STRING_LENGTH, 0.3683, 0.37465, "", false},
    {"14-1/2\"..15\"", MENSUR_WISH_STRING_LENGTH, 0.3683, 0.381, "", false},
    {"2:2.9-2:3.1", MENSUR_WISH_RATIO, 2.9, 3.1, "", false},
    {"A4=50-58", MENSUR_WISH_TENSION, 50, 58, "A4", false},
    {"95%-105%", MENSUR_WISH_TENSION, 0.95, 1.05, "", true},
    /* one value, give or take */
    {"372", MENSUR_WISH_STRING_LENGTH, 0.371, 0.373, "", false},
    {"14-1/2\"", MENSUR_WISH_STRING_LENGTH, 0.3673, 0.3693, "", false},
    {"2:3", MENSUR_WISH_RATIO, 2.95, 3.05, "", false},
    {"8.7", MENSUR_WISH_BODY_NOTE, 8.5, 8.9, "", false},
    {"0.1", MENSUR_WISH_BODY_NOTE, 0, 0.3, "", false},
    {"55.5 cm", MENSUR_WISH_LEFT_REACH, 0.550, 0.560, "", false},
    {"A4=50", MENSUR_WISH_TENSION, 48.5, 51.5, "A4", false},
    {"100%", MENSUR_WISH_TENSION, 0.97, 1.03, "", true},
    {"200", MENSUR_WISH_TOTAL_TENSION, 194, 206, "", false},
};

static const struct {
    const char *text;
    enum mensur_wish_kind kind;
} bad[] = {{"-370", MENSUR_WISH_STRING_LENGTH},
           {"370-", MENSUR_WISH_STRING_LENGTH},
           {"380-370", MENSUR_WISH_STRING_LENGTH},
           {"370-375-380", MENSUR_WISH_STRING_LENGTH},
           {"370--380", MENSUR_WISH_STRING_LENGTH},
           {"0", MENSUR_WISH_STRING_LENGTH},
           {"-", MENSUR_WISH_STRING_LENGTH},
           {"3", MENSUR_WISH_RATIO},
           {"50", MENSUR_WISH_TENSION},
           {"..", MENSUR_WISH_STRING_LENGTH},
           {"", MENSUR_WISH_STRING_LENGTH},
           {"376..368", MENSUR_WISH_STRING_LENGTH},
           {"-4..368", MENSUR_WISH_STRING_LENGTH},
           {"..0", MENSUR_WISH_STRING_LENGTH},
           {"368..x", MENSUR_WISH_STRING_LENGTH},
           {"368...376", MENSUR_WISH_STRING_LENGTH},
           {"368N..376N", MENSUR_WISH_STRING_LENGTH},
           {"2.9..3.1", MENSUR_WISH_RATIO},
           {"0:2.9..2:3", MENSUR_WISH_RATIO},
           {"H4=50..58", MENSUR_WISH_TENSION},
           {"50..58", MENSUR_WISH_TENSION},
           {"95%..58", MENSUR_WISH_TENSION},
           {"nan..", MENSUR_WISH_STRING_LENGTH},
           {"inf..", MENSUR_WISH_STRING_LENGTH},
           {"x:2.9..2:3", MENSUR_WISH_RATIO},
           {"2:2.9..2:x", MENSUR_WISH_RATIO},
           {"x%..105%", MENSUR_WISH_TENSION},
           {"95%..%", MENSUR_WISH_TENSION},
           {"A4=0000000000000000000000000000000000000000000000000000000000000005..6kg",
            MENSUR_WISH_TENSION}};

static void test_good(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(good); i++) {
        struct mensur_wish wish;
        struct mensur_fault fault;
        check_status(good[i].text, mensur_wish_read(good[i].kind, good[i].text, &fault, &wish),
                     MENSUR_OK);
        check_close(good[i].text, wish.low, good[i].low, 0, 1e-14);
        check_close(good[i].text, wish.high, good[i].high, 0, 1e-14);
        assert_string_equal(wish.note, good[i].note);
        assert_int_equal(wish.percent, good[i].percent);
    }
}

static void test_bad(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(bad); i++) {
        struct mensur_wish wish = {.low = 7};
        struct mensur_fault fault = {""};
        check_status(bad[i].text, mensur_wish_read(bad[i].kind, bad[i].text, &fault, &wish),
                     MENSUR_USE);
        assert_true(fault.text[0] != '\0');
        check_close("untouched", wish.low, 7, 0, 0);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_good), cmocka_unit_test(test_bad)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
