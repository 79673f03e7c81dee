/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of instruments side by side: each by itself, then what the remarks rest on. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "air.h"
#include "body_air.h"
#include "change.h"
#include "fingers.h"
#include "remarks.h"
#include "state.h"
#include "working.h"
#include "working_parts.h"

/* One of the instruments. */
struct side {
    const char *name; /* as it is to be called */
    struct setup setup;
    struct mensur_profile profile;
};

/* By how much a force is more than another, of the same letter. */
static void tell_more(struct workbook *book, const char *what, const char *formula, double first,
                      double other) {
    const char letter = formula[strcspn(formula, "{") + 1];
    workbook_know(book, (const char[]){letter, '1', '\0'}, first, IN_NEWTONS);
    workbook_know(book, (const char[]){letter, '2', '\0'}, other, IN_NEWTONS);
    workbook_step(book, what, formula, NULL, other / first - 1.0, IN_PERCENT, FROM_DEFINITION);
}

/* The air of two bodies whose measurements both have. */
static void tell_air(struct workbook *book, const struct mensur_profile *first,
                     const struct mensur_profile *other) {
    struct mensur_profile apart = {.air_semitones_above_first = body_air_apart(first, other)};
    if (!isnan(first->air.note) && !isnan(other->air.note)) {
        workbook_know(book, "f1", first->air.note, IN_HERTZ);
        workbook_know(book, "f2", other->air.note, IN_HERTZ);
        workbook_step(book, "note of the air above that of the first", "air = 12·log2({f2}/{f1})",
                      NULL, apart.air_semitones_above_first, IN_SEMITONES, "both were measured");
        return;
    }
    if (isnan(apart.air_semitones_above_first)) {
        return;
    }
    workbook_know(book, "A1", first->air.outline, IN_CM2);
    workbook_know(book, "A2", other->air.outline, IN_CM2);
    workbook_know(book, "H1", first->air.depth, IN_MM);
    workbook_know(book, "H2", other->air.depth, IN_MM);
    workbook_know(book, "f1", first->air.f_length, IN_MM);
    workbook_know(book, "f2", other->air.f_length, IN_MM);
    workbook_know(book, "q", MENSUR_AIR_EXPONENT, IN_NUMBER);
    workbook_row(book, MENSUR_SCOPE_COMPARED, "air_semitones_above_first", &apart);
}

/* other against first, in figures that both have. */
static void tell_difference(struct workbook *book, const struct side *first,
                            const struct side *other) {
    const struct mensur_profile *one = &first->profile;
    const struct mensur_profile *two = &other->profile;
    double length = one->lengths.string_length;
    double length_other = two->lengths.string_length;
    double apart = NAN;
    /* From the other to the first is meant. NOLINTNEXTLINE(readability-suspicious-call-argument) */
    (void)mensur_same_frame_apart(length_other, length, &apart);
    workbook_know(book, "L1", length, IN_LENGTH);
    workbook_know(book, "L2", length_other, IN_LENGTH);
    workbook_step(book, "longer string by", "ΔL = {L2} − {L1}", NULL, length_other - length,
                  IN_LENGTH, FROM_DEFINITION);
    if (mensur_of_two_families(one, two)) {
        return;
    }
    tell_air(book, one, two);
    working_wider(book, length, length_other);
    workbook_step(book, "the same frame, farther up", "s = 12·log2({L2}/{L1})", NULL, apart,
                  IN_SEMITONES, "frames go as L·2^(−s/12)");
    tell_more(book, "more tension by", "tension = {T2}/{T1} − 1", one->total_tension,
              two->total_tension);
    tell_more(book, "more force on the belly by", "force = {F2}/{F1} − 1",
              one->total_force_on_belly, two->total_force_on_belly);
}

/* What it has besides the lengths, of one that is ready. */
static void make_profile(struct workbook *book, struct side *side) {
    if (book->status == MENSUR_OK) {
        book->status = profile_make(book->stock, &side->setup, book->terms, MENSUR_PART_ALL,
                                    book->fault, &side->profile);
    }
}

static void tell(struct workbook *book, const struct side *sides, size_t count, bool feel) {
    struct mensur_texts subjects = {0};
    for (size_t i = 0; i < count; i++) {
        book->subject = sides[i].name;
        book->instrument = i;
        working_lengths(book, &sides[i].setup);
        working_strings(book, &sides[i].setup, feel);
        working_frames(book, &sides[i].setup, sides[i].profile.positions,
                       sides[i].profile.position_count);
    }
    for (size_t i = 1; i < count && book->status == MENSUR_OK; i++) {
        book->status = mensur_texts_add(&subjects, "%s against %s", sides[i].name, sides[0].name);
        if (book->status == MENSUR_OK) {
            book->subject = subjects.items[i - 1];
            book->instrument = i;
            tell_difference(book, &sides[0], &sides[i]);
        }
    }
    book->subject = NULL;
    mensur_texts_clear(&subjects);
}

/* Tells of all sides that are ready, and frees them. */
static void finish(struct workbook *book, struct side *sides, size_t count, bool feel) {
    if (book->status == MENSUR_OK) {
        tell(book, sides, count, feel);
    }
    for (size_t i = 0; i < count && sides != NULL; i++) {
        mensur_profile_clear(&sides[i].profile);
    }
    free(sides);
}

static struct side *make_sides(struct workbook *book, size_t count) {
    struct side *sides = calloc(count + 1, sizeof *sides);
    if (sides == NULL) {
        book->status = MENSUR_MEMORY;
    }
    return sides;
}

enum mensur_status mensur_ask_working_compare(const struct mensur_stock *stock,
                                              const struct mensur_instrument *const *instruments,
                                              size_t count, const struct mensur_terms *terms,
                                              bool feel, struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct workbook book;
    workbook_open(&book, stock, terms, fault);
    struct side *sides = make_sides(&book, count);
    for (size_t i = 0; i < count && book.status == MENSUR_OK; i++) {
        sides[i].name = instruments[i]->name;
        (void)workbook_setup(&book, instruments[i], NULL, &sides[i].setup);
        make_profile(&book, &sides[i]);
    }
    finish(&book, sides, count, feel);
    return workbook_close(&book, out);
}

enum mensur_status mensur_ask_working_change(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms, bool feel,
                                             struct mensur_fault *fault,
                                             struct mensur_working *out) {
    struct workbook book;
    struct mensur_instrument changed = {.name = NULL};
    workbook_open(&book, stock, terms, fault);
    struct side *sides = make_sides(&book, 2);
    if (sides != NULL && workbook_setup(&book, instrument, NULL, &sides[0].setup)) {
        sides[0].name = mensur_state_word(MENSUR_STATE_NOW);
        sides[1].name = mensur_state_word(MENSUR_STATE_PROPOSED);
        book.status = change_apply(stock, &sides[0].setup, changes, count, fault, &changed);
        (void)workbook_setup(&book, &changed, &sides[0].setup, &sides[1].setup);
        make_profile(&book, &sides[0]);
        make_profile(&book, &sides[1]);
    }
    finish(&book, sides, 2, feel);
    mensur_instrument_clear(&changed);
    return workbook_close(&book, out);
}

#define AS_VIOLA_STOP                                                                              \
    "a viola's stop: 0.555 of the body to 400 mm, then 0.2 mm for each; fitted to published sizes"

/* How one measurement follows the size. */
static void tell_rule(struct workbook *book, const struct mensur_scaled *scaled,
                      const struct mensur_scaled_measure *measure) {
    static const char *const taken[] = {
        [MENSUR_SCALE_HELD] = "held",
        [MENSUR_SCALE_KEPT] = "kept as asked",
        [MENSUR_SCALE_AS_VIOLA_STOP] = AS_VIOLA_STOP,
        [MENSUR_SCALE_WITH_PROJECTION] = "moved as the projection, so that the clearance stays",
        [MENSUR_SCALE_BY_GEOMETRY] = "by geometry, and what the measured one exceeds that",
        [MENSUR_SCALE_FOR_AIR] = FROM_AIR};
    bool stop = measure->rule == MENSUR_SCALE_AS_STOP;
    if (!stop && measure->rule != MENSUR_SCALE_AS_BODY) {
        workbook_value(book, measure->field, measure->field, measure->to, IN_LENGTH,
                       taken[measure->rule]);
        return;
    }
    workbook_know(book, "r",
                  stop ? pow(measure->to / measure->from, 1.0 / measure->power) : scaled->ratio,
                  IN_NUMBER);
    workbook_know(book, "p", measure->power, IN_NUMBER);
    workbook_know(book, "from", measure->from, IN_LENGTH);
    workbook_step(book, measure->field, "scaled = {from}·2^({p}·log2({r}))",
                  stop ? "r: of the stops" : "r: of the bodies", measure->to, IN_LENGTH,
                  FROM_SIZES);
}

enum mensur_status
mensur_ask_working_scale(const struct mensur_stock *stock, const struct mensur_instrument *model,
                         const struct mensur_instrument *instrument,
                         const struct mensur_scaled *scaled, const struct mensur_decision *decision,
                         const struct mensur_terms *terms, struct mensur_fault *fault,
                         struct mensur_working *out) {
    struct workbook book;
    workbook_open(&book, stock, terms, fault);
    book.subject = scaled->name;
    for (size_t i = 0; i < scaled->measure_count; i++) {
        tell_rule(&book, scaled, &scaled->measures[i]);
    }
    struct side *sides = make_sides(&book, 2);
    const struct mensur_instrument *const both[] = {model, instrument};
    for (size_t i = 0; i < 2 && book.status == MENSUR_OK; i++) {
        sides[i].name = both[i]->name;
        (void)workbook_setup(&book, both[i], NULL, &sides[i].setup);
        make_profile(&book, &sides[i]);
    }
    finish(&book, sides, 2, false);
    if (decision != NULL && book.status == MENSUR_OK) {
        working_decision(&book, instrument, decision);
    }
    return workbook_close(&book, out);
}
