/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory that fails when a test says so. The linker puts scarce.c's functions in the place of the
 * library's own (--wrap). */
#ifndef MENSUR_TEST_SCARCE_H
#define MENSUR_TEST_SCARCE_H

#include "demo.h"

/* Allocations until one fails; less than 0: none does, or one has. */
extern long scarce_left;

/* Counts an allocation; true where it is the one to fail. */
bool scarce_fails(void);

/* Asks a question of the demonstration shop, frees what came, and tells how it went. */
typedef enum mensur_status scarce_question(const struct demo *demo, struct mensur_fault *fault);

/* Lets each allocation of a question fail in turn until none is left to: every failure but the last
 * call's must come out as MENSUR_MEMORY, with words. */
void scarce_go_through(const char *row, scarce_question *ask, const struct demo *demo);

#endif
