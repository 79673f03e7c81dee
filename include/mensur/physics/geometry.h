/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * Side view on the centre line: from workshop measurements to the vibrating string.
 *
 * Origin: the belly's upper edge beside the neck, on the top surface of the edge.
 * x runs toward the end button in the plane of the edge, y away from the belly.
 * Everything in metres and radians. Plane geometry of the mean string; the outer
 * strings differ by the families' offsets. No function allocates or prints.
 *
 * Every size lies between 1e-60 and 1e60 m (or 0 where 0 is allowed); a function that
 * fails leaves its results untouched.
 */
#ifndef MENSUR_GEOMETRY_H
#define MENSUR_GEOMETRY_H

#include "solve.h"
#include "status.h"

/** The measurements that the side view needs; all in m. */
struct mensur_side_view {
    double body_straight; /**< m, > stop, lower end of the body to the origin, straight; NaN:
                               unknown, and what needs it is NaN */
    double stop;          /**< m, > 0, origin to the bridge line, parallel to the edge */
    double neck;          /**< m, > 0, origin to the nut along the neck's gluing surface */
    double overstand;     /**< m, >= 0, the neck's gluing surface above the edge, at x = 0 */
    double board;         /**< m, > 0, thickness of the fingerboard at x = 0 */
    double board_nut;     /**< m, > 0, the same at the nut */
    double nut;           /**< m, >= 0, the string above the board at the nut */
    double arch;          /**< m, > 0, the belly under the bridge above the edge's top surface */
    double projection;    /**< m, > 0, line of the board's top above the belly, at the bridge */
    double bridge;        /**< m, > projection, the string above the belly, at the bridge */
    double saddle;        /**< m, >= 0, the saddle above the edge, at x = body_straight */
};

/** The side view solved. */
struct mensur_geometry {
    double nut_x, nut_y;  /**< m, the string at the nut */
    double top_x, top_y;  /**< m, the string at the bridge */
    double board_taper;   /**< rad, phi; positive where the board is thinner at the nut */
    double board_slope;   /**< rad, psi: slope of the board's top against the edge */
    double neck_slope;    /**< rad, theta: slope of the neck's gluing surface */
    double string_length; /**< m, L, nut to bridge */
    double front_angle;   /**< rad, alpha: the string before the bridge against the edge */
    double back_angle;    /**< rad, beta: behind the bridge; NaN without body_straight */
    double break_angle;   /**< rad, pi - alpha - beta; NaN without body_straight */
    double down_factor;   /**< unitless: force on the belly / tension; NaN without body_straight */
    double left_reach;    /**< m, lower end of the body to the nut; NaN without body_straight */
    double bow_reach;     /**< m, lower end of the body to the bridge; NaN without body_straight */
    double rise;          /**< m, H */
    double board_top;     /**< m, q = board cos(phi): the board's top from its gluing surface */
    double nut_height;    /**< m, h: the string at the nut from the gluing surface */
    double above_nut;     /**< m, c0 = nut cos(phi): the string above the board's line at the nut */
    double above_bridge;  /**< m, c1 = (bridge - projection) cos(psi): the same at the bridge */
    double board_way;     /**< m, D = (top - nut).(cos(psi), sin(psi)): nut to bridge along it */
};

/**
 * Solves the side view.
 *
 * With H = arch + projection - overstand, S stop, N neck, h = board_nut + nut:
 * phi = atan((board - board_nut)/N), psi = atan2(H, S) - asin(board cos(phi)/sqrt(H^2 + S^2)),
 * theta = psi - phi; nut = (-N cos(theta) - h sin(theta), overstand - N sin(theta) + h cos(theta)),
 * top = (S, arch + bridge), L = |top - nut|, alpha = atan2 of top - nut,
 * beta = atan2(top.y - saddle, body_straight - S), down = sin(alpha) + sin(beta),
 * left reach = body_straight - nut.x, bow reach = body_straight - S
 *
 * @param view      the measurements, each in the range of its field
 * @param[out] out  the side view solved
 *
 * Accuracy: 1e-14 relative for the equations, 1e-15 rad for angles that can be 0. Plane geometry
 * of straight lines: the board's lengthwise hollow, its curve across and the curve of the bridge's
 * top are left out.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: no slope of the
 *          board reaches the projection, or the neck would be at 90 degrees or more to the edge
 *
 * Source: plane geometry; the measurements are the trade's (common practice, no source).
 * Test: tests/physics/test_geometry.c (violin, usual_values, by_vectors, refuses)
 */
enum mensur_status mensur_geometry_solve(const struct mensur_side_view *view,
                                         struct mensur_geometry *out);

/** A back that was measured with a tape over its arching. */
struct mensur_back {
    double half;     /**< m, a: half of its chord */
    double bend;     /**< unitless, t = 2 back_arch/a */
    double straight; /**< m, body_straight: the chord of the parabola of that rise and arc */
};

/**
 * Straight length of a back that was measured with a tape over its arching.
 *
 * body = a (sqrt(1 + t^2) + asinh(t)/t), t = 2 back_arch/a, body_straight = 2 a
 *
 * @param body      m, > 0, over the arching
 * @param back_arch m, >= 0, rise of the arching above the plane of the edge
 * @param[out] out  a, t and body_straight, which is 0 to body
 *
 * Accuracy: 1e-13 relative for the equation, for every rise. A back is no parabola: arcs of other
 * shapes with the same rise and chord differ by about a tenth of body - body_straight, which is a
 * tenth of a millimetre on a violin.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: body is not
 *          longer than twice the rise
 *
 * Source: arc of a parabola, any book of formulas; that the arching is one is our own choice.
 * Test: tests/physics/test_geometry.c (backs, refuses_backs)
 */
enum mensur_status mensur_body_straight(double body, double back_arch, struct mensur_back *out);

/**
 * Clearance of the mean string above the board's top.
 *
 * c = c0 + (c1 - c0) d/D + 4 hollow u (1 - u), u = d/board_length; c0, c1, D of the view solved
 *
 * @param view            the measurements, each in the range of its field
 * @param geometry        the same view solved
 * @param board_length    m, > 0
 * @param hollow          m, >= 0, depth of the board's lengthwise hollow at its middle
 * @param distance        d, m from the nut along the board's top, 0 to board_length, not past the
 *                        bridge
 * @param[out] clearance  c, m, square to the board's top; 0 or less where the string would lie on
 *                        the board
 *
 * Accuracy: 1e-15 m and 1e-14 relative for the equation. The hollow is taken for a parabola.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range, or a distance past the board's end
 *          or the bridge
 *
 * Source: plane geometry.
 * Test: tests/physics/test_geometry.c (violin, clearances, refuses_clearances)
 */
enum mensur_status mensur_clearance(const struct mensur_side_view *view,
                                    const struct mensur_geometry *geometry, double board_length,
                                    double hollow, double distance, double *clearance);

/**
 * Height of a string where it crosses the bridge, or the nut: on an arc across, tilted toward the
 * highest string.
 *
 * z = middle - x^2/(R + sqrt(R^2 - x^2)) - tilt x, which is middle - (R - sqrt(R^2 - x^2)) - tilt x
 *
 * @param middle       m, >= 0, height of the arc on the centre line
 * @param radius       R, m, > 0, of the arc
 * @param tilt         unitless, any sign: how much lower it is for each m toward the highest string
 * @param across       x, m, -R to R, from the middle, positive toward the highest string
 * @param[out] height  z, m; under 0 where the arc falls so far
 *
 * Accuracy: 1e-15 m and 1e-14 relative for the equation. A crown is an arc of a circle by intention
 * alone; many are flatter toward the low strings.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: an arc of a circle; that the crown is one is common practice, no source.
 * Test: tests/physics/test_geometry.c (crowns, refuses_crowns)
 */
enum mensur_status mensur_crown_height(double middle, double radius, double tilt, double across,
                                       double *height);

/**
 * Height of the bridge for a mean clearance at the board's end.
 *
 * mensur_clearance at d = board_length, solved for the bridge; by GSL where board_length follows
 * the string
 *
 * @param solver        of mensur_solver_make
 * @param view          the measurements, each in the range of its field; bridge, saddle and
 *                      body_straight are not read
 * @param board_length  m, > 0; NaN: it follows the string
 * @param board_share   unitless, over 0 and under 1, board_length / string length; read where
 *                      board_length is NaN
 * @param clearance     m, > 0, at the board's end
 * @param[out] bridge   m, > projection
 *
 * Accuracy: 1e-13 relative for the equation; as mensur_clearance.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: no slope reaches
 *          the projection, the bridge would be no higher than the projection, or the board would
 *          end past the bridge
 *
 * Source: plane geometry.
 * Test: tests/physics/test_bridge.c (round_trips, refuses)
 */
enum mensur_status mensur_bridge_for_clearance(struct mensur_solver *solver,
                                               const struct mensur_side_view *view,
                                               double board_length, double board_share,
                                               double clearance, double *bridge);

/**
 * Projection that keeps a neck's slope.
 *
 * projection = (board cos(phi) + S sin(psi))/cos(psi) - arch + overstand, psi = neck_slope + phi
 *
 * @param view             the measurements, each in the range of its field; projection, bridge,
 *                         nut, saddle and body_straight are not read
 * @param neck_slope       theta, rad, over -pi/2 and under pi/2
 * @param[out] projection  m, > 0
 *
 * Accuracy: 1e-14 relative, or 1e-15 of the stop where that is more.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: the line of the
 *          board's top runs into the belly before the bridge
 *
 * Source: the equation of mensur_geometry_solve, solved for the projection.
 * Test: tests/physics/test_geometry_inverse.c (slopes, refuses)
 */
enum mensur_status mensur_projection_for_slope(const struct mensur_side_view *view,
                                               double neck_slope, double *projection);

/**
 * The ratio of neck to stop as makers state it, neck : stop = 2 : this.
 *
 * ratio = 2 S/N
 *
 * @param stop        S, m, > 0
 * @param neck        N, m, > 0
 * @param[out] ratio  unitless; 3 on a violin (common practice)
 *
 * Accuracy: 1e-15 relative.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: common practice, no source.
 * Test: tests/physics/test_geometry_inverse.c (ratios, refuses), test_published.c (topic 7)
 */
enum mensur_status mensur_stop_per_2_neck(double stop, double neck, double *ratio);

/**
 * The note at which the hand meets the body: semitones above the open string of a finger that
 * stands the neck's length from the nut.
 *
 * s = 12 log2(L/(L - N))
 *
 * @param string_length   L, m, > 0
 * @param neck            N, m, over 0 and under L
 * @param[out] semitones  s, semitones, > 0
 *
 * Accuracy: 1e-14 relative for the equation. The hand's own thickness is left out.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: mensur_place_equal, solved for the semitones.
 * Test: tests/physics/test_geometry_inverse.c (body_notes_by_hand, refuses), test_geometry.c
 * (violin)
 */
enum mensur_status mensur_body_at_semitones(double string_length, double neck, double *semitones);

/**
 * Neck for a ratio.
 *
 * N = 2 S/ratio
 *
 * @param stop       S, m, > 0
 * @param ratio      as mensur_stop_per_2_neck, unitless, > 0
 * @param[out] neck  N, m
 *
 * Accuracy: 1e-15 relative.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_stop_per_2_neck.
 * Test: tests/physics/test_geometry_inverse.c (ratios, refuses)
 */
enum mensur_status mensur_neck_for_ratio(double stop, double ratio, double *neck);

/**
 * Stop for a ratio.
 *
 * S = ratio N/2
 *
 * @param neck       N, m, > 0
 * @param ratio      as mensur_stop_per_2_neck, unitless, > 0
 * @param[out] stop  S, m
 *
 * Accuracy: 1e-15 relative.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_stop_per_2_neck.
 * Test: tests/physics/test_geometry_inverse.c (ratios, refuses)
 */
enum mensur_status mensur_stop_for_ratio(double neck, double ratio, double *stop);

/**
 * Neck for a string length, everything else held, the projection too.
 *
 * board_nut = board: N = sqrt(L^2 - (r - h)^2) - p, p = S cos(theta) + Y sin(theta),
 * r = Y cos(theta) - S sin(theta), Y = arch + bridge - overstand; else GSL on
 * mensur_geometry_solve, between 0.1 and 10 times view->neck
 *
 * @param solver     of mensur_solver_make
 * @param view       the measurements, each in the range of its field; neck is only the start of the
 * search
 * @param length     L, m, > 0
 * @param[out] neck  N, m, > 0
 *
 * Accuracy: 1e-13 of the string length.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: no such neck (in
 *          the search, with a tapered board), or no slope reaches the projection
 *
 * Source: the equations of mensur_geometry_solve, solved for the neck.
 * Test: tests/physics/test_geometry_inverse.c (necks_and_stops,
 * closed_against_solver, refuses)
 */
enum mensur_status mensur_neck_for_length(struct mensur_solver *solver,
                                          const struct mensur_side_view *view, double length,
                                          double *neck);

/**
 * Neck for a left reach, everything else held, the projection too.
 *
 * board_nut = board: N = (reach - body_straight - h sin(theta))/cos(theta); else GSL as for
 * mensur_neck_for_length
 *
 * @param solver     of mensur_solver_make
 * @param view       the measurements, each in the range of its field; body_straight must be known,
 *                   neck is only the start of the search
 * @param reach      lower end of the body to the nut, m, > 0
 * @param[out] neck  N, m, > 0
 *
 * Accuracy: 1e-13 of the reach.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: as
 *          mensur_neck_for_length
 *
 * Source: as mensur_neck_for_length.
 * Test: tests/physics/test_geometry_inverse.c (necks_and_stops,
 * closed_against_solver, refuses)
 */
enum mensur_status mensur_neck_for_left_reach(struct mensur_solver *solver,
                                              const struct mensur_side_view *view, double reach,
                                              double *neck);

/**
 * Neck for the note at which the hand meets the body, everything else held, the projection too.
 *
 * mensur_body_at_semitones of mensur_geometry_solve, by GSL between 0.1 and 10 times view->neck
 *
 * @param solver     of mensur_solver_make
 * @param view       the measurements, each in the range of its field; neck is only the start of the
 * search
 * @param semitones  s, semitones above the open string, > 0
 * @param[out] neck  N, m, > 0
 *
 * Accuracy: 1e-12 relative.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: as
 *          mensur_neck_for_length
 *
 * Source: as mensur_neck_for_length.
 * Test: tests/physics/test_geometry_inverse.c (necks_and_stops,
 * closed_against_solver, refuses)
 */
enum mensur_status mensur_neck_for_body_note(struct mensur_solver *solver,
                                             const struct mensur_side_view *view, double semitones,
                                             double *neck);

/**
 * Stop for a string length, everything else held, the projection too.
 *
 * mensur_geometry_solve, by GSL between 0.1 (or where lines to the projection begin, if that is
 * more) and 10 times view->stop
 *
 * @param solver     of mensur_solver_make
 * @param view       the measurements, each in the range of its field; stop is only the start of the
 * search
 * @param length     L, m, > 0
 * @param[out] stop  S, m, > 0, under body_straight where that is known
 *
 * Accuracy: 1e-13 of the string length.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: no such stop in
 *          the search, or it lies past the body's end
 *
 * Source: as mensur_neck_for_length.
 * Test: tests/physics/test_geometry_inverse.c (necks_and_stops, refuses)
 */
enum mensur_status mensur_stop_for_length(struct mensur_solver *solver,
                                          const struct mensur_side_view *view, double length,
                                          double *stop);

#endif
