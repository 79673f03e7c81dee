/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What tells a kind of answer, in text and HTML, CSV and JSON. */
#ifndef MENSUR_PRESENT_TELLING_H
#define MENSUR_PRESENT_TELLING_H

#include "answer_kind.h"
#include "cautions.h"
#include "csv_cells.h"
#include "json_put.h"
#include "sources.h"
#include "tell.h"

enum { TELLING_BEHIND_BOTH = MENSUR_VIEW_BEHIND_LENGTHS | MENSUR_VIEW_BEHIND_STRINGS };

bool telling_is_html(const struct mensur_presenter *presenter);
/* Whether what is written in HTML leaves parts out; whether a part is written. */
bool telling_in_parts(const struct mensur_presenter *presenter);
bool telling_is_written(const struct mensur_presenter *presenter, enum mensur_html_parts part);
/* Writes what was told: with telling_write it is then forgotten. */
void telling_write_told(struct mensur_presenter *presenter, enum mensur_html_parts part);
void telling_write(struct mensur_presenter *presenter, enum mensur_html_parts part);
/* Gathers what was assumed of an instrument, some of enum mensur_behind, and its warnings. */
void telling_gather(struct mensur_presenter *presenter, const char *name,
                    const struct mensur_assumptions *assumed, unsigned shown,
                    const struct mensur_facts *warnings);
void telling_gather_profile(struct mensur_presenter *presenter, const char *name,
                            const struct mensur_profile *profile, unsigned shown);

#endif
