/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Problems made to be as hard for the bounds as can be: answers are known by construction. */
#include "check.h"
#include "restring_labels.h"

#include <stdbool.h>

static const double capped = 65536.0; /* what one term costs at most */

/* One note. String k costs 65536 q^k and presses with -1/2^k N; the last one costs nothing and
 * presses with nothing, which is over the limit. Between it and any other string the roof of the
 * priced costs has its ridge at the very next one, so that the price is still not the best after as
 * many rounds as there are. */
static void many_ridges(void **state) {
    (void)state;
    enum { RIDGES = 46 };
    const double q = 0.47;
    struct restring_string strings[RIDGES + 1];
    struct restring_set sets[RESTRING_SETS_MAX];
    size_t found = 99;
    for (int k = 0; k < RIDGES; k++) {
        strings[k] =
            (struct restring_string){.pull = 4.0 + 256.0 * pow(q, k / 2.0), .force = -ldexp(1, -k)};
    }
    strings[RIDGES] = (struct restring_string){.pull = 4.0, .force = 0.0};
    struct restring_problem problem = {.note_count = 1,
                                       .notes = {{strings, RIDGES + 1, 4.0, 0.0}},
                                       .most_force = -ldexp(1, -60),
                                       .wanted = 3};
    check_status("ridges", restring_search(&problem, sets, &found), MENSUR_OK);
    assert_int_equal(found, 3);
    for (size_t i = 0; i < found; i++) {
        int k = RIDGES - 1 - (int)i;
        assert_int_equal(sets[i].places[0], k);
        check_close("cost", restring_cost(sets[i].cost), capped * pow(q, k), ldexp(1, -40), 1e-9);
    }
}

enum { PAIRS = 9, LEVELS = 23 };

/* Nine notes of two strings each: an even one that presses a hair harder, and a light one that is
 * far from each neighbour; and one of many, each four times as costly as the one before. One string
 * that presses with 1e9 N makes every price on force too small to help, and the hairs less than
 * what sums may be rounded by. Only nine light strings together keep the limit, and their cost,
 * nine times the most of a term, is found by raising the ceiling from next to nothing as far as it
 * goes.
 */
static void far_above_the_bound(void **state) {
    (void)state;
    static struct restring_string pairs[PAIRS][2], last[LEVELS + 1];
    struct restring_problem problem = {.note_count = PAIRS + 1, .most_force = 450.0, .wanted = 1};
    struct restring_set set;
    size_t found = 99;
    for (size_t i = 0; i < PAIRS; i++) {
        pairs[i][0] = (struct restring_string){.pull = 0.0, .force = 50.00005};
        pairs[i][1] = (struct restring_string){.pull = i % 2 == 0 ? 600.0 : -600.0, .force = 50.0};
        problem.notes[i] = (struct restring_note){pairs[i], 2, NAN, 0.0};
    }
    for (int k = 0; k < LEVELS; k++) {
        last[k] = (struct restring_string){.pull = ldexp(1, k - 14), .force = 0.0};
    }
    last[LEVELS] = (struct restring_string){.pull = 0.0, .force = 1e9};
    problem.notes[PAIRS] = (struct restring_note){last, LEVELS + 1, 0.0, 0.0};
    check_status("far", restring_search(&problem, &set, &found), MENSUR_OK);
    assert_int_equal(found, 1);
    for (size_t i = 0; i < PAIRS; i++) {
        assert_int_equal(set.places[i], 1);
    }
    assert_int_equal(set.places[PAIRS], 0);
    check_close("cost", restring_cost(set.cost), PAIRS * capped, 1e-7, 0);
}

/* Labels take up to a million; then none is added, and ways are passed over by those that stand. */
static void labels_run_out(void **state) {
    (void)state;
    enum { RUNGS = 4096, MOST = 1 << 20 };
    static struct rung rungs[RUNGS];
    struct ladders ladders = {.count = 1, .items = {{rungs, RUNGS, 0.0}}};
    struct labels labels;
    check_status("labels", labels_make(&ladders, 1, &labels), MENSUR_OK);
    /* Each way costs less than those before and presses harder: none is outdone. */
    for (size_t n = 0; n < MOST + RUNGS; n++) {
        size_t place = n % RUNGS;
        assert_false(labels_outdo(&labels, 0, place, &place, (int64_t)(2 * MOST - n), (double)n));
    }
    assert_int_equal(labels.count, MOST);
    size_t place = 7;
    assert_true(labels_outdo(&labels, 0, 7, &place, 2 * MOST, 1e9));
    assert_int_equal(labels.count, MOST);
    labels_clear(&labels);
}

/* The same way as the labelled one is not behind it. */
static void labels_compare(void **state) {
    (void)state;
    static const struct {
        size_t a[3], b[3];
        int want;
    } rows[] = {{{4, 7, 2}, {4, 7, 2}, 0}, {{4, 7, 2}, {4, 8, 0}, -1}, {{5, 0, 0}, {4, 9, 9}, 1}};
    static struct rung rung;
    struct ladders ladders = {.count = 1, .items = {{&rung, 1, 0.0}}};
    struct labels labels;
    const size_t place = 5;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_int_equal(restring_compare(rows[i].a, rows[i].b, 3), rows[i].want);
    }
    check_status("labels", labels_make(&ladders, 1, &labels), MENSUR_OK);
    assert_false(labels_outdo(&labels, 0, 0, &place, 12, 3.5));
    assert_false(labels_outdo(&labels, 0, 0, &place, 12, 3.5));
    labels_clear(&labels);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(many_ridges), cmocka_unit_test(far_above_the_bound),
        cmocka_unit_test(labels_run_out), cmocka_unit_test(labels_compare)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
