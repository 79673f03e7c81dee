/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A string of the catalogue made ready to be computed with: its density, its core, what it bears.
 */
#ifndef MENSUR_STRING_MODEL_H
#define MENSUR_STRING_MODEL_H

#include "ask.h"
#include "string_build.h"

struct string_model {
    const struct mensur_string_spec *spec; /* borrowed; NULL where the set has none for the note */
    double linear_density;                 /* kg/m, tuned or slack as the spec says; NaN unknown */
    bool slack;
    enum mensur_string_way way;
    double stated_a4;        /* Hz, of a stated tension */
    double stated_frequency; /* Hz at that A4 */
    double diameter;         /* m, of the plain string, or inside the wrappings */
    double density;          /* kg/m3, of the material of that */
    size_t winding_count;
    struct mensur_winding windings[MENSUR_WRAPS_MAX];
    double core_diameter;  /* m, of what bears the tension; NaN unknown */
    double strands;        /* of the core; NaN unknown */
    double core_area;      /* m2; NaN unknown */
    double second_moment;  /* m4; NaN unknown */
    double modulus;        /* Pa; NaN unknown */
    double strength;       /* Pa, the low end of what is published; NaN unknown */
    double strength_high;  /* Pa, the high end; NaN where one value alone is known */
    bool at_least;         /* the strength is a lower bound: thinner wire is stronger */
    enum mensur_core core; /* what bears the tension is made of */
};

/* What is known of a string. Unknown figures are NaN; this cannot fail. */
void string_model_make(const struct mensur_stock *stock, const struct mensur_string_spec *spec,
                       enum mensur_fifths fifths, struct string_model *out);

/* Tension at a length (m) and pitch (Hz), N; NaN unknown. */
double string_model_tension(const struct string_model *model, double length, double frequency);

/* Density at pitch, kg/m; NaN unknown. */
double string_model_tuned_density(const struct string_model *model, double tension);

/* Semitones to breaking at a tension (N), by the low end of the strength; NaN unknown. */
double string_model_margin(const struct string_model *model, double tension);

/* Whether a set of strings has this name. */
bool string_set_exists(const struct mensur_stock *stock, const char *set);

#endif
