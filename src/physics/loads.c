/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Statics of the bridge and of the neck.
 *
 * Moments of all forces about the bass foot: the strings press with F at 1/2 + x/s of the way to
 * the treble foot, and draw sideways with Q at the height z. */
#include "loads.h"

#include "domain.h"

static bool is_bridge(const struct mensur_loaded_bridge *bridge) {
    return fabs(bridge->down_factor) <= 2.0 && is_positive(bridge->string_length) &&
           is_positive(bridge->afterlength) && is_not_negative(bridge->height) &&
           is_positive(bridge->foot_spacing);
}

enum mensur_status mensur_foot_forces(const struct mensur_loaded_bridge *bridge,
                                      const struct mensur_loaded_string *strings, size_t count,
                                      struct mensur_foot_forces *out) {
    struct mensur_foot_forces sum = {0.0, 0.0};
    if (!is_bridge(bridge) || count == 0) {
        return MENSUR_DOMAIN;
    }
    for (size_t i = 0; i < count; i++) {
        const struct mensur_loaded_string *string = &strings[i];
        double x = string->at_bridge;
        if (!is_positive(string->tension) || !is_number(x) || !is_number(string->at_nut) ||
            !is_number(string->at_tail)) {
            return MENSUR_DOMAIN;
        }
        double down = string->tension * bridge->down_factor;
        double sideways = string->tension * ((string->at_nut - x) / bridge->string_length +
                                             (string->at_tail - x) / bridge->afterlength);
        double tilt = (down * x + sideways * bridge->height) / bridge->foot_spacing;
        sum.treble += 0.5 * down + tilt;
        sum.bass += 0.5 * down - tilt;
    }
    *out = sum;
    return MENSUR_OK;
}

enum mensur_status mensur_neck_moment(const struct mensur_geometry *geometry, double overstand,
                                      double tension, double *moment) {
    if (!is_number(overstand) || !is_positive(tension) || !is_number(geometry->nut_x) ||
        !is_number(geometry->nut_y) || !(fabs(geometry->front_angle) < MENSUR_PI / 2.0)) {
        return MENSUR_DOMAIN;
    }
    /* (y - overstand) cos(alpha) with y = nut.y - nut.x tan(alpha). */
    double arm = (geometry->nut_y - overstand) * cos(geometry->front_angle) -
                 geometry->nut_x * sin(geometry->front_angle);
    return give(tension * arm, moment);
}
