/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * An instrument with changes made, as one that every other question can be asked about.
 */
#ifndef MENSUR_CHANGED_H
#define MENSUR_CHANGED_H

#include "ask.h"

/* The instrument that mensur_ask_change shows as changed.
 *
 * What the change holds (terms->hold, the board, the excess of a measured string length) is written
 * into the copy as if it had been measured, so that its figures are those of the change. A value
 * that was assumed before, and would be assumed otherwise of the changed instrument, is no longer
 * reported as assumed: ask mensur_ask_change for that. */
enum mensur_status mensur_instrument_changed(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms,
                                             struct mensur_fault *fault,
                                             struct mensur_instrument *out);

#endif
