/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings people fit to instruments of a family. */
#ifndef MENSUR_STRING_FAMILY_H
#define MENSUR_STRING_FAMILY_H

#include "ask.h"

/* Whether a string is one for instruments of a family (NULL: of any). A set's name begins with the
 * kind of instrument that it is for. A string of another kind serves where people use it across, by
 * the table in string_family.c; the shop's own, and those without a set, serve everywhere. */
bool string_is_for_family(const struct mensur_stock *stock, const char *family,
                          const struct mensur_string_spec *spec);

/* The same of a whole set, of which any string is given. */
bool string_set_is_for_family(const struct mensur_stock *stock, const char *family,
                              const struct mensur_string_spec *spec);

#endif
