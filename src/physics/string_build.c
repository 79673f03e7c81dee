/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linear density and core of a string from its construction: areas of circles and rings.
 *
 * A ring of thickness t around the diameter d reaches D = d + 2 t, and D^2 - d^2 = 4 t (d + t).
 * Round wire laid turn by turn fills pi/4 of its ring: the area of a circle over its square's.
 *
 * A wrapping bends as a close-wound coil spring: S. Timoshenko, Strength of Materials; A. M. Wahl,
 * Mechanical Springs (both from memory). A moment M across the string twists the wire by M sin(u)
 * and bends it by M cos(u) at the angle u of the turn, so that a turn of the radius R, p long,
 * bends by M pi R (1/EI + 1/GJ), and the coil as a beam of EI' = p/(pi R (1/EI + 1/GJ)). */
#include "string_build.h"

#include "domain.h"

#define ROUND_FILL (MENSUR_PI / 4.0)
#define POISSON 0.3 /* of the metals of wrappings, from memory; G = E/(2 (1 + POISSON)) */

/* Diameter over all windings, and the sum of rho k (D^2 - d^2); false where a value is outside its
 * domain. */
static bool add_windings(double core_diameter, const struct mensur_winding *windings, size_t count,
                         double *diameter, double *rings) {
    double reached = core_diameter;
    double sum = 0.0;
    if (!is_positive(core_diameter) || (count > 0 && windings == NULL)) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        const struct mensur_winding *winding = &windings[i];
        if (!is_positive(winding->thickness) || !is_positive(winding->density)) {
            return false;
        }
        double fill = winding->flat ? 1.0 : ROUND_FILL;
        sum += winding->density * fill * 4.0 * winding->thickness * (reached + winding->thickness);
        reached += 2.0 * winding->thickness;
    }
    *diameter = reached;
    *rings = sum;
    return true;
}

enum mensur_status mensur_plain_density(double diameter, double density, double *linear_density) {
    return mensur_wrapped_density(diameter, density, NULL, 0, linear_density);
}

enum mensur_status mensur_wrapped_density(double core_diameter, double core_density,
                                          const struct mensur_winding *windings, size_t count,
                                          double *linear_density) {
    double diameter, rings;
    if (!is_positive(core_density) ||
        !add_windings(core_diameter, windings, count, &diameter, &rings)) {
        return MENSUR_DOMAIN;
    }
    return give(MENSUR_PI / 4.0 * (core_density * core_diameter * core_diameter + rings),
                linear_density);
}

enum mensur_status mensur_outer_diameter(double core_diameter,
                                         const struct mensur_winding *windings, size_t count,
                                         double *diameter) {
    double reached, rings;
    if (!add_windings(core_diameter, windings, count, &reached, &rings)) {
        return MENSUR_DOMAIN;
    }
    return give(reached, diameter);
}

enum mensur_status mensur_core_area(double core_diameter, double *area) {
    if (!is_positive(core_diameter)) {
        return MENSUR_DOMAIN;
    }
    return give(MENSUR_PI / 4.0 * core_diameter * core_diameter, area);
}

enum mensur_status mensur_core_second_moment(double core_diameter, double strands,
                                             double *second_moment) {
    if (!is_positive(core_diameter) || !is_positive(strands) || strands < 1.0 ||
        floor(strands) < strands) {
        return MENSUR_DOMAIN;
    }
    double square = core_diameter * core_diameter;
    return give(MENSUR_PI / 64.0 * square * (square / strands), second_moment);
}

/* Second moment of a rod of the wrapping's material that bends as easily as its coil around the
 * diameter `inner`. */
static double coil_moment(const struct mensur_winding *winding, double inner) {
    double t = winding->thickness;
    /* Round wire, EI = E pi t^4/64, GJ = EI/(1 + POISSON), p = t; ribbon as wide as what it is
     * wound on, w = p, bent on edge EI = E t w^3/12, twisted at most GJ = G w t^3/3. */
    double pitch = winding->flat ? inner : t;
    double bent =
        winding->flat ? t * inner * inner * inner / 12.0 : MENSUR_PI / 64.0 * (t * t) * (t * t);
    double twisted =
        winding->flat ? inner * t * t * t / (6.0 * (1.0 + POISSON)) : bent / (1.0 + POISSON);
    return pitch / (MENSUR_PI * (inner + t) / 2.0 * (1.0 / bent + 1.0 / twisted));
}

enum mensur_status mensur_greatest_second_moment(double core_diameter, double strands,
                                                 double modulus,
                                                 const struct mensur_winding *windings,
                                                 size_t count, double *second_moment) {
    double solid;
    enum mensur_status status = mensur_core_second_moment(core_diameter, strands, &solid);
    if (status != MENSUR_OK || !is_positive(modulus) || (count > 0 && windings == NULL)) {
        return MENSUR_DOMAIN;
    }
    double ring = (4.0 * strands - 1.0) / 3.0; /* (circle round the strands/strand)^2 */
    double sum = solid * (ring * (ring / strands));
    double inner = core_diameter;
    for (size_t i = 0; i < count; i++) {
        if (!is_positive(windings[i].thickness) || !is_positive(windings[i].modulus)) {
            return MENSUR_DOMAIN;
        }
        sum += windings[i].modulus / modulus * coil_moment(&windings[i], inner);
        inner += 2.0 * windings[i].thickness;
    }
    return give(sum, second_moment);
}

enum mensur_status mensur_weighed_density(double mass, double count, double ball, double length,
                                          double *linear_density) {
    if (!is_positive(mass) || !is_positive(count) || floor(count) < count ||
        !is_not_negative(ball) || !is_positive(length)) {
        return MENSUR_DOMAIN;
    }
    double density = (mass / count - ball) / length;
    return is_positive(density) ? give(density, linear_density) : MENSUR_DOMAIN;
}
