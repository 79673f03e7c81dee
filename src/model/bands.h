/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Between which values a measurement is plausible, at each of the sizes that instruments of a
 * family are made in. The bands are ours (no standard states any).
 */
#ifndef MENSUR_BANDS_H
#define MENSUR_BANDS_H

#include "stock.h"

/** What is plausible of one measurement at one size; all NaN where nothing is known. */
struct mensur_band {
    double usual;               /**< m */
    double low, high;           /**< m: within them there is nothing to say */
    double slip_low, slip_high; /**< m: beyond them it is taken for a slip; low 0: 0 is lawful */
};

/** A size of a family. */
struct mensur_bands {
    size_t family; /**< its place in the stock */
    struct mensur_band of[MENSUR_FIELD_COUNT];
};

/* Puts the sizes of the stock's families into it; sizes that it had are freed. MENSUR_MEMORY. */
enum mensur_status mensur_bands_make(struct mensur_stock *stock);

/* A family that has no sizes, at a stop (m; NaN: at none in particular): heights and thicknesses
 * alone are judged. */
void mensur_bands_at(const struct mensur_stock *stock, const struct mensur_family *family,
                     double stop, struct mensur_bands *out);

#endif
