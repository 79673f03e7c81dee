/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How two instruments differ, above all where intuition fails. */
#ifndef MENSUR_REMARKS_H
#define MENSUR_REMARKS_H

#include "ask.h"

/* Adds what is worth saying of `other` against `first`. `changed`: other is first as changed. */
void remarks_add(const struct mensur_profile *first, const struct mensur_profile *other,
                 bool changed, struct mensur_facts *remarks);

/* Adds to a profile's remarks what is worth saying of its fingers alone. */
void remarks_alone(struct mensur_profile *profile);

#endif
