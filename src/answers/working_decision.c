/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the decision: what each end of a wish asks of the neck (or the stop), what the
 * wishes have in common or how far they lie apart, and the place recommended. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "decision.h"
#include "state.h"
#include "working.h"
#include "working_parts.h"

#define FROM_SEARCH "the place at which the figure comes out so: closed form, else a root finder"

static const char *place_name(const struct search *search) {
    return search->for_stop ? "S" : "N";
}

static size_t string_of(const struct search *search, const char *note) {
    for (size_t i = 0; i < search->string_count; i++) {
        if (strcmp(search->setup->tuning->notes[i].name, note) == 0) {
            return i;
        }
    }
    return 0;
}

/* Writes the words of a wish for those of its key. */
static void space_out(char *text) {
    for (; *text != '\0'; text++) {
        *text = *text == '_' ? ' ' : *text;
    }
}

/* The tension of string i on an instrument whose string length is told. */
static void tell_tension(struct workbook *book, const struct search *search,
                         const struct setup *setup, size_t i,
                         struct mensur_string_figures *figures) {
    string_figures(setup, &search->models[i], search->terms, i, figures);
    book->of = figures->note;
    workbook_record(book, MENSUR_SCOPE_STRING, figures);
    workbook_know(book, "L", setup->string_length, IN_LENGTH);
    workbook_row(book, MENSUR_SCOPE_STRING, "tension_N", figures);
    book->of = NULL;
}

/* The figure of a wish on an instrument whose neck or stop has been moved. */
static void tell_figure(struct workbook *book, const struct search *search,
                        const struct setup *setup, const struct mensur_want *want) {
    enum mensur_wish_kind kind;
    const char *note = mensur_wish_of(want->what, &kind);
    struct mensur_string_figures figures[MENSUR_STRINGS_MAX];
    struct mensur_lengths lengths;
    setup_lengths(setup, &lengths);
    if (kind != MENSUR_WISH_RATIO) {
        working_points(book, setup);
    }
    switch (mensur_wish_info(kind)->scope) {
    case MENSUR_SCOPE_STRING:
        tell_tension(book, search, setup, string_of(search, note), &figures[0]);
        break;
    case MENSUR_SCOPE_TOTAL:
        workbook_value(book, "down factor", "down", setup->geometry.down_factor, IN_NUMBER,
                       FROM_GEOMETRY);
        for (size_t i = 0; i < search->string_count; i++) {
            tell_tension(book, search, setup, i, &figures[i]);
        }
        working_totals(book, figures, search->string_count);
        break;
    default:
        if (kind != MENSUR_WISH_STRING_LENGTH) { /* which stands among the points */
            workbook_row(book, MENSUR_SCOPE_INSTRUMENT, mensur_wish_info(kind)->key, &lengths);
        }
        break;
    }
}

/* One end of the interval that a wish allows. */
static void end(struct workbook *book, const struct search *search, const struct mensur_want *want,
                const char *which, double place) {
    struct setup setup;
    char what[64];
    bool at_end = fabs(place - search->low) < 1e-12 || fabs(place - search->high) < 1e-12;
    if (isnan(place)) {
        return;
    }
    snprintf(what, sizeof what, "%s %s that it allows", which, search->for_stop ? "stop" : "neck");
    workbook_value(book, what, place_name(search), place, IN_LENGTH,
                   at_end ? "end of the search, where the wish is met still" : FROM_SEARCH);
    if (!at_end && search_setup(search, place, &setup) == MENSUR_OK) {
        workbook_know(book, "S", setup.view.stop, IN_LENGTH);
        workbook_know(book, "N", setup.view.neck, IN_LENGTH);
        tell_figure(book, search, &setup, want);
    }
}

static const char *origin_of(const struct mensur_want *want) {
    return strcmp(want->origin, "like") == 0 ? "the liked instrument's string, 1 mm either way"
                                             : want->origin;
}

static void tell_want(struct workbook *book, const struct search *search,
                      const struct mensur_want *want) {
    char subject[64];
    snprintf(subject, sizeof subject, "wish for %s", want->what);
    space_out(subject);
    book->subject = subject;
    workbook_value(book, "at least", "low", want->low, workbook_unit_of(want->kind),
                   origin_of(want));
    workbook_value(book, "at most", "high", want->high, workbook_unit_of(want->kind),
                   origin_of(want));
    end(book, search, want, "least", want->place_low);
    end(book, search, want, "greatest", want->place_high);
    book->subject = NULL;
}

/* "low = max(a, b)": what all wishes have in common on one side. */
static void common_side(struct workbook *book, const struct search *search,
                        const struct mensur_decision *decision, bool low_side) {
    char formula[64 + WISH_LINES_MAX * sizeof "{high64}; "];
    double value = low_side ? decision->place_low : decision->place_high;
    size_t found = 0;
    snprintf(formula, sizeof formula, "%s_%s = %s(", place_name(search), low_side ? "low" : "high",
             low_side ? "max" : "min");
    for (size_t i = 0; i < decision->want_count; i++) {
        double place = low_side ? decision->wants[i].place_low : decision->wants[i].place_high;
        char name[32];
        snprintf(name, sizeof name, "%s%zu", low_side ? "low" : "high", i + 1);
        if (!isnan(place)) {
            workbook_know(book, name, place, IN_LENGTH);
            snprintf(formula + strlen(formula), sizeof formula - strlen(formula), "%s{%s}",
                     found++ == 0 ? "" : "; ", name);
        }
    }
    strcat(formula, ")");
    if (found > 0) {
        workbook_step(book,
                      low_side ? "least that meets every wish" : "greatest that meets every wish",
                      formula, NULL, value, IN_LENGTH, "what all intervals have in common");
    }
}

static void tell_give(struct workbook *book, const struct mensur_want *want, const char *name,
                      double value) {
    char what[96];
    snprintf(what, sizeof what, "what the wish for %s would have to give", want->what);
    space_out(what);
    workbook_value(book, what, name, value, workbook_unit_of(want->kind),
                   "its figure at the other's end, less that at its own");
}

static void tell_conflict(struct workbook *book, const struct search *search,
                          const struct mensur_decision *decision) {
    const struct mensur_conflict *conflict = &decision->conflict;
    const struct mensur_want *first = &decision->wants[conflict->first];
    const struct mensur_want *second = &decision->wants[conflict->second];
    book->subject = "conflict";
    workbook_know(book, "high1", first->place_high, IN_LENGTH);
    workbook_know(book, "low2", second->place_low, IN_LENGTH);
    workbook_step(book, search->for_stop ? "gap in the stop" : "gap in the neck",
                  "gap = {low2} − {high1}", "the two wishes farthest apart", conflict->gap,
                  IN_LENGTH, "intervals on a line without a common point hold such a pair");
    tell_give(book, first, "give1", conflict->give_first);
    tell_give(book, second, "give2", conflict->give_second);
}

/* The range of length that decides among the places which the wishes leave. */
static void tell_best_length(struct workbook *book, const struct mensur_decision *decision) {
    double low = decision->present.made_for_low;
    double high = decision->present.made_for_high;
    const char *source = "range that the strings are made for";
    bool none = isnan((low + high) / 2.0);
    for (size_t i = 0; i < decision->want_count && none; i++) {
        enum mensur_wish_kind kind;
        (void)mensur_wish_of(decision->wants[i].what, &kind);
        if (kind == MENSUR_WISH_STRING_LENGTH) {
            low = decision->wants[i].low;
            high = decision->wants[i].high;
            source = "range wished for";
            none = false;
        }
    }
    if (!none) {
        workbook_know(book, "low", low, IN_LENGTH);
        workbook_know(book, "high", high, IN_LENGTH);
        workbook_step(book, "string length to come nearest to", "L_best = ({low} + {high})/2", NULL,
                      (low + high) / 2.0, IN_LENGTH, source);
    }
}

/* What is gone by where nothing is wished: the usual place, and those that give the lengths that
 * the strings are made for. */
static void tell_unwished(struct workbook *book, const struct search *search,
                          const struct mensur_decision *decision) {
    const struct mensur_profile *present = &decision->present;
    const char *place = search->for_stop ? "stop" : "neck";
    char what[64];
    book->subject = "nothing is wished";
    snprintf(what, sizeof what, "usual %s", place);
    workbook_value(book, what, place_name(search), decision->usual_place, IN_LENGTH,
                   "usual neck : stop of the family; common practice, no source");
    workbook_value(book, "shortest length that its strings are made for", "low",
                   present->made_for_low, IN_LENGTH, "range that the strings are made for");
    snprintf(what, sizeof what, "%s that gives it", place);
    workbook_value(book, what, place_name(search), decision->made_for_place_low, IN_LENGTH,
                   FROM_SEARCH);
    workbook_value(book, "longest length that its strings are made for", "high",
                   present->made_for_high, IN_LENGTH, "range that the strings are made for");
    workbook_value(book, what, place_name(search), decision->made_for_place_high, IN_LENGTH,
                   FROM_SEARCH);
}

static void tell_recommended(struct workbook *book, const struct search *search,
                             const struct mensur_decision *decision) {
    struct setup setup;
    double length = search->setup->string_length;
    const char *why = decision->leave ? "the present one is left: it meets all that is wished"
                      : decision->want_count > 0
                          ? "nearest to that length, two standard uncertainties inside what "
                            "all wishes allow, to 0.5 mm where that stays inside"
                          : "nearest to the present one, two standard uncertainties (0.5 mm "
                            "where none is stated) inside what the strings are made for; "
                            "else the usual one; to 0.5 mm where that stays inside";
    if (decision->want_count > 0 && !decision->leave) {
        tell_best_length(book, decision);
    }
    if (search_setup(search, decision->recommended_place, &setup) != MENSUR_OK) {
        return;
    }
    workbook_value(book, search->for_stop ? "stop recommended" : "neck recommended",
                   place_name(search), decision->recommended_place, IN_LENGTH, why);
    workbook_value(book, "likelihood that it meets every wish", "P", decision->likelihood,
                   IN_NUMBER,
                   "figures normal and linear in the measurements, those that share one not "
                   "independent (JCGM 101:2008; Genz 1992)");
    if (decision->leave) {
        return;
    }
    book->subject = "recommended";
    working_lengths(book, &setup);
    working_tensions(book, &setup);
    working_wider(book, length, setup.string_length);
}

/* The strings that would do on the present length: one law for all, then the other. */
static void tell_instead(struct workbook *book, const struct search *search,
                         const struct mensur_decision *decision, const char *key) {
    for (size_t i = 0; i < decision->instead_count; i++) {
        book->of = decision->instead[i].note;
        workbook_record(book, MENSUR_SCOPE_INSTEAD, &decision->instead[i]);
        workbook_know(book, "L", search->setup->string_length, IN_LENGTH);
        workbook_know(book, "L_wished", decision->wished_length, IN_LENGTH);
        workbook_know(book, "f", search->frequencies[i], IN_HERTZ);
        workbook_row(book, MENSUR_SCOPE_INSTEAD, key, &decision->instead[i]);
    }
    book->of = NULL;
}

static void tell(struct workbook *book, const struct search *search,
                 const struct mensur_decision *decision) {
    book->subject = mensur_state_word(search->setup->instrument->was != NULL ? MENSUR_STATE_PROPOSED
                                                                             : MENSUR_STATE_NOW);
    working_lengths(book, search->setup);
    working_tensions(book, search->setup);
    for (size_t i = 0; i < decision->want_count; i++) {
        tell_want(book, search, &decision->wants[i]);
    }
    if (decision->can_meet_all) {
        book->subject = "all wishes together";
        common_side(book, search, decision, true);
        common_side(book, search, decision, false);
    }
    if (decision->conflict.exists) {
        tell_conflict(book, search, decision);
    }
    if (decision->want_count == 0) {
        tell_unwished(book, search, decision);
    }
    if (decision->has_recommended) {
        tell_recommended(book, search, decision);
    }
    book->subject = "other strings instead";
    tell_instead(book, search, decision, "wished_tension_N");
    tell_instead(book, search, decision, "needed_linear_density_g_per_m");
}

void working_decision(struct workbook *book, const struct mensur_instrument *instrument,
                      const struct mensur_decision *decision) {
    struct setup setup;
    struct search search;
    if (workbook_setup(book, instrument, NULL, &setup)) {
        book->status =
            search_make(book->stock, &setup, book->terms, decision->for_stop, book->fault, &search);
        if (book->status == MENSUR_OK) {
            tell(book, &search, decision);
        }
    }
}

enum mensur_status mensur_ask_working_decision(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_decision *decision,
                                               const struct mensur_terms *terms,
                                               struct mensur_fault *fault,
                                               struct mensur_working *out) {
    struct workbook book;
    workbook_open(&book, stock, terms, fault);
    working_decision(&book, instrument, decision);
    return workbook_close(&book, out);
}
