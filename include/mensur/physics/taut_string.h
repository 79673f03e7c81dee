/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The taut string: pitch, length, density and tension, and what follows from them. SI throughout.
 */
#ifndef MENSUR_TAUT_STRING_H
#define MENSUR_TAUT_STRING_H

#include "status.h"

/** T = 4 L^2 f^2 mu. */
enum mensur_status mensur_tension(double length, double frequency, double linear_density,
                                  double *tension);
/** mu = T / (4 L^2 f^2). */
enum mensur_status mensur_density_for_tension(double length, double frequency, double tension,
                                              double *linear_density);
/** f = sqrt(T/mu) / (2 L). */
enum mensur_status mensur_string_frequency(double length, double tension, double linear_density,
                                           double *frequency);
/** Tension of a string whose density mu0 holds for the slack string: T = 2 B/(1 + sqrt(1 + 4 B/EA)), B = 4 L^2 f^2 mu0. */
enum mensur_status mensur_tension_slack(double length, double frequency, double slack_density,
                                        double modulus, double core_area, double *tension);
/** Density of the tuned string: mu0/(1 + T/EA). */
enum mensur_status mensur_tuned_density(double slack_density, double tension, double modulus,
                                        double core_area, double *linear_density);
/** Stress in the core: T / A. */
enum mensur_status mensur_stress(double tension, double core_area, double *stress);
/** Margin to breaking in semitones: 6 log2(strength/stress); negative where it would break. */
enum mensur_status mensur_breaking_margin(double stress, double strength, double *semitones);
/** Highest pitch a material bears on a length: sqrt(strength/density)/(2 L). */
enum mensur_status mensur_highest_frequency(double length, double strength, double density,
                                            double *frequency);
/** Inharmonicity B = pi^2 E I/(T L^2). */
enum mensur_status mensur_inharmonicity(double length, double tension, double modulus,
                                        double second_moment, double *inharmonicity);
/** Wave impedance Z = sqrt(T mu), kg/s. */
enum mensur_status mensur_impedance(double tension, double linear_density, double *impedance);
/** Force on the belly: T (sin alpha + sin beta) = tension * down_factor. */
enum mensur_status mensur_force_on_belly(double tension, double down_factor, double *force);

#endif
