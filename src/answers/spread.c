/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty of an answer: JCGM 100:2008, 5.1.2, by physics' propagation. One function from all
 * measurements that say how sure they are, of the instruments and of their strings, and from what
 * is assumed of the instruments and taken from the strings' materials, with its usual spread, to
 * all figures of the answer at once: its profiles, where the choice of a decision begins and ends,
 * and what its wishes are about at the recommended place. */
#include "spread.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "change.h"
#include "figures.h"
#include "likelihood.h"
#include "profile.h"
#include "propagate.h"

/* About 95 in a hundred lie within so many standard uncertainties (JCGM 100:2008, 6.3.3, from
 * memory). */
static const double coverage = 2.0;

/* The profiles of an answer: the instrument as it is; as changed, or at the recommended place; the
 * liked one. */
enum { PRESENT, OTHER, LIKED, PROFILES };

/* Further figures of a decision, before a place is chosen: where what all wishes allow begins and
 * ends, and where the strings are as short and as long as they are made for. Then: one a wish. */
enum { LOW_END, HIGH_END, MADE_FOR_LOW, MADE_FOR_HIGH, ENDS };

#define OF(profile) (1U << (profile))

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

enum {
    SPEC_FIELDS = sizeof spec_fields / sizeof spec_fields[0],
    CHANGES_MAX = MENSUR_FIELD_COUNT + MENSUR_CHANGE_COUNT, /* one for each */
    /* Two instruments, or one and its changes, and the strings of both. */
    MEASURED_MAX = 2 * (MENSUR_FIELD_COUNT + MENSUR_STRINGS_MAX * SPEC_FIELDS),
    /* What is assumed of both, and density and strength of each string's core, densities of its
     * wrappings. */
    ASSUMED_MAX = 2 * (MENSUR_FIELD_COUNT + MENSUR_STRINGS_MAX * (2 + MENSUR_WRAPS_MAX)),
    INPUTS_MAX = MEASURED_MAX + ASSUMED_MAX,
    FIGURES_MAX = PROFILES * sizeof(struct mensur_spread) / sizeof(double)
};

/* A measurement that says how sure it is, or a value that is assumed with its usual spread. */
struct input {
    struct mensur_quantity *slot; /* where the computation reads a measurement */
    double *assumed;              /* where it reads an assumed value; NULL: it was stated */
    const char *owner;            /* the liked instrument's name; NULL */
    const char *note;             /* of a string, name of a material; NULL */
    const char *field;
    unsigned of; /* the profiles that it stands behind */
};

/* Strings that an answer follows from. */
struct strung {
    const char *set;                    /* NULL: none */
    const struct mensur_tuning *tuning; /* NULL: none */
    const char *owner;                  /* as an input's */
    unsigned of;                        /* as an input's */
};

/* A figure of a profile, and its like-named one in the spread. */
struct figure {
    int of; /* which profile */
    size_t in_profile, in_spread;
};

/* An answer as a function of its measurements: what it is computed from, each measurement a copy
 * that can be moved, texts borrowed. */
struct record {
    struct mensur_solver *solver; /* borrowed */
    struct mensur_stock stock;    /* with the strings of the sets that are used alone, and
                                     materials, owned */
    const struct mensur_terms *terms;
    unsigned parts;
    struct mensur_instrument instrument;
    struct mensur_change changes[CHANGES_MAX];
    size_t change_count;
    const struct search *search; /* of a decision, as it was asked; NULL */
    struct mensur_wishes wishes; /* its `like` is the one below, or NULL */
    struct mensur_instrument like;
    double place;      /* the recommended one, m; NaN: the present one, as sure as it is */
    bool chosen;       /* the further figures are of the wishes at that place; else ENDS */
    size_t more_count; /* of further figures */
    double more[WISH_LINES_MAX];               /* they, as the answer has them; NaN unknown */
    struct mensur_profile *profiles[PROFILES]; /* of the answer; NULL where it has none */
    struct mensur_profile moved[PROFILES];     /* the same with the measurements moved */
    double off[2][MENSUR_FIELD_COUNT]; /* what is assumed of the instrument and of the liked one */
    size_t input_count, figure_count, assumed_count;
    struct input inputs[INPUTS_MAX];
    struct mensur_quantity assumed[ASSUMED_MAX]; /* the slots of what is assumed */
    struct figure figures[FIGURES_MAX];
    enum mensur_status failed; /* what kept figures from being computed: memory */
};

/* A measurement that says how sure it is; one that is met again stands behind both. */
static void add(struct record *record, struct mensur_quantity *slot, struct input input) {
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
static void add_assumed_fields(struct record *record, const struct mensur_instrument *instrument,
                               double *off, const char *owner, unsigned of) {
    struct setup setup;
    if (setup_make(record->solver, &record->stock, instrument, NULL, record->terms->hold, NULL,
                   &setup) != MENSUR_OK) {
        return;
    }
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (setup.origin[f] == SETUP_ASSUMED) {
            add_assumed(record, &off[f], mensur_size_spread(&setup.size, (enum mensur_field)f),
                        (struct input){.owner = owner,
                                       .field = mensur_field_info((enum mensur_field)f)->name,
                                       .of = of});
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

static void add_fields(struct record *record, struct mensur_instrument *instrument,
                       const char *owner, unsigned of) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        add(record, &instrument->measure[f],
            (struct input){
                .owner = owner, .field = mensur_field_info((enum mensur_field)f)->name, .of = of});
    }
}

static struct mensur_quantity *spec_quantity(struct mensur_string_spec *spec, size_t i) {
    return (struct mensur_quantity *)(void *)((char *)spec + spec_fields[i].offset);
}

static bool is_used(const struct mensur_string_spec *spec, const struct strung *strung,
                    size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (strung[i].set != NULL && spec->set != NULL && strcmp(strung[i].set, spec->set) == 0) {
            return true;
        }
    }
    return false;
}

/* Copies the strings of the sets that are used, and their materials. */
static enum mensur_status own_stock(struct record *record, const struct strung *strung,
                                    size_t count) {
    const struct mensur_stock all = record->stock;
    struct mensur_string_spec *strings = malloc((all.string_count + 1) * sizeof *strings);
    struct mensur_material *materials = malloc((all.material_count + 1) * sizeof *materials);
    record->stock.strings = strings;
    record->stock.string_count = 0;
    record->stock.materials = materials;
    if (strings == NULL || materials == NULL) {
        return MENSUR_MEMORY;
    }
    memcpy(materials, all.materials, all.material_count * sizeof *materials);
    for (size_t i = 0; i < all.string_count; i++) {
        if (is_used(&all.strings[i], strung, count)) {
            strings[record->stock.string_count++] = all.strings[i];
        }
    }
    return MENSUR_OK;
}

/* Takes what is known of the strings that are on: their measurements, or their materials. */
static void add_strings(struct record *record, const struct strung *strung, size_t count,
                        bool materials) {
    struct mensur_string_spec *strings = record->stock.strings;
    for (size_t s = 0; s < count; s++) {
        const struct mensur_tuning *tuning = strung[s].tuning;
        const struct mensur_string_spec *specs[MENSUR_STRINGS_MAX];
        if (tuning != NULL) {
            mensur_stock_set_strings(&record->stock, strung[s].set, tuning, specs);
        }
        for (size_t i = 0; tuning != NULL && i < tuning->count; i++) {
            const struct mensur_string_spec *spec = specs[i];
            if (spec != NULL && materials) {
                add_materials(record, spec, strung[s].of);
            }
            for (size_t f = 0; spec != NULL && !materials && f < SPEC_FIELDS; f++) {
                add(record, spec_quantity(&strings[spec - strings], f),
                    (struct input){.owner = strung[s].owner,
                                   .note = spec->note.name,
                                   .field = spec_fields[f].field,
                                   .of = strung[s].of});
            }
        }
    }
}

/* Keeps the changes, of those to the same thing the last. A value that was set has a ± of its own;
 * one that was moved keeps that of what it was. */
static void add_changes(struct record *record, const struct mensur_change *changes, size_t count) {
    const struct mensur_change *last[CHANGES_MAX] = {NULL};
    for (size_t i = 0; i < count; i++) {
        last[changes[i].of == MENSUR_CHANGE_MEASURE ? (int)changes[i].field
                                                    : MENSUR_FIELD_COUNT + (int)changes[i].of] =
            &changes[i];
    }
    for (int i = 0; i < CHANGES_MAX; i++) {
        if (last[i] == NULL) {
            continue;
        }
        struct mensur_change *change = &record->changes[record->change_count++];
        *change = *last[i];
        if (i < MENSUR_FIELD_COUNT) {
            add(record, &change->value,
                (struct input){.field = mensur_field_info(change->field)->name, .of = OF(OTHER)});
        }
    }
}

static struct strung strung_as(const struct mensur_stock *stock,
                               const struct mensur_instrument *instrument, const char *owner,
                               unsigned of) {
    return (struct strung){.set = instrument->set,
                           .tuning = mensur_instrument_tuning(stock, instrument),
                           .owner = owner,
                           .of = of};
}

/* The figures of a profile, and nothing that is said of them. */
static const struct mensur_profile *find_figures(struct record *record, const struct setup *setup,
                                                 int which) {
    struct mensur_profile *profile = &record->moved[which];
    *profile = (struct mensur_profile){.total_tension = NAN, .total_force_on_belly = NAN};
    setup_lengths(setup, &profile->lengths);
    if ((record->parts & MENSUR_PART_STRINGS) != 0) {
        /* Without remarks it takes no memory. */
        (void)profile_strings(&record->stock, setup, record->terms, false, profile);
    }
    if ((record->parts & MENSUR_PART_FINGERS) != 0) {
        profile_fingers(setup, record->terms, profile);
    }
    return profile;
}

/* Sets an instrument up and finds its figures; NULL where it cannot be made. */
static const struct mensur_profile *set_up(struct record *record,
                                           const struct mensur_instrument *instrument,
                                           const struct setup *from, int which, struct setup *out) {
    return setup_make(record->solver, &record->stock, instrument, from, record->terms->hold, NULL,
                      out) == MENSUR_OK
               ? find_figures(record, out, which)
               : NULL;
}

/* The changes made again; NULL where they cannot be. */
static const struct mensur_profile *change_again(struct record *record,
                                                 const struct setup *before) {
    struct mensur_instrument changed;
    struct setup after;
    enum mensur_status status =
        change_apply(&record->stock, before, record->changes, record->change_count, NULL, &changed);
    if (status != MENSUR_OK) {
        record->failed = status == MENSUR_MEMORY ? status : record->failed;
        return NULL;
    }
    const struct mensur_profile *profile = set_up(record, &changed, before, OTHER, &after);
    mensur_instrument_clear(&changed);
    return profile;
}

static void put_ends(const struct search *search, const struct wish_list *list, double *more) {
    const struct ends ends = wish_list_ends(search, list);
    more[LOW_END] = ends.low;
    more[HIGH_END] = ends.high;
    more[MADE_FOR_LOW] = list->has_made_for ? list->made_for.want.place_low : NAN;
    more[MADE_FOR_HIGH] = list->has_made_for ? list->made_for.want.place_high : NAN;
}

/* The decision made again: its ends, or, the maker keeping to the recommended place, the figures
 * there. */
static void decide_again(struct record *record, const struct setup *setup,
                         const struct mensur_profile **known, double *more) {
    struct search search;
    struct wish_list list;
    struct setup moved;
    const struct setup *at = setup;
    if (search_make(&record->stock, setup, record->terms, record->search->for_stop, NULL,
                    &search) != MENSUR_OK) {
        return;
    }
    if (record->chosen && !isnan(record->place)) {
        at = search_setup(&search, record->place, &moved) == MENSUR_OK ? &moved : NULL;
    }
    if (record->profiles[OTHER] != NULL && at != NULL) {
        known[OTHER] = find_figures(record, at, OTHER);
    }
    bool liked = record->wishes.like == NULL || known[LIKED] != NULL;
    if (record->more_count == 0 || at == NULL || !liked ||
        wish_list_make(&search, &record->wishes, known[PRESENT], known[LIKED], NULL, &list) !=
            MENSUR_OK) {
        return;
    }
    if (!record->chosen) {
        wish_list_find(&search, &list);
        put_ends(&search, &list, more);
        return;
    }
    for (size_t i = 0; i < record->more_count; i++) {
        more[i] = wish_line_figure(&search, at, &list.lines[i], known[PRESENT], known[LIKED]);
    }
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

static void figures_at(const double *x, void *context, double *y) {
    struct record *record = context;
    const struct mensur_profile *known[PROFILES] = {NULL};
    struct setup setup;
    struct setup liked;
    double more[WISH_LINES_MAX];
    for (size_t i = 0; i < WISH_LINES_MAX; i++) {
        more[i] = NAN;
    }
    for (size_t i = 0; i < record->input_count; i++) {
        record->inputs[i].slot->value = x[i];
        if (record->inputs[i].assumed != NULL) {
            *record->inputs[i].assumed = x[i];
        }
    }
    if (record->wishes.like != NULL) {
        known[LIKED] = set_up(record, record->wishes.like, NULL, LIKED, &liked);
    }
    known[PRESENT] = set_up(record, &record->instrument, NULL, PRESENT, &setup);
    if (known[PRESENT] != NULL && record->search != NULL) {
        decide_again(record, &setup, known, more);
    } else if (known[PRESENT] != NULL && record->change_count > 0) {
        known[OTHER] = change_again(record, &setup);
    }
    put_figures(record, known, more, y);
}

/* The measurements with the largest shares, most first, which are used up; with their owners, or
 * bare. */
static size_t matters_most(const struct record *record, double *shares, bool owned,
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
        snprintf(out[found].field, sizeof out[found].field, "%.24s%s%s%s%s", owner,
                 *owner == '\0' ? "" : " ", note, *note == '\0' ? "" : " ", input->field);
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
    spread->matter_count += matters_most(record, shares, false, &spread->matters[first]);
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

/* What a propagation gives: of each figure, the listed ones and then the further ones, its standard
 * uncertainty, and each measurement's share of the variance and part with its sign. */
struct propagated {
    size_t measurements, listed;
    const double *u, *parts;
    double *shares; /* used up by matters_most */
};

typedef enum mensur_status take_more(const struct record *record,
                                     const struct propagated *propagated, void *context);

/* How sure the ends of a decision are, and what matters most to the less sure one. */
static enum mensur_status take_ends(const struct record *record,
                                    const struct propagated *propagated, void *context) {
    struct mensur_decision *decision = context;
    const double *u = propagated->u + propagated->listed;
    size_t less_sure = propagated->listed + (u[HIGH_END] > u[LOW_END] ? HIGH_END : LOW_END);
    decision->place_low_plus_minus = u[LOW_END];
    decision->place_high_plus_minus = u[HIGH_END];
    decision->made_for_low_plus_minus = u[MADE_FOR_LOW];
    decision->made_for_high_plus_minus = u[MADE_FOR_HIGH];
    decision->matter_count = matters_most(
        record, &propagated->shares[less_sure * propagated->measurements], true, decision->matters);
    return MENSUR_OK;
}

/* How likely all wishes are met at the recommended place, and what the least sure of them hangs on.
 */
struct wished {
    const struct wish_list *list;
    struct mensur_decision *decision;
};

static enum mensur_status likelihood_of(const struct record *record,
                                        const struct propagated *propagated, size_t first,
                                        size_t count, const struct wish_list *list, double *out) {
    const size_t n = propagated->measurements;
    double *work = calloc(count * (n + count + 5), sizeof *work);
    if (work == NULL) {
        return MENSUR_MEMORY;
    }
    double *low = work + count * (n + count + 3);
    double *high = low + count;
    const struct mensur_ranges ranges = {.x_count = n,
                                         .y_count = count,
                                         .parts =
                                             propagated->parts + (propagated->listed + first) * n,
                                         .y = record->more + first,
                                         .low = low,
                                         .high = high,
                                         .work = work};
    for (size_t i = 0; i < count; i++) {
        low[i] = list->lines[first + i].low;
        high[i] = list->lines[first + i].high;
    }
    (void)mensur_likelihood(&ranges, out); /* it stays unknown where a figure is */
    free(work);
    return MENSUR_OK;
}

static enum mensur_status take_likelihood(const struct record *record,
                                          const struct propagated *propagated, void *context) {
    const struct wished *wished = context;
    struct mensur_decision *decision = wished->decision;
    struct mensur_matter matters[MENSUR_MATTERS_MAX];
    double least = INFINITY;
    size_t least_sure = 0;
    if (record->more_count == 0) {
        return MENSUR_OK;
    }
    enum mensur_status status = likelihood_of(record, propagated, 0, record->more_count,
                                              wished->list, &decision->likelihood);
    for (size_t i = 0; i < record->more_count && status == MENSUR_OK; i++) {
        double one = NAN;
        status = likelihood_of(record, propagated, i, 1, wished->list, &one);
        if (one < least) {
            least = one;
            least_sure = i;
        }
    }
    double *shares =
        &propagated->shares[(propagated->listed + least_sure) * propagated->measurements];
    if (status == MENSUR_OK && matters_most(record, shares, true, matters) > 0) {
        snprintf(decision->measure_better, sizeof decision->measure_better, "%s", matters[0].field);
    }
    return status;
}

/* Fills in the spreads of the profiles, and takes those of further figures. */
static enum mensur_status find_spreads(struct record *record, take_more *take, void *context) {
    const size_t n = record->input_count;
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

/* A record, for finish to free; NULL without memory. */
static struct record *record_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                                  const struct mensur_terms *terms, unsigned parts,
                                  const struct mensur_instrument *instrument) {
    struct record *out = malloc(sizeof *out);
    if (out == NULL) {
        return NULL;
    }
    *out = (struct record){.solver = solver,
                           .stock = *stock,
                           .terms = terms,
                           .parts = parts,
                           .instrument = *instrument,
                           .place = NAN};
    add_fields(out, &out->instrument, NULL, OF(PRESENT) | OF(OTHER));
    return out;
}

/* What an answer follows from is complete: its strings, then what is assumed, and then its spreads.
 */
static enum mensur_status finish(struct record *record, const struct strung *strung, size_t count,
                                 take_more *take, void *context) {
    enum mensur_status status = own_stock(record, strung, count);
    if (status == MENSUR_OK) {
        add_strings(record, strung, count, false);
    }
    if (status == MENSUR_OK && record->input_count > 0) {
        record->instrument.assumed_off = record->off[0];
        record->like.assumed_off = record->off[1];
        add_assumed_fields(record, &record->instrument, record->off[0], NULL,
                           OF(PRESENT) | OF(OTHER));
        if (record->wishes.like != NULL) {
            add_assumed_fields(record, &record->like, record->off[1], record->like.name, OF(LIKED));
        }
        add_strings(record, strung, count, true);
        status = find_spreads(record, take, context);
    }
    free(record->stock.strings);
    free(record->stock.materials);
    free(record);
    return status;
}

/* Whether anything that a profile follows from says how sure it is; seldom anything does, and to
 * move all of it takes longer than the answer itself. */
static bool says_how_sure(const struct mensur_stock *stock,
                          const struct mensur_instrument *instrument, const struct strung *strung,
                          size_t count) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (instrument->measure[f].plus_minus > 0.0) {
            return true;
        }
    }
    for (size_t i = 0; strung->set != NULL && count > 0 && i < stock->string_count; i++) {
        bool unsure = false;
        for (size_t f = 0; f < SPEC_FIELDS; f++) {
            unsure = unsure || spec_quantity(&stock->strings[i], f)->plus_minus > 0.0;
        }
        if (unsure && is_used(&stock->strings[i], strung, count)) {
            return true;
        }
    }
    return false;
}

enum mensur_status mensur_ask_profile_with(struct mensur_solver *solver,
                                           const struct mensur_stock *stock,
                                           const struct mensur_instrument *instrument,
                                           const struct mensur_terms *terms, unsigned parts,
                                           struct mensur_fault *fault, struct mensur_profile *out) {
    const struct strung strung = strung_as(stock, instrument, NULL, OF(PRESENT));
    const size_t strung_count = (parts & MENSUR_PART_STRINGS) != 0 ? 1 : 0;
    struct mensur_profile profile;
    if (!says_how_sure(stock, instrument, &strung, strung_count)) {
        return profile_ask(solver, stock, instrument, terms, parts, fault, out);
    }
    enum mensur_status status =
        profile_ask(solver, stock, instrument, terms, parts, fault, &profile);
    if (status != MENSUR_OK) {
        return status;
    }
    struct record *record = record_make(solver, stock, terms, parts, instrument);
    if (record == NULL) {
        status = MENSUR_MEMORY;
    } else {
        record->profiles[PRESENT] = &profile;
        status = finish(record, &strung, strung_count, NULL, NULL);
    }
    if (status != MENSUR_OK) {
        mensur_profile_clear(&profile);
        return tell_memory(status, fault);
    }
    *out = profile;
    return MENSUR_OK;
}

enum mensur_status mensur_ask_profile(const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_terms *terms, unsigned parts,
                                      struct mensur_fault *fault, struct mensur_profile *out) {
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    status = status == MENSUR_OK
                 ? mensur_ask_profile_with(solver, stock, instrument, terms, parts, fault, out)
                 : tell_memory(status, fault);
    mensur_solver_free(solver);
    return status;
}

enum mensur_status spread_change(struct mensur_solver *solver, const struct mensur_stock *stock,
                                 const struct mensur_instrument *instrument,
                                 const struct mensur_instrument *changed,
                                 const struct mensur_change *changes, size_t count,
                                 const struct mensur_terms *terms,
                                 struct mensur_profile *profiles) {
    struct strung strung[] = {strung_as(stock, instrument, NULL, OF(PRESENT)),
                              strung_as(stock, changed, NULL, OF(OTHER))};
    struct record *record = record_make(solver, stock, terms, MENSUR_PART_ALL, instrument);
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->profiles[PRESENT] = &profiles[0];
    record->profiles[OTHER] = &profiles[1];
    add_changes(record, changes, count);
    return finish(record, strung, 2, NULL, NULL);
}

/* The record of a decision, with its instruments' measurements, and what strings are on. */
static struct record *decision_record(const struct search *search,
                                      const struct mensur_wishes *wishes, struct strung *strung) {
    const struct mensur_instrument *instrument = search->setup->instrument;
    struct record *record = record_make(search->setup->solver, search->stock, search->terms,
                                        MENSUR_PART_ALL, instrument);
    strung[0] = strung_as(search->stock, instrument, NULL, OF(PRESENT) | OF(OTHER));
    strung[1] = (struct strung){.set = NULL};
    if (record == NULL) {
        return NULL;
    }
    record->search = search;
    record->wishes = *wishes;
    if (wishes->like != NULL) {
        record->like = *wishes->like;
        record->wishes.like = &record->like;
        add_fields(record, &record->like, record->like.name, OF(LIKED));
        strung[1] = strung_as(search->stock, wishes->like, record->like.name, OF(LIKED));
    }
    return record;
}

enum mensur_status spread_ends(const struct search *search, const struct mensur_wishes *wishes,
                               const struct wish_list *list, struct mensur_decision *decision) {
    const struct ends ends = wish_list_ends(search, list);
    struct strung strung[2];
    struct record *record = decision_record(search, wishes, strung);
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->parts = MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS;
    record->more_count = ENDS;
    put_ends(search, list, record->more);
    if (!decision->can_meet_all && !decision->conflict.exists) {
        record->more[LOW_END] = record->more[HIGH_END] = NAN;
    }
    const bool stated = record->input_count > 0; /* of the instruments alone */
    decision->place_low_plus_minus = decision->place_high_plus_minus = NAN;
    decision->made_for_low_plus_minus = decision->made_for_high_plus_minus = NAN;
    decision->too_coarse = MENSUR_UNSURE;
    enum mensur_status status = finish(record, strung, 2, take_ends, decision);
    double open = coverage * (decision->place_low_plus_minus + decision->place_high_plus_minus);
    if (!isnan(open) && (stated || open > 0.0)) {
        /* The wishes leave less room than the measurements leave open; or lie less far apart. */
        decision->too_coarse = fabs(ends.high - ends.low) < open ? MENSUR_YES : MENSUR_NO;
    } else if (!stated) {
        /* Strings that no end hangs on are no reason to say how sure it is. */
        decision->place_low_plus_minus = decision->place_high_plus_minus = NAN;
    }
    return status;
}

enum mensur_status spread_decision(const struct search *search, const struct mensur_wishes *wishes,
                                   const struct wish_list *list, struct mensur_decision *decision) {
    struct wished wished = {list, decision};
    struct strung strung[2];
    struct record *record = decision_record(search, wishes, strung);
    struct setup at;
    if (record == NULL) {
        return MENSUR_MEMORY;
    }
    record->chosen = true;
    record->place = decision->leave ? NAN : decision->recommended_place;
    record->profiles[PRESENT] = &decision->present;
    record->profiles[OTHER] = decision->has_recommended ? &decision->recommended : NULL;
    record->profiles[LIKED] = wishes->like == NULL ? NULL : &decision->like;
    if (decision->has_recommended && list->count > 0 && !isnan(decision->place_low_plus_minus) &&
        search_setup(search, decision->recommended_place, &at) == MENSUR_OK) {
        record->more_count = list->count;
        for (size_t i = 0; i < list->count; i++) {
            record->more[i] = wish_line_figure(search, &at, &list->lines[i], &decision->present,
                                               wishes->like == NULL ? NULL : &decision->like);
        }
    }
    return finish(record, strung, 2, take_likelihood, &wished);
}
