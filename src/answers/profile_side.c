/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The side view's points, the measurements with where each comes from, and where the strings cross
 * bridge and nut. */
#include <math.h>
#include <string.h>

#include "profile.h"

/* Radius of the bridge's crown over the outer strings' spacing (common practice, no source: 42 mm
 * on 33.5 mm of a violin; of the other families the same shape is taken). */
static const double crown_share = 1.25;

/* A measurement that no equation needs is not among the assumed ones, but a drawing shows the usual
 * one. */
static double or_usual(const struct setup *setup, enum mensur_field field) {
    double value = setup->value[field];
    return isnan(value) && setup->family != NULL ? mensur_size_usual(&setup->size, field) : value;
}

void profile_side(const struct setup *setup, struct mensur_side_points *out) {
    const struct mensur_side_view *view = &setup->view;
    const struct mensur_geometry *g = &setup->geometry;
    *out = (struct mensur_side_points){
        .known = setup->has_geometry,
        .nut_x = g->nut_x,
        .nut_y = g->nut_y,
        .top_x = g->top_x,
        .top_y = g->top_y,
        .body_straight = view->body_straight,
        .saddle = view->saddle,
        .neck = view->neck,
        .overstand = view->overstand,
        .arch = view->arch,
        .projection = view->projection,
        .bridge = view->bridge,
        .board = view->board,
        .board_nut = view->board_nut,
        .board_length = setup->value[MENSUR_FIELD_BOARD_LENGTH],
        .nut = view->nut,
        .board_slope = g->board_slope,
        .neck_slope = g->neck_slope,
        .front_angle = g->front_angle,
        .back_angle = g->back_angle,
        .heel = or_usual(setup, MENSUR_FIELD_HEEL),
        .rib = setup->value[MENSUR_FIELD_RIB],
        .back_arch = or_usual(setup, MENSUR_FIELD_BACK_ARCH),
        .spacing_bridge = or_usual(setup, MENSUR_FIELD_SPACING_BRIDGE),
        .spacing_nut = or_usual(setup, MENSUR_FIELD_SPACING_NUT),
        .foot_spacing = or_usual(setup, MENSUR_FIELD_FOOT_SPACING),
    };
    out->crown = out->spacing_bridge * crown_share;
}

static const enum mensur_origin origins[] = {[SETUP_UNKNOWN] = MENSUR_ORIGIN_UNKNOWN,
                                             [SETUP_GIVEN] = MENSUR_ORIGIN_MEASURED,
                                             [SETUP_ASSUMED] = MENSUR_ORIGIN_ASSUMED,
                                             [SETUP_DERIVED] = MENSUR_ORIGIN_FOLLOWS};

_Static_assert(MENSUR_FIELD_COUNT <= MENSUR_RESULT_MEASURES, "a place for each measurement");

void profile_measures(const struct setup *setup, struct mensur_profile *profile) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        const struct mensur_field_info *info = mensur_field_info((enum mensur_field)f);
        struct mensur_measure measure = {info->name, setup->value[f], origins[setup->origin[f]]};
        if (info->kind != MENSUR_LENGTH) {
            continue;
        }
        if (f == MENSUR_FIELD_STRING_LENGTH && isnan(measure.value)) {
            measure.value = profile->lengths.string_length;
            measure.origin = isnan(measure.value) ? MENSUR_ORIGIN_UNKNOWN : MENSUR_ORIGIN_FOLLOWS;
        }
        profile->measures[profile->measure_count++] = measure;
    }
}

double profile_across(double spacing, size_t i, size_t count) {
    return count < 2 ? 0.0 : spacing * ((double)i / (double)(count - 1) - 0.5);
}

void profile_crossings(const struct setup *setup, const struct mensur_lengths *lengths,
                       struct mensur_side_points *out) {
    const struct mensur_tuning *tuning = setup->tuning;
    size_t count = tuning == NULL || !out->known ? 0 : tuning->count;
    if (!(out->spacing_bridge > 0.0) || !(out->spacing_nut > 0.0)) {
        return;
    }
    double tilt = (lengths->clearance_low - lengths->clearance_high) / out->spacing_bridge *
                  setup->string_length / out->board_length;
    for (size_t i = 0; i < count; i++) {
        struct mensur_crossing *crossing = &out->crossings[i];
        double nut = NAN;
        *crossing =
            (struct mensur_crossing){.at_bridge = profile_across(out->spacing_bridge, i, count),
                                     .at_nut = profile_across(out->spacing_nut, i, count),
                                     .above_belly = NAN};
        strcpy(crossing->note, tuning->notes[i].name);
        (void)mensur_crown_height(out->bridge, out->crown, isnan(tilt) ? 0.0 : tilt,
                                  crossing->at_bridge, &crossing->above_belly);
        (void)mensur_crown_height(out->nut, out->spacing_nut * crown_share, 0.0, crossing->at_nut,
                                  &nut);
        crossing->above_board = nut;
        out->crossing_count = i + 1;
    }
}
