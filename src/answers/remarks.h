/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain words on how two instruments differ, above all where intuition fails. */
#ifndef MENSUR_REMARKS_H
#define MENSUR_REMARKS_H

#include "result.h"

/* Adds what is worth saying of `other` against `first`. `changed`: other is first as changed. */
enum mensur_status remarks_add(const struct mensur_profile *first,
                               const struct mensur_profile *other, bool changed, bool inches,
                               struct mensur_texts *remarks);

#endif
