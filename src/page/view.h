/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the page sets down itself: figures as the program's text shows them, in JSON. It stands on
 * the parts that the text and JSON formats are made of, so that no figure is rounded in two ways.
 * Like them it knows the answers alone, and no model.
 */
#ifndef MENSUR_PAGE_VIEW_H
#define MENSUR_PAGE_VIEW_H

#include "json.h"
#include "shown.h"

/* Writes a value and takes it over; MENSUR_OK, MENSUR_WRITE or MENSUR_MEMORY. */
enum mensur_status view_write(struct mensur_out *out, json_t *value);

/* A shown figure as JSON: null where it is not known. */
json_t *view_shown(struct mensur_shown shown);
/* "nut 0.5 mm", and the like, for all that was assumed. */
json_t *view_assumed(struct mensur_out *out, const struct mensur_style *style,
                     const struct mensur_assumptions *assumed);
/* The lists that stand below an answer. */
json_t *view_list(struct mensur_out *out, const char *const *texts);

/* Instruments side by side: what is set down, and how. */
struct sheet {
    struct mensur_out *out;
    const struct mensur_style *style;
    size_t count; /* 1 or 2 */
    const struct mensur_profile *profiles;
    const struct mensur_profile *difference; /* NULL with one */
};

/* Figures of one kind under a key, one for each instrument, and the difference under its own. */
void view_cells(const struct sheet *sheet, json_t *row, const char *key, enum mensur_kind kind,
                const double *values, double difference);
json_t *view_strings(const struct sheet *sheet);
json_t *view_positions(const struct sheet *sheet);
json_t *view_places(const struct sheet *sheet);

/* Writes a profile, or two with their difference and remarks. */
enum mensur_status view_sheet(const struct mensur_sink *sink, const struct mensur_style *style,
                              const struct mensur_heading *heading,
                              const struct mensur_profile *profiles, size_t count,
                              const struct mensur_comparison *comparison);

#endif
