/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A change sets one measurement; measurements that say the same thing in another way give way to
 * it, so that a changed instrument never contradicts itself. As an instrument that stands alone it
 * has what the change held written into its measurements. */
#include "change.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "findings.h"
#include "nearest.h"
#include "string_model.h"

_Static_assert(MENSUR_FIELD_COUNT <= 64, "a bit for each measurement");

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
    /* The note was measured on the body as it is. */
    {MENSUR_FIELD_BODY, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_WIDTH_UPPER, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_WIDTH_MIDDLE, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_WIDTH_LOWER, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_RIB, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_BACK_ARCH, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_ARCH, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_ARCH_FULL, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_EDGE, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_PLATE, MENSUR_FIELD_AIR_NOTE},
    {MENSUR_FIELD_F_LENGTH, MENSUR_FIELD_AIR_NOTE},
};

static bool is_changed(enum mensur_field field, const struct mensur_change *changes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (changes[i].of == MENSUR_CHANGE_MEASURE && changes[i].field == field) {
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

static enum mensur_status check_measure(enum mensur_field field, struct mensur_quantity value,
                                        const struct mensur_instrument *instrument,
                                        struct mensur_fault *fault) {
    if (mensur_field_check(field, value.value) != MENSUR_OK) {
        mensur_fault_set(fault, "%s: %s would leave its domain: it is %s", instrument->name,
                         mensur_field_info(field)->name, mensur_field_domain_text(field));
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static void set_measure(enum mensur_field field, struct mensur_quantity value,
                        const struct mensur_change *changes, size_t count,
                        struct mensur_instrument *instrument) {
    instrument->measure[field] = value;
    instrument->proposed |= 1ULL << field;
    drop_twins(changes, count, field, instrument);
}

/* What is moved by nothing stays as it is: assumed, or following from its twins. */
static enum mensur_status apply_measure(const struct setup *before,
                                        const struct mensur_change *change,
                                        const struct mensur_change *changes, size_t count,
                                        struct mensur_fault *fault,
                                        struct mensur_instrument *instrument) {
    struct mensur_quantity value = change->value;
    const bool nothing = change->relative && !(value.value < 0.0) && !(value.value > 0.0);
    if (change->relative) {
        double present = change->field == MENSUR_FIELD_STRING_LENGTH ? before->string_length
                                                                     : before->value[change->field];
        if (isnan(present)) {
            mensur_fault_set(fault, "%s: %s is not known, so nothing can be added to it; set it",
                             instrument->name, mensur_field_info(change->field)->name);
            return MENSUR_USE;
        }
        value.value += present;
        value.plus_minus = instrument->measure[change->field].plus_minus;
    }
    enum mensur_status status = check_measure(change->field, value, instrument, fault);
    if (status == MENSUR_OK && !nothing) {
        set_measure(change->field, value, changes, count, instrument);
    }
    return status;
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

/* Further than this two names are not alike. */
enum { FARTHEST = 2 };

static enum mensur_status no_such(const char *what, const struct mensur_nearest *nearest,
                                  const char *otherwise, struct mensur_fault *fault) {
    if (nearest->name != NULL) {
        mensur_fault_set(fault, "there is no %s \"%s\"; did you mean \"%s\"?", what, nearest->word,
                         nearest->name);
    } else {
        mensur_fault_set(fault, "there is no %s \"%s\"%s", what, nearest->word, otherwise);
    }
    return MENSUR_USE;
}

static enum mensur_status apply_set(const struct mensur_stock *stock, const char *text,
                                    struct mensur_fault *fault,
                                    struct mensur_instrument *instrument) {
    struct mensur_nearest nearest = mensur_nearest_start(text, FARTHEST);
    if (string_set_exists(stock, text)) {
        return replace_text(text, &instrument->set);
    }
    for (size_t i = 0; i < stock->string_count; i++) {
        mensur_nearest_take(&nearest, stock->strings[i].set);
    }
    return no_such("set of strings", &nearest, "", fault);
}

static enum mensur_status apply_family(const struct mensur_stock *stock, const char *text,
                                       struct mensur_fault *fault,
                                       struct mensur_instrument *instrument) {
    struct mensur_nearest nearest = mensur_nearest_start(text, FARTHEST);
    if (mensur_stock_family(stock, text) != NULL) {
        return replace_text(text, &instrument->family);
    }
    for (size_t i = 0; i < stock->family_count; i++) {
        mensur_nearest_take(&nearest, stock->families[i].name);
    }
    return no_such("family", &nearest, "", fault);
}

/* Another size has its own family, and its own tuning where it has one. */
static enum mensur_status apply_size(const struct mensur_stock *stock, const char *text,
                                     struct mensur_fault *fault,
                                     struct mensur_instrument *instrument) {
    struct mensur_nearest nearest = mensur_nearest_start(text, FARTHEST);
    const struct mensur_named_size *size = mensur_stock_size(stock, text);
    for (size_t i = 0; size == NULL && i < stock->size_count; i++) {
        mensur_nearest_take(&nearest, stock->sizes[i].name);
    }
    if (size == NULL) {
        return no_such("size", &nearest, "; sizes.csv has them, for example violin 1/2", fault);
    }
    instrument->size = size;
    enum mensur_status status = replace_text(size->family, &instrument->family);
    return status == MENSUR_OK && size->tuning != NULL
               ? replace_text(size->tuning, &instrument->tuning)
               : status;
}

/* A tuning by its name, else by its notes. */
static enum mensur_status apply_tuning(const struct mensur_stock *stock, const char *text,
                                       struct mensur_fault *fault,
                                       struct mensur_instrument *instrument) {
    struct mensur_nearest nearest = mensur_nearest_start(text, FARTHEST);
    struct mensur_tuning own = {.count = 0};
    struct mensur_fault why = {""};
    if (mensur_stock_tuning(stock, text) != NULL ||
        mensur_tuning_read(text, &why, &own) == MENSUR_OK) {
        instrument->own = own;
        return replace_text(text, &instrument->tuning);
    }
    if (mensur_tuning_is_written(text)) {
        mensur_fault_set(fault, "tuning: %s", why.text);
        return MENSUR_USE;
    }
    for (size_t i = 0; i < stock->tuning_count; i++) {
        mensur_nearest_take(&nearest, stock->tunings[i].name);
    }
    return no_such("tuning", &nearest, "; its notes may be written out, for example C3 G3 D4 A4",
                   fault);
}

/* Makes the change at a place among all that are made. */
static enum mensur_status apply_change(const struct mensur_stock *stock, const struct setup *before,
                                       const struct mensur_change *changes, size_t count, size_t i,
                                       struct mensur_fault *fault,
                                       struct mensur_instrument *instrument) {
    const struct mensur_change *change = &changes[i];
    switch (change->of) {
    case MENSUR_CHANGE_STRINGS:
        return apply_set(stock, change->text, fault, instrument);
    case MENSUR_CHANGE_TUNING:
        return apply_tuning(stock, change->text, fault, instrument);
    case MENSUR_CHANGE_FAMILY:
        return apply_family(stock, change->text, fault, instrument);
    case MENSUR_CHANGE_SIZE:
        return apply_size(stock, change->text, fault, instrument);
    case MENSUR_CHANGE_BUILT:
        instrument->built = change->built;
        return MENSUR_OK;
    case MENSUR_CHANGE_A4:
        instrument->a4 = change->value.value;
        return MENSUR_OK;
    case MENSUR_CHANGE_MEASURE:
    case MENSUR_CHANGE_COUNT:
        break;
    }
    return apply_measure(before, change, changes, count, fault, instrument);
}

/* What no two measurements of one instrument may say. */
static enum mensur_status check_whole(const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      struct mensur_fault *fault) {
    const struct mensur_quantity *m = instrument->measure;
    if (m[MENSUR_FIELD_STOP].value >= m[MENSUR_FIELD_BODY].value ||
        m[MENSUR_FIELD_STOP].value >= m[MENSUR_FIELD_BODY_STRAIGHT].value) {
        mensur_fault_set(fault, "%s: stop must be shorter than the body", instrument->name);
        findings_explain(stock, instrument, MENSUR_FIELD_STOP, MENSUR_FIELD_BODY, fault);
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
    changed.was = before->instrument;
    changed.proposed = 0;
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = apply_change(stock, before, changes, count, i, fault, &changed);
    }
    if (status == MENSUR_OK) {
        status = check_whole(stock, &changed, fault);
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

static bool has_moved(const struct setup *before, const struct setup *after,
                      enum mensur_field field) {
    return differs(after->value[field], before->value[field]);
}

bool change_cuts(const struct setup *before, const struct setup *after) {
    static const enum mensur_field of_neck[] = {MENSUR_FIELD_NECK, MENSUR_FIELD_OVERSTAND,
                                                MENSUR_FIELD_BOARD, MENSUR_FIELD_BOARD_NUT,
                                                MENSUR_FIELD_PROJECTION};
    bool reset = false;
    if (!before->instrument->built || !before->has_geometry || !after->has_geometry ||
        after->hold == MENSUR_HOLD_SLOPE) {
        return false;
    }
    for (size_t i = 0; i < sizeof of_neck / sizeof of_neck[0]; i++) {
        reset = reset || has_moved(before, after, of_neck[i]);
    }
    return reset || differs(after->geometry.neck_slope, before->geometry.neck_slope);
}

/* How the neck stands: its slope where that was held, with what the bridge then is; or that it is
 * another neck. */
static void tell_held(const struct setup *before, const struct setup *after,
                      struct mensur_facts *facts) {
    const char *const *name = MENSUR_NAMES(after->instrument->name);
    double projections[] = {before->view.projection, after->view.projection};
    double clearance = setup_board_end_clearance(before), keeping = NAN;
    bool measured = after->origin[MENSUR_FIELD_BOARD_LENGTH] == SETUP_GIVEN;
    double board = measured ? after->value[MENSUR_FIELD_BOARD_LENGTH] : NAN;
    if (after->hold == MENSUR_HOLD_SLOPE && after->origin[MENSUR_FIELD_BRIDGE] == SETUP_GIVEN &&
        mensur_bridge_for_clearance(after->solver, &after->view, board, after->board_share,
                                    clearance, &keeping) == MENSUR_OK) {
        mensur_facts_add(facts, MENSUR_FACT_SLOPE_HELD, name,
                         MENSUR_NUMBERS(projections[0], projections[1],
                                        setup_board_end_clearance(after) - clearance,
                                        after->view.bridge, keeping));
    } else if (after->hold == MENSUR_HOLD_SLOPE) {
        mensur_facts_add(facts, MENSUR_FACT_SLOPE_HELD_CLEARANCE, name,
                         MENSUR_NUMBERS(projections[0], projections[1]));
    } else if (change_cuts(before, after)) {
        mensur_facts_add(facts,
                         has_moved(before, after, MENSUR_FIELD_NECK) ? MENSUR_FACT_NEW_NECK
                                                                     : MENSUR_FACT_NECK_RESET,
                         name, NULL);
    }
}

static bool changes_pitch(const struct mensur_change *changes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (changes[i].of == MENSUR_CHANGE_STRINGS || changes[i].of == MENSUR_CHANGE_TUNING ||
            changes[i].of == MENSUR_CHANGE_A4) {
            return true;
        }
    }
    return false;
}

/* A list of notes. */
struct notes {
    char text[MENSUR_STRINGS_MAX * (MENSUR_NOTE_ROOM + 2)];
    size_t count;
};

static void add_note(const char *note, struct notes *notes) {
    strcat(notes->text, notes->count++ == 0 ? "" : ", ");
    strcat(notes->text, note);
}

/* Whether a string breaks at its pitch, or how near it comes to it. */
static void tell_breaking(const struct mensur_profile *profile, struct mensur_facts *facts) {
    const struct mensur_string_figures *nearest = NULL;
    struct notes break_at = {.count = 0}, unknown = {.count = 0};
    for (size_t i = 0; i < profile->string_count; i++) {
        const struct mensur_string_figures *string = &profile->strings[i];
        if (string->breaking_margin < 0.0) {
            add_note(string->note, &break_at);
        } else if (isnan(string->breaking_margin) && string->string != NULL) {
            add_note(string->note, &unknown);
        } else if (nearest == NULL || string->breaking_margin < nearest->breaking_margin) {
            nearest = isnan(string->breaking_margin) ? nearest : string;
        }
    }
    if (break_at.count > 0) {
        mensur_facts_add(facts, MENSUR_FACT_STRINGS_BREAK, MENSUR_NAMES(break_at.text),
                         MENSUR_NUMBERS(break_at.count > 1 ? 1.0 : -1.0));
    } else if (nearest != NULL) {
        mensur_facts_add(facts, MENSUR_FACT_STRINGS_HOLD, MENSUR_NAMES(nearest->note),
                         MENSUR_NUMBERS(nearest->breaking_margin));
    }
    if (unknown.count > 0) {
        mensur_facts_add(facts, MENSUR_FACT_STRENGTHS_UNKNOWN, MENSUR_NAMES(unknown.text), NULL);
    }
}

/* Each string that is tuned to another note than before. */
static void tell_tuned(const struct mensur_profile *before, const struct mensur_profile *after,
                       struct mensur_facts *facts) {
    for (size_t i = 0; i < after->string_count; i++) {
        const struct mensur_string_figures *string = &after->strings[i];
        for (size_t j = 0; j < before->string_count && string->string != NULL; j++) {
            const struct mensur_string_figures *other = &before->strings[j];
            if (other->string == string->string && strcmp(other->note, string->note) != 0) {
                mensur_facts_add(facts, MENSUR_FACT_STRING_TUNED_TO,
                                 MENSUR_NAMES(other->note, string->note),
                                 MENSUR_NUMBERS(other->tension, string->tension,
                                                string->tension / other->tension));
            }
        }
    }
}

void change_tell(const struct setup *before, const struct setup *after,
                 const struct mensur_change *changes, size_t count,
                 const struct mensur_profile *profiles, struct mensur_facts *facts) {
    if (changes_pitch(changes, count)) {
        tell_breaking(&profiles[1], facts);
        tell_tuned(&profiles[0], &profiles[1], facts);
    }
    if (before->has_geometry && after->has_geometry) {
        tell_held(before, after, facts);
    }
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

/* Makes the change at a place among all where it gives what the instrument lacks. */
static enum mensur_status complete(const struct mensur_stock *stock,
                                   const struct mensur_instrument *lacking,
                                   const struct mensur_change *changes, size_t count, size_t i,
                                   struct mensur_fault *fault, struct mensur_instrument *whole) {
    const struct mensur_change *change = &changes[i];
    if (change->of == MENSUR_CHANGE_FAMILY) {
        return apply_family(stock, change->text, fault, whole);
    }
    if (change->of == MENSUR_CHANGE_SIZE) {
        return apply_size(stock, change->text, fault, whole);
    }
    if (change->of != MENSUR_CHANGE_MEASURE || change->relative ||
        !isnan(lacking->measure[change->field].value)) {
        return MENSUR_OK;
    }
    enum mensur_status status = check_measure(change->field, change->value, whole, fault);
    if (status == MENSUR_OK) {
        set_measure(change->field, change->value, changes, count, whole);
    }
    return status;
}

enum mensur_status mensur_instrument_completed(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_change *changes, size_t count,
                                               const struct mensur_terms *terms,
                                               struct mensur_fault *fault,
                                               struct mensur_instrument *out) {
    struct mensur_instrument whole;
    struct mensur_solver *solver = NULL;
    struct setup setup;
    enum mensur_status status = mensur_solver_make(&solver);
    if (status == MENSUR_OK) {
        status = setup_make(solver, stock, instrument, NULL, terms->hold, NULL, &setup);
    }
    if (status == MENSUR_OK) {
        mensur_solver_free(solver);
        return MENSUR_NO_ANSWER;
    }
    status = status == MENSUR_NO_ANSWER ? mensur_instrument_copy(instrument, &whole) : status;
    if (status != MENSUR_OK) {
        mensur_solver_free(solver);
        return tell_memory(status, fault);
    }
    for (size_t i = 0; i < count && status == MENSUR_OK; i++) {
        status = complete(stock, instrument, changes, count, i, fault, &whole);
    }
    whole.proposed = 0;
    if (status == MENSUR_OK) {
        status = setup_make(solver, stock, &whole, NULL, terms->hold, fault, &setup);
    }
    mensur_solver_free(solver);
    if (status != MENSUR_OK) {
        mensur_instrument_clear(&whole);
        return tell_memory(status, fault);
    }
    *out = whole;
    return MENSUR_OK;
}
