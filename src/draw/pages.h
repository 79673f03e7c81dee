/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A document on paper: its lines are broken, its tables and drawings set below each other, two
 * drawings that follow each other side by side, and all is cut into pages. A4 or Letter, upright.
 * The widths of letters are approximate (lettering.h), rather too wide, so that nothing runs over.
 */
#ifndef MENSUR_DRAW_PAGES_H
#define MENSUR_DRAW_PAGES_H

#include "document.h"
#include "drawing_style.h"

/* How many pages a document takes; 1 or more. MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status mensur_pages_count(const struct mensur_document *document,
                                      enum mensur_sheet_paper paper, size_t *pages);

/* Writes one of them, counted from 0, as SVG. MENSUR_OK, MENSUR_MEMORY, or MENSUR_WRITE (what the
 * sink answered). */
enum mensur_status mensur_pages_write(const struct mensur_document *document,
                                      enum mensur_sheet_paper paper, size_t page,
                                      const struct mensur_sink *sink);

#endif
