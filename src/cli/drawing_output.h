/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers as drawings, where the output's ending asks for one. */
#ifndef MENSUR_DRAWING_OUTPUT_H
#define MENSUR_DRAWING_OUTPUT_H

#include <glib.h>

#include "commands.h"
#include "drawing.h"

enum drawing_kind { DRAWING_NONE, DRAWING_SVG, DRAWING_PDF, DRAWING_PNG };

/* What --output's ending says; NONE where --format says otherwise. */
enum drawing_kind drawing_kind(const struct options *options);

/* Refuses a drawing of what has none: true where one was asked for, and that was said. */
bool drawing_refused(const struct options *options, const char *what);

/* Draws an answer into a sink as SVG. */
typedef enum mensur_status draw_answer(const void *answer, const struct mensur_drawing_style *style,
                                       const struct mensur_sink *sink);

/* Draws an answer into --output. Says what fails. */
enum mensur_status drawing_write(const struct question *question, draw_answer *draw,
                                 const void *answer);

/* Writes drawings, each the bytes of an SVG, as the pages of a PDF. */
enum mensur_status drawing_write_pages(const struct question *question, const char *title,
                                       GByteArray *const *pages, size_t count);

/* A sink that fills a byte array. */
struct mensur_sink byte_sink(GByteArray *bytes);

/* Profiles of the instruments named, into room for as many; `count` of them are to be cleared,
 * also on failure. */
enum mensur_status profiles_of_names(struct question *question, struct mensur_profile *profiles,
                                     size_t *count);

/* lengths, tension and fingers of the instruments that are named. */
enum mensur_status drawing_of_rows(struct question *question);

#endif
