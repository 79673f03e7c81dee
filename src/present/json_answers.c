/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole as one JSON object, whose answers leave one by one as they come. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "json.h"
#include "presenter.h"
#include "sentences.h"

static void put_null(struct mensur_json *to, const char *key) {
    mensur_json_key(to, key);
    mensur_json_null(to);
}

static void put_bool(struct mensur_json *to, const char *key, bool value) {
    mensur_json_key(to, key);
    mensur_json_bool(to, value);
}

static void put_count(struct mensur_json *to, const char *key, long count) {
    mensur_json_key(to, key);
    mensur_json_count(to, count);
}

static void put_text(struct mensur_json *to, const char *key, const char *text) {
    mensur_json_key(to, key);
    mensur_json_text(to, text);
}

static void put_number(struct mensur_json *to, const char *key, enum mensur_kind kind, double si) {
    mensur_json_key(to, key);
    mensur_json_number(to, kind, si);
}

static void put_known(struct mensur_json *to, const char *key, enum mensur_known known) {
    mensur_json_key(to, key);
    if (known == MENSUR_UNSURE) {
        mensur_json_null(to);
    } else {
        mensur_json_bool(to, known == MENSUR_YES);
    }
}

static void begin(struct mensur_json *to, const char *key, char bracket) {
    mensur_json_key(to, key);
    mensur_json_begin(to, bracket);
}

static void put_empty(struct mensur_json *to, const char *key) {
    begin(to, key, '[');
    mensur_json_end(to, ']');
}

static void put_texts(struct mensur_json *to, const char *key, const struct mensur_texts *texts) {
    mensur_json_key(to, key);
    mensur_json_texts(to, texts);
}

/* Adds the sentences of facts, in mm and N. */
static void add_sentences(struct mensur_json *to, const struct mensur_facts *facts,
                          struct mensur_texts *texts) {
    static const struct mensur_style plain = {.format = MENSUR_FORMAT_JSON};
    mensur_out_fail(to->out, mensur_sentences(facts, &plain, texts));
}

static void put_facts(struct mensur_json *to, const char *key, const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    add_sentences(to, facts, &texts);
    put_texts(to, key, &texts);
    mensur_texts_clear(&texts);
}

/* The first sentence of facts; without one an empty text. */
static void put_sentence(struct mensur_json *to, const char *key,
                         const struct mensur_facts *facts) {
    struct mensur_texts texts = {0};
    add_sentences(to, facts, &texts);
    put_text(to, key, texts.count > 0 ? texts.items[0] : "");
    mensur_texts_clear(&texts);
}

static void put_figure(struct mensur_json *to, const struct mensur_figure *figure,
                       const void *record, bool difference) {
    switch (figure->type) {
    case MENSUR_FIGURE_NUMBER:
        put_number(to, figure->key, figure->kind, mensur_figure_value(figure, record));
        return;
    case MENSUR_FIGURE_KNOWN:
        put_known(to, figure->key,
                  difference ? MENSUR_UNSURE : mensur_figure_known(figure, record));
        return;
    case MENSUR_FIGURE_POINTER:
    case MENSUR_FIGURE_TEXT:
        break;
    }
    put_text(to, figure->key, mensur_figure_text(figure, record));
}

/* The published figures of a record; of a difference only numbers and notes. */
static void put_figures(struct mensur_json *to, enum mensur_scope scope, const void *record,
                        bool difference) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            put_figure(to, figure, record, difference);
        }
    }
}

/* An array of count records, size bytes each. */
static void put_records(struct mensur_json *to, const char *key, enum mensur_scope scope,
                        const void *records, size_t count, size_t size, bool difference) {
    begin(to, key, '[');
    for (size_t i = 0; i < count; i++) {
        mensur_json_begin(to, '{');
        put_figures(to, scope, (const char *)records + i * size, difference);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void put_strings(struct mensur_json *to, const struct mensur_string_figures *strings,
                        size_t count, bool difference) {
    put_records(to, "strings", MENSUR_SCOPE_STRING, strings, count, sizeof(*strings), difference);
}

static void put_positions(struct mensur_json *to, const struct mensur_position *positions,
                          size_t count, bool difference) {
    put_records(to, "positions", MENSUR_SCOPE_POSITION, positions, count, sizeof(*positions),
                difference);
}

static void put_matters(struct mensur_json *to, const struct mensur_matter *matters, size_t count) {
    begin(to, "matters_most", '[');
    for (size_t i = 0; i < count; i++) {
        mensur_json_begin(to, '{');
        put_text(to, "field", matters[i].field);
        put_number(to, "share", MENSUR_NUMBER, matters[i].share);
        put_text(to, "of", matters[i].of);
        put_bool(to, "assumed", matters[i].assumed);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

/* How sure the figures are, and what matters most; both null where no measurement says it. */
static void put_spread(struct mensur_json *to, const struct mensur_spread *spread) {
    if (spread == NULL) {
        put_null(to, "plus_minus");
        put_null(to, "matters_most");
        return;
    }
    begin(to, "plus_minus", '{');
    put_figures(to, MENSUR_SCOPE_INSTRUMENT, &spread->lengths, true);
    put_strings(to, spread->strings, spread->string_count, true);
    put_number(to, "total_tension_N", MENSUR_FORCE, spread->total_tension);
    put_number(to, "total_force_on_belly_N", MENSUR_FORCE, spread->total_force_on_belly);
    put_number(to, "force_on_treble_foot_N", MENSUR_FORCE, spread->force_on_treble_foot);
    put_number(to, "force_on_bass_foot_N", MENSUR_FORCE, spread->force_on_bass_foot);
    put_number(to, "neck_moment_Nm", MENSUR_NUMBER, spread->neck_moment);
    put_positions(to, spread->positions, spread->position_count, true);
    mensur_json_end(to, '}');
    put_matters(to, spread->matters, spread->matter_count);
}

/* Writes into an array what was assumed; with each the instrument unless it is NULL. */
static void add_assumed(struct mensur_json *to, const char *instrument,
                        const struct mensur_assumptions *assumed) {
    for (size_t i = 0; i < assumed->count; i++) {
        const struct mensur_assumed *item = &assumed->items[i];
        const char *unit = item->text == NULL ? mensur_kind_unit(item->kind) : "";
        mensur_json_begin(to, '{');
        put_text(to, "field", item->field);
        if (item->text != NULL) {
            put_text(to, "value", item->text);
        } else {
            put_number(to, "value", item->kind, item->value);
        }
        put_text(to, "unit", *unit != '\0' ? unit : NULL);
        if (instrument != NULL) {
            put_text(to, "instrument", instrument);
        }
        mensur_json_end(to, '}');
    }
}

static void put_assumed(struct mensur_json *to, const struct mensur_assumptions *assumed) {
    begin(to, "assumed", '[');
    add_assumed(to, NULL, assumed);
    mensur_json_end(to, ']');
}

static bool is_before(const struct mensur_texts *texts, size_t at) {
    size_t i = 0;
    while (strcmp(texts->items[i], texts->items[at]) != 0) {
        i++;
    }
    return i < at;
}

/* Writes warnings that were gathered from several places, the same one once, and clears them. */
static void put_warnings(struct mensur_json *to, struct mensur_texts *texts) {
    begin(to, "warnings", '[');
    for (size_t i = 0; i < texts->count; i++) {
        if (!is_before(texts, i)) {
            mensur_json_text(to, texts->items[i]);
        }
    }
    mensur_json_end(to, ']');
    mensur_texts_clear(texts);
}

static void add_step(struct mensur_json *to, const struct mensur_working_line *line) {
    struct mensur_texts what = {0};
    mensur_out_fail(to->out, *line->about != '\0'
                                 ? mensur_texts_add(&what, "%s: %s", line->about, line->what)
                                 : mensur_texts_add(&what, "%s", line->what));
    mensur_json_begin(to, '{');
    put_text(to, "what", what.count > 0 ? what.items[0] : "");
    put_text(to, "formula", line->formula);
    put_text(to, "with_numbers", line->with_numbers);
    put_text(to, "result", line->result);
    put_text(to, "source", line->source);
    mensur_json_end(to, '}');
    mensur_texts_clear(&what);
}

/* Begins an answer, on a line of its own. */
static struct mensur_json begin_answer(struct mensur_presenter *presenter) {
    mensur_out_text(&presenter->out, presenter->answers > 0 ? ",\n" : "\n");
    struct mensur_json answer = {.out = &presenter->out};
    mensur_json_begin(&answer, '{');
    return answer;
}

/* Ends an answer with the steps of its working, if there is one: those about an instrument and
 * those about all of them; MENSUR_WORKING_ALL: every step. */
static void end_part(struct mensur_presenter *presenter, struct mensur_json *answer,
                     size_t instrument) {
    const struct mensur_working *working = presenter->working;
    if (working != NULL) {
        begin(answer, "working", '[');
        for (size_t i = 0; i < working->count; i++) {
            const struct mensur_working_line *line = &working->lines[i];
            if (instrument == MENSUR_WORKING_ALL || line->instrument == MENSUR_WORKING_ALL ||
                line->instrument == instrument) {
                add_step(answer, line);
            }
        }
        mensur_json_end(answer, ']');
    }
    mensur_json_end(answer, '}');
}

static void end_answer(struct mensur_presenter *presenter, struct mensur_json *answer) {
    end_part(presenter, answer, MENSUR_WORKING_ALL);
}

static struct mensur_json begin_profile(struct mensur_presenter *presenter,
                                        const struct mensur_profile *profile) {
    struct mensur_json answer = begin_answer(presenter);
    put_text(&answer, "instrument", profile->instrument);
    return answer;
}

/* Finishes the answer about one instrument, whose figures are as sure as a spread (NULL: unknown)
 * says. */
static void end_spread(struct mensur_presenter *presenter, struct mensur_json *answer,
                       const struct mensur_profile *profile, const struct mensur_spread *spread) {
    put_assumed(answer, &profile->assumed);
    put_facts(answer, "warnings", &profile->warnings);
    put_spread(answer, spread);
    end_answer(presenter, answer);
}

static void end_profile(struct mensur_presenter *presenter, struct mensur_json *answer,
                        const struct mensur_profile *profile) {
    end_spread(presenter, answer, profile, profile->spread);
}

/* The figures of a part of a view of one record. */
static void put_part(struct mensur_json *to, const struct mensur_view_part *part,
                     const void *record) {
    if (part->keys == NULL) {
        put_figures(to, part->scope, record, false);
    }
    for (size_t i = 0; part->keys != NULL && part->keys[i] != NULL; i++) {
        put_figure(to, mensur_figure_named(part->scope, part->keys[i]), record, false);
    }
}

static void json_profile(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    const struct mensur_view *view = presenter->heading->view;
    struct mensur_json answer = begin_profile(presenter, profile);
    for (size_t k = 0; k < MENSUR_VIEW_PARTS && view->told[k].in != 0; k++) {
        const struct mensur_view_part *part = &view->told[k];
        const struct mensur_records records = mensur_records_of(profile, part->scope);
        if ((part->in & MENSUR_VIEW_JSON) == 0) {
            continue;
        }
        if (part->list == NULL) {
            put_part(&answer, part, records.items);
            continue;
        }
        begin(&answer, part->list, '[');
        for (size_t i = 0; i < records.count; i++) {
            mensur_json_begin(&answer, '{');
            put_part(&answer, part, (const char *)records.items + i * records.size);
            mensur_json_end(&answer, '}');
        }
        mensur_json_end(&answer, ']');
    }
    if (view->remarks) {
        put_facts(&answer, "remarks", &profile->remarks);
    }
    end_profile(presenter, &answer, profile);
}

/* The keys of lengths, flat, and behind them strings and positions. */
static void add_compared(struct mensur_json *to, const struct mensur_profile *profile,
                         bool difference) {
    mensur_json_begin(to, '{');
    put_text(to, "instrument", profile->instrument);
    put_figures(to, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    put_strings(to, profile->strings, profile->string_count, difference);
    put_figures(to, MENSUR_SCOPE_TOTAL, profile, difference);
    put_figures(to, MENSUR_SCOPE_COMPARED, profile, difference);
    put_positions(to, profile->positions, profile->position_count, difference);
    if (!difference) {
        put_spread(to, profile->spread);
    }
    mensur_json_end(to, '}');
}

/* Instruments side by side, what differs, what is said of it. */
static void put_compared(struct mensur_json *to, const struct mensur_comparison *comparison) {
    struct mensur_texts warnings = {0};
    begin(to, "instruments", '[');
    for (size_t i = 0; i < comparison->count; i++) {
        add_compared(to, &comparison->instruments[i], false);
    }
    mensur_json_end(to, ']');
    begin(to, "differences", '[');
    for (size_t i = 0; i + 1 < comparison->count; i++) {
        add_compared(to, &comparison->differences[i], true);
    }
    mensur_json_end(to, ']');
    put_facts(to, "remarks", &comparison->remarks);
    begin(to, "assumed", '[');
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        add_assumed(to, profile->instrument, &profile->assumed);
        add_sentences(to, &profile->warnings, &warnings);
    }
    mensur_json_end(to, ']');
    put_warnings(to, &warnings);
}

static void json_comparison(struct mensur_presenter *presenter,
                            const struct mensur_comparison *comparison) {
    struct mensur_json answer = begin_answer(presenter);
    put_compared(&answer, comparison);
    end_answer(presenter, &answer);
}

/* A length under a key that names the place decided on, such as "neck_low_mm" or "stop_low_mm". */
static void put_place(struct mensur_json *to, const struct mensur_decision *decision,
                      const char *before, const char *behind, double place) {
    char key[40];
    snprintf(key, sizeof(key), "%s%s%s", before, decision->for_stop ? "stop" : "neck", behind);
    put_number(to, key, MENSUR_LENGTH, place);
}

static void put_wants(struct mensur_json *to, const struct mensur_decision *decision) {
    begin(to, "wants", '[');
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        mensur_json_begin(to, '{');
        put_text(to, "what", want->what);
        put_number(to, "low", want->kind, want->low);
        put_number(to, "high", want->kind, want->high);
        put_text(to, "unit", want->unit);
        put_place(to, decision, "", "_low_mm", want->place_low);
        put_place(to, decision, "", "_high_mm", want->place_high);
        put_bool(to, "within_reach", want->within_reach);
        put_text(to, "origin", want->origin);
        put_number(to, "give", want->kind, want->give > 0.0 ? want->give : NAN);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

/* By how much the nearest place misses which wishes. */
static void put_misses(struct mensur_json *to, const struct mensur_decision *decision) {
    begin(to, "misses", '[');
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (want->miss > 0.0) {
            mensur_json_begin(to, '{');
            put_text(to, "what", want->what);
            put_number(to, "by", want->kind, want->miss);
            put_text(to, "unit", want->unit);
            mensur_json_end(to, '}');
        }
    }
    mensur_json_end(to, ']');
}

static void put_conflict(struct mensur_json *to, const struct mensur_decision *decision) {
    const struct mensur_conflict *pair = &decision->conflict;
    if (!pair->exists) {
        put_null(to, "conflict");
        return;
    }
    const struct mensur_want *first = &decision->wants[pair->first];
    const struct mensur_want *second = &decision->wants[pair->second];
    begin(to, "conflict", '{');
    put_text(to, "first", first->what);
    put_text(to, "second", second->what);
    put_place(to, decision, "gap_", "_mm", pair->gap);
    put_number(to, "give_first", first->kind, pair->give_first);
    put_number(to, "give_second", second->kind, pair->give_second);
    mensur_json_end(to, '}');
}

static void put_steps(struct mensur_json *to, const struct mensur_decision *decision) {
    begin(to, "steps", '[');
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        mensur_json_begin(to, '{');
        put_place(to, decision, "", "_mm", step->place);
        put_figures(to, MENSUR_SCOPE_STEP, step, false);
        begin(to, "tension_N", '[');
        for (size_t j = 0; j < decision->present.string_count; j++) {
            mensur_json_number(to, MENSUR_FORCE, step->tension[j]);
        }
        mensur_json_end(to, ']');
        put_figures(to, MENSUR_SCOPE_STEP_TOTAL, step, false);
        put_bool(to, "present", step->present);
        put_bool(to, "recommended", step->recommended);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void put_decision(struct mensur_json *answer, const struct mensur_decision *decision) {
    const struct mensur_profile *present = &decision->present, *like = &decision->like;
    struct mensur_texts warnings = {0};
    put_wants(answer, decision);
    put_bool(answer, "can_meet_all", decision->can_meet_all);
    put_place(answer, decision, "", "_low_mm", decision->place_low);
    put_place(answer, decision, "", "_high_mm", decision->place_high);
    put_bool(answer, "leave", decision->leave);
    put_place(answer, decision, "recommended_", "_mm", decision->recommended_place);
    put_number(answer, "likelihood", MENSUR_NUMBER, decision->likelihood);
    put_text(answer, "measure_better",
             decision->measure_better[0] != '\0' ? decision->measure_better : NULL);
    put_place(answer, decision, "nearest_", "_mm", decision->nearest_place);
    put_misses(answer, decision);
    put_place(answer, decision, "usual_", "_mm", decision->usual_place);
    put_place(answer, decision, "made_for_", "_low_mm", decision->made_for_place_low);
    put_place(answer, decision, "made_for_", "_high_mm", decision->made_for_place_high);
    put_place(answer, decision, "aside_", "_mm", decision->aside_place);
    put_sentence(answer, "reason", &decision->reason);
    put_conflict(answer, decision);
    put_place(answer, decision, "", "_low_plus_minus_mm", decision->place_low_plus_minus);
    put_place(answer, decision, "", "_high_plus_minus_mm", decision->place_high_plus_minus);
    put_known(answer, "too_coarse", decision->too_coarse);
    if (decision->how_sure.count == 0) {
        put_null(answer, "matters_most");
    } else {
        put_matters(answer, decision->matters, decision->matter_count);
    }
    put_steps(answer, decision);
    put_records(answer, "strings_instead", MENSUR_SCOPE_INSTEAD, decision->instead,
                decision->instead_count, sizeof(decision->instead[0]), false);
    put_facts(answer, "costs", &decision->changes);
    begin(answer, "assumed", '[');
    add_assumed(answer, present->instrument, &present->assumed);
    add_sentences(answer, &present->warnings, &warnings);
    if (decision->has_recommended && !decision->leave) {
        add_sentences(answer, &decision->recommended.warnings, &warnings);
    }
    if (decision->has_like) {
        add_assumed(answer, like->instrument, &like->assumed);
        add_sentences(answer, &like->warnings, &warnings);
    }
    mensur_json_end(answer, ']');
    put_warnings(answer, &warnings);
}

static void json_decision(struct mensur_presenter *presenter,
                          const struct mensur_decision *decision) {
    struct mensur_json answer = begin_profile(presenter, &decision->present);
    put_decision(&answer, decision);
    end_answer(presenter, &answer);
}

static void put_measures(struct mensur_json *to, const struct mensur_scaled *scaled) {
    begin(to, "measurements", '[');
    for (size_t i = 0; i < scaled->measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled->measures[i];
        mensur_json_begin(to, '{');
        put_text(to, "field", measure->field);
        put_number(to, "from_mm", MENSUR_LENGTH, measure->from);
        put_number(to, "to_mm", MENSUR_LENGTH, measure->to);
        put_number(to, "exponent", MENSUR_NUMBER, measure->exponent);
        put_bool(to, "held",
                 measure->rule == MENSUR_SCALE_HELD || measure->rule == MENSUR_SCALE_KEPT);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void json_scaled(struct mensur_presenter *presenter, const struct mensur_told_scaled *told) {
    const struct mensur_scaled *scaled = told->scaled;
    struct mensur_json answer = begin_answer(presenter);
    put_text(&answer, "instrument", scaled->model);
    put_text(&answer, "name", scaled->name);
    put_number(&answer, "ratio", MENSUR_NUMBER, scaled->ratio);
    put_measures(&answer, scaled);
    put_number(&answer, "rib_more_mm", MENSUR_LENGTH, scaled->rib_more);
    put_number(&answer, "rib_more_least_mm", MENSUR_LENGTH, scaled->rib_more_least);
    put_number(&answer, "rib_more_most_mm", MENSUR_LENGTH, scaled->rib_more_most);
    put_compared(&answer, told->comparison);
    if (told->decision != NULL) {
        begin(&answer, "decision", '{');
        put_text(&answer, "instrument", told->decision->present.instrument);
        put_decision(&answer, told->decision);
        mensur_json_end(&answer, '}');
    } else {
        put_null(&answer, "decision");
    }
    end_answer(presenter, &answer);
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
    begin(to, "chosen", '[');
    for (size_t i = 0; choice != &none && i < restringing->string_count; i++) {
        mensur_json_begin(to, '{');
        put_figures(to, MENSUR_SCOPE_STRING, &choice->strings[i], false);
        put_bool(to, "kept", choice->kept[i]);
        put_sentence(to, "why", &choice->why[i]);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
    put_figures(to, MENSUR_SCOPE_CHOICE, choice, false);
    put_figures(to, MENSUR_SCOPE_CHOICE_TOTAL, choice, false);
}

/* What the present strings do to the instrument. */
static void put_present(struct mensur_json *to, const struct mensur_profile *present) {
    begin(to, "present", '{');
    put_text(to, "set", present->set);
    put_figures(to, MENSUR_SCOPE_TOTAL, present, false);
    put_spread(to, present->spread);
    mensur_json_end(to, '}');
}

static void put_sets(struct mensur_json *to, const struct mensur_restringing *restringing) {
    begin(to, "whole_sets", '[');
    for (size_t i = 0; i < restringing->set_count; i++) {
        const struct mensur_whole_set *set = &restringing->sets[i];
        mensur_json_begin(to, '{');
        put_figures(to, MENSUR_SCOPE_WHOLE_SET, set, false);
        put_bool(to, "present", set->present);
        put_facts(to, "misses", &set->misses);
        mensur_json_end(to, '}');
    }
    mensur_json_end(to, ']');
}

static void json_restringing(struct mensur_presenter *presenter,
                             const struct mensur_restringing *restringing) {
    struct mensur_json answer = begin_profile(presenter, &restringing->present);
    put_number(&answer, "string_length_mm", MENSUR_LENGTH,
               restringing->present.lengths.string_length);
    put_bool(&answer, "can_meet_all", restringing->met);
    put_bool(&answer, "leave", restringing->leave);
    put_sets(&answer, restringing);
    put_present(&answer, &restringing->present);
    put_choice(&answer, restringing, 0);
    put_facts(&answer, "misses", &restringing->misses);
    begin(&answer, "runners_up", '[');
    for (size_t i = 1; i < restringing->choice_count; i++) {
        mensur_json_begin(&answer, '{');
        put_choice(&answer, restringing, i);
        mensur_json_end(&answer, '}');
    }
    mensur_json_end(&answer, ']');
    put_records(&answer, "needed", MENSUR_SCOPE_NEEDED, restringing->needed,
                restringing->needed_count, sizeof(restringing->needed[0]), false);
    put_records(&answer, "to_order", MENSUR_SCOPE_ORDER, restringing->orders,
                restringing->order_count, sizeof(restringing->orders[0]), false);
    put_sentence(&answer, "reason", &restringing->reason);
    put_facts(&answer, "excluded", &restringing->excluded);
    end_spread(presenter, &answer, &restringing->present, restringing->spread);
}

/* An answer for each instrument. */
static void json_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching) {
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        struct mensur_json answer = begin_answer(presenter);
        struct mensur_texts warnings = {0};
        put_text(&answer, "instrument", reach->instrument);
        put_text(&answer, "player", reaching->player);
        put_figures(&answer, MENSUR_SCOPE_REACH, reach, false);
        begin(&answer, "frame_mm", '{');
        for (size_t j = 0; j < reach->position_count; j++) {
            mensur_json_any_key(&answer, reach->positions[j].name);
            mensur_json_number(&answer, MENSUR_LENGTH, reach->positions[j].frame);
        }
        mensur_json_end(&answer, '}');
        put_number(&answer, "span_mm", MENSUR_LENGTH, reaching->span);
        if (reaching->sizes != NULL) {
            put_number(&answer, "string_length_mm", MENSUR_LENGTH, reach->string_length);
            put_figures(&answer, MENSUR_SCOPE_PUPIL_SIZE, &reaching->sizes[i], false);
        }
        begin(&answer, "assumed", '[');
        add_assumed(&answer, NULL, &reaching->assumed);
        add_assumed(&answer, NULL, &reach->assumed);
        mensur_json_end(&answer, ']');
        add_sentences(&answer, &reaching->warnings, &warnings);
        add_sentences(&answer, &reach->warnings, &warnings);
        put_warnings(&answer, &warnings);
        end_part(presenter, &answer, i);
        /* The last one is counted by whoever asked for them all. */
        presenter->answers += i + 1 < reaching->count;
    }
}

/* The cells of the owner's columns by their heads. */
static void put_own(struct mensur_json *to, const struct mensur_texts *heads, const char *cells) {
    begin(to, "own", '{');
    for (size_t i = 0; heads != NULL && i < heads->count; i++) {
        mensur_json_any_key(to, heads->items[i]);
        mensur_json_text(to, cells == NULL ? "" : cells);
        cells = cells == NULL ? NULL : cells + strlen(cells) + 1;
    }
    mensur_json_end(to, '}');
}

static void json_ranking(struct mensur_presenter *presenter, const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    for (size_t i = 0; i < ranking->count; i++) {
        const struct mensur_ranked *row = ranking->rows[i];
        struct mensur_json answer = begin_answer(presenter);
        put_text(&answer, "instrument", row->name);
        put_count(&answer, "rank", (long)i + 1);
        put_number(&answer, "distance", MENSUR_NUMBER, row->distance);
        for (size_t k = 0; k < sought->figure_count; k++) {
            const struct mensur_figure *figure = sought->figures[k].figure;
            if (sought->figures[k].told) {
                put_number(&answer, figure->key, figure->kind, row->values[k]);
            }
        }
        if (sought->has_like) {
            put_number(&answer, "air_semitones_above_liked", MENSUR_SEMITONES, row->air_apart);
        }
        put_own(&answer, presenter->heading->owners, row->cells);
        put_empty(&answer, "assumed");
        put_empty(&answer, "warnings");
        end_part(presenter, &answer, i);
        presenter->answers += i + 1 < ranking->count;
    }
}

static void json_map(struct mensur_presenter *presenter, const struct mensur_map *map) {
    for (size_t i = 0; i < map->point_count; i++) {
        const struct mensur_map_point *point = &map->points[i];
        struct mensur_json answer = begin_answer(presenter);
        struct mensur_texts warnings = {0};
        put_text(&answer, "instrument", point->name);
        put_figures(&answer, MENSUR_SCOPE_INSTRUMENT, &point->lengths, false);
        put_known(&answer, "meets_all", point->meets_all);
        put_bool(&answer, "asked", point->asked);
        put_bool(&answer, "changed", point->changed);
        put_assumed(&answer, &map->assumed);
        add_sentences(&answer, &map->warnings, &warnings);
        put_warnings(&answer, &warnings);
        end_part(presenter, &answer, i);
        presenter->answers += i + 1 < map->point_count;
    }
}

static void json_check(struct mensur_presenter *presenter, const char *file, const char *row_name,
                       long rows, const struct mensur_texts *warnings) {
    struct mensur_json answer = begin_answer(presenter);
    (void)row_name;
    put_text(&answer, "file", file);
    put_count(&answer, "rows", rows);
    put_empty(&answer, "assumed");
    put_texts(&answer, "warnings", warnings);
    end_answer(presenter, &answer);
}

/* The row's numbers are in the units of families.csv. */
static void json_learned(struct mensur_presenter *presenter, const struct mensur_learned *learned) {
    for (size_t i = 0; i < learned->count; i++) {
        const struct mensur_learned_family *family = &learned->families[i];
        struct mensur_json answer = begin_answer(presenter);
        put_text(&answer, "family", family->name);
        put_count(&answer, "instruments", (long)family->instruments);
        put_bool(&answer, "learnt", family->learnt);
        begin(&answer, "row", '{');
        for (size_t j = 0; j < family->cell_count; j++) {
            const struct mensur_table_cell *cell = &family->cells[j];
            if (cell->text != NULL) {
                put_text(&answer, cell->head, cell->text);
            } else {
                put_number(&answer, cell->head, cell->kind, cell->number);
            }
        }
        mensur_json_end(&answer, '}');
        put_empty(&answer, "assumed");
        put_texts(&answer, "warnings", &family->warnings);
        end_part(presenter, &answer, i);
        presenter->answers += i + 1 < learned->count;
    }
}

static void json_open(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct mensur_json whole = {.out = &presenter->out};
    mensur_json_begin(&whole, '{');
    put_text(&whole, "mensur", MENSUR_VERSION);
    put_text(&whole, "command", heading->command);
    put_text(&whole, "shop", heading->shop);
    put_number(&whole, "a4_Hz", MENSUR_FREQUENCY, heading->a4);
    put_text(&whole, "fifths", heading->fifths);
    put_text(&whole, "steps", heading->steps);
    begin(&whole, "answers", '[');
}

static void json_close(struct mensur_presenter *presenter) {
    const char *const *source = presenter->heading->sources;
    struct mensur_json whole = {.out = &presenter->out};
    mensur_out_text(whole.out, presenter->answers > 0 ? "\n" : "");
    mensur_json_end(&whole, ']');
    put_facts(&whole, "cautions", &presenter->cautions);
    begin(&whole, "sources", '[');
    for (; source != NULL && *source != NULL; source++) {
        mensur_json_text(&whole, *source);
    }
    mensur_json_end(&whole, ']');
    mensur_json_end(&whole, '}');
    mensur_out_line(whole.out);
}

const struct mensur_writer mensur_json_writer = {
    json_open,    json_profile, json_comparison, json_decision, json_restringing, json_reaching,
    json_ranking, json_map,     json_scaled,     json_check,    json_learned,     json_close,
    NULL,
};
