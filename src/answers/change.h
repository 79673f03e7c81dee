/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes to an instrument's measurements, strings or tuning. */
#ifndef MENSUR_CHANGE_H
#define MENSUR_CHANGE_H

#include "setup.h"

/* A copy of the instrument with the changes made; the caller's to clear. A relative change adds to
 * what is measured, assumed or derived. */
enum mensur_status change_apply(const struct mensur_stock *stock, const struct setup *before,
                                const struct mensur_change *changes, size_t count,
                                struct mensur_fault *fault, struct mensur_instrument *out);

/* An instrument before and after a change, and as changed; the caller's to clear. */
enum mensur_status change_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                               const struct mensur_instrument *instrument,
                               const struct mensur_change *changes, size_t count,
                               enum mensur_hold hold, struct mensur_fault *fault,
                               struct setup *before, struct mensur_instrument *changed,
                               struct setup *after);

/* Whether the change is one of the neck of a built instrument, which a restorer makes: the neck,
 * the board or their places are others, or the neck is set to another slope. */
bool change_cuts(const struct setup *before, const struct setup *after);

/* What is to be said of a change first: where it is one of strings or of their pitch, whether one
 * breaks, and which is tuned to another note; how the neck then stands. `profiles`: as it is and as
 * changed. */
void change_tell(const struct setup *before, const struct setup *after,
                 const struct mensur_change *changes, size_t count,
                 const struct mensur_profile *profiles, struct mensur_facts *facts);

#endif
