/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Figures as the program's text shows them, in JSON, for what the page sets beside its controls. It
 * stands on the parts that the text and JSON formats are made of, so that no figure is rounded in
 * two ways.
 */
#ifndef MENSUR_PAGE_VIEW_H
#define MENSUR_PAGE_VIEW_H

#include <jansson.h>

#include "quantity.h"
#include "shown.h"
#include "sink.h"

/* Puts a value into an object, or adds it to an array, and takes it over. Every function that makes
 * a value returns NULL without memory, which these keep as the status of the output. */
void view_put(struct mensur_out *out, json_t *object, const char *key, json_t *value);
void view_add(struct mensur_out *out, json_t *array, json_t *value);

/* A number in the bare unit of its kind; null where it is not known. */
json_t *view_number(enum mensur_kind kind, double si);
/* Null for NULL; what is no UTF-8 becomes '?'. */
json_t *view_text(const char *text);
json_t *view_texts(struct mensur_out *out, const struct mensur_texts *texts);

/* Writes a value and takes it over; MENSUR_OK, MENSUR_WRITE or MENSUR_MEMORY. */
enum mensur_status view_write(struct mensur_out *out, json_t *value);

/* A shown figure as JSON: null where it is not known. */
json_t *view_shown(struct mensur_shown shown);

#endif
