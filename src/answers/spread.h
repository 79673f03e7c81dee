/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure a change is: every stated ± moved through the answer's own computation. How sure one
 * instrument's profile is, mensur_ask_profile tells. */
#ifndef MENSUR_SPREAD_H
#define MENSUR_SPREAD_H

#include "setup.h"

/* Fills in the spreads of an instrument as it is and as changed, two profiles, each where a
 * measurement behind it says how sure it is. */
enum mensur_status spread_change(const struct mensur_stock *stock, const struct setup *before,
                                 const struct mensur_instrument *changed,
                                 const struct mensur_change *changes, size_t count,
                                 const struct mensur_terms *terms, struct mensur_profile *profiles);

#endif
