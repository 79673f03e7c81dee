/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Figures as the program's text shows them, in JSON, for what the page sets beside its controls. It
 * stands on the parts that the text and JSON formats are made of, so that no figure is rounded in
 * two ways.
 */
#ifndef MENSUR_PAGE_VIEW_H
#define MENSUR_PAGE_VIEW_H

#include "json.h"
#include "shown.h"

/* Writes a value and takes it over; MENSUR_OK, MENSUR_WRITE or MENSUR_MEMORY. */
enum mensur_status view_write(struct mensur_out *out, json_t *value);

/* A shown figure as JSON: null where it is not known. */
json_t *view_shown(struct mensur_shown shown);

#endif
