/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why this place, what stands in the way, what moves with it, and how sure it is. */
#include <math.h>
#include <string.h>

#include "decision.h"
#include "named_place.h"

/* Nearer than this to the middle of a range a length is called the middle. */
static const double in_the_middle_m = 0.00025;

/* Less than this nobody measures. */
static const double least_move_m = 0.0001;

/* The words for how likely all wishes are met (ours). */
static const double very_likely = 0.95;
static const double likely = 0.80;

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

static bool has_middle(const struct wish_list *list) {
    return list->has_made_for && !isnan(list->made_for.want.low) &&
           !isnan(list->made_for.want.high);
}

/* Whether the recommended place gives a length that the strings are not made for. */
static bool is_outside(const struct wish_list *list, const struct mensur_decision *decision) {
    const struct mensur_want *range = &list->made_for.want;
    double length = decision->recommended.lengths.string_length;
    return list->has_made_for && (length > range->high || length < range->low);
}

/* Every wish is met where it stands: what else would meet them, and what lies nearer the middle. */
static void reason_left(const struct search *search, const struct wish_list *list,
                        const struct mensur_decision *decision, struct mensur_facts *reason) {
    bool low = decision->place_low > search->low;
    bool high = decision->place_high < search->high;
    mensur_facts_add(reason, MENSUR_FACT_LEFT_WITHIN, NULL,
                     MENSUR_NUMBERS(decision->place_low, decision->place_high,
                                    mensur_ends_known(low, high), list->count > 1 ? 1.0 : -1.0,
                                    for_stop(decision)));
    if (!isnan(decision->aside_place) && !is_outside(list, decision)) {
        mensur_facts_add(reason, MENSUR_FACT_LEFT_ASIDE, NULL,
                         MENSUR_NUMBERS(decision->aside_place, has_middle(list) ? 1.0 : -1.0));
    }
}

/* The lengths that the strings are made for, and the places that give them. */
static void tell_range(const struct mensur_want *range, const struct mensur_decision *decision,
                       struct mensur_facts *reason) {
    mensur_facts_add(
        reason, MENSUR_FACT_MADE_FOR_IS, NULL,
        MENSUR_NUMBERS(range->low, range->high, range->place_low, range->place_high,
                       mensur_ends_known(!isnan(range->place_low), !isnan(range->place_high)),
                       for_stop(decision)));
}

/* Nothing is wished: what was gone by, the usual place, and where the strings' own range lies. */
static void reason_unwished(const struct wish_list *list, const struct mensur_decision *decision,
                            struct mensur_facts *reason) {
    const struct mensur_profile *chosen = &decision->recommended;
    const struct mensur_want *range = &list->made_for.want;
    double length = chosen->lengths.string_length;
    bool ranged = list->has_made_for && range->within_reach;
    bool within = ranged && !is_outside(list, decision);
    enum mensur_fact_kind kind = within                         ? MENSUR_FACT_LEFT_MADE_FOR
                                 : isnan(decision->usual_place) ? MENSUR_FACT_LEFT_NOTHING
                                                                : MENSUR_FACT_LEFT_USUAL;
    if (!decision->leave) {
        kind = ranged ? MENSUR_FACT_PLACE_INSIDE : MENSUR_FACT_PLACE_USUAL;
    } else if (decision->present.lengths.built == MENSUR_YES && !within) {
        kind = MENSUR_FACT_LEFT_BUILT;
    }
    bool by_range = kind == MENSUR_FACT_PLACE_INSIDE || kind == MENSUR_FACT_LEFT_MADE_FOR;
    if (by_range) {
        tell_range(range, decision, reason);
        mensur_facts_add(reason, kind, NULL,
                         MENSUR_NUMBERS(decision->recommended_place, length, for_stop(decision)));
    } else {
        mensur_facts_add(
            reason, kind, NULL,
            MENSUR_NUMBERS(decision->recommended_place, isnan(chosen->total_tension) ? -1.0 : 1.0));
        if (list->has_made_for) {
            tell_range(range, decision, reason);
        }
    }
    if (!isnan(decision->usual_place)) {
        double neck = decision->for_stop ? decision->present.lengths.neck : decision->usual_place;
        double stop = decision->for_stop ? decision->usual_place : decision->present.lengths.stop;
        mensur_facts_add(
            reason, MENSUR_FACT_USUAL_IS, NULL,
            MENSUR_NUMBERS(decision->usual_place, 2.0 * stop / neck, for_stop(decision)));
    }
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
        if (!want->within_reach && want->unmoved) {
            mensur_facts_add(reason, MENSUR_FACT_WISH_UNMOVED, MENSUR_NAMES(want->what),
                             MENSUR_NUMBERS(decision->present.lengths.left_reach));
            return;
        }
        if (!want->within_reach) {
            mensur_facts_add(reason, MENSUR_FACT_WISH_UNREACHABLE, MENSUR_NAMES(want->what),
                             MENSUR_NUMBERS(search->low, search->high, for_stop(decision)));
            return;
        }
    }
    mensur_facts_add(reason, MENSUR_FACT_WISHES_EXCLUDE, NULL, NULL);
}

/* The made-for range, which nobody asked for, is told where the result lies outside it. */
static void tell_outside(const struct wish_list *list, const struct mensur_decision *decision,
                         struct mensur_facts *reason) {
    const struct mensur_want *range = &list->made_for.want;
    double length = decision->recommended.lengths.string_length;
    if (is_outside(list, decision)) {
        bool told = reason->count > 0 &&
                    reason->items[reason->count - 1].kind == MENSUR_FACT_PLACE_MADE_FOR;
        mensur_facts_add(reason, MENSUR_FACT_OUTSIDE_RANGE, NULL,
                         MENSUR_NUMBERS(length, range->low, range->high,
                                        length > range->high ? 1.0 : -1.0,
                                        mensur_ends_known(!isnan(range->low), !isnan(range->high)),
                                        told ? 1.0 : -1.0));
    }
}

static void find_reason(const struct search *search, const struct wish_list *list,
                        struct mensur_decision *decision) {
    struct mensur_facts *reason = &decision->reason;
    if (decision->conflict.exists) {
        reason_conflict(decision, reason);
    } else if (!decision->has_recommended) {
        reason_unreachable(search, decision, reason);
    } else if (list->count == 0) {
        reason_unwished(list, decision, reason);
    } else {
        if (decision->leave) {
            reason_left(search, list, decision, reason);
        } else if (has_middle(list)) {
            reason_made_for(decision, reason);
        } else {
            reason_length(list, decision, reason);
        }
        tell_outside(list, decision, reason);
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
    struct mensur_facts *moves = &decision->changes;
    double proposed = now->proposed_count > 0 ? 1.0 : -1.0;
    if (!decision->has_recommended || decision->leave ||
        fabs(decision->recommended_place - search->present) < 1e-9) {
        return;
    }
    mensur_facts_add(moves, MENSUR_FACT_FINGERS_MOVE, NULL,
                     MENSUR_NUMBERS(then->lengths.string_length / now->lengths.string_length));
    add_move(then->lengths.left_reach - now->lengths.left_reach, MENSUR_FACT_LEFT_MOVES, moves);
    add_move(then->lengths.bow_reach - now->lengths.bow_reach, MENSUR_FACT_BOW_MOVES, moves);
    if (fabs(then->lengths.bow_room - now->lengths.bow_room) >= least_move_m) {
        bool measured = search->setup->origin[MENSUR_FIELD_BOARD_LENGTH] == SETUP_GIVEN;
        mensur_facts_add(moves, MENSUR_FACT_BOW_ROOM_MOVES, NULL,
                         MENSUR_NUMBERS(then->lengths.bow_room, now->lengths.bow_room,
                                        measured ? 1.0 : -1.0, proposed));
    }
    mensur_facts_add(
        moves, MENSUR_FACT_NOTE_MOVES, NULL,
        MENSUR_NUMBERS(then->lengths.body_at_semitones, now->lengths.body_at_semitones, proposed));
    heel_moves(&now->lengths, &then->lengths, now->held != NULL && strcmp(now->held, "chin") != 0,
               moves);
    if (!isnan(then->total_tension / now->total_tension)) {
        mensur_facts_add(moves, MENSUR_FACT_TENSION_MOVES, NULL,
                         MENSUR_NUMBERS(then->total_tension / now->total_tension,
                                        then->total_force_on_belly / now->total_force_on_belly));
    }
}

static void tell_likelihood(const struct mensur_decision *decision, struct mensur_facts *sure) {
    double chance = decision->likelihood;
    double words = chance > very_likely ? 1.0 : chance > likely ? 2.0 : 3.0;
    bool better = words > 2.0 && decision->measure_better[0] != '\0';
    mensur_facts_add(
        sure, MENSUR_FACT_LIKELY, MENSUR_NAMES(better ? decision->measure_better : NULL),
        MENSUR_NUMBERS(fmin(fmax(100.0 * chance, 1.0), 99.0), words,
                       decision->want_count > 1 ? 2.0 : 1.0, decision->leave ? 1.0 : -1.0));
}

/* How likely it is, how sure the ends are; where the measurements are too coarse to tell whether
 * the wishes conflict, what to measure better. */
static void find_sureness(const struct search *search, const struct wish_list *list,
                          struct mensur_decision *decision) {
    struct ends ends = wish_list_ends(search, list);
    bool low = ends.low > search->low;
    bool high = ends.high < search->high;
    if (!isnan(decision->likelihood)) {
        tell_likelihood(decision, &decision->how_sure);
    }
    if (list->count > 0 && (low || high)) {
        mensur_facts_add(&decision->how_sure, MENSUR_FACT_ENDS, NULL,
                         MENSUR_NUMBERS(ends.low, decision->place_low_plus_minus, ends.high,
                                        decision->place_high_plus_minus,
                                        mensur_ends_known(low, high),
                                        decision->can_meet_all ? 1.0 : -1.0));
    }
    if (decision->conflict.exists && decision->too_coarse == MENSUR_NO) {
        mensur_facts_add(&decision->how_sure, MENSUR_FACT_FINE_ENOUGH, NULL, NULL);
    } else if (decision->conflict.exists) {
        /* Then one of the ends depends on something, and the first of those is named. */
        mensur_facts_add(&decision->how_sure, MENSUR_FACT_COARSE_CONFLICT,
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
        decision->reason.status == MENSUR_OK ? decision->changes.status : decision->reason.status;
    return status == MENSUR_OK ? decision->how_sure.status : status;
}
