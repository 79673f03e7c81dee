/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every test shares: cmocka with its needed headers, doubles compared in double precision
 * (cmocka's own comparison is in single precision). */
#ifndef MENSUR_TEST_CHECK_H
#define MENSUR_TEST_CHECK_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "status.h"

/* Fails, with the row's name and 17 digits, unless got lies within the absolute or the relative
 * tolerance of want; NaN agrees only with NaN, an infinity with the same one. */
void check_close_at(const char *file, int line, const char *row, double got, double want,
                    double absolute, double relative);

#define check_close(row, got, want, absolute, relative)                                            \
    check_close_at(__FILE__, __LINE__, (row), (got), (want), (absolute), (relative))

/* Fails, with the row's name, unless the statuses are the same. */
void check_status_at(const char *file, int line, const char *row, enum mensur_status got,
                     enum mensur_status want);

#define check_status(row, got, want) check_status_at(__FILE__, __LINE__, (row), (got), (want))

/* Fails unless text holds part. */
void check_holds_at(const char *file, int line, const char *text, const char *part);

#define check_holds(text, part) check_holds_at(__FILE__, __LINE__, (text), (part))

#define COUNT_OF(array) (sizeof(array) / sizeof((array)[0]))

#endif
