/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linear density and core of a string from its construction: areas of circles and rings.
 *
 * A ring of thickness t around the diameter d reaches D = d + 2 t, and D^2 - d^2 = 4 t (d + t).
 * Round wire laid turn by turn fills pi/4 of its ring: the area of a circle over its square's. */
#include "string_build.h"

#include "domain.h"

#define ROUND_FILL (MENSUR_PI / 4.0)

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
        double outer = inner + 2.0 * windings[i].thickness;
        if (!is_positive(windings[i].thickness) || !is_positive(windings[i].modulus)) {
            return MENSUR_DOMAIN;
        }
        /* D^4 - d^4 without the difference of nearly equal powers. */
        double difference = 2.0 * windings[i].thickness * (outer + inner);
        sum += MENSUR_PI / 64.0 * (windings[i].modulus / modulus) * difference *
               (outer * outer + inner * inner);
        inner = outer;
    }
    return give(sum, second_moment);
}

enum mensur_status mensur_weighed_density(double mass, double count, double ball, double length,
                                          double *linear_density) {
    if (!is_positive(mass) || !is_positive(count) || count < 1.0 || floor(count) < count ||
        !is_not_negative(ball) || !is_positive(length)) {
        return MENSUR_DOMAIN;
    }
    double density = (mass / count - ball) / length;
    return is_positive(density) ? give(density, linear_density) : MENSUR_DOMAIN;
}
