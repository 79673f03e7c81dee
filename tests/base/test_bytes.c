/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bytes that are kept one behind another. */
#include "bytes.h"

#include "../answers/scarce.h"

static void keeps(void **state) {
    static const char *const pieces[] = {"", "a", "", "piece of some length", "z"};
    struct mensur_kept_bytes kept = {.items = NULL};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(pieces); i++) {
        assert_int_equal(mensur_kept_bytes_add(&kept, pieces[i], strlen(pieces[i])), MENSUR_OK);
    }
    assert_int_equal(kept.length, 22);
    assert_memory_equal(kept.items, "apiece of some lengthz", 22);
    mensur_kept_bytes_clear(&kept);
    assert_null(kept.items);
    assert_int_equal(kept.length, 0);
}

/* Without memory for more, what was kept is as it was. */
static void runs_out(void **state) {
    struct mensur_kept_bytes kept = {.items = NULL};
    char more[100];
    (void)state;
    memset(more, 'x', sizeof more);
    assert_int_equal(mensur_kept_bytes_add(&kept, "first", 5), MENSUR_OK);
    scarce_left = 0;
    assert_int_equal(mensur_kept_bytes_add(&kept, more, sizeof more), MENSUR_MEMORY);
    assert_int_equal(scarce_left, -1);
    assert_int_equal(kept.length, 5);
    assert_memory_equal(kept.items, "first", 5);
    mensur_kept_bytes_clear(&kept);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(keeps), cmocka_unit_test(runs_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
