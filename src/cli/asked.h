/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the command line's words to terms, style, wishes and changes. Every mistake is said on
 * standard error. */
#ifndef MENSUR_ASKED_H
#define MENSUR_ASKED_H

#include "ask.h"
#include "options.h"
#include "present.h"

/* The terms on which the question is asked. */
enum mensur_status asked_terms(const struct options *options, struct mensur_terms *terms);

/* How the answer is to look. */
enum mensur_status asked_style(const struct options *options, struct mensur_style *style);

/* The wishes for a decision, at most `room`; `count` says how many. */
enum mensur_status asked_wishes(const struct options *options, struct mensur_wish *wishes,
                                size_t room, size_t *count);

/* FIELD=VALUE into a change. */
enum mensur_status asked_change(const char *text, struct mensur_change *change);

/* What stands above the answers. */
void asked_heading(const struct options *options, const struct mensur_terms *terms,
                   const char *shop, struct mensur_heading *heading);

#endif
