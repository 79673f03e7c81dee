/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The working behind an answer: each formula with the numbers in it, its result and its source, in
 * the order of reasoning. The numbers are those of the answer itself, rounded to one digit more
 * than the answer shows; lengths in mm (or inches, where the terms say so), forces in N.
 *
 * Every function here takes what the question was asked with (and its answer where the working
 * needs it), returns as the question does (ask.h), and on success fills in `out`, the caller's to
 * clear.
 */
#ifndef MENSUR_WORKING_H
#define MENSUR_WORKING_H

#include "ask.h"
#include "scale.h"

/* How the lengths, angles and reaches of an instrument come about. */
enum mensur_status mensur_ask_working_lengths(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out);

/* How pitch, density and tension of the strings come about; feel: what bow and finger feel, too. */
enum mensur_status mensur_ask_working_tension(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms, bool feel,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out);

/* How the places of the fingers and the hand's frames come about; true_places: the true place of
 * the octave on each string, too. */
enum mensur_status mensur_ask_working_fingers(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms, bool true_places,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out);

/* How the figures of instruments side by side come about, and what their remarks rest on. */
enum mensur_status mensur_ask_working_compare(const struct mensur_stock *stock,
                                              const struct mensur_instrument *const *instruments,
                                              size_t count, const struct mensur_terms *terms,
                                              bool feel, struct mensur_fault *fault,
                                              struct mensur_working *out);

/* The same for an instrument as it is and as changed. */
enum mensur_status mensur_ask_working_change(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms, bool feel,
                                             struct mensur_fault *fault,
                                             struct mensur_working *out);

/* How each wish became an interval of necks (stops), what they have in common, and how the one
 * recommended was chosen. */
enum mensur_status mensur_ask_working_decision(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_decision *decision,
                                               const struct mensur_terms *terms,
                                               struct mensur_fault *fault,
                                               struct mensur_working *out);

/* How the figures of the strings chosen come about. */
enum mensur_status mensur_ask_working_restring(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_restring_wishes *wishes,
                                               const struct mensur_restringing *restringing,
                                               const struct mensur_terms *terms, bool feel,
                                               struct mensur_fault *fault,
                                               struct mensur_working *out);

/* How the way from the shoulder to the nut and the angle of the elbow come about. */
enum mensur_status mensur_ask_working_reach(const struct mensur_stock *stock,
                                            const struct mensur_instrument *const *instruments,
                                            size_t count, const struct mensur_player *player,
                                            const struct mensur_terms *terms,
                                            struct mensur_fault *fault, struct mensur_working *out);

/* How a model in another size comes about: each measurement by its rule, then both as in
 * mensur_ask_working_compare, then the decision on the scaled one (NULL: none). */
enum mensur_status mensur_ask_working_scale(const struct mensur_stock *stock,
                                            const struct mensur_instrument *model,
                                            const struct mensur_instrument *instrument,
                                            const struct mensur_scaled *scaled,
                                            const struct mensur_decision *decision,
                                            const struct mensur_terms *terms,
                                            struct mensur_fault *fault, struct mensur_working *out);

#endif
