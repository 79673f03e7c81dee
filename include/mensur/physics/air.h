/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The air inside a body: its volume from workshop measurements, and how its lowest note stands
 * against that of another body of the same make. SI throughout.
 *
 * The laws hold for bodies with the corners, the shoulders and the arched back of a violin. Flat
 * backs, bodies without corners and cut shoulders have another outline and another depth.
 *
 * A function that fails leaves its results untouched.
 */
#ifndef MENSUR_AIR_H
#define MENSUR_AIR_H

#include "status.h"

/** The exponent q of depth over f-hole in the note, and the range that it may have. A plain
 * resonator with rigid walls has 0.5. */
#define MENSUR_AIR_EXPONENT 0.30
#define MENSUR_AIR_EXPONENT_LEAST 0.25
#define MENSUR_AIR_EXPONENT_MOST 0.42

/** Bodies are compared whose lengths, and whose outlines, stand to each other within these. */
#define MENSUR_AIR_RATIO_LEAST 0.8
#define MENSUR_AIR_RATIO_MOST 1.25

/** A smaller difference of two like bodies is none, in semitones. */
#define MENSUR_AIR_SEMITONES_SURE 0.3

/** What is measured of a body; every length in m. */
struct mensur_air_body {
    double body;       /**< L, > 0: back with a tape over the arching */
    double upper;      /**< U, > 0: greatest width of the upper bouts over the edges */
    double middle;     /**< C, > 0: least width of the waist */
    double lower;      /**< W, > 0: greatest width of the lower bouts */
    double rib;        /**< > 0: mean height of the ribs */
    double belly_arch; /**< > 0: rise of the belly above the plane of the ribs */
    double back_arch;  /**< > 0: rise of the back above the plane of its edge */
    double edge;       /**< > 0: thickness of the edge */
    double plate;      /**< > 0: mean thickness of belly and back */
    double f_length;   /**< > 0: of one f-hole between the outer edges of its eyes */
};

/** The air of a body. */
struct mensur_air {
    double body;     /**< L, m */
    double outline;  /**< A, m2: area of the outline */
    double depth;    /**< H, m: mean depth inside */
    double volume;   /**< V, m3 */
    double f_length; /**< m */
};

/**
 * Outline, depth and volume of the air in a body.
 *
 * A = L (0.32 U + 0.27 C + 0.34 W), H = rib + (belly_arch + back_arch + edge)/2 - plate,
 * V = 0.85 A H
 *
 * @param body      each value in the range of its field
 * @param[out] out  outline m2, depth m, volume m3; body and f_length as given
 *
 * Accuracy: 1e-14 relative for the equations. The outline is good to some 5 % and the volume with
 * it; against another body of the same make most of that cancels.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range, or no depth left
 *
 * Source: ours; 0.85 is set on the round 2000 cm3 of a violin in J. E. McLennan, The violin: music
 * acoustics from Baroque to Romantic, thesis, Univ. of New South Wales 2008, abstract.
 * Test: tests/physics/test_air.c (volumes, refuses), test_published.c (topic 11)
 */
enum mensur_status mensur_air_of(const struct mensur_air_body *body, struct mensur_air *out);

/**
 * How far the lowest note of a body's air stands above that of another body.
 *
 * f2/f1 = (A2/A1)^(-1/2) ((H2/H1) (f_length1/f_length2))^(-q),
 * semitones = 12 log2(f2/f1) = 6 log2(A1/A2) + 12 q log2(H1 f_length2/(H2 f_length1))
 *
 * @param first           A1, H1, f_length1, each > 0
 * @param other           A2, H2, f_length2, each > 0, of the same family and make
 * @param q               unitless, > 0: MENSUR_AIR_EXPONENT, or an end of its range
 * @param[out] semitones  of the other above the first; negative: below it
 *
 * Accuracy: 1e-14 for the equation. Between like bodies it is good to about 0.3 semitones; wood,
 * thicknesses and the post are not in it.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range; MENSUR_NO_ANSWER: the lengths or
 *          the outlines are not within 0.8 to 1.25 of each other, where the law stops holding
 *
 * Source: H. T. Nia and others, Proc. R. Soc. A 471 (2015) 20140905 (it is the length of the
 * hole's edge that counts, and elastic walls lower the note); E. A. G. Shaw 1990, JASA 87, 398
 * (from memory); the exponent is what the figures in McLennan 2008 imply; the form is ours.
 * Test: tests/physics/test_air.c (notes_apart, refuses), test_published.c (topics 10 and 11)
 */
enum mensur_status mensur_air_apart(const struct mensur_air *first, const struct mensur_air *other,
                                    double q, double *semitones);

/**
 * The depth that leaves the note as it is in another outline.
 *
 * H2 = H1 (f_length2/f_length1) (A1/A2)^(1/(2 q)); where all goes with the body's ratio r that is
 * H2/H1 = r r^(-1/q)
 *
 * @param first       A1, H1, f_length1, each > 0
 * @param outline     A2, m2, > 0
 * @param f_length    f_length2, m, > 0
 * @param q           as of mensur_air_apart
 * @param[out] depth  H2, m
 *
 * Accuracy: 1e-14 relative for the equation, whose q is known to its range alone.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: as mensur_air_apart, solved for the depth.
 * Test: tests/physics/test_air.c (depth_keeps_the_note)
 */
enum mensur_status mensur_air_depth_kept(const struct mensur_air *first, double outline,
                                         double f_length, double q, double *depth);

/**
 * The place of an air note above the lowest open string.
 *
 * place = 12 log2(note / lowest): about 6 to 7 on a violin; on usual violas and cellos 3 to 4 above
 * the violin's place
 *
 * @param note        Hz, > 0, as measured
 * @param lowest      Hz, > 0, of the lowest open string
 * @param[out] place  semitones
 *
 * Accuracy: 1e-14 for the equation.
 *
 * @return  MENSUR_OK; MENSUR_DOMAIN: a value outside its range
 *
 * Source: C. M. Hutchins, Founding a Family of Fiddles, Physics Today 20 no. 2 (1967).
 * Test: tests/physics/test_published.c (topic 11)
 */
enum mensur_status mensur_air_place(double note, double lowest, double *place);

#endif
