/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What is done with results: facts are added, all of them are freed, a reach is held against a
 * hand.
 */
#ifndef MENSUR_RESULT_USE_H
#define MENSUR_RESULT_USE_H

#include "result.h"

/**
 * Adds a fact. Where memory runs out the list's status says so.
 *
 * @param list     the list
 * @param kind     which
 * @param names    MENSUR_FACT_NAMES of them, copied; NULL for none, any may be NULL
 * @param numbers  MENSUR_FACT_NUMBERS of them in SI; NULL for none
 */
void mensur_facts_add(struct mensur_facts *list, enum mensur_fact_kind kind,
                      const char *const *names, const double *numbers);

/** The names and the numbers of a fact, those left out NULL and 0. */
#define MENSUR_NAMES(...) ((const char *const[MENSUR_FACT_NAMES]){__VA_ARGS__})
#define MENSUR_NUMBERS(...) ((const double[MENSUR_FACT_NUMBERS]){__VA_ARGS__})

/**
 * Frees all facts.
 *
 * @param list  the list; left empty
 */
void mensur_facts_clear(struct mensur_facts *list);

/**
 * Frees what a profile owns.
 *
 * @param profile  the profile; left without names, strings, places, texts and spread
 */
void mensur_profile_clear(struct mensur_profile *profile);

/**
 * Frees what a comparison owns.
 *
 * @param comparison  the comparison; left all zero
 */
void mensur_comparison_clear(struct mensur_comparison *comparison);

/**
 * Frees what a decision owns.
 *
 * @param decision  the decision; left all zero
 */
void mensur_decision_clear(struct mensur_decision *decision);

/**
 * Frees what a restringing owns.
 *
 * @param restringing  the restringing; left all zero
 */
void mensur_restringing_clear(struct mensur_restringing *restringing);

/**
 * Frees what a reaching owns.
 *
 * @param reaching  the reaching; left all zero
 */
void mensur_reaching_clear(struct mensur_reaching *reaching);

/**
 * Frees what a working owns.
 *
 * @param working  the working; left all zero
 */
void mensur_working_clear(struct mensur_working *working);

/**
 * Tells whether the hand's frame in a position is wider than the player's hand spans.
 *
 * @param reaching  the player
 * @param position  of one of the instruments
 * @return          MENSUR_UNSURE where no span is known
 */
enum mensur_known mensur_reaching_too_wide(const struct mensur_reaching *reaching,
                                           const struct mensur_position *position);

#endif
