/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Keys with their values in the JSON of an answer, and where an answer begins and ends. */
#ifndef MENSUR_PRESENT_JSON_PUT_H
#define MENSUR_PRESENT_JSON_PUT_H

#include "json.h"
#include "presenter.h"

/* Null where it is not known. */
void json_put_known(struct mensur_json *to, const char *key, enum mensur_known known);

void json_put_empty(struct mensur_json *to, const char *key);

/* Adds the sentences of facts, in mm and N. */
void json_add_sentences(struct mensur_json *to, const struct mensur_facts *facts,
                        struct mensur_texts *texts);
void json_put_facts(struct mensur_json *to, const char *key, const struct mensur_facts *facts);

/* The first sentence of facts; without one an empty text. */
void json_put_sentence(struct mensur_json *to, const char *key, const struct mensur_facts *facts);
void json_put_figure(struct mensur_json *to, const struct mensur_figure *figure, const void *record,
                     bool difference);

/* The published figures of a record; of a difference only numbers and notes. */
void json_put_figures(struct mensur_json *to, enum mensur_scope scope, const void *record,
                      bool difference);

/* An array of count records, size bytes each. */
void json_put_records(struct mensur_json *to, const char *key, enum mensur_scope scope,
                      const void *records, size_t count, size_t size, bool difference);
void json_put_strings(struct mensur_json *to, const struct mensur_string_figures *strings,
                      size_t count, bool difference);
void json_put_positions(struct mensur_json *to, const struct mensur_position *positions,
                        size_t count, bool difference);
void json_put_matters(struct mensur_json *to, const struct mensur_matter *matters, size_t count);

/* How sure the figures are, and what matters most; both null where no measurement says it. */
void json_put_spread(struct mensur_json *to, const struct mensur_spread *spread);

/* Writes into an array what was assumed; with each the instrument unless it is NULL. */
void json_add_assumed(struct mensur_json *to, const char *instrument,
                      const struct mensur_assumptions *assumed);
void json_put_assumed(struct mensur_json *to, const struct mensur_assumptions *assumed);

/* Writes warnings that were gathered from several places, the same one once, and clears them. */
void json_put_warnings(struct mensur_json *to, struct mensur_texts *texts);

/* Begins an answer, on a line of its own. */
struct mensur_json json_begin_answer(struct mensur_presenter *presenter);

/* Ends an answer with the steps of its working, if there is one. */
void json_end_answer(struct mensur_presenter *presenter, struct mensur_json *answer);

/* Ends the answer about one of several instruments, with the steps about it and those about all of
 * them. The last is counted by whoever asked for them. */
void json_end_part(struct mensur_presenter *presenter, struct mensur_json *answer,
                   size_t instrument, size_t count);

/* Begins an answer about an instrument. */
struct mensur_json json_begin_profile(struct mensur_presenter *presenter,
                                      const struct mensur_profile *profile);

/* Ends the answer about one instrument, whose figures are as sure as a spread (NULL: unknown)
 * says. */
void json_end_spread(struct mensur_presenter *presenter, struct mensur_json *answer,
                     const struct mensur_profile *profile, const struct mensur_spread *spread);

/* The answers that others hold: instruments side by side, and a decision, without their begin and
 * end. */
void json_compared(struct mensur_json *to, const struct mensur_comparison *comparison);
void json_decision(struct mensur_json *answer, const struct mensur_decision *decision);

#endif
