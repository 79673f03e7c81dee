/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * JSON, written as it comes: what a value holds, it holds in the order of the calls. Failures are
 * kept as the status of the output, once, for all of them.
 */
#ifndef MENSUR_PRESENT_JSON_H
#define MENSUR_PRESENT_JSON_H

#include "figures.h"
#include "sink.h"

struct mensur_json {
    struct mensur_out *out;
    bool begun; /* of the object or array that is being written: something stands in it */
};

/* A value stands behind its key, one of ours, of letters, digits and low lines; NULL: in an array,
 * or behind mensur_json_any_key. */

/* An object or array: '{' or '[', and its end. */
void mensur_json_begin(struct mensur_json *json, const char *key, char bracket);
void mensur_json_end(struct mensur_json *json, char bracket);

/* Any text as the key of the next value. */
void mensur_json_any_key(struct mensur_json *json, const char *key);

/* A number in the bare unit of its kind; null where it is not known. */
void mensur_json_number(struct mensur_json *json, const char *key, enum mensur_kind kind,
                        double si);
void mensur_json_count(struct mensur_json *json, const char *key, long count);
void mensur_json_bool(struct mensur_json *json, const char *key, bool value);
void mensur_json_null(struct mensur_json *json, const char *key);
/* Null for NULL; what is no UTF-8 becomes '?'. */
void mensur_json_text(struct mensur_json *json, const char *key, const char *text);
void mensur_json_texts(struct mensur_json *json, const char *key, const struct mensur_texts *texts);

#endif
