/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measurements behind an answer that say how sure they are, each with the place where the
 * computation reads it. */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "spread.h"

static void add(struct mensur_quantity *slot, const char *owner, const char *field,
                struct measured *list, size_t *count) {
    if (!(slot->plus_minus > 0.0) || isnan(slot->value) || *count == MENSUR_MEASUREMENTS_MAX) {
        return;
    }
    struct measured *measured = &list[(*count)++];
    measured->slot = slot;
    snprintf(measured->field, sizeof measured->field, "%.24s%s%s", owner == NULL ? "" : owner,
             owner == NULL ? "" : " ", field);
}

void varied_add_fields(struct mensur_instrument *instrument, const char *name,
                       struct measured *list, size_t *count) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        add(&instrument->measure[f], name, mensur_field_info((enum mensur_field)f)->name, list,
            count);
    }
}

/* The measurements of a string besides its wrappings'. */
static const struct {
    const char *field;
    size_t offset;
} spec_fields[] = {{"linear_density", offsetof(struct mensur_string_spec, linear_density)},
                   {"stated_tension", offsetof(struct mensur_string_spec, stated_tension)},
                   {"stated_length", offsetof(struct mensur_string_spec, stated_length)},
                   {"diameter", offsetof(struct mensur_string_spec, diameter)},
                   {"density", offsetof(struct mensur_string_spec, density)},
                   {"core_diameter", offsetof(struct mensur_string_spec, core_diameter)},
                   {"modulus", offsetof(struct mensur_string_spec, modulus)},
                   {"strength", offsetof(struct mensur_string_spec, strength)}};

enum { SPEC_FIELDS = sizeof spec_fields / sizeof spec_fields[0] };

static void add_spec(struct mensur_string_spec *spec, struct measured *list, size_t *count) {
    const char *note = spec->note.name;
    for (size_t i = 0; i < SPEC_FIELDS; i++) {
        add((struct mensur_quantity *)(void *)((char *)spec + spec_fields[i].offset), note,
            spec_fields[i].field, list, count);
    }
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        add(&spec->wraps[i].thickness, note, "wrapping's thickness", list, count);
        add(&spec->wraps[i].density, note, "wrapping's density", list, count);
    }
}

bool spec_says_how_sure(const struct mensur_string_spec *spec) {
    for (size_t i = 0; i < SPEC_FIELDS; i++) {
        const char *quantity = (const char *)spec + spec_fields[i].offset;
        if (((const struct mensur_quantity *)(const void *)quantity)->plus_minus > 0.0) {
            return true;
        }
    }
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (spec->wraps[i].thickness.plus_minus > 0.0 || spec->wraps[i].density.plus_minus > 0.0) {
            return true;
        }
    }
    return false;
}

/* Whether two changes set the same thing. */
static bool is_alike(const struct mensur_change *one, const struct mensur_change *other) {
    if (one->set != NULL || other->set != NULL) {
        return one->set != NULL && other->set != NULL;
    }
    if (one->tuning != NULL || other->tuning != NULL) {
        return one->tuning != NULL && other->tuning != NULL;
    }
    return one->field == other->field;
}

/* Of changes that set the same thing the last one holds. */
static bool is_overtaken(const struct mensur_change *changes, size_t count, size_t i) {
    for (size_t k = i + 1; k < count; k++) {
        if (is_alike(&changes[i], &changes[k])) {
            return true;
        }
    }
    return false;
}

/* A value that was set has a ± of its own; one that was moved keeps that of what it was. */
static void take_changes(const struct mensur_change *changes, size_t count, struct varied *varied) {
    for (size_t i = 0; i < count; i++) {
        if (is_overtaken(changes, count, i)) {
            continue;
        }
        struct mensur_change *change = &varied->own_changes[varied->change_count++];
        *change = changes[i];
        if (change->set == NULL && change->tuning == NULL) {
            add(&change->value, NULL, mensur_field_info(change->field)->name, varied->measured,
                &varied->measured_count);
        }
    }
    varied->changes = varied->own_changes;
}

static void take_specs(struct varied *varied) {
    const struct mensur_instrument *instrument = &varied->instrument;
    const struct mensur_tuning *tuning = mensur_stock_tuning(
        varied->stock, instrument->tuning != NULL ? instrument->tuning : instrument->family);
    varied->spec_count = tuning == NULL ? 0 : tuning->count;
    for (size_t i = 0; i < varied->spec_count; i++) {
        const struct mensur_string_spec *spec =
            mensur_stock_set_string(varied->stock, instrument->set, &tuning->notes[i]);
        mensur_string_spec_init(&varied->specs[i]);
        if (spec != NULL) {
            varied->specs[i] = *spec;
            add_spec(&varied->specs[i], varied->measured, &varied->measured_count);
        }
    }
}

void varied_make(const struct mensur_stock *stock, const struct mensur_instrument *instrument,
                 const struct mensur_change *changes, size_t change_count, double neck, double stop,
                 const struct mensur_terms *terms, struct varied *out) {
    *out = (struct varied){.stock = stock, .terms = terms, .instrument = *instrument};
    out->neck = neck;
    out->stop = stop;
    for (size_t i = 0; i < change_count; i++) {
        /* Strings and tuning are then those of the changed instrument. Borrowed: nobody writes
         * there. NOLINTBEGIN(performance-no-int-to-ptr) */
        if (changes[i].set != NULL) {
            out->instrument.set = (char *)(size_t)(const void *)changes[i].set;
        } else if (changes[i].tuning != NULL) {
            out->instrument.tuning = (char *)(size_t)(const void *)changes[i].tuning;
        }
        /* NOLINTEND(performance-no-int-to-ptr) */
    }
    varied_add_fields(&out->instrument, NULL, out->measured, &out->measured_count);
    take_changes(changes, change_count, out);
    take_specs(out);
}

void measured_values(const struct measured *list, size_t count, double *x, double *u) {
    for (size_t i = 0; i < count; i++) {
        x[i] = list[i].slot->value;
        u[i] = list[i].slot->plus_minus;
    }
}

void measured_put(const struct measured *list, size_t count, const double *x) {
    for (size_t i = 0; i < count; i++) {
        list[i].slot->value = x[i];
    }
}

size_t matters_most(const struct measured *list, const double *u, const double *shares,
                    size_t count, struct mensur_matter *out) {
    double sum = 0.0;
    bool taken[MENSUR_MEASUREMENTS_MAX] = {false};
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        sum += shares[i];
    }
    while (found < MENSUR_MATTERS_MAX && sum > 0.0) {
        size_t best = count;
        for (size_t i = 0; i < count; i++) {
            /* What adds less than a hundredth does not matter. */
            bool counts = !taken[i] && shares[i] > 0.01 * sum;
            best = counts && (best == count || shares[i] > shares[best]) ? i : best;
        }
        if (best == count) {
            break;
        }
        taken[best] = true;
        out[found] = (struct mensur_matter){.plus_minus = u[best], .share = shares[best] / sum};
        snprintf(out[found].field, sizeof out[found].field, "%s", list[best].field);
        found++;
    }
    return found;
}
