/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of a string's density and core, by whichever way string_model.c took. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "string_build.h"
#include "taut_string.h"
#include "working_parts.h"

#define FROM_CIRCLES "areas of circles; round wire fills π/4 of its ring, ribbon all of it"

static double or_else(double value, double otherwise) {
    return isnan(value) ? otherwise : value;
}

static double material_density(const struct mensur_stock *stock, const char *name) {
    const struct mensur_material *material = mensur_stock_material(stock, name);
    return material == NULL ? NAN : material->density;
}

/* Where a figure of a string or of its material comes from. */
static const char *origin(double own, const char *material, char *room, size_t size) {
    if (!isnan(own) || material == NULL) {
        return "stated for the string";
    }
    snprintf(room, size, "table of materials: %.60s", material);
    return room;
}

static void stated_tension(struct workbook *book, const struct mensur_string_spec *spec,
                           const char *name, double density, enum mensur_fifths fifths) {
    const char *source = "stated for the string";
    char formula[64];
    double a4 = or_else(spec->stated_a4.value, 440.0);
    double frequency = NAN;
    (void)mensur_open_frequency(spec->note.semitones_from_a4, spec->note.fifths_from_a, a4, fifths,
                                &frequency);
    workbook_value(book, "stated pull", "T0", spec->stated_tension.value, IN_NEWTONS, source);
    workbook_value(book, "string length that it is stated for", "L0", spec->stated_length.value,
                   IN_METRES, source);
    workbook_value(book, "A4 that it is stated for", "a4", a4, IN_HERTZ, source);
    workbook_value(book, "pitch at that A4", "f0", frequency, IN_HERTZ, "as the pitch above");
    snprintf(formula, sizeof formula, "%s = 1000·{T0}/(4·{L0}²·{f0}²)", name);
    workbook_step(book, "density", formula, "in N, m and Hz", density, IN_G_PER_M,
                  "Mersenne 1636, turned round");
}

static void plain(struct workbook *book, const struct mensur_stock *stock,
                  const struct mensur_string_spec *spec, const char *name, double density) {
    char formula[64];
    char room[96];
    workbook_value(book, "diameter", "d", or_else(spec->diameter.value, spec->core_diameter.value),
                   IN_FINE_MM, "stated for the string");
    workbook_value(book, "density of the material", "ρ",
                   or_else(spec->density.value, material_density(stock, spec->material)),
                   IN_G_PER_CM3, origin(spec->density.value, spec->material, room, sizeof room));
    snprintf(formula, sizeof formula, "%s = π/4·{ρ}·{d}²", name);
    workbook_step(book, "density", formula, "in g/cm³ and mm", density, IN_G_PER_M,
                  "area of a circle");
}

/* One wrapping: its values, its outer diameter, and its term of the sum. */
static double wrapping(struct workbook *book, const struct mensur_stock *stock,
                       const struct mensur_wrap *wrap, size_t number, double inside, char *term,
                       size_t size) {
    static const char *const inner[] = {"dc", "D1", "D2", "D3"};
    char name[32];
    char formula[64];
    char room[96];
    double outside = inside + 2.0 * wrap->thickness.value;
    snprintf(name, sizeof name, "t%zu", number);
    workbook_value(book, wrap->flat ? "thickness of the ribbon" : "thickness of the wire", name,
                   wrap->thickness.value, IN_FINE_MM, "stated for the string");
    snprintf(name, sizeof name, "ρ%zu", number);
    workbook_value(book, "density of the wrapping", name,
                   or_else(wrap->density.value, material_density(stock, wrap->material)),
                   IN_G_PER_CM3, origin(wrap->density.value, wrap->material, room, sizeof room));
    snprintf(formula, sizeof formula, "D%zu = {%s} + 2·{t%zu}", number, inner[number - 1], number);
    workbook_step(book, "diameter over the wrapping", formula, NULL, outside, IN_FINE_MM,
                  FROM_DEFINITION);
    snprintf(term, size, " + {ρ%zu}%s·({D%zu}² − {%s}²)", number, wrap->flat ? "" : "·π/4", number,
             inner[number - 1]);
    return outside;
}

static void wrapped(struct workbook *book, const struct mensur_stock *stock,
                    const struct mensur_string_spec *spec, const char *name, double density) {
    char formula[512];
    char room[96];
    double diameter = or_else(spec->core_diameter.value, spec->diameter.value);
    size_t number = 0;
    workbook_value(book, "diameter of the core", "dc", diameter, IN_FINE_MM,
                   "stated for the string");
    workbook_value(book, "density of the core", "ρc",
                   or_else(spec->density.value, material_density(stock, spec->material)),
                   IN_G_PER_CM3, origin(spec->density.value, spec->material, room, sizeof room));
    snprintf(formula, sizeof formula, "%s = π/4·({ρc}·{dc}²", name);
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (!isnan(spec->wraps[i].thickness.value)) {
            char term[96];
            diameter =
                wrapping(book, stock, &spec->wraps[i], ++number, diameter, term, sizeof term);
            strcat(formula, term);
        }
    }
    strcat(formula, ")");
    workbook_step(book, "density", formula, "in g/cm³ and mm", density, IN_G_PER_M, FROM_CIRCLES);
}

static bool is_wrapped(const struct mensur_string_spec *spec) {
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (!isnan(spec->wraps[i].thickness.value)) {
            return true;
        }
    }
    return false;
}

void working_density(struct workbook *book, const struct mensur_stock *stock,
                     const struct string_model *model, const struct mensur_terms *terms) {
    const struct mensur_string_spec *spec = model->spec;
    const char *name = model->slack ? "μ0" : "μ";
    double density = model->linear_density;
    if (!isnan(spec->linear_density.value)) {
        workbook_value(book, model->slack ? "density of the slack string" : "density", name,
                       density, IN_G_PER_M, "stated for the string");
    } else if (!isnan(spec->stated_tension.value)) {
        stated_tension(book, spec, name, density, terms->fifths);
    } else if (is_wrapped(spec)) {
        wrapped(book, stock, spec, name, density);
    } else {
        plain(book, stock, spec, name, density);
    }
}

/* Where the strength was found. */
static const char *strength_origin(const struct mensur_stock *stock,
                                   const struct mensur_string_spec *spec, double strength,
                                   char *room, size_t size) {
    const struct mensur_material *material = mensur_stock_material(stock, spec->material);
    if (isnan(spec->strength.value) && material != NULL &&
        !(fabs(material->strength - strength) <= 1e-6 * strength)) {
        snprintf(room, size, "table of wire strengths: %.60s", spec->material);
        return room;
    }
    return origin(spec->strength.value, spec->material, room, size);
}

void working_core(struct workbook *book, const struct mensur_stock *stock,
                  const struct string_model *model) {
    const struct mensur_string_spec *spec = model->spec;
    char room[96];
    double diameter = sqrt(model->core_area * 4.0 / 3.14159265358979323846);
    double second = 3.14159265358979323846 / 64.0 * diameter * diameter * diameter * diameter;
    double strands = round(second / model->second_moment);
    workbook_know(book, "dc", diameter, IN_FINE_MM);
    workbook_step(book, "area of the core", "A = π/4·{dc}²", NULL, model->core_area, IN_MM2,
                  "area of a circle");
    workbook_value(book, "modulus of the core", "E", model->modulus, IN_MPA,
                   origin(spec->modulus.value, spec->material, room, sizeof room));
    workbook_know(book, "n", strands, IN_NUMBER);
    workbook_step(book, "second moment of the core",
                  strands > 1.0 ? "I = π/64·{dc}⁴/{n}" : "I = π/64·{dc}⁴",
                  strands > 1.0 ? "strands that slide freely" : NULL, model->second_moment, IN_MM4,
                  "second moment of a circle");
    workbook_value(book, "strength of the core", "strength", model->strength, IN_MPA,
                   strength_origin(stock, spec, model->strength, room, sizeof room));
}
