/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From an instrument's row to what the side view needs. A measurement that is missing is taken
 * from the family's usual ones at that stop and marked as assumed; stop, body and string length
 * never are, the neck where neither it nor the string was measured. What was filled in, and what
 * about the measurements deserves a warning. */
#include "setup.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "body_air.h"
#include "figures.h"
#include "findings.h"
#include "named_place.h"
#include "number.h"

/* What the side view needs besides stop, neck and what may follow from others. */
static const enum mensur_field plain_needs[] = {MENSUR_FIELD_OVERSTAND, MENSUR_FIELD_NUT,
                                                MENSUR_FIELD_PROJECTION, MENSUR_FIELD_SADDLE};

/* Clearances and bridge that disagree by more than this are both doubtful. */
static const double bridge_tolerance_m = 0.001;
/* Under this a string buzzes on the board (common practice, no source). */
static const double least_clearance_m = 0.002;
static const double length_tolerance = 0.01;
/* Within so many semitones of a note the hand meets the body at that note (ours); and a neck's heel
 * is named after it (common practice, no source). */
static const double body_within = 0.1, heel_within = 0.3;

/* Of the strings' spacing at the bridge, where theirs at the tailpiece was not measured (ours). */
static const double tail_share = 0.85;

static bool is_known(const struct setup *setup, enum mensur_field field) {
    return !isnan(setup->value[field]);
}

static void put(struct setup *setup, enum mensur_field field, double value,
                enum setup_origin origin) {
    setup->value[field] = value;
    setup->origin[field] = isnan(value) ? SETUP_UNKNOWN : origin;
}

struct shown_mm {
    char text[MENSUR_NUMBER_ROOM];
};

/* A length as messages tell it. */
static struct shown_mm mm(double length) {
    struct shown_mm shown = {""};
    (void)mensur_number_print(mensur_from_si(MENSUR_LENGTH, length), 1, shown.text);
    return shown;
}

/* What was assumed and follows from others is assumed anew. */
static bool follows(enum mensur_field field) {
    return field == MENSUR_FIELD_NECK || field == MENSUR_FIELD_BRIDGE ||
           field == MENSUR_FIELD_BOARD_LENGTH || field == MENSUR_FIELD_AFTERLENGTH;
}

static void take_given(struct setup *setup, const struct setup *from) {
    const struct mensur_quantity *measure = setup->instrument->measure;
    double all = 0.0; /* of the ±, none of which is below 0 */
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        put(setup, (enum mensur_field)f, measure[f].value, SETUP_GIVEN);
        all += measure[f].plus_minus;
    }
    setup->unsure = all > 0.0;
    for (int f = 0; from != NULL && f < MENSUR_FIELD_COUNT; f++) {
        if (from->origin[f] == SETUP_ASSUMED && isnan(setup->value[f]) &&
            !follows((enum mensur_field)f)) {
            put(setup, (enum mensur_field)f, from->value[f], SETUP_ASSUMED);
            setup->scaled[f] = from->scaled[f];
        }
    }
}

/* An instrument that is given by its size has the body of that size; its stop and neck, unless it
 * gives a stop, or a string's length that they might contradict. */
static void assume_size(struct setup *setup) {
    const struct mensur_named_size *size = setup->instrument->size;
    if (size == NULL) {
        return;
    }
    if (!is_known(setup, MENSUR_FIELD_BODY) && !is_known(setup, MENSUR_FIELD_BODY_STRAIGHT)) {
        put(setup, MENSUR_FIELD_BODY, size->body, SETUP_ASSUMED);
    }
    if (is_known(setup, MENSUR_FIELD_STRING_LENGTH) ||
        setup->origin[MENSUR_FIELD_STOP] == SETUP_GIVEN) {
        return;
    }
    put(setup, MENSUR_FIELD_STOP, size->stop, SETUP_ASSUMED);
    if (!is_known(setup, MENSUR_FIELD_NECK)) {
        put(setup, MENSUR_FIELD_NECK, size->neck, SETUP_ASSUMED);
    }
}

/* What is added to an assumed value where it is asked how sure an answer is. */
static double off(const struct setup *setup, enum mensur_field field) {
    return setup->instrument->assumed_off == NULL ? 0.0 : setup->instrument->assumed_off[field];
}

static double usual(const struct setup *setup, enum mensur_field field) {
    return mensur_size_usual(&setup->size, field);
}

/* Assumes a value that is usual at this stop. */
static void put_usual(struct setup *setup, enum mensur_field field, double value) {
    double reference = setup->family->usual[field];
    put(setup, field, value, SETUP_ASSUMED);
    setup->scaled[field] = value < reference || value > reference;
}

static void assume_usual(struct setup *setup, enum mensur_field field) {
    if (!is_known(setup, field) && setup->family != NULL) {
        double value = usual(setup, field);
        put_usual(setup, field, value);
        setup->value[field] += off(setup, field);
    }
}

static void fill_board(struct setup *setup) {
    /* A maker who gives one thickness has a board without taper. */
    if (is_known(setup, MENSUR_FIELD_BOARD) && !is_known(setup, MENSUR_FIELD_BOARD_NUT)) {
        put(setup, MENSUR_FIELD_BOARD_NUT, setup->value[MENSUR_FIELD_BOARD], SETUP_ASSUMED);
    }
    assume_usual(setup, MENSUR_FIELD_BOARD);
    assume_usual(setup, MENSUR_FIELD_BOARD_NUT);
}

static void fill_arch(struct setup *setup) {
    if (is_known(setup, MENSUR_FIELD_ARCH)) {
        return;
    }
    if (is_known(setup, MENSUR_FIELD_ARCH_FULL)) {
        assume_usual(setup, MENSUR_FIELD_EDGE);
        put(setup, MENSUR_FIELD_ARCH,
            setup->value[MENSUR_FIELD_ARCH_FULL] - setup->value[MENSUR_FIELD_EDGE], SETUP_DERIVED);
    } else {
        assume_usual(setup, MENSUR_FIELD_ARCH);
    }
}

/* The strings seen from above; the tailpiece's spacing goes with a measured one of the bridge. */
static void fill_spacings(struct setup *setup) {
    if (setup->instrument->set == NULL) {
        return;
    }
    if (setup->origin[MENSUR_FIELD_SPACING_BRIDGE] == SETUP_GIVEN &&
        !is_known(setup, MENSUR_FIELD_SPACING_TAIL)) {
        put(setup, MENSUR_FIELD_SPACING_TAIL,
            tail_share * setup->value[MENSUR_FIELD_SPACING_BRIDGE], SETUP_ASSUMED);
    }
    assume_usual(setup, MENSUR_FIELD_SPACING_BRIDGE);
    assume_usual(setup, MENSUR_FIELD_SPACING_NUT);
    assume_usual(setup, MENSUR_FIELD_SPACING_TAIL);
    assume_usual(setup, MENSUR_FIELD_FOOT_SPACING);
}

static enum mensur_status fill_body(struct setup *setup, struct mensur_fault *fault) {
    if (is_known(setup, MENSUR_FIELD_BODY_STRAIGHT) || !is_known(setup, MENSUR_FIELD_BODY)) {
        return MENSUR_OK;
    }
    assume_usual(setup, MENSUR_FIELD_BACK_ARCH);
    if (!is_known(setup, MENSUR_FIELD_BACK_ARCH)) {
        return MENSUR_OK;
    }
    enum mensur_status status = mensur_body_straight(
        setup->value[MENSUR_FIELD_BODY], setup->value[MENSUR_FIELD_BACK_ARCH], &setup->back);
    if (status != MENSUR_OK) {
        mensur_fault_set(fault,
                         "%s: no back of this length can rise as far as its back_arch: body %s mm, "
                         "back_arch %s mm; check both, or leave out back_arch, the rise of the "
                         "arching above its edge",
                         setup->instrument->name, mm(setup->value[MENSUR_FIELD_BODY]).text,
                         mm(setup->value[MENSUR_FIELD_BACK_ARCH]).text);
        return MENSUR_NO_ANSWER;
    }
    put(setup, MENSUR_FIELD_BODY_STRAIGHT, setup->back.straight, SETUP_DERIVED);
    return MENSUR_OK;
}

/* An outer string's usual clearance less the mean. */
static double clearance_offset(const struct setup *setup, enum mensur_field field) {
    return mensur_size_offset(&setup->size, field);
}

/* The mean clearance that the given ones stand for; NaN where none is given. */
static double mean_clearance(const struct setup *setup) {
    double low = setup->value[MENSUR_FIELD_CLEARANCE_LOW];
    double high = setup->value[MENSUR_FIELD_CLEARANCE_HIGH];
    if (!isnan(low) && !isnan(high)) {
        return (low + high) / 2.0;
    }
    if (setup->family == NULL) {
        return isnan(low) ? high : low;
    }
    return isnan(low) ? high - clearance_offset(setup, MENSUR_FIELD_CLEARANCE_HIGH)
                      : low - clearance_offset(setup, MENSUR_FIELD_CLEARANCE_LOW);
}

/* A bridge that is assumed stands as far above the projection, measured or assumed, as is usual;
 * and as before where the projection changes. */
static void fill_bridge(struct setup *setup, const struct setup *from) {
    bool given = setup->origin[MENSUR_FIELD_BRIDGE] == SETUP_GIVEN;
    setup->clearance = mean_clearance(setup);
    setup->bridge_follows = !given && !isnan(setup->clearance);
    if (given || setup->bridge_follows || setup->family == NULL) {
        return;
    }
    bool before = from != NULL && !isnan(from->bridge_over);
    double bridge = usual(setup, MENSUR_FIELD_BRIDGE);
    setup->bridge_over =
        before ? from->bridge_over
               : bridge - usual(setup, MENSUR_FIELD_PROJECTION) + off(setup, MENSUR_FIELD_BRIDGE);
    put_usual(setup, MENSUR_FIELD_BRIDGE, bridge);
    setup->scaled[MENSUR_FIELD_BRIDGE] =
        before ? from->scaled[MENSUR_FIELD_BRIDGE] : setup->scaled[MENSUR_FIELD_BRIDGE];
}

/* The first measurement that the side view lacks; MENSUR_FIELD_COUNT where it lacks none. */
static enum mensur_field lacking(const struct setup *setup) {
    static const enum mensur_field needs[] = {
        MENSUR_FIELD_STOP,  MENSUR_FIELD_NECK,       MENSUR_FIELD_OVERSTAND,
        MENSUR_FIELD_BOARD, MENSUR_FIELD_BOARD_NUT,  MENSUR_FIELD_NUT,
        MENSUR_FIELD_ARCH,  MENSUR_FIELD_PROJECTION, MENSUR_FIELD_SADDLE};
    for (size_t i = 0; i < sizeof needs / sizeof needs[0]; i++) {
        if (!is_known(setup, needs[i])) {
            return needs[i];
        }
    }
    return is_known(setup, MENSUR_FIELD_BRIDGE) || setup->bridge_follows ? MENSUR_FIELD_COUNT
                                                                         : MENSUR_FIELD_BRIDGE;
}

static void fill_view(struct setup *setup) {
    const double *v = setup->value;
    setup->view = (struct mensur_side_view){.body_straight = v[MENSUR_FIELD_BODY_STRAIGHT],
                                            .stop = v[MENSUR_FIELD_STOP],
                                            .neck = v[MENSUR_FIELD_NECK],
                                            .overstand = v[MENSUR_FIELD_OVERSTAND],
                                            .board = v[MENSUR_FIELD_BOARD],
                                            .board_nut = v[MENSUR_FIELD_BOARD_NUT],
                                            .nut = v[MENSUR_FIELD_NUT],
                                            .arch = v[MENSUR_FIELD_ARCH],
                                            .projection = v[MENSUR_FIELD_PROJECTION],
                                            .bridge = v[MENSUR_FIELD_BRIDGE],
                                            .saddle = v[MENSUR_FIELD_SADDLE]};
}

enum mensur_hold setup_hold(enum mensur_hold asked, const struct mensur_instrument *instrument,
                            bool bridge_alone) {
    return asked != MENSUR_HOLD_UNASKED        ? asked
           : instrument->built && bridge_alone ? MENSUR_HOLD_SLOPE
                                               : MENSUR_HOLD_PROJECTION;
}

static bool differs(const struct setup *setup, const struct setup *from, enum mensur_field field) {
    return setup->value[field] < from->value[field] || setup->value[field] > from->value[field];
}

/* The stop is another, and nothing of the neck is. */
static bool moves_bridge_alone(const struct setup *setup, const struct setup *from) {
    static const enum mensur_field of_neck[] = {MENSUR_FIELD_NECK, MENSUR_FIELD_OVERSTAND,
                                                MENSUR_FIELD_BOARD, MENSUR_FIELD_BOARD_NUT,
                                                MENSUR_FIELD_PROJECTION};
    bool alone = differs(setup, from, MENSUR_FIELD_STOP);
    for (size_t i = 0; i < sizeof of_neck / sizeof of_neck[0]; i++) {
        alone = alone && !differs(setup, from, of_neck[i]);
    }
    return alone;
}

/* Whether anything differs that the slope of a neck with a given projection depends on. */
static bool slope_moves(const struct setup *setup, const struct setup *from) {
    static const enum mensur_field parts[] = {MENSUR_FIELD_STOP,      MENSUR_FIELD_NECK,
                                              MENSUR_FIELD_OVERSTAND, MENSUR_FIELD_BOARD,
                                              MENSUR_FIELD_BOARD_NUT, MENSUR_FIELD_ARCH};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (differs(setup, from, parts[i])) {
            return true;
        }
    }
    return false;
}

/* Lets the projection follow where the slope is held, the bridge where the clearance is, and
 * solves the side view. */
static enum mensur_status solve_view(struct setup *setup, const struct setup *from,
                                     enum mensur_hold hold) {
    enum mensur_status status = MENSUR_OK;
    bool slope =
        from != NULL && from->has_geometry && !differs(setup, from, MENSUR_FIELD_PROJECTION) &&
        slope_moves(setup, from) &&
        setup_hold(hold, setup->instrument, moves_bridge_alone(setup, from)) == MENSUR_HOLD_SLOPE;
    setup->hold = slope ? MENSUR_HOLD_SLOPE : MENSUR_HOLD_PROJECTION;
    if (slope) {
        setup->view.projection = NAN;
        status = mensur_projection_for_slope(&setup->view, from->geometry.neck_slope,
                                             &setup->view.projection);
        put(setup, MENSUR_FIELD_PROJECTION, setup->view.projection, SETUP_DERIVED);
    }
    if (!isnan(setup->bridge_over)) {
        setup->view.bridge = setup->view.projection + setup->bridge_over;
        setup->value[MENSUR_FIELD_BRIDGE] = setup->view.bridge;
    }
    if (status == MENSUR_OK && setup->bridge_follows) {
        status = mensur_bridge_for_clearance(
            setup->solver, &setup->view, setup->value[MENSUR_FIELD_BOARD_LENGTH],
            setup->board_share, setup->clearance, &setup->view.bridge);
        put(setup, MENSUR_FIELD_BRIDGE, setup->view.bridge, SETUP_DERIVED);
    }
    return status == MENSUR_OK ? mensur_geometry_solve(&setup->view, &setup->geometry) : status;
}

/* Lengths that follow from the string's own, unless they are given. */
static void fill_followers(struct setup *setup) {
    if (setup->origin[MENSUR_FIELD_BOARD_LENGTH] != SETUP_GIVEN) {
        put(setup, MENSUR_FIELD_BOARD_LENGTH, setup->string_length * setup->board_share,
            SETUP_ASSUMED);
    }
    if (setup->origin[MENSUR_FIELD_AFTERLENGTH] != SETUP_GIVEN) {
        put(setup, MENSUR_FIELD_AFTERLENGTH,
            setup->string_length * mensur_size_afterlength_share(&setup->size) *
                (1.0 + off(setup, MENSUR_FIELD_AFTERLENGTH)),
            SETUP_ASSUMED);
    }
}

/* A measured length stands in place of the geometry's, and keeps its excess when the rest moves. */
static void settle_length(struct setup *setup, const struct setup *from) {
    double measured = setup->instrument->measure[MENSUR_FIELD_STRING_LENGTH].value;
    double geometry = setup->geometry.string_length;
    setup->measured = !isnan(measured);
    bool measured_before = from != NULL && from->measured && from->has_geometry &&
                           setup->has_geometry &&
                           !(measured < from->value[MENSUR_FIELD_STRING_LENGTH]) &&
                           !(measured > from->value[MENSUR_FIELD_STRING_LENGTH]);
    if (measured_before) {
        setup->length_excess = from->length_excess;
        setup->string_length = from->string_length + (geometry - from->geometry.string_length);
    } else {
        setup->string_length = setup->measured ? measured : geometry;
        setup->length_excess = setup->measured && setup->has_geometry ? measured - geometry : 0.0;
    }
    fill_followers(setup);
}

static enum mensur_status fill_all(struct setup *setup, const struct setup *from,
                                   struct mensur_fault *fault) {
    enum mensur_status status = fill_body(setup, fault);
    if (status != MENSUR_OK) {
        return status;
    }
    if (is_known(setup, MENSUR_FIELD_STOP) && !is_known(setup, MENSUR_FIELD_STRING_LENGTH)) {
        assume_usual(setup, MENSUR_FIELD_NECK);
    }
    if (is_known(setup, MENSUR_FIELD_STOP) && is_known(setup, MENSUR_FIELD_NECK)) {
        for (size_t i = 0; i < sizeof plain_needs / sizeof plain_needs[0]; i++) {
            assume_usual(setup, plain_needs[i]);
        }
        assume_usual(setup, MENSUR_FIELD_HEEL);
        if (!setup->lengths_alone) {
            assume_usual(setup, MENSUR_FIELD_HOLLOW);
            assume_usual(setup, MENSUR_FIELD_BEHIND_NUT);
            fill_spacings(setup);
        }
        fill_board(setup);
        fill_arch(setup);
        fill_bridge(setup, from);
    }
    setup->has_geometry = lacking(setup) == MENSUR_FIELD_COUNT;
    if (!setup->has_geometry && !is_known(setup, MENSUR_FIELD_STRING_LENGTH)) {
        mensur_fault_set(fault,
                         "%s: %s is missing and no family says what is usual; give it, or the "
                         "family, or a measured string_length",
                         setup->instrument->name, mensur_field_info(lacking(setup))->name);
        return MENSUR_NO_ANSWER;
    }
    return MENSUR_OK;
}

/* A bridge that is not over the board's line: where that line comes from tells the remedy. */
static void tell_low_bridge(const struct setup *setup, struct mensur_fault *fault) {
    enum setup_origin origin = setup->origin[MENSUR_FIELD_PROJECTION];
    mensur_fault_set(
        fault,
        "%s: the string would lie on the board, because the bridge is no higher than "
        "the projection: bridge %s mm, projection %s mm%s",
        setup->instrument->name, mm(setup->view.bridge).text, mm(setup->view.projection).text,
        origin == SETUP_ASSUMED ? " (usual at this stop); give the projection as it is measured"
        : origin == SETUP_DERIVED
            ? " (by the neck's slope, which is held); set a higher bridge too, or hold "
              "the projection"
            : "; measure both again above the belly, or set a higher bridge");
}

/* A measured board that reaches past the bridge, on a string of that length or about. */
static void tell_long_board(const struct setup *setup, double string, struct mensur_fault *fault) {
    mensur_fault_set(fault,
                     "%s: board_length %s mm reaches to the bridge: the string is %s mm, and a "
                     "board of %s mm is usual on that; set board_length so, or make the string "
                     "longer",
                     setup->instrument->name, mm(setup->value[MENSUR_FIELD_BOARD_LENGTH]).text,
                     mm(string).text, mm(string * setup->board_share).text);
}

/* Whether a measured board is what keeps a bridge from being found for the clearances. */
static bool board_is_too_long(const struct setup *setup, double *string) {
    struct mensur_side_view view = setup->view;
    struct mensur_geometry geometry;
    if (!setup->bridge_follows || setup->origin[MENSUR_FIELD_BOARD_LENGTH] != SETUP_GIVEN ||
        mensur_bridge_for_clearance(setup->solver, &view, NAN, setup->board_share, setup->clearance,
                                    &view.bridge) != MENSUR_OK ||
        mensur_geometry_solve(&view, &geometry) != MENSUR_OK) {
        return false;
    }
    *string = geometry.string_length;
    return true;
}

/* Why there is no side view, and what would do. */
static enum mensur_status no_slope(const struct setup *setup, struct mensur_fault *fault) {
    const struct mensur_side_view *view = &setup->view;
    double string;
    if (view->bridge <= view->projection) {
        tell_low_bridge(setup, fault);
    } else if (view->stop >= view->body_straight) {
        mensur_fault_set(fault,
                         "%s: the stop, %s mm, reaches past the body, which is %s mm in a straight "
                         "line; check stop, body and back_arch",
                         setup->instrument->name, mm(view->stop).text,
                         mm(view->body_straight).text);
    } else if (board_is_too_long(setup, &string)) {
        tell_long_board(setup, string, fault);
    } else if (isnan(view->projection)) {
        mensur_fault_set(fault,
                         "%s: with the neck's slope held, the line of the board would run into the "
                         "belly before the bridge; hold the projection",
                         setup->instrument->name);
    } else {
        mensur_fault_set(fault,
                         "%s: no neck can be set so: on a stop of %s mm a board %s mm thick would "
                         "have to rise %s mm (arch + projection − overstand); check these five, or "
                         "leave out what was not measured",
                         setup->instrument->name, mm(view->stop).text, mm(view->board).text,
                         mm(view->arch + view->projection - view->overstand).text);
    }
    return MENSUR_NO_ANSWER;
}

enum mensur_status setup_check_clearance(const struct setup *setup, struct mensur_fault *fault) {
    if (!setup->has_geometry || setup_board_end_clearance(setup) > 0.0) {
        return MENSUR_OK;
    }
    tell_long_board(setup, setup->geometry.string_length, fault);
    return MENSUR_NO_ANSWER;
}

/* Fills in what follows from the instrument, which a failure leaves half filled. */
static enum mensur_status fill_in(const struct mensur_stock *stock,
                                  const struct mensur_instrument *instrument,
                                  const struct setup *from, enum mensur_hold hold,
                                  struct mensur_fault *fault, struct setup *out) {
    if (from != NULL && from->instrument->size != instrument->size) {
        from = NULL; /* another size keeps nothing that was assumed of the one before */
    }
    take_given(out, from);
    out->lengths_alone = out->lengths_alone && !out->unsure;
    out->family = mensur_stock_family(stock, instrument->family);
    out->tuning = out->lengths_alone ? NULL : mensur_instrument_tuning(stock, instrument);
    assume_size(out);
    out->size = mensur_size_at(stock, out->family, out->value[MENSUR_FIELD_STOP]);
    bool usual_known = from == NULL && out->family != NULL;
    out->usual_low = from != NULL  ? from->usual_low
                     : usual_known ? clearance_offset(out, MENSUR_FIELD_CLEARANCE_LOW)
                                   : NAN;
    out->usual_high = from != NULL  ? from->usual_high
                      : usual_known ? clearance_offset(out, MENSUR_FIELD_CLEARANCE_HIGH)
                                    : NAN;
    out->board_share = from != NULL ? from->board_share
                                    : mensur_size_board_share(&out->size) *
                                          (1.0 + off(out, MENSUR_FIELD_BOARD_LENGTH));
    enum mensur_status status = fill_all(out, from, fault);
    if (status != MENSUR_OK) {
        findings_explain(stock, instrument, MENSUR_FIELD_BODY, MENSUR_FIELD_BACK_ARCH, fault);
        return status;
    }
    fill_view(out);
    if (out->has_geometry) {
        status = solve_view(out, from, hold);
        if (status != MENSUR_OK) {
            status = no_slope(out, fault);
            findings_explain(stock, instrument, MENSUR_FIELD_BRIDGE, MENSUR_FIELD_PROJECTION,
                             fault);
            return status;
        }
    } else {
        out->geometry = (struct mensur_geometry){0};
        mensur_figures_unknown(MENSUR_SCOPE_GEOMETRY, &out->geometry);
    }
    settle_length(out, from);
    out->end_clearance = setup_board_end_clearance(out);
    out->end_clearance_known = true;
    return MENSUR_OK;
}

enum mensur_status setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                              const struct mensur_instrument *instrument, const struct setup *from,
                              enum mensur_hold hold, struct mensur_fault *fault,
                              struct setup *out) {
    struct setup setup = {
        .solver = solver, .instrument = instrument, .clearance = NAN, .bridge_over = NAN};
    enum mensur_status status = fill_in(stock, instrument, from, hold, fault, &setup);
    if (status == MENSUR_OK) {
        *out = setup;
    }
    return status;
}

enum mensur_status setup_make_lengths(struct mensur_solver *solver,
                                      const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      enum mensur_hold hold, struct mensur_fault *fault,
                                      struct setup *out) {
    *out = (struct setup){.solver = solver,
                          .instrument = instrument,
                          .lengths_alone = true,
                          .clearance = NAN,
                          .bridge_over = NAN};
    return fill_in(stock, instrument, NULL, hold, fault, out);
}

enum mensur_status setup_move(const struct setup *from, double neck, double stop,
                              enum mensur_hold hold, struct setup *out) {
    struct setup setup = *from;
    setup.end_clearance_known = false;
    setup.value[MENSUR_FIELD_NECK] = neck;
    setup.value[MENSUR_FIELD_STOP] = stop;
    if (setup.origin[MENSUR_FIELD_BOARD_LENGTH] == SETUP_ASSUMED) {
        setup.value[MENSUR_FIELD_BOARD_LENGTH] = NAN; /* it follows the string */
    }
    fill_view(&setup);
    enum mensur_status status = solve_view(&setup, from, hold);
    if (status != MENSUR_OK) {
        return status;
    }
    settle_length(&setup, from);
    *out = setup;
    return MENSUR_OK;
}

double setup_a4(const struct setup *setup, const struct mensur_terms *terms) {
    return setup->instrument->a4 > 0.0 ? setup->instrument->a4 : terms->a4;
}

double setup_board_end_clearance(const struct setup *setup) {
    double clearance = NAN;
    if (setup->end_clearance_known) {
        return setup->end_clearance;
    }
    if (setup->has_geometry) {
        double board = setup->value[MENSUR_FIELD_BOARD_LENGTH];
        /* The hollow is nought at the board's end. */
        (void)mensur_clearance(&setup->view, &setup->geometry, board, 0.0, board, &clearance);
    }
    return clearance;
}

void setup_outer_offsets(const struct setup *setup, double *low, double *high) {
    const double *v = setup->value;
    *low = setup->usual_low;
    *high = setup->usual_high;
    if (!isnan(v[MENSUR_FIELD_CLEARANCE_LOW]) && !isnan(v[MENSUR_FIELD_CLEARANCE_HIGH])) {
        *low = v[MENSUR_FIELD_CLEARANCE_LOW] - setup->clearance;
        *high = v[MENSUR_FIELD_CLEARANCE_HIGH] - setup->clearance;
    }
}

/* The note under the first finger with the thumb in the heel: on cello and bass, where the thumb
 * stands opposite the second finger, a semitone lower (common practice, no source). */
static void find_heel(const struct setup *setup, struct mensur_lengths *out) {
    double thumb = out->neck - setup->value[MENSUR_FIELD_HEEL];
    bool knee = setup->family != NULL && setup->family->held != MENSUR_CHIN;
    if (thumb > 0.0 &&
        mensur_body_at_semitones(out->string_length, thumb, &out->first_finger_at_heel_semitones) ==
            MENSUR_OK) {
        out->first_finger_at_heel_semitones -= knee ? 1.0 : 0.0;
    }
}

void setup_lengths(const struct setup *setup, struct mensur_lengths *out) {
    struct mensur_body_air air;
    setup_lengths_and_air(setup, out, &air);
}

void setup_lengths_and_air(const struct setup *setup, struct mensur_lengths *out,
                           struct mensur_body_air *air) {
    const double *v = setup->value;
    const struct mensur_geometry *g = &setup->geometry;
    bool chin = setup->family != NULL && setup->family->held == MENSUR_CHIN;
    *out = (struct mensur_lengths){
        .body = v[MENSUR_FIELD_BODY],
        .body_straight = v[MENSUR_FIELD_BODY_STRAIGHT],
        .stop = v[MENSUR_FIELD_STOP],
        .neck = v[MENSUR_FIELD_NECK],
        .string_length = setup->string_length,
        .string_length_measured = setup->measured ? MENSUR_YES : MENSUR_NO,
        .string_length_geometry = g->string_length,
        .stop_per_2_neck = NAN,
        .body_at_semitones = NAN,
        .neck_slope = g->neck_slope,
        .break_angle = g->break_angle,
        .down_factor = g->down_factor,
        .left_reach = chin ? g->left_reach : NAN,
        .bow_reach = chin ? v[MENSUR_FIELD_BODY_STRAIGHT] - v[MENSUR_FIELD_STOP] : NAN,
        .afterlength = v[MENSUR_FIELD_AFTERLENGTH],
        .clearance_at_board_end = setup_board_end_clearance(setup),
        .bow_room = setup->string_length - v[MENSUR_FIELD_BOARD_LENGTH],
        .built = setup->instrument->built ? MENSUR_YES : MENSUR_NO,
        .first_finger_at_heel_semitones = NAN,
        .afterlength_semitones = NAN,
        .air_volume = NAN,
        .air_note = NAN};
    body_air_make(setup->instrument, setup->family, air);
    out->air_volume = air->volume;
    out->air_note = air->note;
    setup_outer_offsets(setup, &out->clearance_low, &out->clearance_high);
    out->clearance_low += out->clearance_at_board_end;
    out->clearance_high += out->clearance_at_board_end;
    if (setup->origin[MENSUR_FIELD_AFTERLENGTH] == SETUP_GIVEN) {
        out->afterlength_semitones = 12.0 * log2(out->string_length / out->afterlength);
    }
    /* Where stop or neck is unknown these two stay unknown. */
    (void)mensur_stop_per_2_neck(out->stop, out->neck, &out->stop_per_2_neck);
    (void)mensur_body_at_semitones(out->string_length, out->neck, &out->body_at_semitones);
    find_heel(setup, out);
}

void setup_name_places(const struct setup *setup, struct mensur_lengths *out) {
    name_place(setup->tuning, 0, out->body_at_semitones, body_within, &out->body_note);
    name_place(
        setup->tuning,
        heel_rank(setup->tuning, setup->family != NULL && setup->family->held != MENSUR_CHIN),
        out->first_finger_at_heel_semitones, heel_within, &out->heel_note);
}

enum {
    HEIGHT = MENSUR_BEHIND_LENGTH | MENSUR_BEHIND_BREAK,
    SLOPING = HEIGHT | MENSUR_BEHIND_SLOPE,
    LIFTING = HEIGHT | MENSUR_BEHIND_CLEARANCE
};

unsigned assumed_behind(enum mensur_field field) {
    static const unsigned of[MENSUR_FIELD_COUNT] = {
        [MENSUR_FIELD_ARCH] = SLOPING,
        [MENSUR_FIELD_EDGE] = SLOPING,
        [MENSUR_FIELD_OVERSTAND] = SLOPING,
        [MENSUR_FIELD_BOARD] = SLOPING,
        [MENSUR_FIELD_BOARD_NUT] = MENSUR_BEHIND_SLOPE,
        [MENSUR_FIELD_PROJECTION] =
            MENSUR_BEHIND_BREAK | MENSUR_BEHIND_SLOPE | MENSUR_BEHIND_CLEARANCE,
        [MENSUR_FIELD_BRIDGE] = LIFTING,
        [MENSUR_FIELD_SADDLE] = MENSUR_BEHIND_BREAK,
        [MENSUR_FIELD_NUT] = MENSUR_BEHIND_FEEL,
        [MENSUR_FIELD_BACK_ARCH] = MENSUR_BEHIND_REACH,
        [MENSUR_FIELD_AFTERLENGTH] = MENSUR_BEHIND_BEHIND | MENSUR_BEHIND_FEEL,
        [MENSUR_FIELD_BEHIND_NUT] = MENSUR_BEHIND_FEEL,
        [MENSUR_FIELD_BOARD_LENGTH] = MENSUR_BEHIND_ROOM | MENSUR_BEHIND_FEEL,
        [MENSUR_FIELD_HOLLOW] = MENSUR_BEHIND_FEEL,
        [MENSUR_FIELD_HEEL] = MENSUR_BEHIND_HEEL,
        [MENSUR_FIELD_SPACING_BRIDGE] = MENSUR_BEHIND_FEET,
        [MENSUR_FIELD_SPACING_NUT] = MENSUR_BEHIND_FEET,
        [MENSUR_FIELD_SPACING_TAIL] = MENSUR_BEHIND_FEET,
        [MENSUR_FIELD_FOOT_SPACING] = MENSUR_BEHIND_FEET,
    };
    return of[field] != 0 ? of[field] : (unsigned)MENSUR_BEHIND_ALL;
}

void assume(struct mensur_assumptions *assumed, const char *field, unsigned stands_behind,
            double value, enum mensur_kind kind, const char *text) {
    if (assumed->count < MENSUR_RESULT_ASSUMED) {
        assumed->items[assumed->count++] = (struct mensur_assumed){
            .field = field, .value = value, .kind = kind, .text = text, .behind = stands_behind};
    }
}

/* A length that was measured does not hang on the heights, and a reach that is none on nothing. */
static unsigned stands_behind_nothing(const struct setup *setup) {
    bool chin = setup->family != NULL && setup->family->held == MENSUR_CHIN;
    return (setup->measured ? MENSUR_BEHIND_LENGTH : 0U) | (chin ? 0U : MENSUR_BEHIND_REACH);
}

static void report_assumed(const struct setup *setup, struct mensur_assumptions *assumed) {
    const unsigned behind_nothing = stands_behind_nothing(setup);
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (setup->origin[f] == SETUP_ASSUMED) {
            const struct mensur_field_info *info = mensur_field_info((enum mensur_field)f);
            size_t at = assumed->count;
            assume(assumed, info->name, assumed_behind((enum mensur_field)f) & ~behind_nothing,
                   setup->value[f], info->kind, NULL);
            if (at < assumed->count) {
                assumed->items[at].scaled = setup->scaled[f];
            }
        }
    }
    if (setup->bridge_follows && setup->family != NULL) {
        if (setup->origin[MENSUR_FIELD_CLEARANCE_HIGH] == SETUP_UNKNOWN) {
            assume(assumed, "clearance_low against the mean", LIFTING,
                   clearance_offset(setup, MENSUR_FIELD_CLEARANCE_LOW), MENSUR_LENGTH, NULL);
        } else if (setup->origin[MENSUR_FIELD_CLEARANCE_LOW] == SETUP_UNKNOWN) {
            assume(assumed, "clearance_high against the mean", LIFTING,
                   clearance_offset(setup, MENSUR_FIELD_CLEARANCE_HIGH), MENSUR_LENGTH, NULL);
        }
    }
    if (setup->instrument->tuning == NULL && setup->tuning != NULL) {
        assume(assumed, "tuning", MENSUR_BEHIND_STRINGS, NAN, MENSUR_NUMBER, setup->tuning->name);
    }
}

/* What measurements say against each other; of a row with a slip that would be said twice. */
static void warn_contradictions(const struct setup *setup, struct mensur_facts *warnings) {
    const char *const *name = MENSUR_NAMES(setup->instrument->name);
    double clearance = setup_board_end_clearance(setup), bridge = NAN;
    double geometry = setup->geometry.string_length;
    if (clearance < least_clearance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_CLEARANCE_SMALL, name, MENSUR_NUMBERS(clearance));
    }
    if (setup->origin[MENSUR_FIELD_BRIDGE] == SETUP_GIVEN && !isnan(setup->clearance) &&
        mensur_bridge_for_clearance(setup->solver, &setup->view,
                                    setup->value[MENSUR_FIELD_BOARD_LENGTH], setup->board_share,
                                    setup->clearance, &bridge) == MENSUR_OK &&
        fabs(bridge - setup->view.bridge) > bridge_tolerance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_BRIDGE_AGAINST_CLEARANCE,
                         MENSUR_NAMES(setup->instrument->name),
                         MENSUR_NUMBERS(setup->view.bridge, bridge));
    }
    if (setup->measured && fabs(setup->string_length - geometry) > length_tolerance * geometry) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_AGAINST_GEOMETRY, name,
                         MENSUR_NUMBERS(setup->string_length, geometry));
    }
}

void setup_report(const struct mensur_stock *stock, const struct setup *setup,
                  const struct mensur_terms *terms, struct mensur_assumptions *assumed,
                  struct mensur_facts *warnings) {
    const char *const *name = MENSUR_NAMES(setup->instrument->name);
    report_assumed(setup, assumed);
    double a4 = setup_a4(setup, terms);
    if (!(a4 >= 380.0 && a4 <= 480.0)) {
        mensur_facts_add(warnings, MENSUR_FACT_PITCH_UNUSUAL, NULL, MENSUR_NUMBERS(a4));
    }
    if (fabs(a4 - terms->a4) > 0.0) {
        mensur_facts_add(warnings, MENSUR_FACT_OWN_PITCH, name, MENSUR_NUMBERS(a4, terms->a4));
    }
    /* Of a string that alone was measured the unknown figures say as much. */
    if (!setup->has_geometry &&
        (is_known(setup, MENSUR_FIELD_STOP) || is_known(setup, MENSUR_FIELD_NECK))) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_ALONE, name, NULL);
    }
    size_t before = warnings->count;
    findings_add(stock, setup->instrument, warnings);
    if (warnings->count == before) {
        warn_contradictions(setup, warnings);
    }
}
