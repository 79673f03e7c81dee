/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said of a decision on the neck (or the stop). */
#ifndef MENSUR_DECISION_H
#define MENSUR_DECISION_H

#include "profile.h"
#include "search.h"

/* The reason, what moves, and how sure it is. */
enum mensur_status decision_facts(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision);

#endif
