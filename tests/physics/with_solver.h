/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The solver of a test program, made before its tests and freed after them. */
#ifndef MENSUR_TEST_WITH_SOLVER_H
#define MENSUR_TEST_WITH_SOLVER_H

#include "solve.h"

static struct mensur_solver *solver;

static int make_solver(void **state) {
    (void)state;
    return mensur_solver_make(&solver) == MENSUR_OK ? 0 : -1;
}

static int free_solver(void **state) {
    (void)state;
    mensur_solver_free(solver);
    return 0;
}

#endif
