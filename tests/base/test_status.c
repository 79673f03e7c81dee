/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every status has a text of its own and the exit code that docs/formats.md states. */
#include "check.h"

static const struct {
    const char *name;
    enum mensur_status status;
    int exit_code;
} rows[] = {
    {"answered", MENSUR_OK, 0},           {"wish not met", MENSUR_NOT_MET, 1},
    {"wrong use", MENSUR_USE, 2},         {"bad data", MENSUR_DATA, 3},
    {"outside domain", MENSUR_DOMAIN, 4}, {"no answer", MENSUR_NO_ANSWER, 4},
    {"memory", MENSUR_MEMORY, 5},         {"reading", MENSUR_READ, 5},
    {"writing", MENSUR_WRITE, 5},
};

static void exit_codes(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        print_message("# %s\n", rows[i].name);
        assert_int_equal(mensur_status_exit_code(rows[i].status), rows[i].exit_code);
    }
}

static void texts_differ(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_true(strlen(mensur_status_text(rows[i].status)) > 0);
        for (size_t k = 0; k < i; k++) {
            assert_string_not_equal(mensur_status_text(rows[i].status),
                                    mensur_status_text(rows[k].status));
        }
    }
}

static void no_status(void **state) {
    (void)state;
    assert_string_equal(mensur_status_text((enum mensur_status)4711), "unknown status");
    assert_int_equal(mensur_status_exit_code((enum mensur_status)4711), 5);
    assert_string_equal(mensur_status_text((enum mensur_status) - 1), "unknown status");
    assert_int_equal(mensur_status_exit_code((enum mensur_status) - 1), 5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exit_codes),
        cmocka_unit_test(texts_differ),
        cmocka_unit_test(no_status),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
