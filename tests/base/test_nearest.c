/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest of some names. No figure comes from outside: the rows are worked out by hand. */
#include "check.h"

#include <stdbool.h>

#include "nearest.h"

static const struct {
    const char *word;
    int most;
    const char *names[4];
    const char *nearest;
    int distance;
} searches[] = {
    {"nekc", 2, {"stop", "neck", "necks"}, "neck", 1},
    {"nekc", 2, {"stop", NULL, "neck"}, "neck", 1},
    {"nekc", 0, {"stop", "neck"}, NULL, 1},
    {"neck", 0, {"stop", "neck"}, "neck", 0},
    {"wren", 3, {"heron"}, "heron", 3},
    {"wren", 2, {"heron"}, NULL, 3},
    /* of two that are as near the first */
    {"viole", 2, {"viola", "violi"}, "viola", 1},
    {"viole", 2, {"violi", "viola"}, "violi", 1},
    {"viole", 2, {"violins", "violi", "viol", "viola"}, "violi", 1},
    /* lengths alone set them apart, or just do not */
    {"ab", 2, {"abcde", "abcd"}, "abcd", 2},
    {"abcde", 2, {"ab"}, NULL, 3},
    {"", 2, {"abc", "ab"}, "ab", 2},
    {"neck", 2, {NULL}, NULL, 3},
};

static void finds_the_nearest(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(searches); i++) {
        struct mensur_nearest nearest = mensur_nearest_start(searches[i].word, searches[i].most);
        print_message("# row %zu: %s\n", i, searches[i].word);
        for (size_t k = 0; k < COUNT_OF(searches[i].names); k++) {
            const char *before = nearest.name;
            bool taken = mensur_nearest_take(&nearest, searches[i].names[k]);
            assert_int_equal(taken, nearest.name != before);
        }
        assert_int_equal(nearest.distance, searches[i].distance);
        if (searches[i].nearest == NULL) {
            assert_null(nearest.name);
        } else {
            assert_string_equal(nearest.name, searches[i].nearest);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_the_nearest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
