/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Drawings on paper: SVG to PDF and PNG. The files hold no date and no random identifier, so the
 * same drawing gives the same bytes (on one machine: text is drawn with its installed fonts).
 *
 * Every function returns MENSUR_OK, MENSUR_DATA (not an SVG that can be drawn, a picture of size
 * 0), MENSUR_DOMAIN (a PNG with a side over 32767 pixels), MENSUR_MEMORY, MENSUR_READ (letters
 * could not be drawn: the fault says why), or MENSUR_WRITE (the sink failed). Where memory runs
 * out, the libraries behind it may also end the process: call it in one that can be spared.
 */
#ifndef MENSUR_PAPER_H
#define MENSUR_PAPER_H

#include <stdbool.h>

#include "style.h"
#include "texts.h"

/** Bytes of one SVG. */
struct mensur_paper_page {
    const char *svg; /**< not NULL */
    size_t length;   /**< in bytes */
};

/**
 * Writes a PDF with a page for each drawing, as large as the drawing: 96 CSS px are 25.4 mm.
 *
 * @param pages  the drawings in the order of the pages
 * @param count  1 or more
 * @param title  the document's title; NULL: none
 * @param sink   where to
 * @param[out] fault  why letters could not be drawn, where MENSUR_READ is returned
 * @return  see this file's head
 */
enum mensur_status mensur_paper_pdf(const struct mensur_paper_page *pages, size_t count,
                                    const char *title, const struct mensur_sink *sink,
                                    struct mensur_fault *fault);

/**
 * Writes a PNG, two pixels for each CSS px (192 to the inch).
 *
 * @param page  the drawing
 * @param sink  where to
 * @param[out] fault  why letters could not be drawn, where MENSUR_READ is returned
 * @return  see this file's head
 */
enum mensur_status mensur_paper_png(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink, struct mensur_fault *fault);

/**
 * Whether a font is installed that has the letters and digits of the drawings (ASCII). Without one
 * a drawing is written all the same, and no text is in it.
 */
bool mensur_paper_has_letters(void);

/** What the module holds. It is loaded only where a picture is written, because the libraries that
 * draw take longer to load than most answers to be made. */
struct mensur_paper_writer {
    const char *version; /**< of mensur; another one's structs may differ */
    bool (*has_letters)(void);
    enum mensur_status (*pdf)(const struct mensur_paper_page *pages, size_t count,
                              const char *title, const struct mensur_sink *sink,
                              struct mensur_fault *fault);
    enum mensur_status (*png)(const struct mensur_paper_page *page, const struct mensur_sink *sink,
                              struct mensur_fault *fault);
};

/** The one symbol of the module. */
extern const struct mensur_paper_writer mensur_paper_writer;

#endif
