/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of instruments side by side: each by itself, then what the remarks rest on. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "change.h"
#include "fingers.h"
#include "working.h"
#include "working_parts.h"

/* One of the instruments. */
struct side {
    struct setup setup;
    struct mensur_profile profile;
};

static void tell_side(struct workbook *book, const struct mensur_stock *stock,
                      const struct mensur_terms *terms, const struct side *side, bool feel) {
    working_lengths(book, &side->setup);
    working_strings(book, stock, &side->setup, terms, feel);
    working_places(book, &side->setup, terms, &side->profile, false);
}

/* By how much a force is more than another, of the same letter. */
static void tell_more(struct workbook *book, const char *what, const char *formula, double first,
                      double other) {
    const char letter = strchr(formula, '{')[1];
    workbook_know(book, (const char[]){letter, '1', '\0'}, first, IN_NEWTONS);
    workbook_know(book, (const char[]){letter, '2', '\0'}, other, IN_NEWTONS);
    workbook_step(book, what, formula, NULL, other / first - 1.0, IN_PERCENT, FROM_DEFINITION);
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
    working_wider(book, length, length_other);
    workbook_step(book, "the same frame, farther up", "s = 12·log2({L2}/{L1})", NULL, apart,
                  IN_SEMITONES, "frames go as L·2^(−s/12)");
    tell_more(book, "more pull by", "pull = {T2}/{T1} − 1", one->total_tension, two->total_tension);
    tell_more(book, "more force on the belly by", "force = {F2}/{F1} − 1",
              one->total_force_on_belly, two->total_force_on_belly);
}

/* All of it; `names` are the instruments', as they are to be called. */
static void tell_all(struct workbook *book, const struct mensur_stock *stock,
                     const struct mensur_terms *terms, const struct side *sides, size_t count,
                     const char *const *names, bool feel) {
    for (size_t i = 0; i < count; i++) {
        book->subject = names[i];
        book->instrument = i;
        tell_side(book, stock, terms, &sides[i], feel);
    }
    for (size_t i = 1; i < count; i++) {
        struct mensur_texts subject = {0};
        if (mensur_texts_add(&subject, "%s against %s", names[i], names[0]) != MENSUR_OK) {
            mensur_texts_clear(&subject);
            book->status = MENSUR_MEMORY;
            return;
        }
        book->subject = subject.items[0];
        book->instrument = i;
        tell_difference(book, &sides[0], &sides[i]);
        book->subject = NULL;
        mensur_texts_clear(&subject);
    }
}

static enum mensur_status finish(const struct mensur_stock *stock, const struct mensur_terms *terms,
                                 const struct side *sides, size_t count, const char *const *names,
                                 bool feel, struct mensur_fault *fault,
                                 struct mensur_working *out) {
    struct workbook book;
    workbook_open(&book, terms->inches);
    tell_all(&book, stock, terms, sides, count, names, feel);
    return workbook_close(&book, fault, out);
}

static void clear_sides(struct side *sides, size_t count) {
    for (size_t i = 0; i < count; i++) {
        mensur_profile_clear(&sides[i].profile);
    }
}

static enum mensur_status out_of_memory(struct mensur_fault *fault) {
    mensur_fault_set(fault, "%s", mensur_status_text(MENSUR_MEMORY));
    return MENSUR_MEMORY;
}

enum mensur_status mensur_ask_working_compare(const struct mensur_stock *stock,
                                              const struct mensur_instrument *const *instruments,
                                              size_t count, const struct mensur_terms *terms,
                                              bool feel, struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct side *sides = calloc(count == 0 ? 1 : count, sizeof *sides);
    const char **names = calloc(count == 0 ? 1 : count, sizeof *names);
    enum mensur_status status = sides == NULL || names == NULL ? out_of_memory(fault) : MENSUR_OK;
    size_t made = 0;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = setup_make(stock, instruments[i], NULL, terms->hold, fault, &sides[i].setup);
        if (status == MENSUR_OK) {
            status = profile_make(stock, &sides[i].setup, terms, MENSUR_PART_ALL, fault,
                                  &sides[i].profile);
        }
        if (status == MENSUR_OK) {
            names[made++] = instruments[i]->name;
        }
    }
    if (status == MENSUR_OK) {
        status = finish(stock, terms, sides, count, names, feel, fault, out);
    }
    if (sides != NULL) {
        clear_sides(sides, made);
    }
    free(sides);
    free(names);
    return status;
}

/* sides[0] holds the instrument as it is, ready but without its profile. */
static enum mensur_status change_sides(const struct mensur_stock *stock,
                                       const struct mensur_instrument *changed,
                                       const struct mensur_terms *terms, bool feel,
                                       struct mensur_fault *fault, struct side *sides,
                                       struct mensur_working *out) {
    static const char *const names[] = {"as it is", "changed"};
    size_t made = 0;
    enum mensur_status status =
        setup_make(stock, changed, &sides[0].setup, terms->hold, fault, &sides[1].setup);
    for (size_t i = 0; i < 2 && status == MENSUR_OK; i++) {
        status =
            profile_make(stock, &sides[i].setup, terms, MENSUR_PART_ALL, fault, &sides[i].profile);
        made += status == MENSUR_OK;
    }
    if (status == MENSUR_OK) {
        status = finish(stock, terms, sides, 2, names, feel, fault, out);
    }
    clear_sides(sides, made);
    return status;
}

enum mensur_status mensur_ask_working_change(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms, bool feel,
                                             struct mensur_fault *fault,
                                             struct mensur_working *out) {
    struct mensur_instrument changed;
    struct side *sides = calloc(2, sizeof *sides);
    if (sides == NULL) {
        return out_of_memory(fault);
    }
    enum mensur_status status =
        setup_make(stock, instrument, NULL, terms->hold, fault, &sides[0].setup);
    if (status == MENSUR_OK) {
        status = change_apply(stock, &sides[0].setup, changes, count, fault, &changed);
        if (status == MENSUR_OK) {
            status = change_sides(stock, &changed, terms, feel, fault, sides, out);
            mensur_instrument_clear(&changed);
        }
    }
    free(sides);
    return status;
}
