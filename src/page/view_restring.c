/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings chosen for the first instrument's length. */
#include <math.h>

#include "view.h"

static json_t *string_row(struct mensur_out *out, const struct mensur_style *style,
                          const struct mensur_choice *choice, size_t i) {
    const struct mensur_string_figures *string = &choice->strings[i];
    json_t *row = json_object(), *cells = json_array();
    const struct {
        enum mensur_kind kind;
        double value;
    } figures[] = {{MENSUR_LINEAR_DENSITY, string->linear_density},
                   {MENSUR_FORCE, string->tension},
                   {MENSUR_SEMITONES, string->breaking_margin},
                   {MENSUR_FORCE, string->force_on_belly}};
    for (size_t f = 0; f < sizeof figures / sizeof figures[0]; f++) {
        mensur_json_add(
            out, cells,
            view_shown(mensur_show_within(style, figures[f].kind, figures[f].value, 6)));
    }
    mensur_json_put(out, row, "note", mensur_json_text(string->note));
    mensur_json_put(out, row, "string", mensur_json_text(string->string));
    mensur_json_put(out, row, "cells", cells);
    mensur_json_put(out, row, "why", mensur_json_sentence(out, style, &choice->why[i]));
    return row;
}

static json_t *choice_of(struct mensur_out *out, const struct mensur_style *style,
                         const struct mensur_restringing *restringing, size_t number) {
    const struct mensur_choice *choice = &restringing->choices[number];
    json_t *object = json_object(), *rows = json_array();
    for (size_t i = 0; i < restringing->string_count; i++) {
        mensur_json_add(out, rows, string_row(out, style, choice, i));
    }
    mensur_json_put(out, object, "strings", rows);
    mensur_json_put(out, object, "pull_in_all",
                    view_shown(mensur_show_within(style, MENSUR_FORCE, choice->total_tension, 6)));
    mensur_json_put(
        out, object, "force_on_belly",
        view_shown(mensur_show_within(style, MENSUR_FORCE, choice->total_force_on_belly, 6)));
    return object;
}

enum mensur_status view_restringing(const struct mensur_sink *sink,
                                    const struct mensur_style *style,
                                    const struct mensur_restringing *restringing) {
    struct mensur_out out;
    mensur_out_open(&out, sink, false);
    json_t *answer = json_object(), *choices = json_array();
    for (size_t i = 0; i < restringing->choice_count; i++) {
        mensur_json_add(&out, choices, choice_of(&out, style, restringing, i));
    }
    mensur_json_put(&out, answer, "reason",
                    mensur_json_sentence(&out, style, &restringing->reason));
    mensur_json_put(&out, answer, "choices", choices);
    mensur_json_put(&out, answer, "excluded",
                    mensur_json_facts(&out, style, &restringing->excluded));
    return view_write(&out, answer);
}
