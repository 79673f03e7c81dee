/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The player's left arm seen from above. A comparison of instruments, not medical advice.
 *
 * Origin at the left shoulder joint. Every size lies between 1e-60 and 1e60 m; a function that
 * fails leaves its results untouched.
 */
#ifndef MENSUR_PLAYER_REACH_H
#define MENSUR_PLAYER_REACH_H

#include <stdbool.h>

#include "status.h"

/** A player's left arm and where the instrument rests; m and rad. */
struct mensur_arm {
    double upper_arm;    /**< m, > 0, shoulder to elbow */
    double forearm;      /**< m, > 0, elbow to wrist */
    double rest_side;    /**< m, how far the lower end of the body lies inside the left shoulder
                              joint; negative: outside it */
    double rest_forward; /**< m, how far it lies in front of it; negative: behind it */
    double yaw;          /**< rad, to the left of straight ahead, -pi to pi */
};

/** Where the nut lies for an arm. */
struct mensur_elbow {
    bool reached;    /**< false where d > upper_arm + forearm, or where the arm cannot fold so
                          tightly (d < |upper_arm - forearm|) */
    double side;     /**< m, to the left of the shoulder joint */
    double forward;  /**< m, in front of it */
    double distance; /**< d, m, shoulder joint to nut, >= 0 */
    double angle;    /**< rad, 0 folded to pi stretched; NaN where not reached */
};

/**
 * Elbow angle and the hand's distance from the shoulder for a left reach.
 *
 * side = reach sin(yaw) - rest_side, forward = reach cos(yaw) + rest_forward,
 * d = |(side, forward)|,
 * angle = acos((upper^2 + fore^2 - d^2)/(2 upper fore))
 *
 * @param arm         the arm, each value in the range of its field
 * @param left_reach  lower end of the body to the nut, m, > 0
 * @param[out] out    where the nut lies
 *
 * Accuracy: 1e-14 relative for the equations, near the stretched arm too (as far as the reach
 * itself is so exact). Two straight bones in a plane: shoulder blade, height, wrist and twist are
 * left out, so only differences between instruments mean something.
 *
 * @return  MENSUR_OK, whether reached or not; MENSUR_DOMAIN: a value outside its range
 *
 * Source: law of cosines, by the half angle; not a published model of the arm.
 * Test: tests/physics/test_player_reach.c (elbows, refuses)
 */
enum mensur_status mensur_elbow(const struct mensur_arm *arm, double left_reach,
                                struct mensur_elbow *out);

/**
 * Estimates the arm from a stature by usual proportions.
 *
 * upper arm 0.186, forearm 0.146, hand 0.108 of the stature; rest 0.11 to the side and 0.036
 * forward of the stature, yaw pi/4
 *
 * @param stature    m, > 0
 * @param[out] arm   m and rad
 * @param[out] hand  m, wrist to finger tip
 *
 * Accuracy: 1e-15 relative for the equations. One person's segments differ from the ratios
 * by several per cent: men's measured upper arms have a standard deviation of 5 %, part of which
 * goes with their stature.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: R. Drillis and R. Contini, Body Segment Parameters, New York University Technical Report
 * 1166.03 (1966), as reproduced in D. A. Winter, Biomechanics and Motor Control of Human Movement,
 * 4th edition (2009), figure 4.1 (both read at second hand); rest and yaw are our own usual values,
 * without source. The 5 % are from ANSUR II (2012), acromion-radiale length.
 * Test: tests/physics/test_player_reach.c (segments, refuses), test_published.c (topic 8)
 */
enum mensur_status mensur_arm_from_stature(double stature, struct mensur_arm *arm, double *hand);

#endif
