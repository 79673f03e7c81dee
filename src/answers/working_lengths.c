/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the side view: from workshop measurements to the string and what follows from it,
 * in the order of geometry.h. */
#include "working.h"

#include <math.h>
#include <stdio.h>

#include "body_air.h"
#include "working_parts.h"

/* Whether a length that was filled in follows from the string's own. */
static bool follows(const struct setup *setup, enum mensur_field field, double value) {
    return setup->origin[field] == SETUP_ASSUMED && fabs(setup->value[field] - value) <= 1e-9;
}

static const char *origin_of(const struct setup *setup, enum mensur_field field, char *room,
                             size_t size) {
    switch (setup->origin[field]) {
    case SETUP_GIVEN:
        return "given";
    case SETUP_ASSUMED:
        if (field == MENSUR_FIELD_BOARD_NUT && setup->origin[MENSUR_FIELD_BOARD] == SETUP_GIVEN) {
            return "assumed, a board without taper";
        }
        if (setup->family == NULL) {
            return "assumed";
        }
        snprintf(room, size, "assumed, usual for %.60s%s", setup->family->name,
                 setup->scaled[field] ? ", scaled to this stop" : "");
        return room;
    case SETUP_DERIVED:
        return "follows from the others";
    case SETUP_UNKNOWN:
        break;
    }
    return "";
}

/* A measurement as it was given, assumed or derived; in formulas it has the name it has in files.
 */
static void field(struct workbook *book, const struct setup *setup, enum mensur_field which) {
    char room[128];
    const char *name = mensur_field_info(which)->name;
    const char *symbol = which == MENSUR_FIELD_STOP ? "S" : which == MENSUR_FIELD_NECK ? "N" : name;
    /* NOLINTNEXTLINE(readability-suspicious-call-argument) */
    workbook_value(book, name, symbol, setup->value[which], IN_LENGTH,
                   origin_of(setup, which, room, sizeof room));
}

/* The straight length of a back that was measured over its arching. */
static void body_straight(struct workbook *book, const struct setup *setup) {
    static const char *const arched[] = {"half_mm", "bend", NULL};
    if (setup->origin[MENSUR_FIELD_BODY_STRAIGHT] != SETUP_DERIVED) {
        field(book, setup, MENSUR_FIELD_BODY_STRAIGHT);
        return;
    }
    const struct mensur_figure *straight = mensur_figure_named(MENSUR_SCOPE_BACK, "straight_mm");
    field(book, setup, MENSUR_FIELD_BODY);
    field(book, setup, MENSUR_FIELD_BACK_ARCH);
    if (setup->back.bend > 0.0) {
        workbook_rows(book, MENSUR_SCOPE_BACK, arched, &setup->back);
        workbook_step(book, "back over the arching", "body = {a}·(√(1 + {t}²) + asinh({t})/{t})",
                      NULL, setup->value[MENSUR_FIELD_BODY], IN_LENGTH, straight->source);
    }
    workbook_figure(book, straight, straight->what,
                    setup->back.bend > 0.0 ? straight->formula : "{body}", straight->source,
                    &setup->back);
}

static void geometry_row(struct workbook *book, const struct setup *setup, const char *key) {
    workbook_row(book, MENSUR_SCOPE_GEOMETRY, key, &setup->geometry);
}

static void lengths_row(struct workbook *book, const struct setup *setup, const char *key) {
    struct mensur_lengths lengths;
    setup_lengths(setup, &lengths);
    workbook_row(book, MENSUR_SCOPE_INSTRUMENT, key, &lengths);
}

static void arch(struct workbook *book, const struct setup *setup) {
    if (setup->origin[MENSUR_FIELD_ARCH] == SETUP_DERIVED) {
        field(book, setup, MENSUR_FIELD_ARCH_FULL);
        field(book, setup, MENSUR_FIELD_EDGE);
        workbook_step(book, "belly under the bridge, above the edge", "arch = {arch_full} − {edge}",
                      NULL, setup->view.arch, IN_LENGTH, FROM_DEFINITION);
    } else {
        field(book, setup, MENSUR_FIELD_ARCH);
    }
}

/* The board's slope: from the projection, or the projection from the slope that is held. */
static void slope(struct workbook *book, const struct setup *setup) {
    static const char *const from_projection[] = {"rise_mm", "board_top_mm", "board_slope_deg",
                                                  NULL};
    const struct mensur_geometry *g = &setup->geometry;
    geometry_row(book, setup, "board_taper_deg");
    if (setup->origin[MENSUR_FIELD_PROJECTION] != SETUP_DERIVED) {
        workbook_rows(book, MENSUR_SCOPE_GEOMETRY, from_projection, g);
        lengths_row(book, setup, "neck_slope_deg");
        return;
    }
    workbook_value(book, "slope of the neck, which is held", "θ", g->neck_slope, IN_DEGREES,
                   "as it was before");
    workbook_step(book, "slope of the board's top", "ψ = {θ} + {φ}", NULL, g->board_slope,
                  IN_DEGREES, FROM_GEOMETRY);
    workbook_step(book, "projection",
                  "projection = ({board}·cos({φ}) + {S}·sin({ψ}))/cos({ψ}) − {arch} + {overstand}",
                  NULL, setup->view.projection, IN_LENGTH, FROM_GEOMETRY);
}

static void bridge(struct workbook *book, const struct setup *setup) {
    if (!setup->bridge_follows) {
        field(book, setup, MENSUR_FIELD_BRIDGE);
        return;
    }
    field(book, setup, MENSUR_FIELD_CLEARANCE_LOW);
    field(book, setup, MENSUR_FIELD_CLEARANCE_HIGH);
    workbook_value(book, "height of the bridge, with which the clearance below comes out as given",
                   "bridge", setup->view.bridge, IN_LENGTH,
                   "clearance at the board's end, solved for the bridge");
}

void working_points(struct workbook *book, const struct setup *setup) {
    const struct mensur_side_view *view = &setup->view;
    workbook_record(book, MENSUR_SCOPE_GEOMETRY, &setup->geometry);
    workbook_know(book, "S", view->stop, IN_LENGTH);
    workbook_know(book, "N", view->neck, IN_LENGTH);
    workbook_know(book, "overstand", view->overstand, IN_LENGTH);
    workbook_know(book, "body_straight", view->body_straight, IN_LENGTH);
    geometry_row(book, setup, "nut_x_mm");
    geometry_row(book, setup, "nut_y_mm");
    if (!setup->measured) {
        lengths_row(book, setup, "string_length_mm");
        return;
    }
    geometry_row(book, setup, "string_length_mm");
    workbook_value(book, "string length as measured, less that by geometry", "excess",
                   setup->length_excess, IN_LENGTH, "measured; a change keeps it");
    workbook_step(book, "string length that is used", "L = {L.geometry} + {excess}", NULL,
                  setup->string_length, IN_LENGTH, "measured");
}

static void side_view(struct workbook *book, const struct setup *setup) {
    static const enum mensur_field first[] = {MENSUR_FIELD_STOP,      MENSUR_FIELD_NECK,
                                              MENSUR_FIELD_OVERSTAND, MENSUR_FIELD_BOARD,
                                              MENSUR_FIELD_BOARD_NUT, MENSUR_FIELD_NUT};
    if (!setup->has_geometry) {
        workbook_value(book, "string length", "L", setup->string_length, IN_LENGTH, "measured");
        return;
    }
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++) {
        field(book, setup, first[i]);
    }
    arch(book, setup);
    if (setup->origin[MENSUR_FIELD_PROJECTION] != SETUP_DERIVED) {
        field(book, setup, MENSUR_FIELD_PROJECTION);
    }
    bridge(book, setup);
    slope(book, setup);
    geometry_row(book, setup, "nut_height_mm");
    geometry_row(book, setup, "top_y_mm");
    working_points(book, setup);
}

static void angles(struct workbook *book, const struct setup *setup,
                   const struct mensur_lengths *lengths) {
    static const char *const behind[] = {"break_angle_deg", "down_factor", "left_reach_mm",
                                         "bow_reach_mm", NULL};
    geometry_row(book, setup, "front_angle_deg");
    body_straight(book, setup);
    field(book, setup, MENSUR_FIELD_SADDLE);
    geometry_row(book, setup, "back_angle_deg");
    workbook_rows(book, MENSUR_SCOPE_INSTRUMENT, behind, lengths);
}

static void followers(struct workbook *book, const struct setup *setup,
                      const struct mensur_lengths *lengths) {
    const double *v = setup->value;
    double length = setup->string_length;
    double behind = mensur_size_afterlength_share(&setup->size);
    if (follows(setup, MENSUR_FIELD_AFTERLENGTH, length * MENSUR_USUAL_AFTERLENGTH_SHARE)) {
        workbook_row(book, MENSUR_SCOPE_INSTRUMENT, "afterlength_mm", lengths);
    } else if (follows(setup, MENSUR_FIELD_AFTERLENGTH, length * behind)) {
        workbook_value(book, "the afterlength's usual share of the string", "tail_share", behind,
                       IN_NUMBER, "assumed");
        workbook_step(book, "bridge to tailpiece", "afterlength = {tail_share}·{L}", NULL,
                      v[MENSUR_FIELD_AFTERLENGTH], IN_LENGTH, FROM_TRADE);
    } else {
        field(book, setup, MENSUR_FIELD_AFTERLENGTH);
    }
    if (follows(setup, MENSUR_FIELD_BOARD_LENGTH, length * setup->board_share)) {
        workbook_value(book, "the board's usual share of the string", "share", setup->board_share,
                       IN_NUMBER, "assumed");
        workbook_step(book, "length of the board", "board_length = {share}·{L}", NULL,
                      v[MENSUR_FIELD_BOARD_LENGTH], IN_LENGTH, FROM_TRADE);
    } else {
        field(book, setup, MENSUR_FIELD_BOARD_LENGTH);
    }
    workbook_row(book, MENSUR_SCOPE_INSTRUMENT, "bow_room_mm", lengths);
}

/* The air in the body, where all that it needs was measured. */
static void air(struct workbook *book, const struct setup *setup,
                const struct mensur_lengths *lengths) {
    static const enum mensur_field measured[] = {
        MENSUR_FIELD_BODY,        MENSUR_FIELD_WIDTH_UPPER, MENSUR_FIELD_WIDTH_MIDDLE,
        MENSUR_FIELD_WIDTH_LOWER, MENSUR_FIELD_RIB,         MENSUR_FIELD_BACK_ARCH,
        MENSUR_FIELD_EDGE,        MENSUR_FIELD_PLATE};
    struct mensur_body_air body;
    body_air_make(setup->instrument, setup->family, &body);
    if (body.known != MENSUR_AIR_KNOWN) {
        return;
    }
    for (size_t i = 0; i < sizeof measured / sizeof measured[0]; i++) {
        field(book, setup, measured[i]);
    }
    if (setup->origin[MENSUR_FIELD_ARCH_FULL] == SETUP_GIVEN) {
        field(book, setup, MENSUR_FIELD_ARCH_FULL);
    } else {
        workbook_step(book, "belly above the ribs", "arch_full = {arch} + {edge}", NULL,
                      setup->value[MENSUR_FIELD_ARCH] + setup->value[MENSUR_FIELD_EDGE], IN_LENGTH,
                      FROM_DEFINITION);
    }
    workbook_row(book, MENSUR_SCOPE_AIR, "outline_cm2", &body);
    workbook_row(book, MENSUR_SCOPE_AIR, "depth_mm", &body);
    workbook_row(book, MENSUR_SCOPE_INSTRUMENT, "air_volume_cm3", lengths);
}

void working_lengths(struct workbook *book, const struct setup *setup) {
    static const char *const on_the_neck[] = {"stop_per_2_neck", "body_at_semitones", NULL};
    static const char *const over_the_board[] = {"above_nut_mm", "above_bridge_mm", "board_way_mm",
                                                 NULL};
    struct mensur_lengths lengths;
    setup_lengths(setup, &lengths);
    side_view(book, setup);
    workbook_rows(book, MENSUR_SCOPE_INSTRUMENT, on_the_neck, &lengths);
    if (setup->has_geometry) {
        angles(book, setup, &lengths);
    } else {
        body_straight(book, setup);
    }
    followers(book, setup, &lengths);
    if (setup->has_geometry) {
        workbook_rows(book, MENSUR_SCOPE_GEOMETRY, over_the_board, &setup->geometry);
        workbook_row(book, MENSUR_SCOPE_INSTRUMENT, "clearance_at_board_end_mm", &lengths);
    }
    air(book, setup, &lengths);
}

void working_string_length(struct workbook *book, const struct setup *setup) {
    const char *source = setup->measured && !setup->has_geometry ? "measured" : FROM_LENGTHS;
    workbook_value(book, "string length", "L", setup->string_length, IN_LENGTH, source);
}

enum mensur_status mensur_ask_working_lengths(const struct mensur_stock *stock,
                                              const struct mensur_instrument *instrument,
                                              const struct mensur_terms *terms,
                                              struct mensur_fault *fault,
                                              struct mensur_working *out) {
    struct setup setup;
    struct workbook book;
    workbook_open(&book, stock, terms, fault);
    if (workbook_setup(&book, instrument, NULL, &setup)) {
        working_lengths(&book, &setup);
    }
    return workbook_close(&book, out);
}
