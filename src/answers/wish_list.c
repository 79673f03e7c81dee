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

static enum mensur_status add_tension(const struct mensur_profile *present,
                                      const struct mensur_profile *like,
                                      const struct mensur_wish *wish, size_t string,
                                      struct mensur_fault *fault, struct wish_list *list) {
    const char *note = present->strings[string].note;
    if (isnan(present->strings[string].tension)) {
        mensur_fault_set(fault,
                         "%s: no wish for the tension of %s can be weighed, because its string is "
                         "not known",
                         present->instrument, note);
        return MENSUR_USE;
    }
    double base = wish->percent ? profile_base_tension(&present->strings[string], like) : 1.0;
    enum mensur_status status = add_line(list, MENSUR_WISH_TENSION, string, wish->low * base,
                                         wish->high * base, "asked", fault);
    if (status == MENSUR_OK) {
        struct mensur_want *want = &list->lines[list->count - 1].want;
        snprintf(want->what, sizeof want->what, "tension %s", note);
    }
    return status;
}

static enum mensur_status add_tensions(const struct mensur_profile *present,
                                       const struct mensur_profile *like,
                                       const struct mensur_wish *wish, struct mensur_fault *fault,
                                       struct wish_list *list) {
    enum mensur_status status = MENSUR_OK;
    bool found = false;
    for (size_t i = 0; i < present->string_count && status == MENSUR_OK; i++) {
        if (wish->note[0] == '\0' || strcmp(wish->note, present->strings[i].note) == 0) {
            found = true;
            status = add_tension(present, like, wish, i, fault, list);
        }
    }
    if (!found) {
        mensur_fault_set(fault, "%s: no string is tuned to %s", present->instrument,
                         wish->note[0] == '\0' ? "any note" : wish->note);
        return MENSUR_USE;
    }
    return status;
}

/* A wish about something that this instrument does not have is a wrong question. */
static enum mensur_status check_wish(const struct search *search, enum mensur_wish_kind kind,
                                     struct mensur_fault *fault) {
    if (kind == MENSUR_WISH_TENSION || !isnan(search_figure(search, kind, 0, search->present))) {
        return MENSUR_OK;
    }
    mensur_fault_set(fault, "%s: no wish for %s can be weighed, because it is not known here",
                     search->setup->instrument->name, mensur_wish_info(kind)->word);
    return MENSUR_USE;
}

static enum mensur_status add_asked(const struct search *search, const struct mensur_wishes *wishes,
                                    const struct mensur_profile *present,
                                    const struct mensur_profile *like, struct mensur_fault *fault,
                                    struct wish_list *list) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < wishes->count && status == MENSUR_OK; i++) {
        const struct mensur_wish *wish = &wishes->items[i];
        status = check_wish(search, wish->kind, fault);
        if (status == MENSUR_OK && wish->kind == MENSUR_WISH_TENSION) {
            status = add_tensions(present, like, wish, fault, list);
        } else if (status == MENSUR_OK) {
            status = add_line(list, wish->kind, 0, wish->low, wish->high, "asked", fault);
        }
    }
    return status;
}

static bool has_length(const struct wish_list *list) {
    for (size_t i = 0; i < list->count; i++) {
        if (list->lines[i].kind == MENSUR_WISH_STRING_LENGTH) {
            return true;
        }
    }
    return false;
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
    enum mensur_status status = add_asked(search, wishes, present, like, fault, out);
    if (status == MENSUR_OK && like != NULL) {
        double length = like->lengths.string_length;
        status = add_line(out, MENSUR_WISH_STRING_LENGTH, 0, length - like_tolerance_m,
                          length + like_tolerance_m, "like", fault);
    }
    bool made_for = !isnan(present->made_for_low) || !isnan(present->made_for_high);
    if (status == MENSUR_OK && !has_length(out) && made_for) {
        status = add_line(out, MENSUR_WISH_STRING_LENGTH, 0, present->made_for_low,
                          present->made_for_high, "made-for range of its strings", fault);
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
