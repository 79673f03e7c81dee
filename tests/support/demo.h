/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demonstration shop for tests, read by the program's own reader. */
#ifndef MENSUR_TEST_DEMO_H
#define MENSUR_TEST_DEMO_H

#include "ask.h"
#include "check.h"
#include "shop.h"

struct demo {
    struct mensur_shop shop;
    struct mensur_instrument heron, kestrel, wren, swift, bittern, dipper;
    struct mensur_terms terms;
};

/* Opens it as a test group's state; fails the group where it cannot be read. */
int demo_open(void **state);
int demo_close(void **state);

/* A violin of model measurements: 355, 195, 130, and a board without taper. */
void demo_model_violin(struct mensur_instrument *out);

/* The same without a family: nothing is usual, and no tuning goes without saying. */
void demo_bare_violin(struct mensur_instrument *out);

/* The demonstration's stock with strings of its own to change, `more` unknown ones before them (its
 * texts are borrowed); free its strings. */
void demo_own_strings(const struct demo *demo, size_t more, struct mensur_stock *out);

/* Sets a measurement in mm. */
void demo_set(struct mensur_instrument *instrument, enum mensur_field field, double mm);

#endif
