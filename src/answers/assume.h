/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one way in which an answer says that it filled a value in. */
#ifndef MENSUR_ASSUME_H
#define MENSUR_ASSUME_H

#include "result.h"

/* Notes a value (SI) or a text as assumed; `field` is static, `text` borrowed from the stock. */
void assume(struct mensur_assumptions *assumed, const char *field, double value,
            enum mensur_kind kind, const char *text);

#endif
