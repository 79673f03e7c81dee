/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole as one JSON object, whose answers leave one by one as they come. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "json.h"
#include "presenter.h"

/* An object that is being made. */
struct object {
    struct mensur_out *out;
    json_t *json;
};

static struct object begin(struct mensur_out *out) {
    return (struct object){out, json_object()};
}

static void put(struct object to, const char *key, json_t *value) {
    mensur_json_put(to.out, to.json, key, value);
}

static void put_text(struct object to, const char *key, const char *text) {
    put(to, key, mensur_json_text(text));
}

static void put_number(struct object to, const char *key, enum mensur_kind kind, double si) {
    put(to, key, mensur_json_number(kind, si));
}

static void put_facts(struct object to, const char *key, const struct mensur_facts *facts) {
    put(to, key, mensur_json_facts(to.out, NULL, facts));
}

/* The first sentence of facts. */
static void put_sentence(struct object to, const char *key, const struct mensur_facts *facts) {
    json_t *texts = mensur_json_facts(to.out, NULL, facts);
    bool none = texts != NULL && json_array_size(texts) == 0;
    put(to, key, none ? json_string("") : json_incref(json_array_get(texts, 0)));
    json_decref(texts);
}

static json_t *known(enum mensur_known known) {
    return known == MENSUR_UNSURE ? json_null() : json_boolean(known == MENSUR_YES);
}

static json_t *figure_value(const struct mensur_figure *figure, const void *record,
                            bool difference) {
    switch (figure->type) {
    case MENSUR_FIGURE_NUMBER:
        return mensur_json_number(figure->kind, mensur_figure_value(figure, record));
    case MENSUR_FIGURE_KNOWN:
        return difference ? json_null() : known(mensur_figure_known(figure, record));
    case MENSUR_FIGURE_POINTER:
    case MENSUR_FIGURE_TEXT:
        break;
    }
    return mensur_json_text(mensur_figure_text(figure, record));
}

/* The published figures of a record; of a difference only numbers and notes. */
static void put_figures(struct object to, enum mensur_scope scope, const void *record,
                        bool difference) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        const struct mensur_figure *figure = &figures.items[i];
        if ((figure->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            put(to, figure->key, figure_value(figure, record, difference));
        }
    }
}

/* An array of count records, size bytes each. */
static void put_records(struct object to, const char *key, enum mensur_scope scope,
                        const void *records, size_t count, size_t size, bool difference) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        struct object object = begin(to.out);
        put_figures(object, scope, (const char *)records + i * size, difference);
        mensur_json_add(to.out, array, object.json);
    }
    put(to, key, array);
}

static void put_strings(struct object to, const struct mensur_string_figures *strings, size_t count,
                        bool difference) {
    put_records(to, "strings", MENSUR_SCOPE_STRING, strings, count, sizeof(*strings), difference);
}

static void put_positions(struct object to, const struct mensur_position *positions, size_t count,
                          bool difference) {
    put_records(to, "positions", MENSUR_SCOPE_POSITION, positions, count, sizeof(*positions),
                difference);
}

static void put_matters(struct object to, const struct mensur_matter *matters, size_t count) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        struct object object = begin(to.out);
        put_text(object, "field", matters[i].field);
        put_number(object, "share", MENSUR_NUMBER, matters[i].share);
        put_text(object, "of", matters[i].of);
        put(object, "assumed", json_boolean(matters[i].assumed));
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "matters_most", array);
}

/* How sure the figures are, and what matters most; both null where no measurement says it. */
static void put_spread(struct object to, const struct mensur_spread *spread) {
    if (spread == NULL) {
        put(to, "plus_minus", json_null());
        put(to, "matters_most", json_null());
        return;
    }
    struct object object = begin(to.out);
    put_figures(object, MENSUR_SCOPE_INSTRUMENT, &spread->lengths, true);
    put_strings(object, spread->strings, spread->string_count, true);
    put_number(object, "total_tension_N", MENSUR_FORCE, spread->total_tension);
    put_number(object, "total_force_on_belly_N", MENSUR_FORCE, spread->total_force_on_belly);
    put_number(object, "force_on_treble_foot_N", MENSUR_FORCE, spread->force_on_treble_foot);
    put_number(object, "force_on_bass_foot_N", MENSUR_FORCE, spread->force_on_bass_foot);
    put_number(object, "neck_moment_Nm", MENSUR_NUMBER, spread->neck_moment);
    put_positions(object, spread->positions, spread->position_count, true);
    put(to, "plus_minus", object.json);
    put_matters(to, spread->matters, spread->matter_count);
}

/* Adds to an array what was assumed; with each the instrument unless it is NULL. */
static void add_assumed(struct mensur_out *out, json_t *array, const char *instrument,
                        const struct mensur_assumptions *assumed) {
    for (size_t i = 0; i < assumed->count; i++) {
        const struct mensur_assumed *item = &assumed->items[i];
        const char *unit = item->text == NULL ? mensur_kind_unit(item->kind) : "";
        struct object object = begin(out);
        put_text(object, "field", item->field);
        put(object, "value",
            item->text != NULL ? mensur_json_text(item->text)
                               : mensur_json_number(item->kind, item->value));
        put_text(object, "unit", *unit != '\0' ? unit : NULL);
        if (instrument != NULL) {
            put_text(object, "instrument", instrument);
        }
        mensur_json_add(out, array, object.json);
    }
}

/* Adds to an array the sentences that it has not yet. */
static void join(struct mensur_out *out, json_t *array, const struct mensur_facts *facts) {
    json_t *texts = mensur_json_facts(out, NULL, facts);
    for (size_t i = 0; i < json_array_size(texts); i++) {
        json_t *text = json_array_get(texts, i);
        bool there = false;
        for (size_t j = 0; j < json_array_size(array) && !there; j++) {
            there = json_equal(json_array_get(array, j), text);
        }
        if (!there) {
            mensur_json_add(out, array, json_incref(text));
        }
    }
    json_decref(texts);
}

/* Adds to "assumed" and "warnings" of an answer, which it begins with the first. */
static void gather(struct object answer, const char *instrument,
                   const struct mensur_assumptions *assumed, const struct mensur_facts *warnings) {
    if (json_object_get(answer.json, "assumed") == NULL) {
        put(answer, "assumed", json_array());
        put(answer, "warnings", json_array());
    }
    add_assumed(answer.out, json_object_get(answer.json, "assumed"), instrument, assumed);
    join(answer.out, json_object_get(answer.json, "warnings"), warnings);
}

static void add_step(struct mensur_out *out, json_t *steps,
                     const struct mensur_working_line *line) {
    struct object step = begin(out);
    json_t *about = mensur_json_text(line->about), *what = mensur_json_text(line->what);
    if (*line->about != '\0' && about != NULL && what != NULL) {
        json_t *bare = what;
        what = json_sprintf("%s: %s", json_string_value(about), json_string_value(bare));
        json_decref(bare);
    }
    json_decref(about);
    put(step, "what", what);
    put_text(step, "formula", line->formula);
    put_text(step, "with_numbers", line->with_numbers);
    put_text(step, "result", line->result);
    put_text(step, "source", line->source);
    mensur_json_add(out, steps, step.json);
}

/* Writes an answer with the steps of its working, if there is one: those about an instrument and
 * those about all of them; MENSUR_WORKING_ALL: every step. */
static void write_part(struct mensur_presenter *presenter, struct object answer,
                       size_t instrument) {
    const struct mensur_working *working = presenter->working;
    json_t *steps = working != NULL ? json_array() : NULL;
    for (size_t i = 0; working != NULL && i < working->count; i++) {
        const struct mensur_working_line *line = &working->lines[i];
        if (instrument == MENSUR_WORKING_ALL || line->instrument == MENSUR_WORKING_ALL ||
            line->instrument == instrument) {
            add_step(answer.out, steps, line);
        }
    }
    if (working != NULL) {
        put(answer, "working", steps);
    }
    mensur_out_text(answer.out, presenter->answers > 0 ? ",\n{" : "\n{");
    mensur_json_write(answer.out, answer.json);
    mensur_out_text(answer.out, "}");
}

static void write_answer(struct mensur_presenter *presenter, struct object answer) {
    write_part(presenter, answer, MENSUR_WORKING_ALL);
}

static struct object begin_profile(struct mensur_presenter *presenter,
                                   const struct mensur_profile *profile) {
    struct object answer = begin(&presenter->out);
    put_text(answer, "instrument", profile->instrument);
    return answer;
}

/* Finishes the answer about one instrument, whose figures are as sure as a spread (NULL: unknown)
 * says. */
static void write_spread(struct mensur_presenter *presenter, struct object answer,
                         const struct mensur_profile *profile, const struct mensur_spread *spread) {
    json_t *assumed = json_array();
    add_assumed(answer.out, assumed, NULL, &profile->assumed);
    put(answer, "assumed", assumed);
    put_facts(answer, "warnings", &profile->warnings);
    put_spread(answer, spread);
    write_answer(presenter, answer);
}

static void write_profile(struct mensur_presenter *presenter, struct object answer,
                          const struct mensur_profile *profile) {
    write_spread(presenter, answer, profile, profile->spread);
}

static void json_lengths(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct object answer = begin_profile(presenter, profile);
    put_figures(answer, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, false);
    write_profile(presenter, answer, profile);
}

static void json_tension(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct object answer = begin_profile(presenter, profile);
    put_number(answer, "string_length_mm", MENSUR_LENGTH, profile->lengths.string_length);
    put_strings(answer, profile->strings, profile->string_count, false);
    put_figures(answer, MENSUR_SCOPE_TOTAL, profile, false);
    write_profile(presenter, answer, profile);
}

static void json_fingers(struct mensur_presenter *presenter, const struct mensur_profile *profile) {
    struct object answer = begin_profile(presenter, profile);
    put_number(answer, "string_length_mm", MENSUR_LENGTH, profile->lengths.string_length);
    put_figures(answer, MENSUR_SCOPE_HAND, profile, false);
    put_figures(answer, MENSUR_SCOPE_FRETS, profile, false);
    put_records(answer, "places", MENSUR_SCOPE_PLACE, profile->places, profile->place_count,
                sizeof(profile->places[0]), false);
    put_positions(answer, profile->positions, profile->position_count, false);
    put_records(answer, "true_places", MENSUR_SCOPE_TRUE_PLACE, profile->true_places,
                profile->true_place_count, sizeof(profile->true_places[0]), false);
    put_facts(answer, "remarks", &profile->remarks);
    write_profile(presenter, answer, profile);
}

/* The keys of lengths, flat, and behind them strings and positions. */
static void add_compared(struct mensur_presenter *presenter, json_t *array,
                         const struct mensur_profile *profile, bool difference) {
    struct object object = begin_profile(presenter, profile);
    put_figures(object, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    put_strings(object, profile->strings, profile->string_count, difference);
    put_figures(object, MENSUR_SCOPE_TOTAL, profile, difference);
    put_figures(object, MENSUR_SCOPE_COMPARED, profile, difference);
    put_positions(object, profile->positions, profile->position_count, difference);
    if (!difference) {
        put_spread(object, profile->spread);
    }
    mensur_json_add(object.out, array, object.json);
}

/* Instruments side by side, what differs, what is said of it. */
static void put_compared(struct mensur_presenter *presenter, struct object answer,
                         const struct mensur_comparison *comparison) {
    json_t *instruments = json_array(), *differences = json_array();
    for (size_t i = 0; i < comparison->count; i++) {
        add_compared(presenter, instruments, &comparison->instruments[i], false);
    }
    for (size_t i = 0; i + 1 < comparison->count; i++) {
        add_compared(presenter, differences, &comparison->differences[i], true);
    }
    put(answer, "instruments", instruments);
    put(answer, "differences", differences);
    put_facts(answer, "remarks", &comparison->remarks);
    for (size_t i = 0; i < comparison->count; i++) {
        const struct mensur_profile *profile = &comparison->instruments[i];
        gather(answer, profile->instrument, &profile->assumed, &profile->warnings);
    }
}

static void json_comparison(struct mensur_presenter *presenter,
                            const struct mensur_comparison *comparison) {
    struct object answer = begin(&presenter->out);
    put_compared(presenter, answer, comparison);
    write_answer(presenter, answer);
}

/* A length under a key that names the place decided on, such as "neck_low_mm" or "stop_low_mm". */
static void put_place(struct object to, const struct mensur_decision *decision, const char *before,
                      const char *behind, double place) {
    char key[40];
    snprintf(key, sizeof(key), "%s%s%s", before, decision->for_stop ? "stop" : "neck", behind);
    put_number(to, key, MENSUR_LENGTH, place);
}

static void put_wants(struct object to, const struct mensur_decision *decision) {
    json_t *array = json_array();
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        struct object object = begin(to.out);
        put_text(object, "what", want->what);
        put_number(object, "low", want->kind, want->low);
        put_number(object, "high", want->kind, want->high);
        put_text(object, "unit", want->unit);
        put_place(object, decision, "", "_low_mm", want->place_low);
        put_place(object, decision, "", "_high_mm", want->place_high);
        put(object, "within_reach", json_boolean(want->within_reach));
        put_text(object, "origin", want->origin);
        put_number(object, "give", want->kind, want->give > 0.0 ? want->give : NAN);
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "wants", array);
}

/* By how much the nearest place misses which wishes. */
static void put_misses(struct object to, const struct mensur_decision *decision) {
    json_t *array = json_array();
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (want->miss > 0.0) {
            struct object object = begin(to.out);
            put_text(object, "what", want->what);
            put_number(object, "by", want->kind, want->miss);
            put_text(object, "unit", want->unit);
            mensur_json_add(to.out, array, object.json);
        }
    }
    put(to, "misses", array);
}

static void put_conflict(struct object to, const struct mensur_decision *decision) {
    const struct mensur_conflict *pair = &decision->conflict;
    if (!pair->exists) {
        put(to, "conflict", json_null());
        return;
    }
    const struct mensur_want *first = &decision->wants[pair->first];
    const struct mensur_want *second = &decision->wants[pair->second];
    struct object object = begin(to.out);
    put_text(object, "first", first->what);
    put_text(object, "second", second->what);
    put_place(object, decision, "gap_", "_mm", pair->gap);
    put_number(object, "give_first", first->kind, pair->give_first);
    put_number(object, "give_second", second->kind, pair->give_second);
    put(to, "conflict", object.json);
}

static void put_steps(struct object to, const struct mensur_decision *decision) {
    json_t *array = json_array();
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        struct object object = begin(to.out);
        json_t *tensions = json_array();
        for (size_t j = 0; j < decision->present.string_count; j++) {
            mensur_json_add(to.out, tensions, mensur_json_number(MENSUR_FORCE, step->tension[j]));
        }
        put_place(object, decision, "", "_mm", step->place);
        put_figures(object, MENSUR_SCOPE_STEP, step, false);
        put(object, "tension_N", tensions);
        put_figures(object, MENSUR_SCOPE_STEP_TOTAL, step, false);
        put(object, "present", json_boolean(step->present));
        put(object, "recommended", json_boolean(step->recommended));
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "steps", array);
}

static void put_decision(struct object answer, const struct mensur_decision *decision) {
    static const struct mensur_assumptions none;
    const struct mensur_profile *present = &decision->present, *like = &decision->like;
    put_wants(answer, decision);
    put(answer, "can_meet_all", json_boolean(decision->can_meet_all));
    put_place(answer, decision, "", "_low_mm", decision->place_low);
    put_place(answer, decision, "", "_high_mm", decision->place_high);
    put(answer, "leave", json_boolean(decision->leave));
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
    put(answer, "too_coarse", known(decision->too_coarse));
    if (decision->how_sure.count == 0) {
        put(answer, "matters_most", json_null());
    } else {
        put_matters(answer, decision->matters, decision->matter_count);
    }
    put_steps(answer, decision);
    put_records(answer, "strings_instead", MENSUR_SCOPE_INSTEAD, decision->instead,
                decision->instead_count, sizeof(decision->instead[0]), false);
    put_facts(answer, "costs", &decision->changes);
    gather(answer, present->instrument, &present->assumed, &present->warnings);
    if (decision->has_recommended && !decision->leave) {
        gather(answer, NULL, &none, &decision->recommended.warnings);
    }
    if (decision->has_like) {
        gather(answer, like->instrument, &like->assumed, &like->warnings);
    }
}

static void json_decision(struct mensur_presenter *presenter,
                          const struct mensur_decision *decision) {
    struct object answer = begin_profile(presenter, &decision->present);
    put_decision(answer, decision);
    write_answer(presenter, answer);
}

static void put_measures(struct object to, const struct mensur_scaled *scaled) {
    json_t *array = json_array();
    for (size_t i = 0; i < scaled->measure_count; i++) {
        const struct mensur_scaled_measure *measure = &scaled->measures[i];
        struct object object = begin(to.out);
        put_text(object, "field", measure->field);
        put_number(object, "from_mm", MENSUR_LENGTH, measure->from);
        put_number(object, "to_mm", MENSUR_LENGTH, measure->to);
        put_number(object, "exponent", MENSUR_NUMBER, measure->exponent);
        put(object, "held",
            json_boolean(measure->rule == MENSUR_SCALE_HELD || measure->rule == MENSUR_SCALE_KEPT));
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "measurements", array);
}

static void json_scaled(struct mensur_presenter *presenter, const struct mensur_told_scaled *told) {
    const struct mensur_scaled *scaled = told->scaled;
    struct object answer = begin(&presenter->out);
    put_text(answer, "instrument", scaled->model);
    put_text(answer, "name", scaled->name);
    put_number(answer, "ratio", MENSUR_NUMBER, scaled->ratio);
    put_measures(answer, scaled);
    put_number(answer, "rib_more_mm", MENSUR_LENGTH, scaled->rib_more);
    put_number(answer, "rib_more_least_mm", MENSUR_LENGTH, scaled->rib_more_least);
    put_number(answer, "rib_more_most_mm", MENSUR_LENGTH, scaled->rib_more_most);
    put_compared(presenter, answer, told->comparison);
    if (told->decision != NULL) {
        struct object decision = begin_profile(presenter, &told->decision->present);
        put_decision(decision, told->decision);
        put(answer, "decision", decision.json);
    } else {
        put(answer, "decision", json_null());
    }
    write_answer(presenter, answer);
}

/* A choice's strings as in tension, each with the reason for it, and its totals; without a choice
 * no string, and no total known. */
static void put_choice(struct object to, const struct mensur_restringing *restringing,
                       size_t number) {
    struct mensur_choice none;
    const struct mensur_choice *choice = &none;
    json_t *array = json_array();
    if (number < restringing->choice_count) {
        choice = &restringing->choices[number];
    } else {
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE, &none);
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE_TOTAL, &none);
    }
    for (size_t i = 0; choice != &none && i < restringing->string_count; i++) {
        struct object object = begin(to.out);
        put_figures(object, MENSUR_SCOPE_STRING, &choice->strings[i], false);
        put(object, "kept", json_boolean(choice->kept[i]));
        put_sentence(object, "why", &choice->why[i]);
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "chosen", array);
    put_figures(to, MENSUR_SCOPE_CHOICE, choice, false);
    put_figures(to, MENSUR_SCOPE_CHOICE_TOTAL, choice, false);
}

/* What the present strings do to the instrument. */
static void put_present(struct object to, const struct mensur_profile *present) {
    struct object object = begin(to.out);
    put_text(object, "set", present->set);
    put_figures(object, MENSUR_SCOPE_TOTAL, present, false);
    put_spread(object, present->spread);
    put(to, "present", object.json);
}

static void put_sets(struct object to, const struct mensur_restringing *restringing) {
    json_t *array = json_array();
    for (size_t i = 0; i < restringing->set_count; i++) {
        const struct mensur_whole_set *set = &restringing->sets[i];
        struct object object = begin(to.out);
        put_figures(object, MENSUR_SCOPE_WHOLE_SET, set, false);
        put(object, "present", json_boolean(set->present));
        put_facts(object, "misses", &set->misses);
        mensur_json_add(to.out, array, object.json);
    }
    put(to, "whole_sets", array);
}

static void json_restringing(struct mensur_presenter *presenter,
                             const struct mensur_restringing *restringing) {
    struct object answer = begin_profile(presenter, &restringing->present);
    json_t *others = json_array();
    put_number(answer, "string_length_mm", MENSUR_LENGTH,
               restringing->present.lengths.string_length);
    put(answer, "can_meet_all", json_boolean(restringing->met));
    put(answer, "leave", json_boolean(restringing->leave));
    put_sets(answer, restringing);
    put_present(answer, &restringing->present);
    put_choice(answer, restringing, 0);
    put_facts(answer, "misses", &restringing->misses);
    for (size_t i = 1; i < restringing->choice_count; i++) {
        struct object object = begin(answer.out);
        put_choice(object, restringing, i);
        mensur_json_add(answer.out, others, object.json);
    }
    put(answer, "runners_up", others);
    put_records(answer, "needed", MENSUR_SCOPE_NEEDED, restringing->needed,
                restringing->needed_count, sizeof(restringing->needed[0]), false);
    put_records(answer, "to_order", MENSUR_SCOPE_ORDER, restringing->orders,
                restringing->order_count, sizeof(restringing->orders[0]), false);
    put_sentence(answer, "reason", &restringing->reason);
    put_facts(answer, "excluded", &restringing->excluded);
    write_spread(presenter, answer, &restringing->present, restringing->spread);
}

static void put_size(struct object answer, const struct mensur_pupil_size *size) {
    put(answer, "recommended", known(size->recommended));
    put(answer, "within_plus_minus", known(size->open));
    put_number(answer, "age_low_years", MENSUR_NUMBER, size->age_low);
    put_number(answer, "age_high_years", MENSUR_NUMBER, size->age_high);
    put_number(answer, "stature_low_mm", MENSUR_LENGTH, size->stature_low);
    put_number(answer, "stature_high_mm", MENSUR_LENGTH, size->stature_high);
    put_number(answer, "from_stature_mm", MENSUR_LENGTH, size->from_stature);
    put_number(answer, "from_age_years", MENSUR_NUMBER, size->from_age);
}

/* An answer for each instrument. */
static void json_reaching(struct mensur_presenter *presenter,
                          const struct mensur_reaching *reaching) {
    for (size_t i = 0; i < reaching->count; i++) {
        const struct mensur_reach *reach = &reaching->instruments[i];
        struct object answer = begin(&presenter->out), frames = begin(&presenter->out);
        put_text(answer, "instrument", reach->instrument);
        put_text(answer, "player", reaching->player);
        put_figures(answer, MENSUR_SCOPE_REACH, reach, false);
        for (size_t j = 0; j < reach->position_count; j++) {
            put_number(frames, reach->positions[j].name, MENSUR_LENGTH, reach->positions[j].frame);
        }
        put(answer, "frame_mm", frames.json);
        put_number(answer, "span_mm", MENSUR_LENGTH, reaching->span);
        if (reaching->sizes != NULL) {
            put_number(answer, "string_length_mm", MENSUR_LENGTH, reach->string_length);
            put_size(answer, &reaching->sizes[i]);
        }
        gather(answer, NULL, &reaching->assumed, &reaching->warnings);
        gather(answer, NULL, &reach->assumed, &reach->warnings);
        write_part(presenter, answer, i);
        /* The last one is counted by whoever asked for them all. */
        presenter->answers += i + 1 < reaching->count;
    }
}

/* The cells of the owner's columns by their heads. */
static void put_own(struct object to, const struct mensur_texts *heads, const char *cells) {
    struct object own = begin(to.out);
    for (size_t i = 0; heads != NULL && i < heads->count; i++) {
        put_text(own, heads->items[i], cells == NULL ? "" : cells);
        cells = cells == NULL ? NULL : cells + strlen(cells) + 1;
    }
    put(to, "own", own.json);
}

static void json_ranking(struct mensur_presenter *presenter, const struct mensur_ranking *ranking) {
    const struct mensur_sought *sought = &ranking->sought;
    for (size_t i = 0; i < ranking->count; i++) {
        const struct mensur_ranked *row = ranking->rows[i];
        struct object answer = begin(&presenter->out);
        put_text(answer, "instrument", row->name);
        put(answer, "rank", json_integer((json_int_t)i + 1));
        put_number(answer, "distance", MENSUR_NUMBER, row->distance);
        for (size_t k = 0; k < sought->figure_count; k++) {
            const struct mensur_figure *figure = sought->figures[k].figure;
            if (sought->figures[k].told) {
                put_number(answer, figure->key, figure->kind, row->values[k]);
            }
        }
        if (sought->has_like) {
            put_number(answer, "air_semitones_above_liked", MENSUR_SEMITONES, row->air_apart);
        }
        put_own(answer, presenter->heading->owners, row->cells);
        put(answer, "assumed", json_array());
        put(answer, "warnings", json_array());
        write_part(presenter, answer, i);
        presenter->answers += i + 1 < ranking->count;
    }
}

static void json_map(struct mensur_presenter *presenter, const struct mensur_map *map) {
    for (size_t i = 0; i < map->point_count; i++) {
        const struct mensur_map_point *point = &map->points[i];
        struct object answer = begin(&presenter->out);
        put_text(answer, "instrument", point->name);
        put_figures(answer, MENSUR_SCOPE_INSTRUMENT, &point->lengths, false);
        put(answer, "meets_all", known(point->meets_all));
        put(answer, "asked", json_boolean(point->asked));
        put(answer, "changed", json_boolean(point->changed));
        gather(answer, NULL, &map->assumed, &map->warnings);
        write_part(presenter, answer, i);
        presenter->answers += i + 1 < map->point_count;
    }
}

static void json_check(struct mensur_presenter *presenter, const char *file, const char *row_name,
                       long rows, const struct mensur_texts *warnings) {
    struct object answer = begin(&presenter->out);
    (void)row_name;
    put_text(answer, "file", file);
    put(answer, "rows", json_integer(rows));
    put(answer, "assumed", json_array());
    put(answer, "warnings", mensur_json_texts(answer.out, warnings));
    write_answer(presenter, answer);
}

/* The row's numbers are in the units of families.csv. */
static void json_learned(struct mensur_presenter *presenter, const struct mensur_learned *learned) {
    for (size_t i = 0; i < learned->count; i++) {
        const struct mensur_learned_family *family = &learned->families[i];
        struct object answer = begin(&presenter->out), row = begin(&presenter->out);
        put_text(answer, "family", family->name);
        put(answer, "instruments", json_integer((json_int_t)family->instruments));
        put(answer, "learnt", json_boolean(family->learnt));
        for (size_t j = 0; j < family->cell_count; j++) {
            const struct mensur_table_cell *cell = &family->cells[j];
            put(row, cell->head,
                cell->text != NULL ? mensur_json_text(cell->text)
                                   : mensur_json_number(cell->kind, cell->number));
        }
        put(answer, "row", row.json);
        put(answer, "assumed", json_array());
        put(answer, "warnings", mensur_json_texts(answer.out, &family->warnings));
        write_part(presenter, answer, i);
        presenter->answers += i + 1 < learned->count;
    }
}

static void json_open(struct mensur_presenter *presenter) {
    const struct mensur_heading *heading = presenter->heading;
    struct object head = begin(&presenter->out);
    put_text(head, "mensur", MENSUR_VERSION);
    put_text(head, "command", heading->command);
    put_text(head, "shop", heading->shop);
    put_number(head, "a4_Hz", MENSUR_FREQUENCY, heading->a4);
    put_text(head, "fifths", heading->fifths);
    put_text(head, "steps", heading->steps);
    mensur_out_text(head.out, "{");
    mensur_json_write(head.out, head.json);
    mensur_out_text(head.out, ", \"answers\": [");
}

static void put_list(struct object to, const char *key, const char *const *texts) {
    json_t *array = json_array();
    for (; texts != NULL && *texts != NULL; texts++) {
        mensur_json_add(to.out, array, mensur_json_text(*texts));
    }
    put(to, key, array);
}

static void json_close(struct mensur_presenter *presenter) {
    struct object tail = begin(&presenter->out);
    put_facts(tail, "cautions", &presenter->cautions);
    put_list(tail, "sources", presenter->heading->sources);
    mensur_out_text(tail.out, presenter->answers > 0 ? "\n], " : "], ");
    mensur_json_write(tail.out, tail.json);
    mensur_out_text(tail.out, "}");
    mensur_out_line(tail.out);
}

const struct mensur_writer mensur_json_writer = {
    json_open,     json_lengths,     json_tension,  json_fingers, json_comparison,
    json_decision, json_restringing, json_reaching, json_ranking, json_map,
    json_scaled,   json_check,       json_learned,  json_close,   NULL,
};
