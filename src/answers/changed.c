/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A changed instrument that stands alone: what the change held is written into its measurements. */
#include "changed.h"

#include <math.h>

#include "change.h"

static bool differs(double one, double other) {
    return isnan(other) || one < other || one > other;
}

/* What followed from the change, and would not follow from the changed row alone. */
static void hold_derived(const struct setup *after, struct mensur_instrument *changed) {
    struct mensur_quantity *m = changed->measure;
    if (after->measured) {
        m[MENSUR_FIELD_STRING_LENGTH].value = after->string_length;
    }
    if (after->origin[MENSUR_FIELD_PROJECTION] == SETUP_DERIVED) {
        m[MENSUR_FIELD_PROJECTION].value = after->value[MENSUR_FIELD_PROJECTION];
    }
}

/* What was assumed and stayed, where it would now be assumed otherwise. */
static enum mensur_status hold_assumed(const struct mensur_stock *stock, const struct setup *after,
                                       enum mensur_hold hold, struct mensur_fault *fault,
                                       struct mensur_instrument *changed) {
    struct setup alone;
    enum mensur_status status = setup_make(stock, changed, NULL, hold, fault, &alone);
    for (int f = 0; f < MENSUR_FIELD_COUNT && status == MENSUR_OK; f++) {
        if (f != MENSUR_FIELD_AFTERLENGTH && after->origin[f] == SETUP_ASSUMED &&
            differs(after->value[f], alone.value[f])) {
            changed->measure[f].value = after->value[f];
        }
    }
    return status;
}

enum mensur_status mensur_instrument_changed(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms,
                                             struct mensur_fault *fault,
                                             struct mensur_instrument *out) {
    struct mensur_instrument changed;
    struct setup before, after;
    enum mensur_status status = setup_make(stock, instrument, NULL, terms->hold, fault, &before);
    if (status == MENSUR_OK) {
        status = change_apply(stock, &before, changes, count, fault, &changed);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = setup_make(stock, &changed, &before, terms->hold, fault, &after);
    if (status == MENSUR_OK) {
        hold_derived(&after, &changed);
        status = hold_assumed(stock, &after, terms->hold, fault, &changed);
    }
    if (status != MENSUR_OK) {
        mensur_instrument_clear(&changed);
        return status;
    }
    *out = changed;
    return MENSUR_OK;
}
