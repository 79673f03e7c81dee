/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A working held against its own arithmetic, and its lines by name. */
#ifndef MENSUR_TEST_WORKED_H
#define MENSUR_TEST_WORKED_H

#include "arithmetic.h"
#include "check.h"
#include "working.h"

/* Every step is whole and right, worked out again from what is printed; how many there are. */
size_t check_working(const struct mensur_working *working);

/* The last line of that name, about that part (NULL: any); NULL where there is none. */
const struct mensur_working_line *find_line(const struct mensur_working *working, const char *about,
                                            const char *what);

#endif
