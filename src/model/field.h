/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The measurements of an instrument: one list drives the reader, the change
 * command, the families' usual values and the messages.
 */
#ifndef MENSUR_FIELD_H
#define MENSUR_FIELD_H

#include "quantity.h"

/** Which values a measurement, or another cell, may take. */
enum mensur_domain {
    MENSUR_POSITIVE,     /**< > 0; a length at most 3 m */
    MENSUR_NOT_NEGATIVE, /**< >= 0; a length at most 3 m */
    MENSUR_ANY_SIGN      /**< any; a length at most 3 m either way */
};

/** Which way a length is measured on the instrument. */
enum mensur_way {
    MENSUR_NOWHERE, /**< it is no length */
    MENSUR_ALONG,
    MENSUR_UPWARD, /**< heights above the edge, and thicknesses */
    MENSUR_ACROSS
};

/** Name as in the files, kind, domain, power, way, what it is. The power is of stop / reference
 * stop: a family's usual value is scaled by it to another size; 0 stays as it is. Ours, common
 * practice, no source: heights that follow the bridge go with the size, thicknesses and fingers
 * with less; arch and back_arch by a published table of violins, checked from a quarter to full
 * size. */
#define MENSUR_FIELD_LIST(X)                                                                       \
    X(BODY, "body", LENGTH, POSITIVE, 1, ALONG,                                                    \
      "back length with a tape over the arching, button excluded")                                 \
    X(BODY_STRAIGHT, "body_straight", LENGTH, POSITIVE, 1, ALONG, "back length with calipers")     \
    X(BACK_ARCH, "back_arch", LENGTH, NOT_NEGATIVE, 0.45, UPWARD,                                  \
      "rise of the back's arching above its edge")                                                 \
    X(STOP, "stop", LENGTH, POSITIVE, 1, ALONG,                                                    \
      "belly's upper edge to the bridge line, parallel to the edge")                               \
    X(NECK, "neck", LENGTH, POSITIVE, 1, ALONG,                                                    \
      "belly's upper edge to the nut, along the neck's gluing surface")                            \
    X(OVERSTAND, "overstand", LENGTH, NOT_NEGATIVE, 0.5, UPWARD,                                   \
      "height of the board's gluing surface above the edge")                                       \
    X(BOARD, "board", LENGTH, POSITIVE, 0.6, UPWARD,                                               \
      "thickness of the fingerboard at the belly's edge")                                          \
    X(BOARD_NUT, "board_nut", LENGTH, POSITIVE, 0.6, UPWARD,                                       \
      "thickness of the fingerboard at the nut")                                                   \
    X(NUT, "nut", LENGTH, NOT_NEGATIVE, 0.3, UPWARD,                                               \
      "height of the string above the board at the nut")                                           \
    X(ARCH, "arch", LENGTH, POSITIVE, 0.45, UPWARD,                                                \
      "height of the belly under the bridge above the edge's top")                                 \
    X(ARCH_FULL, "arch_full", LENGTH, POSITIVE, 0.45, UPWARD,                                      \
      "height of the belly under the bridge above the ribs")                                       \
    X(EDGE, "edge", LENGTH, POSITIVE, 0.8, UPWARD, "thickness of the belly's edge")                \
    X(PROJECTION, "projection", LENGTH, POSITIVE, 1, UPWARD,                                       \
      "height of the board's line above the belly, at the bridge")                                 \
    X(BRIDGE, "bridge", LENGTH, POSITIVE, 1, UPWARD,                                               \
      "height of the bridge above the belly, to the strings")                                      \
    X(SADDLE, "saddle", LENGTH, NOT_NEGATIVE, 1, UPWARD, "height of the saddle above the edge")    \
    X(AFTERLENGTH, "afterlength", LENGTH, POSITIVE, 1, ALONG, "bridge to tailpiece")               \
    X(BEHIND_NUT, "behind_nut", LENGTH, NOT_NEGATIVE, 1, ALONG, "string between nut and peg")      \
    X(BOARD_LENGTH, "board_length", LENGTH, POSITIVE, 1, ALONG, "length of the fingerboard")       \
    X(HOLLOW, "hollow", LENGTH, NOT_NEGATIVE, 1, UPWARD, "depth of the board's lengthwise hollow") \
    X(CLEARANCE_LOW, "clearance_low", LENGTH, POSITIVE, 0.7, UPWARD,                               \
      "lowest string above the board's end")                                                       \
    X(CLEARANCE_HIGH, "clearance_high", LENGTH, POSITIVE, 0.7, UPWARD,                             \
      "highest string above the board's end")                                                      \
    X(STRING_LENGTH, "string_length", LENGTH, POSITIVE, 1, ALONG,                                  \
      "string from nut to bridge, as measured")                                                    \
    X(HEEL, "heel", LENGTH, NOT_NEGATIVE, 0.5, ALONG,                                              \
      "belly's edge to the middle of the thumb that rests in the neck's heel, along the neck")     \
    X(SPACING_BRIDGE, "spacing_bridge", LENGTH, POSITIVE, 0.75, ACROSS,                            \
      "outer strings at the bridge, centre to centre")                                             \
    X(SPACING_NUT, "spacing_nut", LENGTH, POSITIVE, 0.75, ACROSS,                                  \
      "outer strings at the nut, centre to centre")                                                \
    X(SPACING_TAIL, "spacing_tail", LENGTH, POSITIVE, 0.75, ACROSS,                                \
      "outer strings at the tailpiece, centre to centre")                                          \
    X(FOOT_SPACING, "foot_spacing", LENGTH, POSITIVE, 0.9, ACROSS,                                 \
      "the bridge's feet, centre to centre")                                                       \
    X(WIDTH_UPPER, "width_upper", LENGTH, POSITIVE, 1, ACROSS,                                     \
      "greatest width of the upper bouts over the edges")                                          \
    X(WIDTH_MIDDLE, "width_middle", LENGTH, POSITIVE, 1, ACROSS,                                   \
      "least width of the waist over the edges")                                                   \
    X(WIDTH_LOWER, "width_lower", LENGTH, POSITIVE, 1, ACROSS,                                     \
      "greatest width of the lower bouts over the edges")                                          \
    X(RIB, "rib", LENGTH, POSITIVE, 1, UPWARD, "mean height of the ribs")                          \
    X(PLATE, "plate", LENGTH, POSITIVE, 0, UPWARD, "mean thickness of belly and back")             \
    X(F_LENGTH, "f_length", LENGTH, POSITIVE, 1, ACROSS,                                           \
      "one f-hole between the outer edges of its eyes")                                            \
    X(AIR_NOTE, "air_note", FREQUENCY, POSITIVE, 0, NOWHERE,                                       \
      "the body's lowest air note, as measured")

/** A measurement of an instrument: lengths, and a frequency. */
enum mensur_field {
#define MENSUR_FIELD_ENUM(id, name, kind, domain, power, way, meaning) MENSUR_FIELD_##id,
    MENSUR_FIELD_LIST(MENSUR_FIELD_ENUM)
#undef MENSUR_FIELD_ENUM
        MENSUR_FIELD_COUNT
};

/** Largest length of any measurement, m. */
#define MENSUR_LONGEST_M 3.0

/** A row of the list of measurements. */
struct mensur_field_info {
    const char *name;          /**< as in the files and on the command line */
    enum mensur_kind kind;     /**< which unit */
    enum mensur_domain domain; /**< which values it may take */
    double power;              /**< of stop / reference stop, by which usual values are scaled */
    enum mensur_way way;       /**< where it is measured */
    const char *meaning;       /**< what is measured, in words */
};

/* The row of a measurement; borrowed, never NULL. */
const struct mensur_field_info *mensur_field_info(enum mensur_field field);

/** Lengths measured that way, in words, for a heading over their fields; borrowed. */
const char *mensur_way_text(enum mensur_way way);

/* Finds a measurement by its name in the files: MENSUR_OK; MENSUR_USE where there is none. */
enum mensur_status mensur_field_find(const char *name, enum mensur_field *field);

/** Tells whether a value in SI lies in a domain; NaN and infinite lengths do not. */
bool mensur_in_domain(enum mensur_kind kind, enum mensur_domain domain, double value);

/** A domain in words: "more than 0 and at most 3000 mm"; borrowed. */
const char *mensur_domain_text(enum mensur_kind kind, enum mensur_domain domain);

/** Tells whether a value in SI lies in a measurement's domain: MENSUR_OK or MENSUR_DOMAIN. */
enum mensur_status mensur_field_check(enum mensur_field field, double value);

/** The domain of a measurement in words; borrowed. */
const char *mensur_field_domain_text(enum mensur_field field);

#endif
