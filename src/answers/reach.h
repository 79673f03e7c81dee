/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's arm made ready. */
#ifndef MENSUR_REACH_H
#define MENSUR_REACH_H

#include "ask.h"
#include "player_reach.h"

/* What an arm is computed from: the stature, then its parts. */
enum reach_input {
    REACH_STATURE,
    REACH_UPPER_ARM,
    REACH_FOREARM,
    REACH_HAND,
    REACH_REST_SIDE,
    REACH_REST_FORWARD,
    REACH_YAW,
    REACH_WRIST_SHARE,
    REACH_INPUTS
};

/* An arm, and where its parts come from. */
struct reach_arm {
    struct mensur_arm arm;      /* m and rad */
    bool from_stature;          /* parts follow from the stature; else from upper arm and forearm */
    double age;                 /* years; NaN: an adult */
    bool follows[REACH_INPUTS]; /* not measured */
    double x[REACH_INPUTS]; /* as measured, m and rad; of a part that follows how far it lies off
                               the usual one: 0; the stature 0 where nothing follows from it */
    double u[REACH_INPUTS]; /* their standard uncertainties */
};

/* The arm of a player; MENSUR_USE where neither stature nor arm is known. */
enum mensur_status reach_arm_make(const struct mensur_player *player, struct mensur_fault *fault,
                                  struct reach_arm *out);

/* From this age on a player is no child, for whom there is a size that fits; years. */
#define REACH_GROWN_AGE 16.0

/* Whether a part of the arm itself (upper arm, forearm, hand) follows; whether rest or yaw does. */
bool reach_arm_follows(const struct reach_arm *arm);
bool reach_rest_follows(const struct reach_arm *arm);

#endif
