/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was filled in for an instrument, and what about its measurements deserves a warning. */
#include <math.h>

#include "assume.h"
#include "setup.h"
#include "words.h"

/* Clearances and bridge that disagree by more than this are both doubtful. */
static const double bridge_tolerance_m = 0.001;
/* An arch this far from its family's usual one was probably measured the other way. */
static const double arch_tolerance_m = 0.0025;
/* Under this a string buzzes on the board (common practice, no source). */
static const double least_clearance_m = 0.002;
static const double length_tolerance = 0.01;

void assume(struct mensur_assumptions *assumed, const char *field, double value,
            enum mensur_kind kind, const char *text) {
    if (assumed->count < MENSUR_RESULT_ASSUMED) {
        assumed->items[assumed->count++] = (struct mensur_assumed){field, value, kind, text};
    }
}

static void report_assumed(const struct setup *setup, struct mensur_assumptions *assumed) {
    for (int f = 0; f < MENSUR_FIELD_COUNT; f++) {
        if (setup->origin[f] == SETUP_ASSUMED) {
            assume(assumed, mensur_field_info((enum mensur_field)f)->name, setup->value[f],
                   MENSUR_LENGTH, NULL);
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

static enum mensur_status warn_clearance(const struct setup *setup, bool inches,
                                         struct mensur_texts *warnings) {
    double clearance = setup_board_end_clearance(setup);
    struct words room;
    if (!(clearance < least_clearance_m)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(warnings,
                            "%s: the strings stand only %s above the end of the board; they will "
                            "rattle on it",
                            setup->instrument->name, words_length(clearance, inches, &room));
}

static enum mensur_status warn_bridge(const struct setup *setup, bool inches,
                                      struct mensur_texts *warnings) {
    if (setup->origin[MENSUR_FIELD_BRIDGE] != SETUP_GIVEN || isnan(setup->clearance)) {
        return MENSUR_OK;
    }
    double bridge = NAN;
    struct words given;
    struct words wanted;
    if (mensur_bridge_for_clearance(&setup->view, setup->value[MENSUR_FIELD_BOARD_LENGTH],
                                    setup->clearance, &bridge) != MENSUR_OK ||
        fabs(bridge - setup->view.bridge) <= bridge_tolerance_m) {
        return MENSUR_OK;
    }
    return mensur_texts_add(
        warnings, "%s: bridge is %s, but the clearances given would want one of %s; measure again",
        setup->instrument->name, words_length(setup->view.bridge, inches, &given),
        words_length(bridge, inches, &wanted));
}

static enum mensur_status warn_arch(const struct setup *setup, bool inches,
                                    struct mensur_texts *warnings) {
    double usual = setup->family == NULL ? NAN : setup->family->usual[MENSUR_FIELD_ARCH];
    double arch = setup->value[MENSUR_FIELD_ARCH];
    struct words here;
    struct words there;
    if (!(fabs(arch - usual) > arch_tolerance_m)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(
        warnings,
        "%s: arch is %s, usual is %s. It is measured from the top surface of the edge; measured "
        "from the ribs' plane it is arch_full, and needs edge too",
        setup->instrument->name, words_length(arch, inches, &here),
        words_length(usual, inches, &there));
}

static enum mensur_status warn_length(const struct setup *setup, bool inches,
                                      struct mensur_texts *warnings) {
    double geometry = setup->geometry.string_length;
    struct words measured;
    struct words computed;
    if (!setup->measured ||
        !(fabs(setup->string_length - geometry) > length_tolerance * geometry)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(warnings,
                            "%s: the string was measured as %s, but its other measurements give "
                            "%s; one of them is off",
                            setup->instrument->name,
                            words_length(setup->string_length, inches, &measured),
                            words_length(geometry, inches, &computed));
}

static enum mensur_status warn_reach(const struct setup *setup, struct mensur_texts *warnings) {
    const struct mensur_family *family = setup->family;
    if (family == NULL) {
        return mensur_texts_add(warnings,
                                "%s: no reach and no positions are given, because it names no "
                                "family",
                                setup->instrument->name);
    }
    if (family->held == MENSUR_CHIN) {
        return MENSUR_OK;
    }
    return mensur_texts_add(warnings,
                            "%s: no reach is given, because a %s is not held under the chin",
                            setup->instrument->name, family->name);
}

static enum mensur_status warn_pitch(double a4, struct mensur_texts *warnings) {
    struct words room;
    if (a4 >= 380.0 && a4 <= 480.0) {
        return MENSUR_OK;
    }
    return mensur_texts_add(warnings, "A4 at %s Hz lies outside 380 to 480 Hz",
                            words_number(a4, 1, &room));
}

static enum mensur_status warn_no_geometry(const struct setup *setup,
                                           struct mensur_texts *warnings) {
    if (setup->has_geometry) {
        return MENSUR_OK;
    }
    return mensur_texts_add(warnings,
                            "%s: only its string length is known; what needs stop, neck and "
                            "set-up is left open",
                            setup->instrument->name);
}

enum mensur_status setup_report(const struct setup *setup, const struct mensur_terms *terms,
                                struct mensur_assumptions *assumed, struct mensur_texts *warnings) {
    report_assumed(setup, assumed);
    enum mensur_status status = warn_pitch(terms->a4, warnings);
    if (status == MENSUR_OK) {
        status = warn_no_geometry(setup, warnings);
    }
    if (status == MENSUR_OK) {
        status = warn_clearance(setup, terms->inches, warnings);
    }
    if (status == MENSUR_OK) {
        status = warn_bridge(setup, terms->inches, warnings);
    }
    if (status == MENSUR_OK) {
        status = warn_arch(setup, terms->inches, warnings);
    }
    if (status == MENSUR_OK) {
        status = warn_length(setup, terms->inches, warnings);
    }
    return status == MENSUR_OK ? warn_reach(setup, warnings) : status;
}
