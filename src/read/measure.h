/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A measurement as it is typed, outside a file. */
#ifndef MENSUR_MEASURE_H
#define MENSUR_MEASURE_H

#include <stdbool.h>

#include "field.h"
#include "texts.h"

/* Reads one value ("152", "+4 mm", "8-3/4\"") in m, as a cell of that measurement would be read,
 * domain included; relative: a change, which may be negative and has no domain. The fault may be
 * NULL. MENSUR_OK; MENSUR_USE. */
enum mensur_status mensur_read_measure(enum mensur_field field, const char *text, bool relative,
                                       struct mensur_fault *fault, struct mensur_quantity *out);

#endif
