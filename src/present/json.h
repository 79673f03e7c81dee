/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * JSON values. Every function that makes one returns NULL without memory, and mensur_json_put turns
 * that into the status of the output, once, for all of them.
 */
#ifndef MENSUR_PRESENT_JSON_H
#define MENSUR_PRESENT_JSON_H

#include <jansson.h>

#include "figures.h"
#include "sink.h"

/* Puts a value into an object, or adds it to an array, and takes it over. */
void mensur_json_put(struct mensur_out *out, json_t *object, const char *key, json_t *value);
void mensur_json_add(struct mensur_out *out, json_t *array, json_t *value);

/* A number in the bare unit of its kind; null where it is not known. */
json_t *mensur_json_number(enum mensur_kind kind, double si);
/* Null for NULL; what is no UTF-8 becomes '?'. */
json_t *mensur_json_text(const char *text);
json_t *mensur_json_texts(struct mensur_out *out, const struct mensur_texts *texts);
/* The sentences of facts; style NULL: in mm and N. */
json_t *mensur_json_facts(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_facts *facts);

/* Writes an object's members without its braces, and takes it over; nothing of one that was not
 * made whole. */
void mensur_json_write(struct mensur_out *out, json_t *object);

#endif
