/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Implausible measurements of an instrument, for messages; mensur_ask_findings has them as facts.
 */
#ifndef MENSUR_ANSWERS_FINDINGS_H
#define MENSUR_ANSWERS_FINDINGS_H

#include "plausible.h"

/* Holds what findings_of writes. */
#define FINDINGS_ROOM (2 * MENSUR_FINDING_ROOM + 8)

/* A slip, to stand behind the reason why an instrument has no answer: that of one of two cells,
 * else any: "; bridge 3.85: centimetres? write 3.85 cm"; empty where there is none. */
void findings_of(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                 enum mensur_field one, enum mensur_field other, char *out);

#endif
