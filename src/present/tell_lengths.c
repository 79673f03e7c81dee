/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths: of an instrument at length, of many a row each. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "letters.h"
#include "tell.h"

struct mensur_told_lengths mensur_told_lengths_of(const struct mensur_profile *profile) {
    return (struct mensur_told_lengths){.instrument = profile->instrument,
                                        .lengths = &profile->lengths,
                                        .assumed = &profile->assumed,
                                        .spread = profile->spread,
                                        .under_chin = profile->held == NULL ||
                                                      strcmp(profile->held, "chin") == 0,
                                        .neck_base = mensur_shown_neck_base(profile->held),
                                        .warned = profile->warnings.count > 0};
}

static void tell_sentence(struct mensur_document *document,
                          const struct mensur_told_lengths *told) {
    const struct mensur_lengths *lengths = told->lengths;
    bool measured = lengths->string_length_measured == MENSUR_YES;
    document->style.neck_base = told->neck_base;
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

bool mensur_told_as_assumed(const struct mensur_figure *figure,
                            const struct mensur_assumptions *assumed) {
    for (size_t i = 0; figure->rests_on != NULL && i < assumed->count; i++) {
        if (strcmp(assumed->items[i].field, figure->rests_on) == 0) {
            return true;
        }
    }
    return false;
}

bool mensur_told_in_brief(const struct mensur_figure *figure,
                          const struct mensur_assumptions *assumed) {
    return !mensur_told_as_assumed(figure, assumed) && (figure->flags & MENSUR_FIGURE_FULL) == 0;
}

/* "between F5 and F#5 on the A string": what a figure of a named place is glossed with. */
static struct mensur_shown place_shown(const struct mensur_named_place *place) {
    struct mensur_shown shown;
    bool between = *place->high != '\0';
    snprintf(shown.text, sizeof(shown.text), "%s%.8s%s%.8s on the %.*s string",
             between ? "between " : "at ", place->low, between ? " and " : "", place->high,
             (int)strcspn(place->open, "0123456789-"), place->open);
    return shown;
}

static struct mensur_shown gloss_of(const struct mensur_figure *figure,
                                    const struct mensur_lengths *lengths, bool under_chin) {
    struct mensur_shown shown;
    const struct mensur_named_place *place =
        strcmp(figure->key, "body_at_semitones") == 0                ? &lengths->body_note
        : strcmp(figure->key, "first_finger_at_heel_semitones") == 0 ? &lengths->heel_note
                                                                     : NULL;
    if (place == NULL || *place->low == '\0') {
        snprintf(shown.text, sizeof(shown.text), "%.60s", figure->gloss);
        return shown;
    }
    shown = place_shown(place);
    if (place == &lengths->heel_note && *place->high == '\0' && !under_chin) {
        size_t length = strlen(shown.text);
        snprintf(shown.text + length, sizeof(shown.text) - length, ": %.12s neck",
                 mensur_neck_named(place->low).text);
    }
    return shown;
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
        if (!isnan(value) &&
            (document->style.full || mensur_told_in_brief(figure, told->assumed))) {
            mensur_row(document);
            mensur_cells(document, 4, figure->label,
                         mensur_figure_show(figure, &document->style, value).text,
                         figure->kind == MENSUR_ANGLE
                             ? "degrees"
                             : mensur_shown_unit(&document->style, figure->kind),
                         gloss_of(figure, told->lengths, told->under_chin).text);
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
        bool told_of = (document->style.full || (figure->flags & MENSUR_FIGURE_MOVES) != 0) &&
                       (figure->flags & MENSUR_FIGURE_SELDOM) == 0;
        if (isnan(mensur_figure_value(figure, told->lengths)) && chin == for_chin && told_of) {
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
    if (document->style.full) {
        tell_unknown(document, told, true, "Only for what is held under the chin: ");
    }
    mensur_tell_spread(document, told->instrument, told->spread, MENSUR_SURE_LENGTHS);
}

void mensur_tell_lengths_of_two(struct mensur_document *document,
                                const struct mensur_told_lengths *one,
                                const struct mensur_told_lengths *two) {
    const struct mensur_told_lengths *of[] = {one, two};
    const struct mensur_figure *figure;
    tell_sentence(document, one);
    tell_sentence(document, two);
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "Lengths and angles of %n and %n", one->instrument,
                 two->instrument);
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 19);
    for (size_t i = 0; i < 2; i++) {
        mensur_column(document, (struct mensur_table_column){
                                    .label = of[i]->instrument, .width = 13, .number = i + 1});
    }
    mensur_column_behind(document, MENSUR_CELLS_WORDS, "", 1, 11);
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        double values[2] = {NAN, NAN};
        for (size_t k = 0; k < 2; k++) {
            if (mensur_told_in_brief(figure, of[k]->assumed)) {
                values[k] = mensur_figure_value(figure, of[k]->lengths);
            }
        }
        if (!isnan(values[0]) || !isnan(values[1])) {
            struct mensur_style styles[] = {document->style, document->style};
            styles[0].neck_base = one->neck_base;
            styles[1].neck_base = two->neck_base;
            mensur_row(document);
            mensur_cells(
                document, 4, figure->label, mensur_figure_show(figure, &styles[0], values[0]).text,
                mensur_figure_show(figure, &styles[1], values[1]).text,
                figure->kind == MENSUR_ANGLE ? "degrees"
                                             : mensur_shown_unit(&document->style, figure->kind));
        }
    }
    for (size_t k = 0; k < 2; k++) {
        mensur_tell_spread(document, of[k]->instrument, of[k]->spread, MENSUR_SURE_LENGTHS);
    }
}

static const struct mensur_told row_figures[] = {
    {"string_length_mm", 8, "string", NULL, false},
    {"stop_mm", 7, NULL, NULL, false},
    {"neck_mm", 7, NULL, NULL, false}, /* BEFORE_RATIO */
    {"stop_per_2_neck", 11, "neck:stop", "", false},
    {"body_at_semitones", 9, "note at", "the body", false},
    {"left_reach_mm", 8, "left", "reach", false},
    {"break_angle_deg", 7, "break", "angle", false},
};
enum { ROW_FIGURES = sizeof(row_figures) / sizeof(row_figures[0]), BEFORE_RATIO = 3 };

void mensur_tell_length_row(struct mensur_document *document,
                            const struct mensur_told_lengths *told, bool first) {
    if (first) {
        mensur_table(document, MENSUR_TABLE, "Lengths of all");
        mensur_column_of(document, MENSUR_CELLS_NAMES, "instrument", NULL, 20);
        mensur_tell_columns(document, MENSUR_SCOPE_INSTRUMENT, row_figures, ROW_FIGURES);
        mensur_column_behind(document, MENSUR_CELLS_MARKS, "", 1, 3);
    }
    document->style.neck_base = told->neck_base;
    mensur_row(document);
    mensur_cell(document, told->instrument);
    mensur_cells_of(document, BEFORE_RATIO, told->lengths);
    mensur_cell(document,
                isnan(told->lengths->stop_per_2_neck)
                    ? "?"
                    : mensur_show_ratio(&document->style, told->lengths->stop_per_2_neck).text);
    mensur_cells_of(document, ROW_FIGURES - BEFORE_RATIO - 1, told->lengths);
    mensur_cell(document, told->warned ? "*" : "");
}

void mensur_tell_length_rows_end(struct mensur_document *document, bool warned) {
    mensur_gap(document);
    mensur_paragraph(document, 0,
                     "String: nut to bridge. Note at the body: where the hand meets the body, in "
                     "semitones above the open string. Left reach: lower end of the body to the "
                     "nut. Break angle: of the string over the bridge, in degrees. ? is not "
                     "known%s.",
                     warned ? "; * has a warning" : "");
}
