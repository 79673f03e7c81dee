/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ways to a string's density, in their order: a stated density; mass and length of a
 * string that was weighed; a stated tension with the length and A4 it was stated at; a
 * construction; a plain diameter and a density. */
#include "string_model.h"

#include <math.h>
#include <string.h>

#include "figures.h"
#include "stock_index.h"
#include "taut_string.h"

static double or_else(double value, double otherwise) {
    return isnan(value) ? otherwise : value;
}

static double material_density(const struct mensur_stock *stock, const char *name) {
    const struct mensur_material *material = mensur_stock_material(stock, name);
    return material == NULL ? NAN : material->density;
}

static double material_modulus(const struct mensur_stock *stock, const char *name) {
    const struct mensur_material *material = mensur_stock_material(stock, name);
    return material == NULL ? NAN : material->modulus;
}

static void find_windings(const struct mensur_stock *stock, struct string_model *model) {
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        const struct mensur_wrap *wrap = &model->spec->wraps[i];
        if (!isnan(wrap->thickness.value)) {
            model->windings[model->winding_count++] = (struct mensur_winding){
                .thickness = wrap->thickness.value,
                .density = or_else(wrap->density.value, material_density(stock, wrap->material)),
                .flat = wrap->flat,
                .modulus = material_modulus(stock, wrap->material)};
        }
    }
}

/* Where tension or length is missing the density stays unknown. */
static void find_stated_tension(enum mensur_fifths fifths, struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    model->stated_a4 = or_else(spec->stated_a4.value, 440.0);
    (void)mensur_open_frequency(spec->note.semitones_from_a4, spec->note.fifths_from_a,
                                model->stated_a4, fifths, &model->stated_frequency);
    (void)mensur_density_for_tension(spec->stated_length.value, model->stated_frequency,
                                     spec->stated_tension.value, &model->linear_density);
}

static void find_density(const struct mensur_stock *stock, const struct mensur_material *material,
                         enum mensur_fifths fifths, struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    double plain = spec->diameter.value;
    double core = spec->core_diameter.value;
    find_windings(stock, model);
    model->way =
        mensur_string_way(!isnan(spec->linear_density.value), !isnan(spec->weighed_mass.value),
                          !isnan(spec->stated_tension.value), model->winding_count > 0);
    model->density = or_else(spec->density.value, material == NULL ? NAN : material->density);
    switch (model->way) {
    case MENSUR_WAY_STATED:
        model->linear_density = spec->linear_density.value;
        break;
    case MENSUR_WAY_WEIGHED:
        (void)mensur_weighed_density(spec->weighed_mass.value, or_else(spec->weighed_count, 1.0),
                                     or_else(spec->ball_mass.value, 0.0),
                                     spec->weighed_length.value, &model->linear_density);
        break;
    case MENSUR_WAY_TENSION:
        find_stated_tension(fifths, model);
        break;
    case MENSUR_WAY_WRAPPED:
        model->diameter = or_else(core, plain);
        (void)mensur_wrapped_density(model->diameter, model->density, model->windings,
                                     model->winding_count, &model->linear_density);
        break;
    case MENSUR_WAY_PLAIN:
        model->diameter = or_else(plain, core);
        (void)mensur_plain_density(model->diameter, model->density, &model->linear_density);
        break;
    }
}

/* An inch turned into metres may miss the table's end in the last digit. */
static const double same_diameter = 1e-9;

/* Puts in the strengths that the wire table asks for at a diameter, between its rows by a straight
 * line. Thinner wire than its first row is no weaker: that row is a lower bound. False where the
 * table has no row for it. */
static bool find_wire_strength(const struct mensur_stock *stock, const char *material,
                               double diameter, struct string_model *model) {
    const struct mensur_wire_strength *below = NULL;
    for (size_t i = 0; material != NULL && i < stock->wire_count; i++) {
        const struct mensur_wire_strength *row = &stock->wires[i];
        if (strcmp(row->material, material) != 0) {
            continue;
        }
        if (row->diameter >= diameter) {
            double part = below == NULL
                              ? 1.0
                              : (diameter - below->diameter) / (row->diameter - below->diameter);
            below = below == NULL ? row : below;
            model->strength =
                below->strength_low + part * (row->strength_low - below->strength_low);
            model->strength_high =
                below->strength_high + part * (row->strength_high - below->strength_high);
            model->at_least = below == row && row->diameter > diameter * (1.0 + same_diameter);
            return true;
        }
        below = row;
    }
    if (below == NULL || !(diameter <= below->diameter * (1.0 + same_diameter))) {
        return false;
    }
    model->strength = below->strength_low;
    model->strength_high = below->strength_high;
    return true;
}

/* A string's own strength; that of its wire; its material's. */
static void find_strength(const struct mensur_stock *stock, const struct mensur_material *material,
                          struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    /* Thin wire is stronger: what counts is the single strand. */
    double strand = model->core_diameter / sqrt(model->strands);
    if (!isnan(spec->strength.value)) {
        model->strength = spec->strength.value;
    } else if (!find_wire_strength(stock, spec->material, strand, model) && material != NULL) {
        bool range = material->low_strength > 0.0 && material->high_strength > 0.0;
        model->strength = range ? material->low_strength : material->strength;
        model->strength_high = range ? material->high_strength : NAN;
    }
}

static void find_core(const struct mensur_stock *stock, const struct mensur_material *material,
                      struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    bool wound = !isnan(spec->wraps[0].thickness.value) || !isnan(spec->core_diameter.value);
    model->core = mensur_core_of(spec->material);
    model->core_diameter = or_else(spec->core_diameter.value, wound ? NAN : spec->diameter.value);
    model->strands = wound ? spec->strands : or_else(spec->strands, 1.0);
    (void)mensur_core_area(model->core_diameter, &model->core_area);
    (void)mensur_core_second_moment(model->core_diameter, model->strands, &model->second_moment);
    model->solid = !wound && model->strands < 1.5;
    model->modulus = or_else(spec->modulus.value, material == NULL ? NAN : material->modulus);
    if (isnan(spec->modulus.value) && material != NULL) { /* else its own one stands for all */
        model->fast_modulus = material->fast_modulus;
        model->fast_growth = material->fast_growth;
    }
    model->expansion = material == NULL ? NAN : material->expansion;
    find_strength(stock, material, model);
}

void string_model_make(const struct mensur_stock *stock, const struct mensur_string_spec *spec,
                       enum mensur_fifths fifths, struct string_model *out) {
    struct string_model model = {.spec = spec, .stated_frequency = NAN, .strength_high = NAN};
    mensur_figures_unknown(MENSUR_SCOPE_MODEL, &model);
    if (spec != NULL) {
        const struct mensur_material *material = mensur_stock_material(stock, spec->material);
        find_density(stock, material, fifths, &model);
        find_core(stock, material, &model);
        /* A stated tension tells the density at pitch, whatever state another would be stated in;
         * what lies on a scale is slack, and counts as tuned where its stretch is not known. */
        bool stretches = !isnan(model.modulus * model.core_area);
        model.slack = model.way == MENSUR_WAY_WEIGHED
                          ? spec->slack || stretches
                          : spec->slack && model.way != MENSUR_WAY_TENSION;
    }
    *out = model;
}

double string_model_tension(const struct string_model *model, double length, double frequency) {
    double tension = NAN;
    if (model->slack) {
        (void)mensur_tension_slack(length, frequency, model->linear_density, model->modulus,
                                   model->core_area, &tension);
    } else {
        (void)mensur_tension(length, frequency, model->linear_density, &tension);
    }
    return tension;
}

double string_model_fast_modulus(const struct string_model *model, double stress) {
    double fast = NAN;
    (void)mensur_modulus_under_stress(model->fast_modulus, or_else(model->fast_growth, 0.0), stress,
                                      &fast);
    return fmax(model->modulus, fast); /* of two, the one that is known */
}

/* Strands whose number is not known: with more of them the bound grows no further. */
static const double many_strands = 1e6;

static double greatest_moment(const struct string_model *model, double modulus, size_t wrappings) {
    double moment = NAN;
    (void)mensur_greatest_second_moment(model->core_diameter, or_else(model->strands, many_strands),
                                        modulus, model->windings, wrappings, &moment);
    return moment;
}

double string_model_core_moment(const struct string_model *model) {
    return greatest_moment(model, 1.0, 0); /* whatever its modulus */
}

double string_model_greatest_moment(const struct string_model *model, double modulus) {
    bool known = model->solid || model->winding_count > 0 || model->way == MENSUR_WAY_PLAIN;
    return known ? greatest_moment(model, modulus, model->winding_count) : NAN;
}

double string_model_tuned_density(const struct string_model *model, double tension) {
    double density = model->linear_density;
    if (model->slack) {
        density = NAN;
        (void)mensur_tuned_density(model->linear_density, tension, model->modulus, model->core_area,
                                   &density);
    }
    return density;
}

double string_model_margin(const struct string_model *model, double tension) {
    double stress = NAN;
    double margin = NAN;
    (void)mensur_stress(tension, model->core_area, &stress);
    (void)mensur_breaking_margin(stress, model->strength, &margin);
    return margin;
}

bool string_set_exists(const struct mensur_stock *stock, const char *set) {
    return mensur_stock_place(stock, MENSUR_NAMED_SETS, set) < stock->string_count;
}
