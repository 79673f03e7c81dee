/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure the figures of an instrument are, in a paragraph below the answers. */
#include <string.h>

#include "letters.h"
#include "tell.h"

/* Less than this, in the shown unit, no figure of the answer shows. */
static const double least_shown = 0.005;

static void say_figure(struct mensur_document *document, const char *name, enum mensur_kind kind,
                       double spread, size_t *told) {
    double value = mensur_shown_value(&document->style, kind, spread);
    const char *unit = mensur_shown_unit(&document->style, kind);
    if (value >= least_shown) {
        mensur_say(document, "%s%s \302\261%s%s%s", (*told)++ == 0 ? " " : ", ", name,
                   mensur_show_plus_minus(&document->style, kind, spread).text,
                   *unit == '\0' ? "" : MENSUR_NO_BREAK, unit);
    }
}

static void say_figures(struct mensur_document *document, enum mensur_scope scope,
                        const void *spread, size_t *told) {
    const struct mensur_figure *figure;
    for (size_t i = 0; (figure = mensur_figure_told(scope, i)) != NULL; i++) {
        if ((figure->flags & MENSUR_FIGURE_PLUS_MINUS) != 0) {
            say_figure(document, figure->label, figure->kind, mensur_figure_value(figure, spread),
                       told);
        }
    }
}

/* The label of a figure that something matters to. */
static const char *label_of(const char *key) {
    const struct mensur_figure *figure = mensur_figure_named(MENSUR_SCOPE_INSTRUMENT, key);
    return figure != NULL ? figure->label : mensur_figure_named(MENSUR_SCOPE_TOTAL, key)->label;
}

/* A share that shows as 100 %. */
#define ALL_OF_IT 0.995

/* What each figure that was told hangs on: "Most of the string length's comes from stop (90 %)." */
static void tell_matters(struct mensur_document *document, const struct mensur_spread *spread,
                         bool lengths) {
    const char *of = NULL;
    for (size_t i = 0; i < spread->matter_count; i++) {
        const struct mensur_matter *matter = &spread->matters[i];
        if (!lengths && strcmp(matter->of, "string_length_mm") != 0) {
            continue;
        }
        if (of == NULL || strcmp(of, matter->of) != 0) {
            bool all = matter->share >= ALL_OF_IT;
            mensur_say(document, "%s the %s's %sfrom ",
                       of != NULL ? "; of"
                       : all      ? " All of"
                                  : " Most of",
                       label_of(matter->of), of == NULL ? "comes " : "");
        } else {
            mensur_say(document, ", ");
        }
        of = matter->of;
        mensur_say(document, "%s%s", matter->field, matter->assumed ? ", assumed" : "");
        if (matter->share < ALL_OF_IT) {
            mensur_say(document, " (%s" MENSUR_NO_BREAK "%%)",
                       mensur_show_number(matter->share * 100.0, 0, 4).text);
        }
    }
    mensur_say(document, of != NULL ? "." : "");
}

void mensur_tell_spread(struct mensur_document *document, const char *name,
                        const struct mensur_spread *spread, unsigned of) {
    size_t told = 0;
    bool full = document->style.full, lengths = full || (of & MENSUR_SURE_LENGTHS) != 0;
    if (spread == NULL || !document->spread) {
        return;
    }
    if (full) {
        mensur_gap(document);
        mensur_paragraph(document, 2, "How sure (%n, one standard uncertainty):", name);
    } else {
        mensur_paragraph(document, 2, "How sure (%n):", name);
    }
    if (lengths) {
        say_figures(document, MENSUR_SCOPE_INSTRUMENT, &spread->lengths, &told);
    } else {
        say_figure(document, "string length", MENSUR_LENGTH, spread->lengths.string_length, &told);
    }
    const struct mensur_position *first =
        mensur_told_position(spread->positions, spread->position_count, "1");
    if (first != NULL && (full || (of & MENSUR_SURE_FINGERS) != 0)) {
        say_figure(document, "frame in position 1", MENSUR_LENGTH, first->frame, &told);
    }
    if (full || (of & MENSUR_SURE_STRINGS) != 0) {
        /* of a set that is not whole, of its strings */
        for (size_t i = 0; isnan(spread->total_tension) && i < spread->string_count; i++) {
            say_figure(document, spread->strings[i].note, MENSUR_FORCE, spread->strings[i].tension,
                       &told);
        }
        say_figure(document, mensur_figure_told(MENSUR_SCOPE_TOTAL, 0)->label, MENSUR_FORCE,
                   spread->total_tension, &told);
        say_figure(document, mensur_figure_told(MENSUR_SCOPE_TOTAL, 1)->label, MENSUR_FORCE,
                   spread->total_force_on_belly, &told);
        if (full) {
            say_figure(document, mensur_figure_told(MENSUR_SCOPE_TOTAL, 2)->label, MENSUR_FORCE,
                       spread->force_on_treble_foot, &told);
            say_figure(document, mensur_figure_told(MENSUR_SCOPE_TOTAL, 3)->label, MENSUR_FORCE,
                       spread->force_on_bass_foot, &told);
        }
    }
    mensur_say(document, told > 0 ? "." : " nothing that was measured so moves a figure.");
    tell_matters(document, spread, lengths);
}
