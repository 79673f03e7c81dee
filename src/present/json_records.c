/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The answers that hold more than one instrument's figures: comparison, decision, restringing. */
#include <math.h>
#include <stdio.h>

#include "json.h"

/* The keys of lengths, flat, and behind them strings and positions. */
static json_t *compared(struct mensur_out *out, const struct mensur_profile *profile,
                        bool difference) {
    json_t *object = json_object();
    mensur_json_put(out, object, "instrument", mensur_json_text(profile->instrument));
    mensur_json_figures(out, object, MENSUR_SCOPE_INSTRUMENT, &profile->lengths, difference);
    mensur_json_put(out, object, "strings",
                    mensur_json_records(out, MENSUR_SCOPE_STRING, profile->strings,
                                        profile->string_count, sizeof(profile->strings[0]),
                                        difference));
    mensur_json_figures(out, object, MENSUR_SCOPE_TOTAL, profile, difference);
    mensur_json_put(out, object, "positions",
                    mensur_json_records(out, MENSUR_SCOPE_POSITION, profile->positions,
                                        profile->position_count, sizeof(profile->positions[0]),
                                        difference));
    if (!difference) {
        mensur_json_spread(out, object, profile);
    }
    return object;
}

json_t *mensur_json_comparison(struct mensur_out *out, const struct mensur_comparison *comparison) {
    json_t *answer = json_object(), *instruments = json_array(), *differences = json_array();
    for (size_t i = 0; i < comparison->count; i++) {
        mensur_json_add(out, instruments, compared(out, &comparison->instruments[i], false));
    }
    for (size_t i = 0; i + 1 < comparison->count; i++) {
        mensur_json_add(out, differences, compared(out, &comparison->differences[i], true));
    }
    mensur_json_put(out, answer, "instruments", instruments);
    mensur_json_put(out, answer, "differences", differences);
    mensur_json_put(out, answer, "remarks", mensur_json_facts(out, NULL, &comparison->remarks));
    return answer;
}

/* A key that names the place decided on, such as "neck_low_mm" or "stop_low_mm". */
struct place_key {
    char text[40];
};

static struct place_key key_of(const struct mensur_decision *decision, const char *before,
                               const char *behind) {
    struct place_key key;
    snprintf(key.text, sizeof(key.text), "%s%s%s", before, decision->for_stop ? "stop" : "neck",
             behind);
    return key;
}

static void put_place(struct mensur_out *out, json_t *object,
                      const struct mensur_decision *decision, const char *before,
                      const char *behind, double place) {
    mensur_json_put(out, object, key_of(decision, before, behind).text,
                    mensur_json_number(MENSUR_LENGTH, place));
}

static json_t *wants(struct mensur_out *out, const struct mensur_decision *decision) {
    json_t *array = json_array();
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        json_t *object = json_object();
        mensur_json_put(out, object, "what", mensur_json_text(want->what));
        mensur_json_put(out, object, "low", mensur_json_number(want->kind, want->low));
        mensur_json_put(out, object, "high", mensur_json_number(want->kind, want->high));
        mensur_json_put(out, object, "unit", mensur_json_text(want->unit));
        put_place(out, object, decision, "", "_low_mm", want->place_low);
        put_place(out, object, decision, "", "_high_mm", want->place_high);
        mensur_json_put(out, object, "within_reach", json_boolean(want->within_reach));
        mensur_json_put(out, object, "origin", mensur_json_text(want->origin));
        mensur_json_add(out, array, object);
    }
    return array;
}

static json_t *conflict(struct mensur_out *out, const struct mensur_decision *decision) {
    const struct mensur_conflict *pair = &decision->conflict;
    if (!pair->exists) {
        return json_null();
    }
    const struct mensur_want *first = &decision->wants[pair->first];
    const struct mensur_want *second = &decision->wants[pair->second];
    json_t *object = json_object();
    mensur_json_put(out, object, "first", mensur_json_text(first->what));
    mensur_json_put(out, object, "second", mensur_json_text(second->what));
    put_place(out, object, decision, "gap_", "_mm", pair->gap);
    mensur_json_put(out, object, "give_first", mensur_json_number(first->kind, pair->give_first));
    mensur_json_put(out, object, "give_second",
                    mensur_json_number(second->kind, pair->give_second));
    return object;
}

static json_t *tensions(struct mensur_out *out, const struct mensur_step *step, size_t count) {
    json_t *array = json_array();
    for (size_t i = 0; i < count; i++) {
        mensur_json_add(out, array, mensur_json_number(MENSUR_FORCE, step->tension[i]));
    }
    return array;
}

static json_t *steps(struct mensur_out *out, const struct mensur_decision *decision) {
    json_t *array = json_array();
    for (size_t i = 0; i < decision->step_count; i++) {
        const struct mensur_step *step = &decision->steps[i];
        json_t *object = json_object();
        put_place(out, object, decision, "", "_mm", step->place);
        mensur_json_figures(out, object, MENSUR_SCOPE_STEP, step, false);
        mensur_json_put(out, object, "tension_N",
                        tensions(out, step, decision->present.string_count));
        mensur_json_figures(out, object, MENSUR_SCOPE_STEP_TOTAL, step, false);
        mensur_json_put(out, object, "present", json_boolean(step->present));
        mensur_json_put(out, object, "recommended", json_boolean(step->recommended));
        mensur_json_add(out, array, object);
    }
    return array;
}

json_t *mensur_json_decision(struct mensur_out *out, const struct mensur_decision *decision) {
    json_t *answer = json_object();
    mensur_json_put(out, answer, "instrument", mensur_json_text(decision->present.instrument));
    mensur_json_put(out, answer, "wants", wants(out, decision));
    mensur_json_put(out, answer, "can_meet_all", json_boolean(decision->can_meet_all));
    put_place(out, answer, decision, "", "_low_mm", decision->place_low);
    put_place(out, answer, decision, "", "_high_mm", decision->place_high);
    put_place(out, answer, decision, "recommended_", "_mm", decision->recommended_place);
    mensur_json_put(out, answer, "reason", mensur_json_sentence(out, NULL, &decision->reason));
    mensur_json_put(out, answer, "conflict", conflict(out, decision));
    put_place(out, answer, decision, "", "_low_plus_minus_mm", decision->place_low_plus_minus);
    put_place(out, answer, decision, "", "_high_plus_minus_mm", decision->place_high_plus_minus);
    mensur_json_put(out, answer, "too_coarse", mensur_json_known(decision->too_coarse));
    mensur_json_put(out, answer, "matters_most",
                    decision->how_sure.count == 0
                        ? json_null()
                        : mensur_json_matters(out, decision->matters, decision->matter_count));
    mensur_json_put(out, answer, "steps", steps(out, decision));
    mensur_json_put(out, answer, "strings_instead",
                    mensur_json_records(out, MENSUR_SCOPE_INSTEAD, decision->instead,
                                        decision->instead_count, sizeof(decision->instead[0]),
                                        false));
    mensur_json_put(out, answer, "costs", mensur_json_facts(out, NULL, &decision->costs));
    return answer;
}

/* The strings of a choice as in tension, each with the reason for it. */
static json_t *chosen(struct mensur_out *out, const struct mensur_restringing *restringing,
                      size_t number) {
    json_t *array = json_array();
    for (size_t i = 0; number < restringing->choice_count && i < restringing->string_count; i++) {
        const struct mensur_choice *choice = &restringing->choices[number];
        json_t *object = json_object();
        mensur_json_figures(out, object, MENSUR_SCOPE_STRING, &choice->strings[i], false);
        mensur_json_put(out, object, "why", mensur_json_sentence(out, NULL, &choice->why[i]));
        mensur_json_add(out, array, object);
    }
    return array;
}

static void put_totals(struct mensur_out *out, json_t *object,
                       const struct mensur_restringing *restringing, size_t number) {
    struct mensur_choice none;
    const struct mensur_choice *choice = &none;
    if (number < restringing->choice_count) {
        choice = &restringing->choices[number];
    } else {
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE, &none);
        mensur_figures_unknown(MENSUR_SCOPE_CHOICE_TOTAL, &none);
    }
    mensur_json_figures(out, object, MENSUR_SCOPE_CHOICE, choice, false);
    mensur_json_figures(out, object, MENSUR_SCOPE_CHOICE_TOTAL, choice, false);
}

json_t *mensur_json_restringing(struct mensur_out *out,
                                const struct mensur_restringing *restringing) {
    json_t *answer = json_object(), *others = json_array();
    mensur_json_put(out, answer, "instrument", mensur_json_text(restringing->present.instrument));
    mensur_json_put(out, answer, "chosen", chosen(out, restringing, 0));
    put_totals(out, answer, restringing, 0);
    for (size_t i = 1; i < restringing->choice_count; i++) {
        json_t *object = json_object();
        mensur_json_put(out, object, "chosen", chosen(out, restringing, i));
        put_totals(out, object, restringing, i);
        mensur_json_add(out, others, object);
    }
    mensur_json_put(out, answer, "runners_up", others);
    mensur_json_put(out, answer, "reason", mensur_json_sentence(out, NULL, &restringing->reason));
    mensur_json_put(out, answer, "excluded", mensur_json_facts(out, NULL, &restringing->excluded));
    return answer;
}
