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

/* What is asked: of what, its limits before anything is taken of them, and what they give. */
struct asked {
    enum mensur_wish_kind kind;
    size_t string;
    enum wish_base base;
    double low, high, give;
};

static struct wish_line line_of(const struct asked *asked, double factor, double offset,
                                const char *origin) {
    struct wish_line line = {.kind = asked->kind,
                             .string = asked->string,
                             .base = asked->base,
                             .low = asked->low,
                             .high = asked->high};
    line.want = (struct mensur_want){.kind = mensur_wish_figure(asked->kind)->kind,
                                     .unit = mensur_wish_info(asked->kind)->unit,
                                     .low = offset + asked->low * factor,
                                     .high = offset + asked->high * factor,
                                     .give = asked->give * factor,
                                     .origin = origin};
    strcpy(line.want.what, mensur_wish_info(asked->kind)->word);
    return line;
}

static enum mensur_status add_line(struct wish_list *list, struct wish_line line,
                                   struct mensur_fault *fault) {
    if (list->count == WISH_LINES_MAX) {
        mensur_fault_set(fault, "more wishes than %d; leave some out", (int)WISH_LINES_MAX);
        return MENSUR_USE;
    }
    list->lines[list->count++] = line;
    return MENSUR_OK;
}

/* The notes of an instrument's strings, as far as they find room. */
static void list_notes(const struct mensur_profile *present, char *text, size_t room) {
    text[0] = '\0';
    for (size_t i = 0; i < present->string_count; i++) {
        size_t length = strlen(text);
        snprintf(text + length, room - length, "%s%s", i > 0 ? " " : "", present->strings[i].note);
    }
}

static enum mensur_status refuse_note(const struct mensur_profile *present,
                                      const struct mensur_wish *wish, struct mensur_fault *fault) {
    char notes[MENSUR_RESULT_STRINGS * sizeof present->strings[0].note];
    list_notes(present, notes, sizeof notes);
    if (notes[0] == '\0') {
        mensur_fault_set(fault,
                         "%s: no string is tuned to %s, because it names no tuning; write one into "
                         "its column tuning, or its family",
                         present->instrument, wish->note[0] == '\0' ? "any note" : wish->note);
    } else {
        mensur_fault_set(fault, "%s: no string is tuned to %s; its strings are %s",
                         present->instrument, wish->note, notes);
    }
    return MENSUR_USE;
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
                             "is not known; name a set that has one in its column strings",
                             present->instrument, string->note);
            return MENSUR_USE;
        }
        const struct asked asked = {
            wish->kind, i,          wish->percent ? WISH_PERCENT : WISH_OF_ITSELF,
            wish->low,  wish->high, wish->give};
        struct wish_line line =
            line_of(&asked, wish->percent ? profile_base_tension(string, like) : 1.0, 0.0, "asked");
        snprintf(line.want.what, sizeof line.want.what, "tension %s", string->note);
        enum mensur_status status = add_line(list, line, fault);
        if (status != MENSUR_OK) {
            return status;
        }
    }
    return found ? MENSUR_OK : refuse_note(present, wish, fault);
}

/* Why a figure is not known here, and what would help. */
static const char *why_unknown(const struct search *search, enum mensur_wish_kind kind) {
    if (kind != MENSUR_WISH_LEFT_REACH) {
        return "because its strings are not known; name a set in its column strings";
    }
    const struct mensur_family *family = search->setup->family;
    return family == NULL
               ? "because it names no family, and so not how it is held; write one into its row"
           : family->held != MENSUR_CHIN
               ? "because it is not held under the chin; wish for its string length or the note at "
                 "the body instead"
               : "because its body length is not known; measure it";
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
        mensur_fault_set(fault, "%s: no wish for the %s can be weighed, %s",
                         search->setup->instrument->name, mensur_wish_info(wish->kind)->in_sentence,
                         why_unknown(search, wish->kind));
        return MENSUR_USE;
    }
    const struct asked asked = {wish->kind, 0, WISH_OF_ITSELF, wish->low, wish->high, wish->give};
    return add_line(list, line_of(&asked, 1.0, 0.0, "asked"), fault);
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
    enum mensur_status status = MENSUR_OK;
    out->count = 0;
    for (size_t i = 0; i < wishes->count && status == MENSUR_OK; i++) {
        status = add_asked(search, &wishes->items[i], present, like, fault, out);
    }
    if (status == MENSUR_OK && like != NULL) {
        const struct asked asked = {MENSUR_WISH_STRING_LENGTH, 0,
                                    WISH_LIKE_LENGTH,          -like_tolerance_m,
                                    like_tolerance_m,          0.0};
        status = add_line(out, line_of(&asked, 1.0, like->lengths.string_length, "like"), fault);
    }
    const struct asked made_for = {
        MENSUR_WISH_STRING_LENGTH, 0,  WISH_OF_ITSELF, present->made_for_low,
        present->made_for_high,    0.0};
    out->has_made_for = !isnan(made_for.low) || !isnan(made_for.high);
    out->made_for = line_of(&made_for, 1.0, 0.0, "");
    return status;
}

void wish_list_find(const struct search *search, struct wish_list *list) {
    for (size_t i = 0; i < list->count; i++) {
        search_interval(search, &list->lines[i]);
    }
    if (list->has_made_for) {
        search_interval(search, &list->made_for);
    }
}

double wish_line_figure(const struct search *search, const struct setup *setup,
                        const struct wish_line *line, const struct mensur_profile *present,
                        const struct mensur_profile *like) {
    double figure = search_figure_of(search, setup, line->kind, line->string);
    switch (line->base) {
    case WISH_LIKE_LENGTH:
        return figure - like->lengths.string_length;
    case WISH_PERCENT:
        return figure / profile_base_tension(&present->strings[line->string], like);
    case WISH_OF_ITSELF:
        break;
    }
    return figure;
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
