/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Instruments side by side; and one instrument as it is against itself as changed. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "body_air.h"
#include "change.h"
#include "figures.h"
#include "profile.h"
#include "remarks.h"
#include "spread.h"

static void subtract_strings(const struct mensur_profile *other, const struct mensur_profile *first,
                             struct mensur_profile *out) {
    for (size_t i = 0; i < other->string_count; i++) {
        for (size_t j = 0; j < first->string_count; j++) {
            if (strcmp(other->strings[i].note, first->strings[j].note) == 0) {
                struct mensur_string_figures *figures = &out->strings[out->string_count++];
                *figures = other->strings[i];
                figures->string = NULL;
                figures->tuned_to[0] = '\0';
                figures->breaking_margin_at_least = MENSUR_UNSURE;
                figures->in_made_for_range = MENSUR_UNSURE;
                figures->density_from = NULL;
                figures->own = MENSUR_UNSURE;
                mensur_figures_subtract(MENSUR_SCOPE_STRING, &other->strings[i], &first->strings[j],
                                        figures);
            }
        }
    }
}

static void subtract_positions(const struct mensur_profile *other,
                               const struct mensur_profile *first, struct mensur_profile *out) {
    for (size_t i = 0; i < other->position_count; i++) {
        for (size_t j = 0; j < first->position_count; j++) {
            if (strcmp(other->positions[i].name, first->positions[j].name) == 0) {
                struct mensur_position *position = &out->positions[out->position_count++];
                *position = other->positions[i];
                mensur_figures_subtract(MENSUR_SCOPE_POSITION, &other->positions[i],
                                        &first->positions[j], position);
            }
        }
    }
}

static enum mensur_status subtract(const struct mensur_profile *other,
                                   const struct mensur_profile *first, struct mensur_profile *out) {
    struct mensur_profile difference = {0};
    enum mensur_status status =
        mensur_text_copy(other->instrument, strlen(other->instrument), &difference.instrument);
    if (status != MENSUR_OK) {
        return status;
    }
    difference.lengths.string_length_measured = MENSUR_UNSURE;
    difference.lengths.built = MENSUR_UNSURE;
    mensur_figures_subtract(MENSUR_SCOPE_TOTAL, other, first, &difference);
    mensur_figures_subtract(MENSUR_SCOPE_HAND, other, first, &difference);
    mensur_figures_subtract(MENSUR_SCOPE_COMPARED, other, first, &difference);
    mensur_figures_subtract(MENSUR_SCOPE_INSTRUMENT, &other->lengths, &first->lengths,
                            &difference.lengths);
    subtract_strings(other, first, &difference);
    subtract_positions(other, first, &difference);
    *out = difference;
    return MENSUR_OK;
}

/* Differences and remarks of a comparison whose instruments are there. */
static enum mensur_status hold_against_first(struct mensur_comparison *comparison) {
    enum mensur_status status = MENSUR_OK;
    body_air_compare(comparison->instruments, comparison->count);
    for (size_t i = 1; i < comparison->count && status == MENSUR_OK; i++) {
        status = subtract(&comparison->instruments[i], &comparison->instruments[0],
                          &comparison->differences[i - 1]);
        if (status == MENSUR_OK) {
            remarks_add(&comparison->instruments[0], &comparison->instruments[i],
                        comparison->changed, &comparison->remarks);
            status = comparison->remarks.status;
        }
    }
    return status;
}

static enum mensur_status make_room(struct mensur_comparison *comparison, size_t count) {
    comparison->instruments = calloc(count, sizeof *comparison->instruments);
    comparison->differences = calloc(count, sizeof *comparison->differences);
    comparison->count =
        comparison->instruments == NULL || comparison->differences == NULL ? 0 : count;
    return comparison->count == 0 ? MENSUR_MEMORY : MENSUR_OK;
}

static enum mensur_status finish(struct mensur_comparison *comparison, enum mensur_status status,
                                 struct mensur_fault *fault, struct mensur_comparison *out) {
    if (status == MENSUR_OK) {
        status = hold_against_first(comparison);
    }
    if (status != MENSUR_OK) {
        mensur_comparison_clear(comparison);
        return tell_memory(status, fault);
    }
    *out = *comparison;
    return MENSUR_OK;
}

enum mensur_status mensur_ask_compare(const struct mensur_stock *stock,
                                      const struct mensur_instrument *const *instruments,
                                      size_t count, const struct mensur_terms *terms,
                                      struct mensur_fault *fault, struct mensur_comparison *out) {
    struct mensur_comparison comparison = {.count = 0};
    if (count < 2) {
        mensur_fault_set(fault, "compare wants two instruments or more");
        return MENSUR_USE;
    }
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = make_room(&comparison, count);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = mensur_ask_profile_with(solver, stock, instruments[i], terms, MENSUR_PART_ALL,
                                         fault, &comparison.instruments[i]);
    }
    mensur_solver_free(solver);
    return finish(&comparison, status, fault, out);
}

enum mensur_status mensur_ask_change(const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct mensur_change *changes, size_t count,
                                     const struct mensur_terms *terms, struct mensur_fault *fault,
                                     struct mensur_comparison *out) {
    struct mensur_comparison comparison = {.changed = true};
    struct mensur_instrument changed;
    struct setup before, after;
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = change_make(solver, stock, instrument, changes, count, terms->hold, fault, &before,
                             &changed, &after);
    }
    if (status != MENSUR_OK) {
        mensur_solver_free(solver);
        return tell_memory(status, fault);
    }
    status = make_room(&comparison, 2);
    struct mensur_profile *profiles = comparison.instruments;
    if (status == MENSUR_OK) {
        status = profile_make(stock, &before, terms, MENSUR_PART_ALL, fault, &profiles[0]);
    }
    if (status == MENSUR_OK) {
        status = profile_make(stock, &after, terms, MENSUR_PART_ALL, fault, &profiles[1]);
    }
    if (status == MENSUR_OK) {
        status = spread_change(stock, &before, &changed, changes, count, terms, profiles);
    }
    if (status == MENSUR_OK) {
        change_tell(&before, &after, changes, count, profiles, &comparison.remarks);
        status = comparison.remarks.status;
        comparison.verdict_count = comparison.remarks.count;
        comparison.cuts_built = change_cuts(&before, &after);
    }
    mensur_solver_free(solver);
    mensur_instrument_clear(&changed);
    return finish(&comparison, status, fault, out);
}
