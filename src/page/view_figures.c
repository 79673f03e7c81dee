/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures side by side: of one instrument, of one as it is and as changed, or of two. */
#include <math.h>
#include <string.h>

#include "view.h"

static json_t *length_row(const struct sheet *sheet, const struct mensur_figure *figure) {
    json_t *row = json_object(), *cells = json_array();
    mensur_json_put(sheet->out, row, "label", mensur_json_text(figure->label));
    mensur_json_put(sheet->out, row, "gloss", mensur_json_text(figure->gloss));
    mensur_json_put(sheet->out, row, "unit",
                    mensur_json_text(mensur_shown_unit(sheet->style, figure->kind)));
    for (size_t i = 0; i < sheet->count; i++) {
        double value = mensur_figure_value(figure, &sheet->profiles[i].lengths);
        mensur_json_add(sheet->out, cells,
                        view_shown(mensur_figure_show(figure, sheet->style, value)));
    }
    mensur_json_put(sheet->out, row, "shown", cells);
    if (sheet->difference != NULL) {
        double value = mensur_figure_value(figure, &sheet->difference->lengths);
        mensur_json_put(sheet->out, row, "difference",
                        view_shown(mensur_figure_difference(figure, sheet->style, value)));
    }
    return row;
}

static json_t *lengths(const struct sheet *sheet) {
    const struct mensur_figure *figure;
    json_t *array = json_array();
    for (size_t i = 0; (figure = mensur_figure_told(MENSUR_SCOPE_INSTRUMENT, i)) != NULL; i++) {
        mensur_json_add(sheet->out, array, length_row(sheet, figure));
    }
    return array;
}

static json_t *total(const struct sheet *sheet, size_t offset) {
    double values[2] = {NAN, NAN}, difference = NAN;
    json_t *row = json_object();
    for (size_t i = 0; i < sheet->count; i++) {
        memcpy(&values[i], (const char *)&sheet->profiles[i] + offset, sizeof values[i]);
    }
    if (sheet->difference != NULL) {
        memcpy(&difference, (const char *)sheet->difference + offset, sizeof difference);
    }
    view_cells(sheet, row, "shown", MENSUR_FORCE, values, difference);
    return row;
}

static json_t *instrument(const struct sheet *sheet, const struct mensur_profile *profile) {
    const struct mensur_style *style = sheet->style;
    json_t *object = json_object();
    bool made_for = !isnan(profile->made_for_low) || !isnan(profile->made_for_high);
    mensur_json_put(sheet->out, object, "name", mensur_json_text(profile->instrument));
    mensur_json_put(sheet->out, object, "held", mensur_json_text(profile->held));
    mensur_json_put(sheet->out, object, "set", mensur_json_text(profile->set));
    mensur_json_put(sheet->out, object, "made_for",
                    made_for
                        ? view_shown(mensur_show_range(style, MENSUR_LENGTH, profile->made_for_low,
                                                       profile->made_for_high))
                        : json_null());
    mensur_json_put(sheet->out, object, "assumed",
                    view_assumed(sheet->out, style, &profile->assumed));
    mensur_json_put(sheet->out, object, "warnings",
                    mensur_json_facts(sheet->out, sheet->style, &profile->warnings));
    return object;
}

static void fill(const struct sheet *sheet, json_t *answer) {
    json_t *instruments = json_array();
    for (size_t i = 0; i < sheet->count; i++) {
        mensur_json_add(sheet->out, instruments, instrument(sheet, &sheet->profiles[i]));
    }
    mensur_json_put(sheet->out, answer, "instruments", instruments);
    mensur_json_put(sheet->out, answer, "force_unit",
                    mensur_json_text(mensur_shown_unit(sheet->style, MENSUR_FORCE)));
    mensur_json_put(sheet->out, answer, "length_unit",
                    mensur_json_text(mensur_shown_unit(sheet->style, MENSUR_LENGTH)));
    mensur_json_put(sheet->out, answer, "lengths", lengths(sheet));
    mensur_json_put(sheet->out, answer, "strings", view_strings(sheet));
    mensur_json_put(sheet->out, answer, "pull_in_all",
                    total(sheet, offsetof(struct mensur_profile, total_tension)));
    mensur_json_put(sheet->out, answer, "force_on_belly",
                    total(sheet, offsetof(struct mensur_profile, total_force_on_belly)));
    mensur_json_put(sheet->out, answer, "positions", view_positions(sheet));
    mensur_json_put(sheet->out, answer, "places", view_places(sheet));
}

enum mensur_status view_sheet(const struct mensur_sink *sink, const struct mensur_style *style,
                              const struct mensur_heading *heading,
                              const struct mensur_profile *profiles, size_t count,
                              const struct mensur_comparison *comparison) {
    static const struct mensur_facts none = {0};
    struct mensur_out out;
    struct sheet sheet = {&out, style, count, profiles,
                          comparison == NULL ? NULL : comparison->differences};
    mensur_out_open(&out, sink, false);
    json_t *answer = json_object();
    fill(&sheet, answer);
    mensur_json_put(&out, answer, "changed",
                    json_boolean(comparison != NULL && comparison->changed));
    mensur_json_put(
        &out, answer, "remarks",
        mensur_json_facts(&out, style, comparison == NULL ? &none : &comparison->remarks));
    mensur_json_put(&out, answer, "cautions", view_list(&out, heading->cautions));
    mensur_json_put(&out, answer, "sources", view_list(&out, heading->sources));
    return view_write(&out, answer);
}
