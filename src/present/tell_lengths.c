/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths: of an instrument at length, of many a row each. */
#include <math.h>
#include <string.h>

#include "letters.h"
#include "tell.h"

struct mensur_told_lengths mensur_told_lengths_of(const struct mensur_profile *profile) {
    return (struct mensur_told_lengths){.instrument = profile->instrument,
                                        .lengths = &profile->lengths,
                                        .spread = profile->spread,
                                        .under_chin = profile->held == NULL ||
                                                      strcmp(profile->held, "chin") == 0,
                                        .warned = profile->warnings.count > 0};
}

static void tell_sentence(struct mensur_document *document,
                          const struct mensur_told_lengths *told) {
    const struct mensur_lengths *lengths = told->lengths;
    bool measured = lengths->string_length_measured == MENSUR_YES;
    mensur_paragraph(document, 0, "%n: the string is %l long", told->instrument,
                     lengths->string_length);
    mensur_say(document, measured ? ", as measured" : "");
    if (measured && !isnan(lengths->string_length_geometry)) {
        mensur_say(document, " (the other measurements give %l)", lengths->string_length_geometry);
    }
    if (!isnan(lengths->stop_per_2_neck)) {
        mensur_say(document, "; neck" MENSUR_NO_BREAK ":" MENSUR_NO_BREAK "stop is %r",
                   lengths->stop_per_2_neck);
    }
    mensur_say(document, ".");
}

static void tell_known(struct mensur_document *document, const struct mensur_told_lengths *told) {
    const struct mensur_figure *figure;
    mensur_table(document, MENSUR_TABLE_BARE, "Lengths and angles of %n", told->instrument);
    mensur_column_behind(document, MENSUR_CELLS_WORDS, "measurement", 2, 19);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "figure", NULL, 9);
    mensur_column_behind(document, MENSUR_CELLS_WORDS, "unit", 1, 11);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "what it is", NULL, 41);
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        double value = mensur_figure_value(figure, told->lengths);
        if (!isnan(value)) {
            mensur_row(document);
            mensur_cells(document, 4, figure->label,
                         mensur_figure_show(figure, &document->style, value).text,
                         figure->kind == MENSUR_ANGLE
                             ? "degrees"
                             : mensur_shown_unit(&document->style, figure->kind),
                         figure->gloss);
        }
    }
}

/* Names what is left out above; for_chin tells which of the two reasons. */
static void tell_unknown(struct mensur_document *document, const struct mensur_told_lengths *told,
                         bool for_chin, const char *reason) {
    const struct mensur_figure *figure;
    size_t found = 0;
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        bool chin = (figure->flags & MENSUR_FIGURE_CHIN) != 0 && !told->under_chin;
        if (isnan(mensur_figure_value(figure, told->lengths)) && chin == for_chin) {
            if (found == 0) {
                mensur_paragraph(document, 2, "%s", reason);
            }
            mensur_say(document, found++ == 0 ? "%s" : ", %s", figure->label);
        }
    }
    if (found > 0) {
        mensur_say(document, ".");
    }
}

void mensur_tell_lengths(struct mensur_document *document, const struct mensur_told_lengths *told) {
    tell_sentence(document, told);
    mensur_gap(document);
    tell_known(document, told);
    tell_unknown(document, told, false, "Not known: ");
    tell_unknown(document, told, true, "Only for what is held under the chin: ");
    mensur_tell_spread(document, told->instrument, told->spread);
}

static const struct mensur_told row_figures[] = {
    {"string_length_mm", 8, "string", NULL, false},
    {"stop_mm", 7, NULL, NULL, false},
    {"neck_mm", 7, NULL, NULL, false},
    {"stop_per_2_neck", 10, "neck:stop", "2 to", false},
    {"body_at_semitones", 9, "note at", "the body", false},
    {"left_reach_mm", 8, "left", "reach", false},
    {"break_angle_deg", 7, "break", "angle", false},
};
enum { ROW_FIGURES = sizeof(row_figures) / sizeof(row_figures[0]) };

void mensur_tell_length_row(struct mensur_document *document,
                            const struct mensur_told_lengths *told, bool first) {
    if (first) {
        mensur_table(document, MENSUR_TABLE, "Lengths of all");
        mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, 21);
        mensur_tell_columns(document, MENSUR_SCOPE_INSTRUMENT, row_figures, ROW_FIGURES);
        mensur_column_behind(document, MENSUR_CELLS_MARKS, "", 1, 3);
    }
    mensur_row(document);
    mensur_cell(document, told->instrument);
    mensur_cells_of(document, ROW_FIGURES, told->lengths);
    mensur_cell(document, told->warned ? "*" : "");
}

void mensur_tell_length_rows_end(struct mensur_document *document) {
    mensur_gap(document);
    mensur_paragraph(document, 0,
                     "String: nut to bridge. Note at the body: where the hand meets the body, in "
                     "semitones above the open string. Left reach: lower end of the body to the "
                     "nut. Break angle: of the string over the bridge, in degrees. ? is not known; "
                     "* has a warning.");
}
