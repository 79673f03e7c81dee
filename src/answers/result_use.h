/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What is done with results: facts are added, measurements found, all of them are freed, a reach is
 * held against a hand.
 */
#ifndef MENSUR_RESULT_USE_H
#define MENSUR_RESULT_USE_H

#include "result.h"
#include "texts.h"

/* Which ends of a range are known, as a number of branches in a sentence: both, the low one, the
 * high one, none. */
static inline double mensur_ends_known(bool low, bool high) {
    return low && high ? 1.0 : low ? 2.0 : high ? 3.0 : 4.0;
}

/* Adds a fact with MENSUR_FACT_NAMES names, copied, any may be NULL, and MENSUR_FACT_NUMBERS
 * numbers in SI; NULL for none. Where memory runs out the list's status says so. */
void mensur_facts_add(struct mensur_facts *list, enum mensur_fact_kind kind,
                      const char *const *names, const double *numbers);

/** The names and the numbers of a fact, those left out NULL and 0. */
#define MENSUR_NAMES(...) ((const char *const[MENSUR_FACT_NAMES]){__VA_ARGS__})
#define MENSUR_NUMBERS(...) ((const double[MENSUR_FACT_NUMBERS]){__VA_ARGS__})

/* An empty profile: nothing to clear, no items in its lists, all else zero, but for lengths, side
 * and air, which are left as they are, and of the side that nothing is known. To empty the lists
 * would take a good part of the time that the figures take. */
void mensur_profile_begin(struct mensur_profile *profile);

/* Moves a profile to where another may be: what of its lists is not in use stays behind. */
void mensur_profile_move(const struct mensur_profile *from, struct mensur_profile *to);

/* The measurement of a name as in the files, "board_nut", of an instrument as it stands; NULL where
 * the profile has none of that name. */
const struct mensur_measure *mensur_measure_named(const struct mensur_profile *profile,
                                                  const char *field);

/* Free what each owns. Facts and the others are left all zero; a profile is left without names,
 * strings, places, texts and spread. */
void mensur_facts_clear(struct mensur_facts *list);
void mensur_profile_clear(struct mensur_profile *profile);
void mensur_comparison_clear(struct mensur_comparison *comparison);
void mensur_learned_clear(struct mensur_learned *learned);
void mensur_decision_clear(struct mensur_decision *decision);
void mensur_restringing_clear(struct mensur_restringing *restringing);
void mensur_reaching_clear(struct mensur_reaching *reaching);
void mensur_map_clear(struct mensur_map *map);
void mensur_working_clear(struct mensur_working *working);

/* Says in fault that memory ran out, where it did; returns the status. */
enum mensur_status tell_memory(enum mensur_status status, struct mensur_fault *fault);

/* Whether two instruments are of families that are known and differ: then nothing of the one is
 * said as a percentage of the other's. */
bool mensur_of_two_families(const struct mensur_profile *first, const struct mensur_profile *other);

/* Tells whether the hand's frame in a position is wider than the player's hand spans;
 * MENSUR_UNSURE where no span is known. */
enum mensur_known mensur_reaching_too_wide(const struct mensur_reaching *reaching,
                                           const struct mensur_position *position);

#endif
