/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pairs of instrument and string that the physics alone computes in a second: tension, stress,
 * margin to breaking, inharmonicity, impedance, force on the belly. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <time.h>

#include "geometry.h"
#include "taut_string.h"

enum { COUNT = 4000000 };

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* The sum of all results, so that the compiler omits none of them. */
static double evaluate(double length, double density) {
    const double frequency = 440.0, area = 5e-8, strength = 2.2e9, modulus = 1.9e11;
    double tension = 0, stress = 0, margin = 0, stiffness = 0, impedance = 0, force = 0;
    (void)mensur_tension(length, frequency, density, &tension);
    (void)mensur_stress(tension, area, &stress);
    (void)mensur_breaking_margin(stress, strength, &margin);
    (void)mensur_inharmonicity(length, tension, modulus, 2e-16, &stiffness);
    (void)mensur_impedance(tension, density, &impedance);
    (void)mensur_force_on_belly(tension, 0.38, &force);
    return tension + stress + margin + stiffness + impedance + force;
}

int main(void) {
    double sum = 0, start = seconds();
    for (int i = 0; i < COUNT; i++) {
        sum += evaluate(0.32 + 1e-9 * i, 5e-4 + 1e-11 * i);
    }
    double taken = seconds() - start;
    printf("instrument-string evaluations: %.1f million a second (checksum %.6g)\n",
           COUNT / taken * 1e-6, sum);
    return sum > 0 ? 0 : 1;
}
