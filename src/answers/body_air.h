/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The air of an instrument's body, and that of two bodies side by side. */
#ifndef MENSUR_BODY_AIR_H
#define MENSUR_BODY_AIR_H

#include "instrument.h"
#include "result_use.h"

/* What is known of the air of a body; family NULL: not known. Usual values do not serve: a
 * measurement that was assumed counts as missing. */
void body_air_make(const struct mensur_instrument *of, const struct mensur_family *family,
                   struct mensur_body_air *out);

/* How far the note of the other's air stands above the first's, semitones: by the measured notes
 * where both were measured, else by the law. NaN where neither can be told, and between two
 * families. */
double body_air_apart(const struct mensur_profile *first, const struct mensur_profile *other);

/* The same of two bodies of one family. */
double body_air_semitones(const struct mensur_body_air *first, const struct mensur_body_air *other);

/* Fills in the notes of a comparison: of each its distance from the first, and in Hz where it was
 * measured on that body or on the one that it is held against. */
void body_air_compare(struct mensur_profile *profiles, size_t count);

/* Adds what is to be said of the other's air against the first's, or why nothing can be; nothing
 * where one of the bodies was not measured for it. Of bodies that were measured alike nothing is
 * told. `changed`: other is first as changed, and why nothing can be said is not told. `names` are
 * the other and the first, NULL as changed. */
void body_air_tell(const struct mensur_profile *first, const struct mensur_profile *other,
                   bool changed, const char *const *names, struct mensur_facts *facts);

#endif
