/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The player's left arm seen from above: a triangle of upper arm, forearm and the line from the
 * shoulder joint to the nut.
 *
 * Segments of a stature: R. Drillis and R. Contini, Body Segment Parameters, New York University
 * Technical Report 1166.03 (1966), as reproduced in D. A. Winter, Biomechanics and Motor Control of
 * Human Movement, 4th edition (2009), figure 4.1 (both read at second hand). */
#include "player_reach.h"

#include "domain.h"

#define UPPER_ARM 0.186
#define FOREARM 0.146
#define HAND 0.108

/* Where the lower end of the body rests, as parts of the stature, and which way the instrument
 * points: our own usual values, no source. */
#define REST_SIDE 0.11
#define REST_FORWARD 0.036
#define YAW (MENSUR_PI / 4.0)

static bool is_arm(const struct mensur_arm *arm) {
    return is_positive(arm->upper_arm) && is_positive(arm->forearm) && is_number(arm->rest_side) &&
           is_number(arm->rest_forward) && fabs(arm->yaw) <= MENSUR_PI;
}

/* acos((u^2 + f^2 - d^2)/(2 u f)) by the half angle, which keeps its digits where the arm is
 * nearly stretched or folded; NaN where there is no such triangle. */
static double elbow_angle(double upper, double fore, double distance) {
    double folded = (distance - (upper - fore)) * (distance + (upper - fore));
    double stretched = (upper + fore - distance) * (upper + fore + distance);
    if (!(folded >= 0.0) || !(stretched >= 0.0)) {
        return NAN;
    }
    return 2.0 * atan2(sqrt(folded), sqrt(stretched));
}

enum mensur_status mensur_elbow(const struct mensur_arm *arm, double left_reach,
                                struct mensur_elbow *out) {
    if (!is_arm(arm) || !is_positive(left_reach)) {
        return MENSUR_DOMAIN;
    }
    double side = left_reach * sin(arm->yaw) - arm->rest_side;
    double forward = left_reach * cos(arm->yaw) + arm->rest_forward;
    double distance = hypot(side, forward);
    double angle = elbow_angle(arm->upper_arm, arm->forearm, distance);
    *out = (struct mensur_elbow){!isnan(angle), side, forward, distance, angle};
    return MENSUR_OK;
}

enum mensur_status mensur_arm_from_stature(double stature, struct mensur_arm *arm, double *hand) {
    if (!is_positive(stature)) {
        return MENSUR_DOMAIN;
    }
    *arm = (struct mensur_arm){.upper_arm = UPPER_ARM * stature,
                               .forearm = FOREARM * stature,
                               .rest_side = REST_SIDE * stature,
                               .rest_forward = REST_FORWARD * stature,
                               .yaw = YAW};
    return give(HAND * stature, hand);
}
