/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Reads and prints numbers independently of the locale of the process.
 */
#ifndef MENSUR_NUMBER_H
#define MENSUR_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

#include "status.h"

/** Bytes that hold any printed number and its terminating NUL. */
#define MENSUR_NUMBER_ROOM 352

/**
 * Reads the decimal number at the start of a text.
 *
 * Reads [+-] digits [. digits] [e [+-] digits], or decimals alone (.5); no hexadecimal, infinity
 * or NaN. The value is the nearest double, ties to even.
 *
 * @param text           where to read; needs no terminating NUL
 * @param length         how many bytes may be read
 * @param decimal_comma  true: a comma too separates the decimals
 * @param[out] used      bytes read
 * @param[out] value     the number, unitless, finite
 * @return  MENSUR_OK; MENSUR_DATA where there is no number; MENSUR_DOMAIN where it is too large
 */
enum mensur_status mensur_number_read(const char *text, size_t length, bool decimal_comma,
                                      size_t *used, double *value);

/**
 * Prints a number with a fixed count of decimals; -0 and what rounds to it are printed as 0,
 * NaN and infinity are printed as "?".
 *
 * @param value     any double
 * @param decimals  0 to 17
 * @param[out] out  at least MENSUR_NUMBER_ROOM bytes
 * @return          length of the text in bytes
 */
size_t mensur_number_print(double value, int decimals, char *out);

/**
 * Prints a number with a count of significant digits, without trailing zeros. Below 0.0001, and
 * from 10^digits on, with a power of ten (1.5e-05).
 *
 * @param value     any double; NaN and infinity are printed as "?"
 * @param digits    1 to 17
 * @param[out] out  at least MENSUR_NUMBER_ROOM bytes
 * @return          length of the text in bytes
 */
size_t mensur_number_print_significant(double value, int digits, char *out);

#endif
