/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demonstration shop for tests, read by the program's own reader. */
#ifndef MENSUR_TEST_DEMO_H
#define MENSUR_TEST_DEMO_H

#include "ask.h"
#include "check.h"
#include "shop_files.h"

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

/* The same without a family: no usual values and no tuning. */
void demo_bare_violin(struct mensur_instrument *out);

/* The demonstration's stock with its own copy of the strings, which may be changed, and `more`
 * unknown strings before them (texts are borrowed); the caller frees out->strings. */
void demo_own_strings(const struct demo *demo, size_t more, struct mensur_stock *out);

/* Sets a measurement in mm. */
void demo_set(struct mensur_instrument *instrument, enum mensur_field field, double mm);

#endif
