/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Forces of bow and finger on a string: greatest and least bow force, force to press the string
 * down, pitch rise of stopping. SI throughout.
 *
 * Every size lies between 1e-60 and 1e60 of its SI unit; a function that fails leaves its results
 * untouched.
 */
#ifndef MENSUR_PLAYING_H
#define MENSUR_PLAYING_H

#include "solve.h"
#include "status.h"

/**
 * Greatest bow force that keeps one slip a period.
 *
 * F = 2 Z v/(Delta beta)
 *
 * @param impedance   Z, kg/s, > 0, of the string
 * @param bow_speed   v, m/s, > 0
 * @param friction    Delta, unitless, > 0: static less dynamic coefficient of friction
 * @param bow_place   beta, unitless, over 0 and under 1: bow's distance from the bridge / length
 * @param[out] force  F, N
 *
 * Accuracy: 1e-15 relative for the equation. A flexible string, friction of two values, beta
 * small: an order of magnitude, enough to compare strings.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: J. C. Schelleng, J. Acoust. Soc. Am. 53 (1973) 26-41 (cited from memory); J. Woodhouse,
 * Euphonics, section 9.3.1, equations 3 and 4.
 * Test: tests/physics/test_playing.c (bow_forces, refuses_bows), test_published.c (topic 5)
 */
enum mensur_status mensur_bow_force_greatest(double impedance, double bow_speed, double friction,
                                             double bow_place, double *force);

/**
 * Least bow force that keeps one slip a period.
 *
 * F = Z^2 v/(2 R Delta beta^2)
 *
 * @param impedance   Z, kg/s, > 0, of the string
 * @param bow_speed   v, m/s, > 0
 * @param friction    Delta, unitless, > 0: static less dynamic coefficient of friction
 * @param bow_place   beta, unitless, over 0 and under 1
 * @param resistance  R, kg/s, > 0: force over speed at the bridge's notch
 * @param[out] force  F, N
 *
 * Accuracy: 1e-15 relative for the equation. The bridge is a pure resistance; a real one has
 * resonances, near which the force is many times as great.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: J. C. Schelleng, J. Acoust. Soc. Am. 53 (1973) 26-41 (cited from memory); agrees with
 * J. Woodhouse, Euphonics, section 9.4.2, for an admittance of 1/R.
 * Test: tests/physics/test_playing.c (bow_forces, refuses_bows), test_published.c (topic 5)
 */
enum mensur_status mensur_bow_force_least(double impedance, double bow_speed, double friction,
                                          double bow_place, double resistance, double *force);

/**
 * Force that presses the string down to the board.
 *
 * F = T c (1/x + 1/(L - x))
 *
 * @param tension     T, N, > 0
 * @param length      L, m, > 0
 * @param clearance   c, m, >= 0, of the string above the board at x
 * @param x           m from the nut, over 0 and under L
 * @param[out] force  F, N, to touch the board; more is needed to hold the note
 *
 * Accuracy: 1e-15 relative for the equation, which uses tangents of the angles in place of
 * sines (0.5 % too much where c is a tenth of x) and leaves the tension unchanged (too little).
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: statics.
 * Test: tests/physics/test_playing.c (pressing, refuses_pressing)
 */
enum mensur_status mensur_press_force(double tension, double length, double clearance, double x,
                                      double *force);

/** A string about to be stopped; lengths m. */
struct mensur_stopping {
    double length;         /**< m, nut to bridge, > 0 */
    double tension;        /**< N, > 0, of the open string */
    double linear_density; /**< kg/m, > 0, of the open string at pitch */
    double stiffness;      /**< E A in N, >= 0; 0: the tension does not rise */
    double
        stretch_length; /**< m, >= length: part of the string that is stretched: from length (upper
                           bound of the rise) to length + afterlength + behind_nut (lower bound) */
    double soft_end;    /**< m, >= 0: by how much the finger shortens the part that sounds; 0 for a
                             hard edge, at most mensur_end_shortening */
};

/** The way of a string pressed down to the board. */
struct mensur_stopped {
    double stretch;  /**< m, delta: how much longer it is than the open one */
    double sounding; /**< m, l: of the part that sounds */
};

/**
 * The way of a string pressed down to the board.
 *
 * l = sqrt((L - x)^2 + c^2),
 * delta = c^2/(x + sqrt(x^2 + c^2)) + c^2/((L - x) + sqrt((L - x)^2 + c^2))
 *
 * @param length     L, m, > 0
 * @param clearance  c, m, >= 0, of the string above the board at x
 * @param x          m from the nut, over 0 and under the length: where the string leaves the finger
 * @param[out] out   delta and l
 *
 * Accuracy: 1e-15 relative for the equation. Straight pieces.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: Pythagoras.
 * Test: tests/physics/test_stopping.c (against_pieces, refuses)
 */
enum mensur_status mensur_stopped_way(double length, double clearance, double x,
                                      struct mensur_stopped *out);

/**
 * Frequency of the string pressed down to the board.
 *
 * f = sqrt((T + EA delta/lf) (1 + delta/lf)/mu)/(2 (l - soft_end))
 *
 * With stiffness 0 only geometry remains: f/f_open = (L/l) sqrt(1 + delta/lf), a longer sounding
 * part and the same mass on a longer path.
 *
 * @param string          the string, each value in the range of its field
 * @param way             of mensur_stopped_way for its length
 * @param[out] frequency  f, Hz
 *
 * Accuracy: 1e-14 relative for the equation. Straight pieces, Hooke's law for the core, no
 * sideways bending; lf depends on friction at nut and bridge, and the soft end on the finger, so
 * compute both bounds. Nylon and its like are stiffer the more they are stressed:
 * mensur_modulus_under_stress.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: Pythagoras and Hooke (OpenStax, College Physics 2e, Elasticity: Stress and Strain).
 * Test: tests/physics/test_stopping.c (against_pieces, reduces, refuses)
 */
enum mensur_status mensur_stopped_frequency(const struct mensur_stopping *string,
                                            const struct mensur_stopped *way, double *frequency);

/**
 * Clearance of the string above the board.
 *
 * @param x        m from the nut
 * @param context  the caller's own data
 * @return         m, >= 0; NaN where there is no board or its clearance is unknown
 */
typedef double mensur_clearance_at(double x, void *context);

/**
 * True place from the nut at which the stopped string sounds a frequency.
 *
 * mensur_stopped_frequency(x) = f, the root nearest the simple place L (1 - f_open/f)
 *
 * Searched from 0.2 to 1 times the simple place; where the string sounds too low at the simple
 * place (no stiffness), on its other side, up to 0.8 of the way from there to the bridge.
 *
 * @param solver     of mensur_solver_make
 * @param string     the string, each value in the range of its field
 * @param frequency  f, Hz, above the open string's
 * @param clearance  the clearance at each place of the board, m
 * @param context    passed to clearance
 * @param[out] x     m from the nut
 *
 * Accuracy: 1e-13 of the length for the equation; as mensur_stopped_frequency.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: f is not above
 *          the open string's, there is no such place in the search, or no clearance is known where
 *          it was asked (the simple place among them)
 *
 * Source: as mensur_stopped_frequency; mensur_solve_root.
 * Test: tests/physics/test_stopping.c (true_places, no_true_place)
 */
enum mensur_status mensur_true_place(struct mensur_solver *solver,
                                     const struct mensur_stopping *string, double frequency,
                                     mensur_clearance_at *clearance, void *context, double *x);

#endif
