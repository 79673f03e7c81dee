/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measurements of a shop's instruments, kept until the medians can be taken. */
#include "learning.h"

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "plausible.h"
#include "usual.h"

#if defined(__GNUC__) && !defined(__clang__)
/* gcc's analyser takes memory for lost that is kept by what a list of samples points to. */
#pragma GCC diagnostic ignored "-Wanalyzer-malloc-leak"
#endif

/* What goes with the stop by its power alone: those that are assumed where they are missing. */
static const enum mensur_field plain[] = {
    MENSUR_FIELD_BACK_ARCH,      MENSUR_FIELD_OVERSTAND,    MENSUR_FIELD_BOARD,
    MENSUR_FIELD_BOARD_NUT,      MENSUR_FIELD_NUT,          MENSUR_FIELD_ARCH,
    MENSUR_FIELD_EDGE,           MENSUR_FIELD_PROJECTION,   MENSUR_FIELD_SADDLE,
    MENSUR_FIELD_BEHIND_NUT,     MENSUR_FIELD_HOLLOW,       MENSUR_FIELD_CLEARANCE_LOW,
    MENSUR_FIELD_CLEARANCE_HIGH, MENSUR_FIELD_HEEL,         MENSUR_FIELD_SPACING_BRIDGE,
    MENSUR_FIELD_SPACING_NUT,    MENSUR_FIELD_SPACING_TAIL, MENSUR_FIELD_FOOT_SPACING};

/* Besides the measurements: the bridge's height above the projection. */
enum { OVER = MENSUR_FIELD_COUNT, KEPT };

struct sample {
    double stop, value; /* m; of the shares of the string they are parts of it */
};

/* What instruments of a family state of one thing. */
struct samples {
    struct sample *items;
    size_t count, room;
};

struct learning_family {
    size_t instruments, without_stop;
    struct samples of[KEPT];
};

struct mensur_learning {
    const struct mensur_stock *stock;
    struct mensur_solver *solver;
    struct learning_family *families; /* in the stock's order */
    struct mensur_texts sources;      /* of the rows that were learnt */
};

enum mensur_status mensur_learning_begin(const struct mensur_stock *stock,
                                         struct mensur_learning **out) {
    struct mensur_learning *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return MENSUR_MEMORY;
    }
    made->stock = stock;
    made->families = calloc(stock->family_count + 1, sizeof *made->families);
    if (made->families == NULL || mensur_solver_make(&made->solver) != MENSUR_OK) {
        mensur_learning_free(made);
        return MENSUR_MEMORY;
    }
    *out = made;
    return MENSUR_OK;
}

void mensur_learning_free(struct mensur_learning *learning) {
    if (learning == NULL) {
        return;
    }
    for (size_t i = 0; learning->families != NULL && i < learning->stock->family_count; i++) {
        for (int k = 0; k < KEPT; k++) {
            free(learning->families[i].of[k].items);
        }
    }
    free(learning->families);
    mensur_solver_free(learning->solver);
    mensur_texts_clear(&learning->sources);
    free(learning);
}

static enum mensur_status keep(struct samples *samples, double stop, double value) {
    if (isnan(value)) {
        return MENSUR_OK;
    }
    if (samples->count == samples->room) {
        size_t room = samples->room == 0 ? 16 : 2 * samples->room;
        struct sample *items = realloc(samples->items, room * sizeof *items);
        if (items == NULL) {
            return MENSUR_MEMORY;
        }
        samples->items = items;
        samples->room = room;
    }
    samples->items[samples->count++] = (struct sample){stop, value};
    return MENSUR_OK;
}

/* Takes out of the measurements what is a slip, and says it. */
static enum mensur_status leave_slips_out(const struct mensur_stock *stock,
                                          const struct mensur_family *family,
                                          const struct mensur_instrument *instrument,
                                          const char *label, struct mensur_texts *said,
                                          double *measured) {
    struct mensur_findings found;
    enum mensur_status status = MENSUR_OK;
    mensur_judge(stock, family, instrument->measure, &found);
    for (size_t i = 0; i < found.count && status == MENSUR_OK; i++) {
        const struct mensur_finding *finding = &found.items[i];
        char subject[MENSUR_FINDING_ROOM], hint[MENSUR_FINDING_ROOM];
        if (finding->slip == MENSUR_SLIP_UNUSUAL) {
            continue;
        }
        for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
            bool slipped = finding->row || f == (int)finding->field ||
                           (finding->slip == MENSUR_SLIP_EXCHANGED && f == MENSUR_FIELD_NECK);
            measured[f] = slipped ? (double)NAN : measured[f];
        }
        mensur_finding_subject(finding, subject);
        mensur_finding_hint(finding, hint);
        status = mensur_texts_add(said, "%s:%ld:1: %s: %s: %s; left out", label, instrument->line,
                                  instrument->name, subject, hint);
    }
    return status;
}

/* The string as measured, else as it follows from a measured neck; NAN where neither was, or where
 * it has no physical answer. */
static enum mensur_status find_string(struct mensur_learning *learning,
                                      const struct mensur_instrument *instrument,
                                      const double *measured, double *length) {
    struct mensur_instrument seen = *instrument;
    struct mensur_terms terms;
    struct mensur_profile profile;
    *length = measured[MENSUR_FIELD_STRING_LENGTH];
    if (!isnan(*length) || isnan(measured[MENSUR_FIELD_NECK])) {
        return MENSUR_OK;
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        seen.measure[f].plus_minus = 0.0;
        seen.measure[f].value = measured[f];
    }
    mensur_terms_init(&terms);
    enum mensur_status status =
        mensur_ask_profile_with(learning->solver, learning->stock, &seen, &terms,
                                MENSUR_PART_LENGTHS | MENSUR_PART_FIGURES_ALONE, NULL, &profile);
    if (status == MENSUR_OK) {
        *length = profile.lengths.string_length;
        mensur_profile_clear(&profile);
    }
    return status == MENSUR_MEMORY ? status : MENSUR_OK;
}

static enum mensur_status keep_shares(struct mensur_learning *learning,
                                      const struct mensur_instrument *instrument,
                                      const double *measured, struct learning_family *into) {
    static const enum mensur_field of_string[] = {MENSUR_FIELD_BOARD_LENGTH,
                                                  MENSUR_FIELD_AFTERLENGTH};
    double length = NAN;
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < 2 && status == MENSUR_OK; i++) {
        double part = measured[of_string[i]];
        if (!isnan(part) && isnan(length)) {
            status = find_string(learning, instrument, measured, &length);
        }
        status = status == MENSUR_OK ? keep(&into->of[of_string[i]], 1.0, part / length) : status;
    }
    return status;
}

enum mensur_status mensur_learning_add(struct mensur_learning *learning,
                                       const struct mensur_family *family,
                                       const struct mensur_instrument *instrument,
                                       const char *label, struct mensur_texts *said) {
    double measured[MENSUR_FIELD_COUNT];
    struct learning_family *into = &learning->families[family - learning->stock->families];
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        measured[f] = instrument->measure[f].value;
    }
    enum mensur_status status =
        leave_slips_out(learning->stock, family, instrument, label, said, measured);
    double stop = measured[MENSUR_FIELD_STOP];
    if (status != MENSUR_OK || isnan(stop)) {
        into->without_stop++;
        return status;
    }
    into->instruments++;
    if (isnan(measured[MENSUR_FIELD_ARCH])) {
        measured[MENSUR_FIELD_ARCH] =
            measured[MENSUR_FIELD_ARCH_FULL] - measured[MENSUR_FIELD_EDGE];
    }
    static const enum mensur_field others[] = {MENSUR_FIELD_STOP, MENSUR_FIELD_NECK,
                                               MENSUR_FIELD_BRIDGE};
    for (size_t i = 0; i < sizeof plain / sizeof plain[0] && status == MENSUR_OK; i++) {
        status = keep(&into->of[plain[i]], stop, measured[plain[i]]);
    }
    for (size_t i = 0; i < sizeof others / sizeof others[0] && status == MENSUR_OK; i++) {
        status = keep(&into->of[others[i]], stop, measured[others[i]]);
    }
    if (status == MENSUR_OK) {
        status = keep(&into->of[OVER], stop,
                      measured[MENSUR_FIELD_BRIDGE] - measured[MENSUR_FIELD_PROJECTION]);
    }
    return status == MENSUR_OK ? keep_shares(learning, instrument, measured, into) : status;
}

/* Median and spread of what was found. */
struct found {
    bool enough;
    double median, spread;
};

/* As measurements at the reference stop. */
static struct found find(const struct samples *samples, double *values) {
    struct found found = {.enough = samples->count >= MENSUR_LEARNING_LEAST, .median = NAN};
    if (!found.enough) {
        return found;
    }
    found.spread = gsl_stats_sd(values, 1, samples->count);
    gsl_sort(values, 1, samples->count);
    found.median = gsl_stats_median_from_sorted_data(values, 1, samples->count);
    for (size_t i = 0; i < samples->count; i++) {
        values[i] = fabs(values[i] - found.median);
    }
    gsl_sort(values, 1, samples->count);
    /* of a normal distribution the standard deviation is 1.4826 times that */
    double robust = 1.4826 * gsl_stats_median_from_sorted_data(values, 1, samples->count);
    if (samples->count >= MENSUR_LEARNING_ROBUST && robust > 0.0) {
        found.spread = robust;
    }
    return found;
}

/* The same of values that go with the stop by a power. */
static struct found find_scaled(const struct samples *samples, double stop, double power,
                                double *values) {
    for (size_t i = 0; i < samples->count; i++) {
        values[i] = samples->items[i].value * pow(stop / samples->items[i].stop, power);
    }
    return find(samples, values);
}

/* The neck at the reference stop whose rule leads to the one that was measured; see usual.c. */
static struct found find_necks(const struct samples *samples, const struct mensur_family *row,
                               double *values) {
    double stop = row->usual[MENSUR_FIELD_STOP], heel = row->usual[MENSUR_FIELD_HEEL];
    double power = mensur_field_info(MENSUR_FIELD_HEEL)->power;
    if (isnan(row->neck_semitones) || isnan(heel)) {
        return find_scaled(samples, stop, 1.0, values);
    }
    for (size_t i = 0; i < samples->count; i++) {
        double size = samples->items[i].stop / stop;
        double more = (pow(size, power) - size) * heel * exp2(row->neck_semitones / 12.0);
        values[i] = (samples->items[i].value - more) / size;
    }
    return find(samples, values);
}

static void put(struct mensur_family *row, enum mensur_field field, const struct found *found) {
    if (found->enough) {
        row->usual[field] = found->median;
        row->spread[field] = found->spread;
    }
}

/* The two heights never apart: their difference is learnt from instruments that state both, else it
 * is the family's. Where bridges alone are stated, the projection follows. The projection itself is
 * learnt already. */
static void learn_heights(const struct learning_family *from, const struct mensur_family *before,
                          struct mensur_family *row, double *values) {
    double stop = row->usual[MENSUR_FIELD_STOP], *projection = &row->usual[MENSUR_FIELD_PROJECTION];
    struct found over = find_scaled(&from->of[OVER], stop, 1.0, values);
    struct found bridge = find_scaled(&from->of[MENSUR_FIELD_BRIDGE], stop, 1.0, values);
    double apart =
        over.enough ? over.median
                    : before->usual[MENSUR_FIELD_BRIDGE] - before->usual[MENSUR_FIELD_PROJECTION];
    bool measured = from->of[MENSUR_FIELD_PROJECTION].count >= MENSUR_LEARNING_LEAST;
    if (!measured && !bridge.enough) {
        return;
    }
    if (isnan(apart)) { /* the family has no such pair: each height by itself */
        row->usual[MENSUR_FIELD_BRIDGE] =
            bridge.enough ? bridge.median : row->usual[MENSUR_FIELD_BRIDGE];
        return;
    }
    if (!measured && bridge.median > apart) {
        *projection = bridge.median - apart;
    }
    row->usual[MENSUR_FIELD_BRIDGE] = *projection + apart;
    if (over.enough) {
        row->spread[MENSUR_FIELD_BRIDGE] = over.spread;
    }
}

/* A part of the string, and its spread in parts of itself. */
static void learn_share(const struct samples *samples, double *share, double *spread,
                        double *values) {
    struct found found = find_scaled(samples, 1.0, 1.0, values);
    if (found.enough) {
        *share = found.median;
        *spread = found.spread / found.median;
    }
}

static bool same(double a, double b) {
    return !(a < b) && !(a > b) && !isnan(a) && !isnan(b);
}

/* The row as it was written: what it takes from the family that it is like, or what follows from
 * others, is left empty. */
static struct mensur_family as_written(const struct mensur_stock *stock,
                                       const struct mensur_family *family) {
    struct mensur_family row = *family;
    const struct mensur_family *like = mensur_stock_family(stock, family->like);
    double half =
        (row.usual[MENSUR_FIELD_CLEARANCE_HIGH] - row.usual[MENSUR_FIELD_CLEARANCE_LOW]) / 2.0;
    half = isnan(half) ? 0.0 : half;
    if (same(row.clearance_high_offset, half)) {
        row.clearance_high_offset = NAN;
    }
    if (same(row.clearance_low_offset, -half)) {
        row.clearance_low_offset = NAN;
    }
    if (like == NULL) {
        return row;
    }
    struct mensur_size at = mensur_size_at(stock, like, row.usual[MENSUR_FIELD_STOP]);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        enum mensur_field field = (enum mensur_field)f;
        if (field != MENSUR_FIELD_STOP && same(row.usual[f], mensur_size_usual(&at, field))) {
            row.usual[f] = NAN;
        }
        if (same(row.spread[f], mensur_size_spread(&at, field))) {
            row.spread[f] = NAN;
        }
    }
    if (same(row.board_share, mensur_size_board_share(&at))) {
        row.board_share = NAN;
    }
    if (same(row.afterlength_share, mensur_size_afterlength_share(&at))) {
        row.afterlength_share = NAN;
    }
    return row;
}

/* What the family says, and what it is like, at another stop. */
static struct mensur_family at_stop(const struct mensur_stock *stock,
                                    const struct mensur_family *family, double stop) {
    struct mensur_size at = mensur_size_at(stock, family, stop);
    struct mensur_family row = *family;
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        row.usual[f] = mensur_size_usual(&at, (enum mensur_field)f);
        row.spread[f] = mensur_size_spread(&at, (enum mensur_field)f);
    }
    row.usual[MENSUR_FIELD_STOP] = stop;
    row.board_share = mensur_size_board_share(&at);
    row.afterlength_share = mensur_size_afterlength_share(&at);
    row.clearance_high_offset = mensur_size_offset(&at, MENSUR_FIELD_CLEARANCE_HIGH);
    row.clearance_low_offset = mensur_size_offset(&at, MENSUR_FIELD_CLEARANCE_LOW);
    return row;
}

static double or_empty(double written, double learnt, double before) {
    return isnan(written) && same(learnt, before) ? (double)NAN : learnt;
}

/* What the row left empty and nothing was learnt of stays empty. */
static void leave_empty(const struct mensur_family *written, const struct mensur_family *before,
                        struct mensur_family *row) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        row->usual[f] = or_empty(written->usual[f], row->usual[f], before->usual[f]);
        row->spread[f] = or_empty(written->spread[f], row->spread[f], before->spread[f]);
    }
    row->board_share = or_empty(written->board_share, row->board_share, before->board_share);
    row->afterlength_share =
        or_empty(written->afterlength_share, row->afterlength_share, before->afterlength_share);
    row->clearance_high_offset = or_empty(
        written->clearance_high_offset, row->clearance_high_offset, before->clearance_high_offset);
    row->clearance_low_offset = or_empty(written->clearance_low_offset, row->clearance_low_offset,
                                         before->clearance_low_offset);
}

/* Where the row's values are from: those of the shop, the rest as before. */
static enum mensur_status tell_source(struct mensur_learning *learning, size_t instruments,
                                      struct mensur_learnt *out) {
    static const char ours[] = "the shop's own: ", behind[] = "; the rest: ";
    const char *rest = out->row.source;
    if (rest != NULL && strncmp(rest, ours, strlen(ours)) == 0) {
        rest = strstr(rest, behind);
        rest = rest == NULL ? NULL : rest + strlen(behind);
    }
    enum mensur_status status =
        mensur_texts_add(&learning->sources, "%s%zu instruments%s%s", ours, instruments,
                         rest != NULL ? behind : "", rest != NULL ? rest : "");
    out->row.source =
        status == MENSUR_OK ? learning->sources.items[learning->sources.count - 1] : NULL;
    return status;
}

static void learn(const struct mensur_learning *learning, const struct learning_family *from,
                  const struct mensur_family *family, double *values, struct mensur_learnt *out) {
    double stop = find_scaled(&from->of[MENSUR_FIELD_STOP], 1.0, 0.0, values).median;
    const struct mensur_family before = at_stop(learning->stock, family, stop);
    const struct mensur_family written = out->row;
    struct mensur_family *row = &out->row;
    *row = before;
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++) {
        struct found found =
            find_scaled(&from->of[plain[i]], stop, mensur_field_info(plain[i])->power, values);
        put(row, plain[i], &found);
    }
    struct found necks = find_necks(&from->of[MENSUR_FIELD_NECK], row, values);
    put(row, MENSUR_FIELD_NECK, &necks);
    learn_heights(from, &before, row, values);
    learn_share(&from->of[MENSUR_FIELD_BOARD_LENGTH], &row->board_share,
                &row->spread[MENSUR_FIELD_BOARD_LENGTH], values);
    learn_share(&from->of[MENSUR_FIELD_AFTERLENGTH], &row->afterlength_share,
                &row->spread[MENSUR_FIELD_AFTERLENGTH], values);
    leave_empty(&written, &before, row);
    out->parted = row->small_family != NULL && stop < row->own_from;
    if (out->parted) {
        row->small_family = NULL;
        row->small_to = row->own_from = NAN;
    }
}

enum mensur_status mensur_learning_row(struct mensur_learning *learning, size_t family,
                                       struct mensur_learnt *out) {
    const struct mensur_family *was = &learning->stock->families[family];
    const struct learning_family *from = &learning->families[family];
    *out = (struct mensur_learnt){.row = as_written(learning->stock, was),
                                  .instruments = from->instruments,
                                  .without_stop = from->without_stop,
                                  .learnt = from->instruments >= MENSUR_LEARNING_LEAST};
    if (!out->learnt) {
        return MENSUR_OK;
    }
    double *values = calloc(from->instruments, sizeof *values);
    if (values == NULL) {
        return MENSUR_MEMORY;
    }
    learn(learning, from, was, values, out);
    free(values);
    return tell_source(learning, from->instruments, out);
}

void mensur_learned_clear(struct mensur_learned *learned) {
    for (size_t i = 0; i < learned->count; i++) {
        free(learned->families[i].cells);
        mensur_texts_clear(&learned->families[i].warnings);
    }
    free(learned->families);
    mensur_learning_free(learned->learning);
}
