/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Measurements of an instrument held against what is plausible at its size, and slips named: the
 * wrong unit, a lost point, two cells exchanged, a thing measured another way. What was slipped is
 * told by what would mend it: the factor that leads into the plausible band.
 */
#ifndef MENSUR_PLAUSIBLE_H
#define MENSUR_PLAUSIBLE_H

#include "stock.h"

/** What is wrong with a measurement. */
enum mensur_slip {
    MENSUR_SLIP_UNUSUAL,     /**< outside the plausible band, within the slip band: perhaps so */
    MENSUR_SLIP_INCHES,      /**< x 25.4 */
    MENSUR_SLIP_CENTIMETRES, /**< x 10 */
    MENSUR_SLIP_METRES,      /**< x 1000 */
    MENSUR_SLIP_POINT,       /**< x 0.1, 1/25.4, 0.01, 0.001: a point lost, mm marked cm, in or m */
    MENSUR_SLIP_DIGITS,      /**< two neighbouring digits exchanged */
    MENSUR_SLIP_EXCHANGED,   /**< stop and neck in each other's cell */
    MENSUR_SLIP_HEAD,        /**< the neck with the head */
    MENSUR_SLIP_RIB_PLANE,   /**< the arch from the ribs' plane */
    MENSUR_SLIP_SUM,         /**< stop + neck in place of the measured string */
    MENSUR_SLIP_UNKNOWN      /**< outside the slip band, and nothing would mend it */
};

/** One thing to say about an instrument's measurements. */
struct mensur_finding {
    enum mensur_slip slip;
    enum mensur_field field; /**< the cell; of exchanged ones the stop's */
    bool row;                /**< all measurements of the row alike; field is the first of them */
    double value;            /**< m, as it was given */
    double mended;           /**< m; NaN where there is nothing to write in its place */
    double low, high;        /**< m, the plausible band; NaN where the slip has none */
};

/** What there is to say about an instrument. */
struct mensur_findings {
    size_t count;
    struct mensur_finding items[MENSUR_FIELD_COUNT + 1];
};

/* Judges measurements (m; NaN: not given; they may lie outside their domains) of an instrument of
 * that family; nothing is said without a family, or without the stock's sizes. */
void mensur_judge(const struct mensur_stock *stock, const struct mensur_family *family,
                  const struct mensur_quantity *measure, struct mensur_findings *out);

/* The finding that would mend one of these measurements (those of the row count for all); NULL
 * where there is none. */
const struct mensur_finding *mensur_finding_of(const struct mensur_findings *findings,
                                               enum mensur_field one, enum mensur_field other);

/** Bytes that hold a finding's subject or hint and its terminating NUL. */
#define MENSUR_FINDING_ROOM 160

/* The cell and what stands there, as in the file: "stop 8.6"; of a row "all measurements". */
void mensur_finding_subject(const struct mensur_finding *finding, char *out);

/* What would do, in words that fit behind that: "inches? write 8.6 in"; of what is no slip, what is
 * common. */
void mensur_finding_hint(const struct mensur_finding *finding, char *out);

#endif
