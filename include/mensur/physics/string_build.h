/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Linear density and core of a string from what it is built of. SI throughout.
 *
 * Every size lies between 1e-60 and 1e60 of its SI unit; a function that fails leaves its results
 * untouched.
 */
#ifndef MENSUR_STRING_BUILD_H
#define MENSUR_STRING_BUILD_H

#include <stdbool.h>
#include <stddef.h>

#include "status.h"

/** A wrapping around a core. */
struct mensur_winding {
    double thickness; /**< m, > 0, of the wire or ribbon */
    double density;   /**< kg/m3, > 0; stiffness does not ask for it */
    bool flat;        /**< ribbon, fills its ring (k = 1); else round wire (k = pi/4) */
    double modulus;   /**< Pa, > 0; mensur_greatest_second_moment alone asks for it */
};

/**
 * Linear density of a plain string.
 *
 * mu = pi/4 rho d^2
 *
 * @param diameter             d, m, > 0
 * @param density              rho, kg/m3, > 0
 * @param[out] linear_density  mu, kg/m
 *
 * Accuracy: 1e-15 relative for a round, solid string. It is the
 * density at pitch if diameter and density were measured at pitch; else see mensur_tuned_density.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: a circle's area; OpenStax, University Physics 1, section 16.3 has an example.
 * Test: tests/physics/test_string_build.c (densities, refuses), test_published.c (topics 1 and 5)
 */
enum mensur_status mensur_plain_density(double diameter, double density, double *linear_density);

/**
 * Linear density of a wrapped string.
 *
 * mu = pi/4 (rho_c dc^2 + sum of rho_w k (D^2 - d^2)), D = d + 2 thickness
 *
 * @param core_diameter        dc, m, > 0
 * @param core_density         rho_c, kg/m3, > 0
 * @param windings             from the inside out, each value in the range of its field; NULL where
 *                             count is 0
 * @param count                how many, 0 for a plain string
 * @param[out] linear_density  mu, kg/m
 *
 * Accuracy: 1e-14 relative for the equation. Real windings press into a soft core, are
 * polished after winding, and leave air or glue between: the result is good to some per cent, and a
 * weighed density is better.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: areas of circles; k = pi/4 is the area of a circle over that of its square, 1 a filled
 * ring. Test: tests/physics/test_string_build.c (densities, refuses)
 */
enum mensur_status mensur_wrapped_density(double core_diameter, double core_density,
                                          const struct mensur_winding *windings, size_t count,
                                          double *linear_density);

/**
 * Outer diameter over all windings.
 *
 * D = dc + 2 sum of thicknesses
 *
 * @param core_diameter  dc, m, > 0
 * @param windings       as for mensur_wrapped_density
 * @param count          how many, 0 for a plain string
 * @param[out] diameter  D, m
 *
 * Accuracy: 1e-15 relative for the equation; a soft core is compressed by the winding.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: none needed.
 * Test: tests/physics/test_string_build.c (diameters, refuses)
 */
enum mensur_status mensur_outer_diameter(double core_diameter,
                                         const struct mensur_winding *windings, size_t count,
                                         double *diameter);

/**
 * Area of the core, which carries the tension.
 *
 * A = pi dc^2/4
 *
 * @param core_diameter  dc, m, > 0
 * @param[out] area      A, m2
 *
 * Accuracy: 1e-15 relative for a round, solid core; a stranded one has air in it, and less area.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: a circle's area.
 * Test: tests/physics/test_string_build.c (cores, refuses)
 */
enum mensur_status mensur_core_area(double core_diameter, double *area);

/**
 * Second moment of area of the core, which makes the string stiff.
 *
 * solid: I = pi dc^4/64; n strands of equal area, the same in all: ds = dc/sqrt(n),
 * I = n pi ds^4/64 = pi dc^4/(64 n)
 *
 * @param core_diameter       dc, m, > 0
 * @param strands             n, a whole number >= 1; 1 for a solid core
 * @param[out] second_moment  I, m4
 *
 * Accuracy: 1e-15 relative for the equation. Strands are taken to slide freely on each other,
 * which is the least I a stranded core can have; glue and tension hold them together and raise it,
 * at most to mensur_greatest_second_moment.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: second moment of a circle, any textbook on strength of materials.
 * Test: tests/physics/test_string_build.c (cores, refuses)
 */
enum mensur_status mensur_core_second_moment(double core_diameter, double strands,
                                             double *second_moment);

/**
 * The greatest second moment of area that a string can have, as if all of it were of the core's
 * material: the strands of the core grown together to one rod that fills the circle round them, and
 * the wrappings coils whose turns do not bear on each other.
 *
 * I = pi d^4/64 + sum of p/(pi R E (1/EI + 1/GJ)), d = ds sqrt((4 n - 1)/3), ds = dc/sqrt(n)
 *
 * R is the radius of the coil's middle line, p its turn, G = Ew/(2 (1 + nu)) with nu = 0.3. Round
 * wire of the thickness t: p = t, EI = Ew pi t^4/64, GJ = 2 G pi t^4/64. Ribbon: p as wide as the
 * diameter it is wound on, EI = Ew t p^3/12, GJ = G p t^3/3. d is the circle round strands that lie
 * in whole rings, n = 1, 7, 19, 37 ...: 1, 3, 5, 7 ... times ds; between these it is the same
 * equation. The wrappings lie on dc, as in mensur_wrapped_density.
 *
 * @param core_diameter       dc, m, > 0, of a circle with the core's area
 * @param strands             n, a whole number >= 1; 1 for a solid core
 * @param modulus             E, Pa, > 0, of the core
 * @param windings            from the inside out, thickness and modulus in the range of their
 *                            fields; NULL where count is 0
 * @param count               how many, 0 for a string without wrappings
 * @param[out] second_moment  I, m4
 *
 * Accuracy: 1e-14 relative for the equation. An upper bound for strands, which slide on each other
 * in part, and for ribbon, which is mostly narrower; friction that holds a round wire to the core
 * makes its part at most 2 % larger, (EI + GJ)/4 in place of 1/(1/EI + 1/GJ). Between the turns
 * there is no friction where the stretch to pitch opens them, 0.3 % and more. Stops holding where
 * they are glued, or laid so tightly that they still press on each other at pitch: then up to a
 * tube, some hundred times more around a thin core.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: second moment of circles, any textbook on strength of materials; a close-wound coil bent
 * as a beam: S. Timoshenko, Strength of Materials, and A. M. Wahl, Mechanical Springs, both from
 * memory; nu: from memory; the ribbon's width: ours.
 * Test: tests/physics/test_string_build.c (greatest, coils, refuses), test_published.c (topic 4)
 */
enum mensur_status mensur_greatest_second_moment(double core_diameter, double strands,
                                                 double modulus,
                                                 const struct mensur_winding *windings,
                                                 size_t count, double *second_moment);

/**
 * Linear density of strings that were weighed.
 *
 * mu = (mass/count - ball)/length
 *
 * @param mass                 kg, > 0, of all that lay on the scale together
 * @param count                strings alike on the scale, a whole number >= 1
 * @param ball                 kg, >= 0, of the ball of one string; 0: it has none, or was off
 * @param length               m, > 0, of one string, without the ball
 * @param[out] linear_density  kg/m, > 0
 *
 * Accuracy: 1e-15 relative for the equation. A scale that shows steps of s is off by s/sqrt(12) (a
 * standard uncertainty; every place within the step is as likely as another), for all strings
 * together: a violin's A of 0.36 g on 0.1 g steps is known to 8 %, ten of them together to 0.8 %.
 * The ends with thread or thicker wrapping weigh more than the middle.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range, or no mass left without the ball
 *
 * Source: definition; s/sqrt(12): JCGM 100:2008, 4.3.7, from memory.
 * Test: tests/physics/test_string_build.c (weighed, refuses_weighing), test_published.c (topics 1
 * and 16)
 */
enum mensur_status mensur_weighed_density(double mass, double count, double ball, double length,
                                          double *linear_density);

#endif
