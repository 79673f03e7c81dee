/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings chosen for an instrument, why, and which sets came next. */
#include <math.h>

#include "tell.h"

static void tell_answer(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    const struct mensur_profile *present = &restringing->present;
    mensur_paragraph(document, 0, "%n, %l of string: ", present->instrument,
                     present->lengths.string_length);
    if (restringing->choice_count == 0) {
        mensur_say(document, "no set of the catalogue meets every wish.");
    } else {
        const struct mensur_choice *best = &restringing->choices[0];
        mensur_say(document, "these strings have a tension of %p in all", best->total_tension);
        if (!isnan(best->total_force_on_belly)) {
            mensur_say(document, " and press the belly with %p", best->total_force_on_belly);
        }
        if (!isnan(present->total_tension)) {
            mensur_say(document, "; the present ones %p", present->total_tension);
        }
        mensur_say(document, ".");
    }
    if (restringing->reason.count > 0) {
        mensur_paragraph(document, 0, "");
        mensur_say_facts(document, &restringing->reason);
        mensur_say(document, ".");
    }
}

static void tell_best(struct mensur_document *document,
                      const struct mensur_restringing *restringing) {
    static const struct mensur_told before[] = {{"note", 6, NULL, NULL, false},
                                                {"string", 34, NULL, NULL, false},
                                                {"linear_density_g_per_m", 8, NULL, NULL, false},
                                                {"tension_N", 8, NULL, NULL, false}},
                                    behind[] = {{"breaking_margin_semitones", 8, NULL, NULL, false},
                                                {"force_on_belly_N", 8, NULL, NULL, false}};
    const struct mensur_choice *best = &restringing->choices[0];
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The strings chosen");
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, before, 4);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "now",
                     mensur_shown_unit(&document->style, MENSUR_FORCE), 8);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, behind, 2);
    for (size_t i = 0; i < restringing->string_count; i++) {
        const struct mensur_string_figures *string = &best->strings[i];
        const struct mensur_string_figures *old =
            mensur_told_string(&restringing->present, string->note);
        mensur_row(document);
        mensur_cells_of(document, 4, string);
        mensur_cell_figure(document, MENSUR_FORCE, old != NULL ? old->tension : NAN);
        mensur_cells_of(document, 2, string);
    }
    mensur_row(document);
    mensur_cells(document, 3, "all", "", "");
    mensur_cell_figure(document, MENSUR_FORCE, best->total_tension);
    mensur_cell_figure(document, MENSUR_FORCE, restringing->present.total_tension);
    mensur_cell(document, "");
    mensur_cell_figure(document, MENSUR_FORCE, best->total_force_on_belly);
    mensur_paragraph(
        document, 0,
        "Now: the tension of the present string. Margin: semitones (st) that it could be "
        "tuned higher before it breaks.");
    for (size_t i = 0; i < restringing->string_count; i++) {
        if (best->why[i].count > 0) {
            mensur_paragraph(document, 4, "%s: ", best->strings[i].note);
            mensur_say_facts(document, &best->why[i]);
        }
    }
}

static void tell_others(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    mensur_heading(document, MENSUR_HEADING_PART, "Runners-up");
    mensur_paragraph(document, 0,
                     "The best has cost %b and evenness %b; of both less is better, and evenness 0 "
                     "is a tension that steps from string to string just as is wished.",
                     best->cost, best->evenness);
    for (size_t i = 1; i < restringing->choice_count; i++) {
        const struct mensur_choice *choice = &restringing->choices[i];
        mensur_paragraph(document, 4, "%z. cost %b, evenness %b, %p in all: ", i + 1, choice->cost,
                         choice->evenness, choice->total_tension);
        for (size_t j = 0; j < restringing->string_count; j++) {
            mensur_say(document, j > 0 ? ", %n" : "%n",
                       mensur_told_name(choice->strings[j].string));
        }
        mensur_say(document, ".");
    }
}

void mensur_tell_restringing(struct mensur_document *document,
                             const struct mensur_restringing *restringing) {
    tell_answer(document, restringing);
    if (restringing->choice_count > 0) {
        tell_best(document, restringing);
    }
    if (restringing->choice_count > 1) {
        tell_others(document, restringing);
    }
    if (restringing->excluded.count > 0) {
        mensur_heading(document, MENSUR_HEADING_PART, "What the wishes rule out");
        mensur_points(document, &restringing->excluded);
    }
}
