/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of a wish of the decision. */
#ifndef MENSUR_WORKING_WISH_H
#define MENSUR_WORKING_WISH_H

#include "decision.h"
#include "working_parts.h"

/* The wish that a want's name stands for. */
enum mensur_wish_kind working_wish_kind(const struct mensur_want *want);

/* The figure of a wish on an instrument whose neck or stop has been moved. */
void working_wish(struct workbook *book, const struct search *search, const struct setup *setup,
                  const struct mensur_want *want);

#endif
