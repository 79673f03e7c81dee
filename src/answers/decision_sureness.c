/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the measurements can decide. The places that all wishes have in common begin at one end
 * and finish at another (in a conflict the finish comes first); each end is computed anew with
 * every measurement moved, those of the liked instrument too (JCGM 100:2008, 5.1.2). */
#include <math.h>
#include <string.h>

#include "decision.h"
#include "spread.h"

/* About 95 in a hundred lie within so many standard uncertainties (JCGM 100:2008, 6.3.3, from
 * memory). */
static const double coverage = 2.0;

struct ends {
    double low, high; /* m; the search's ends where no wish binds */
};

static struct ends find_ends(const struct search *search, const struct wish_list *list) {
    struct ends ends = {search->low, search->high};
    for (size_t i = 0; i < list->count; i++) {
        ends.low = fmax(ends.low, list->lines[i].want.place_low);
        ends.high = fmin(ends.high, list->lines[i].want.place_high);
    }
    return ends;
}

/* The question asked again with other measurements. */
struct asked_again {
    const struct search *search;
    struct mensur_instrument instrument; /* texts borrowed */
    struct mensur_instrument like;       /* texts borrowed */
    struct mensur_wishes wishes;
    struct measured measured[MENSUR_MEASUREMENTS_MAX];
    size_t count;
    bool high;                 /* which end */
    enum mensur_status failed; /* what kept an end from being found: memory */
};

static enum mensur_status weigh_again(struct asked_again *again, const struct search *search,
                                      struct wish_list *list, struct mensur_decision *decision) {
    enum mensur_status status = decision_weigh(search, &again->wishes, NULL, list, decision);
    again->failed = status == MENSUR_MEMORY ? status : again->failed;
    return status;
}

static double end_at(const double *x, void *context) {
    struct asked_again *again = context;
    const struct search *first = again->search;
    struct mensur_decision decision = {.for_stop = first->for_stop};
    struct wish_list list;
    struct setup setup;
    struct search search;
    double end = NAN;
    measured_put(again->measured, again->count, x);
    if (setup_make(first->stock, &again->instrument, NULL, first->terms->hold, NULL, &setup) ==
            MENSUR_OK &&
        search_make(first->stock, &setup, first->terms, first->for_stop, NULL, &search) ==
            MENSUR_OK &&
        weigh_again(again, &search, &list, &decision) == MENSUR_OK) {
        struct ends ends = find_ends(&search, &list);
        end = again->high ? ends.high : ends.low;
    }
    mensur_decision_clear(&decision);
    return end;
}

static void again_make(const struct search *search, const struct mensur_wishes *wishes,
                       struct asked_again *again) {
    *again = (struct asked_again){.search = search, .wishes = *wishes};
    again->instrument = *search->setup->instrument;
    varied_add_fields(&again->instrument, NULL, again->measured, &again->count);
    if (wishes->like != NULL) {
        again->like = *wishes->like;
        again->wishes.like = &again->like;
        varied_add_fields(&again->like, again->like.name, again->measured, &again->count);
    }
}

/* The wishes leave less room than the measurements leave open; or lie less far apart. */
static bool is_too_coarse(const struct mensur_decision *decision, struct ends ends) {
    double open = coverage * (decision->place_low_plus_minus + decision->place_high_plus_minus);
    return fabs(ends.high - ends.low) < open;
}

static void weigh_ends(struct asked_again *again, struct mensur_decision *decision) {
    double x[MENSUR_MEASUREMENTS_MAX];
    double u[MENSUR_MEASUREMENTS_MAX];
    double low[MENSUR_MEASUREMENTS_MAX] = {0};
    double high[MENSUR_MEASUREMENTS_MAX] = {0};
    measured_values(again->measured, again->count, x, u);
    /* An argument out of range leaves the end's spread unknown. */
    (void)mensur_propagate(end_at, again, x, u, again->count, low, &decision->place_low_plus_minus);
    again->high = true;
    (void)mensur_propagate(end_at, again, x, u, again->count, high,
                           &decision->place_high_plus_minus);
    bool high_counts = decision->place_high_plus_minus > decision->place_low_plus_minus;
    decision->matter_count =
        matters_most(again->measured, u, high_counts ? high : low, again->count, decision->matters);
}

static void add_facts(struct ends ends, struct mensur_decision *decision) {
    struct mensur_facts *facts = &decision->how_sure;
    mensur_facts_add(facts, MENSUR_FACT_ENDS, NULL,
                     MENSUR_NUMBERS(ends.low, decision->place_low_plus_minus, ends.high,
                                    decision->place_high_plus_minus));
    if (decision->too_coarse != MENSUR_YES) {
        mensur_facts_add(facts, MENSUR_FACT_FINE_ENOUGH, NULL, NULL);
        return;
    }
    /* Then one of the ends hangs on something, and the first of those is named. */
    mensur_facts_add(facts,
                     decision->can_meet_all ? MENSUR_FACT_COARSE_ROOM : MENSUR_FACT_COARSE_CONFLICT,
                     MENSUR_NAMES(decision->matters[0].field), NULL);
}

enum mensur_status decision_sureness(const struct search *search,
                                     const struct mensur_wishes *wishes,
                                     const struct wish_list *list,
                                     struct mensur_decision *decision) {
    struct asked_again again;
    struct ends ends = find_ends(search, list);
    again_make(search, wishes, &again);
    decision->place_low_plus_minus = NAN;
    decision->place_high_plus_minus = NAN;
    decision->too_coarse = MENSUR_UNSURE;
    if (again.count == 0 || (!decision->can_meet_all && !decision->conflict.exists)) {
        return MENSUR_OK;
    }
    weigh_ends(&again, decision);
    if (again.failed != MENSUR_OK) {
        return again.failed;
    }
    if (isnan(decision->place_low_plus_minus) || isnan(decision->place_high_plus_minus)) {
        return MENSUR_OK;
    }
    decision->too_coarse = is_too_coarse(decision, ends) ? MENSUR_YES : MENSUR_NO;
    add_facts(ends, decision);
    return decision->how_sure.status;
}
