/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plain strings to order for the tensions that are aimed at: their gauges, slack; the gauges in
 * whole tenths of a millimetre around them. Rope gut and overspun gut are weighed, not gauged. */
#include <math.h>
#include <string.h>

#include "restring.h"
#include "string_build.h"
#include "taut_string.h"

static const double tenth_m = 1e-4;
static const double thou_m = 25.4e-6;

/* Up to which gauge plain gut is ordered, by family; above it strings are overspun or roped. Common
 * practice, no source. */
static const struct {
    const char *family;
    double thickest; /* m */
} thickest[] = {{"violin", 1.7e-3}, {"viola", 1.7e-3}, {"cello", 2.0e-3}, {"bass", 3.2e-3}};
static const double thickest_else = 1.7e-3;

double restring_thickest_plain(const char *family) {
    for (size_t i = 0; family != NULL && i < sizeof thickest / sizeof thickest[0]; i++) {
        if (strcmp(thickest[i].family, family) == 0) {
            return thickest[i].thickest;
        }
    }
    return thickest_else;
}

/* Where a note is strung with plain string of a material. */
struct ordering {
    const struct mensur_material *material;
    double length, frequency;
};

/* The tension of a gauge, N; NaN for none. */
static double gauge_tension(const struct ordering *ordering, double diameter) {
    double slack = NAN, area = NAN, tension = NAN;
    (void)mensur_plain_density(diameter, ordering->material->density, &slack);
    (void)mensur_core_area(diameter, &area);
    (void)mensur_tension_slack(ordering->length, ordering->frequency, slack,
                               ordering->material->modulus, area, &tension);
    return tension;
}

static void order_one(const struct ordering *ordering, double tension, struct mensur_order *out) {
    const struct mensur_material *material = ordering->material;
    double area = NAN;
    double strength = material->low_strength > 0.0 ? material->low_strength : material->strength;
    out->tension = tension;
    out->diameter = out->stress = out->margin = out->linear_density = NAN;
    (void)mensur_slack_diameter(ordering->length, ordering->frequency, material->density,
                                material->modulus, tension, &out->diameter);
    out->diameter_thou = out->diameter / thou_m;
    (void)mensur_density_for_tension(ordering->length, ordering->frequency, tension,
                                     &out->linear_density);
    (void)mensur_core_area(out->diameter, &area);
    (void)mensur_stress(tension, area, &out->stress);
    (void)mensur_breaking_margin(out->stress, strength, &out->margin);
    /* A gauge of whole tenths has itself below: nothing is lost by a part in 1e9. */
    double tenths = floor(out->diameter / tenth_m * (1.0 + 1e-9));
    out->tenth_below = tenths > 0.0 ? tenths * tenth_m : NAN;
    out->tenth_above = (tenths + 1.0) * tenth_m;
    out->tension_below = gauge_tension(ordering, out->tenth_below);
    out->tension_above = gauge_tension(ordering, out->tenth_above);
}

enum mensur_status restring_order(const struct restringer *restringer, struct mensur_fault *fault,
                                  struct mensur_restringing *out) {
    const char *name = restringer->wishes->to_order;
    if (name == NULL) {
        return MENSUR_OK;
    }
    struct ordering ordering = {.material = mensur_stock_material(restringer->stock, name),
                                .length = restringer->setup->string_length};
    if (ordering.material == NULL || !(ordering.material->density > 0.0) ||
        !(ordering.material->modulus > 0.0)) {
        mensur_fault_set(fault, "materials.csv has no %s with a density and a modulus to order by",
                         name);
        return MENSUR_USE;
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_aim *aim = &restringer->aims[i];
        double tension = isnan(aim->tension) ? aim->course : aim->tension;
        if (tension > 0.0 && isfinite(tension)) {
            struct mensur_order *order = &out->orders[out->order_count++];
            ordering.frequency = restringer->frequencies[i];
            strcpy(order->note, restringer->setup->tuning->notes[i].name);
            order->material = ordering.material->name;
            order_one(&ordering, tension, order);
            const struct mensur_family *family = restringer->setup->family;
            order->thickest = restring_thickest_plain(family == NULL ? NULL : family->name);
            order->plain = order->diameter > order->thickest ? MENSUR_NO : MENSUR_YES;
        }
    }
    if (out->order_count == 0) {
        mensur_fault_set(fault,
                         "%s: nothing says how much tension the strings to order are to have; wish "
                         "for it, for example --tension A4=50..54",
                         restringer->setup->instrument->name);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}
