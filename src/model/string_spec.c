/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A string: the way to its density; an empty one. */
#include "string_spec.h"

#include <math.h>
#include <string.h>

const char *const mensur_density_words[] = {
    [MENSUR_WAY_STATED] = "linear_density",  [MENSUR_WAY_WEIGHED] = "weighed_mass",
    [MENSUR_WAY_TENSION] = "stated_tension", [MENSUR_WAY_WRAPPED] = "core_diameter",
    [MENSUR_WAY_PLAIN] = "diameter",
};

enum mensur_string_way mensur_string_way(bool linear_density, bool weighed, bool stated_tension,
                                         bool wrapped) {
    return linear_density   ? MENSUR_WAY_STATED
           : weighed        ? MENSUR_WAY_WEIGHED
           : stated_tension ? MENSUR_WAY_TENSION
           : wrapped        ? MENSUR_WAY_WRAPPED
                            : MENSUR_WAY_PLAIN;
}

void mensur_string_weigh(struct mensur_string_spec *spec) {
    if (!isnan(spec->scale_step)) {
        spec->weighed_mass.plus_minus =
            hypot(spec->weighed_mass.plus_minus, spec->scale_step / sqrt(12.0));
    }
}

void mensur_string_spec_init(struct mensur_string_spec *spec) {
    *spec = (struct mensur_string_spec){
        .linear_density = MENSUR_UNKNOWN,
        .weighed_mass = MENSUR_UNKNOWN,
        .weighed_length = MENSUR_UNKNOWN,
        .weighed_count = NAN,
        .scale_step = NAN,
        .ball_mass = MENSUR_UNKNOWN,
        .stated_tension = MENSUR_UNKNOWN,
        .stated_length = MENSUR_UNKNOWN,
        .stated_a4 = MENSUR_UNKNOWN,
        .diameter = MENSUR_UNKNOWN,
        .density = MENSUR_UNKNOWN,
        .core_diameter = MENSUR_UNKNOWN,
        .strands = NAN,
        .modulus = MENSUR_UNKNOWN,
        .strength = MENSUR_UNKNOWN,
        .made_for_low = MENSUR_UNKNOWN,
        .made_for_high = MENSUR_UNKNOWN,
    };
    for (int i = 0; i < MENSUR_WRAPS_MAX; i++) {
        spec->wraps[i] =
            (struct mensur_wrap){.density = MENSUR_UNKNOWN, .thickness = MENSUR_UNKNOWN};
    }
}

enum mensur_core mensur_core_of(const char *material) {
    if (material == NULL) {
        return MENSUR_CORE_UNKNOWN;
    }
    return strstr(material, "gut") != NULL     ? MENSUR_CORE_GUT
           : strstr(material, "steel") != NULL ? MENSUR_CORE_STEEL
                                               : MENSUR_CORE_SYNTHETIC;
}
