/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sentence of each kind of fact, in one table. */
#ifndef MENSUR_PRESENT_SENTENCES_H
#define MENSUR_PRESENT_SENTENCES_H

#include "fact.h"
#include "present.h"
#include "texts.h"

/* Adds the sentences of facts to a list; facts that continue one become one text. Units are the
 * style's in text, mm and N in CSV and JSON. MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status mensur_sentences(const struct mensur_facts *facts,
                                    const struct mensur_style *style, struct mensur_texts *out);

#endif
