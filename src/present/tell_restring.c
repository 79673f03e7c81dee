/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strings recommended for an instrument, why, which sets came next, and the gauges to order. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "telling.h"

/* So many whole sets are told where not all are asked for. */
enum { SETS_TOLD = 2 };

/* From twice its aim on, by how much a tension is off it means nothing more. */
#define MEANINGLESS_RATIO 2.0

/* "C3, G3": the notes whose strings are exchanged. */
static void say_exchanged(struct mensur_document *document,
                          const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    size_t left = 0, said = 0;
    for (size_t i = 0; i < restringing->string_count; i++) {
        left += !best->kept[i];
    }
    for (size_t i = 0; i < restringing->string_count; i++) {
        if (!best->kept[i]) {
            said++;
            mensur_say(document,
                       said == 1      ? "%s"
                       : said == left ? " and %s"
                                      : ", %s",
                       best->strings[i].note);
        }
    }
}

static bool keeps_some(const struct mensur_restringing *restringing) {
    bool some = false;
    for (size_t i = 0; i < restringing->string_count; i++) {
        some = some || restringing->choices[0].kept[i];
    }
    return some;
}

static void say_advice(struct mensur_document *document,
                       const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    if (!restringing->met) {
        mensur_say(document, "no strings meet every wish; the nearest are ");
        mensur_say(document,
                   restringing->leave  ? "those that are there"
                   : best->set != NULL ? "those of the set %n"
                                       : "these",
                   best->set);
    } else if (restringing->leave) {
        mensur_say(document, "leave the strings as they are");
    } else if (best->set != NULL) {
        mensur_say(document, "fit the set %n", best->set);
    } else if (keeps_some(restringing)) {
        mensur_say(document, "exchange ");
        say_exchanged(document, restringing);
        mensur_say(document, ", keep the others");
    } else {
        mensur_say(document, "fit these strings");
    }
}

/* The present strings: on an instrument with changes they are not what the file has. */
static const char *present_word(const struct mensur_profile *present) {
    return present->proposed_count > 0 ? "present" : mensur_state_word(MENSUR_STATE_NOW);
}

static void tell_answer(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    const struct mensur_profile *present = &restringing->present;
    mensur_paragraph(document, 0, "%n: ", present->instrument);
    if (restringing->choice_count == 0) {
        mensur_say(document, "there are no strings for some of its notes, on %l of string.",
                   present->lengths.string_length);
    } else {
        const struct mensur_choice *best = &restringing->choices[0];
        say_advice(document, restringing);
        mensur_say(document, ": %p in all", best->total_tension);
        if (!isnan(present->total_tension) && !restringing->leave) {
            mensur_say(document, " (%s%s %p)", present_word(present),
                       present->proposed_count > 0 ? " strings" : "", present->total_tension);
        }
        if (!isnan(best->total_force_on_belly)) {
            mensur_say(document, ", %p on the belly", best->total_force_on_belly);
        }
        mensur_say(document, ", on %l of string.", present->lengths.string_length);
    }
    mensur_paragraph(document, 0, "");
    mensur_say_facts(document, &restringing->reason);
    mensur_say(document, ".");
}

/* What the strings do to the instrument, before and after; of the feet in the full answer alone
 * where their distance was not measured, and of all where a wish is not met or gauges follow. */
static void tell_loads(struct mensur_document *document,
                       const struct mensur_restringing *restringing) {
    const struct mensur_profile *now = &restringing->present;
    const char *word = present_word(now);
    const struct mensur_choice *then = &restringing->choices[0];
    const struct mensur_figure *foot =
        mensur_figure_named(MENSUR_SCOPE_TOTAL, "force_on_treble_foot_N");
    bool feet = (document->style.full || !mensur_told_as_assumed(foot, &now->assumed)) &&
                !isnan(then->force_on_treble_foot + now->force_on_treble_foot);
    bool beside = restringing->met && restringing->order_count == 0;
    if (restringing->leave || !(beside || document->style.full) ||
        isnan(now->total_force_on_belly + then->total_force_on_belly)) {
        return;
    }
    mensur_paragraph(document, 2, "Loads: on the belly %p, %s %p", then->total_force_on_belly, word,
                     now->total_force_on_belly);
    if (feet) {
        mensur_say(document, " (treble foot %p, %s %p; bass foot %p, %s %p)",
                   then->force_on_treble_foot, word, now->force_on_treble_foot,
                   then->force_on_bass_foot, word, now->force_on_bass_foot);
    }
    if (!isnan(then->neck_moment + now->neck_moment)) {
        mensur_say(document, "; moment at the neck's root %s N m, %s %s",
                   mensur_show_number(then->neck_moment, 2, 7).text, word,
                   mensur_show_number(now->neck_moment, 2, 7).text);
    }
    mensur_say(document, ".");
}

/* How good strings are, in the units of the bench, behind these words; nothing where that is not
 * known. */
static void say_cost(struct mensur_document *document, const char *between, double off_aim,
                     double largest_step) {
    if (!isnan(off_aim)) {
        mensur_say(document, "%s%p off the aim in all", between, off_aim);
        between = ", ";
    }
    if (!isnan(largest_step)) {
        mensur_say(document, "%slargest step between neighbours %p", between, largest_step);
    }
}

/* By how much a string's tension is off its aim, as the reason for it says. */
static struct mensur_shown off_aim(const struct mensur_facts *why) {
    struct mensur_shown shown = {""};
    for (size_t i = 0; i < why->count; i++) {
        double ratio = why->items[i].kind == MENSUR_FACT_CHOSEN_OFF_WISH  ? why->items[i].number[2]
                       : why->items[i].kind == MENSUR_FACT_CHOSEN_AS_WISH ? 1.0
                                                                          : NAN;
        if (ratio >= MEANINGLESS_RATIO) {
            shown = (struct mensur_shown){"> +100"};
        } else if (!isnan(ratio)) {
            shown = mensur_shown_signed(mensur_show_number((ratio - 1.0) * 100.0, 1, 7));
        }
    }
    return shown;
}

static void tell_table(struct mensur_document *document,
                       const struct mensur_restringing *restringing) {
    static const struct mensur_told full[] = {{"note", 6, NULL, NULL, false},
                                              {"string", 34, NULL, NULL, false},
                                              {"linear_density_g_per_m", 8, NULL, NULL, false},
                                              {"tension_N", 9, NULL, NULL, false}},
                                    brief[] = {{"note", 6, NULL, NULL, false},
                                               {"string", 42, NULL, NULL, false},
                                               {"tension_N", 9, NULL, NULL, false}},
                                    behind[] = {
                                        {"breaking_margin_semitones", 8, NULL, NULL, false}};
    const struct mensur_told *before = document->style.full ? full : brief;
    const size_t count = document->style.full ? 4 : 3;
    const struct mensur_choice *best = &restringing->choices[0];
    const char *word = present_word(&restringing->present);
    bool strung = false;
    for (size_t i = 0; i < restringing->present.string_count; i++) {
        strung = strung || !isnan(restringing->present.strings[i].tension);
    }
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "The strings recommended");
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, before, count);
    if (strung) {
        mensur_column_of(document, MENSUR_CELLS_FIGURES, word,
                         mensur_shown_unit(&document->style, MENSUR_FORCE),
                         restringing->present.proposed_count > 0 ? 8 : 7);
    }
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "off aim", "%", 8);
    mensur_tell_columns(document, MENSUR_SCOPE_STRING, behind, 1);
    for (size_t i = 0; i < restringing->string_count; i++) {
        const struct mensur_string_figures *string = &best->strings[i];
        const struct mensur_string_figures *old =
            mensur_told_string(&restringing->present, string->note);
        mensur_row(document);
        mensur_cells_of(document, count, string);
        if (strung) {
            mensur_cell_figure(document, MENSUR_FORCE, old != NULL ? old->tension : NAN);
        }
        mensur_cell(document, off_aim(&best->why[i]).text);
        mensur_cells_of(document, 1, string);
    }
    mensur_paragraph(document, 0, "");
    if (strung) {
        mensur_say(document, "%s: the tension of the present string. ",
                   restringing->present.proposed_count > 0 ? "Present" : "Now");
    }
    mensur_say(document, "Margin: semitones (st) to breaking.");
    mensur_tell_bounds(document, best->strings, restringing->string_count);
    mensur_tell_own(document, best->strings, restringing->string_count, true);
}

/* The option that would open the way, where the wishes are not met. */
static void say_way_out(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    static const char *const cores[] = {"gut", "steel", "synthetic"};
    bool length_alone = true;
    for (size_t i = 0; i < restringing->misses.count; i++) {
        length_alone = length_alone && restringing->misses.items[i].kind == MENSUR_FACT_MISS_LENGTH;
    }
    if (restringing->misses.count > 0 && length_alone &&
        mensur_style_names_options(&document->style)) {
        mensur_say(document, " --any-length takes them so.");
    }
    for (size_t i = 0; i < restringing->set_count; i++) {
        const struct mensur_facts *misses = &restringing->sets[i].misses;
        if (misses->count == 1 && misses->items[0].kind == MENSUR_FACT_MISS_CORE) {
            mensur_say(document, " The set %n would do: %s%s.", restringing->sets[i].set,
                       mensur_style_names_options(&document->style) ? "--material " : "of ",
                       cores[(size_t)misses->items[0].number[0] - 1]);
            return;
        }
    }
}

/* What one string of each note would weigh, where the wishes are not met. */
static void tell_needed(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    if (restringing->needed_count == 0) {
        return;
    }
    mensur_paragraph(document, 0, "Grams per metre that would do: ");
    for (size_t i = 0; i < restringing->needed_count; i++) {
        const struct mensur_needed *needed = &restringing->needed[i];
        mensur_say(
            document, i == 0 ? "%s %s" : ", %s %s", needed->note,
            mensur_show(&document->style, MENSUR_LINEAR_DENSITY, needed->linear_density).text);
    }
    mensur_say(document, ".");
}

/* What is said below the table: how good it is, what it misses, how sure. */
static void tell_verdict(struct mensur_document *document,
                         const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    if (!isnan(best->off_aim)) {
        mensur_paragraph(document, 0, "These are ");
        say_cost(document, "", best->off_aim, best->largest_step);
        mensur_say(document, ".");
    } else if (!isnan(best->largest_step)) {
        mensur_paragraph(document, 0, "The largest step between neighbours is %p.",
                         best->largest_step);
    }
    tell_loads(document, restringing);
    if (restringing->misses.count > 0) {
        mensur_paragraph(document, 0, restringing->met ? "But: " : "They miss: ");
        mensur_say_list(document, &restringing->misses);
        mensur_say(document, ".");
        if (!restringing->met) {
            say_way_out(document, restringing);
        }
    }
    if (restringing->how_sure.count > 0) {
        mensur_paragraph(document, 0, "How sure: ");
        mensur_say_facts(document, &restringing->how_sure);
        mensur_say(document, ".");
    }
}

/* Whether a set is among those that tell_sets tells. */
static bool is_told(const struct mensur_document *document,
                    const struct mensur_restringing *restringing, const char *name) {
    const char *chosen = restringing->choices[0].set;
    size_t told = 0;
    for (size_t i = 0; i < restringing->set_count; i++) {
        const char *set = restringing->sets[i].set;
        if (chosen != NULL && strcmp(set, chosen) == 0) {
            continue;
        }
        if (strcmp(set, name) == 0) {
            return told < SETS_TOLD || document->style.full;
        }
        told++;
    }
    return false;
}

/* The whole sets that are not the recommended one: the next ones, or all. */
static void tell_sets(struct mensur_document *document,
                      const struct mensur_restringing *restringing) {
    const char *chosen = restringing->choice_count > 0 ? restringing->choices[0].set : NULL;
    size_t told = 0;
    for (size_t i = 0; i < restringing->set_count; i++) {
        const struct mensur_whole_set *set = &restringing->sets[i];
        if ((chosen != NULL && strcmp(set->set, chosen) == 0) ||
            (told == SETS_TOLD && !document->style.full)) {
            continue;
        }
        if (told++ == 0) {
            mensur_gap(document);
        }
        mensur_paragraph(document, 4, "%s set %n%s: %p in all", told == 1 ? "Next: the" : "The",
                         set->set, set->present ? " (now on it)" : "", set->total_tension);
        say_cost(document, ", ", set->off_aim, NAN);
        if (set->misses.count > 0) {
            mensur_say(document, "; ");
            mensur_say_list(document, &set->misses);
        }
        mensur_say(document, ".");
    }
}

/* Mixtures; of each only the strings that are others than the recommended ones. In a full answer
 * all, else the nearest. */
static void tell_mixtures(struct mensur_document *document,
                          const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    size_t count =
        document->style.full ? restringing->choice_count : (restringing->choice_count < 2 ? 0 : 2);
    for (size_t i = 1; i < count; i++) {
        const struct mensur_choice *choice = &restringing->choices[i];
        const char *between = "";
        if (choice->set != NULL && is_told(document, restringing, choice->set)) {
            continue;
        }
        mensur_paragraph(document, 4, choice->set != NULL ? "Or " : "Mixed: ");
        if (choice->set != NULL) {
            mensur_say(document, "the set %n", choice->set);
        }
        for (size_t j = 0; j < restringing->string_count && choice->set == NULL; j++) {
            const char *name = mensur_told_name(choice->strings[j].string);
            if (strcmp(name, mensur_told_name(best->strings[j].string)) != 0) {
                mensur_say(document, "%s%n", between, name);
                between = ", ";
            }
        }
        mensur_say(document, "%s: %p in all", choice->set == NULL ? " instead" : "",
                   choice->total_tension);
        say_cost(document, ", ", choice->off_aim, choice->largest_step);
        mensur_say(document, ".");
    }
}

static void tell_reasons(struct mensur_document *document,
                         const struct mensur_restringing *restringing) {
    const struct mensur_choice *best = &restringing->choices[0];
    for (size_t i = 0; i < restringing->string_count; i++) {
        if (best->why[i].count > 0) {
            mensur_paragraph(document, 4, "%s: ", best->strings[i].note);
            mensur_say_facts(document, &best->why[i]);
        }
    }
}

static void tell_orders(struct mensur_document *document,
                        const struct mensur_restringing *restringing) {
    static const struct mensur_told told[] = {{"note", 6, NULL, NULL, false},
                                              {"diameter_mm", 9, NULL, NULL, true},
                                              {"diameter_thou", 8, "gauge", "thou", false},
                                              {"tension_N", 9, NULL, NULL, false},
                                              {"breaking_margin_semitones", 8, NULL, NULL, false},
                                              {"linear_density_g_per_m", 8, NULL, NULL, false},
                                              {"tenth_below_mm", 8, NULL, NULL, false},
                                              {"tension_below_N", 8, NULL, NULL, false},
                                              {"tenth_above_mm", 8, NULL, NULL, false},
                                              {"tension_above_N", 8, NULL, NULL, false}};
    enum { TOLD = sizeof(told) / sizeof(told[0]) };
    const char *material = restringing->orders[0].material;
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE, "To order");
    mensur_tell_columns(document, MENSUR_SCOPE_ORDER, told, TOLD);
    for (size_t i = 0; i < restringing->order_count; i++) {
        const struct mensur_order *order = &restringing->orders[i];
        const struct mensur_style *style = &document->style;
        mensur_row(document);
        if (order->plain == MENSUR_NO) {
            mensur_cells(document, 10, order->note, "", "",
                         mensur_show_within(style, MENSUR_FORCE, order->tension, 8).text, "",
                         mensur_show(style, MENSUR_LINEAR_DENSITY, order->linear_density).text, "",
                         "", "", "");
        } else {
            mensur_cells_of(document, TOLD, order);
        }
    }
    mensur_paragraph(document, 0,
                     "To order: gauges of slack plain %n to %l (common practice), and the tenths "
                     "around them. Thicker, roped and overspun: by grams per metre.",
                     material, restringing->orders[0].thickest);
}

static void tell(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_restringing *restringing = record;
    struct mensur_document *document = &presenter->document;
    telling_gather_profile(presenter, restringing->present.instrument, &restringing->present,
                           MENSUR_VIEW_BEHIND_STRINGS | MENSUR_BEHIND_CHOICE);
    bool full = document->style.full;
    tell_answer(document, restringing);
    if (restringing->choice_count > 0) {
        tell_table(document, restringing);
        tell_verdict(document, restringing);
        tell_needed(document, restringing);
        if (full) {
            tell_reasons(document, restringing);
        }
    } else {
        tell_needed(document, restringing);
    }
    if (restringing->order_count > 0) {
        tell_orders(document, restringing);
    }
    if (full || restringing->order_count == 0) {
        tell_sets(document, restringing);
        if (restringing->choice_count > 1) {
            tell_mixtures(document, restringing);
        }
    }
    if (restringing->excluded.count > 0 && (full || restringing->choice_count == 0)) {
        mensur_heading(document, MENSUR_HEADING_PART, "What the wishes rule out");
        mensur_points(document, &restringing->excluded);
    }
}

/* The totals of the present strings, "present_" before their keys. */
static void present_totals(struct mensur_csv *row, const struct mensur_profile *present) {
    struct mensur_figures all = mensur_figures(MENSUR_SCOPE_TOTAL);
    for (size_t i = 0; i < all.count; i++) {
        const struct mensur_figure *figure = &all.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            char key[48];
            snprintf(key, sizeof(key), "present_%s", figure->key);
            mensur_csv_number(row, key, figure->kind, mensur_figure_value(figure, present));
        }
    }
}

static void choice_row(struct mensur_csv *row, const void *answer, size_t i) {
    static const struct mensur_choice none;
    const struct mensur_restringing *restringing = answer;
    size_t number = row->head ? 0 : i / restringing->string_count;
    const struct mensur_choice *choice = row->head ? &none : &restringing->choices[number];
    size_t string = i - number * restringing->string_count;
    mensur_csv_count(row, "choice", (long)number + 1);
    mensur_csv_text(row, "instrument", restringing->present.instrument);
    mensur_csv_figures(row, MENSUR_SCOPE_STRING, &choice->strings[string], false);
    mensur_csv_known(row, "kept", choice->kept[string] ? MENSUR_YES : MENSUR_NO);
    mensur_csv_figures(row, MENSUR_SCOPE_CHOICE, choice, false);
    mensur_csv_figures(row, MENSUR_SCOPE_CHOICE_TOTAL, choice, false);
    present_totals(row, &restringing->present);
}

static void csv(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_restringing *restringing = record;
    mensur_csv_rows(presenter, choice_row, restringing,
                    restringing->choice_count * restringing->string_count);
}

/* A choice's strings as in tension, each with the reason for it, and its totals; without a choice
 * no string, and no total known. */
static void put_choice(struct mensur_json *to, const struct mensur_restringing *restringing,
                       size_t number) {
    struct mensur_choice none;
    const struct mensur_choice *choice = &none;
    if (number < restringing->choice_count) {
        choice = &restringing->choices[number];
    } else {
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE, &none);
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE_TOTAL, &none);
    }
    mensur_json_begin(to, "chosen", '[');
    for (size_t i = 0; choice != &none && i < restringing->string_count; i++) {
        mensur_json_begin(to, NULL, '{');
        json_put_figures(to, MENSUR_SCOPE_STRING, &choice->strings[i], false);
        mensur_json_bool(to, "kept", choice->kept[i]);
        json_put_sentence(to, "why", &choice->why[i]);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
    json_put_figures(to, MENSUR_SCOPE_CHOICE, choice, false);
    json_put_figures(to, MENSUR_SCOPE_CHOICE_TOTAL, choice, false);
}

/* What the present strings do to the instrument. */
static void put_present(struct mensur_json *to, const struct mensur_profile *present) {
    mensur_json_begin(to, "present", '{');
    mensur_json_text(to, "set", present->set);
    json_put_figures(to, MENSUR_SCOPE_TOTAL, present, false);
    json_put_spread(to, present->spread);
    mensur_json_end(to, '}');
}

static void put_sets(struct mensur_json *to, const struct mensur_restringing *restringing) {
    mensur_json_begin(to, "whole_sets", '[');
    for (size_t i = 0; i < restringing->set_count; i++) {
        const struct mensur_whole_set *set = &restringing->sets[i];
        mensur_json_begin(to, NULL, '{');
        json_put_figures(to, MENSUR_SCOPE_WHOLE_SET, set, false);
        mensur_json_bool(to, "present", set->present);
        json_put_facts(to, "misses", &set->misses);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void json(struct mensur_presenter *presenter, const void *record) {
    const struct mensur_restringing *restringing = record;
    struct mensur_json answer = json_begin_profile(presenter, &restringing->present);
    mensur_json_number(&answer, "string_length_mm", MENSUR_LENGTH,
                       restringing->present.lengths.string_length);
    mensur_json_bool(&answer, "can_meet_all", restringing->met);
    mensur_json_bool(&answer, "leave", restringing->leave);
    put_sets(&answer, restringing);
    put_present(&answer, &restringing->present);
    put_choice(&answer, restringing, 0);
    json_put_facts(&answer, "misses", &restringing->misses);
    mensur_json_begin(&answer, "runners_up", '[');
    for (size_t i = 1; i < restringing->choice_count; i++) {
        mensur_json_begin(&answer, NULL, '{');
        put_choice(&answer, restringing, i);
        mensur_json_end(&answer, '}');
    }
    mensur_json_end(&answer, ']');
    json_put_records(&answer, "needed", MENSUR_SCOPE_NEEDED, restringing->needed,
                     restringing->needed_count, sizeof(restringing->needed[0]), false);
    json_put_records(&answer, "to_order", MENSUR_SCOPE_ORDER, restringing->orders,
                     restringing->order_count, sizeof(restringing->orders[0]), false);
    json_put_sentence(&answer, "reason", &restringing->reason);
    json_put_facts(&answer, "excluded", &restringing->excluded);
    json_end_spread(presenter, &answer, &restringing->present, restringing->spread);
}

static void cautions(const void *record, struct mensur_facts *cautions) {
    cautions_of_restringing(record, cautions);
}

static void clear(void *record) {
    mensur_restringing_clear(record);
}

static void drawing(const void *record, struct mensur_illustration *drawing) {
    *drawing = (struct mensur_illustration){.parts = MENSUR_DRAW_TENSION, .restringing = record};
}

const struct mensur_answer_kind mensur_restringing_answer = {
    .size = sizeof(struct mensur_restringing),
    .clear = clear,
    .sources = mensur_sources_tension,
    .cautions = cautions,
    .drawing = drawing,
    .tell = tell,
    .csv = csv,
    .json = json,
};
