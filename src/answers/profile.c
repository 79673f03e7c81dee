/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything about one instrument. */
#include "profile.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "body_air.h"
#include "figures.h"
#include "findings.h"
#include "proposals.h"
#include "remarks.h"

void mensur_terms_init(struct mensur_terms *terms) {
    *terms = (struct mensur_terms){.a4 = 440.0,
                                   .fifths = MENSUR_FIFTHS_PURE,
                                   .steps = MENSUR_STEPS_EQUAL,
                                   .hold = MENSUR_HOLD_UNASKED,
                                   .bow_speed = NAN,
                                   .bow_distance = NAN,
                                   .friction = NAN,
                                   .resistance = NAN};
}

static enum mensur_status fill(const struct mensur_stock *stock, const struct setup *setup,
                               const struct mensur_terms *terms, unsigned parts,
                               struct mensur_profile *profile) {
    setup_lengths_and_air(setup, &profile->lengths, &profile->air);
    bool remarks = (parts & MENSUR_PART_FIGURES_ALONE) == 0;
    bool of_many = (parts & MENSUR_PART_ROW_OF_MANY) != 0;
    if (remarks && (!of_many || (parts & MENSUR_PART_FINGERS) != 0)) {
        setup_name_places(setup, &profile->lengths); /* remarks on fingers tell them */
    }
    if (remarks && !of_many) {
        profile_side(setup, &profile->side);
        profile_measures(setup, profile);
        profile_crossings(setup, &profile->lengths, &profile->side);
    }
    if (remarks) {
        setup_report(stock, setup, terms, &profile->assumed, &profile->warnings);
    }
    /* Who asked about the strings did not ask for reach and positions. */
    if (remarks && setup->family == NULL && (parts & MENSUR_PART_STRINGS) == 0) {
        mensur_facts_add(&profile->warnings, MENSUR_FACT_NO_FAMILY,
                         MENSUR_NAMES(setup->instrument->name), NULL);
    }
    if ((parts & MENSUR_PART_STRINGS) != 0) {
        profile_strings(stock, setup, terms, parts, profile);
    }
    if ((parts & MENSUR_PART_FINGERS) != 0) {
        profile_fingers(setup, terms, profile);
        if (remarks) {
            remarks_alone(profile);
            fret_remarks(terms, profile);
        }
    }
    enum mensur_status status =
        profile->warnings.status == MENSUR_OK ? profile->remarks.status : profile->warnings.status;
    if (status == MENSUR_OK && (parts & MENSUR_PART_TRUE_PLACES) != 0) {
        status = profile_true_places(stock, setup, terms, profile);
    }
    return status;
}

/* The names of the instrument and of its set, in one piece of memory. */
static enum mensur_status copy_names(const struct mensur_instrument *instrument,
                                     struct mensur_profile *profile) {
    size_t name = strlen(instrument->name) + 1;
    size_t set = instrument->set != NULL ? strlen(instrument->set) + 1 : 0;
    char *names = malloc(name + set);
    if (names == NULL) {
        return MENSUR_MEMORY;
    }
    memcpy(names, instrument->name, name);
    profile->instrument = names;
    if (set > 0) {
        profile->set = memcpy(names + name, instrument->set, set);
    }
    return MENSUR_OK;
}

enum mensur_status profile_make(const struct mensur_stock *stock, const struct setup *setup,
                                const struct mensur_terms *terms, unsigned parts,
                                struct mensur_fault *fault, struct mensur_profile *profile) {
    const struct mensur_instrument *instrument = setup->instrument;
    const struct mensur_family *family = setup->family;
    /* A string that lies on the board has no pitch to compute. */
    enum mensur_status status = setup_check_clearance(setup, fault);
    if (status != MENSUR_OK) {
        findings_explain(stock, instrument, MENSUR_FIELD_BOARD_LENGTH, MENSUR_FIELD_BRIDGE, fault);
        return status;
    }
    mensur_profile_begin(profile);
    profile->family = family == NULL ? NULL : family->name;
    profile->held = family == NULL ? NULL : mensur_held_word(family->held);
    mensur_figures_unknown(MENSUR_SCOPE_TOTAL, profile);
    mensur_figures_unknown(MENSUR_SCOPE_HAND, profile);
    mensur_figures_unknown(MENSUR_SCOPE_FRETS, profile);
    mensur_figures_unknown(MENSUR_SCOPE_COMPARED, profile);
    status = copy_names(instrument, profile);
    if (status == MENSUR_OK) {
        status = proposals_make(instrument, profile);
    }
    if (status == MENSUR_OK) {
        status = fill(stock, setup, terms, parts, profile);
    }
    if (status != MENSUR_OK) {
        mensur_profile_clear(profile);
        return tell_memory(status, fault);
    }
    return MENSUR_OK;
}
