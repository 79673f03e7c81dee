/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maker's question: which neck does this stop want, or which stop this neck? */
#include "decision.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "spread.h"

static enum mensur_status fill_profiles(const struct search *search,
                                        const struct mensur_wishes *wishes,
                                        struct mensur_fault *fault,
                                        struct mensur_decision *decision) {
    enum mensur_status status = profile_make(search->stock, search->setup, search->terms,
                                             MENSUR_PART_ALL, fault, &decision->present);
    if (status == MENSUR_OK && wishes->like != NULL) {
        status = profile_ask(search->stock, wishes->like, search->terms, MENSUR_PART_ALL, fault,
                             &decision->like);
        decision->has_like = status == MENSUR_OK;
    }
    return status;
}

static enum mensur_status fill_recommended(const struct search *search, struct mensur_fault *fault,
                                           struct mensur_decision *decision) {
    struct setup setup;
    if (!decision->has_recommended) {
        return MENSUR_OK;
    }
    enum mensur_status status = search_setup(search, decision->recommended_place, &setup);
    return status == MENSUR_OK ? profile_make(search->stock, &setup, search->terms, MENSUR_PART_ALL,
                                              fault, &decision->recommended)
                               : status;
}

static enum mensur_status keep_wants(const struct wish_list *list,
                                     struct mensur_decision *decision) {
    decision->wants = calloc(list->count, sizeof *decision->wants);
    if (decision->wants == NULL) {
        return MENSUR_MEMORY;
    }
    decision->want_count = list->count;
    for (size_t i = 0; i < list->count; i++) {
        decision->wants[i] = list->lines[i].want;
    }
    return MENSUR_OK;
}

/* Profiles, wishes and their intervals: all that the choice is made from. */
static enum mensur_status weigh(const struct search *search, const struct mensur_wishes *wishes,
                                struct mensur_fault *fault, struct wish_list *list,
                                struct mensur_decision *decision) {
    enum mensur_status status = fill_profiles(search, wishes, fault, decision);
    if (status == MENSUR_OK) {
        status = wish_list_make(search, wishes, &decision->present,
                                decision->has_like ? &decision->like : NULL, fault, list);
    }
    for (size_t i = 0; status == MENSUR_OK && i < list->count; i++) {
        search_interval(search, &list->lines[i]);
    }
    return status;
}

static enum mensur_status decide(const struct search *search, const struct mensur_wishes *wishes,
                                 struct mensur_fault *fault, struct mensur_decision *decision) {
    struct wish_list list;
    enum mensur_status status = weigh(search, wishes, fault, &list, decision);
    if (status != MENSUR_OK) {
        return status;
    }
    decision_choose(search, &list, decision);
    decision_instead(search, decision);
    status = keep_wants(&list, decision);
    if (status == MENSUR_OK) {
        status = fill_recommended(search, fault, decision);
    }
    if (status == MENSUR_OK) {
        status = decision_steps(search, &list, decision);
    }
    if (status == MENSUR_OK) {
        status = spread_decision(search, wishes, &list, decision);
    }
    return status == MENSUR_OK ? decision_facts(search, &list, decision) : status;
}

enum mensur_status mensur_ask_decision(const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_wishes *wishes, bool for_stop,
                                       const struct mensur_terms *terms, struct mensur_fault *fault,
                                       struct mensur_decision *out) {
    struct setup setup;
    struct search search;
    struct mensur_decision decision = {.for_stop = for_stop};
    enum mensur_status status = setup_make(stock, instrument, NULL, terms->hold, fault, &setup);
    if (status == MENSUR_OK) {
        status = search_make(stock, &setup, terms, for_stop, fault, &search);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = decide(&search, wishes, fault, &decision);
    if (status != MENSUR_OK) {
        mensur_decision_clear(&decision);
        if (status == MENSUR_MEMORY) {
            mensur_fault_set(fault, "%s", mensur_status_text(status));
        }
        return status;
    }
    *out = decision;
    return MENSUR_OK;
}
