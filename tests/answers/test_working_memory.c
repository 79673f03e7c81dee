/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reach, true places and workings when memory fails: every allocation in turn. The linker puts
 * these three in the place of the library's own (--wrap). */
#include "demo.h"
#include "working.h"

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_realloc(void *old, size_t size);

static long left = -1; /* allocations until one fails; less than 0: none does */

static bool fails(void) {
    return left >= 0 && left-- == 0;
}

void *__wrap_malloc(size_t size) {
    return fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size) {
    return fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size) {
    return fails() ? NULL : __real_realloc(old, size);
}

/* Asks, frees what came, and tells how it went. */
typedef enum mensur_status question(const struct demo *demo, struct mensur_fault *fault);

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
    long kept = left; /* the answer has tests of its own */
    left = -1;
    enum mensur_status status = mensur_ask_restring(&demo->shop.stock, &demo->kestrel, &wishes,
                                                    &demo->terms, fault, &restringing);
    left = kept;
    if (status == MENSUR_OK) {
        status = freed(mensur_ask_working_restring(&demo->shop.stock, &demo->kestrel, &wishes,
                                                   &restringing, &demo->terms, false, fault, &out),
                       &out);
        mensur_restringing_clear(&restringing);
    }
    return status;
}

static void each_allocation(void **state) {
    const struct demo *demo = *state;
    static question *const questions[] = {reach,           true_places,     working_reach,
                                          working_lengths, working_compare, working_restring};
    for (size_t i = 0; i < COUNT_OF(questions); i++) {
        long allocations = 0;
        enum mensur_status status;
        struct mensur_fault fault;
        do {
            fault.text[0] = '\0';
            left = allocations;
            status = questions[i](demo, &fault);
            bool failed = left < 0;
            left = -1;
            if (failed) {
                check_status("out of memory", status, MENSUR_MEMORY);
                check_holds(fault.text, "memory");
            } else {
                check_status(fault.text, status, MENSUR_OK);
            }
            allocations++;
        } while (status != MENSUR_OK);
        assert_true(allocations > 5);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_allocation)};
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
