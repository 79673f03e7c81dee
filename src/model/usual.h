/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is usual in a family at a size, the size told by the stop: the family's values at its
 * reference stop, scaled by the power of each measurement (field.h), with how far instruments of
 * that size differ. Common practice, no source; the spreads are ours.
 */
#ifndef MENSUR_USUAL_H
#define MENSUR_USUAL_H

#include "stock.h"

/* Board over string where a family does not say: 5/6, common practice, no source. Afterlength over
 * string: 1/6, common practice, no source. */
#define MENSUR_USUAL_BOARD_SHARE (5.0 / 6.0)
#define MENSUR_USUAL_AFTERLENGTH_SHARE (1.0 / 6.0)

/* Usual value of a measurement at a stop (m, > 0; NaN: the reference stop), SI: usual value at the
 * reference stop times (stop / reference stop)^power, as it is where the family has no reference
 * stop. The neck of a family with neck_semitones is heel + p L, p = 1 - 2^(-neck_semitones/12),
 * where L less the neck goes with the stop. Up to small_to it is that of small_family at that stop,
 * from there to own_from a straight line. NaN where nothing is usual, or without a family. */
double mensur_family_usual(const struct mensur_stock *stock, const struct mensur_family *family,
                           enum mensur_field field, double stop);

/* Standard uncertainty of that, in the unit of the family's `spread`: times
 * (stop / reference stop)^0.5, but for the shares of the string, which keep theirs. NaN where none
 * is known. */
double mensur_family_spread(const struct mensur_stock *stock, const struct mensur_family *family,
                            enum mensur_field field, double stop);

/* Usual board_length / string length at a stop; 5/6 without a family or its own. */
double mensur_family_board_share(const struct mensur_stock *stock,
                                 const struct mensur_family *family, double stop);

/* Usual clearance_low or clearance_high less the mean of the two, at a stop, m; NaN without a
 * family. */
double mensur_family_offset(const struct mensur_stock *stock, const struct mensur_family *family,
                            enum mensur_field field, double stop);

#endif
