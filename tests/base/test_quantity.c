/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Cells with a number, a unit and a ±.
 *
 * Units: 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N and 1 kgf = 9.80665 N are exact by definition
 * (NIST SP 811, appendix B.8, and the BIPM SI brochure; from memory, not read for this).
 */
#include "check.h"

#include <locale.h>

#include "quantity.h"

#define PI 3.14159265358979323846

struct row {
    const char *text;
    enum mensur_kind kind;
    bool comma;
    double value, plus_minus;
};

static const struct row rows[] = {
    {"222", MENSUR_LENGTH, false, 0.222, 0},
    {"222 mm", MENSUR_LENGTH, false, 0.222, 0},
    {"222mm", MENSUR_LENGTH, false, 0.222, 0},
    {"22.225cm", MENSUR_LENGTH, false, 0.22225, 0},
    {"0.222 m", MENSUR_LENGTH, false, 0.222, 0},
    {"+222", MENSUR_LENGTH, false, 0.222, 0},
    {"-3", MENSUR_LENGTH, false, -0.003, 0},
    {"8.75in", MENSUR_LENGTH, false, 0.22225, 0},
    {"8 3/4 in", MENSUR_LENGTH, false, 0.22225, 0},
    {"8-3/4\"", MENSUR_LENGTH, false, 0.22225, 0},
    {"8 - 3/4 in", MENSUR_LENGTH, false, 0.22225, 0},
    {"3/4 in", MENSUR_LENGTH, false, 0.01905, 0},
    {"-1/8\"", MENSUR_LENGTH, false, -0.003175, 0},
    {"+1-1/8\"", MENSUR_LENGTH, false, 0.028575, 0},
    {"8 3/4\xE2\x80\xB3", MENSUR_LENGTH, false, 0.22225, 0},
    {"8.75\xE2\x80\x9D", MENSUR_LENGTH, false, 0.22225, 0},
    {"22,2 cm", MENSUR_LENGTH, true, 0.222, 0},
    {"  222\t", MENSUR_LENGTH, false, 0.222, 0},
    {"\xC2\xA0"
     "222\xC2\xA0mm\xC2\xA0",
     MENSUR_LENGTH, false, 0.222, 0},
    {"222\xE2\x80\xAFmm", MENSUR_LENGTH, false, 0.222, 0},
    {"222 \xC2\xB1"
     "0.5",
     MENSUR_LENGTH, false, 0.222, 0.0005},
    {"222\xC2\xB1"
     "0.5",
     MENSUR_LENGTH, false, 0.222, 0.0005},
    {"222 +-0.5", MENSUR_LENGTH, false, 0.222, 0.0005},
    {"222 mm \xC2\xB1 0.5 mm", MENSUR_LENGTH, false, 0.222, 0.0005},
    {"22.2 cm \xC2\xB1 0.5 mm", MENSUR_LENGTH, false, 0.222, 0.0005},
    {"22.2cm\xC2\xB1"
     "0.05",
     MENSUR_LENGTH, false, 0.222, 0.0005},
    {"8.75 +- 0.02 in", MENSUR_LENGTH, false, 0.22225, 0.000508},
    {"8-3/4\" +-1/64", MENSUR_LENGTH, false, 0.22225, 0.000396875},
    {"222,5 +- 0,5", MENSUR_LENGTH, true, 0.2225, 0.0005},
    {"62", MENSUR_FORCE, false, 62.0, 0},
    {"62.5 N", MENSUR_FORCE, false, 62.5, 0},
    {"6.3kgf", MENSUR_FORCE, false, 61.781895, 0},
    {"14 lbf", MENSUR_FORCE, false, 62.275102613647, 0},
    {"6.3 kg", MENSUR_FORCE, false, 61.781895, 0},
    {"6.3kp", MENSUR_FORCE, false, 61.781895, 0},
    {"6,3 kg", MENSUR_FORCE, true, 61.781895, 0},
    {"14lb", MENSUR_FORCE, false, 62.275102613647, 0},
    {"14 lbs", MENSUR_FORCE, false, 62.275102613647, 0},
    {"6.3 kg \xC2\xB1 0.1 N", MENSUR_FORCE, false, 61.781895, 0.1},
    {"6.3 +-0.1 kg", MENSUR_FORCE, false, 61.781895, 0.980665},
    {"8.75 inches", MENSUR_LENGTH, false, 0.22225, 0},
    {"1 inch", MENSUR_LENGTH, false, 0.0254, 0},
    {"8 3/4 inch", MENSUR_LENGTH, false, 0.22225, 0},
    {"222 +/- 0.5", MENSUR_LENGTH, false, 0.222, 0.0005},
    {"2.4", MENSUR_LINEAR_DENSITY, false, 0.0024, 0},
    {"2.4 g/m", MENSUR_LINEAR_DENSITY, false, 0.0024, 0},
    {"0.0024 kg/m", MENSUR_LINEAR_DENSITY, false, 0.0024, 0},
    {"2400mg/m", MENSUR_LINEAR_DENSITY, false, 0.0024, 0},
    {"5.5", MENSUR_MODULUS, false, 5.5e9, 0},
    {"5500 MPa", MENSUR_MODULUS, false, 5.5e9, 0},
    {"320", MENSUR_STRESS, false, 3.2e8, 0},
    {"0.32 GPa", MENSUR_STRESS, false, 3.2e8, 0},
    {"1300", MENSUR_DENSITY, false, 1300, 0},
    {"1.3 g/cm3", MENSUR_DENSITY, false, 1300, 0},
    {"1.3 g/cm\xC2\xB3", MENSUR_DENSITY, false, 1300, 0},
    {"1300 kg/m3", MENSUR_DENSITY, false, 1300, 0},
    {"441.5 Hz", MENSUR_FREQUENCY, false, 441.5, 0},
    {"45", MENSUR_ANGLE, false, PI / 4, 0},
    {"-30 deg", MENSUR_ANGLE, false, -PI / 6, 0},
    {"30\xC2\xB0", MENSUR_ANGLE, false, PI / 6, 0},
    {"5", MENSUR_SEMITONES, false, 5, 0},
    {"7", MENSUR_NUMBER, false, 7, 0},
};

static void check_rows(void) {
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_quantity got = MENSUR_UNKNOWN;
        check_status(rows[i].text,
                     mensur_quantity_read(rows[i].text, strlen(rows[i].text), rows[i].kind,
                                          rows[i].comma, &got),
                     MENSUR_OK);
        check_close(rows[i].text, got.value, rows[i].value, 0, 4e-16);
        check_close(rows[i].text, got.plus_minus, rows[i].plus_minus, 0, 4e-16);
    }
}

static void reads(void **state) {
    (void)state;
    check_rows();
    if (setlocale(LC_ALL, "de_DE.UTF-8") != NULL) {
        check_rows();
        setlocale(LC_ALL, "C");
    }
}

static const struct {
    const char *text;
    enum mensur_kind kind;
    bool comma;
} refusals[] = {
    {"", MENSUR_LENGTH, false},
    {" ", MENSUR_LENGTH, false},
    {"abc", MENSUR_LENGTH, false},
    {"mm", MENSUR_LENGTH, false},
    {"22x", MENSUR_LENGTH, false},
    {"222 mmm", MENSUR_LENGTH, false},
    {"222 Mm", MENSUR_LENGTH, false},
    {"222 N", MENSUR_LENGTH, false},
    {"222 kg", MENSUR_LENGTH, false},
    {"6 kgs", MENSUR_FORCE, false},
    {"6 g", MENSUR_FORCE, false},
    {"6 kg", MENSUR_LINEAR_DENSITY, false},
    {"370..380", MENSUR_LENGTH, false},
    {"370-380", MENSUR_LENGTH, false},
    {"5 ft 7", MENSUR_LENGTH, false},
    {"222 mm mm", MENSUR_LENGTH, false},
    {"222,5", MENSUR_LENGTH, false},
    {"1.234,5", MENSUR_LENGTH, true},
    {"8 3/4", MENSUR_LENGTH, false}, /* a fraction without a unit */
    {"8 3/4 mm", MENSUR_LENGTH, false},
    {"8.5 3/4 in", MENSUR_LENGTH, false},
    {"8-3\"", MENSUR_LENGTH, false},
    {"3/0 in", MENSUR_LENGTH, false},
    {"8--3/4\"", MENSUR_LENGTH, false},
    {"--5", MENSUR_LENGTH, false},
    {"+-5", MENSUR_LENGTH, false},
    {"- 5", MENSUR_LENGTH, false},
    {"\xC2\xB1"
     "0.5",
     MENSUR_LENGTH, false},
    {"222 \xC2\xB1", MENSUR_LENGTH, false},
    {"222 \xC2\xB1-0.5", MENSUR_LENGTH, false},
    {"222 +-+0.5", MENSUR_LENGTH, false},
    {"222 +-0.5 N", MENSUR_LENGTH, false},
    {"222 +-0.5 +-0.5", MENSUR_LENGTH, false},
    {"nan", MENSUR_LENGTH, false},
    {"inf", MENSUR_FORCE, false},
    {"1e400", MENSUR_FORCE, false},
    {"1e305", MENSUR_MODULUS, false}, /* larger than a double, in Pa */
    {"5 +-1e305", MENSUR_MODULUS, false},
    {"8 in +-1/16 mm", MENSUR_LENGTH, false}, /* a fraction of an inch, and of nothing else */
    {"3/4", MENSUR_NUMBER, false},
    {"5 semitones", MENSUR_SEMITONES, false},
    {"440 hz", MENSUR_FREQUENCY, false},
};

/* Blanks of every kind around a number, narrow no-break and thin ones too; and an invalid kind,
 * which has no units. */
static void skips_blanks(void **state) {
    (void)state;
    static const char *const texts[] = {" 222.5",
                                        "\t222.5",
                                        "222.5\r\n",
                                        "\n222.5 mm",
                                        ("\xC2\xA0"
                                         "222.5\xE2\x80\x89mm"),
                                        "222.5\xE2\x80\xAFmm"};
    struct mensur_quantity got;
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        check_status(texts[i],
                     mensur_quantity_read(texts[i], strlen(texts[i]), MENSUR_LENGTH, false, &got),
                     MENSUR_OK);
        check_close(texts[i], got.value, 0.2225, 0, 1e-15);
    }
    check_close("no kind", mensur_from_si(MENSUR_KIND_COUNT, 2.75), 2.75, 0, 0);
}

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct mensur_quantity got = {4.25, 0.75};
        check_status(refusals[i].text,
                     mensur_quantity_read(refusals[i].text, strlen(refusals[i].text),
                                          refusals[i].kind, refusals[i].comma, &got),
                     MENSUR_DATA);
        check_close(refusals[i].text, got.value, 4.25, 0, 0);
        check_close(refusals[i].text, got.plus_minus, 0.75, 0, 0);
    }
}

/* The unit of bare numbers that a head names; a unit in the cell stands above it. */
static void reads_in_a_unit(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum mensur_kind kind;
        const char *unit;
        double value, plus_minus;
    } cells[] = {{"222", MENSUR_LENGTH, "MM", 0.222, 0},
                 {"22.2", MENSUR_LENGTH, "cm", 0.222, 0},
                 {"8.75", MENSUR_LENGTH, "in", 0.22225, 0},
                 {"8.75", MENSUR_LENGTH, "Inches", 0.22225, 0},
                 {"8 3/4", MENSUR_LENGTH, "inch", 0.22225, 0},
                 {"8-3/4 +-1/64", MENSUR_LENGTH, "\"", 0.22225, 0.000396875},
                 {"222 mm", MENSUR_LENGTH, "in", 0.222, 0},
                 {"222 mm +-0.5", MENSUR_LENGTH, "in", 0.222, 0.0005},
                 {"22.2 +- 0.05", MENSUR_LENGTH, "cm", 0.222, 0.0005},
                 {"6.3", MENSUR_FORCE, "kg", 61.781895, 0},
                 {"0.36", MENSUR_MASS, "g", 0.00036, 0},
                 {"360 +- 5", MENSUR_MASS, "mg", 0.00036, 5e-6},
                 {"62", MENSUR_FORCE, "n", 62, 0},
                 {"2.4", MENSUR_LINEAR_DENSITY, "G/M", 0.0024, 0},
                 {"0.32", MENSUR_STRESS, "gpa", 3.2e8, 0},
                 {"5500", MENSUR_MODULUS, "mpa", 5.5e9, 0}};
    for (size_t i = 0; i < COUNT_OF(cells); i++) {
        const struct mensur_unit *unit = mensur_unit_find(cells[i].kind, cells[i].unit);
        struct mensur_quantity got;
        assert_non_null(unit);
        check_status(cells[i].text,
                     mensur_quantity_read_in(cells[i].text, strlen(cells[i].text), cells[i].kind,
                                             unit, false, &got),
                     MENSUR_OK);
        check_close(cells[i].text, got.value, cells[i].value, 0, 4e-16);
        check_close(cells[i].text, got.plus_minus, cells[i].plus_minus, 0, 4e-16);
    }
    assert_null(mensur_unit_find(MENSUR_LENGTH, ""));
    assert_null(mensur_unit_find(MENSUR_NUMBER, ""));
    assert_null(mensur_unit_find(MENSUR_LENGTH, "mmm"));
    assert_null(mensur_unit_find(MENSUR_LENGTH, "kg"));
}

/* What is said of a cell that is no quantity: where a reader can tell what was meant, the cell to
 * write. */
static void says_what_would_do(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum mensur_kind kind;
        bool comma;
        const char *wanted;
    } cells[] = {
        {"8 3/4", MENSUR_LENGTH, false, "a length without its unit; write 8 3/4 in"},
        {"3/4", MENSUR_LENGTH, false, "a length without its unit; write 3/4 in"},
        {"+8-3/4 ", MENSUR_LENGTH, false, "a length without its unit; write +8-3/4  in"},
        {"370..380", MENSUR_LENGTH, false, "one value but a range; write one, such as 375"},
        {"370-380 mm", MENSUR_LENGTH, false, "one value but a range; write one, such as 375 mm"},
        {"370 \xE2\x80\x93 380", MENSUR_LENGTH, false,
         "one value but a range; write one, such as 375"},
        {"14 to 15\"", MENSUR_LENGTH, false, "one value but a range; write one, such as 14.5\""},
        {"37,0 bis 37,5 cm", MENSUR_LENGTH, true,
         "one value but a range; write one, such as 37.25 cm"},
        {"5-6 kg", MENSUR_FORCE, false, "one value but a range; write one, such as 5.5 kg"},
        {"5 ft 7", MENSUR_LENGTH, false, "a length in one unit; write 67 in"},
        {"5'7\"", MENSUR_LENGTH, false, "a length in one unit; write 67 in"},
        {"5\xE2\x80\x99 7 1/2\"", MENSUR_LENGTH, false, "a length in one unit; write 67.5 in"},
        {"6 feet", MENSUR_LENGTH, false, "a length in one unit; write 72 in"},
        {"370 mm..380 mm", MENSUR_LENGTH, false,
         "one value but a range; write one, such as 375 mm"},
        {"6 feet and more", MENSUR_LENGTH, false, "a length, for example 222, 222 mm or 8-3/4\""},
        {"6 feet 3 mm", MENSUR_LENGTH, false, "a length, for example 222, 222 mm or 8-3/4\""},
        {"3/4", MENSUR_FORCE, false, "a force, for example 62, 62 N, 6.3 kg or 14 lb"},
        {"370 mm..38 cm", MENSUR_LENGTH, false, "a length, for example 222, 222 mm or 8-3/4\""},
        {"", MENSUR_NUMBER, false, "a number, for example 4"},
    };
    for (size_t i = 0; i < COUNT_OF(cells); i++) {
        char room[MENSUR_WANTED_ROOM];
        assert_string_equal(mensur_quantity_wanted(cells[i].text, strlen(cells[i].text),
                                                   cells[i].kind, cells[i].comma, room),
                            cells[i].wanted);
    }
}

/* NIST SP 811: 1 kgf = 9.80665 N exactly, 1 lbf = 4.4482216152605 N exactly (from memory). */
static void forces_have_units(void **state) {
    (void)state;
    static const struct {
        enum mensur_force_unit unit;
        const char *name, *one;
    } forces[] = {{MENSUR_FORCE_N, "N", "1 N"},
                  {MENSUR_FORCE_KG, "kg", "1 kgf"},
                  {MENSUR_FORCE_LB, "lb", "1 lbf"},
                  {(enum mensur_force_unit)7, "kg", "1 kgf"}};
    for (size_t i = 0; i < COUNT_OF(forces); i++) {
        struct mensur_quantity one;
        const struct mensur_force_unit_info *info = mensur_force_unit_info(forces[i].unit);
        assert_string_equal(info->name, forces[i].name);
        check_status(
            forces[i].name,
            mensur_quantity_read(forces[i].one, strlen(forces[i].one), MENSUR_FORCE, false, &one),
            MENSUR_OK);
        check_close(forces[i].name, info->newtons, one.value, 0, 0);
    }
}

static void bare_units_go_both_ways(void **state) {
    (void)state;
    static const char *const units[MENSUR_KIND_COUNT] = {"mm", "N",   "g/m", "GPa", "MPa", "kg/m3",
                                                         "Hz", "deg", "",    "",    "g",   "cm3"};
    static const double one[MENSUR_KIND_COUNT] = {0.001, 1,        0.001, 1e9, 1e6,   1,
                                                  1,     PI / 180, 1,     1,   0.001, 1e-6};
    for (int i = 0; i < MENSUR_KIND_COUNT; i++) {
        enum mensur_kind kind = (enum mensur_kind)i;
        assert_string_equal(mensur_kind_unit(kind), units[i]);
        check_close(units[i], mensur_to_si(kind, 1.0), one[i], 0, 2e-16);
        check_close(units[i], mensur_from_si(kind, mensur_to_si(kind, 375.8456)), 375.8456, 0,
                    4e-16);
        assert_non_null(mensur_kind_wanted(kind));
    }
    check_holds(mensur_kind_wanted(MENSUR_LENGTH), "a length, for example 222");
    assert_string_equal(mensur_kind_wanted(MENSUR_KIND_COUNT), "a number");
}

/* As a rule is read: 25.4 mm to the inch, to the nearest 64th, in lowest terms. */
static void inches_are_fractions(void **state) {
    (void)state;
    static const struct {
        double metres;
        const char *text;
    } of[] = {{0.0254, "1"},     {0.36195, "14 1/4"}, {0.144, "5 43/64"}, {0.0127, "1/2"},
              {-0.0127, "-1/2"}, {0.0, "0"},          {0.00019, "0"},     {-0.00019, "0"},
              {0.0002, "1/64"},  {0.02535, "1"},      {0.222, "8 47/64"}, {3.0, "118 7/64"},
              {NAN, "?"},        {INFINITY, "?"},     {1e300, "?"}};
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        char room[MENSUR_INCHES_ROOM];
        mensur_inches_print(of[i].metres, room);
        assert_string_equal(room, of[i].text);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads),
        cmocka_unit_test(skips_blanks),
        cmocka_unit_test(refuses),
        cmocka_unit_test(reads_in_a_unit),
        cmocka_unit_test(says_what_would_do),
        cmocka_unit_test(forces_have_units),
        cmocka_unit_test(inches_are_fractions),
        cmocka_unit_test(bare_units_go_both_ways),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
