/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of published check values, read from its file, and the numbers in its cells. */
#ifndef MENSUR_TEST_PUBLISHED_TABLE_H
#define MENSUR_TEST_PUBLISHED_TABLE_H

#include <stdbool.h>
#include <stddef.h>

/* Columns of the file, in their order. */
enum column { TOPIC, QUANTITY, INPUTS, EXPECTED, UNIT, TOLERANCE, SOURCE, STATUS, COLUMNS };

struct published_row {
    char *cells[COLUMNS]; /* owned by the table */
    size_t line;          /* the row's number, 1 for the first under the head */
};

struct published_table {
    struct published_row *rows;
    size_t count, room;
};

/* Reads the whole file; fails the test where it cannot. */
void published_read(const char *path, struct published_table *table);

void published_clear(struct published_table *table);

/* The number that stands after a marker in a text ("mu=" in "mu=0.3; T=5"); a fraction a/b is
 * divided. A marker that begins with
 * a letter must not stand behind a letter. Fails the test where there is none. */
double number_after(const char *text, const char *marker);

/* All numbers of a text from a marker up to the next semicolon; how many. */
size_t numbers_after(const char *text, const char *marker, double *out, size_t room);

/* The last number of each piece of an expected cell, pieces ended by semicolons, words in brackets
 * left out: "v=1.5 (rounded); n=2 3/4" holds 1.5 and 0.75. */
size_t expected_numbers(const char *text, double *out, size_t room);

/* How far a value may be off. */
struct tolerance {
    double absolute, relative;
};

/* Tolerances of a cell, pieces as above: "0.005 m/s", "1 %", "1e-5 relative", "exact" (1e-12
 * relative, for what is exact but for rounding). 0 where a piece says no number. */
size_t tolerances(const char *text, struct tolerance *out, size_t room);

#endif
