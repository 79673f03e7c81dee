/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty of an answer: JCGM 100:2008, 5.1.2, by physics' propagation. One function from all
 * measurements that say how sure they are, of the instruments and of their strings, and from what
 * is assumed of the instruments and taken from the strings' materials, with its usual spread, to
 * all figures of the answer at once. */
#include "spread_record.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"
#include "profile.h"
#include "propagate.h"

#define SPEC_FIELD(name, member)                                                                   \
    { name, offsetof(struct mensur_string_spec, member) }
#define SPEC_WRAP(i)                                                                               \
    SPEC_FIELD("wrapping's thickness", wraps[i].thickness),                                        \
        SPEC_FIELD("wrapping's density", wraps[i].density)

/* The measurements of a string. */
static const struct {
    const char *field;
    size_t offset;
} spec_fields[] = {SPEC_FIELD("linear_density", linear_density),
                   SPEC_FIELD("weighed_mass", weighed_mass),
                   SPEC_FIELD("weighed_length", weighed_length),
                   SPEC_FIELD("ball_mass", ball_mass),
                   SPEC_FIELD("stated_tension", stated_tension),
                   SPEC_FIELD("stated_length", stated_length),
                   SPEC_FIELD("stated_a4", stated_a4),
                   SPEC_FIELD("diameter", diameter),
                   SPEC_FIELD("density", density),
                   SPEC_FIELD("core_diameter", core_diameter),
                   SPEC_FIELD("modulus", modulus),
                   SPEC_FIELD("strength", strength),
                   SPEC_FIELD("made_for_low", made_for_low),
                   SPEC_FIELD("made_for_high", made_for_high),
                   SPEC_WRAP(0),
                   SPEC_WRAP(1),
                   SPEC_WRAP(2)};

_Static_assert(sizeof spec_fields / sizeof spec_fields[0] == SPEC_FIELDS, "a row for each");

void record_add(struct record *record, struct mensur_quantity *slot, struct input input) {
    if (!(slot->plus_minus > 0.0) || isnan(slot->value)) {
        return;
    }
    for (size_t i = 0; i < record->input_count; i++) {
        if (record->inputs[i].slot == slot) {
            record->inputs[i].of |= input.of;
            return;
        }
    }
    input.slot = slot;
    record->inputs[record->input_count++] = input;
}

/* A value that is assumed, of that spread; one that is met again stands behind both. */
static void add_assumed(struct record *record, double *value, double spread, struct input input) {
    if (!(spread > 0.0) || isnan(*value)) {
        return;
    }
    for (size_t i = 0; i < record->input_count; i++) {
        if (record->inputs[i].assumed == value) {
            record->inputs[i].of |= input.of;
            return;
        }
    }
    input.slot = &record->assumed[record->assumed_count++];
    input.assumed = value;
    *input.slot = (struct mensur_quantity){.value = *value, .plus_minus = spread};
    record->inputs[record->input_count++] = input;
}

/* What is assumed of an instrument: how far off it is moves, from 0. */
static void add_assumed_fields(struct record *record, struct measured *measured) {
    const struct setup *setup = measured->setup;
    measured->instrument.assumed_off = measured->off;
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (setup->origin[f] == SETUP_ASSUMED) {
            add_assumed(record, &measured->off[f],
                        mensur_size_spread(&setup->size, (enum mensur_field)f),
                        (struct input){.owner = measured->owner,
                                       .field = mensur_field_info((enum mensur_field)f)->name,
                                       .of = measured->of});
        }
    }
}

/* What is taken from a material: one value for all strings that are made of it. */
static void add_material(struct record *record, const char *name, bool density, bool strength,
                         unsigned of) {
    for (size_t i = 0; name != NULL && i < record->stock.material_count; i++) {
        struct mensur_material *material = &record->stock.materials[i];
        if (strcmp(material->name, name) != 0) {
            continue;
        }
        if (density) {
            add_assumed(record, &material->density, material->density_spread,
                        (struct input){.note = material->name, .field = "density", .of = of});
        }
        if (strength) {
            add_assumed(record, &material->strength, material->strength_spread,
                        (struct input){.note = material->name, .field = "strength", .of = of});
        }
    }
}

static void add_materials(struct record *record, const struct mensur_string_spec *spec,
                          unsigned of) {
    add_material(record, spec->material, isnan(spec->density.value), isnan(spec->strength.value),
                 of);
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (!isnan(spec->wraps[i].thickness.value)) {
            add_material(record, spec->wraps[i].material, isnan(spec->wraps[i].density.value),
                         false, of);
        }
    }
}

void record_add_instrument(struct record *record, const struct setup *setup, const char *owner,
                           unsigned of) {
    struct measured *measured = &record->instruments[record->instrument_count++];
    *measured = (struct measured){
        .instrument = *setup->instrument, .setup = setup, .owner = owner, .of = of};
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        record_add(record, &measured->instrument.measure[f],
                   (struct input){.owner = owner,
                                  .field = mensur_field_info((enum mensur_field)f)->name,
                                  .of = of});
    }
}

static struct mensur_quantity *spec_quantity(struct mensur_string_spec *spec, size_t i) {
    return (struct mensur_quantity *)(void *)((char *)spec + spec_fields[i].offset);
}

bool record_unsure(const struct mensur_string_spec *spec) {
    for (size_t f = 0; f < SPEC_FIELDS; f++) {
        const char *quantity = (const char *)spec + spec_fields[f].offset;
        if (((const struct mensur_quantity *)(const void *)quantity)->plus_minus > 0.0) {
            return true;
        }
    }
    return false;
}

bool record_uses(const struct mensur_string_spec *spec, const struct strung *strung, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (strung[i].set != NULL && spec->set != NULL && strcmp(strung[i].set, spec->set) == 0) {
            return true;
        }
        for (size_t k = 0; strung[i].given != NULL && k < strung[i].tuning->count; k++) {
            if (strung[i].given[k] == spec) {
                return true;
            }
        }
    }
    return false;
}

/* Notes where the copy of a string stands that is given. */
static void note_given(struct record *record, const struct strung *strung, size_t count,
                       const struct mensur_string_spec *spec,
                       const struct mensur_string_spec *copy) {
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; strung[i].given != NULL && k < strung[i].tuning->count; k++) {
            record->given[k] = strung[i].given[k] == spec ? copy : record->given[k];
        }
    }
}

/* Copies those that are given and no strings of the catalogue. */
static void own_others(struct record *record, const struct strung *strung, size_t count,
                       struct mensur_string_spec *strings) {
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; strung[i].given != NULL && k < strung[i].tuning->count; k++) {
            if (record->given[k] == NULL) {
                struct mensur_string_spec *copy = &strings[record->stock.string_count++];
                *copy = *strung[i].given[k];
                note_given(record, strung, count, strung[i].given[k], copy);
            }
        }
    }
}

/* Copies the strings of the sets that are used and those that are given, and their materials. */
static enum mensur_status own_stock(struct record *record, const struct strung *strung,
                                    size_t count) {
    const struct mensur_stock all = *record->from;
    struct mensur_string_spec *strings =
        malloc((all.string_count + MENSUR_STRINGS_MAX) * sizeof *strings);
    struct mensur_material *materials = malloc((all.material_count + 1) * sizeof *materials);
    record->stock.strings = strings;
    record->stock.materials = materials;
    if (strings == NULL || materials == NULL) {
        return MENSUR_MEMORY;
    }
    memcpy(materials, all.materials, all.material_count * sizeof *materials);
    record->stock.material_count = all.material_count;
    for (size_t i = 0; i < all.string_count; i++) {
        if (record_uses(&all.strings[i], strung, count)) {
            struct mensur_string_spec *copy = &strings[record->stock.string_count++];
            *copy = all.strings[i];
            note_given(record, strung, count, &all.strings[i], copy);
        }
    }
    own_others(record, strung, count, strings);
    return MENSUR_OK;
}

/* Takes what is known of the strings that are on: their measurements, or their materials. */
static void add_strings(struct record *record, const struct strung *strung, size_t count,
                        bool materials) {
    struct mensur_string_spec *strings = record->stock.strings;
    for (size_t s = 0; s < count; s++) {
        const struct mensur_tuning *tuning = strung[s].tuning;
        const struct mensur_string_spec *specs[MENSUR_STRINGS_MAX];
        if (strung[s].given != NULL) {
            memcpy(specs, record->given, sizeof specs);
        } else if (tuning != NULL) {
            mensur_stock_set_strings(&record->stock, strung[s].set, tuning, specs);
        }
        for (size_t i = 0; tuning != NULL && i < tuning->count; i++) {
            const struct mensur_string_spec *spec = specs[i];
            if (spec != NULL && materials) {
                add_materials(record, spec, strung[s].of);
            }
            for (size_t f = 0; spec != NULL && !materials && f < SPEC_FIELDS; f++) {
                record_add(record, spec_quantity(&strings[spec - strings], f),
                           (struct input){.owner = strung[s].owner,
                                          .note = spec->note.name,
                                          .field = spec_fields[f].field,
                                          .of = strung[s].of});
            }
        }
    }
}

struct strung record_strung(const struct mensur_stock *stock,
                            const struct mensur_instrument *instrument, const char *owner,
                            unsigned of) {
    return (struct strung){.set = instrument->set,
                           .tuning = mensur_instrument_tuning(stock, instrument),
                           .owner = owner,
                           .of = of};
}

const struct mensur_profile *record_figures(struct record *record, const struct setup *setup,
                                            int which) {
    struct mensur_profile *profile = &record->moved[which];
    *profile = (struct mensur_profile){.total_tension = NAN,
                                       .total_force_on_belly = NAN,
                                       .force_on_treble_foot = NAN,
                                       .force_on_bass_foot = NAN,
                                       .neck_moment = NAN};
    setup_lengths(setup, &profile->lengths);
    if (which == OTHER && record->given[0] != NULL) {
        profile_strings_of(&record->stock, setup, record->terms, record->given, profile);
    } else if ((record->parts & MENSUR_PART_STRINGS) != 0) {
        /* Without remarks it takes no memory. */
        (void)profile_strings(&record->stock, setup, record->terms, MENSUR_PART_FIGURES_ALONE,
                              profile);
    }
    if ((record->parts & MENSUR_PART_FINGERS) != 0) {
        profile_fingers(setup, record->terms, profile);
    }
    return profile;
}

const struct mensur_profile *record_set_up(struct record *record,
                                           const struct mensur_instrument *instrument,
                                           const struct setup *from, int which, struct setup *out) {
    return setup_make(record->instruments[0].setup->solver, &record->stock, instrument, from,
                      record->terms->hold, NULL, out) == MENSUR_OK
               ? record_figures(record, out, which)
               : NULL;
}

static void list_numbers(struct record *record, struct mensur_figures figures,
                         struct figure figure) {
    for (size_t i = 0; i < figures.count; i++) {
        if (figures.items[i].type == MENSUR_FIGURE_NUMBER &&
            (figures.items[i].flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            struct figure *next = &record->figures[record->figure_count++];
            *next = figure;
            next->in_profile += figures.items[i].offset;
            next->in_spread += figures.items[i].offset;
        }
    }
}

#define FIGURE(which, member)                                                                      \
    ((struct figure){.of = (which),                                                                \
                     .in_profile = offsetof(struct mensur_profile, member),                        \
                     .in_spread = offsetof(struct mensur_spread, member)})

/* Lists the figures of a profile that carry a ±. */
static void list_figures(struct record *record, int which) {
    const struct mensur_profile *profile = record->profiles[which];
    record->figures[record->figure_count++] = FIGURE(which, total_tension);
    record->figures[record->figure_count++] = FIGURE(which, total_force_on_belly);
    record->figures[record->figure_count++] = FIGURE(which, force_on_treble_foot);
    record->figures[record->figure_count++] = FIGURE(which, force_on_bass_foot);
    record->figures[record->figure_count++] = FIGURE(which, neck_moment);
    list_numbers(record, mensur_figures(MENSUR_SCOPE_INSTRUMENT), FIGURE(which, lengths));
    for (size_t i = 0; i < profile->string_count; i++) {
        list_numbers(record, mensur_figures(MENSUR_SCOPE_STRING), FIGURE(which, strings[i]));
    }
    for (size_t i = 0; i < profile->position_count; i++) {
        list_numbers(record, mensur_figures(MENSUR_SCOPE_POSITION), FIGURE(which, positions[i]));
    }
}

/* The listed figures out of the profiles; of one that is NULL they are unknown. Then the further
 * ones. */
static void put_figures(const struct record *record, const struct mensur_profile *const *profiles,
                        const double *more, double *y) {
    for (size_t k = 0; k < record->figure_count; k++) {
        const struct figure *figure = &record->figures[k];
        const char *profile = (const char *)profiles[figure->of];
        y[k] =
            profile == NULL ? NAN : *(const double *)(const void *)(profile + figure->in_profile);
    }
    memcpy(y + record->figure_count, more, record->more_count * sizeof *y);
}

static void put_inputs(struct record *record, const double *x) {
    for (size_t i = 0; i < record->input_count; i++) {
        record->inputs[i].slot->value = x[i];
        if (record->inputs[i].assumed != NULL) {
            *record->inputs[i].assumed = x[i];
        }
    }
}

static void figures_at(const double *x, void *context, double *y) {
    struct record *record = context;
    const struct mensur_profile *known[PROFILES] = {NULL};
    double more[WISH_LINES_MAX];
    for (size_t i = 0; i < WISH_LINES_MAX; i++) {
        more[i] = NAN;
    }
    put_inputs(record, x);
    record->evaluate(record, known, more);
    record->evaluation++;
    put_figures(record, known, more, y);
}

size_t record_matters(const struct record *record, double *shares, bool owned,
                      struct mensur_matter *out) {
    double sum = 0.0;
    size_t found = 0;
    for (size_t i = 0; i < record->input_count; i++) {
        sum += shares[i];
    }
    for (; found < MENSUR_MATTERS_MAX; found++) {
        size_t best = 0;
        for (size_t i = 1; i < record->input_count; i++) {
            best = shares[i] > shares[best] ? i : best;
        }
        /* What adds less than a hundredth does not matter; where a share is unknown, nothing does.
         */
        if (!(shares[best] > 0.01 * sum)) {
            break;
        }
        const struct input *input = &record->inputs[best];
        const char *owner = owned && input->owner != NULL ? input->owner : "";
        const char *note = input->note != NULL ? input->note : "";
        out[found] = (struct mensur_matter){.plus_minus = input->slot->plus_minus,
                                            .share = shares[best] / sum,
                                            .assumed = input->assumed != NULL};
        snprintf(out[found].field, sizeof out[found].field, "%.*s%s%s%s%s", MENSUR_MATTER_OWNER,
                 owner, *owner == '\0' ? "" : " ", note, *note == '\0' ? "" : " ", input->field);
        shares[best] = 0.0;
    }
    return found;
}

static size_t find_figure(const struct record *record, struct figure figure) {
    size_t k = 0;
    while (record->figures[k].of != figure.of || record->figures[k].in_spread != figure.in_spread) {
        k++;
    }
    return k;
}

/* What matters most to a figure of a profile. */
static void add_matters(const struct record *record, double *shares, const char *of,
                        struct mensur_spread *spread) {
    size_t first = spread->matter_count;
    spread->matter_count += record_matters(record, shares, false, &spread->matters[first]);
    for (size_t i = first; i < spread->matter_count; i++) {
        spread->matters[i].of = of;
    }
}

/* Gives a profile its spread, where a measurement stands behind it. */
static enum mensur_status put_spread(const struct record *record, int which, const double *u,
                                     double *shares) {
    struct mensur_profile *profile = record->profiles[which];
    unsigned of = 0;
    for (size_t i = 0; i < record->input_count; i++) {
        of |= record->inputs[i].assumed == NULL ? record->inputs[i].of : 0;
    }
    if (profile == NULL || (of & OF(which)) == 0) {
        return MENSUR_OK;
    }
    struct mensur_spread *spread = calloc(1, sizeof *spread);
    if (spread == NULL) {
        return MENSUR_MEMORY;
    }
    profile->spread = spread;
    spread->lengths.string_length_measured = MENSUR_UNSURE;
    spread->lengths.built = MENSUR_UNSURE;
    spread->string_count = profile->string_count;
    for (size_t i = 0; i < profile->string_count; i++) {
        strcpy(spread->strings[i].note, profile->strings[i].note);
        spread->strings[i].in_made_for_range = MENSUR_UNSURE;
        spread->strings[i].own = MENSUR_UNSURE;
    }
    spread->position_count = profile->position_count;
    memcpy(spread->positions, profile->positions, sizeof spread->positions);
    for (size_t k = 0; k < record->figure_count; k++) {
        if (record->figures[k].of == which) {
            *(double *)(void *)((char *)spread + record->figures[k].in_spread) = u[k];
        }
    }
    const size_t length = find_figure(record, FIGURE(which, lengths.string_length));
    const size_t tension = find_figure(record, FIGURE(which, total_tension));
    const size_t angle = find_figure(record, FIGURE(which, lengths.break_angle));
    if (u[length] > 0.0) {
        add_matters(record, &shares[length * record->input_count], "string_length_mm", spread);
    } else {
        add_matters(record, &shares[tension * record->input_count], "total_tension_N", spread);
    }
    add_matters(record, &shares[angle * record->input_count], "break_angle_deg", spread);
    return MENSUR_OK;
}

/* What is assumed counts where something that was stated moves a figure too; a figure that follows
 * from assumed values alone carries no ±. */
static void leave_out_unstated(const struct record *record, size_t figures, const double *y,
                               double *out, double *shares, double *parts) {
    const size_t n = record->input_count;
    for (size_t k = 0; k < figures; k++) {
        double stated = 0.0;
        for (size_t i = 0; i < n; i++) {
            stated += record->inputs[i].assumed == NULL ? shares[k * n + i] : 0.0;
        }
        if (stated <= 0.0) {
            out[k] = isnan(y[k]) ? NAN : 0.0;
            memset(&shares[k * n], 0, n * sizeof *shares);
            memset(&parts[k * n], 0, n * sizeof *parts);
        }
    }
}

enum mensur_status record_propagate(struct record *record, take_more *take, void *context) {
    const size_t n = record->input_count;
    if (n == 0) {
        return MENSUR_OK;
    }
    record->evaluation = 0;
    record->figure_count = 0;
    for (int p = 0; p < PROFILES; p++) {
        if (record->profiles[p] != NULL) {
            list_figures(record, p);
        }
    }
    const size_t m = record->figure_count + record->more_count;
    double *x = calloc(3 * n + m * (4 + 2 * n), sizeof *x);
    if (x == NULL) {
        return MENSUR_MEMORY;
    }
    double *u = x + n;
    double *y = u + n;
    double *out = y + m;
    double *shares = out + m;
    double *parts = shares + m * n;
    const struct mensur_propagation from = {.figures = figures_at,
                                            .context = record,
                                            .x_count = n,
                                            .x = x,
                                            .u = u,
                                            .y_count = m,
                                            .y = y,
                                            .parts = parts,
                                            .work = parts + m * n};
    const struct propagated propagated = {n, record->figure_count, out, parts, shares};
    for (size_t i = 0; i < n; i++) {
        x[i] = record->inputs[i].slot->value;
        u[i] = record->inputs[i].slot->plus_minus;
    }
    put_figures(record, (const struct mensur_profile *const *)record->profiles, record->more, y);
    for (size_t k = 0; k < m; k++) {
        out[k] = NAN; /* and it stays so where an argument is out of range */
    }
    if (mensur_propagate(&from, shares, out) == MENSUR_OK) {
        leave_out_unstated(record, m, y, out, shares, parts);
    }
    put_inputs(record, x); /* as they were */
    enum mensur_status status = record->failed;
    for (int p = 0; p < PROFILES && status == MENSUR_OK; p++) {
        status = put_spread(record, p, out, shares);
    }
    if (status == MENSUR_OK && take != NULL) {
        status = take(record, &propagated, context);
    }
    free(x);
    return status;
}

struct record *record_make(const struct mensur_stock *stock, const struct setup *setup,
                           const struct mensur_terms *terms, unsigned parts) {
    struct record *out = malloc(sizeof *out);
    if (out == NULL) {
        return NULL;
    }
    *out = (struct record){.from = stock, .stock = *stock, .terms = terms, .parts = parts};
    out->stock.strings = NULL;
    out->stock.string_count = 0;
    out->stock.materials = NULL;
    out->stock.material_count = 0;
    record_add_instrument(out, setup, NULL, OF(PRESENT) | OF(OTHER));
    return out;
}

void record_free(struct record *record) {
    if (record != NULL) {
        free(record->stock.strings);
        free(record->stock.materials);
        free(record);
    }
}

enum mensur_status record_complete(struct record *record, const struct strung *strung,
                                   size_t count) {
    enum mensur_status status = own_stock(record, strung, count);
    if (status != MENSUR_OK) {
        return status;
    }
    add_strings(record, strung, count, false);
    if (record->input_count > 0) {
        for (size_t i = 0; i < record->instrument_count; i++) {
            add_assumed_fields(record, &record->instruments[i]);
        }
        add_strings(record, strung, count, true);
    }
    return MENSUR_OK;
}
