/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A model in another size. */
#ifndef MENSUR_SCALE_H
#define MENSUR_SCALE_H

#include "result_use.h"

struct mensur_fault;
struct mensur_instrument;
struct mensur_scaling;
struct mensur_stock;
struct mensur_terms;

/* By which rule a measurement follows the size of a body. */
enum mensur_scale_rule {
    MENSUR_SCALE_HELD,            /* it stays */
    MENSUR_SCALE_KEPT,            /* it stays because that was asked */
    MENSUR_SCALE_AS_BODY,         /* as a power of the body */
    MENSUR_SCALE_AS_STOP,         /* as a power of the stop */
    MENSUR_SCALE_AS_VIOLA_STOP,   /* 0.555 of the body to 400 mm, then 0.2 mm a millimetre */
    MENSUR_SCALE_WITH_PROJECTION, /* moved by as many millimetres as the projection */
    MENSUR_SCALE_BY_GEOMETRY,     /* follows the geometry, and keeps what it exceeds that by */
    MENSUR_SCALE_FOR_AIR          /* so that the note of the body's air stays */
};

/* One measurement of a model in another size. */
struct mensur_scaled_measure {
    const char *field; /* static text */
    double from, to;   /* m */
    double exponent;   /* of the ratio of the bodies; NaN: the rule is no power of it */
    enum mensur_scale_rule rule;
    double power; /* of the body or the stop, as the rule has it */
};

/* A cell of the scaled model as a row of instruments.csv. */
struct mensur_scaled_cell {
    const char *head; /* static text */
    char *text;       /* owned; NULL: it is a length, or empty */
    double length;    /* m; NaN: it is a text, or empty */
};

/* A model in another size. */
struct mensur_scaled {
    char *model;  /* owned: name of the model that is scaled */
    char *name;   /* owned: name of the scaled one */
    double ratio; /* of the bodies */
    double body;  /* m, of the scaled one */
    size_t measure_count;
    struct mensur_scaled_measure *measures; /* owned: those that were measured */
    size_t cell_count;
    struct mensur_scaled_cell *cells; /* owned */
    /* m by which the ribs grow where the air note is kept, with the exponent of its law, and with
     * the ends of its range; NaN where that was not asked. */
    double rib_more, rib_more_least, rib_more_most;
    /* What is told with it, borrowed from whoever asked for it: the model beside the scaled one,
     * and the decision on the neck of that (NULL: nothing was wished). */
    const struct mensur_comparison *comparison;
    const struct mensur_decision *decision;
};

/* The model in another size, every measurement by its own rule (scale_rules.h), and what it then
 * is as an instrument, a plan, for the caller to clear. What was not measured is not scaled: it is
 * assumed anew.
 *
 * MENSUR_USE also where no size in reach has the string length that is asked for, or a measurement
 * is to be kept that the model does not have. */
enum mensur_status mensur_ask_scale(const struct mensur_stock *stock,
                                    const struct mensur_instrument *model,
                                    const struct mensur_scaling *scaling,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_scaled *out, struct mensur_instrument *scaled);

void mensur_scaled_clear(struct mensur_scaled *scaled);

#endif
