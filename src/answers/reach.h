/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A player's arm made ready. */
#ifndef MENSUR_REACH_H
#define MENSUR_REACH_H

#include "ask.h"
#include "player_reach.h"

/* Where the parts of an arm come from. */
struct reach_arm {
    struct mensur_arm arm; /* m and rad */
    double stature;        /* m, the one that parts were taken from; NaN where none was */
    bool stature_follows;  /* it was taken from the arm */
    bool upper_follows, fore_follows, side_follows, forward_follows, yaw_follows;
};

/* The arm of a player; MENSUR_USE where neither stature nor arm is known. */
enum mensur_status reach_arm_make(const struct mensur_player *player, struct mensur_fault *fault,
                                  struct reach_arm *out);

#endif
