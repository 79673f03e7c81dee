/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published keys are held by the tests of JSON and CSV; here the functions that read them. */
#include "fixtures.h"

static const struct mensur_column *find(struct mensur_columns columns, const char *key) {
    for (size_t i = 0; i < columns.count; i++) {
        if (strcmp(columns.items[i].key, key) == 0) {
            return &columns.items[i];
        }
    }
    fail_msg("no column %s", key);
    return NULL;
}

static void test_values(void **state) {
    (void)state;
    const struct mensur_string_figures string = {.string = "viola C3",
                                                 .note = "C3",
                                                 .linear_density = 0.004271,
                                                 .stress = 93.1e6,
                                                 .inharmonicity = 1.26e-4,
                                                 .in_made_for_range = MENSUR_UNSURE,
                                                 .made_for_low = 0.37,
                                                 .rise_low_cents = 3.17,
                                                 .tension = NAN};
    static const struct {
        const char *key;
        double want;
    } of[] = {{"linear_density_g_per_m", 4.271}, {"stress_MPa", 93.1}, {"inharmonicity", 1.26e-4},
              {"made_for_low_mm", 370},          {"tension_N", NAN},   {"rise_low_cents", 3.17}};
    struct mensur_columns columns = mensur_string_columns();
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        check_close(of[i].key, mensur_column_number(find(columns, of[i].key), &string), of[i].want,
                    0, 1e-14);
    }
    assert_string_equal(mensur_column_text(find(columns, "string"), &string), "viola C3");
    assert_string_equal(mensur_column_text(find(columns, "note"), &string), "C3");
    assert_int_equal(mensur_column_known(find(columns, "in_made_for_range"), &string),
                     MENSUR_UNSURE);
}

/* Numbers are subtracted, unknown ones stay unknown, all else is left alone. */
static void test_subtract(void **state) {
    (void)state;
    const struct mensur_instead first = {"C3", 0.0042, 0.0045, 0.0, "a", "b"};
    const struct mensur_instead other = {"G3", 0.0021, NAN, 0.0, "c", "d"};
    struct mensur_instead out = {"D4", 1, 1, 7, "e", "f"};
    mensur_columns_subtract(mensur_instead_columns(), &other, &first, &out);
    check_close("present", out.present_linear_density, -0.0021, 0, 1e-14);
    check_close("needed", out.needed_linear_density, NAN, 0, 0);
    check_close("no column", out.nearest_linear_density, 7, 0, 0);
    assert_string_equal(out.note, "D4");
    assert_string_equal(out.nearest_string, "f");
}

/* Two columns of one key, or over one member, would be a slip of the pen. */
static void test_apart(void **state) {
    (void)state;
    const struct mensur_columns all[] = {mensur_lengths_columns(), mensur_string_columns(),
                                         mensur_place_columns(),   mensur_position_columns(),
                                         mensur_step_columns(),    mensur_instead_columns()};
    for (size_t i = 0; i < COUNT_OF(all); i++) {
        for (size_t j = 0; j < all[i].count; j++) {
            for (size_t k = 0; k < j; k++) {
                assert_string_not_equal(all[i].items[j].key, all[i].items[k].key);
                assert_int_not_equal(all[i].items[j].offset, all[i].items[k].offset);
            }
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_values),
        cmocka_unit_test(test_subtract),
        cmocka_unit_test(test_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
