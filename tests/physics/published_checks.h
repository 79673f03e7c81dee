/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the published table that are computed, and how; and those that are not, and why. */
#ifndef MENSUR_TEST_PUBLISHED_CHECKS_H
#define MENSUR_TEST_PUBLISHED_CHECKS_H

#include <stddef.h>

#include "published_table.h"
#include "solve.h"

struct mensur_stock;

#define VALUES_MOST 16

/* Computes a row's expected values from its inputs, in the row's units; how many. */
typedef size_t published_compute(const struct published_row *row, double *out);

/* A row that is computed. Where expected or tolerance is given here, it replaces the row's cell:
 * for rows that state a law and no number (the law over the library's value is 1), or no tolerance
 * for all their values. */
struct published_check {
    const char *topic, *quantity, *inputs;
    published_compute *compute;
    const char *expected, *tolerance;
};

/* A row that is not computed, and why. */
struct published_skip {
    const char *topic, *quantity, *inputs, *why;
};

extern const struct published_check string_checks[]; /* topic 1 */
extern const size_t string_check_count;
extern const struct published_check stiff_checks[]; /* topics 3, 4, 10 */
extern const size_t stiff_check_count;
extern const struct published_check pitch_checks[]; /* topic 2 */
extern const size_t pitch_check_count;
extern const struct published_check playing_checks[]; /* topics 5, 9 */
extern const size_t playing_check_count;
extern const struct published_check setup_checks[]; /* topics 6, 7, 8 */
extern const size_t setup_check_count;
extern const struct published_check load_checks[]; /* topic 6: feet, neck */
extern const size_t load_check_count;
extern const struct published_check tuning_checks[]; /* topics 4, 10 to 16 */
extern const size_t tuning_check_count;
extern const struct published_check catalogue_checks[]; /* topic 3: the catalogue's rows */
extern const size_t catalogue_check_count;
extern const struct published_check usual_checks[]; /* topics 6, 7, 13: usual values */
extern const size_t usual_check_count;
extern const struct published_skip published_skips[];
extern const size_t published_skip_count;

/* Made before the tests and freed after them. */
extern struct mensur_solver *published_solver;
/* The built-in tables. */
extern const struct mensur_stock *published_stock;

/* Calls a function of the library that must succeed. */
#define MUST(call) check_status(row->cells[QUANTITY], (call), MENSUR_OK)

#endif
