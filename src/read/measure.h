/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * A measurement as it is typed, outside a file.
 */
#ifndef MENSUR_MEASURE_H
#define MENSUR_MEASURE_H

#include <stdbool.h>

#include "field.h"
#include "texts.h"

/**
 * Reads one value as a cell of that measurement would be read, domain included.
 *
 * @param field       which measurement
 * @param text        the value's text, such as "152", "+4 mm", "8-3/4\""
 * @param relative    true: a change, which may be negative and has no domain
 * @param[out] fault  the message on failure; may be NULL
 * @param[out] out    m
 * @return  MENSUR_OK; MENSUR_USE
 */
enum mensur_status mensur_read_measure(enum mensur_field field, const char *text, bool relative,
                                       struct mensur_fault *fault, struct mensur_quantity *out);

#endif
