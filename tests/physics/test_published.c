/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every row of the published table is computed and compared, or listed with the reason why not. A
 * row that is neither, and a check without a row, fail. */
#include "demo.h"
#include "published_checks.h"

#include <gsl/gsl_errno.h>

#ifndef MENSUR_SHARED_DIR
#error "MENSUR_SHARED_DIR must say where the shared tables are"
#endif

static const struct {
    const struct published_check *checks;
    const size_t *count;
} topics[] = {
    {string_checks, &string_check_count}, {stiff_checks, &stiff_check_count},
    {pitch_checks, &pitch_check_count},   {playing_checks, &playing_check_count},
    {setup_checks, &setup_check_count},   {load_checks, &load_check_count},
    {tuning_checks, &tuning_check_count}, {catalogue_checks, &catalogue_check_count},
    {usual_checks, &usual_check_count},
};

static bool is_row(const struct published_row *row, const char *topic, const char *quantity,
                   const char *inputs) {
    return strcmp(row->cells[TOPIC], topic) == 0 && strcmp(row->cells[QUANTITY], quantity) == 0 &&
           strcmp(row->cells[INPUTS], inputs) == 0;
}

static const struct published_check *check_of(const struct published_row *row) {
    for (size_t i = 0; i < COUNT_OF(topics); i++) {
        for (size_t j = 0; j < *topics[i].count; j++) {
            const struct published_check *check = &topics[i].checks[j];
            if (is_row(row, check->topic, check->quantity, check->inputs)) {
                return check;
            }
        }
    }
    return NULL;
}

static const struct published_skip *skip_of(const struct published_row *row) {
    for (size_t i = 0; i < published_skip_count; i++) {
        const struct published_skip *skip = &published_skips[i];
        if (is_row(row, skip->topic, skip->quantity, skip->inputs)) {
            return skip;
        }
    }
    return NULL;
}

static void compare(const struct published_row *row, const struct published_check *check) {
    double want[VALUES_MOST], got[VALUES_MOST];
    struct tolerance allowed[VALUES_MOST];
    char label[512];
    const char *expected = check->expected != NULL ? check->expected : row->cells[EXPECTED];
    const char *tolerance = check->tolerance != NULL ? check->tolerance : row->cells[TOLERANCE];
    size_t count = expected_numbers(expected, want, VALUES_MOST);
    size_t allowances = tolerances(tolerance, allowed, VALUES_MOST);
    snprintf(label, sizeof label, "row %zu, %s (%s)", row->line, row->cells[QUANTITY],
             row->cells[INPUTS]);
    if (count == 0 || check->compute(row, got) != count) {
        print_error("%s: as many values are needed as \"%s\" has\n", label, expected);
        fail();
    }
    for (size_t i = 0; i < count; i++) {
        struct tolerance here = allowed[i < allowances ? i : 0];
        if (here.absolute <= 0.0 && here.relative <= 0.0) {
            print_error("%s: \"%s\" says no tolerance\n", label, tolerance);
            fail();
        }
        check_close(label, got[i], want[i], here.absolute, here.relative);
    }
}

/* What comes from memory is never asserted. */
static void check_row(const struct published_row *row, size_t *checked, size_t *skipped) {
    const struct published_check *check = check_of(row);
    const struct published_skip *skip = skip_of(row);
    if ((check == NULL) == (skip == NULL)) {
        print_error("row %zu is %s: %s, %s, %s\n", row->line,
                    check == NULL ? "unknown" : "both checked and not", row->cells[TOPIC],
                    row->cells[QUANTITY], row->cells[INPUTS]);
        fail();
    }
    if (check != NULL) {
        assert_string_not_equal(row->cells[STATUS], "FROM MEMORY");
        compare(row, check);
        ++*checked;
    } else {
        ++*skipped;
    }
}

static size_t known_rows(void) {
    size_t count = published_skip_count;
    for (size_t i = 0; i < COUNT_OF(topics); i++) {
        count += *topics[i].count;
    }
    return count;
}

struct mensur_solver *published_solver;
const struct mensur_stock *published_stock;

static int open_all(void **state) {
    if (demo_open(state) != 0 || mensur_solver_make(&published_solver) != MENSUR_OK) {
        return -1;
    }
    published_stock = &((struct demo *)*state)->shop.stock;
    return 0;
}

static int close_all(void **state) {
    mensur_solver_free(published_solver);
    return demo_close(state);
}

static void every_row(void **state) {
    (void)state;
    struct published_table table = {0};
    size_t checked = 0, skipped = 0;
    published_read(MENSUR_SHARED_DIR "/published/check-values.csv", &table);
    for (size_t i = 0; i < table.count; i++) {
        check_row(&table.rows[i], &checked, &skipped);
    }
    print_message("# %zu rows: %zu checked, %zu not computable\n", table.count, checked, skipped);
    assert_int_equal(table.count, known_rows()); /* else a row is missing or is there twice */
    published_clear(&table);
}

/* What the table's reader takes for a number, and what it must not. */
static void reads_numbers(void **state) {
    (void)state;
    double out[VALUES_MOST];
    struct tolerance allowed[VALUES_MOST];
    assert_int_equal(expected_numbers("v=258.20; 3/2; n=1 0.0457; 2457.6 (not 245.76)", out, 16),
                     4);
    check_close("named", out[0], 258.2, 0, 0);
    check_close("fraction", out[1], 1.5, 0, 0);
    check_close("last", out[2], 0.0457, 0, 0);
    check_close("brackets", out[3], 2457.6, 0, 0);
    assert_int_equal(expected_numbers("formula; f0; -5.8650; about", out, 16), 1);
    check_close("sign", out[0], -5.865, 0, 0);
    assert_int_equal(numbers_after("x=L(2); L=328 mm; n=1,2, 12", "; n=", out, 16), 3);
    check_close("list", out[2], 12, 0, 0);
    assert_int_equal(tolerances("0.5 %; 1e-5 relative; exact; 0.005 m/s; computed", allowed, 16),
                     5);
    check_close("per cent", allowed[0].relative, 0.005, 0, 1e-15);
    check_close("relative", allowed[1].relative, 1e-5, 0, 0);
    check_close("exact", allowed[2].relative, 1e-12, 0, 0);
    check_close("absolute", allowed[3].absolute, 0.005, 0, 0);
    check_close("none", allowed[4].absolute + allowed[4].relative, 0, 0, 0);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_numbers),
        cmocka_unit_test(every_row),
    };
    return cmocka_run_group_tests(tests, open_all, close_all);
}
