/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier of what the page shows: one instrument with the decision on its neck, or two. */
#include "dossier.h"
#include "engine.h"

static enum mensur_status tell(struct page *page, const struct question *question,
                               struct mensur_dossier *dossier) {
    struct mensur_sink sink = page_sink(page);
    dossier->heading = &question->heading;
    dossier->figures = question->style;
    dossier->figures.illustrate = mensur_draw_illustration;
    return mensur_dossier_write(dossier, &sink);
}

static enum mensur_status tell_one(struct page *page, const struct question *question,
                                   struct mensur_fault *fault) {
    struct mensur_profile profile;
    struct mensur_decision decision = {.want_count = 0};
    struct mensur_dossier dossier = {.profiles = &profile, .count = 1};
    bool wished = question_text(question, "like") != NULL ||
                  json_array_size(json_object_get(question->root, "wishes")) > 0;
    enum mensur_status status = mensur_ask_profile(
        page_stock(page), question->after[0], &question->terms, MENSUR_PART_ALL, fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    if (wished) {
        status = ask_decision(page, question, fault, &decision);
        dossier.decision = &decision;
    }
    if (status == MENSUR_OK) {
        status = tell(page, question, &dossier);
    }
    mensur_decision_clear(&decision);
    mensur_profile_clear(&profile);
    return status;
}

enum mensur_status answer_dossier(struct page *page, struct question *question,
                                  struct mensur_fault *fault) {
    struct mensur_comparison comparison;
    if (question->count == 1) {
        return tell_one(page, question, fault);
    }
    enum mensur_status status = ask_side_by_side(page, question, fault, &comparison);
    if (status == MENSUR_OK) {
        struct mensur_dossier dossier = {.profiles = comparison.instruments,
                                         .count = comparison.count,
                                         .comparison = &comparison};
        status = tell(page, question, &dossier);
        mensur_comparison_clear(&comparison);
    }
    return status;
}
