/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of bow and finger on a string.
 *
 * J. C. Schelleng, The Bowed String and the Player, J. Acoust. Soc. Am. 53 (1973) 26-41 (cited from
 * memory); J. Woodhouse, Euphonics, section 9.3.1, equations 3 and 4:
 *     greatest force 2 Z v/(Delta beta),  least force Z^2 v/(2 R Delta beta^2).
 * Z wave impedance, v bow speed, Delta static less dynamic friction, beta the bow's distance from
 * the bridge as part of the string, R the bridge's resistance. */
#include "playing.h"

#include "domain.h"

static bool is_bowing(double impedance, double bow_speed, double friction, double bow_place) {
    return is_positive(impedance) && is_positive(bow_speed) && is_positive(friction) &&
           is_positive(bow_place) && bow_place < 1.0;
}

enum mensur_status mensur_bow_force_greatest(double impedance, double bow_speed, double friction,
                                             double bow_place, double *force) {
    if (!is_bowing(impedance, bow_speed, friction, bow_place)) {
        return MENSUR_DOMAIN;
    }
    return give(2.0 * impedance * bow_speed / (friction * bow_place), force);
}

enum mensur_status mensur_bow_force_least(double impedance, double bow_speed, double friction,
                                          double bow_place, double resistance, double *force) {
    if (!is_bowing(impedance, bow_speed, friction, bow_place) || !is_positive(resistance)) {
        return MENSUR_DOMAIN;
    }
    double at_bow = impedance / bow_place;
    return give(at_bow * at_bow * bow_speed / (2.0 * resistance * friction), force);
}

enum mensur_status mensur_press_force(double tension, double length, double clearance, double x,
                                      double *force) {
    if (!is_positive(tension) || !is_positive(length) || !is_not_negative(clearance) ||
        !is_positive(x) || !(x < length)) {
        return MENSUR_DOMAIN;
    }
    return give(tension * (clearance / x + clearance / (length - x)), force);
}
