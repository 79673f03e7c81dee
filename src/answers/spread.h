/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure a profile, a change and new strings are: every stated ± moved through the answer's own
 * computation. */
#ifndef MENSUR_SPREAD_H
#define MENSUR_SPREAD_H

#include "setup.h"

/* Fills in the spread of an instrument's profile, where a measurement behind it says how sure it
 * is. */
enum mensur_status spread_profile(const struct mensur_stock *stock, const struct setup *setup,
                                  const struct mensur_terms *terms, unsigned parts,
                                  struct mensur_profile *profile);

/* The same of strings and totals, and with them those of other strings, one for each note, whose
 * figures are `strung`. */
enum mensur_status spread_restring(const struct mensur_stock *stock, const struct setup *setup,
                                   const struct mensur_terms *terms,
                                   const struct mensur_string_spec *const *strings,
                                   struct mensur_profile *present, struct mensur_profile *strung);

/* Fills in the spreads of an instrument as it is and as changed, two profiles, each where a
 * measurement behind it says how sure it is. */
enum mensur_status spread_change(const struct mensur_stock *stock, const struct setup *before,
                                 const struct mensur_instrument *changed,
                                 const struct mensur_change *changes, size_t count,
                                 const struct mensur_terms *terms, struct mensur_profile *profiles);

#endif
