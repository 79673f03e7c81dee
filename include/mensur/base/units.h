/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Kinds of quantities, each with the SI unit that the library keeps it in and the units that it may
 * be written in, and the units in which forces are shown.
 */
#ifndef MENSUR_UNITS_H
#define MENSUR_UNITS_H

/** The quantity that a number measures, which decides the units it may have. */
enum mensur_kind {
    MENSUR_LENGTH,         /**< m; bare: mm; mm cm m in " and fractions of an inch */
    MENSUR_FORCE,          /**< N; bare: N; N kg kp kgf lb lbs lbf */
    MENSUR_LINEAR_DENSITY, /**< kg/m; bare: g/m; g/m kg/m mg/m */
    MENSUR_MODULUS,        /**< Pa; bare: GPa; GPa MPa */
    MENSUR_STRESS,         /**< Pa; bare: MPa; MPa GPa */
    MENSUR_DENSITY,        /**< kg/m3; bare: kg/m3; kg/m3 g/cm3 */
    MENSUR_FREQUENCY,      /**< Hz; bare: Hz; Hz */
    MENSUR_ANGLE,          /**< rad; bare: degrees; deg */
    MENSUR_SEMITONES,      /**< semitones; bare only */
    MENSUR_NUMBER,         /**< unitless; bare only */
    MENSUR_MASS,           /**< kg; bare: g; g mg kg */
    MENSUR_VOLUME,         /**< m3; bare: cm3 */
    MENSUR_KIND_COUNT
};

/** A cell of a row for a table of the shop: a text, or a number, or empty. */
struct mensur_table_cell {
    const char *head;      /**< static */
    const char *text;      /**< borrowed; NULL: it is a number, or empty */
    enum mensur_kind kind; /**< of the number */
    double number;         /**< SI; NaN: it is a text, or empty */
};

/** The least and the greatest A4 that is answered, Hz; one outside 380 to 480 is warned of. */
#define MENSUR_A4_LEAST 1.0
#define MENSUR_A4_MOST 20000.0

/** Units in which forces are shown. */
enum mensur_force_unit {
    MENSUR_FORCE_KG, /**< kilogram-force, the trade's kg */
    MENSUR_FORCE_N,
    MENSUR_FORCE_LB /**< pound-force */
};

#endif
