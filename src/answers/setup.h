/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An instrument made ready to be computed with: what was measured, what the family usually has,
 * what follows from the rest; and the same instrument with its neck or stop moved. */
#ifndef MENSUR_SETUP_H
#define MENSUR_SETUP_H

#include "ask.h"
#include "geometry.h"
#include "usual.h"

/* Where a value came from. */
enum setup_origin { SETUP_UNKNOWN, SETUP_GIVEN, SETUP_ASSUMED, SETUP_DERIVED };

struct setup {
    struct mensur_solver *solver;               /* borrowed */
    const struct mensur_instrument *instrument; /* borrowed */
    bool lengths_alone;    /* what no length follows from was not looked for (setup_make_lengths) */
    bool unsure;           /* a measurement has a ± */
    enum mensur_hold hold; /* what was held against the one before: never UNASKED */
    const struct mensur_family *family; /* borrowed; NULL without one */
    const struct mensur_tuning *tuning; /* borrowed; NULL without one */
    bool scaled[MENSUR_FIELD_COUNT];    /* assumed, and not the family's at its reference stop */
    struct mensur_back back;            /* where body_straight follows from body and back_arch */
    bool has_geometry;                  /* stop, neck and all that the side view needs are known */
    bool bridge_follows;                /* the clearances are given, and the bridge is not */
    double board_share;                 /* of the string, of a board that is assumed */
    double bridge_over; /* m, an assumed bridge above the projection; NaN: it is not assumed */
    double usual_low, usual_high; /* m: the outer strings against the mean, as is usual; NaN */
    double clearance;             /* m, mean of the given ones at the board's end; NaN */
    bool measured;                /* string_length was measured */
    double length_excess; /* m: measured string length less the geometry's; 0 where not measured */
    double string_length; /* m, the one used */
    bool end_clearance_known;         /* it is asked for again and again */
    double end_clearance;             /* m, of the mean string at the board's end */
    struct mensur_size size;          /* of the family, at this stop */
    double value[MENSUR_FIELD_COUNT]; /* SI; NaN unknown */
    enum setup_origin origin[MENSUR_FIELD_COUNT];
    struct mensur_side_view view;
    struct mensur_geometry geometry; /* all NaN without geometry */
};

/* What is held of an instrument that changes: what was asked; else the slope where it is built and
 * its bridge alone moves, the projection else. */
enum mensur_hold setup_hold(enum mensur_hold asked, const struct mensur_instrument *instrument,
                            bool bridge_alone);

/* Makes an instrument ready. `from` is the same instrument before a change (NULL: none): what was
 * assumed there stays (but for what follows from others: a neck the stop, a bridge the projection,
 * board and afterlength the string), the measured length keeps its excess, and `hold` says what
 * follows. */
enum mensur_status setup_make(struct mensur_solver *solver, const struct mensur_stock *stock,
                              const struct mensur_instrument *instrument, const struct setup *from,
                              enum mensur_hold hold, struct mensur_fault *fault, struct setup *out);

/* The same, of an instrument on its own of which the lengths alone are asked: its tuning is not
 * looked for, and what no length follows from (spacings, hollow, the string behind the nut) is not
 * assumed; but where a measurement has a ± nothing is left out. It is made in its place, so that a
 * failure leaves it half filled. */
enum mensur_status setup_make_lengths(struct mensur_solver *solver,
                                      const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      enum mensur_hold hold, struct mensur_fault *fault,
                                      struct setup *out);

/* The same instrument with another neck and stop (m). */
enum mensur_status setup_move(const struct setup *from, double neck, double stop,
                              enum mensur_hold hold, struct setup *out);

/* The pitch of A4 that it is tuned to, Hz: its own, else that of the terms. */
double setup_a4(const struct setup *setup, const struct mensur_terms *terms);

/* Clearance of the mean string at the board's end, m; NaN without geometry. */
double setup_board_end_clearance(const struct setup *setup);

/* Where the outer strings stand against the mean one there, m; NaN without a family that tells. */
void setup_outer_offsets(const struct setup *setup, double *low, double *high);

/* Refuses a set-up whose string would lie on the board at its end: a measured board that reaches to
 * the bridge. MENSUR_OK or MENSUR_NO_ANSWER. */
enum mensur_status setup_check_clearance(const struct setup *setup, struct mensur_fault *fault);

/* The figures of the lengths, all but the names of notes; and those, which figures that were found
 * need. */
void setup_lengths(const struct setup *setup, struct mensur_lengths *out);
void setup_lengths_and_air(const struct setup *setup, struct mensur_lengths *out,
                           struct mensur_body_air *air);
void setup_name_places(const struct setup *setup, struct mensur_lengths *out);

/* What an assumed measurement stands behind (some of enum mensur_behind). An instrument's heights
 * move the string length by half a tenth of a millimetre or more, and the break angle by as much of
 * a degree, where they are off by their usual spread, but for the nut's, the saddle's (the angle
 * alone) and the projection's. */
unsigned assumed_behind(enum mensur_field field);

/* Notes a value (SI) or a text as assumed, and what it stands behind (some of enum mensur_behind);
 * `field` is static, `text` borrowed from the stock. */
void assume(struct mensur_assumptions *assumed, const char *field, unsigned stands_behind,
            double value, enum mensur_kind kind, const char *text);

/* What was filled in, and what deserves a warning. */
void setup_report(const struct mensur_stock *stock, const struct setup *setup,
                  const struct mensur_terms *terms, struct mensur_assumptions *assumed,
                  struct mensur_facts *warnings);

#endif
