/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings chosen for an instrument, why, and which sets came next. */
#include <math.h>
#include <string.h>

#include "tell.h"

static void tell_answer(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    const struct mensur_profile *present = &restringing->present;
    mensur_paragraph(document, 0, "%n: ", present->instrument);
    if (restringing->choice_count == 0) {
        mensur_say(document, "no set of the catalogue meets every wish");
    } else {
        const struct mensur_choice *best = &restringing->choices[0];
        mensur_say(document, "%p of tension in all", best->total_tension);
        if (!isnan(present->total_tension)) {
            mensur_say(document, " (now %p)", present->total_tension);
        }
        if (!isnan(best->total_force_on_belly)) {
            mensur_say(document, ", %p on the belly", best->total_force_on_belly);
        }
        mensur_say(document, ", with these strings");
    }
    mensur_say(document, " on %l of string.", present->lengths.string_length);
    if (restringing->reason.count > 0) {
        mensur_paragraph(document, 0, "");
        mensur_say_facts(document, &restringing->reason);
        mensur_say(document, ".");
    }
}

/* By how much a string's tension is off its aim, as the reason for it says. */
static struct mensur_shown off_aim(const struct mensur_facts *why) {
    struct mensur_shown shown = {""};
    for (size_t i = 0; i < why->count; i++) {
        double ratio = why->items[i].kind == MENSUR_FACT_CHOSEN_OFF_WISH  ? why->items[i].number[2]
                       : why->items[i].kind == MENSUR_FACT_CHOSEN_AS_WISH ? 1.0
                                                                          : NAN;
        if (!isnan(ratio)) {
            shown = mensur_shown_signed(mensur_show_number((ratio - 1.0) * 100.0, 1, 7));
        }
    }
    return shown;
}

static void tell_best_in_brief(struct mensur_document *document,
                               const struct mensur_restringing *restringing) {
    static const struct mensur_told before[] = {{"note", 6, NULL, NULL, false},
                                                {"string", 34, NULL, NULL, false},
                                                {"linear_density_g_per_m", 8, NULL, NULL, false},
                                                {"tension_N", 9, NULL, NULL, false}},
                                    behind[] = {
                                        {"breaking_margin_semitones", 8, NULL, NULL, false}};
    const struct mensur_choice *best = &restringing->choices[0];
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The strings chosen");
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, before, 4);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "now",
                     mensur_shown_unit(&document->style, MENSUR_FORCE), 7);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "off aim", "%", 8);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, behind, 1);
    for (size_t i = 0; i < restringing->string_count; i++) {
        const struct mensur_string_figures *string = &best->strings[i];
        const struct mensur_string_figures *old =
            mensur_told_string(&restringing->present, string->note);
        mensur_row(document);
        mensur_cells_of(document, 4, string);
        mensur_cell_figure(document, MENSUR_FORCE, old != NULL ? old->tension : NAN);
        mensur_cell(document, off_aim(&best->why[i]).text);
        mensur_cells_of(document, 1, string);
    }
    mensur_paragraph(document, 0,
                     "Now: the tension of the present string. Margin: semitones (st) to breaking.");
}

/* Of each only the strings that are others than the first set's. */
static void tell_others_in_brief(struct mensur_document *document,
                                 const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    for (size_t i = 1; i < restringing->choice_count; i++) {
        const struct mensur_choice *choice = &restringing->choices[i];
        const char *between = "";
        mensur_paragraph(document, 4, "%z. %p in all with ", i + 1, choice->total_tension);
        for (size_t j = 0; j < restringing->string_count; j++) {
            const char *name = mensur_told_name(choice->strings[j].string);
            if (strcmp(name, mensur_told_name(best->strings[j].string)) != 0) {
                mensur_say(document, "%s%n", between, name);
                between = ", ";
            }
        }
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
    mensur_paragraph(
        document, 0,
        "The first has cost %b and evenness %b; of both less is better, and evenness 0 "
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
    bool full = document->style.full;
    if (restringing->choice_count > 0) {
        (full ? tell_best : tell_best_in_brief)(document, restringing);
    }
    if (restringing->choice_count > 1) {
        (full ? tell_others : tell_others_in_brief)(document, restringing);
    }
    if (restringing->excluded.count > 0 && (full || restringing->choice_count == 0)) {
        mensur_heading(document, MENSUR_HEADING_PART, "What the wishes rule out");
        mensur_points(document, &restringing->excluded);
    }
}
