/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The player's left arm seen from above, from the shoulder to the wrist. A comparison of
 * instruments, not medical advice.
 *
 * Origin at the left shoulder joint. Every size lies between 1e-60 and 1e60 m; a function that
 * fails leaves its results untouched.
 */
#ifndef MENSUR_PLAYER_REACH_H
#define MENSUR_PLAYER_REACH_H

#include <stdbool.h>

#include "status.h"

/** Up to the first age children have ratios of their own, from the second those of adults; years.
 */
#define MENSUR_CHILD_AGE 13.0
#define MENSUR_ADULT_AGE 18.0

/** A player's left arm and where the instrument rests; m and rad. */
struct mensur_arm {
    double upper_arm;    /**< m, > 0, shoulder to elbow */
    double forearm;      /**< m, > 0, elbow to wrist */
    double hand;         /**< m, > 0, wrist to the tip of the middle finger */
    double rest_side;    /**< m, how far the lower end of the body lies inside the left shoulder
                              joint; negative: outside it */
    double rest_forward; /**< m, how far it lies in front of it; negative: behind it */
    double yaw;          /**< rad, to the left of straight ahead, -pi to pi */
    double wrist_share;  /**< how much nearer than the nut the wrist stands in first position, in
                              hand lengths, >= 0 */
};

/** Where the nut and the wrist lie for an arm. */
struct mensur_elbow {
    bool stretched;  /**< the wrist lies beyond the arm's length: w > upper_arm + forearm */
    double side;     /**< m, nut to the left of the shoulder joint */
    double forward;  /**< m, nut in front of it */
    double distance; /**< d, m, shoulder joint to nut, >= 0 */
    double wrist;    /**< w, m, shoulder joint to wrist, >= 0 */
    double angle;    /**< rad, 0 folded to pi stretched; NaN where stretched, and where the wrist
                          lies nearer than the arm folds: w < |upper_arm - forearm| */
};

/** An arm that was not measured, and how far people differ from it. */
struct mensur_usual_arm {
    struct mensur_arm arm;
    struct mensur_arm spread; /**< standard deviation of each part, m and rad; 0 where none */
};

/**
 * Elbow angle with the hand in first position, for a left reach.
 *
 * side = reach sin(yaw) - rest_side, forward = reach cos(yaw) + rest_forward,
 * d = |(side, forward)|, w = d - wrist_share hand (0 where that is negative),
 * angle = acos((upper^2 + fore^2 - w^2)/(2 upper fore))
 *
 * @param arm         the arm, each value in the range of its field
 * @param left_reach  lower end of the body to the nut, m, > 0
 * @param[out] out    where nut and wrist lie, and the elbow
 *
 * Accuracy: 1e-14 relative for the equations, near the stretched arm too (as far as the reach
 * itself is so exact). Two straight bones in a plane: shoulder blade, height, the bend of the wrist
 * and twist are left out, so only differences between instruments mean something.
 *
 * @return  MENSUR_OK, whether there is an angle or not; MENSUR_DOMAIN: a value outside its range
 *
 * Source: law of cosines, by the half angle; not a published model of the arm.
 * Test: tests/physics/test_player_reach.c (elbows, refuses)
 */
enum mensur_status mensur_elbow(const struct mensur_arm *arm, double left_reach,
                                struct mensur_elbow *out);

/**
 * Estimates the arm of a stature, by the ratios of people who were measured.
 *
 * Of the stature: upper arm 0.191, forearm 0.150, hand 0.110. Up to 13 years of age: upper arm
 * 0.180 + 0.0011 age, forearm 0.136 + 0.0009 age, hand 0.110; from there in a straight line to the
 * ratios of adults at 18. Rest 0.11 to the side and 0.036 forward of the stature, yaw pi/4, wrist
 * 0.35 hand lengths nearer than the nut.
 *
 * Spreads, of the stature: upper arm and forearm 0.0071 each (together the 0.0101 by which the
 * length from shoulder to wrist varies, 17 mm of 1.7 m), hand 0.0042, rest 0.012 either way; yaw 5
 * degrees; wrist 0.1/sqrt(3) hand lengths (0.25 to 0.45, each as likely).
 *
 * @param stature   m, > 0
 * @param age       years, > 0; NaN: an adult
 * @param[out] out  m and rad
 *
 * Accuracy: 1e-15 relative for the equations. The ratios of children were read from means of 2.75
 * to 18 years and hold there to 0.005 of the stature; their spreads are taken to be the adults'.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: adults: acromion-radiale, radiale-stylion and hand lengths of ANSUR II (US Army 2012,
 * 4,082 men and 1,986 women), ratios and spreads computed from the data. Children: R. G. Snyder and
 * others, UM-HSRI-77-17 (1977), means by age, read at second hand. Rest, yaw, the wrist's place and
 * the spreads of all three are our own, without source.
 * Test: tests/physics/test_player_reach.c (segments, of_children, refuses)
 */
enum mensur_status mensur_arm_from_stature(double stature, double age,
                                           struct mensur_usual_arm *out);

/**
 * Estimates what goes with an arm that was measured, where no stature is known.
 *
 * Of upper arm + forearm: hand 0.323, rest 0.323 to the side and 0.106 forward; yaw, wrist and the
 * spreads as from the stature of such an arm. Upper arm and forearm are kept, their spread is 0.
 *
 * @param upper_arm  m, > 0
 * @param forearm    m, > 0
 * @param[out] out   m and rad
 *
 * Accuracy: 1e-15 relative for the equations
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: the ratios of mensur_arm_from_stature (adults), each over 0.191 + 0.150.
 * Test: tests/physics/test_player_reach.c (segments, refuses)
 */
enum mensur_status mensur_arm_from_segments(double upper_arm, double forearm,
                                            struct mensur_usual_arm *out);

#endif
