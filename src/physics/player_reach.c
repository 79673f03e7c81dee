/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The player's left arm seen from above: a triangle of upper arm, forearm and the line from the
 * shoulder joint to the wrist, which lies on the line to the nut.
 *
 * Ratios of adults: ANSUR II (US Army 2012), 4,082 men and 1,986 women, computed from the data:
 * acromion-radiale 0.1909 and 0.1911, radiale-stylion 0.1525 and 0.1482, hand 0.1101 and 0.1112 of
 * the stature. Of children: R. G. Snyder and others, UM-HSRI-77-17 (1977), means by age, read at
 * second hand; the straight lines through them are ours. */
#include "player_reach.h"

#include "domain.h"

#define UPPER_ARM 0.191
#define FOREARM 0.150
#define HAND 0.110

/* Standard deviations of the same ratios. Those of upper arm and forearm are 0.0061 to 0.0068, and
 * of their sum 0.0101, because long upper arms go with long forearms. Taken as independent, each
 * gets 0.0101/sqrt(2), so that the sum, which the elbow follows, keeps its own. */
#define SEGMENT_SPREAD 0.0071
#define HAND_SPREAD 0.0042

/* Where the lower end of the body rests, as parts of the stature, which way the instrument points,
 * how many hand lengths the wrist stands nearer than the nut (0.25 to 0.45, each as likely), and
 * the spreads: our own usual values, no source. */
#define REST_SIDE 0.11
#define REST_FORWARD 0.036
#define REST_SPREAD 0.012
#define YAW (MENSUR_PI / 4.0)
#define YAW_SPREAD (MENSUR_PI / 36.0)
#define WRIST_SHARE 0.35
#define WRIST_SHARE_SPREAD (0.1 / sqrt(3.0))

/* The same as parts of upper arm + forearm: over 0.191 + 0.150. */
#define HAND_OF_ARM 0.323
#define HAND_SPREAD_OF_ARM 0.0123
#define REST_SIDE_OF_ARM 0.323
#define REST_FORWARD_OF_ARM 0.106
#define REST_SPREAD_OF_ARM 0.0352

static bool is_arm(const struct mensur_arm *arm) {
    return is_positive(arm->upper_arm) && is_positive(arm->forearm) && is_positive(arm->hand) &&
           is_number(arm->rest_side) && is_number(arm->rest_forward) &&
           fabs(arm->yaw) <= MENSUR_PI && is_number(arm->wrist_share) && arm->wrist_share >= 0.0;
}

/* acos((u^2 + f^2 - w^2)/(2 u f)) by the half angle, which keeps its digits where the arm is
 * nearly stretched or folded; NaN where there is no such triangle. */
static double elbow_angle(double upper, double fore, double wrist) {
    double folded = (wrist - (upper - fore)) * (wrist + (upper - fore));
    double stretched = (upper + fore - wrist) * (upper + fore + wrist);
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
    double wrist = fmax(distance - arm->wrist_share * arm->hand, 0.0);
    *out = (struct mensur_elbow){.stretched = wrist > arm->upper_arm + arm->forearm,
                                 .side = side,
                                 .forward = forward,
                                 .distance = distance,
                                 .wrist = wrist,
                                 .angle = elbow_angle(arm->upper_arm, arm->forearm, wrist)};
    return MENSUR_OK;
}

/* A child's ratio to 13 years, an adult's from 18, between them on the straight line. */
static double ratio_at(double age, double child, double child_a_year, double adult) {
    if (!(age < MENSUR_ADULT_AGE)) {
        return adult;
    }
    double young = child + child_a_year * fmin(age, MENSUR_CHILD_AGE);
    double grown = fmax(age - MENSUR_CHILD_AGE, 0.0) / (MENSUR_ADULT_AGE - MENSUR_CHILD_AGE);
    return young + grown * (adult - young);
}

enum mensur_status mensur_arm_from_stature(double stature, double age,
                                           struct mensur_usual_arm *out) {
    if (!is_positive(stature) || (!isnan(age) && !is_positive(age))) {
        return MENSUR_DOMAIN;
    }
    *out = (struct mensur_usual_arm){
        .arm = {.upper_arm = ratio_at(age, 0.180, 0.0011, UPPER_ARM) * stature,
                .forearm = ratio_at(age, 0.136, 0.0009, FOREARM) * stature,
                .hand = HAND * stature,
                .rest_side = REST_SIDE * stature,
                .rest_forward = REST_FORWARD * stature,
                .yaw = YAW,
                .wrist_share = WRIST_SHARE},
        .spread = {.upper_arm = SEGMENT_SPREAD * stature,
                   .forearm = SEGMENT_SPREAD * stature,
                   .hand = HAND_SPREAD * stature,
                   .rest_side = REST_SPREAD * stature,
                   .rest_forward = REST_SPREAD * stature,
                   .yaw = YAW_SPREAD,
                   .wrist_share = WRIST_SHARE_SPREAD}};
    return MENSUR_OK;
}

enum mensur_status mensur_arm_from_segments(double upper_arm, double forearm,
                                            struct mensur_usual_arm *out) {
    if (!is_positive(upper_arm) || !is_positive(forearm)) {
        return MENSUR_DOMAIN;
    }
    double whole = upper_arm + forearm;
    *out = (struct mensur_usual_arm){.arm = {.upper_arm = upper_arm,
                                             .forearm = forearm,
                                             .hand = HAND_OF_ARM * whole,
                                             .rest_side = REST_SIDE_OF_ARM * whole,
                                             .rest_forward = REST_FORWARD_OF_ARM * whole,
                                             .yaw = YAW,
                                             .wrist_share = WRIST_SHARE},
                                     .spread = {.hand = HAND_SPREAD_OF_ARM * whole,
                                                .rest_side = REST_SPREAD_OF_ARM * whole,
                                                .rest_forward = REST_SPREAD_OF_ARM * whole,
                                                .yaw = YAW_SPREAD,
                                                .wrist_share = WRIST_SHARE_SPREAD}};
    return MENSUR_OK;
}
