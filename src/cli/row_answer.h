/* SPDX-License-Identifier: GPL-3.0-or-later */
/* lengths, tension, fingers: what is asked of each instrument, and how its answer is presented. */
#ifndef MENSUR_ROW_ANSWER_H
#define MENSUR_ROW_ANSWER_H

#include "commands.h"

/* The parts of a profile that the question wants. */
unsigned row_parts(const struct question *question);

/* Presents one answer, with its working where that is wanted. */
enum mensur_status row_present(const struct question *question, struct mensur_presenter *presenter,
                               const struct mensur_instrument *instrument,
                               const struct mensur_profile *profile);

#endif
