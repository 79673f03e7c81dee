/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of measurements: names, domains, meanings. */
#include "check.h"

#include "field.h"

static void finds_each_by_its_name(void **state) {
    (void)state;
    for (int i = 0; i < MENSUR_FIELD_COUNT; i++) {
        const struct mensur_field_info *info = mensur_field_info((enum mensur_field)i);
        enum mensur_field field = MENSUR_FIELD_COUNT;
        check_status(info->name, mensur_field_find(info->name, &field), MENSUR_OK);
        assert_int_equal(field, i);
        assert_true(strlen(info->meaning) > 10);
        assert_true(info->power >= 0 && info->power <= 1);
        assert_int_equal(info->way == MENSUR_NOWHERE, info->kind != MENSUR_LENGTH);
    }
}

static void finds_no_other(void **state) {
    (void)state;
    static const char *const names[] = {"", "Neck", "necks", "nec", "note", "string-length"};
    for (size_t i = 0; i < COUNT_OF(names); i++) {
        enum mensur_field field = MENSUR_FIELD_HOLLOW;
        check_status(names[i], mensur_field_find(names[i], &field), MENSUR_USE);
        assert_int_equal(field, MENSUR_FIELD_HOLLOW);
    }
}

static const struct {
    const char *name;
    enum mensur_field field;
    double value;
    enum mensur_status status;
} values[] = {
    {"stop 222", MENSUR_FIELD_STOP, 0.222, MENSUR_OK},
    {"stop 0", MENSUR_FIELD_STOP, 0, MENSUR_DOMAIN},
    {"stop -3", MENSUR_FIELD_STOP, -0.003, MENSUR_DOMAIN},
    {"stop 3 m", MENSUR_FIELD_STOP, 3.0, MENSUR_OK},
    {"stop over 3 m", MENSUR_FIELD_STOP, 3.0000001, MENSUR_DOMAIN},
    {"saddle 0", MENSUR_FIELD_SADDLE, 0, MENSUR_OK},
    {"saddle -1", MENSUR_FIELD_SADDLE, -0.001, MENSUR_DOMAIN},
    {"saddle 3.1 m", MENSUR_FIELD_SADDLE, 3.1, MENSUR_DOMAIN},
    {"body NaN", MENSUR_FIELD_BODY, NAN, MENSUR_DOMAIN},
    {"nut NaN", MENSUR_FIELD_NUT, NAN, MENSUR_DOMAIN},
    {"body infinite", MENSUR_FIELD_BODY, INFINITY, MENSUR_DOMAIN},
    {"air note 230 Hz", MENSUR_FIELD_AIR_NOTE, 230, MENSUR_OK},
    {"air note 0", MENSUR_FIELD_AIR_NOTE, 0, MENSUR_DOMAIN},
};

static void keeps_to_the_domain(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++) {
        check_status(values[i].name, mensur_field_check(values[i].field, values[i].value),
                     values[i].status);
    }
    assert_string_equal(mensur_field_domain_text(MENSUR_FIELD_STOP),
                        "more than 0 and at most 3000 mm");
    assert_string_equal(mensur_field_domain_text(MENSUR_FIELD_SADDLE), "from 0 to 3000 mm");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_each_by_its_name),
        cmocka_unit_test(finds_no_other),
        cmocka_unit_test(keeps_to_the_domain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
