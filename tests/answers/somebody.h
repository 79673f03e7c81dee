/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tests of reach share: a player to be measured. */
#ifndef MENSUR_TEST_SOMEBODY_H
#define MENSUR_TEST_SOMEBODY_H

#include "stock.h"

/* A player of whom nothing is known but the name; mm and degrees are filled in by the caller. */
static inline struct mensur_player nobody(void) {
    static char name[] = "somebody";
    return (struct mensur_player){.name = name,
                                  .age = NAN,
                                  .stature = MENSUR_UNKNOWN,
                                  .upper_arm = MENSUR_UNKNOWN,
                                  .forearm = MENSUR_UNKNOWN,
                                  .hand = MENSUR_UNKNOWN,
                                  .span = MENSUR_UNKNOWN,
                                  .rest_side = MENSUR_UNKNOWN,
                                  .rest_forward = MENSUR_UNKNOWN,
                                  .yaw = MENSUR_UNKNOWN};
}

static inline struct mensur_quantity mm(double value) {
    return (struct mensur_quantity){.value = value / 1000.0};
}

#endif
