/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Profile, comparison, change and decision when memory fails: every allocation in turn. */
#include "changed.h"
#include "scarce.h"

static enum mensur_status profile(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_profile out;
    enum mensur_status status = mensur_ask_profile(&demo->shop.stock, &demo->heron, &demo->terms,
                                                   MENSUR_PART_ALL, fault, &out);
    if (status == MENSUR_OK) {
        mensur_profile_clear(&out);
    }
    return status;
}

static enum mensur_status freed(enum mensur_status status, struct mensur_comparison *comparison) {
    if (status == MENSUR_OK) {
        mensur_comparison_clear(comparison);
    }
    return status;
}

static enum mensur_status compare(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const three[] = {&demo->kestrel, &demo->heron, &demo->wren};
    struct mensur_comparison out;
    return freed(
        mensur_ask_compare(&demo->shop.stock, three, COUNT_OF(three), &demo->terms, fault, &out),
        &out);
}

static const struct mensur_change changes[] = {
    {.field = MENSUR_FIELD_STOP, .relative = true, .value = {.value = -0.003}},
    {.field = MENSUR_FIELD_STRING_LENGTH, .value = {.value = 0.371}},
    {.set = "viola steel"},
    {.tuning = "viola"},
};

static enum mensur_status change(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_comparison out;
    return freed(mensur_ask_change(&demo->shop.stock, &demo->heron, changes, COUNT_OF(changes),
                                   &demo->terms, fault, &out),
                 &out);
}

static enum mensur_status changed(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_instrument out;
    enum mensur_status status = mensur_instrument_changed(
        &demo->shop.stock, &demo->heron, changes, COUNT_OF(changes), &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_instrument_clear(&out);
    }
    return status;
}

static enum mensur_status decide(const struct demo *demo, const struct mensur_instrument *on,
                                 const struct mensur_wishes *wishes, bool for_stop,
                                 struct mensur_fault *fault) {
    struct mensur_decision out;
    enum mensur_status status =
        mensur_ask_decision(&demo->shop.stock, on, wishes, for_stop, &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_decision_clear(&out);
    }
    return status;
}

static enum mensur_status neck_like(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wish even = {
        .kind = MENSUR_WISH_TENSION, .percent = true, .low = 0.9, .high = 1.1};
    const struct mensur_wishes wishes = {.like = &demo->heron, .items = &even, .count = 1};
    return decide(demo, &demo->kestrel, &wishes, false, fault);
}

static const struct mensur_wish apart[] = {
    {.kind = MENSUR_WISH_STRING_LENGTH, .low = 0.380, .high = 0.385},
    {.kind = MENSUR_WISH_LEFT_REACH, .low = NAN, .high = 0.540},
    {.kind = MENSUR_WISH_TOTAL_TENSION, .low = 200, .high = 500},
};

/* heron's stop says how sure it is, and so the answer does. */
static enum mensur_status neck_in_conflict(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.items = apart, .count = COUNT_OF(apart)};
    return decide(demo, &demo->heron, &wishes, false, fault);
}

static enum mensur_status stop_for_length(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wishes wishes = {.items = apart, .count = 1};
    return decide(demo, &demo->heron, &wishes, true, fault);
}

static void each_allocation(void **state) {
    static const struct {
        const char *row;
        scarce_question *ask;
    } rows[] = {{"profile", profile},
                {"compare", compare},
                {"change", change},
                {"changed", changed},
                {"neck like heron", neck_like},
                {"neck in conflict", neck_in_conflict},
                {"stop for a length", stop_for_length}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        scarce_go_through(rows[i].row, rows[i].ask, *state);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_allocation)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
