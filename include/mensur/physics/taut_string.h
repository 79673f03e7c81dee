/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The taut string: pitch, length, density and tension, and what follows from them. SI throughout.
 *
 * Every size lies between 1e-60 and 1e60 of its SI unit; a function that fails leaves its results
 * untouched.
 */
#ifndef MENSUR_TAUT_STRING_H
#define MENSUR_TAUT_STRING_H

#include "status.h"

/**
 * Tension that brings a string to a pitch.
 *
 * T = 4 L^2 f^2 mu
 *
 * @param length          L, m, > 0, nut to bridge
 * @param frequency       f, Hz, > 0
 * @param linear_density  mu, kg/m, > 0, of the string at pitch
 * @param[out] tension    T, N
 *
 * Accuracy: 1e-15 relative for the equation. An ideal string between rigid ends: stiffness raises
 * the fundamental by the part B/2 (mensur_inharmonicity), 3e-5 on a violin's plain steel E.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: M. Mersenne, Harmonie universelle (1636); OpenStax, University Physics 1, section 16.3.
 * Test: tests/physics/test_taut_string.c (laws, refuses), test_published.c (topics 1 and 5),
 * test_simulated_string.c
 */
enum mensur_status mensur_tension(double length, double frequency, double linear_density,
                                  double *tension);

/**
 * Linear density that gives a tension at a pitch.
 *
 * mu = T/(4 L^2 f^2)
 *
 * @param length               L, m, > 0
 * @param frequency            f, Hz, > 0
 * @param tension              T, N, > 0
 * @param[out] linear_density  mu, kg/m, of the string at pitch
 *
 * Accuracy: as mensur_tension.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_tension.
 * Test: tests/physics/test_taut_string.c (laws, refuses)
 */
enum mensur_status mensur_density_for_tension(double length, double frequency, double tension,
                                              double *linear_density);

/**
 * Pitch of a string under a tension.
 *
 * f = sqrt(T/mu)/(2 L)
 *
 * @param length          L, m, > 0
 * @param tension         T, N, > 0
 * @param linear_density  mu, kg/m, > 0
 * @param[out] frequency  f, Hz
 *
 * Accuracy: as mensur_tension.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_tension.
 * Test: tests/physics/test_taut_string.c (laws, refuses), test_published.c (topic 1),
 * test_simulated_string.c
 */
enum mensur_status mensur_string_frequency(double length, double tension, double linear_density,
                                           double *frequency);

/**
 * Tension of a string whose density was measured slack; tuning stretches it and lowers the density.
 *
 * T = 2 B/(1 + sqrt(1 + 4 B/EA)), B = 4 L^2 f^2 mu0
 *
 * @param length         L, m, > 0
 * @param frequency      f, Hz, > 0
 * @param slack_density  mu0, kg/m, > 0, of the string without tension
 * @param modulus        E, Pa, > 0, of the core
 * @param core_area      A, m2, > 0, of the core
 * @param[out] tension   T, N, under B
 *
 * Accuracy: 1e-14 relative for the equation. Hooke's law up to the tension: holds for metal and,
 * roughly, for gut; synthetic cores grow stiffer with stress, and creep.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: follows from mensur_tension and mensur_tuned_density: T (1 + T/EA) = B.
 * Test: tests/physics/test_taut_string.c (slack, refuses)
 */
enum mensur_status mensur_tension_slack(double length, double frequency, double slack_density,
                                        double modulus, double core_area, double *tension);

/**
 * Density of the string at pitch from its density without tension.
 *
 * mu = mu0/(1 + T/EA)
 *
 * @param slack_density        mu0, kg/m, > 0
 * @param tension              T, N, > 0
 * @param modulus              E, Pa, > 0, of the core
 * @param core_area            A, m2, > 0, of the core
 * @param[out] linear_density  mu, kg/m
 *
 * Accuracy: 1e-15 relative for the equation; as mensur_tension_slack.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: Hooke's law, dL = F L0/(E A); OpenStax, College Physics 2e, Elasticity: Stress and
 * Strain; the mass is unchanged.
 * Test: tests/physics/test_taut_string.c (slack, refuses)
 */
enum mensur_status mensur_tuned_density(double slack_density, double tension, double modulus,
                                        double core_area, double *linear_density);

/**
 * Diameter without tension (the gauge) of a plain elastic string that has a tension at a pitch.
 *
 * d = sqrt(4 T/(pi sigma)), sigma = (E/2) (sqrt(1 + 4 rho (2 L f)^2/E) - 1)
 *
 * @param length         L, m, > 0
 * @param frequency      f, Hz, > 0
 * @param density        rho, kg/m3, > 0, of the material without tension
 * @param modulus        E, Pa, > 0
 * @param tension        T, N, > 0
 * @param[out] diameter  d, m, of the slack string; sigma is the tension over its area
 *
 * Accuracy: 1e-14 relative for the equation, which is computed as 2 B/(1 + sqrt(1 + 4 B/E)) with
 * B = rho (2 L f)^2. As mensur_tension_slack; a plain string alone: of rope gut and overspun gut
 * the diameter does not tell the density.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: mensur_tension_slack of a round string, solved for its diameter.
 * Test: tests/physics/test_taut_string.c (gauges, refuses)
 */
enum mensur_status mensur_slack_diameter(double length, double frequency, double density,
                                         double modulus, double tension, double *diameter);

/**
 * Stress in the core, which is taken to carry all the tension.
 *
 * stress = T/A
 *
 * @param tension      T, N, > 0
 * @param core_area    A, m2, > 0
 * @param[out] stress  Pa
 *
 * Accuracy: 1e-15 relative for the equation. Bends at nut and bridge add to it.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: definition.
 * Test: tests/physics/test_taut_string.c (strengths, refuses), test_published.c (topic 10)
 */
enum mensur_status mensur_stress(double tension, double core_area, double *stress);

/**
 * How much higher the string could be tuned before it breaks.
 *
 * margin = 6 log2(strength/stress)
 *
 * @param stress          Pa, > 0, at pitch
 * @param strength        Pa, > 0, of the core's material
 * @param[out] semitones  semitones; negative where it breaks below this pitch
 *
 * Accuracy: 1e-14 relative, near breaking too. Strengths of one kind of wire or gut differ by a
 * tenth and more, and a tenth of the strength is 0.8 semitones.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: f is proportional to sqrt(T) at the same length and density (mensur_string_frequency).
 * Test: tests/physics/test_taut_string.c (strengths, refuses)
 */
enum mensur_status mensur_breaking_margin(double stress, double strength, double *semitones);

/**
 * Pitch at which a plain string of a material breaks on a length, whatever its diameter.
 *
 * f = sqrt(strength/rho)/(2 L)
 *
 * @param length          L, m, > 0
 * @param strength        Pa, > 0
 * @param density         rho, kg/m3, > 0
 * @param[out] frequency  f, Hz, at which it breaks
 *
 * Accuracy: 1e-15 relative for the equation; as mensur_breaking_margin.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: mensur_string_frequency with T = strength A and mu = rho A.
 * Test: tests/physics/test_taut_string.c (strengths, refuses), test_published.c (topics 3 and 10)
 */
enum mensur_status mensur_highest_frequency(double length, double strength, double density,
                                            double *frequency);

/**
 * Inharmonicity: how far stiffness raises the partials above whole multiples.
 *
 * B = pi^2 E I/(T L^2)
 *
 * @param length              L, m, > 0
 * @param tension             T, N, > 0
 * @param modulus             E, Pa, > 0, of the core
 * @param second_moment       I, m4, > 0, of the core
 * @param[out] inharmonicity  B, unitless
 *
 * Accuracy: 1e-14 relative for the equation. Pinned ends, a stiffness that is small beside the
 * tension, no shear: valid for partials whose wavelength is many diameters.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: H. Fletcher, J. Acoust. Soc. Am. 36 (1964) 203-209; N. H. Fletcher and T. D. Rossing,
 * The Physics of Musical Instruments, chapter 2 (both cited from memory).
 * Test: tests/physics/test_taut_string.c (stiff, refuses), test_published.c (topic 4),
 * test_simulated_string.c
 */
enum mensur_status mensur_inharmonicity(double length, double tension, double modulus,
                                        double second_moment, double *inharmonicity);

/**
 * Frequency of a partial of a stiff string with pinned ends.
 *
 * f_n = n f sqrt(1 + B n^2)
 *
 * @param frequency      f, Hz, > 0, of the same string without stiffness
 * @param inharmonicity  B, unitless, >= 0
 * @param partial        n, >= 1
 * @param[out] out       f_n, Hz
 *
 * Accuracy: 1e-15 relative for the equation; as mensur_inharmonicity.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_inharmonicity.
 * Test: tests/physics/test_taut_string.c (stiff, refuses), test_published.c (topic 4),
 * test_simulated_string.c
 */
enum mensur_status mensur_partial_frequency(double frequency, double inharmonicity, int partial,
                                            double *out);

/**
 * Wave impedance: force over speed at a driven point of an infinitely long string.
 *
 * Z = sqrt(T mu) = 2 L f mu
 *
 * @param tension         T, N, > 0
 * @param linear_density  mu, kg/m, > 0
 * @param[out] impedance  Z, kg/s
 *
 * Accuracy: 1e-15 relative for the equation.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: definition; any acoustics textbook.
 * Test: tests/physics/test_taut_string.c (impedances, refuses), test_published.c (topic 5)
 */
enum mensur_status mensur_impedance(double tension, double linear_density, double *impedance);

/**
 * Force of a string on the belly, through the bridge.
 *
 * F = T (sin alpha + sin beta) = T down_factor
 *
 * @param tension      T, N, > 0
 * @param down_factor  unitless, -2 to 2: of struct mensur_geometry; negative where the string
 *                     would lift off the bridge
 * @param[out] force   F, N, along y of the side view
 *
 * Accuracy: 1e-15 relative for the equation. The bridge moves freely along the string, so that
 * the tension is the same on both sides.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: statics.
 * Test: tests/physics/test_taut_string.c (belly, refuses), test_published.c (topic 6)
 */
enum mensur_status mensur_force_on_belly(double tension, double down_factor, double *force);

#endif
