/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From an instrument's row to what the side view needs. A measurement that is missing is taken
 * from the family's usual ones and marked as assumed; stop, neck, body and string length never are.
 * What was filled in, and what about the measurements deserves a warning. */
#include "setup.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "figures.h"
#include "named_place.h"

/* What the side view needs besides stop, neck and what may follow from others. */
static const enum mensur_field plain_needs[] = {MENSUR_FIELD_OVERSTAND, MENSUR_FIELD_NUT,
                                                MENSUR_FIELD_PROJECTION, MENSUR_FIELD_SADDLE};

/* Clearances and bridge that disagree by more than this are both doubtful. */
static const double bridge_tolerance_m = 0.001;
/* An arch this far from its family's usual one was probably measured the other way. */
static const double arch_tolerance_m = 0.0025;
/* Under this a string buzzes on the board (common practice, no source). */
static const double least_clearance_m = 0.002;
static const double length_tolerance = 0.01;
/* Within so many semitones of a note the hand meets the body at that note (ours); and a neck's heel
 * is named after it (common practice, no source). */
static const double body_within = 0.1, heel_within = 0.3;

static bool is_known(const struct setup *setup, enum mensur_field field) {
    return !isnan(setup->value[field]);
}

static void put(struct setup *setup, enum mensur_field field, double value,
                enum setup_origin origin) {
    setup->value[field] = value;
    setup->origin[field] = isnan(value) ? SETUP_UNKNOWN : origin;
}

static void take_given(struct setup *setup, const struct setup *from) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        put(setup, (enum mensur_field)f, setup->instrument->measure[f].value, SETUP_GIVEN);
        /* The afterlength follows the string; everything else that was assumed stays. */
        if (from != NULL && from->origin[f] == SETUP_ASSUMED && isnan(setup->value[f]) &&
            f != MENSUR_FIELD_AFTERLENGTH) {
            put(setup, (enum mensur_field)f, from->value[f], SETUP_ASSUMED);
        }
    }
}

static void assume_usual(struct setup *setup, enum mensur_field field) {
    if (!is_known(setup, field) && setup->family != NULL) {
        put(setup, field, setup->family->usual[field], SETUP_ASSUMED);
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
        mensur_fault_set(fault, "%s: no back of this length can rise as far as its back_arch",
                         setup->instrument->name);
        return MENSUR_NO_ANSWER;
    }
    put(setup, MENSUR_FIELD_BODY_STRAIGHT, setup->back.straight, SETUP_DERIVED);
    return MENSUR_OK;
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
    return isnan(low) ? high - setup->family->clearance_high_offset
                      : low - setup->family->clearance_low_offset;
}

static void fill_bridge(struct setup *setup) {
    setup->clearance = mean_clearance(setup);
    setup->bridge_follows =
        setup->origin[MENSUR_FIELD_BRIDGE] != SETUP_GIVEN && !isnan(setup->clearance);
    if (!setup->bridge_follows) {
        assume_usual(setup, MENSUR_FIELD_BRIDGE);
    }
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

static bool differs(const struct setup *setup, const struct setup *from, enum mensur_field field) {
    return setup->value[field] < from->value[field] || setup->value[field] > from->value[field];
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
    bool projection_stays = from == NULL || differs(setup, from, MENSUR_FIELD_PROJECTION);
    if (hold == MENSUR_HOLD_SLOPE && !projection_stays && from->has_geometry &&
        slope_moves(setup, from)) {
        status = mensur_projection_for_slope(&setup->view, from->geometry.neck_slope,
                                             &setup->view.projection);
        put(setup, MENSUR_FIELD_PROJECTION, setup->view.projection, SETUP_DERIVED);
    }
    if (status == MENSUR_OK && setup->bridge_follows) {
        status = mensur_bridge_for_clearance(setup->solver, &setup->view,
                                             setup->value[MENSUR_FIELD_BOARD_LENGTH],
                                             setup->clearance, &setup->view.bridge);
        put(setup, MENSUR_FIELD_BRIDGE, setup->view.bridge, SETUP_DERIVED);
    }
    return status == MENSUR_OK ? mensur_geometry_solve(&setup->view, &setup->geometry) : status;
}

/* Lengths that follow from the string's own. */
static void fill_followers(struct setup *setup) {
    if (!is_known(setup, MENSUR_FIELD_BOARD_LENGTH)) {
        put(setup, MENSUR_FIELD_BOARD_LENGTH, setup->string_length * 5.0 / 6.0, SETUP_ASSUMED);
    }
    if (setup->origin[MENSUR_FIELD_AFTERLENGTH] != SETUP_GIVEN) {
        put(setup, MENSUR_FIELD_AFTERLENGTH, setup->string_length / 6.0, SETUP_ASSUMED);
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

static void find_names(const struct mensur_stock *stock, struct setup *setup) {
    const struct mensur_instrument *instrument = setup->instrument;
    setup->family = mensur_stock_family(stock, instrument->family);
    setup->tuning = mensur_stock_tuning(stock, instrument->tuning != NULL ? instrument->tuning
                                                                          : instrument->family);
}

static enum mensur_status fill_all(struct setup *setup, struct mensur_fault *fault) {
    enum mensur_status status = fill_body(setup, fault);
    if (status != MENSUR_OK) {
        return status;
    }
    if (is_known(setup, MENSUR_FIELD_STOP) && is_known(setup, MENSUR_FIELD_NECK)) {
        for (size_t i = 0; i < sizeof plain_needs / sizeof plain_needs[0]; i++) {
            assume_usual(setup, plain_needs[i]);
        }
        assume_usual(setup, MENSUR_FIELD_HOLLOW);
        assume_usual(setup, MENSUR_FIELD_BEHIND_NUT);
        fill_board(setup);
        fill_arch(setup);
        fill_bridge(setup);
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

static enum mensur_status no_slope(const struct setup *setup, enum mensur_status status,
                                   struct mensur_fault *fault) {
    if (setup->view.bridge <= setup->view.projection) {
        mensur_fault_set(fault,
                         "%s: the string would lie on the board, because the bridge is no higher "
                         "than the projection",
                         setup->instrument->name);
        return MENSUR_NO_ANSWER;
    }
    mensur_fault_set(fault,
                     "%s: no neck can be set so: stop, overstand, board, arch, projection, bridge "
                     "and body do not fit together",
                     setup->instrument->name);
    return status == MENSUR_DOMAIN ? MENSUR_NO_ANSWER : status;
}

enum mensur_status setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                              const struct mensur_instrument *instrument, const struct setup *from,
                              enum mensur_hold hold, struct mensur_fault *fault,
                              struct setup *out) {
    struct setup setup = {.solver = solver, .instrument = instrument, .clearance = NAN};
    find_names(stock, &setup);
    take_given(&setup, from);
    enum mensur_status status = fill_all(&setup, fault);
    if (status != MENSUR_OK) {
        return status;
    }
    fill_view(&setup);
    if (setup.has_geometry) {
        status = solve_view(&setup, from, hold);
        if (status != MENSUR_OK) {
            return no_slope(&setup, status, fault);
        }
    } else {
        mensur_figures_unknown(MENSUR_SCOPE_GEOMETRY, &setup.geometry);
    }
    settle_length(&setup, from);
    setup.end_clearance = setup_board_end_clearance(&setup);
    setup.end_clearance_known = true;
    *out = setup;
    return MENSUR_OK;
}

enum mensur_status setup_move(const struct setup *from, double neck, double stop,
                              enum mensur_hold hold, struct setup *out) {
    struct setup setup = *from;
    setup.end_clearance_known = false;
    setup.value[MENSUR_FIELD_NECK] = neck;
    setup.value[MENSUR_FIELD_STOP] = stop;
    fill_view(&setup);
    enum mensur_status status = solve_view(&setup, from, hold);
    if (status != MENSUR_OK) {
        return status;
    }
    settle_length(&setup, from);
    *out = setup;
    return MENSUR_OK;
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
    const struct mensur_family *family = setup->family;
    *low = family == NULL ? NAN : family->clearance_low_offset;
    *high = family == NULL ? NAN : family->clearance_high_offset;
    if (!isnan(v[MENSUR_FIELD_CLEARANCE_LOW]) && !isnan(v[MENSUR_FIELD_CLEARANCE_HIGH])) {
        *low = v[MENSUR_FIELD_CLEARANCE_LOW] - setup->clearance;
        *high = v[MENSUR_FIELD_CLEARANCE_HIGH] - setup->clearance;
    }
}

void setup_lengths(const struct setup *setup, struct mensur_lengths *out) {
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
    setup_outer_offsets(setup, &out->clearance_low, &out->clearance_high);
    out->clearance_low += out->clearance_at_board_end;
    out->clearance_high += out->clearance_at_board_end;
    if (setup->origin[MENSUR_FIELD_AFTERLENGTH] == SETUP_GIVEN) {
        out->afterlength_semitones = 12.0 * log2(out->string_length / out->afterlength);
    }
    /* Where stop or neck is unknown these two stay unknown. */
    (void)mensur_stop_per_2_neck(out->stop, out->neck, &out->stop_per_2_neck);
    (void)mensur_body_at_semitones(out->string_length, out->neck, &out->body_at_semitones);
    name_place(setup->tuning, 0, out->body_at_semitones, body_within, &out->body_note);
    name_place(
        setup->tuning,
        heel_rank(setup->tuning, setup->family != NULL && setup->family->held != MENSUR_CHIN),
        out->first_finger_at_heel_semitones, heel_within, &out->heel_note);
}

/* What a value of that name stands behind. An instrument's heights move the string length by half a
 * tenth of a millimetre or more, and the break angle by as much of a degree, where they are off by
 * their usual spread, but for the nut's, the saddle's (the angle alone) and the projection's. */
static unsigned behind(const char *field) {
    enum {
        HEIGHT = MENSUR_BEHIND_LENGTH | MENSUR_BEHIND_BREAK,
        SLOPING = HEIGHT | MENSUR_BEHIND_SLOPE
    };
    static const struct {
        const char *field;
        unsigned behind;
    } of[] = {
        {"arch", SLOPING},
        {"edge", SLOPING},
        {"overstand", SLOPING},
        {"board", SLOPING},
        {"board_nut", MENSUR_BEHIND_SLOPE},
        {"projection", MENSUR_BEHIND_BREAK | MENSUR_BEHIND_SLOPE | MENSUR_BEHIND_CLEARANCE},
        {"bridge", HEIGHT | MENSUR_BEHIND_CLEARANCE},
        {"clearance_low against the mean", HEIGHT | MENSUR_BEHIND_CLEARANCE},
        {"clearance_high against the mean", HEIGHT | MENSUR_BEHIND_CLEARANCE},
        {"saddle", MENSUR_BEHIND_BREAK},
        {"nut", MENSUR_BEHIND_FEEL},
        {"back_arch", MENSUR_BEHIND_REACH},
        {"afterlength", MENSUR_BEHIND_BEHIND | MENSUR_BEHIND_FEEL},
        {"behind_nut", MENSUR_BEHIND_FEEL},
        {"board_length", MENSUR_BEHIND_ROOM | MENSUR_BEHIND_FEEL},
        {"hollow", MENSUR_BEHIND_FEEL},
        {"bow_speed in m/s", MENSUR_BEHIND_FEEL},
        {"bow_distance", MENSUR_BEHIND_FEEL},
        {"friction", MENSUR_BEHIND_FEEL},
        {"tuning", MENSUR_BEHIND_STRINGS},
        {"margin in semitones", MENSUR_BEHIND_CHOICE},
    };
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        if (strcmp(field, of[i].field) == 0) {
            return of[i].behind;
        }
    }
    return MENSUR_BEHIND_ALL;
}

void assume(struct mensur_assumptions *assumed, const char *field, double value,
            enum mensur_kind kind, const char *text) {
    if (assumed->count < MENSUR_RESULT_ASSUMED) {
        assumed->items[assumed->count++] =
            (struct mensur_assumed){field, value, kind, text, behind(field)};
    }
}

static void report_assumed(const struct setup *setup, struct mensur_assumptions *assumed) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (setup->origin[f] == SETUP_ASSUMED) {
            assume(assumed, mensur_field_info((enum mensur_field)f)->name, setup->value[f],
                   MENSUR_LENGTH, NULL);
            /* A length that was measured does not hang on the heights. */
            unsigned keep = setup->measured ? ~(unsigned)MENSUR_BEHIND_LENGTH : ~0U;
            assumed->items[assumed->count - 1].behind &= keep;
        }
    }
    if (setup->bridge_follows && setup->family != NULL) {
        if (setup->origin[MENSUR_FIELD_CLEARANCE_HIGH] == SETUP_UNKNOWN) {
            assume(assumed, "clearance_low against the mean", setup->family->clearance_low_offset,
                   MENSUR_LENGTH, NULL);
        } else if (setup->origin[MENSUR_FIELD_CLEARANCE_LOW] == SETUP_UNKNOWN) {
            assume(assumed, "clearance_high against the mean", setup->family->clearance_high_offset,
                   MENSUR_LENGTH, NULL);
        }
    }
    if (setup->instrument->tuning == NULL && setup->tuning != NULL) {
        assume(assumed, "tuning", NAN, MENSUR_NUMBER, setup->tuning->name);
    }
}

static void warn_bridge(const struct setup *setup, struct mensur_facts *warnings) {
    double bridge = NAN;
    if (setup->origin[MENSUR_FIELD_BRIDGE] == SETUP_GIVEN && !isnan(setup->clearance) &&
        mensur_bridge_for_clearance(setup->solver, &setup->view,
                                    setup->value[MENSUR_FIELD_BOARD_LENGTH], setup->clearance,
                                    &bridge) == MENSUR_OK &&
        fabs(bridge - setup->view.bridge) > bridge_tolerance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_BRIDGE_AGAINST_CLEARANCE,
                         MENSUR_NAMES(setup->instrument->name),
                         MENSUR_NUMBERS(setup->view.bridge, bridge));
    }
}

void setup_report(const struct setup *setup, const struct mensur_terms *terms,
                  struct mensur_assumptions *assumed, struct mensur_facts *warnings) {
    const char *const *name = MENSUR_NAMES(setup->instrument->name);
    const struct mensur_family *family = setup->family;
    double clearance = setup_board_end_clearance(setup);
    double arch = setup->value[MENSUR_FIELD_ARCH];
    double usual = family == NULL ? NAN : family->usual[MENSUR_FIELD_ARCH];
    double geometry = setup->geometry.string_length;
    report_assumed(setup, assumed);
    if (!(terms->a4 >= 380.0 && terms->a4 <= 480.0)) {
        mensur_facts_add(warnings, MENSUR_FACT_PITCH_UNUSUAL, NULL, MENSUR_NUMBERS(terms->a4));
    }
    if (!setup->has_geometry) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_ALONE, name, NULL);
    }
    if (clearance < least_clearance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_CLEARANCE_SMALL, name, MENSUR_NUMBERS(clearance));
    }
    warn_bridge(setup, warnings);
    if (fabs(arch - usual) > arch_tolerance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_ARCH_UNUSUAL, name, MENSUR_NUMBERS(arch, usual));
    }
    if (setup->measured && fabs(setup->string_length - geometry) > length_tolerance * geometry) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_AGAINST_GEOMETRY, name,
                         MENSUR_NUMBERS(setup->string_length, geometry));
    }
    if (family == NULL) {
        mensur_facts_add(warnings, MENSUR_FACT_NO_FAMILY, name, NULL);
    }
}
