/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A figure as it is shown: in its unit, and the one that is a ratio as the trade tells it. */
#include <math.h>

#include "text.h"

static struct mensur_shown show_bare(const struct mensur_figure *figure,
                                     const struct mensur_style *style, double value) {
    return figure->kind == MENSUR_NUMBER ? mensur_show_number(value, figure->decimals, 7)
                                         : mensur_show(style, figure->kind, value);
}

struct mensur_shown mensur_figure_show(const struct mensur_figure *figure,
                                       const struct mensur_style *style, double value) {
    return (figure->flags & MENSUR_FIGURE_RATIO) != 0 && !isnan(value)
               ? mensur_show_ratio(value)
               : show_bare(figure, style, value);
}

struct mensur_shown mensur_figure_difference(const struct mensur_figure *figure,
                                             const struct mensur_style *style, double value) {
    return mensur_shown_signed(show_bare(figure, style, value));
}
