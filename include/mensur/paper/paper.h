/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Drawings on paper: SVG to PDF and PNG. No date and no random name goes in, so the same drawing
 * gives the same bytes (on one machine: the letters are those of its fonts).
 *
 * Every function returns MENSUR_OK, MENSUR_DATA (no SVG that can be drawn, or a picture of no
 * size, or larger than a picture may be), MENSUR_MEMORY, or MENSUR_WRITE (what the sink answered).
 */
#ifndef MENSUR_PAPER_H
#define MENSUR_PAPER_H

#include "present.h"

/** Bytes of one SVG. */
struct mensur_paper_page {
    const char *svg; /**< not NULL */
    size_t length;   /**< in bytes */
};

/**
 * Writes a PDF, a page of its own size for each drawing: 96 CSS px, or 25.4 mm, are an inch.
 *
 * @param pages  the drawings in the order of the pages
 * @param count  1 or more
 * @param title  the document's title; NULL: none
 * @param sink   where to
 * @return  see this file's head
 */
enum mensur_status mensur_paper_pdf(const struct mensur_paper_page *pages, size_t count,
                                    const char *title, const struct mensur_sink *sink);

/**
 * Writes a PNG, two pixels for each CSS px (192 to the inch).
 *
 * @param page  the drawing
 * @param sink  where to
 * @return  see this file's head
 */
enum mensur_status mensur_paper_png(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink);

#endif
