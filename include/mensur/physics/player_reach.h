/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The player's left arm seen from above. A comparison of instruments, no medical advice.
 */
#ifndef MENSUR_PLAYER_REACH_H
#define MENSUR_PLAYER_REACH_H

#include <stdbool.h>

#include "status.h"

/** A player's left arm and where the instrument rests; m and rad. */
struct mensur_arm {
    double upper_arm;    /**< > 0, shoulder to elbow */
    double forearm;      /**< > 0, elbow to wrist */
    double rest_side;    /**< m, how far the lower end of the body lies inside the left shoulder joint */
    double rest_forward; /**< m, how far it lies in front of it */
    double yaw;          /**< rad, to the left of straight ahead */
};

/** Elbow angle for a left reach; reached false and angle NaN where d > upper + fore. */
enum mensur_status mensur_elbow(const struct mensur_arm *arm, double left_reach, bool *reached,
                                double *elbow, double *distance);

/** Segment of a stature, Drillis and Contini 1966: upper arm 0.186, forearm 0.146, hand 0.108. */
enum mensur_status mensur_arm_from_stature(double stature, struct mensur_arm *arm, double *hand);

#endif
