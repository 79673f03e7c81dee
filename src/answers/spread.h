/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure an answer is: every stated ± moved through the answer's own computation. That of one
 * instrument's profile is mensur_ask_profile's. */
#ifndef MENSUR_SPREAD_H
#define MENSUR_SPREAD_H

#include "search.h"

/* Fills in the spreads of an instrument as it is and as changed, two profiles, each where a
 * measurement behind it says how sure it is. */
enum mensur_status spread_change(struct mensur_solver *solver, const struct mensur_stock *stock,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_instrument *changed,
                                 const struct mensur_change *changes, size_t count,
                                 const struct mensur_terms *terms, struct mensur_profile *profiles);

/* Fills in how sure the ends of the choice are and hang on what, whether the measurements can
 * decide, and how sure the places are to which the made-for range leads. */
enum mensur_status spread_ends(const struct search *search, const struct mensur_wishes *wishes,
                               const struct wish_list *list, struct mensur_decision *decision);

/* Fills in the spreads of a decision's profiles, and how likely its recommended place meets every
 * wish; the ends are known. */
enum mensur_status spread_decision(const struct search *search, const struct mensur_wishes *wishes,
                                   const struct wish_list *list, struct mensur_decision *decision);

#endif
