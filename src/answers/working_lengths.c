/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working of the side view: from workshop measurements to the string and what follows from it,
 * in the order of geometry.h. */
#include "working.h"

#include <math.h>
#include <stdio.h>

#include "working_parts.h"

#define LENGTH_OF_POINTS "√(({S} − {nut.x})² + ({top.y} − {nut.y})²)"

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
        if (field == MENSUR_FIELD_BOARD_LENGTH) {
            return "assumed before the change, and held";
        }
        if (field == MENSUR_FIELD_BOARD_NUT && setup->origin[MENSUR_FIELD_BOARD] == SETUP_GIVEN) {
            return "assumed, a board without taper";
        }
        if (setup->family == NULL) {
            return "assumed";
        }
        snprintf(room, size, "assumed, usual for %.60s", setup->family->name);
        return room;
    case SETUP_DERIVED:
        return "follows from the others";
    case SETUP_UNKNOWN:
        break;
    }
    return "";
}

void working_field(struct workbook *book, const struct setup *setup, enum mensur_field field,
                   const char *symbol) {
    char room[128];
    workbook_value(book, mensur_field_info(field)->name, symbol, setup->value[field], IN_LENGTH,
                   origin_of(setup, field, room, sizeof room));
}

/* The straight length of a back that was measured over its arching. */
static void body_straight(struct workbook *book, const struct setup *setup) {
    const double *v = setup->value;
    double half = v[MENSUR_FIELD_BODY_STRAIGHT] / 2.0;
    double t = 2.0 * v[MENSUR_FIELD_BACK_ARCH] / half;
    const char *source = "arc of a parabola; a is found by a root finder";
    if (setup->origin[MENSUR_FIELD_BODY_STRAIGHT] != SETUP_DERIVED) {
        working_field(book, setup, MENSUR_FIELD_BODY_STRAIGHT, "body_straight");
        return;
    }
    working_field(book, setup, MENSUR_FIELD_BODY, "body");
    working_field(book, setup, MENSUR_FIELD_BACK_ARCH, "back_arch");
    if (t > 0.0) {
        workbook_value(book, "half of the straight back, with which the next two lines hold", "a",
                       half, IN_LENGTH, source);
        workbook_step(book, "bend of the back", "t = 2·{back_arch}/{a}", NULL, t, IN_NUMBER,
                      source);
        workbook_step(book, "back over the arching", "body = {a}·(√(1 + {t}²) + asinh({t})/{t})",
                      NULL, v[MENSUR_FIELD_BODY], IN_LENGTH, source);
        workbook_step(book, "straight length of the back", "body_straight = 2·{a}", NULL,
                      2.0 * half, IN_LENGTH, source);
    } else {
        workbook_step(book, "straight length of the back", "body_straight = {body}", NULL,
                      2.0 * half, IN_LENGTH, source);
    }
}

static void arch(struct workbook *book, const struct setup *setup) {
    if (setup->origin[MENSUR_FIELD_ARCH] == SETUP_DERIVED) {
        working_field(book, setup, MENSUR_FIELD_ARCH_FULL, "arch_full");
        working_field(book, setup, MENSUR_FIELD_EDGE, "edge");
        workbook_step(book, "belly under the bridge, above the edge", "arch = {arch_full} − {edge}",
                      NULL, setup->view.arch, IN_LENGTH, FROM_DEFINITION);
    } else {
        working_field(book, setup, MENSUR_FIELD_ARCH, "arch");
    }
}

/* The board's slope: from the projection, or the projection from the slope that is held. */
static void slope(struct workbook *book, const struct setup *setup) {
    const struct mensur_geometry *g = &setup->geometry;
    bool held = setup->origin[MENSUR_FIELD_PROJECTION] == SETUP_DERIVED;
    double q = setup->view.board * cos(g->board_taper);
    double rise = setup->view.arch + setup->view.projection - setup->view.overstand;
    workbook_step(book, "taper of the board", "φ = atan(({board} − {board_nut})/{N})", NULL,
                  g->board_taper, IN_DEGREES, FROM_GEOMETRY);
    if (held) {
        workbook_value(book, "slope of the neck, which is held", "θ", g->neck_slope, IN_DEGREES,
                       "as it was before");
        workbook_step(book, "slope of the board's top", "ψ = {θ} + {φ}", NULL, g->board_slope,
                      IN_DEGREES, FROM_GEOMETRY);
        workbook_step(book, "projection",
                      "projection = ({board}·cos({φ}) + {S}·sin({ψ}))/cos({ψ}) − {arch} + "
                      "{overstand}",
                      NULL, setup->view.projection, IN_LENGTH, FROM_GEOMETRY);
        return;
    }
    workbook_step(book, "rise of the board's line to the bridge",
                  "H = {arch} + {projection} − {overstand}", NULL, rise, IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "top of the board above its gluing surface", "q = {board}·cos({φ})", NULL,
                  q, IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "slope of the board's top", "ψ = atan({H}/{S}) − asin({q}/√({H}² + {S}²))",
                  NULL, g->board_slope, IN_DEGREES, FROM_GEOMETRY);
    workbook_step(book, "slope of the neck", "θ = {ψ} − {φ}", NULL, g->neck_slope, IN_DEGREES,
                  FROM_GEOMETRY);
}

static void bridge(struct workbook *book, const struct setup *setup) {
    if (!setup->bridge_follows) {
        working_field(book, setup, MENSUR_FIELD_BRIDGE, "bridge");
        return;
    }
    working_field(book, setup, MENSUR_FIELD_CLEARANCE_LOW, "clearance_low");
    working_field(book, setup, MENSUR_FIELD_CLEARANCE_HIGH, "clearance_high");
    workbook_value(book, "height of the bridge, with which the clearance below comes out as given",
                   "bridge", setup->view.bridge, IN_LENGTH,
                   "clearance at the board's end, solved for the bridge");
}

/* From the nut to the string length; slope and measurements are known. */
static void points(struct workbook *book, const struct setup *setup) {
    const struct mensur_geometry *g = &setup->geometry;
    workbook_step(book, "nut, from the belly's edge", "nut.x = −{N}·cos({θ}) − {h}·sin({θ})", NULL,
                  g->nut_x, IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "nut, above the belly's edge",
                  "nut.y = {overstand} − {N}·sin({θ}) + {h}·cos({θ})", NULL, g->nut_y, IN_LENGTH,
                  FROM_GEOMETRY);
    workbook_step(book, "string length",
                  setup->measured ? "L.geometry = " LENGTH_OF_POINTS : "L = " LENGTH_OF_POINTS,
                  NULL, g->string_length, IN_LENGTH, FROM_GEOMETRY);
    if (setup->measured) {
        workbook_value(book, "string length as measured, less that by geometry", "excess",
                       setup->length_excess, IN_LENGTH, "measured; a change keeps it");
        workbook_step(book, "string length that is used", "L = {L.geometry} + {excess}", NULL,
                      setup->string_length, IN_LENGTH, "measured");
    }
}

void working_points(struct workbook *book, const struct setup *setup) {
    const struct mensur_side_view *view = &setup->view;
    const struct mensur_geometry *g = &setup->geometry;
    workbook_know(book, "S", view->stop, IN_LENGTH);
    workbook_know(book, "N", view->neck, IN_LENGTH);
    workbook_know(book, "overstand", view->overstand, IN_LENGTH);
    workbook_know(book, "θ", g->neck_slope, IN_DEGREES);
    workbook_know(book, "h", view->board_nut + view->nut, IN_LENGTH);
    workbook_know(book, "top.y", g->top_y, IN_LENGTH);
    workbook_know(book, "body_straight", view->body_straight, IN_LENGTH);
    points(book, setup);
}

static void side_view(struct workbook *book, const struct setup *setup) {
    if (!setup->has_geometry) {
        workbook_value(book, "string length", "L", setup->string_length, IN_LENGTH, "measured");
        return;
    }
    working_field(book, setup, MENSUR_FIELD_STOP, "S");
    working_field(book, setup, MENSUR_FIELD_NECK, "N");
    working_field(book, setup, MENSUR_FIELD_OVERSTAND, "overstand");
    working_field(book, setup, MENSUR_FIELD_BOARD, "board");
    working_field(book, setup, MENSUR_FIELD_BOARD_NUT, "board_nut");
    working_field(book, setup, MENSUR_FIELD_NUT, "nut");
    arch(book, setup);
    if (setup->origin[MENSUR_FIELD_PROJECTION] != SETUP_DERIVED) {
        working_field(book, setup, MENSUR_FIELD_PROJECTION, "projection");
    }
    bridge(book, setup);
    slope(book, setup);
    workbook_step(book, "string at the nut above the neck", "h = {board_nut} + {nut}", NULL,
                  setup->view.board_nut + setup->view.nut, IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "top of the bridge", "top.y = {arch} + {bridge}", NULL,
                  setup->geometry.top_y, IN_LENGTH, FROM_GEOMETRY);
    points(book, setup);
}

static void angles(struct workbook *book, const struct setup *setup) {
    const struct mensur_geometry *g = &setup->geometry;
    workbook_step(book, "angle of the string before the bridge",
                  "α = atan(({top.y} − {nut.y})/({S} − {nut.x}))", NULL, g->front_angle, IN_DEGREES,
                  FROM_GEOMETRY);
    body_straight(book, setup);
    working_field(book, setup, MENSUR_FIELD_SADDLE, "saddle");
    workbook_step(book, "angle of the string behind the bridge",
                  "β = atan(({top.y} − {saddle})/({body_straight} − {S}))", NULL, g->back_angle,
                  IN_DEGREES, FROM_GEOMETRY);
    workbook_step(book, "break angle", "break_angle = 180° − {α} − {β}", NULL, g->break_angle,
                  IN_DEGREES, FROM_GEOMETRY);
    workbook_step(book, "down factor", "down = sin({α}) + sin({β})", NULL, g->down_factor,
                  IN_NUMBER, FROM_STATICS);
}

static void reaches(struct workbook *book, const struct setup *setup) {
    workbook_step(book, "left reach", "left_reach = {body_straight} − {nut.x}", NULL,
                  setup_left_reach(setup), IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "bow reach", "bow_reach = {body_straight} − {S}", NULL,
                  setup_bow_reach(setup), IN_LENGTH, FROM_GEOMETRY);
}

static void followers(struct workbook *book, const struct setup *setup) {
    const double *v = setup->value;
    double length = setup->string_length;
    if (follows(setup, MENSUR_FIELD_AFTERLENGTH, length / 6.0)) {
        workbook_step(book, "afterlength", "afterlength = {L}/6", NULL, length / 6.0, IN_LENGTH,
                      FROM_TRADE);
    } else {
        working_field(book, setup, MENSUR_FIELD_AFTERLENGTH, "afterlength");
    }
    if (follows(setup, MENSUR_FIELD_BOARD_LENGTH, length * 5.0 / 6.0)) {
        workbook_step(book, "length of the board", "board_length = 5·{L}/6", NULL,
                      length * 5.0 / 6.0, IN_LENGTH, FROM_TRADE);
    } else {
        working_field(book, setup, MENSUR_FIELD_BOARD_LENGTH, "board_length");
    }
    workbook_step(book, "bow room", "bow_room = {L} − {board_length}", NULL,
                  length - v[MENSUR_FIELD_BOARD_LENGTH], IN_LENGTH, FROM_DEFINITION);
}

static void clearance(struct workbook *book, const struct setup *setup) {
    const struct mensur_geometry *g = &setup->geometry;
    const struct mensur_side_view *view = &setup->view;
    double along = cos(g->board_slope);
    workbook_step(book, "string above the board's line at the nut", "c0 = {nut}·cos({φ})", NULL,
                  view->nut * cos(g->board_taper), IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "the same at the bridge", "c1 = ({bridge} − {projection})·cos({ψ})", NULL,
                  (view->bridge - view->projection) * along, IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "way from nut to bridge along the board's line",
                  "D = ({S} − {nut.x})·cos({ψ}) + ({top.y} − {nut.y})·sin({ψ})", NULL,
                  (g->top_x - g->nut_x) * along + (g->top_y - g->nut_y) * sin(g->board_slope),
                  IN_LENGTH, FROM_GEOMETRY);
    workbook_step(book, "clearance at the board's end",
                  "clearance = {c0} + ({c1} − {c0})·{board_length}/{D}", NULL,
                  setup_board_end_clearance(setup), IN_LENGTH, FROM_GEOMETRY);
}

void working_lengths(struct workbook *book, const struct setup *setup) {
    struct mensur_lengths lengths;
    setup_lengths(setup, &lengths);
    side_view(book, setup);
    workbook_step(book, "neck : stop as 2 to", "stop_per_2_neck = 2·{S}/{N}", NULL,
                  lengths.stop_per_2_neck, IN_NUMBER, FROM_TRADE);
    workbook_step(book, "note at which the hand meets the body",
                  "body_note = 12·log2({L}/({L} − {N}))", "above the open string",
                  lengths.body_at_semitones, IN_SEMITONES, "pitch goes as 1/length");
    if (setup->has_geometry) {
        angles(book, setup);
        reaches(book, setup);
    } else {
        body_straight(book, setup);
    }
    followers(book, setup);
    if (setup->has_geometry) {
        clearance(book, setup);
    }
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
    enum mensur_status status = setup_make(stock, instrument, NULL, terms->hold, fault, &setup);
    if (status != MENSUR_OK) {
        return status;
    }
    workbook_open(&book, terms->inches);
    working_lengths(&book, &setup);
    return workbook_close(&book, fault, out);
}
