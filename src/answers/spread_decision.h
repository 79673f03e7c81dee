/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure a decision is: every stated ± moved through the decision's own computation. */
#ifndef MENSUR_SPREAD_DECISION_H
#define MENSUR_SPREAD_DECISION_H

#include "search.h"

/* About 95 in a hundred lie within so many standard uncertainties (JCGM 100:2008, 6.3.3, from
 * memory). */
#define COVERAGE 2.0

/* What was set up with the measurements of a decision moved. */
struct decision_spread;

/* Fills in how sure the ends of the choice are and hang on what, whether the measurements can
 * decide, and how sure the places are to which the made-for range leads; without spread too, since
 * the recommended place keeps inside the ends by that. `liked` is the liked instrument (NULL: none
 * is liked). What is handed in is borrowed by `out`, which stays as it is where the terms have kept
 * how sure these ends are. */
enum mensur_status spread_ends(const struct search *search, const struct setup *liked,
                               const struct mensur_wishes *wishes, const struct wish_list *list,
                               struct mensur_decision *decision, struct decision_spread **out);

/* Fills in the spreads of the decision's profiles, and how likely its recommended place meets every
 * wish; nothing without spread. */
enum mensur_status spread_chosen(struct decision_spread *spread, struct mensur_decision *decision);

void decision_spread_free(struct decision_spread *spread);

#endif
