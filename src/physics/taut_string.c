/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The taut string.
 *
 * M. Mersenne, Harmonie universelle (1636), and any acoustics textbook:
 *     f = sqrt(T/mu)/(2 L).
 * H. Fletcher, Normal Vibration Frequencies of a Stiff Piano String, J. Acoust. Soc. Am. 36 (1964)
 * 203-209; N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, chapter 2 (both
 * cited from memory): pinned ends,
 *     f_n = n f sqrt(1 + B n^2),  B = pi^2 E I/(T L^2).
 * L length, f frequency, T tension, mu linear density, E modulus, I second moment of the core. */
#include "taut_string.h"

#include "domain.h"

static double squared(double x) {
    return x * x;
}

enum mensur_status mensur_tension(double length, double frequency, double linear_density,
                                  double *tension) {
    if (!is_positive(length) || !is_positive(frequency) || !is_positive(linear_density)) {
        return MENSUR_DOMAIN;
    }
    return give(squared(2.0 * length * frequency) * linear_density, tension);
}

enum mensur_status mensur_density_for_tension(double length, double frequency, double tension,
                                              double *linear_density) {
    if (!is_positive(length) || !is_positive(frequency) || !is_positive(tension)) {
        return MENSUR_DOMAIN;
    }
    return give(tension / squared(2.0 * length * frequency), linear_density);
}

enum mensur_status mensur_string_frequency(double length, double tension, double linear_density,
                                           double *frequency) {
    if (!is_positive(length) || !is_positive(tension) || !is_positive(linear_density)) {
        return MENSUR_DOMAIN;
    }
    return give(sqrt(tension / linear_density) / (2.0 * length), frequency);
}

enum mensur_status mensur_tension_slack(double length, double frequency, double slack_density,
                                        double modulus, double core_area, double *tension) {
    if (!is_positive(modulus) || !is_positive(core_area)) {
        return MENSUR_DOMAIN;
    }
    double unstretched;
    enum mensur_status status = mensur_tension(length, frequency, slack_density, &unstretched);
    if (status != MENSUR_OK) {
        return status;
    }
    double root = 2.0 * sqrt(unstretched) / sqrt(modulus * core_area); /* of 4 B/EA */
    return give(2.0 * unstretched / (1.0 + hypot(1.0, root)), tension);
}

enum mensur_status mensur_tuned_density(double slack_density, double tension, double modulus,
                                        double core_area, double *linear_density) {
    if (!is_positive(slack_density) || !is_positive(tension) || !is_positive(modulus) ||
        !is_positive(core_area)) {
        return MENSUR_DOMAIN;
    }
    return give(slack_density / (1.0 + tension / (modulus * core_area)), linear_density);
}

enum mensur_status mensur_slack_diameter(double length, double frequency, double density,
                                         double modulus, double tension, double *diameter) {
    if (!is_positive(modulus) || !is_positive(tension)) {
        return MENSUR_DOMAIN;
    }
    double unstretched; /* stress of a string that does not thin */
    enum mensur_status status = mensur_tension(length, frequency, density, &unstretched);
    if (status != MENSUR_OK) {
        return status;
    }
    double root = 2.0 * sqrt(unstretched) / sqrt(modulus);
    double stress = 2.0 * unstretched / (1.0 + hypot(1.0, root));
    return give(2.0 * sqrt(tension / (MENSUR_PI * stress)), diameter);
}

enum mensur_status mensur_stress(double tension, double core_area, double *stress) {
    if (!is_positive(tension) || !is_positive(core_area)) {
        return MENSUR_DOMAIN;
    }
    return give(tension / core_area, stress);
}

enum mensur_status mensur_breaking_margin(double stress, double strength, double *semitones) {
    if (!is_positive(stress) || !is_positive(strength)) {
        return MENSUR_DOMAIN;
    }
    return give(6.0 * octaves_between(stress, strength), semitones);
}

enum mensur_status mensur_highest_frequency(double length, double strength, double density,
                                            double *frequency) {
    return mensur_string_frequency(length, strength, density, frequency);
}

enum mensur_status mensur_inharmonicity(double length, double tension, double modulus,
                                        double second_moment, double *inharmonicity) {
    if (!is_positive(length) || !is_positive(tension) || !is_positive(modulus) ||
        !is_positive(second_moment)) {
        return MENSUR_DOMAIN;
    }
    return give(squared(MENSUR_PI / length) * (modulus * second_moment / tension), inharmonicity);
}

enum mensur_status mensur_partial_frequency(double frequency, double inharmonicity, int partial,
                                            double *out) {
    if (!is_positive(frequency) || !is_not_negative(inharmonicity) || partial < 1) {
        return MENSUR_DOMAIN;
    }
    double n = partial;
    return give(n * frequency * sqrt(1.0 + inharmonicity * n * n), out);
}

enum mensur_status mensur_impedance(double tension, double linear_density, double *impedance) {
    if (!is_positive(tension) || !is_positive(linear_density)) {
        return MENSUR_DOMAIN;
    }
    return give(sqrt(tension * linear_density), impedance);
}

enum mensur_status mensur_force_on_belly(double tension, double down_factor, double *force) {
    if (!is_positive(tension) || !(fabs(down_factor) <= 2.0)) {
        return MENSUR_DOMAIN;
    }
    return give(tension * down_factor, force);
}
