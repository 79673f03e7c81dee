/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which cautions apply to an answer, as facts; each kind once, a number of it the largest that was
 * met. */
#ifndef MENSUR_CAUTIONS_H
#define MENSUR_CAUTIONS_H

#include "result_use.h"

/* A string of it has under 2 semitones to breaking, or an unknown margin. */
void cautions_of_profile(const struct mensur_profile *profile, struct mensur_facts *cautions);

/* The same of each instrument; where one is the other as changed, the force on the belly that has
 * grown by over 5 %, and a built instrument of which neck, overstand or board change. */
void cautions_of_comparison(const struct mensur_comparison *comparison,
                            struct mensur_facts *cautions);

/* The same of the recommended place against the present one. Where the present one has changes, of
 * it, or of the recommended one, against what the file has. None where nothing moves. */
void cautions_of_decision(const struct mensur_decision *decision, struct mensur_facts *cautions);

/* Breaking and force on the belly of the strings chosen first. */
void cautions_of_restringing(const struct mensur_restringing *restringing,
                             struct mensur_facts *cautions);

/* An arm was computed. */
void cautions_of_reaching(const struct mensur_reaching *reaching, struct mensur_facts *cautions);

/* Adds cautions to others. */
void cautions_join(const struct mensur_facts *more, struct mensur_facts *cautions);

#endif
