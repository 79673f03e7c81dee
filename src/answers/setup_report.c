/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was filled in for an instrument, and what about its measurements deserves a warning. */
#include <math.h>

#include "assume.h"
#include "setup.h"

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

static void warn_clearance(const struct setup *setup, struct mensur_facts *warnings) {
    double clearance = setup_board_end_clearance(setup);
    if (clearance < least_clearance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_CLEARANCE_SMALL,
                         MENSUR_NAMES(setup->instrument->name), MENSUR_NUMBERS(clearance));
    }
}

static void warn_bridge(const struct setup *setup, struct mensur_facts *warnings) {
    double bridge = NAN;
    if (setup->origin[MENSUR_FIELD_BRIDGE] == SETUP_GIVEN && !isnan(setup->clearance) &&
        mensur_bridge_for_clearance(&setup->view, setup->value[MENSUR_FIELD_BOARD_LENGTH],
                                    setup->clearance, &bridge) == MENSUR_OK &&
        fabs(bridge - setup->view.bridge) > bridge_tolerance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_BRIDGE_AGAINST_CLEARANCE,
                         MENSUR_NAMES(setup->instrument->name),
                         MENSUR_NUMBERS(setup->view.bridge, bridge));
    }
}

static void warn_arch(const struct setup *setup, struct mensur_facts *warnings) {
    double usual = setup->family == NULL ? NAN : setup->family->usual[MENSUR_FIELD_ARCH];
    double arch = setup->value[MENSUR_FIELD_ARCH];
    if (fabs(arch - usual) > arch_tolerance_m) {
        mensur_facts_add(warnings, MENSUR_FACT_ARCH_UNUSUAL, MENSUR_NAMES(setup->instrument->name),
                         MENSUR_NUMBERS(arch, usual));
    }
}

static void warn_length(const struct setup *setup, struct mensur_facts *warnings) {
    double geometry = setup->geometry.string_length;
    if (setup->measured && fabs(setup->string_length - geometry) > length_tolerance * geometry) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_AGAINST_GEOMETRY,
                         MENSUR_NAMES(setup->instrument->name),
                         MENSUR_NUMBERS(setup->string_length, geometry));
    }
}

static void warn_reach(const struct setup *setup, struct mensur_facts *warnings) {
    const struct mensur_family *family = setup->family;
    if (family == NULL) {
        mensur_facts_add(warnings, MENSUR_FACT_NO_FAMILY, MENSUR_NAMES(setup->instrument->name),
                         NULL);
    } else if (family->held != MENSUR_CHIN) {
        mensur_facts_add(warnings, MENSUR_FACT_NOT_UNDER_CHIN,
                         MENSUR_NAMES(setup->instrument->name, family->name), NULL);
    }
}

static void warn_pitch(double a4, struct mensur_facts *warnings) {
    if (!(a4 >= 380.0 && a4 <= 480.0)) {
        mensur_facts_add(warnings, MENSUR_FACT_PITCH_UNUSUAL, NULL, MENSUR_NUMBERS(a4));
    }
}

void setup_report(const struct setup *setup, const struct mensur_terms *terms,
                  struct mensur_assumptions *assumed, struct mensur_facts *warnings) {
    report_assumed(setup, assumed);
    warn_pitch(terms->a4, warnings);
    if (!setup->has_geometry) {
        mensur_facts_add(warnings, MENSUR_FACT_LENGTH_ALONE, MENSUR_NAMES(setup->instrument->name),
                         NULL);
    }
    warn_clearance(setup, warnings);
    warn_bridge(setup, warnings);
    warn_arch(setup, warnings);
    warn_length(setup, warnings);
    warn_reach(setup, warnings);
}
