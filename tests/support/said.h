/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What facts say, in present's words, for tests of answers. */
#ifndef MENSUR_TEST_SAID_H
#define MENSUR_TEST_SAID_H

#include <stdbool.h>

#include "fact.h"
#include "present.h"

/* How many sentences. */
size_t said_count(const struct mensur_facts *facts);

/* A sentence, which stands until so many more were asked for; "" where there is none. */
enum { SAID_KEPT = 16 };
const char *said(const struct mensur_facts *facts, size_t place);
const char *said_as(const struct mensur_facts *facts, const struct mensur_style *style,
                    size_t place);

/* Whether a sentence holds these words. */
bool said_holds(const struct mensur_facts *facts, const char *words);

#endif
