/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the figures of an instrument are, in a sentence each, told below the answers. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "number.h"
#include "text.h"

/* A ± has two digits: more would claim to know it better than it is known (JCGM 100:2008, 7.2.6,
 * from memory).
 */
enum { PLUS_MINUS_DIGITS = 2 };

/* Less than this, in the shown unit, no figure of the answer shows. */
static const double least_shown = 0.005;

static struct mensur_shown plus_minus(const struct mensur_style *style, enum mensur_kind kind,
                                      double value) {
    struct mensur_shown shown;
    char number[MENSUR_NUMBER_ROOM];
    const char *unit = mensur_shown_unit(style, kind);
    mensur_number_print_significant(mensur_shown_value(style, kind, value), PLUS_MINUS_DIGITS,
                                    number);
    snprintf(shown.text, sizeof shown.text, "%.20s%s%.20s", number,
             unit[0] == '\0' ? "" : MENSUR_NO_BREAK, unit);
    return shown;
}

static void say(struct mensur_wrap *wrap, const struct mensur_style *style, const char *name,
                enum mensur_kind kind, double spread, bool *first) {
    if (mensur_shown_value(style, kind, spread) >= least_shown) {
        mensur_wrap_say(wrap, *first ? " " : ", ", name, " \302\261",
                        plus_minus(style, kind, spread).text, NULL);
        *first = false;
    }
}

static void say_figures(struct mensur_wrap *wrap, const struct mensur_style *style,
                        const struct mensur_spread *spread) {
    bool first = true;
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        if ((figure->flags & MENSUR_FIGURE_PLUS_MINUS) != 0) {
            say(wrap, style, figure->label, figure->kind,
                mensur_figure_value(figure, &spread->lengths), &first);
        }
    }
    if (spread->position_count > 1) {
        say(wrap, style, "frame in position 1", MENSUR_LENGTH, spread->positions[1].frame, &first);
    }
    say(wrap, style, mensur_figure_told(MENSUR_SCOPE_TOTAL, 0)->label, MENSUR_FORCE,
        spread->total_tension, &first);
    say(wrap, style, mensur_figure_told(MENSUR_SCOPE_TOTAL, 1)->label, MENSUR_FORCE,
        spread->total_force_on_belly, &first);
    if (first) {
        mensur_wrap_say(wrap, " nothing that was measured so moves a figure", NULL);
    }
    mensur_wrap_say(wrap, ".", NULL);
}

static void say_matters(struct mensur_wrap *wrap, const struct mensur_spread *spread) {
    for (size_t i = 0; i < spread->matter_count; i++) {
        mensur_wrap_say(wrap, i == 0 ? " Most of the string length's comes from " : ", ",
                        spread->matters[i].field, " (",
                        mensur_show_number(spread->matters[i].share * 100.0, 0, 4).text,
                        MENSUR_NO_BREAK "%)", NULL);
    }
    mensur_wrap_say(wrap, spread->matter_count > 0 ? "." : "", NULL);
}

void mensur_text_spread(struct mensur_presenter *presenter, const char *name,
                        const struct mensur_spread *spread) {
    struct mensur_wrap wrap;
    if (spread == NULL) {
        return;
    }
    mensur_out_line(&presenter->out);
    mensur_wrap_open(&wrap, &presenter->out, 0, 2);
    mensur_wrap_say(&wrap, "How sure (", name, ", one standard uncertainty):", NULL);
    say_figures(&wrap, &presenter->style, spread);
    say_matters(&wrap, spread);
    mensur_wrap_close(&wrap);
}
