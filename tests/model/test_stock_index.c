/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of a stock found through the index, against going through the rows, which a stock without
 * an index does. */
#include "check.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "stock_index.h"

enum { ROWS_MOST = 3000, NAMES = 700 };

static struct mensur_family families[ROWS_MOST];
static struct mensur_string_spec strings[ROWS_MOST];
static char names[NAMES][12];

/* The same numbers on every machine: a linear congruential generator (its constants from memory).
 */
static unsigned draw(uint64_t *state) {
    *state = *state * UINT64_C(6364136223846793005) + 1442695040888963407;
    return (unsigned)(*state >> 33);
}

static void fill(void) {
    uint64_t state = 1;
    for (int i = 0; i < NAMES; i++) {
        (void)snprintf(names[i], sizeof(names[i]), "name %d", i);
    }
    for (int i = 0; i < ROWS_MOST; i++) {
        families[i].name = names[draw(&state) % NAMES]; /* of equal ones the first counts */
        strings[i].set = draw(&state) % 9 == 0 ? NULL : names[draw(&state) % (NAMES - 50)];
    }
}

static size_t differences(const struct mensur_stock *stock) {
    struct mensur_stock bare = *stock;
    size_t wrong = 0;
    bare.index = NULL;
    for (int i = 0; i <= NAMES; i++) {
        const char *name = i < NAMES ? names[i] : "none of them";
        wrong += mensur_stock_family(stock, name) != mensur_stock_family(&bare, name);
        size_t at = mensur_stock_place(stock, MENSUR_NAMED_SETS, name);
        size_t other = mensur_stock_place(&bare, MENSUR_NAMED_SETS, name);
        for (; at == other && at < stock->string_count;
             at = mensur_stock_next_of_set(stock, at),
             other = mensur_stock_next_of_set(&bare, other)) {
            wrong += strcmp(strings[at].set, name) != 0;
        }
        wrong += at != other;
    }
    return wrong;
}

/* The index follows as the tables grow, row by row and by many. */
static void finds_what_is_there(void **state) {
    (void)state;
    static const size_t counts[] = {0, 1, 31, 32, 33, 63, 64, 65, 127, 128, 500, 501, ROWS_MOST};
    fill();
    struct mensur_stock stock = {.families = families, .strings = strings};
    for (size_t i = 0; i < COUNT_OF(counts); i++) {
        print_message("# %zu rows\n", counts[i]);
        stock.family_count = stock.string_count = counts[i];
        assert_int_equal(differences(&stock), 0); /* the index is not yet of these rows */
        assert_int_equal(mensur_stock_index_update(&stock), MENSUR_OK);
        assert_int_equal(differences(&stock), 0);
    }
    assert_null(mensur_stock_family(&stock, NULL));
    assert_int_equal(mensur_stock_place(&stock, MENSUR_NAMED_SETS, NULL), stock.string_count);
    stock.family_count = stock.string_count = 40; /* fewer */
    assert_int_equal(differences(&stock), 0);
    assert_int_equal(mensur_stock_index_update(&stock), MENSUR_OK);
    assert_int_equal(differences(&stock), 0);
    mensur_stock_index_free(&stock);
    assert_null(stock.index);
}

/* A stock with rows of its own in the place of others, as answers make them, is gone through. */
static void is_of_its_own_rows(void **state) {
    (void)state;
    fill();
    struct mensur_stock stock = {.strings = strings, .string_count = 100};
    assert_int_equal(mensur_stock_index_update(&stock), MENSUR_OK);
    struct mensur_string_spec own[100] = {{0}};
    char set[] = "own set";
    own[99].set = set;
    struct mensur_stock other = stock;
    other.strings = own;
    assert_int_equal(mensur_stock_place(&other, MENSUR_NAMED_SETS, "own set"), 99);
    assert_int_equal(mensur_stock_next_of_set(&other, 99), 100);
    mensur_stock_index_free(&stock);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_what_is_there),
        cmocka_unit_test(is_of_its_own_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
