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

/** name as in the files, domain, what it is */
#define MENSUR_FIELD_LIST(X)                                                                       \
    X(BODY, "body", POSITIVE, "back length with a tape over the arching, button excluded")         \
    X(BODY_STRAIGHT, "body_straight", POSITIVE, "back length with calipers")                       \
    X(BACK_ARCH, "back_arch", NOT_NEGATIVE, "rise of the back's arching above its edge")           \
    X(STOP, "stop", POSITIVE, "belly's upper edge to the bridge line, parallel to the edge")       \
    X(NECK, "neck", POSITIVE, "belly's upper edge to the nut, along the neck's gluing surface")    \
    X(OVERSTAND, "overstand", NOT_NEGATIVE, "height of the board's gluing surface above the edge") \
    X(BOARD, "board", POSITIVE, "thickness of the fingerboard at the belly's edge")                \
    X(BOARD_NUT, "board_nut", POSITIVE, "thickness of the fingerboard at the nut")                 \
    X(NUT, "nut", NOT_NEGATIVE, "height of the string above the board at the nut")                 \
    X(ARCH, "arch", POSITIVE, "height of the belly under the bridge above the edge's top")         \
    X(ARCH_FULL, "arch_full", POSITIVE, "height of the belly under the bridge above the ribs")     \
    X(EDGE, "edge", POSITIVE, "thickness of the belly's edge")                                     \
    X(PROJECTION, "projection", POSITIVE,                                                          \
      "height of the board's line above the belly, at the bridge")                                 \
    X(BRIDGE, "bridge", POSITIVE, "height of the bridge above the belly, to the strings")          \
    X(SADDLE, "saddle", NOT_NEGATIVE, "height of the saddle above the edge")                       \
    X(AFTERLENGTH, "afterlength", POSITIVE, "bridge to tailpiece")                                 \
    X(BEHIND_NUT, "behind_nut", NOT_NEGATIVE, "string between nut and peg")                        \
    X(BOARD_LENGTH, "board_length", POSITIVE, "length of the fingerboard")                         \
    X(HOLLOW, "hollow", NOT_NEGATIVE, "depth of the board's lengthwise hollow")                    \
    X(CLEARANCE_LOW, "clearance_low", POSITIVE, "lowest string above the board's end")             \
    X(CLEARANCE_HIGH, "clearance_high", POSITIVE, "highest string above the board's end")          \
    X(STRING_LENGTH, "string_length", POSITIVE, "string from nut to bridge, as measured")

/** A measurement of an instrument; all are lengths. */
enum mensur_field {
#define MENSUR_FIELD_ENUM(id, name, domain, meaning) MENSUR_FIELD_##id,
    MENSUR_FIELD_LIST(MENSUR_FIELD_ENUM)
#undef MENSUR_FIELD_ENUM
        MENSUR_FIELD_COUNT
};

/** Largest value of any measurement, m. */
#define MENSUR_LONGEST_M 3.0

/** A row of the list of measurements. */
struct mensur_field_info {
    const char *name;          /**< as in the files and on the command line */
    enum mensur_domain domain; /**< which values it may take */
    const char *meaning;       /**< what is measured, in words */
};

/* The row of a measurement; borrowed, never NULL. */
const struct mensur_field_info *mensur_field_info(enum mensur_field field);

/* Finds a measurement by its name in the files: MENSUR_OK; MENSUR_USE where there is none. */
enum mensur_status mensur_field_find(const char *name, enum mensur_field *field);

/** Tells whether a value in SI lies in a domain; NaN and infinite lengths do not. */
bool mensur_in_domain(enum mensur_kind kind, enum mensur_domain domain, double value);

/** A domain in words: "more than 0 and at most 3000 mm"; borrowed. */
const char *mensur_domain_text(enum mensur_kind kind, enum mensur_domain domain);

/** Tells whether a value in m lies in a measurement's domain: MENSUR_OK or MENSUR_DOMAIN. */
enum mensur_status mensur_field_check(enum mensur_field field, double value);

/** The domain of a measurement in words; borrowed. */
const char *mensur_field_domain_text(enum mensur_field field);

#endif
