/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shop that a command asks, opened, with its errors said. */
#ifndef MENSUR_SHOPFRONT_H
#define MENSUR_SHOPFRONT_H

#include "options.h"
#include "shop.h"

/* The folder that the answers come from; NULL: the demonstration. */
const char *shopfront_folder(const struct options *options);

/* Opens --shop, else MENSUR_SHOP, else the demonstration; says errors and warnings on standard
 * error. The shop is the caller's to clear on success. */
enum mensur_status shopfront_open(const struct options *options, struct mensur_shop *shop);

/* Says a report's errors and warnings on standard error, and empties it. */
void shopfront_say(struct mensur_report *report);

/* Finds the instruments named, in that order, each a copy that is the caller's to free by
 * shopfront_free. Checks the whole file. MENSUR_USE for a name that is not there (said, with the
 * nearest, or with the names there are), MENSUR_DATA and others as mensur_shop_instruments. */
enum mensur_status shopfront_find(struct mensur_shop *shop, char *const *names, size_t count,
                                  struct mensur_instrument **instruments);

void shopfront_free(struct mensur_instrument *instruments, size_t count);

/* Says which names there are, where one is missing. */
enum mensur_status shopfront_say_names(struct mensur_shop *shop, const char *wanted);

#endif
