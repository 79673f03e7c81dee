/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Elements of SVG and HTML: the only place that escapes text and prints attributes. */
#ifndef MENSUR_PRESENT_MARKUP_H
#define MENSUR_PRESENT_MARKUP_H

#include "sink.h"

/* "<name"; attributes follow, then _end or _close. */
void mensur_markup_start(struct mensur_out *out, const char *name);
void mensur_markup_attribute(struct mensur_out *out, const char *name, const char *value);
/* An attribute that is an id, made unique in its document by a prefix: PREFIX-value. */
void mensur_markup_id(struct mensur_out *out, const char *name, const char *before,
                      const char *lead, const char *value, const char *after);
/* A number to three decimals, without trailing zeros. */
void mensur_markup_number(struct mensur_out *out, const char *name, double value);
/* A number within an attribute whose text is written in several steps. */
void mensur_markup_bare_number(struct mensur_out *out, double value);
/* ">": content follows, then _finish. */
void mensur_markup_end(struct mensur_out *out);
/* "/>" */
void mensur_markup_close(struct mensur_out *out);
/* "</name>" */
void mensur_markup_finish(struct mensur_out *out, const char *name);
/* "<name>" */
void mensur_markup_open(struct mensur_out *out, const char *name);
/* "<name>text</name>" */
void mensur_markup_element(struct mensur_out *out, const char *name, const char *text);
/* Text, or its first bytes, escaped; what XML forbids is left out. */
void mensur_markup_part(struct mensur_out *out, const char *text, size_t length);
void mensur_markup_text(struct mensur_out *out, const char *text);

#endif
