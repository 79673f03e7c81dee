/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What is usual in a family at a size, the size told by the stop: the family's values at its
 * reference stop, scaled by the power of each measurement (field.h), with how far instruments of
 * that size differ. Common practice, no source; the spreads are ours.
 */
#ifndef MENSUR_USUAL_H
#define MENSUR_USUAL_H

#include "stock.h"

/* Board and afterlength over string where a family does not say: 5/6 and 1/6, common practice, no
 * source. */
#define MENSUR_USUAL_BOARD_SHARE (5.0 / 6.0)
#define MENSUR_USUAL_AFTERLENGTH_SHARE (1.0 / 6.0)

/* A family at a size; or two of them, where small sizes are as another family's. */
struct mensur_size {
    struct mensur_size_of {
        const struct mensur_family *family; /* borrowed; NULL: none */
        double stop;                        /* over its reference stop; 1 where either is unknown */
        double log;                         /* log2 of that */
    } small, own;
    double part; /* of the way from small to own; 1: its own alone, 0: small alone */
};

/* A family at a stop (m, > 0; NaN: at its reference stop): up to its small_to it is its
 * small_family at that stop, from there to own_from a straight line between the two. */
struct mensur_size mensur_size_at(const struct mensur_stock *stock,
                                  const struct mensur_family *family, double stop);

/* Usual value of a measurement, SI: that at the reference stop times (stop / reference stop)^power.
 * The neck of a family with neck_semitones is heel + p L, p = 1 - 2^(-neck_semitones/12), where L
 * less the neck goes with the stop. NaN where nothing is usual, or without a family. */
double mensur_size_usual(const struct mensur_size *size, enum mensur_field field);

/* Standard uncertainty of that, in the unit of the family's `spread`: times
 * (stop / reference stop)^0.5, but for the shares of the string, which keep theirs. NaN where none
 * is known. */
double mensur_size_spread(const struct mensur_size *size, enum mensur_field field);

/* Usual board_length / string length; 5/6 where no family says. */
double mensur_size_board_share(const struct mensur_size *size);

/* Usual afterlength / string length; 1/6 where no family says. */
double mensur_size_afterlength_share(const struct mensur_size *size);

/* Usual clearance_low or clearance_high less the mean of the two, m; NaN without a family. */
double mensur_size_offset(const struct mensur_size *size, enum mensur_field field);

/* mensur_size_usual at a stop. */
double mensur_family_usual(const struct mensur_stock *stock, const struct mensur_family *family,
                           enum mensur_field field, double stop);

#endif
