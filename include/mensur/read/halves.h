/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * A long instruments.csv in two halves that can be read at the same time, for who has two cores.
 *
 * The halves are good for a file with nothing to say about it: lines in messages are counted from
 * each half's own beginning, and a name that stands in both is only known to. Where a report is
 * not empty, or names are shared, read the file whole with mensur_shop_instruments.
 */
#ifndef MENSUR_HALVES_H
#define MENSUR_HALVES_H

#include "shop.h"

/** Two halves of a file. */
struct mensur_halves;

/**
 * Looks for a row near the middle of the file at which it can be cut.
 *
 * @param shop         an open shop; must outlive the halves
 * @param least        bytes; a shorter file is not cut
 * @param[out] halves  the caller's to free
 * @return  MENSUR_OK; MENSUR_NO_ANSWER where the file is short, no file, or has a cell in quotes in
 *          its first half (a line's end may then be inside a cell); MENSUR_READ; MENSUR_MEMORY
 */
enum mensur_status mensur_halves_open(const struct mensur_shop *shop, size_t least,
                                      struct mensur_halves **halves);

/**
 * Reads a half row by row, as mensur_shop_instruments does; the two may be read at the same time,
 * each once.
 *
 * @param halves   open
 * @param half     0 or 1
 * @param visit    called for every good row
 * @param context  handed to visit
 * @param report   errors and warnings are added to it
 * @return  as mensur_shop_instruments
 */
enum mensur_status mensur_halves_read(struct mensur_halves *halves, int half, mensur_visit *visit,
                                      void *context, struct mensur_report *report);

/**
 * Whether a name stands in both halves, after both were read.
 *
 * @param halves  open
 * @return        true where one does, and seldom (a hash of 64 bits) where none does
 */
bool mensur_halves_share_names(const struct mensur_halves *halves);

/**
 * Frees the halves.
 *
 * @param halves  may be NULL
 */
void mensur_halves_free(struct mensur_halves *halves);

#endif
