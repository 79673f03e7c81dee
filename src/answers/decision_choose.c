/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the wishes have in common, where they conflict, and the place to recommend. */
#include <math.h>

#include "decision.h"

/* A maker marks a neck to half a millimetre. */
static const double steps_per_m = 2000.0;

static void find_common(const struct search *search, const struct wish_list *list,
                        struct mensur_decision *decision) {
    struct ends ends = wish_list_ends(search, list);
    bool reachable = true;
    for (size_t i = 0; i < list->count; i++) {
        reachable = reachable && list->lines[i].want.within_reach;
    }
    decision->can_meet_all = reachable && ends.low <= ends.high;
    decision->place_low = decision->can_meet_all ? ends.low : NAN;
    decision->place_high = decision->can_meet_all ? ends.high : NAN;
}

/* How much a wish would have to give, in its own unit, if its end moved from `own` to `other`. */
static double give(const struct search *search, const struct wish_line *line, double own,
                   double other) {
    return fabs(search_figure(search, line->kind, line->string, other) -
                search_figure(search, line->kind, line->string, own));
}

/* Intervals on a line that have nothing in common hold a pair that has nothing in common: the one
 * that ends first and the one that begins last, which also lie farthest apart. */
static void find_conflict(const struct search *search, const struct wish_list *list,
                          struct mensur_conflict *conflict) {
    double least_high = INFINITY;
    double most_low = -INFINITY;
    for (size_t i = 0; i < list->count; i++) {
        const struct mensur_want *want = &list->lines[i].want;
        if (want->within_reach && want->place_high < least_high) {
            least_high = want->place_high;
            conflict->first = i;
        }
        if (want->within_reach && want->place_low > most_low) {
            most_low = want->place_low;
            conflict->second = i;
        }
    }
    conflict->exists = most_low > least_high && isfinite(most_low) && isfinite(least_high);
    if (conflict->exists) {
        conflict->gap = most_low - least_high;
        conflict->give_first = give(search, &list->lines[conflict->first], least_high, most_low);
        conflict->give_second = give(search, &list->lines[conflict->second], most_low, least_high);
    }
}

/* The middle of a range; NaN where a side is open. */
static double middle(double low, double high) {
    return (low + high) / 2.0;
}

/* The string length that the wishes point at: the middle of a length wish, or its one end. */
static double wished_length(const struct wish_list *list) {
    for (size_t i = 0; i < list->count; i++) {
        const struct mensur_want *want = &list->lines[i].want;
        if (list->lines[i].kind == MENSUR_WISH_STRING_LENGTH) {
            double between = middle(want->low, want->high);
            return isnan(between) ? fmax(want->low, want->high) : between;
        }
    }
    return NAN;
}

/* The length to come nearest to: the middle of the made-for range, else of the length wish. */
static double best_length(const struct wish_list *list, const struct mensur_profile *present) {
    double best = middle(present->made_for_low, present->made_for_high);
    for (size_t i = 0; i < list->count && isnan(best); i++) {
        if (list->lines[i].kind == MENSUR_WISH_STRING_LENGTH) {
            best = middle(list->lines[i].want.low, list->lines[i].want.high);
        }
    }
    return best;
}

static double clamp(double value, double low, double high) {
    return fmin(fmax(value, low), high);
}

/* The place in the interval whose string is nearest to a length. The string grows with the place.
 */
static double place_for_length(const struct search *search, double length, double low,
                               double high) {
    double place = NAN;
    if (search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, low) >= length) {
        return low;
    }
    if (search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, high) <= length) {
        return high;
    }
    return search_place(search, MENSUR_WISH_STRING_LENGTH, 0, length, &place) == MENSUR_OK
               ? clamp(place, low, high)
               : NAN;
}

/* To half a millimetre, the nearest inside the interval; as it is where none lies inside. */
static double round_inside(double place, double low, double high) {
    double below = floor(place * steps_per_m) / steps_per_m;
    double above = ceil(place * steps_per_m) / steps_per_m;
    bool below_fits = below >= low && below <= high;
    bool above_fits = above >= low && above <= high;
    if (below_fits && (!above_fits || place - below <= above - place)) {
        return below;
    }
    return above_fits ? above : place;
}

static double recommend(const struct search *search, const struct wish_list *list,
                        const struct mensur_decision *decision) {
    double low = decision->place_low;
    double high = decision->place_high;
    double length = best_length(list, &decision->present);
    double place = isnan(length) ? clamp(search->present, low, high)
                                 : place_for_length(search, length, low, high);
    return round_inside(place, low, high);
}

void decision_choose(const struct search *search, const struct wish_list *list,
                     struct mensur_decision *decision) {
    find_common(search, list, decision);
    decision->conflict = (struct mensur_conflict){.exists = false, .gap = NAN};
    if (!decision->can_meet_all) {
        find_conflict(search, list, &decision->conflict);
    }
    decision->recommended_place = decision->can_meet_all ? recommend(search, list, decision) : NAN;
    decision->has_recommended = !isnan(decision->recommended_place);
    decision->wished_length = wished_length(list);
    if (isnan(decision->wished_length)) {
        decision->wished_length =
            decision->has_recommended
                ? search_figure(search, MENSUR_WISH_STRING_LENGTH, 0, decision->recommended_place)
                : middle(decision->present.made_for_low, decision->present.made_for_high);
    }
}
