/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The function of every harness, called by libFuzzer and by replay.c, which runs the kept inputs as
 * a test. */
#ifndef MENSUR_FUZZ_H
#define MENSUR_FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

/* Tries one input. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Aborts where a condition does not hold. */
#define MUST(holds)                                                                                \
    do {                                                                                           \
        if (!(holds)) {                                                                            \
            abort();                                                                               \
        }                                                                                          \
    } while (0)

#endif
