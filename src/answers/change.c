/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A change sets one measurement; measurements that say the same thing in another way give way to
 * it, so that a changed instrument never contradicts itself. As an instrument that stands alone it
 * has what the change held written into its measurements. */
#include "change.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "string_model.h"

/* What gives way to what. */
static const struct {
    enum mensur_field changed;
    enum mensur_field gives_way;
} twins[] = {
    {MENSUR_FIELD_ARCH, MENSUR_FIELD_ARCH_FULL},
    {MENSUR_FIELD_ARCH_FULL, MENSUR_FIELD_ARCH},
    {MENSUR_FIELD_EDGE, MENSUR_FIELD_ARCH},
    {MENSUR_FIELD_BODY, MENSUR_FIELD_BODY_STRAIGHT},
    {MENSUR_FIELD_BRIDGE, MENSUR_FIELD_CLEARANCE_LOW},
    {MENSUR_FIELD_BRIDGE, MENSUR_FIELD_CLEARANCE_HIGH},
    {MENSUR_FIELD_CLEARANCE_LOW, MENSUR_FIELD_BRIDGE},
    {MENSUR_FIELD_CLEARANCE_HIGH, MENSUR_FIELD_BRIDGE},
};

static bool is_changed(enum mensur_field field, const struct mensur_change *changes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (changes[i].set == NULL && changes[i].tuning == NULL && changes[i].field == field) {
            return true;
        }
    }
    return false;
}

static void drop_twins(const struct mensur_change *changes, size_t count, enum mensur_field field,
                       struct mensur_instrument *instrument) {
    for (size_t i = 0; i < sizeof twins / sizeof twins[0]; i++) {
        enum mensur_field other = twins[i].gives_way;
        if (twins[i].changed == field && !is_changed(other, changes, count)) {
            instrument->measure[other] = MENSUR_UNKNOWN;
        }
    }
}

/* What is moved by nothing stays as it is: assumed, or following from its twins. */
static enum mensur_status apply_measure(const struct setup *before,
                                        const struct mensur_change *change,
                                        const struct mensur_change *changes, size_t count,
                                        struct mensur_fault *fault,
                                        struct mensur_instrument *instrument) {
    const char *name = mensur_field_info(change->field)->name;
    struct mensur_quantity value = change->value;
    const bool nothing = change->relative && !(value.value < 0.0) && !(value.value > 0.0);
    if (change->relative) {
        double present = change->field == MENSUR_FIELD_STRING_LENGTH ? before->string_length
                                                                     : before->value[change->field];
        if (isnan(present)) {
            mensur_fault_set(fault, "%s: %s is not known, so nothing can be added to it; set it",
                             instrument->name, name);
            return MENSUR_USE;
        }
        value.value += present;
        value.plus_minus = instrument->measure[change->field].plus_minus;
    }
    if (mensur_field_check(change->field, value.value) != MENSUR_OK) {
        mensur_fault_set(fault, "%s: %s would leave its domain: it is %s", instrument->name, name,
                         mensur_field_domain_text(change->field));
        return MENSUR_USE;
    }
    if (!nothing) {
        instrument->measure[change->field] = value;
        drop_twins(changes, count, change->field, instrument);
    }
    return MENSUR_OK;
}

static enum mensur_status replace_text(const char *text, char **out) {
    char *copy = NULL;
    enum mensur_status status = mensur_text_copy(text, strlen(text), &copy);
    if (status == MENSUR_OK) {
        free(*out);
        *out = copy;
    }
    return status;
}

static enum mensur_status apply_name(const struct mensur_stock *stock,
                                     const struct mensur_change *change, struct mensur_fault *fault,
                                     struct mensur_instrument *instrument) {
    if (change->set != NULL) {
        if (!string_set_exists(stock, change->set)) {
            mensur_fault_set(fault, "there is no set of strings \"%s\"", change->set);
            return MENSUR_USE;
        }
        return replace_text(change->set, &instrument->set);
    }
    if (mensur_stock_tuning(stock, change->tuning) == NULL) {
        mensur_fault_set(fault, "there is no tuning \"%s\"", change->tuning);
        return MENSUR_USE;
    }
    return replace_text(change->tuning, &instrument->tuning);
}

/* What no two measurements of one instrument may say. */
static enum mensur_status check_whole(const struct mensur_instrument *instrument,
                                      struct mensur_fault *fault) {
    const struct mensur_quantity *m = instrument->measure;
    if (m[MENSUR_FIELD_STOP].value >= m[MENSUR_FIELD_BODY].value ||
        m[MENSUR_FIELD_STOP].value >= m[MENSUR_FIELD_BODY_STRAIGHT].value) {
        mensur_fault_set(fault, "%s: stop must be shorter than the body", instrument->name);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

enum mensur_status change_apply(const struct mensur_stock *stock, const struct setup *before,
                                const struct mensur_change *changes, size_t count,
                                struct mensur_fault *fault, struct mensur_instrument *out) {
    struct mensur_instrument changed;
    enum mensur_status status = mensur_instrument_copy(before->instrument, &changed);
    if (status != MENSUR_OK) {
        return tell_memory(status, fault);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        if (changes[i].set != NULL || changes[i].tuning != NULL) {
            status = apply_name(stock, &changes[i], fault, &changed);
        } else {
            status = apply_measure(before, &changes[i], changes, count, fault, &changed);
        }
    }
    if (status == MENSUR_OK) {
        status = check_whole(&changed, fault);
    }
    if (status != MENSUR_OK) {
        mensur_instrument_clear(&changed);
        return tell_memory(status, fault);
    }
    *out = changed;
    return MENSUR_OK;
}

enum mensur_status change_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                               const struct mensur_instrument *instrument,
                               const struct mensur_change *changes, size_t count,
                               enum mensur_hold hold, struct mensur_fault *fault,
                               struct setup *before, struct mensur_instrument *changed,
                               struct setup *after) {
    enum mensur_status status = setup_make(solver, stock, instrument, NULL, hold, fault, before);
    if (status == MENSUR_OK) {
        status = change_apply(stock, before, changes, count, fault, changed);
    }
    if (status != MENSUR_OK) {
        return status;
    }
    status = setup_make(solver, stock, changed, before, hold, fault, after);
    if (status != MENSUR_OK) {
        mensur_instrument_clear(changed);
    }
    return status;
}

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
    enum mensur_status status =
        setup_make(after->solver, stock, changed, NULL, hold, fault, &alone);
    for (int f = 0; f < MENSUR_FIELD_COUNT && status == MENSUR_OK; f++) {
        if (f != MENSUR_FIELD_AFTERLENGTH && f != MENSUR_FIELD_BOARD_LENGTH &&
            after->origin[f] == SETUP_ASSUMED && differs(after->value[f], alone.value[f])) {
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
    struct mensur_solver *solver = NULL;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = change_make(solver, stock, instrument, changes, count, terms->hold, fault, &before,
                             &changed, &after);
    }
    if (status != MENSUR_OK) {
        mensur_solver_free(solver);
        return tell_memory(status, fault);
    }
    hold_derived(&after, &changed);
    status = hold_assumed(stock, &after, terms->hold, fault, &changed);
    mensur_solver_free(solver);
    if (status != MENSUR_OK) {
        mensur_instrument_clear(&changed);
        return status;
    }
    *out = changed;
    return MENSUR_OK;
}
