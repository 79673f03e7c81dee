/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scarce.h"

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
void *__wrap_realloc(void *old, size_t size);

long scarce_left = -1;

bool scarce_fails(void) {
    return scarce_left >= 0 && scarce_left-- == 0;
}

void *__wrap_malloc(size_t size) {
    return scarce_fails() ? NULL : __real_malloc(size);
}

void *__wrap_calloc(size_t count, size_t size) {
    return scarce_fails() ? NULL : __real_calloc(count, size);
}

void *__wrap_realloc(void *old, size_t size) {
    return scarce_fails() ? NULL : __real_realloc(old, size);
}

void scarce_go_through(const char *row, scarce_question *ask, const struct demo *demo) {
    long allocations = 0;
    enum mensur_status status;
    do {
        struct mensur_fault fault = {.text = ""};
        char name[80];
        snprintf(name, sizeof name, "%s, allocation %ld", row, allocations);
        scarce_left = allocations;
        status = ask(demo, &fault);
        bool failed = scarce_left < 0;
        scarce_left = -1;
        if (failed) {
            check_status(name, status, MENSUR_MEMORY);
            check_holds(fault.text, "memory");
        } else {
            check_status(fault.text, status, MENSUR_OK);
        }
        allocations++;
    } while (status != MENSUR_OK);
    assert_true(allocations > 2);
}
