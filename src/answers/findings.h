/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Implausible measurements of an instrument, for messages; mensur_ask_findings has them as facts.
 */
#ifndef MENSUR_ANSWERS_FINDINGS_H
#define MENSUR_ANSWERS_FINDINGS_H

#include "result_use.h"
#include "stock.h"
#include "texts.h"

/* Adds a warning for each slip of an instrument. */
void findings_add(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                  struct mensur_facts *warnings);

/* Adds a slip to the reason why an instrument has no answer, that of one of two cells before any
 * other: "; bridge 3.85: centimetres? write 3.85 cm". Nothing where there is none, or no fault. */
void findings_explain(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                      enum mensur_field one, enum mensur_field other, struct mensur_fault *fault);

#endif
