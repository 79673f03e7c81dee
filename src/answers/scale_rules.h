/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By which rule each measurement follows the size of the body. */
#ifndef MENSUR_SCALE_RULES_H
#define MENSUR_SCALE_RULES_H

#include "field.h"
#include "scale.h"

/* Which rules go with a model and its size. */
enum scale_class {
    SCALE_VIOLA,     /* from 380 to 440 mm, both sizes: the string hardly moves with the body */
    SCALE_FULL_SIZE, /* violins from 348 to 362, cellos from 740 to 770: the outline alone moves */
    SCALE_SMALL_VIOLIN, /* violins of other sizes */
    SCALE_OTHER_VIOLA,  /* violas of other sizes */
    SCALE_OTHER         /* all else: the whole instrument goes with the body */
};

struct scale_rule {
    enum mensur_scale_rule by;
    double power;
};

/* Bodies, m, within which a class holds; a body outside leaves it. */
struct scale_bodies {
    double from, to;
};

/* The class of a family (NULL: none) between two bodies (m). */
enum scale_class scale_class_of(const char *family, double from, double to);

/* The bodies that a family has a class of its own for, that a body lies in; 0 to infinity where
 * there is none. */
struct scale_bodies scale_bodies_of(const char *family, double body);

struct scale_rule scale_rule_of(enum scale_class of, enum mensur_field field);

/* Usual stop of a viola of a body, both in m: the rule AS_VIOLA_STOP. */
double scale_viola_stop(double body);

#endif
