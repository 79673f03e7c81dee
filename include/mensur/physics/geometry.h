/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Side view on the centre line: from workshop measurements to the vibrating string.
 *
 * Origin: the belly's upper edge beside the neck, on the top surface of the edge.
 * x runs toward the end button in the plane of the edge, y away from the belly.
 * Everything in metres and radians. Plane geometry of the mean string; the outer
 * strings differ by the families' offsets. No function allocates or prints.
 */
#ifndef MENSUR_GEOMETRY_H
#define MENSUR_GEOMETRY_H

#include "status.h"

/** The measurements that the side view needs; all in m. */
struct mensur_side_view {
    double body_straight; /**< > stop; NaN: unknown, and what needs it is NaN */
    double stop;          /**< > 0 */
    double neck;          /**< > 0 */
    double overstand;     /**< >= 0 */
    double board;         /**< > 0, at x = 0 */
    double board_nut;     /**< > 0, at the nut */
    double nut;           /**< >= 0 */
    double arch;          /**< > 0, above the top surface of the edge */
    double projection;    /**< > 0 */
    double bridge;        /**< > projection */
    double saddle;        /**< >= 0 */
};

/** The side view solved. */
struct mensur_geometry {
    double nut_x, nut_y;   /**< m, the string at the nut */
    double top_x, top_y;   /**< m, the string at the bridge */
    double board_taper;    /**< rad, phi */
    double board_slope;    /**< rad, psi: slope of the board's top */
    double neck_slope;     /**< rad, theta */
    double string_length;  /**< m */
    double front_angle;    /**< rad, alpha */
    double back_angle;     /**< rad, beta; NaN without body_straight */
    double break_angle;    /**< rad; NaN without body_straight */
    double down_factor;    /**< unitless: force on the belly / tension; NaN without body_straight */
    double left_reach;     /**< m, lower end of the body to the nut; NaN without body_straight */
    double bow_reach;      /**< m, lower end of the body to the bridge; NaN without body_straight */
};

/** Solves the side view. MENSUR_DOMAIN: an input outside its domain; MENSUR_NO_ANSWER: no slope reaches the projection. */
enum mensur_status mensur_geometry_solve(const struct mensur_side_view *view,
                                         struct mensur_geometry *out);

/** Chord of a parabola of rise back_arch whose arc is body. Closed for rise 0; else GSL. */
enum mensur_status mensur_body_straight(double body, double back_arch, double *body_straight);

/** String above the board's top at distance from the nut along it; board_length > 0, hollow >= 0, 0 <= distance. May be <= 0. */
enum mensur_status mensur_clearance(const struct mensur_side_view *view,
                                    const struct mensur_geometry *geometry, double board_length,
                                    double hollow, double distance, double *clearance);

/** Height of the bridge for a mean clearance at the board's end; view->bridge is not read. board_length NaN: 5/6 of the string length. */
enum mensur_status mensur_bridge_for_clearance(const struct mensur_side_view *view,
                                               double board_length, double clearance,
                                               double *bridge);

/** Projection that keeps a neck's slope; view->projection is not read. */
enum mensur_status mensur_projection_for_slope(const struct mensur_side_view *view,
                                               double neck_slope, double *projection);

/** 2 S / N, the trade's neck : stop = 2 : this. */
enum mensur_status mensur_stop_per_2_neck(double stop, double neck, double *ratio);

/** Semitones above the open string at which the hand meets the body: -12 log1p(-N/L)/ln 2; 0 < neck < string_length. */
enum mensur_status mensur_body_at_semitones(double string_length, double neck, double *semitones);

/** Neck for a ratio: 2 S / ratio. */
enum mensur_status mensur_neck_for_ratio(double stop, double ratio, double *neck);

/** Stop for a ratio: ratio N / 2. */
enum mensur_status mensur_stop_for_ratio(double neck, double ratio, double *stop);

/** Neck for a string length, projection held; closed where board_nut = board, else GSL between 0.1 and 10 times view->neck. view->neck is a start only. */
enum mensur_status mensur_neck_for_length(const struct mensur_side_view *view, double length,
                                          double *neck);

/** Neck for a left reach, projection held; closed where board_nut = board. */
enum mensur_status mensur_neck_for_left_reach(const struct mensur_side_view *view, double reach,
                                              double *neck);

/** Neck for the note at the body, projection held; GSL. */
enum mensur_status mensur_neck_for_body_note(const struct mensur_side_view *view, double semitones,
                                             double *neck);

/** Stop for a string length, projection held; GSL. */
enum mensur_status mensur_stop_for_length(const struct mensur_side_view *view, double length,
                                          double *stop);

#endif
