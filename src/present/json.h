/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Values and records as JSON. Every function that makes a value returns NULL without memory, and
 * mensur_json_put turns that into the status of the output, once, for all of them.
 */
#ifndef MENSUR_PRESENT_JSON_H
#define MENSUR_PRESENT_JSON_H

#include <jansson.h>

#include "figures.h"
#include "presenter.h"

/* Puts a value into an object, or adds it to an array, and takes it over. */
void mensur_json_put(struct mensur_out *out, json_t *object, const char *key, json_t *value);
void mensur_json_add(struct mensur_out *out, json_t *array, json_t *value);

/* Writes an object's members without its braces, and takes it over; nothing of one that was not
 * made whole. */
void mensur_json_write(struct mensur_out *out, json_t *object);

/* A number in the bare unit of its kind; null where it is not known. */
json_t *mensur_json_number(enum mensur_kind kind, double si);
json_t *mensur_json_known(enum mensur_known known);
/* Null for NULL; what is no UTF-8 becomes '?'. */
json_t *mensur_json_text(const char *text);
json_t *mensur_json_texts(struct mensur_out *out, const struct mensur_texts *texts);
/* The sentences of facts, all or the first; style NULL: in mm and N. */
json_t *mensur_json_facts(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_facts *facts);
json_t *mensur_json_sentence(struct mensur_out *out, const struct mensur_style *style,
                             const struct mensur_facts *facts);

/* The published figures of a record into an object; of a difference only numbers and notes. */
void mensur_json_figures(struct mensur_out *out, json_t *object, enum mensur_scope scope,
                         const void *record, bool difference);
/* One of them, by its key. */
void mensur_json_figure(struct mensur_out *out, json_t *object, enum mensur_scope scope,
                        const char *key, const void *record);
/* An array of count records, size bytes each. */
json_t *mensur_json_records(struct mensur_out *out, enum mensur_scope scope, const void *records,
                            size_t count, size_t size, bool difference);
/* Adds what was assumed to an array; with each the instrument unless it is NULL. */
void mensur_json_assumed(struct mensur_out *out, json_t *assumed, const char *instrument,
                         const struct mensur_assumptions *items);
/* Adds to an array the sentences that it has not yet. */
void mensur_json_join(struct mensur_out *out, json_t *array, const struct mensur_facts *facts);

/* Answers with files of their own: each made, without "assumed" and "warnings". */
json_t *mensur_json_comparison(struct mensur_out *out, const struct mensur_comparison *comparison);
json_t *mensur_json_decision(struct mensur_out *out, const struct mensur_decision *decision);
json_t *mensur_json_restringing(struct mensur_out *out,
                                const struct mensur_restringing *restringing);

/* Adds how sure a profile's figures are, and what matters most; both null where nothing says so. */
void mensur_json_spread(struct mensur_out *out, json_t *answer,
                        const struct mensur_profile *profile);
json_t *mensur_json_matters(struct mensur_out *out, const struct mensur_matter *matters,
                            size_t count);

/* Writes an answer that has all its keys, and takes it over. */
void mensur_json_answer(struct mensur_presenter *presenter, json_t *answer);
/* Adds the steps of the working that is attached, those about an instrument and those about all
 * of them; MENSUR_WORKING_ALL: every step. Nothing where none is attached. */
void mensur_json_working(struct mensur_presenter *presenter, json_t *answer, size_t instrument);
/* An answer for each instrument. */
void mensur_json_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching);

#endif
