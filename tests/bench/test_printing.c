/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fast printing of numbers gives the digits of the C library, which rounds exactly, for many
 * doubles, among them difficult ones (ties, their neighbours, whole numbers, powers of ten).
 *   test_printing [COUNT]    (2 million) */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"

static uint64_t next_random(uint64_t *seed) {
    *seed ^= *seed << 13; /* xorshift (Marsaglia 2003) */
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static double any_bits(uint64_t bits) {
    double value;
    memcpy(&value, &bits, sizeof value);
    return isfinite(value) ? value : 1.5;
}

/* A decimal that ends in 5, which lies on or next to a tie of fewer digits. */
static double near_tie(uint64_t bits) {
    double value = (double)(bits >> 20) * 10.0 + 5.0;
    int decimals = (int)(bits % 18);
    value = (double)((uint64_t)value % 100000000000) / pow(10.0, decimals);
    return bits % 3 == 0 ? value : nextafter(value, bits % 3 == 1 ? 0.0 : 1e30);
}

static double hard_double(uint64_t *seed, long turn) {
    uint64_t bits = next_random(seed);
    switch (turn % 8) {
    case 0:
        return any_bits(bits);
    case 1:
        return near_tie(bits);
    case 2: /* sums of few powers of two: many exact ties */
        return (double)(int64_t)(bits >> 40) / (double)(1u << (bits % 20));
    case 3:
        return nextafter(pow(10.0, (double)(bits % 30) - 10.0), bits % 2 == 0 ? 0.0 : 1e30);
    case 4: /* multiples of powers of ten */
        return (double)(bits >> 11) / 9007199254740992.0 * pow(10.0, -(double)(bits % 24));
    case 5: /* about 1e-4, below which the digits get an exponent */
        return 5e-5 + (double)(bits >> 11) / 9007199254740992.0 * 2e-4;
    case 6: /* figures of seven digits at most, half of them below 1000 */
        return (double)(bits % 10000000) / pow(10.0, (double)(bits >> 32 & 7));
    default:
        return (double)(bits >> 11) / 9007199254740992.0 * 1000.0;
    }
}

/* printf prints a minus before zeros, mensur does not. */
static const char *without_lone_minus(const char *text) {
    return text[0] == '-' && text[strspn(text, "-0.")] == '\0' ? text + 1 : text;
}

static int differs(double value, int digits) {
    char mine[MENSUR_NUMBER_ROOM], theirs[MENSUR_NUMBER_ROOM];
    snprintf(theirs, sizeof theirs, "%.*f", digits, value);
    size_t length = mensur_number_print(value, digits, mine);
    if (strcmp(mine, without_lone_minus(theirs)) != 0 || length != strlen(mine)) {
        printf("%.17g to %d decimals: %s, not %s\n", value, digits, mine, theirs);
        return 1;
    }
    snprintf(theirs, sizeof theirs, "%.*g", digits == 0 ? 1 : digits, value);
    length = mensur_number_print_significant(value, digits == 0 ? 1 : digits, mine);
    if (strcmp(mine, without_lone_minus(theirs)) != 0 || length != strlen(mine)) {
        printf("%.17g to %d digits: %s, not %s\n", value, digits, mine, theirs);
        return 1;
    }
    return 0;
}

int main(int argc, char **argv) {
    long count = argc > 1 ? atol(argv[1]) : 2000000;
    uint64_t seed = UINT64_C(88172645463325252);
    int bad = 0;
    for (long i = 0; i < count && bad < 10; i++) {
        double value = hard_double(&seed, i);
        bad += differs(i % 9 == 0 ? -value : value, (int)(next_random(&seed) % 18));
    }
    printf("%ld doubles, %d differ\n", count, bad);
    return bad == 0 ? 0 : 1;
}
