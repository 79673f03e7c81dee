/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why this place, what stands in the way, what moves with it, and how sure it is. */
#include <math.h>
#include <string.h>

#include "decision.h"

/* Nearer than this to the middle of a range a length is called the middle. */
static const double in_the_middle_m = 0.00025;

/* Less than this nobody measures. */
static const double least_move_m = 0.0001;

/* A direction: above nothing where the stop is decided on. */
static double for_stop(const struct mensur_decision *decision) {
    return decision->for_stop ? 1.0 : -1.0;
}

static void reason_made_for(const struct mensur_decision *decision, struct mensur_facts *reason) {
    const struct mensur_profile *chosen = &decision->recommended;
    double middle = (chosen->made_for_low + chosen->made_for_high) / 2.0;
    double off = fabs(chosen->lengths.string_length - middle);
    mensur_facts_add(reason, MENSUR_FACT_PLACE_MADE_FOR, NULL,
                     MENSUR_NUMBERS(decision->recommended_place, chosen->lengths.string_length,
                                    chosen->made_for_low, chosen->made_for_high,
                                    off < in_the_middle_m ? 1.0 : -1.0, for_stop(decision)));
}

static void reason_length(const struct wish_list *list, const struct mensur_decision *decision,
                          struct mensur_facts *reason) {
    const struct mensur_want *want = wish_list_length(list);
    enum mensur_fact_kind kind = MENSUR_FACT_PLACE_BY_PRESENT;
    if (want != NULL && !isnan(want->low) && !isnan(want->high)) {
        kind = strcmp(want->origin, "like") == 0 ? MENSUR_FACT_PLACE_BY_LIKE
                                                 : MENSUR_FACT_PLACE_BY_LENGTH;
    }
    mensur_facts_add(reason, kind, NULL,
                     MENSUR_NUMBERS(decision->recommended_place,
                                    decision->recommended.lengths.string_length,
                                    for_stop(decision)));
}

static void reason_conflict(const struct mensur_decision *decision, struct mensur_facts *reason) {
    const struct mensur_want *first = &decision->wants[decision->conflict.first];
    const struct mensur_want *second = &decision->wants[decision->conflict.second];
    mensur_facts_add(reason, MENSUR_FACT_WISHES_CONFLICT, MENSUR_NAMES(first->what, second->what),
                     MENSUR_NUMBERS(first->place_high, second->place_low, decision->conflict.gap,
                                    for_stop(decision)));
}

static void reason_unreachable(const struct search *search, const struct mensur_decision *decision,
                               struct mensur_facts *reason) {
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (!want->within_reach) {
            bool made_for = strcmp(want->origin, "made-for range of its strings") == 0;
            mensur_facts_add(reason, MENSUR_FACT_WISH_UNREACHABLE, MENSUR_NAMES(want->what),
                             MENSUR_NUMBERS(search->low, search->high, made_for ? 1.0 : -1.0,
                                            for_stop(decision)));
            return;
        }
    }
    mensur_facts_add(reason, MENSUR_FACT_WISHES_EXCLUDE, NULL, NULL);
}

static void find_reason(const struct search *search, const struct wish_list *list,
                        struct mensur_decision *decision) {
    const struct mensur_profile *chosen = &decision->recommended;
    if (decision->conflict.exists) {
        reason_conflict(decision, &decision->reason);
    } else if (!decision->has_recommended) {
        reason_unreachable(search, decision, &decision->reason);
    } else if (isnan(chosen->made_for_low) || isnan(chosen->made_for_high)) {
        reason_length(list, decision, &decision->reason);
    } else {
        reason_made_for(decision, &decision->reason);
    }
}

static void add_move(double move, enum mensur_fact_kind kind, struct mensur_facts *moves) {
    if (fabs(move) >= least_move_m) {
        mensur_facts_add(moves, kind, NULL, MENSUR_NUMBERS(move));
    }
}

static void find_moves(const struct search *search, struct mensur_decision *decision) {
    const struct mensur_profile *now = &decision->present;
    const struct mensur_profile *then = &decision->recommended;
    struct mensur_facts *moves = &decision->costs;
    if (!decision->has_recommended || fabs(decision->recommended_place - search->present) < 1e-9) {
        return;
    }
    add_move(then->lengths.left_reach - now->lengths.left_reach, MENSUR_FACT_LEFT_MOVES, moves);
    add_move(then->lengths.bow_reach - now->lengths.bow_reach, MENSUR_FACT_BOW_MOVES, moves);
    mensur_facts_add(moves, MENSUR_FACT_FINGERS_MOVE, NULL,
                     MENSUR_NUMBERS(then->lengths.string_length / now->lengths.string_length));
    mensur_facts_add(
        moves, MENSUR_FACT_NOTE_MOVES, NULL,
        MENSUR_NUMBERS(then->lengths.body_at_semitones, now->lengths.body_at_semitones));
    if (!isnan(then->total_tension / now->total_tension)) {
        mensur_facts_add(moves, MENSUR_FACT_TENSION_MOVES, NULL,
                         MENSUR_NUMBERS(then->total_tension / now->total_tension,
                                        then->total_force_on_belly / now->total_force_on_belly));
    }
}

/* How sure the ends are; where the measurements are too coarse, what to measure better. */
static void find_sureness(const struct search *search, const struct wish_list *list,
                          struct mensur_decision *decision) {
    struct ends ends = wish_list_ends(search, list);
    mensur_facts_add(&decision->how_sure, MENSUR_FACT_ENDS, NULL,
                     MENSUR_NUMBERS(ends.low, decision->place_low_plus_minus, ends.high,
                                    decision->place_high_plus_minus));
    if (decision->too_coarse == MENSUR_NO) {
        mensur_facts_add(&decision->how_sure, MENSUR_FACT_FINE_ENOUGH, NULL, NULL);
    } else {
        /* Then one of the ends depends on something, and the first of those is named. */
        mensur_facts_add(&decision->how_sure,
                         decision->can_meet_all ? MENSUR_FACT_COARSE_ROOM
                                                : MENSUR_FACT_COARSE_CONFLICT,
                         MENSUR_NAMES(decision->matters[0].field), NULL);
    }
}

enum mensur_status decision_facts(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision) {
    find_reason(search, list, decision);
    find_moves(search, decision);
    if (decision->too_coarse != MENSUR_UNSURE) {
        find_sureness(search, list, decision);
    }
    enum mensur_status status =
        decision->reason.status == MENSUR_OK ? decision->costs.status : decision->reason.status;
    return status == MENSUR_OK ? decision->how_sure.status : status;
}
