/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workbook itself: numbers as formulas show them, symbols that are not known, and its ends. */
#include "check.h"
#include "workbook.h"

static const struct mensur_terms terms = {.inches = false}, inches = {.inches = true};

static const struct {
    const char *row;
    double value;
    enum workbook_unit unit;
    const char *numbers; /* in y = {x} + {one} */
} numbers[] = {
    {"small", 1.5e-12, IN_NUMBER, "(1.5·10⁻¹²) + 1"},
    {"large", 2.5e21, IN_NUMBER, "(2.5·10²¹) + 1"},
    {"power of two digits", 6.25e-10, IN_NUMBER, "(6.25·10⁻¹⁰) + 1"},
    {"less than nothing", -0.0125, IN_LENGTH, "(−12.50) + 1"},
    {"angle", 0.5, IN_DEGREES, "28.648° + 1"},
};

static void prints(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(numbers); i++) {
        struct workbook book;
        struct mensur_working working;
        struct mensur_fault fault = {""};
        workbook_open(&book, NULL, &terms, &fault);
        workbook_know(&book, "x", numbers[i].value, numbers[i].unit);
        workbook_know(&book, "one", 1, IN_NUMBER);
        workbook_step(&book, "sum", "y = {x} + {one}", NULL, 7.5, IN_NEWTONS, "definition");
        check_status(numbers[i].row, workbook_close(&book, &working), MENSUR_OK);
        assert_int_equal(working.count, 1);
        assert_string_equal(working.lines[0].formula, "y = x + one");
        assert_string_equal(working.lines[0].with_numbers, numbers[i].numbers);
        assert_string_equal(working.lines[0].result, "7.50 N");
        mensur_working_clear(&working);
    }
}

/* What is not known leaves no step: no such symbol, NaN, or a name that has no room. */
static void unknown(void **state) {
    (void)state;
    static const char *const formulas[] = {"y = {x} + {nothing}", "y = {x} + {nan}",
                                           "y = {a_name_that_is_longer_than_any_symbol}"};
    for (size_t i = 0; i < COUNT_OF(formulas); i++) {
        struct workbook book;
        struct mensur_working working;
        struct mensur_fault fault = {""};
        workbook_open(&book, NULL, &terms, &fault);
        workbook_know(&book, "x", 3.25, IN_NUMBER);
        workbook_know(&book, "nan", NAN, IN_NUMBER);
        workbook_know(&book, "a_name_that_is_longer_than_any_symbol", 4.5, IN_NUMBER);
        workbook_step(&book, "sum", formulas[i], NULL, 7.5, IN_NEWTONS, "definition");
        check_status(formulas[i], workbook_close(&book, &working), MENSUR_OK);
        assert_int_equal(working.count, 0);
        mensur_working_clear(&working);
    }
}

/* A formula that names nothing is all right side. */
static void nameless(void **state) {
    (void)state;
    struct workbook book;
    struct mensur_working working;
    struct mensur_fault fault = {""};
    workbook_open(&book, NULL, &terms, &fault);
    workbook_know(&book, "x", 3.25, IN_NUMBER);
    workbook_step(&book, "twice", "2·{x}", NULL, 6.5, IN_NUMBER, "definition");
    check_status("nameless", workbook_close(&book, &working), MENSUR_OK);
    assert_string_equal(working.lines[0].with_numbers, "2·3.25");
    assert_string_equal(working.lines[0].result, "6.5");
    mensur_working_clear(&working);
}

/* As many symbols as there is room for, each known; one more, and there is no working. */
static void full(void **state) {
    (void)state;
    for (int more = 0; more < 2; more++) {
        struct workbook book;
        struct mensur_working working = {.count = 77};
        struct mensur_fault fault = {""};
        workbook_open(&book, NULL, &terms, &fault);
        for (int i = 0; i < WORKBOOK_SYMBOLS - 1 + more; i++) {
            char name[24];
            snprintf(name, sizeof name, "x%d", i);
            workbook_know(&book, name, 1.5 * i, IN_NUMBER);
        }
        workbook_know(&book, "x7", 2.25, IN_NUMBER); /* once more, and no other */
        workbook_step(&book, "twice", "y = 2·{x7}", NULL, 4.5, IN_NUMBER, "definition");
        check_status("full", workbook_close(&book, &working),
                     more == 0 ? MENSUR_OK : MENSUR_MEMORY);
        if (more == 0) {
            assert_string_equal(working.lines[0].with_numbers, "2·2.25");
            mensur_working_clear(&working);
        } else {
            assert_int_equal(working.count, 77);
            assert_true(fault.text[0] != '\0');
        }
    }
}

/* A formula that has no room with its numbers in it: there is no working. */
static void too_long(void **state) {
    (void)state;
    char formula[2048] = "y = {x}";
    struct workbook book;
    struct mensur_working working = {.count = 77};
    struct mensur_fault fault = {""};
    while (strlen(formula) + sizeof " + {x}" < sizeof formula) {
        strcat(formula, " + {x}");
    }
    workbook_open(&book, NULL, &terms, &fault);
    workbook_know(&book, "x", 1.23456e-100, IN_NUMBER);
    workbook_step(&book, "sum", formula, NULL, 7.5, IN_NEWTONS, "definition");
    check_status("too long", workbook_close(&book, &working), MENSUR_MEMORY);
    assert_int_equal(working.count, 77);
}

/* A symbol in the unit that stands behind it, whatever it is known in; one that is none is bare. */
static void other_unit(void **state) {
    (void)state;
    struct workbook book;
    struct mensur_working working;
    struct mensur_fault fault = {""};
    workbook_open(&book, NULL, &inches, &fault);
    workbook_know(&book, "x", 0.0254, IN_LENGTH);
    workbook_step(&book, "sum", "y = {x} + {x mm} + {x fine mm} + {x m} + {x ell}", NULL, 7.5,
                  IN_NEWTONS, "definition");
    check_status("unit", workbook_close(&book, &working), MENSUR_OK);
    assert_string_equal(working.lines[0].formula, "y = x + x + x + x + x");
    assert_string_equal(working.lines[0].with_numbers,
                        "1.0000 + 25.40 + 25.4000 + 0.02540 + 0.0254");
    mensur_working_clear(&working);
}

/* The lines of a record's figures, by their rows: a step, a value, and what is not known. */
static void rows(void **state) {
    (void)state;
    static const char *const keys[] = {"first_finger_mm", "frame_mm", NULL};
    struct mensur_position position = {"1", 0.041, 0.104, 0.063, 2};
    struct mensur_string_figures string;
    struct workbook book;
    struct mensur_working working;
    struct mensur_fault fault = {""};
    workbook_open(&book, NULL, &terms, &fault);
    workbook_record(&book, MENSUR_SCOPE_POSITION, &position);
    workbook_rows(&book, MENSUR_SCOPE_POSITION, keys, &position);
    mensur_figures_unknown(MENSUR_SCOPE_STRING, &string);
    workbook_row(&book, MENSUR_SCOPE_STRING, "tension_N", &string);
    check_status("rows", workbook_close(&book, &working), MENSUR_OK);
    assert_int_equal(working.count, 2);
    assert_string_equal(working.lines[0].what, "first finger");
    assert_string_equal(working.lines[0].formula, "first");
    assert_string_equal(working.lines[0].with_numbers, "");
    assert_string_equal(working.lines[1].what, "frame");
    assert_string_equal(working.lines[1].formula,
                        "frame = fourth − first, from first finger to fourth");
    assert_string_equal(working.lines[1].with_numbers, "104.00 − 41.00");
    assert_string_equal(working.lines[1].result, "63.00 mm");
    assert_string_equal(working.lines[1].source, "definition");
    mensur_working_clear(&working);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(prints),   cmocka_unit_test(unknown),
                                       cmocka_unit_test(nameless), cmocka_unit_test(full),
                                       cmocka_unit_test(too_long), cmocka_unit_test(other_unit),
                                       cmocka_unit_test(rows)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
