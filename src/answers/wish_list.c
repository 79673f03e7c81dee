/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From what was asked to a list of wishes, each with its limits in SI: percents are taken of the
 * liked instrument's strings or the present ones, a tension for all strings becomes one a string.
 */
#include "search.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "figures.h"
#include "profile.h"

/* As near to the liked instrument's string length as a maker would ask (model: within 1 mm). */
static const double like_tolerance_m = 0.001;

static enum mensur_status add_line(struct wish_list *list, enum mensur_wish_kind kind,
                                   size_t string, double low, double high, const char *origin,
                                   struct mensur_fault *fault) {
    if (list->count == WISH_LINES_MAX) {
        mensur_fault_set(fault, "more wishes than %d", (int)WISH_LINES_MAX);
        return MENSUR_USE;
    }
    struct wish_line *line = &list->lines[list->count++];
    *line = (struct wish_line){.kind = kind, .string = string};
    line->want = (struct mensur_want){.kind = mensur_wish_figure(kind)->kind,
                                      .unit = mensur_wish_info(kind)->unit,
                                      .low = low,
                                      .high = high,
                                      .origin = origin};
    strcpy(line->want.what, mensur_wish_info(kind)->word);
    return MENSUR_OK;
}

static enum mensur_status add_tensions(const struct mensur_profile *present,
                                       const struct mensur_profile *like,
                                       const struct mensur_wish *wish, struct mensur_fault *fault,
                                       struct wish_list *list) {
    bool found = false;
    for (size_t i = 0; i < present->string_count; i++) {
        const struct mensur_string_figures *string = &present->strings[i];
        if (wish->note[0] != '\0' && strcmp(wish->note, string->note) != 0) {
            continue;
        }
        found = true;
        if (isnan(string->tension)) {
            mensur_fault_set(fault,
                             "%s: no wish for the tension of %s can be weighed, because its string "
                             "is not known",
                             present->instrument, string->note);
            return MENSUR_USE;
        }
        double base = wish->percent ? profile_base_tension(string, like) : 1.0;
        enum mensur_status status = add_line(list, MENSUR_WISH_TENSION, i, wish->low * base,
                                             wish->high * base, "asked", fault);
        if (status != MENSUR_OK) {
            return status;
        }
        struct mensur_want *want = &list->lines[list->count - 1].want;
        snprintf(want->what, sizeof want->what, "tension %s", string->note);
    }
    if (!found) {
        mensur_fault_set(fault, "%s: no string is tuned to %s", present->instrument,
                         wish->note[0] == '\0' ? "any note" : wish->note);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static enum mensur_status add_asked(const struct search *search, const struct mensur_wish *wish,
                                    const struct mensur_profile *present,
                                    const struct mensur_profile *like, struct mensur_fault *fault,
                                    struct wish_list *list) {
    if (wish->kind == MENSUR_WISH_TENSION) {
        return add_tensions(present, like, wish, fault, list);
    }
    /* A wish about something that this instrument does not have is a wrong question. */
    if (isnan(search_figure(search, wish->kind, 0, search->present))) {
        mensur_fault_set(fault, "%s: no wish for %s can be weighed, because it is not known here",
                         search->setup->instrument->name, mensur_wish_info(wish->kind)->word);
        return MENSUR_USE;
    }
    return add_line(list, wish->kind, 0, wish->low, wish->high, "asked", fault);
}

const struct mensur_want *wish_list_length(const struct wish_list *list) {
    for (size_t i = 0; i < list->count; i++) {
        if (list->lines[i].kind == MENSUR_WISH_STRING_LENGTH) {
            return &list->lines[i].want;
        }
    }
    return NULL;
}

enum mensur_status wish_list_make(const struct search *search, const struct mensur_wishes *wishes,
                                  const struct mensur_profile *present,
                                  const struct mensur_profile *like, struct mensur_fault *fault,
                                  struct wish_list *out) {
    out->count = 0;
    if (wishes->count == 0 && wishes->like == NULL) {
        mensur_fault_set(fault, "no wish is given; try --like NAME, or --string-length 368..376");
        return MENSUR_USE;
    }
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < wishes->count && status == MENSUR_OK; i++) {
        status = add_asked(search, &wishes->items[i], present, like, fault, out);
    }
    if (status == MENSUR_OK && like != NULL) {
        double length = like->lengths.string_length;
        status = add_line(out, MENSUR_WISH_STRING_LENGTH, 0, length - like_tolerance_m,
                          length + like_tolerance_m, "like", fault);
    }
    bool made_for = !isnan(present->made_for_low) || !isnan(present->made_for_high);
    if (status == MENSUR_OK && wish_list_length(out) == NULL && made_for) {
        status = add_line(out, MENSUR_WISH_STRING_LENGTH, 0, present->made_for_low,
                          present->made_for_high, "made-for range of its strings", fault);
    }
    for (size_t i = 0; i < out->count && status == MENSUR_OK; i++) {
        search_interval(search, &out->lines[i]);
    }
    return status;
}

struct ends wish_list_ends(const struct search *search, const struct wish_list *list) {
    struct ends ends = {search->low, search->high};
    for (size_t i = 0; i < list->count; i++) {
        /* An open side, NaN, gives way. */
        ends.low = fmax(ends.low, list->lines[i].want.place_low);
        ends.high = fmin(ends.high, list->lines[i].want.place_high);
    }
    return ends;
}
