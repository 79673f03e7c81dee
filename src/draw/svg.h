/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes shapes as SVG; no other file does. */
#ifndef MENSUR_DRAW_SVG_H
#define MENSUR_DRAW_SVG_H

#include "shapes.h"
#include "sink.h"

/* How a drawing is placed in its document. */
struct mensur_svg {
    const char *id;    /* prefix of every id in it */
    const char *title; /* what it shows, in a few words */
    const char *unit;  /* of its size on paper: "" (CSS px) or "mm" */
    bool within_page;  /* inside an HTML page: colours are the page's, no paper is painted */
    const struct mensur_shapes *before; /* of which what is alike is written as an empty line, as
                                           drawing_style.h says of changes; NULL: all is written */
};

/* Writes a drawing. Same shapes, same bytes. */
void mensur_svg_write(struct mensur_out *out, const struct mensur_svg *svg,
                      const struct mensur_shapes *shapes);

#endif
