/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template: the side view for setting the neck, the bridge and the nut, at true size, to be
 * printed and laid on wood. Pages are SVG, sized in mm; they overlap, and register marks say how
 * they are put together. The first has the title block, the measurements and a plan of the pages;
 * each bears a bar of 100 mm across and one upwards, to check the printer.
 *
 * Every function returns MENSUR_OK, MENSUR_NO_ANSWER (there is no side view, or the pages are more
 * than MENSUR_TILE_PAGES), MENSUR_DOMAIN (no such page), MENSUR_WRITE (what the sink answered) or
 * MENSUR_MEMORY. */
#ifndef MENSUR_DRAW_TEMPLATE_H
#define MENSUR_DRAW_TEMPLATE_H

#include "drawing_style.h"
#include "present.h"

/* What it is called. */
#define MENSUR_TEMPLATE_TITLE "Template at true size"

struct mensur_template {
    const struct mensur_profile *profile; /* borrowed */
    enum mensur_sheet_paper paper;        /* of a strip all is in one drawing */
    const char *heading;                  /* of the shop, above the title; NULL: none */
    const char *date;                     /* as it is to stand there; NULL: room to write it */
    struct mensur_style figures;          /* inches are obeyed */
};

/* How many pages a template has: 1 or more. */
enum mensur_status mensur_template_pages(const struct mensur_template *template, size_t *pages);

/* Writes one page as SVG: 0 to pages less 1. */
enum mensur_status mensur_template_page(const struct mensur_template *template, size_t page,
                                        const struct mensur_sink *sink);

#endif
