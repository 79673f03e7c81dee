/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reach, true places and workings when memory fails: every allocation in turn. */
#include "scarce.h"
#include "working.h"

static enum mensur_status freed(enum mensur_status status, struct mensur_working *working) {
    if (status == MENSUR_OK) {
        mensur_working_clear(working);
    }
    return status;
}

static enum mensur_status reach(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const two[] = {&demo->kestrel, &demo->bittern};
    struct mensur_reaching out;
    enum mensur_status status = mensur_ask_reach(
        &demo->shop.stock, two, 2, &demo->shop.stock.players[0], &demo->terms, fault, &out);
    if (status == MENSUR_OK) {
        mensur_reaching_clear(&out);
    }
    return status;
}

static enum mensur_status true_places(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_profile out;
    enum mensur_status status =
        mensur_ask_profile(&demo->shop.stock, &demo->wren, &demo->terms,
                           MENSUR_PART_FINGERS | MENSUR_PART_TRUE_PLACES, fault, &out);
    if (status == MENSUR_OK) {
        mensur_profile_clear(&out);
    }
    return status;
}

static enum mensur_status working_reach(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const two[] = {&demo->kestrel, &demo->bittern};
    struct mensur_working out;
    return freed(mensur_ask_working_reach(&demo->shop.stock, two, 2, &demo->shop.stock.players[0],
                                          &demo->terms, fault, &out),
                 &out);
}

static enum mensur_status working_lengths(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_working out;
    return freed(
        mensur_ask_working_lengths(&demo->shop.stock, &demo->wren, &demo->terms, fault, &out),
        &out);
}

static enum mensur_status working_compare(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_instrument *const two[] = {&demo->swift, &demo->dipper};
    struct mensur_working out;
    return freed(
        mensur_ask_working_compare(&demo->shop.stock, two, 2, &demo->terms, true, fault, &out),
        &out);
}

static enum mensur_status working_restring(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_restring_wishes wishes = {
        .like = &demo->heron, .any_length = true, .least_margin = NAN, .most_belly_force = NAN};
    struct mensur_restringing restringing;
    struct mensur_working out;
    long kept = scarce_left; /* the answer has tests of its own */
    scarce_left = -1;
    enum mensur_status status = mensur_ask_restring(&demo->shop.stock, &demo->kestrel, &wishes,
                                                    &demo->terms, fault, &restringing);
    scarce_left = kept;
    if (status == MENSUR_OK) {
        status = freed(mensur_ask_working_restring(&demo->shop.stock, &demo->kestrel, &wishes,
                                                   &restringing, &demo->terms, false, fault, &out),
                       &out);
        mensur_restringing_clear(&restringing);
    }
    return status;
}

static enum mensur_status working_tension(const struct demo *demo, struct mensur_fault *fault) {
    struct mensur_working out;
    return freed(mensur_ask_working_tension(&demo->shop.stock, &demo->kestrel, &demo->terms, true,
                                            fault, &out),
                 &out);
}

static enum mensur_status working_change(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_change shorter = {
        .field = MENSUR_FIELD_STOP, .relative = true, .value = {.value = -0.002}};
    struct mensur_working out;
    return freed(mensur_ask_working_change(&demo->shop.stock, &demo->swift, &shorter, 1,
                                           &demo->terms, true, fault, &out),
                 &out);
}

static enum mensur_status working_decision(const struct demo *demo, struct mensur_fault *fault) {
    const struct mensur_wish length = {
        .kind = MENSUR_WISH_STRING_LENGTH, .low = 0.366, .high = 0.3735};
    const struct mensur_wishes wishes = {.items = &length, .count = 1};
    struct mensur_decision decision;
    struct mensur_working out;
    long kept = scarce_left; /* the answer has tests of its own */
    scarce_left = -1;
    enum mensur_status status = mensur_ask_decision(&demo->shop.stock, &demo->kestrel, &wishes,
                                                    false, &demo->terms, fault, &decision);
    scarce_left = kept;
    if (status == MENSUR_OK) {
        status = freed(mensur_ask_working_decision(&demo->shop.stock, &demo->kestrel, &decision,
                                                   &demo->terms, fault, &out),
                       &out);
        mensur_decision_clear(&decision);
    }
    return status;
}

static void each_allocation(void **state) {
    static const struct {
        const char *row;
        scarce_question *ask;
    } rows[] = {{"reach", reach},
                {"true places", true_places},
                {"working of a reach", working_reach},
                {"working of lengths", working_lengths},
                {"working of a comparison", working_compare},
                {"working of a tension", working_tension},
                {"working of a change", working_change},
                {"working of a decision", working_decision},
                {"working of new strings", working_restring}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        scarce_go_through(rows[i].row, rows[i].ask, *state);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_allocation)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
