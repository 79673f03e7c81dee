/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How sure a decision is: where its choice begins and ends, its profiles, and what its wishes are
 * about at the recommended place. The place hangs on how sure the ends are; so what each evaluation
 * set up is kept, and moved to the place once that is chosen. */
#include "spread_decision.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "likelihood.h"
#include "spread_record.h"

/* Further figures before a place is chosen: where what all wishes allow begins and ends, and where
 * the strings are as short and as long as they are made for. Then: one a wish. */
enum { LOW_END, HIGH_END, MADE_FOR_LOW, MADE_FOR_HIGH, ENDS };

/* What one evaluation set up. */
struct kept {
    bool made, liked_made, searched; /* whether each of these exists */
    struct setup setup, liked;
    struct search search; /* of the set-up */
};

struct decision_spread {
    const struct search *search;          /* as it was asked */
    const struct wish_list *list;         /* as it was asked */
    struct mensur_wishes moved;           /* its `like` is the record's */
    const struct mensur_profile *present; /* as it was asked */
    bool strings;                         /* the ends hang on the present one's strings */
    struct record *record;                /* owned */
    struct kept *kept;                    /* owned, one an evaluation */
    double place; /* the recommended one, m; NaN: the present one, as sure as it is */
};

static void put_ends(const struct search *search, const struct wish_list *list, double *more) {
    const struct ends ends = wish_list_ends(search, list);
    more[LOW_END] = ends.low;
    more[HIGH_END] = ends.high;
    more[MADE_FOR_LOW] = list->has_made_for ? list->made_for.want.place_low : NAN;
    more[MADE_FOR_HIGH] = list->has_made_for ? list->made_for.want.place_high : NAN;
}

/* Sets the instruments up, which are kept, and finds the ends. */
static void ends_again(struct record *record, const struct mensur_profile **profiles,
                       double *more) {
    struct decision_spread *spread = record->context;
    struct kept *kept = &spread->kept[record->evaluation];
    const struct mensur_wishes *wishes = &spread->moved;
    struct wish_list list;
    if (wishes->like != NULL) {
        profiles[LIKED] = record_set_up(record, wishes->like, NULL, LIKED, &kept->liked);
        kept->liked_made = profiles[LIKED] != NULL;
    }
    profiles[PRESENT] =
        record_set_up(record, &record->instruments[0].instrument, NULL, PRESENT, &kept->setup);
    const struct mensur_profile *present = spread->strings ? profiles[PRESENT] : spread->present;
    kept->made = profiles[PRESENT] != NULL;
    kept->searched =
        kept->made && search_make(&record->stock, &kept->setup, record->terms,
                                  spread->search->for_stop, NULL, &kept->search) == MENSUR_OK;
    if (!kept->searched || (wishes->like != NULL && !kept->liked_made) ||
        wish_list_make(&kept->search, wishes, present, profiles[LIKED], NULL, &list) != MENSUR_OK) {
        return;
    }
    wish_list_find(&kept->search, &list);
    put_ends(&kept->search, &list, more);
}

/* The maker keeping to the recommended place, the figures there. */
static void place_again(struct record *record, const struct mensur_profile **profiles,
                        double *more) {
    const struct decision_spread *spread = record->context;
    const struct kept *kept = &spread->kept[record->evaluation];
    struct setup moved;
    const struct setup *at = &kept->setup;
    if (kept->liked_made) {
        profiles[LIKED] = record_figures(record, &kept->liked, LIKED);
    }
    if (kept->made) {
        profiles[PRESENT] = record_figures(record, &kept->setup, PRESENT);
    }
    if (!kept->searched) {
        return;
    }
    if (!isnan(spread->place)) {
        at = search_setup(&kept->search, spread->place, &moved) == MENSUR_OK ? &moved : NULL;
    }
    if (record->profiles[OTHER] != NULL && at != NULL) {
        profiles[OTHER] = record_figures(record, at, OTHER);
    }
    bool liked = spread->moved.like == NULL || kept->liked_made;
    if (at == NULL || !liked) {
        return;
    }
    for (size_t i = 0; i < record->more_count; i++) {
        more[i] = wish_line_figure(&kept->search, at, &spread->list->lines[i], profiles[PRESENT],
                                   profiles[LIKED]);
    }
}

/* How sure the ends of a decision are, and what matters most to the less sure one. */
static enum mensur_status take_ends(const struct record *record,
                                    const struct propagated *propagated, void *context) {
    struct mensur_decision *decision = context;
    const double *u = propagated->u + propagated->listed;
    size_t less_sure = propagated->listed + (u[HIGH_END] > u[LOW_END] ? HIGH_END : LOW_END);
    decision->place_low_plus_minus = u[LOW_END];
    decision->place_high_plus_minus = u[HIGH_END];
    decision->made_for_low_plus_minus = u[MADE_FOR_LOW];
    decision->made_for_high_plus_minus = u[MADE_FOR_HIGH];
    decision->matter_count = record_matters(
        record, &propagated->shares[less_sure * propagated->measurements], true, decision->matters);
    return MENSUR_OK;
}

/* How likely all wishes are met at the recommended place, and what the least sure of them hangs on.
 */
struct wished {
    const struct wish_list *list;
    struct mensur_decision *decision;
};

static enum mensur_status likelihood_of(const struct record *record,
                                        const struct propagated *propagated, size_t first,
                                        size_t count, const struct wish_list *list, double *out) {
    const size_t n = propagated->measurements;
    double *work = calloc(count * (n + count + 5), sizeof *work);
    if (work == NULL) {
        return MENSUR_MEMORY;
    }
    double *low = work + count * (n + count + 3);
    double *high = low + count;
    const struct mensur_ranges ranges = {.x_count = n,
                                         .y_count = count,
                                         .parts =
                                             propagated->parts + (propagated->listed + first) * n,
                                         .y = record->more + first,
                                         .low = low,
                                         .high = high,
                                         .work = work};
    for (size_t i = 0; i < count; i++) {
        low[i] = list->lines[first + i].low;
        high[i] = list->lines[first + i].high;
    }
    (void)mensur_likelihood(&ranges, out); /* it stays unknown where a figure is */
    free(work);
    return MENSUR_OK;
}

static enum mensur_status take_likelihood(const struct record *record,
                                          const struct propagated *propagated, void *context) {
    const struct wished *wished = context;
    struct mensur_decision *decision = wished->decision;
    struct mensur_matter matters[MENSUR_MATTERS_MAX];
    double least = INFINITY;
    size_t least_sure = 0;
    if (record->more_count == 0) {
        return MENSUR_OK;
    }
    enum mensur_status status = likelihood_of(record, propagated, 0, record->more_count,
                                              wished->list, &decision->likelihood);
    for (size_t i = 0; i < record->more_count && status == MENSUR_OK; i++) {
        double one = NAN;
        status = likelihood_of(record, propagated, i, 1, wished->list, &one);
        if (one < least) {
            least = one;
            least_sure = i;
        }
    }
    double *shares =
        &propagated->shares[(propagated->listed + least_sure) * propagated->measurements];
    if (status == MENSUR_OK && record_matters(record, shares, true, matters) > 0) {
        snprintf(decision->measure_better, sizeof decision->measure_better, "%s", matters[0].field);
    }
    return status;
}

void decision_spread_free(struct decision_spread *spread) {
    if (spread != NULL) {
        record_free(spread->record);
        free(spread->kept);
        free(spread);
    }
}

/* The record of a decision, with its instruments and the strings that are on. Whether a measurement
 * of the instruments themselves says how sure it is. */
static enum mensur_status start(struct decision_spread *spread, const struct setup *liked,
                                bool *stated) {
    const struct search *search = spread->search;
    struct strung strung[] = {
        record_strung(search->stock, search->setup->instrument, NULL, OF(PRESENT) | OF(OTHER)),
        {.set = NULL}};
    struct record *record =
        record_make(search->stock, search->setup, search->terms,
                    MENSUR_PART_LENGTHS | (spread->strings ? MENSUR_PART_STRINGS : 0));
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    spread->record = record;
    record->context = spread;
    if (liked != NULL) {
        record_add_instrument(record, liked, liked->instrument->name, OF(LIKED));
        spread->moved.like = &record->instruments[1].instrument;
        strung[1] =
            record_strung(search->stock, liked->instrument, liked->instrument->name, OF(LIKED));
    }
    *stated = record->input_count > 0;
    enum mensur_status status = record_complete(record, strung, 2);
    if (status == MENSUR_OK) {
        spread->kept = calloc(2 * record->input_count + 1, sizeof *spread->kept);
        status = spread->kept == NULL ? MENSUR_MEMORY : MENSUR_OK;
    }
    return status;
}

/* Where the ends are, as they were asked. */
static void ends_of(const struct search *search, const struct wish_list *list,
                    const struct mensur_decision *decision, double *more) {
    put_ends(search, list, more);
    if (!decision->can_meet_all && !decision->conflict.exists) {
        more[LOW_END] = more[HIGH_END] = NAN;
    }
}

/* How sure the ends are. */
static enum mensur_status propagate_ends(struct decision_spread *spread,
                                         struct mensur_decision *decision) {
    struct record *record = spread->record;
    record->evaluate = ends_again;
    record->more_count = ENDS;
    ends_of(spread->search, spread->list, decision, record->more);
    return record_propagate(record, take_ends, decision);
}

static bool lies_there(const double *at, const double *before) {
    for (size_t i = 0; i < ENDS; i++) {
        if (isnan(at[i]) ? !isnan(before[i]) : !(fabs(at[i] - before[i]) < 1e-9)) {
            return false;
        }
    }
    return true;
}

/* How sure the ends of the latest decision were, where these ends lie there; whether they do. */
static bool take_kept(const struct mensur_sure_ends *kept, const double *at,
                      struct mensur_decision *decision) {
    if (!kept->known || !lies_there(at, kept->at)) {
        return false;
    }
    decision->place_low_plus_minus = kept->plus_minus[LOW_END];
    decision->place_high_plus_minus = kept->plus_minus[HIGH_END];
    decision->made_for_low_plus_minus = kept->plus_minus[MADE_FOR_LOW];
    decision->made_for_high_plus_minus = kept->plus_minus[MADE_FOR_HIGH];
    decision->too_coarse = kept->too_coarse;
    decision->matter_count = kept->matter_count;
    memcpy(decision->matters, kept->matters, sizeof decision->matters);
    return true;
}

static void keep(const struct mensur_decision *decision, const double *at,
                 struct mensur_sure_ends *kept) {
    *kept = (struct mensur_sure_ends){
        .known = true,
        .plus_minus = {decision->place_low_plus_minus, decision->place_high_plus_minus,
                       decision->made_for_low_plus_minus, decision->made_for_high_plus_minus},
        .too_coarse = decision->too_coarse,
        .matter_count = decision->matter_count};
    memcpy(kept->at, at, sizeof kept->at);
    memcpy(kept->matters, decision->matters, sizeof kept->matters);
}

enum mensur_status spread_ends(const struct search *search, const struct setup *liked,
                               const struct mensur_wishes *wishes, const struct wish_list *list,
                               struct mensur_decision *decision, struct decision_spread **out) {
    const struct ends ends = wish_list_ends(search, list);
    struct mensur_sure_ends *kept = search->terms->without_spread ? search->terms->ends : NULL;
    bool stated = false;
    double at[ENDS];
    ends_of(search, list, decision, at);
    if (kept != NULL && take_kept(kept, at, decision)) {
        return MENSUR_OK;
    }
    struct decision_spread *spread = malloc(sizeof *spread);
    if (spread == NULL) {
        return MENSUR_MEMORY;
    }
    *spread = (struct decision_spread){
        .search = search, .list = list, .moved = *wishes, .present = &decision->present};
    /* Where nothing is wished, on the range that they are made for. */
    spread->strings = wishes->count == 0 && wishes->like == NULL;
    for (size_t i = 0; i < wishes->count; i++) {
        spread->strings = spread->strings || wishes->items[i].percent;
    }
    for (size_t i = 0; i < search->string_count; i++) { /* their range may have a ± */
        const struct mensur_string_spec *spec = search->models[i].spec;
        spread->strings = spread->strings || (spec != NULL && record_unsure(spec));
    }
    decision->place_low_plus_minus = decision->place_high_plus_minus = NAN;
    decision->made_for_low_plus_minus = decision->made_for_high_plus_minus = NAN;
    decision->too_coarse = MENSUR_UNSURE;
    enum mensur_status status = start(spread, liked, &stated);
    if (status == MENSUR_OK) {
        status = propagate_ends(spread, decision);
    }
    if (status != MENSUR_OK) {
        decision_spread_free(spread);
        return status;
    }
    double open = COVERAGE * (decision->place_low_plus_minus + decision->place_high_plus_minus);
    if (!isnan(open) && (stated || open > 0.0)) {
        /* The wishes leave less room than the measurements leave open; or lie less far apart. */
        decision->too_coarse = fabs(ends.high - ends.low) < open ? MENSUR_YES : MENSUR_NO;
    } else if (!stated) {
        /* Strings that no end hangs on are no reason to say how sure it is. */
        decision->place_low_plus_minus = decision->place_high_plus_minus = NAN;
    }
    if (kept != NULL) {
        keep(decision, at, kept);
    }
    *out = spread;
    return MENSUR_OK;
}

enum mensur_status spread_chosen(struct decision_spread *spread, struct mensur_decision *decision) {
    if (spread == NULL || spread->search->terms->without_spread) {
        return MENSUR_OK;
    }
    const struct search *search = spread->search;
    const struct wish_list *list = spread->list;
    struct record *record = spread->record;
    struct wished wished = {list, decision};
    struct setup at;
    spread->place = decision->leave ? NAN : decision->recommended_place;
    record->evaluate = place_again;
    record->parts = MENSUR_PART_ALL;
    record->profiles[PRESENT] = &decision->present;
    record->profiles[OTHER] = decision->has_recommended ? &decision->recommended : NULL;
    record->profiles[LIKED] = decision->has_like ? &decision->like : NULL;
    record->more_count = 0;
    if (decision->has_recommended && list->count > 0 && !isnan(decision->place_low_plus_minus) &&
        search_setup(search, decision->recommended_place, &at) == MENSUR_OK) {
        record->more_count = list->count;
        for (size_t i = 0; i < list->count; i++) {
            record->more[i] = wish_line_figure(search, &at, &list->lines[i], &decision->present,
                                               decision->has_like ? &decision->like : NULL);
        }
    }
    return record_propagate(record, take_likelihood, &wished);
}
