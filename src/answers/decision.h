/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on the neck (or the stop), in its parts: the choice, the words, the table, and the
 * strings that would do instead. */
#ifndef MENSUR_DECISION_H
#define MENSUR_DECISION_H

#include "profile.h"
#include "search.h"

/* The interval in common, the conflict, the recommended place, the wished length. */
void decision_choose(const struct search *search, const struct wish_list *list,
                     struct mensur_decision *decision);

/* The table in steps. */
enum mensur_status decision_steps(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision);

/* The strings that would do instead. */
void decision_instead(const struct search *search, struct mensur_decision *decision);

/* The reason, what moves, and how sure it is. */
enum mensur_status decision_facts(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision);

#endif
