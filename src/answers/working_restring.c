/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the strings chosen: what each note aims at, the laws of the strings, and the cost
 * that was made least. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"
#include "working.h"
#include "working_parts.h"

#define FROM_COST "our own weight, no source: both sums alike"

/* The string of a name among those that are offered for note i; NULL where none is. */
static const struct restring_candidate *candidate_of(const struct restringer *restringer, size_t i,
                                                     const char *name) {
    const struct restring_offer *offer = &restringer->offers[i];
    for (size_t k = 0; name != NULL && k < offer->count; k++) {
        if (strcmp(offer->candidates[k].spec->name, name) == 0) {
            return &offer->candidates[k];
        }
    }
    return NULL;
}

/* A choice, ready for the laws of the strings. */
static void make_strings(const struct restringer *restringer, const struct mensur_choice *choice,
                         struct working_strings *out) {
    out->setup = restringer->setup;
    out->count = restringer->note_count;
    for (size_t i = 0; i < out->count; i++) {
        const struct restring_candidate *candidate =
            candidate_of(restringer, i, choice->strings[i].string);
        string_model_make(restringer->stock, candidate == NULL ? NULL : candidate->spec,
                          restringer->terms->fifths, &out->models[i]);
        out->figures[i] = choice->strings[i];
    }
}

/* The tension of the present string in the middle of the range that its set is made for. */
static void tell_made_for(struct workbook *book, const struct restringer *restringer, size_t i) {
    double length = restring_middle(restringer->present);
    double tension = restringer->aims[i].tension;
    const double frequency = restringer->frequencies[i];
    workbook_know(book, "L_made", length, IN_METRES);
    workbook_know(book, "f", frequency, IN_HERTZ);
    /* The density at that tension; from there the law holds for slack strings too. */
    workbook_know(book, "μ", tension / (4.0 * length * length * frequency * frequency),
                  IN_KG_PER_M);
    if (isnan(length)) {
        workbook_value(book, "wished tension", "t", tension, IN_NEWTONS,
                       "the present string in the middle of its made-for range");
    } else {
        workbook_step(book, "wished tension", "t = 4·{L_made}²·{f}²·{μ}",
                      "the present string in the middle of the made-for range", tension, IN_NEWTONS,
                      FROM_MERSENNE);
    }
}

static void tell_liked(struct workbook *book, const struct restringer *restringer, size_t i) {
    double length = restringer->setup->string_length;
    double tension = restringer->aims[i].tension;
    if (!restringer->wishes->same_impedance) {
        workbook_value(book, "wished tension", "t", tension, IN_NEWTONS,
                       "the liked instrument's string");
        return;
    }
    workbook_know(book, "L", length, IN_METRES);
    workbook_know(book, "f", restringer->frequencies[i], IN_HERTZ);
    workbook_know(book, "Z", tension / (2.0 * length * restringer->frequencies[i]), IN_KG_PER_S);
    workbook_step(book, "wished tension", "t = 2·{L}·{f}·{Z}", "Z of the liked instrument's string",
                  tension, IN_NEWTONS, "Z = √(T·μ) = T/(2·L·f)");
}

static void tell_aims(struct workbook *book, const struct restringer *restringer) {
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_aim *aim = &restringer->aims[i];
        book->of = restringer->setup->tuning->notes[i].name;
        workbook_know(book, "low", aim->low, IN_NEWTONS);
        workbook_know(book, "high", aim->high, IN_NEWTONS);
        switch (aim->origin) {
        case RESTRING_WISHED:
            workbook_step(book, "wished tension", "t = ({low} + {high})/2", "middle of the wish",
                          aim->tension, IN_NEWTONS, "the wish asked");
            break;
        case RESTRING_LIKED:
            tell_liked(book, restringer, i);
            break;
        case RESTRING_MADE_FOR:
            tell_made_for(book, restringer, i);
            break;
        case RESTRING_FAMILY:
            workbook_value(book, "wished tension", "t", aim->tension, IN_NEWTONS,
                           "the family's set on its own length, in proportion to this");
            break;
        case RESTRING_PROFILED:
            workbook_value(book, "wished tension", "t", aim->tension, IN_NEWTONS,
                           "the aims of all strings, shared out by the profile");
            break;
        case RESTRING_NO_AIM:
            break;
        }
    }
    book->of = NULL;
}

/* The gauges to order. */
static void tell_orders(struct workbook *book, const struct restringer *restringer,
                        const struct mensur_restringing *restringing) {
    const struct mensur_material *material =
        mensur_stock_material(restringer->stock, restringer->wishes->to_order);
    for (size_t k = 0; material != NULL && k < restringing->order_count; k++) {
        const struct mensur_order *order = &restringing->orders[k];
        size_t i = 0;
        while (i + 1 < restringer->note_count &&
               strcmp(order->note, restringer->setup->tuning->notes[i].name) != 0) {
            i++;
        }
        book->of = order->note;
        workbook_know(book, "L", restringer->setup->string_length, IN_METRES);
        workbook_know(book, "f", restringer->frequencies[i], IN_HERTZ);
        workbook_know(book, "T", order->tension, IN_NEWTONS);
        workbook_know(book, "E", material->modulus, IN_MPA);
        workbook_know(book, "ρ", material->density, IN_G_PER_CM3);
        workbook_row(book, MENSUR_SCOPE_ORDER, "stress_MPa", order);
        workbook_row(book, MENSUR_SCOPE_ORDER, "diameter_mm", order);
    }
    book->of = NULL;
}

/* "cost = a1 + a2 + b1": the terms that are known. */
struct sum {
    char formula[64 + sizeof "{b16} + " * 3 * MENSUR_STRINGS_MAX];
    size_t terms;
    double value;
};

static void add_term(struct workbook *book, struct sum *sum, const char *name, double value) {
    workbook_know(book, name, value, IN_NUMBER);
    if (!isnan(value)) {
        snprintf(sum->formula + strlen(sum->formula), sizeof sum->formula - strlen(sum->formula),
                 "%s{%s}", sum->terms++ == 0 ? "" : " + ", name);
        sum->value += value;
    }
}

/* Less than this is no difference: the last digits of two logarithms. */
#define JUST_SO 1e-12

static void tell_own(struct workbook *book, const struct restringer *restringer,
                     const struct mensur_choice *choice, size_t i, struct sum *cost) {
    char name[24];
    char formula[64];
    double off = log(choice->strings[i].tension / restringer->aims[i].tension);
    off = fabs(off) < JUST_SO ? 0.0 : off;
    snprintf(name, sizeof name, "a%zu", i + 1);
    snprintf(formula, sizeof formula, "%s = (ln({T}/{t}))²", name);
    book->of = choice->strings[i].note;
    workbook_know(book, "T", choice->strings[i].tension, IN_NEWTONS);
    workbook_know(book, "t", restringer->aims[i].tension, IN_NEWTONS);
    workbook_step(book, "off the wished tension", formula, NULL, off * off, IN_NUMBER, FROM_COST);
    add_term(book, cost, name, off * off);
    book->of = NULL;
}

/* The step from note i to the next; the wished one is known as s. */
static void tell_step(struct workbook *book, const struct restringer *restringer,
                      const struct mensur_choice *choice, size_t i, struct sum *cost,
                      struct sum *steps) {
    char name[24];
    char what[64];
    char formula[64];
    double wished = restring_step(restringer, i);
    double off = log(choice->strings[i + 1].tension / choice->strings[i].tension) - wished;
    off = fabs(off) < JUST_SO ? 0.0 : off;
    snprintf(name, sizeof name, "b%zu", i + 1);
    snprintf(what, sizeof what, "off the wished step, %s to %s", choice->strings[i].note,
             choice->strings[i + 1].note);
    snprintf(formula, sizeof formula, "%s = (ln({T'}/{T}) − ln({s}))²", name);
    workbook_know(book, "T", choice->strings[i].tension, IN_NEWTONS);
    workbook_know(book, "T'", choice->strings[i + 1].tension, IN_NEWTONS);
    workbook_know(book, "s", exp(wished), IN_NUMBER);
    workbook_step(book, what, formula, NULL, off * off, IN_NUMBER, FROM_COST);
    add_term(book, cost, name, off * off);
    add_term(book, steps, name, off * off);
}

/* What a string misses, where no strings meet every wish. */
static void tell_miss(struct workbook *book, const struct restringer *restringer,
                      const struct mensur_choice *choice, size_t i, struct sum *cost) {
    const struct restring_candidate *candidate =
        candidate_of(restringer, i, choice->strings[i].string);
    if (candidate != NULL && candidate->excess > 0.0) {
        char name[24];
        snprintf(name, sizeof name, "c%zu", i + 1);
        book->of = choice->strings[i].note;
        workbook_value(book, "square of what it misses, in logs of tension", name,
                       candidate->excess, IN_NUMBER, FROM_COST);
        add_term(book, cost, name, candidate->excess);
        book->of = NULL;
    }
}

static void tell_cost(struct workbook *book, const struct restringer *restringer,
                      const struct mensur_restringing *restringing) {
    const struct mensur_choice *choice = &restringing->choices[0];
    const char *what = restringing->whole               ? "cost of the whole set"
                       : restringing->force_slack > 0.0 ? "cost, the least found"
                                                        : "cost, the least there is";
    struct sum cost = {.formula = "cost = "};
    struct sum steps = {.formula = "evenness = √(("};
    for (size_t i = 0; i < restringer->note_count; i++) {
        tell_own(book, restringer, choice, i, &cost);
    }
    for (size_t i = 0; i + 1 < restringer->note_count; i++) {
        tell_step(book, restringer, choice, i, &cost, &steps);
    }
    for (size_t i = 0; i < restringer->note_count && !restringing->met; i++) {
        tell_miss(book, restringer, choice, i, &cost);
    }
    if (cost.terms > 0) {
        workbook_step(book, what, cost.formula, NULL, choice->cost, IN_NUMBER, FROM_COST);
    }
    if (steps.terms > 0) {
        char count[24];
        snprintf(count, sizeof count, ")/%zu)", steps.terms);
        strcat(steps.formula, count);
        workbook_step(book, "evenness", steps.formula, "root of the mean square", choice->evenness,
                      IN_NUMBER, FROM_DEFINITION);
    }
}

static void tell(struct workbook *book, const struct restringer *restringer,
                 const struct mensur_restringing *restringing, bool feel) {
    struct working_strings strings;
    working_string_length(book, restringer->setup);
    working_down_factor(book, restringer->setup);
    tell_aims(book, restringer);
    if (restringing->choice_count > 0) {
        make_strings(restringer, &restringing->choices[0], &strings);
        book->subject = "the recommended set";
        working_laws(book, &strings);
        tell_cost(book, restringer, restringing);
        if (feel) {
            working_feel(book, &strings);
        }
    }
    book->subject = restringing->order_count > 0 ? "to order" : book->subject;
    tell_orders(book, restringer, restringing);
}

enum mensur_status mensur_ask_working_restring(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_restring_wishes *wishes,
                                               const struct mensur_restringing *restringing,
                                               const struct mensur_terms *terms, bool feel,
                                               struct mensur_fault *fault,
                                               struct mensur_working *out) {
    struct setup setup;
    struct workbook book;
    struct mensur_texts names = {0};
    struct restringer restringer = {.stock = stock,
                                    .wishes = wishes,
                                    .terms = terms,
                                    .setup = &setup,
                                    .present = &restringing->present};
    workbook_open(&book, stock, terms, fault);
    if (workbook_setup(&book, instrument, NULL, &setup)) {
        book.status = restring_ready(&restringer, &names, fault);
    }
    if (book.status == MENSUR_OK) {
        tell(&book, &restringer, restringing, feel);
    }
    restring_clear(&restringer);
    mensur_texts_clear(&names);
    return workbook_close(&book, out);
}
