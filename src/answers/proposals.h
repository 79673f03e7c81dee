/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of an instrument is proposed: what was asked to be other than the file has it. */
#ifndef MENSUR_PROPOSALS_H
#define MENSUR_PROPOSALS_H

#include "instrument.h"
#include "result.h"

/* Puts into a profile: measurements in the order of the files, then the other cells. What only
 * follows from a change, or is held by one, is no proposal. To be cleared in any case. MENSUR_OK or
 * MENSUR_MEMORY. */
enum mensur_status proposals_make(const struct mensur_instrument *instrument,
                                  struct mensur_profile *out);

void proposals_clear(struct mensur_profile *profile);

#endif
