/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The decision in plain words: why this neck, what stands in the way, what it costs the player. */
#include <math.h>
#include <string.h>

#include "decision.h"
#include "words.h"

static const char *thing(const struct mensur_decision *decision) {
    return decision->for_stop ? "stop" : "neck";
}

/* What a wish is called in a sentence. */
static const char *wish_words(const struct mensur_want *want) {
    static const struct {
        const char *what;
        const char *words;
    } names[] = {{"string_length", "string length"},       {"ratio", "neck : stop"},
                 {"body_note", "note at the body"},        {"left_reach", "left hand's reach"},
                 {"total_tension", "pull of all strings"}, {"belly_force", "force on the belly"}};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(names[i].what, want->what) == 0) {
            return names[i].words;
        }
    }
    return want->what;
}

static bool is_made_for(const struct mensur_want *want) {
    return strcmp(want->origin, "made-for range of its strings") == 0;
}

/* "in the middle of", "as near as the wishes allow to the middle of" the made-for range. */
static const char *nearness(const struct mensur_profile *profile) {
    double middle = (profile->made_for_low + profile->made_for_high) / 2.0;
    double off = fabs(profile->lengths.string_length - middle);
    return off < 0.00025 ? "in the middle of" : "as near as the wishes allow to the middle of";
}

static enum mensur_status reason_made_for(const struct search *search,
                                          const struct mensur_decision *decision,
                                          struct mensur_texts *out) {
    const struct mensur_profile *chosen = &decision->recommended;
    bool inches = search->terms->inches;
    struct words place;
    struct words length;
    struct words low;
    struct words high;
    return mensur_texts_add(
        out,
        "a %s of %s gives %s of string: it meets every wish, and lies %s the range that its "
        "strings are made for (%s to %s)",
        thing(decision), words_length(decision->recommended_place, inches, &place),
        words_length(chosen->lengths.string_length, inches, &length), nearness(chosen),
        words_length_bare(chosen->made_for_low, inches, &low),
        words_length(chosen->made_for_high, inches, &high));
}

static const struct mensur_want *length_want(const struct mensur_decision *decision) {
    for (size_t i = 0; i < decision->want_count; i++) {
        if (strcmp(decision->wants[i].what, "string_length") == 0) {
            return &decision->wants[i];
        }
    }
    return NULL;
}

static enum mensur_status reason_length(const struct search *search,
                                        const struct mensur_decision *decision,
                                        struct mensur_texts *out) {
    const struct mensur_want *want = length_want(decision);
    bool inches = search->terms->inches;
    struct words place;
    struct words length;
    const char *why = "lies nearest the present one";
    if (want != NULL && !isnan(want->low) && !isnan(want->high)) {
        why = strcmp(want->origin, "like") == 0
                  ? "comes nearest to the liked instrument's string"
                  : "comes nearest to the middle of the wished length";
    }
    return mensur_texts_add(
        out, "a %s of %s gives %s of string: it meets every wish, and %s", thing(decision),
        words_length(decision->recommended_place, inches, &place),
        words_length(decision->recommended.lengths.string_length, inches, &length), why);
}

static enum mensur_status reason_conflict(const struct search *search,
                                          const struct mensur_decision *decision,
                                          struct mensur_texts *out) {
    const struct mensur_want *first = &decision->wants[decision->conflict.first];
    const struct mensur_want *second = &decision->wants[decision->conflict.second];
    bool inches = search->terms->inches;
    struct words a;
    struct words b;
    struct words gap;
    return mensur_texts_add(
        out,
        "no %s meets every wish: the wish for the %s allows %s at most, the wish for the %s needs "
        "%s at least; %s lie between",
        thing(decision), wish_words(first), words_length(first->place_high, inches, &a),
        wish_words(second), words_length(second->place_low, inches, &b),
        words_length(decision->conflict.gap, inches, &gap));
}

static enum mensur_status reason_unreachable(const struct search *search,
                                             const struct mensur_decision *decision,
                                             struct mensur_texts *out) {
    bool inches = search->terms->inches;
    struct words low;
    struct words high;
    for (size_t i = 0; i < decision->want_count; i++) {
        const struct mensur_want *want = &decision->wants[i];
        if (!want->within_reach) {
            return mensur_texts_add(out, "no %s from %s to %s meets the wish for the %s%s",
                                    thing(decision), words_length_bare(search->low, inches, &low),
                                    words_length(search->high, inches, &high), wish_words(want),
                                    is_made_for(want) ? " that its strings are made for" : "");
        }
    }
    return mensur_texts_add(out, "the wishes exclude each other");
}

static bool keeps_place(const struct search *search, const struct mensur_decision *decision) {
    return fabs(decision->recommended_place - search->present) < 1e-9;
}

static enum mensur_status find_reason(const struct search *search,
                                      const struct mensur_decision *decision,
                                      struct mensur_texts *out) {
    if (decision->conflict.exists) {
        return reason_conflict(search, decision, out);
    }
    if (!decision->has_recommended) {
        return reason_unreachable(search, decision, out);
    }
    return isnan(decision->recommended.made_for_low) || isnan(decision->recommended.made_for_high)
               ? reason_length(search, decision, out)
               : reason_made_for(search, decision, out);
}

static enum mensur_status keep_reason(const struct search *search,
                                      struct mensur_decision *decision) {
    struct mensur_texts texts = {0};
    enum mensur_status status = find_reason(search, decision, &texts);
    if (status == MENSUR_OK) {
        status = mensur_text_copy(texts.items[0], strlen(texts.items[0]), &decision->reason);
    }
    mensur_texts_clear(&texts);
    return status;
}

static enum mensur_status cost_reach(const struct search *search,
                                     const struct mensur_decision *decision,
                                     struct mensur_texts *costs) {
    double left = decision->recommended.lengths.left_reach - decision->present.lengths.left_reach;
    double bow = decision->recommended.lengths.bow_reach - decision->present.lengths.bow_reach;
    struct words a;
    enum mensur_status status = MENSUR_OK;
    if (fabs(left) >= 0.0001) {
        status = mensur_texts_add(costs, "the left hand reaches %s %s",
                                  words_length(fabs(left), search->terms->inches, &a),
                                  left > 0.0 ? "farther" : "less far");
    }
    if (status == MENSUR_OK && fabs(bow) >= 0.0001) {
        status = mensur_texts_add(costs, "the bow arm reaches %s %s",
                                  words_length(fabs(bow), search->terms->inches, &a),
                                  bow > 0.0 ? "farther" : "less far");
    }
    return status;
}

static enum mensur_status cost_spread(const struct mensur_decision *decision,
                                      struct mensur_texts *costs) {
    double ratio =
        decision->recommended.lengths.string_length / decision->present.lengths.string_length;
    struct words a;
    return mensur_texts_add(costs, "the fingers stand %s %s", words_percent(ratio, &a),
                            ratio > 1.0 ? "wider" : "closer");
}

static enum mensur_status cost_note(const struct mensur_decision *decision,
                                    struct mensur_texts *costs) {
    struct words a;
    struct words b;
    return mensur_texts_add(costs,
                            "the hand meets the body %s semitones above the open string (now %s)",
                            words_number(decision->recommended.lengths.body_at_semitones, 1, &a),
                            words_number(decision->present.lengths.body_at_semitones, 1, &b));
}

static enum mensur_status cost_pull(const struct mensur_decision *decision,
                                    struct mensur_texts *costs) {
    double pull = decision->recommended.total_tension / decision->present.total_tension;
    double belly =
        decision->recommended.total_force_on_belly / decision->present.total_force_on_belly;
    struct words a;
    struct words b;
    if (isnan(pull)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(costs, "the same strings pull %s %s and press the belly %s %s",
                            words_percent(pull, &a), pull > 1.0 ? "harder" : "less",
                            words_percent(belly, &b), belly > 1.0 ? "harder" : "less");
}

static enum mensur_status find_costs(const struct search *search,
                                     struct mensur_decision *decision) {
    if (!decision->has_recommended || keeps_place(search, decision)) {
        return MENSUR_OK;
    }
    enum mensur_status status = cost_reach(search, decision, &decision->costs);
    if (status == MENSUR_OK) {
        status = cost_spread(decision, &decision->costs);
    }
    if (status == MENSUR_OK) {
        status = cost_note(decision, &decision->costs);
    }
    return status == MENSUR_OK ? cost_pull(decision, &decision->costs) : status;
}

static const char *verdict(const struct mensur_decision *decision) {
    if (decision->too_coarse != MENSUR_YES) {
        return "the measurements are fine enough to decide";
    }
    return decision->can_meet_all
               ? "the measurements are too coarse to decide: the wishes leave less room than that"
               : "the measurements are too coarse to tell whether the wishes conflict";
}

static enum mensur_status say_how_sure(const struct search *search, const struct wish_list *list,
                                       struct mensur_decision *decision) {
    struct ends ends = wish_list_ends(search, list);
    struct words low;
    struct words low_by;
    struct words high;
    struct words high_by;
    struct mensur_texts texts = {0};
    bool inches = search->terms->inches;
    /* Then one of the ends hangs on something, and the first of those is named. */
    bool coarse = decision->too_coarse == MENSUR_YES;
    enum mensur_status status = mensur_texts_add(
        &texts,
        "what all wishes allow begins at %s \302\261 %s and ends at %s \302\261 %s (one standard "
        "uncertainty); %s%s%s%s",
        words_length_bare(ends.low, inches, &low),
        words_length(decision->place_low_plus_minus, inches, &low_by),
        words_length_bare(ends.high, inches, &high),
        words_length(decision->place_high_plus_minus, inches, &high_by), verdict(decision),
        coarse ? ". Measure the " : "", coarse ? decision->matters[0].field : "",
        coarse ? " better before anything is cut" : "");
    if (status == MENSUR_OK) {
        decision->how_sure = texts.items[0];
        texts.items[0] = NULL;
    }
    mensur_texts_clear(&texts);
    return status;
}

enum mensur_status decision_words(const struct search *search, const struct wish_list *list,
                                  struct mensur_decision *decision) {
    enum mensur_status status = keep_reason(search, decision);
    if (status == MENSUR_OK) {
        status = find_costs(search, decision);
    }
    return status == MENSUR_OK && decision->too_coarse != MENSUR_UNSURE
               ? say_how_sure(search, list, decision)
               : status;
}
