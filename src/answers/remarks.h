/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain words on how two instruments differ, above all where intuition fails. */
#ifndef MENSUR_REMARKS_H
#define MENSUR_REMARKS_H

#include "ask.h"

/* Adds what is worth saying of `other` against `first`. `changed`: other is first as changed. */
enum mensur_status remarks_add(const struct mensur_profile *first,
                               const struct mensur_profile *other, bool changed, bool inches,
                               struct mensur_texts *remarks);

/* Adds to a profile's remarks what is worth saying of its fingers alone. */
enum mensur_status remarks_alone(const struct mensur_tuning *tuning, bool inches,
                                 struct mensur_profile *profile);

#endif
