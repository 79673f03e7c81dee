/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What the strings do to the instrument that carries them: the force on each foot of the bridge and
 * the moment at the neck's root. SI throughout.
 *
 * A function that fails leaves its results untouched.
 */
#ifndef MENSUR_LOADS_H
#define MENSUR_LOADS_H

#include <stddef.h>

#include "geometry.h"
#include "status.h"

/** A string, seen from above; places across from the middle, positive toward the treble foot. */
struct mensur_loaded_string {
    double tension;   /**< T, N, > 0 */
    double at_bridge; /**< x, m */
    double at_nut;    /**< n, m */
    double at_tail;   /**< t, m, at the tailpiece */
};

/** The bridge that the strings stand on. */
struct mensur_loaded_bridge {
    double down_factor;   /**< unitless, -2 to 2, of struct mensur_geometry */
    double string_length; /**< L, m, > 0, nut to bridge */
    double afterlength;   /**< m, > 0, bridge to tailpiece */
    double height;        /**< z, m, >= 0, the strings above the feet */
    double foot_spacing;  /**< s, m, > 0, the middles of the feet */
};

/** Forces of a bridge's feet on the belly; negative where a foot would lift. */
struct mensur_foot_forces {
    double treble; /**< N */
    double bass;   /**< N */
};

/**
 * Forces of the feet of the bridge.
 *
 * treble = sum of F (1/2 + x/s) + sum of Q z/s, bass = sum of F - treble,
 * F = T down_factor, Q = T ((n - x)/L + (t - x)/afterlength)
 *
 * @param bridge   each value in the range of its field
 * @param strings  each value in the range of its field, places of any sign; not NULL
 * @param count    how many, >= 1
 * @param[out] out both forces
 *
 * Accuracy: 1e-14 relative to the sum of the forces for the equation. A stiff bridge on two points
 * that stand on one level; the strings' places are small beside their lengths; forces of bow and
 * finger are left out. It is the force of the foot, not of the soundpost, which is set with a
 * tightness of its own.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: statics. With equal spacings of strings and feet the treble foot carries 1, 2/3, 1/3 and
 * 0 of the four strings, as G. Hart, The Violin: Its Famous Makers and Their Imitators, has it.
 * Test: tests/physics/test_loads.c (feet, sideways, refuses), test_published.c (topic 6)
 */
enum mensur_status mensur_foot_forces(const struct mensur_loaded_bridge *bridge,
                                      const struct mensur_loaded_string *strings, size_t count,
                                      struct mensur_foot_forces *out);

/**
 * Moment of the strings at the neck's root, which would fold the neck up.
 *
 * M = T (y - overstand) cos(alpha), y = nut.y - nut.x tan(alpha): the height of the strings' line
 * over the edge at x = 0
 *
 * @param geometry     the side view solved
 * @param overstand    m, any sign: the gluing surface of the neck above the edge; 0 takes the
 * moment about the edge itself
 * @param tension      T, N, > 0, of all strings
 * @param[out] moment  M, N m, about the point at x = 0 on the gluing surface
 *
 * Accuracy: 1e-13 relative to T times the height for the equation. The mean string's line stands
 * for all.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: statics.
 * Test: tests/physics/test_loads.c (moments, refuses), test_published.c (topic 6)
 */
enum mensur_status mensur_neck_moment(const struct mensur_geometry *geometry, double overstand,
                                      double tension, double *moment);

#endif
