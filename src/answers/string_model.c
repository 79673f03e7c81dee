/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ways to a string's density, in their order: a stated density; a stated tension with the
 * length and A4 it was stated at; a construction; a plain diameter and a density. */
#include "string_model.h"

#include <math.h>
#include <string.h>

#include "string_build.h"
#include "taut_string.h"

static double or_else(double value, double otherwise) {
    return isnan(value) ? otherwise : value;
}

static double material_density(const struct mensur_stock *stock, const char *name) {
    const struct mensur_material *material = mensur_stock_material(stock, name);
    return material == NULL ? NAN : material->density;
}

static size_t find_windings(const struct mensur_stock *stock, const struct mensur_string_spec *spec,
                            struct mensur_winding *windings) {
    size_t count = 0;
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        const struct mensur_wrap *wrap = &spec->wraps[i];
        if (!isnan(wrap->thickness.value)) {
            windings[count++] = (struct mensur_winding){
                .thickness = wrap->thickness.value,
                .density = or_else(wrap->density.value, material_density(stock, wrap->material)),
                .flat = wrap->flat};
        }
    }
    return count;
}

static double stated_tension_density(const struct mensur_string_spec *spec,
                                     enum mensur_fifths fifths) {
    double frequency = NAN;
    double density = NAN;
    if (mensur_open_frequency(spec->note.semitones_from_a4, spec->note.fifths_from_a,
                              or_else(spec->stated_a4.value, 440.0), fifths,
                              &frequency) == MENSUR_OK) {
        /* Where tension or length is missing the density stays unknown. */
        (void)mensur_density_for_tension(spec->stated_length.value, frequency,
                                         spec->stated_tension.value, &density);
    }
    return density;
}

static double built_density(const struct mensur_stock *stock,
                            const struct mensur_string_spec *spec) {
    struct mensur_winding windings[MENSUR_WRAPS_MAX];
    double core = or_else(spec->density.value, material_density(stock, spec->material));
    size_t count = find_windings(stock, spec, windings);
    double density = NAN;
    if (count > 0) {
        (void)mensur_wrapped_density(or_else(spec->core_diameter.value, spec->diameter.value), core,
                                     windings, count, &density);
    } else {
        (void)mensur_plain_density(or_else(spec->diameter.value, spec->core_diameter.value), core,
                                   &density);
    }
    return density;
}

static double find_density(const struct mensur_stock *stock, const struct mensur_string_spec *spec,
                           enum mensur_fifths fifths) {
    if (!isnan(spec->linear_density.value)) {
        return spec->linear_density.value;
    }
    if (!isnan(spec->stated_tension.value)) {
        return stated_tension_density(spec, fifths);
    }
    return built_density(stock, spec);
}

/* An inch turned into metres may miss the table's end in the last digit. */
static const double same_diameter = 1e-9;

/* Least strength that the wire table asks for at a diameter, between its rows by a straight line;
 * NaN outside the table. */
static double wire_strength(const struct mensur_stock *stock, const char *material,
                            double diameter) {
    const struct mensur_wire_strength *below = NULL;
    for (size_t i = 0; material != NULL && i < stock->wire_count; i++) {
        const struct mensur_wire_strength *row = &stock->wires[i];
        if (strcmp(row->material, material) != 0) {
            continue;
        }
        if (row->diameter >= diameter) {
            if (below == NULL) {
                bool outside = row->diameter > diameter * (1.0 + same_diameter);
                return outside ? NAN : row->strength_low;
            }
            double part = (diameter - below->diameter) / (row->diameter - below->diameter);
            return below->strength_low + part * (row->strength_low - below->strength_low);
        }
        below = row;
    }
    bool at_end = below != NULL && diameter <= below->diameter * (1.0 + same_diameter);
    return at_end ? below->strength_low : NAN;
}

static void find_core(const struct mensur_stock *stock, struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    const struct mensur_material *material = mensur_stock_material(stock, spec->material);
    bool wound = !isnan(spec->wraps[0].thickness.value) || !isnan(spec->core_diameter.value);
    double diameter = or_else(spec->core_diameter.value, wound ? NAN : spec->diameter.value);
    double strands = wound ? spec->strands : or_else(spec->strands, 1.0);
    (void)mensur_core_area(diameter, &model->core_area);
    (void)mensur_core_second_moment(diameter, strands, &model->second_moment);
    model->modulus = or_else(spec->modulus.value, material == NULL ? NAN : material->modulus);
    /* Thin wire is stronger: what counts is the single strand. */
    double by_diameter = wire_strength(stock, spec->material, diameter / sqrt(strands));
    double by_material = material == NULL ? NAN : material->strength;
    model->strength = or_else(spec->strength.value, or_else(by_diameter, by_material));
}

void string_model_make(const struct mensur_stock *stock, const struct mensur_string_spec *spec,
                       enum mensur_fifths fifths, struct string_model *out) {
    struct string_model model = {.spec = spec,
                                 .linear_density = NAN,
                                 .core_area = NAN,
                                 .second_moment = NAN,
                                 .modulus = NAN,
                                 .strength = NAN};
    if (spec != NULL) {
        model.linear_density = find_density(stock, spec, fifths);
        /* A stated tension tells the density at pitch, whatever state another would be stated in.
         */
        model.slack = spec->slack &&
                      !(isnan(spec->linear_density.value) && !isnan(spec->stated_tension.value));
        find_core(stock, &model);
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

double string_model_tuned_density(const struct string_model *model, double tension) {
    double density = model->linear_density;
    if (model->slack) {
        density = NAN;
        (void)mensur_tuned_density(model->linear_density, tension, model->modulus, model->core_area,
                                   &density);
    }
    return density;
}
