/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page asks after every move: one instrument, one as it is against itself as changed, or
 * two, each with its changes. */
#include "engine.h"
#include "view.h"

/* What was assumed of a changed instrument is told as the change tells it. */
static enum mensur_status tell_assumed(struct page *page, const struct question *question,
                                       struct mensur_fault *fault,
                                       struct mensur_comparison *comparison) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < comparison->count && status == MENSUR_OK; i++) {
        struct mensur_comparison change;
        if (question->change_count[i] == 0) {
            continue;
        }
        status = mensur_ask_change(page_stock(page), question->before[i], question->changes[i],
                                   question->change_count[i], &question->terms, fault, &change);
        if (status == MENSUR_OK) {
            comparison->instruments[i].assumed = change.instruments[1].assumed;
            mensur_comparison_clear(&change);
        }
    }
    return status;
}

enum mensur_status ask_side_by_side(struct page *page, const struct question *question,
                                    struct mensur_fault *fault, struct mensur_comparison *out) {
    const struct mensur_stock *stock = page_stock(page);
    if (question->count == 1) {
        return mensur_ask_change(stock, question->before[0], question->changes[0],
                                 question->change_count[0], &question->terms, fault, out);
    }
    enum mensur_status status =
        mensur_ask_compare(stock, question->after, question->count, &question->terms, fault, out);
    if (status == MENSUR_OK) {
        status = tell_assumed(page, question, fault, out);
        if (status != MENSUR_OK) {
            mensur_comparison_clear(out);
        }
    }
    return status;
}

/* Sets down a profile, or a comparison; below it stands what stands below a comparison. */
static enum mensur_status set_down(struct page *page, const struct question *question,
                                   const struct mensur_profile *profiles, size_t count,
                                   const struct mensur_comparison *comparison) {
    struct mensur_sink sink = page_sink(page);
    const struct mensur_heading heading = {.cautions = mensur_cautions("compare"),
                                           .sources = mensur_sources("compare")};
    return view_sheet(&sink, &question->style, &heading, profiles, count, comparison);
}

static enum mensur_status view_one(struct page *page, const struct question *question,
                                   struct mensur_fault *fault) {
    struct mensur_profile profile;
    enum mensur_status status = mensur_ask_profile(
        page_stock(page), question->after[0], &question->terms, MENSUR_PART_ALL, fault, &profile);
    if (status == MENSUR_OK) {
        status = set_down(page, question, &profile, 1, NULL);
        if (status == MENSUR_OK) {
            status = page_draw_each(page, question, page_draw_profile, &profile);
        }
        mensur_profile_clear(&profile);
    }
    return status;
}

enum mensur_status answer_view(struct page *page, struct question *question,
                               struct mensur_fault *fault) {
    struct mensur_comparison comparison;
    if (question->count == 0 || question->count > 2) {
        mensur_fault_set(fault, "choose one instrument or two");
        return MENSUR_USE;
    }
    if (question->count == 1 && question->change_count[0] == 0) {
        return view_one(page, question, fault);
    }
    enum mensur_status status = ask_side_by_side(page, question, fault, &comparison);
    if (status == MENSUR_OK) {
        status = set_down(page, question, comparison.instruments, 2, &comparison);
        if (status == MENSUR_OK) {
            status = page_draw_each(page, question, page_draw_comparison, &comparison);
        }
        mensur_comparison_clear(&comparison);
    }
    return status;
}
