/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What bow and finger feel of a string: bow-force window, pressing, pitch rise of stopping. SI throughout.
 */
#ifndef MENSUR_PLAYING_H
#define MENSUR_PLAYING_H

#include "status.h"

/** Greatest bow force that keeps one slip a period: 2 Z v/(delta b). */
enum mensur_status mensur_bow_force_greatest(double impedance, double bow_speed, double friction,
                                             double bow_place, double *force);
/** Least bow force: Z^2 v/(2 R delta b^2); resistance R in kg/s. */
enum mensur_status mensur_bow_force_least(double impedance, double bow_speed, double friction,
                                          double bow_place, double resistance, double *force);
/** Force to press the string to the board at x from the nut: T c (1/x + 1/(L - x)). */
enum mensur_status mensur_press_force(double tension, double length, double clearance, double x,
                                      double *force);

/** A string about to be stopped; lengths m. */
struct mensur_stopping {
    double length;         /**< nut to bridge, > 0 */
    double tension;        /**< N, > 0 */
    double linear_density; /**< kg/m, > 0 */
    double stiffness;      /**< E A in N, >= 0; 0 for no stretch */
    double stretch_length; /**< m: what shares the stretch; length (upper bound) to length + afterlength + behind_nut (lower) */
};

/** Frequency of the string pressed down by clearance at x from the nut, by the equations of docs/physics. */
enum mensur_status mensur_stopped_frequency(const struct mensur_stopping *string, double clearance,
                                            double x, double *frequency);

/** Clearance of the string above the board at a distance from the nut, in m; NaN where none. */
typedef double mensur_clearance_at(double x, void *context);

/** True place from the nut at which the stopped string sounds frequency; root finder between 0.2 and 1 times the simple place. */
enum mensur_status mensur_true_place(const struct mensur_stopping *string, double frequency,
                                     mensur_clearance_at *clearance, void *context, double *x);

#endif
