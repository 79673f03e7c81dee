/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision on the neck or the stop, in words and tables, as the program's text tells it. */
#include <math.h>
#include <string.h>

#include "view.h"

struct decided {
    struct mensur_out *out;
    const struct mensur_style *style;
    const struct mensur_decision *decision;
};

static const char *place_word(const struct mensur_decision *decision) {
    return decision->for_stop ? "stop" : "neck";
}

static json_t *shown_length(const struct decided *decided, double value) {
    return isnan(value) ? json_null()
                        : view_shown(mensur_show_unit(decided->style, MENSUR_LENGTH, value));
}

static struct mensur_shown wish_range(const struct mensur_style *style,
                                      const struct mensur_want *want) {
    return strcmp(want->what, "ratio") == 0
               ? mensur_show_ratio_range(want->low, want->high)
               : mensur_show_range(style, want->kind, want->low, want->high);
}

static json_t *wants(const struct decided *decided) {
    json_t *array = json_array();
    for (size_t i = 0; i < decided->decision->want_count; i++) {
        const struct mensur_want *want = &decided->decision->wants[i];
        json_t *row = json_object();
        mensur_json_put(decided->out, row, "what", mensur_json_text(want->what));
        mensur_json_put(decided->out, row, "wanted", view_shown(wish_range(decided->style, want)));
        mensur_json_put(decided->out, row, "from", shown_length(decided, want->place_low));
        mensur_json_put(decided->out, row, "to", shown_length(decided, want->place_high));
        mensur_json_put(decided->out, row, "within_reach", json_boolean(want->within_reach));
        mensur_json_put(decided->out, row, "origin", mensur_json_text(want->origin));
        mensur_json_add(decided->out, array, row);
    }
    return array;
}

static void add_shown(const struct decided *decided, json_t *cells, struct mensur_shown shown) {
    mensur_json_add(decided->out, cells, view_shown(shown));
}

/* In the order of the heads that the page gives them: place, string, ratio, note, reach, room, and
 * the pull of each string. */
static json_t *step_cells(const struct decided *decided, const struct mensur_step *step) {
    const struct mensur_style *style = decided->style;
    json_t *cells = json_array();
    add_shown(decided, cells, mensur_show_within(style, MENSUR_LENGTH, step->place, 6));
    add_shown(decided, cells, mensur_show(style, MENSUR_LENGTH, step->string_length));
    add_shown(decided, cells, mensur_show_number(step->stop_per_2_neck, 2, 5));
    add_shown(decided, cells,
              mensur_show_within(style, MENSUR_SEMITONES, step->body_at_semitones, 5));
    add_shown(decided, cells, mensur_show(style, MENSUR_LENGTH, step->left_reach));
    add_shown(decided, cells, mensur_show_within(style, MENSUR_LENGTH, step->bow_room, 5));
    for (size_t i = 0; i < decided->decision->present.string_count; i++) {
        add_shown(decided, cells, mensur_show_within(style, MENSUR_FORCE, step->tension[i], 6));
    }
    return cells;
}

static json_t *steps(const struct decided *decided) {
    json_t *array = json_array();
    for (size_t i = 0; i < decided->decision->step_count; i++) {
        const struct mensur_step *step = &decided->decision->steps[i];
        json_t *row = json_object();
        mensur_json_put(decided->out, row, "cells", step_cells(decided, step));
        mensur_json_put(decided->out, row, "present", json_boolean(step->present));
        mensur_json_put(decided->out, row, "recommended", json_boolean(step->recommended));
        mensur_json_add(decided->out, array, row);
    }
    return array;
}

static json_t *instead(const struct decided *decided) {
    json_t *array = json_array();
    for (size_t i = 0; i < decided->decision->instead_count; i++) {
        const struct mensur_instead *one = &decided->decision->instead[i];
        const double densities[] = {one->present_linear_density, one->needed_linear_density,
                                    one->nearest_linear_density};
        json_t *row = json_object(), *cells = json_array();
        for (size_t d = 0; d < 3; d++) {
            add_shown(decided, cells,
                      mensur_show(decided->style, MENSUR_LINEAR_DENSITY, densities[d]));
        }
        mensur_json_put(decided->out, row, "note", mensur_json_text(one->note));
        mensur_json_put(decided->out, row, "cells", cells);
        mensur_json_put(decided->out, row, "nearest", mensur_json_text(one->nearest_string));
        mensur_json_add(decided->out, array, row);
    }
    return array;
}

static json_t *notes(const struct decided *decided) {
    const struct mensur_profile *present = &decided->decision->present;
    json_t *array = json_array();
    for (size_t i = 0; i < present->string_count; i++) {
        mensur_json_add(decided->out, array, mensur_json_text(present->strings[i].note));
    }
    return array;
}

/* What each of two wishes would have to give, where they cannot both be met. */
static json_t *conflict(const struct decided *decided) {
    const struct mensur_decision *decision = decided->decision;
    const struct mensur_conflict *pair = &decision->conflict;
    json_t *array = json_array();
    for (size_t i = 0; pair->exists && i < 2; i++) {
        const struct mensur_want *want = &decision->wants[i == 0 ? pair->first : pair->second];
        double give = i == 0 ? pair->give_first : pair->give_second;
        json_t *side = json_object();
        mensur_json_put(decided->out, side, "what", mensur_json_text(want->what));
        mensur_json_put(decided->out, side, "wanted", view_shown(wish_range(decided->style, want)));
        mensur_json_put(decided->out, side, "give",
                        view_shown(want->kind == MENSUR_NUMBER
                                       ? mensur_show_number(give, 2, 7)
                                       : mensur_show_unit(decided->style, want->kind, give)));
        mensur_json_add(decided->out, array, side);
    }
    return array;
}

static void fill_place(const struct decided *decided, json_t *answer) {
    const struct mensur_decision *decision = decided->decision;
    const struct mensur_lengths *lengths = &decision->present.lengths;
    double now = decision->for_stop ? lengths->stop : lengths->neck;
    double then = decision->can_meet_all ? decision->recommended_place : (double)NAN;
    mensur_json_put(decided->out, answer, "place", mensur_json_text(place_word(decision)));
    mensur_json_put(decided->out, answer, "met", json_boolean(!isnan(then)));
    mensur_json_put(decided->out, answer, "now", shown_length(decided, now));
    mensur_json_put(decided->out, answer, "recommended", shown_length(decided, then));
    mensur_json_put(decided->out, answer, "recommended_mm",
                    mensur_json_number(MENSUR_LENGTH, then));
    mensur_json_put(decided->out, answer, "move",
                    isnan(then) ? json_null()
                                : view_shown(mensur_show_difference(decided->style, MENSUR_LENGTH,
                                                                    then - now)));
    mensur_json_put(decided->out, answer, "from", shown_length(decided, decision->place_low));
    mensur_json_put(decided->out, answer, "to", shown_length(decided, decision->place_high));
}

enum mensur_status view_decision(const struct mensur_sink *sink, const struct mensur_style *style,
                                 const struct mensur_decision *decision) {
    struct mensur_out out;
    struct decided decided = {&out, style, decision};
    mensur_out_open(&out, sink, false);
    json_t *answer = json_object();
    mensur_json_put(&out, answer, "instrument", mensur_json_text(decision->present.instrument));
    fill_place(&decided, answer);
    mensur_json_put(&out, answer, "reason", mensur_json_sentence(&out, style, &decision->reason));
    mensur_json_put(&out, answer, "conflict", conflict(&decided));
    mensur_json_put(&out, answer, "costs", mensur_json_facts(&out, style, &decision->costs));
    mensur_json_put(&out, answer, "wants", wants(&decided));
    mensur_json_put(&out, answer, "notes", notes(&decided));
    mensur_json_put(&out, answer, "steps", steps(&decided));
    mensur_json_put(&out, answer, "instead", instead(&decided));
    mensur_json_put(&out, answer, "instead_length",
                    shown_length(&decided, decision->wished_length));
    return view_write(&out, answer);
}
