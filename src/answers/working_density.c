/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of a string's density and core, by whichever way string_model.c took. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "working_parts.h"

#define FROM_MAKER "stated for the string"
#define FROM_CIRCLES "areas of circles; round wire fills π/4 of its ring, ribbon all of it"

/* Where a figure of a string or of its material comes from. */
static const char *origin(double own, const char *material, char *room, size_t size) {
    if (!isnan(own) || material == NULL) {
        return FROM_MAKER;
    }
    snprintf(room, size, "table of materials: %.60s", material);
    return room;
}

/* The density that the string has by its way; name: "μ", or "μ0" of a slack string. */
static void density(struct workbook *book, const struct string_model *model, const char *name,
                    const char *right, const char *note, const char *source) {
    char formula[512];
    snprintf(formula, sizeof formula, "%s = %s", name, right);
    workbook_step(book, "density", formula, note, model->linear_density, IN_G_PER_M, source);
}

static void stated_tension(struct workbook *book, const struct string_model *model,
                           const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    workbook_value(book, "stated pull", "T0", spec->stated_tension.value, IN_NEWTONS, FROM_MAKER);
    workbook_value(book, "string length that it is stated for", "L0", spec->stated_length.value,
                   IN_METRES, FROM_MAKER);
    workbook_value(book, "A4 that it is stated for", "a4", model->stated_a4, IN_HERTZ, FROM_MAKER);
    workbook_value(book, "pitch at that A4", "f0", model->stated_frequency, IN_HERTZ,
                   "as the pitch above");
    density(book, model, name, "1000·{T0}/(4·{L0}²·{f0}²)", "in N, m and Hz",
            "Mersenne 1636, turned round");
}

static void plain(struct workbook *book, const struct string_model *model, const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    char room[96];
    workbook_value(book, "diameter", "d", model->diameter, IN_FINE_MM, FROM_MAKER);
    workbook_value(book, "density of the material", "ρ", model->density, IN_G_PER_CM3,
                   origin(spec->density.value, spec->material, room, sizeof room));
    density(book, model, name, "π/4·{ρ}·{d}²", "in g/cm³ and mm", "area of a circle");
}

/* One wrapping: its values, its outer diameter, and its term of the sum behind the others. */
static void wrapping(struct workbook *book, const struct string_model *model,
                     const struct mensur_wrap *wrap, size_t number, char *terms) {
    static const char *const inner[] = {"dc", "D1", "D2", "D3"};
    char name[32];
    char formula[64];
    char room[96];
    const struct mensur_winding *winding = &model->windings[number - 1];
    double outside = NAN;
    (void)mensur_outer_diameter(model->diameter, model->windings, number, &outside);
    snprintf(name, sizeof name, "t%zu", number);
    workbook_value(book, winding->flat ? "thickness of the ribbon" : "thickness of the wire", name,
                   winding->thickness, IN_FINE_MM, FROM_MAKER);
    snprintf(name, sizeof name, "ρ%zu", number);
    workbook_value(book, "density of the wrapping", name, winding->density, IN_G_PER_CM3,
                   origin(wrap->density.value, wrap->material, room, sizeof room));
    snprintf(formula, sizeof formula, "D%zu = {%s} + 2·{t%zu}", number, inner[number - 1], number);
    workbook_step(book, "diameter over the wrapping", formula, NULL, outside, IN_FINE_MM,
                  FROM_DEFINITION);
    snprintf(terms + strlen(terms), 96, " + {ρ%zu}%s·({D%zu}² − {%s}²)", number,
             winding->flat ? "" : "·π/4", number, inner[number - 1]);
}

static void wrapped(struct workbook *book, const struct string_model *model, const char *name) {
    const struct mensur_string_spec *spec = model->spec;
    char right[64 + 96 * MENSUR_WRAPS_MAX] = "π/4·({ρc}·{dc}²";
    char room[96];
    size_t number = 0;
    workbook_value(book, "diameter of the core", "dc", model->diameter, IN_FINE_MM, FROM_MAKER);
    workbook_value(book, "density of the core", "ρc", model->density, IN_G_PER_CM3,
                   origin(spec->density.value, spec->material, room, sizeof room));
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        if (!isnan(spec->wraps[i].thickness.value)) {
            wrapping(book, model, &spec->wraps[i], ++number, right);
        }
    }
    strcat(right, ")");
    density(book, model, name, right, "in g/cm³ and mm", FROM_CIRCLES);
}

void working_density(struct workbook *book, const struct string_model *model) {
    const char *name = model->slack ? "μ0" : "μ";
    switch (model->way) {
    case MENSUR_WAY_STATED:
        workbook_value(book, model->slack ? "density of the slack string" : "density", name,
                       model->linear_density, IN_G_PER_M, FROM_MAKER);
        break;
    case MENSUR_WAY_TENSION:
        stated_tension(book, model, name);
        break;
    case MENSUR_WAY_WRAPPED:
        wrapped(book, model, name);
        break;
    case MENSUR_WAY_PLAIN:
        plain(book, model, name);
        break;
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
    const struct mensur_figure *modulus = mensur_figure_named(MENSUR_SCOPE_MODEL, "modulus");
    const struct mensur_figure *second = mensur_figure_named(MENSUR_SCOPE_MODEL, "second_moment");
    const struct mensur_figure *strength = mensur_figure_named(MENSUR_SCOPE_MODEL, "strength_MPa");
    const struct mensur_string_spec *spec = model->spec;
    char room[96];
    workbook_record(book, MENSUR_SCOPE_MODEL, model);
    workbook_row(book, MENSUR_SCOPE_MODEL, "core_area", model);
    workbook_figure(book, modulus, modulus->what, NULL,
                    origin(spec->modulus.value, spec->material, room, sizeof room), model);
    if (model->strands > 1.0) {
        workbook_step(book, second->what, "I = π/64·{dc}⁴/{n}", "strands that slide freely",
                      model->second_moment, IN_MM4, second->source);
    } else {
        workbook_row(book, MENSUR_SCOPE_MODEL, "second_moment", model);
    }
    workbook_figure(book, strength, strength->what, NULL,
                    strength_origin(stock, spec, model->strength, room, sizeof room), model);
}
