/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Linear density and core of a string from what it is built of. SI throughout.
 */
#ifndef MENSUR_STRING_BUILD_H
#define MENSUR_STRING_BUILD_H

#include <stdbool.h>
#include <stddef.h>

#include "status.h"

/** A wrapping around a core. */
struct mensur_winding {
    double thickness; /**< m, > 0, of the wire or ribbon */
    double density;   /**< kg/m3, > 0 */
    bool flat;        /**< ribbon, fills its ring (k = 1); else round wire (k = pi/4) */
};

/** Density of a plain string: pi/4 rho d^2. */
enum mensur_status mensur_plain_density(double diameter, double density, double *linear_density);
/** Density of a wrapped one: pi/4 (rho_c dc^2 + sum rho_w k (D^2 - d^2)), D = d + 2 thickness. */
enum mensur_status mensur_wrapped_density(double core_diameter, double core_density,
                                          const struct mensur_winding *windings, size_t count,
                                          double *linear_density);
/** Outer diameter over all windings. */
enum mensur_status mensur_outer_diameter(double core_diameter,
                                         const struct mensur_winding *windings, size_t count,
                                         double *diameter);
/** Core area pi dc^2/4. */
enum mensur_status mensur_core_area(double core_diameter, double *area);
/** Second moment of the core: solid pi dc^4/64; n strands of equal area, ds = dc/sqrt(n): n pi ds^4/64. strands >= 1. */
enum mensur_status mensur_core_second_moment(double core_diameter, double strands,
                                             double *second_moment);

#endif
