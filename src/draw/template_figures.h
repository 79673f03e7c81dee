/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two figures of a template; mm, y up. */
#ifndef MENSUR_DRAW_TEMPLATE_FIGURES_H
#define MENSUR_DRAW_TEMPLATE_FIGURES_H

#include "canvas.h"
#include "present.h"

/* The nut stands beside the bridge. */
enum mensur_template_figure { MENSUR_TEMPLATE_BRIDGE, MENSUR_TEMPLATE_SIDE };

/* What a figure covers, its labels with it. */
struct mensur_area mensur_template_area(enum mensur_template_figure which,
                                        const struct mensur_profile *profile);

/* Draws what the canvas shows of it. */
void mensur_template_draw(enum mensur_template_figure which, const struct mensur_canvas *canvas,
                          const struct mensur_profile *profile, const struct mensur_style *style);

#endif
