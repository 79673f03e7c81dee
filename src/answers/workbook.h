/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the working of an answer is written down. A step's formula is written once, with its
 * symbols in braces ("L = √({x}² + {y}²)"): the formula and its numbers are both made of it, and
 * the numbers are the very ones of the answer. What is not known leaves no step. */
#ifndef MENSUR_WORKBOOK_H
#define MENSUR_WORKBOOK_H

#include "figures.h"
#include "setup.h"

/* How a value (in SI) is written; one digit more than in the answers. */
enum workbook_unit {
    IN_LENGTH,   /* mm, or inches where the terms say so */
    IN_MM,       /* mm in every case, beside other units */
    IN_FINE_MM,  /* mm of a wire */
    IN_MM2,      /* mm2 of a core */
    IN_MM4,      /* mm4 of a core */
    IN_CM2,      /* cm2 of a body's outline */
    IN_CM3,      /* cm3 of its air */
    IN_METRES,   /* m, for the law of the string */
    IN_DEGREES,  /* of an angle */
    IN_HERTZ,    /* Hz */
    IN_NEWTONS,  /* N */
    IN_KG_PER_M, /* kg/m, for the law of the string */
    IN_G_PER_M,  /* g/m, as the answers show it */
    IN_GRAMS,
    IN_GPA,
    IN_G_PER_CM3, /* g/cm3: with mm2 it makes g/m */
    IN_MPA,       /* N/mm2 */
    IN_KG_PER_S,  /* of a wave impedance */
    IN_SEMITONES,
    IN_CENTS,
    IN_NUMBER,  /* six digits, no unit */
    IN_PERCENT, /* of a ratio: 0.038 is 3.8 % */
    IN_UNIT_COUNT
};

/* The unit in which a kind is usually written. */
enum workbook_unit workbook_unit_of(enum mensur_kind kind);

/* A symbol and the value it stands for. */
struct workbook_symbol {
    char name[24];
    double value; /* SI */
    enum workbook_unit unit;
};

/* More than all formulas have: some hundred, and a few for every string and wish. */
enum { WORKBOOK_SYMBOLS = 512 };

struct workbook {
    struct mensur_solver *solver;     /* owned */
    const struct mensur_stock *stock; /* what was asked, and how */
    const struct mensur_terms *terms;
    struct mensur_fault *fault;
    struct mensur_working working; /* the caller's to take or clear */
    enum mensur_status status;     /* the first failure; after it nothing is written */
    size_t instrument;             /* of the lines that follow */
    const char *subject;           /* what part the lines that follow are about; NULL: the whole */
    const char *of;                /* behind each `what`: a string; NULL */
    size_t symbol_count;
    struct workbook_symbol symbols[WORKBOOK_SYMBOLS];
};

/* An empty one. */
void workbook_open(struct workbook *book, const struct mensur_stock *stock,
                   const struct mensur_terms *terms, struct mensur_fault *fault);

/* Makes an instrument ready, as setup_make; whether it is: nothing is done after a failure. */
bool workbook_setup(struct workbook *book, const struct mensur_instrument *instrument,
                    const struct setup *from, struct setup *out);

/* Hands the working over, or frees it; the status of all that was done. */
enum mensur_status workbook_close(struct workbook *book, struct mensur_working *out);

/* From here on a symbol stands for a value; no line is written. */
void workbook_know(struct workbook *book, const char *name, double value, enum workbook_unit unit);

/* A value that is taken as it is, and where from; from here on it is known. */
void workbook_value(struct workbook *book, const char *what, const char *name, double value,
                    enum workbook_unit unit, const char *source);

/* A step: `formula` is "name = ..." with symbols in braces, `value` what it comes to; from here on
 * that is known by its name. `note` (NULL: none) goes behind the formula. */
void workbook_step(struct workbook *book, const char *what, const char *formula, const char *note,
                   double value, enum workbook_unit unit, const char *source);

/* From here on the symbols of a record's figures stand for its values. */
void workbook_record(struct workbook *book, enum mensur_scope scope, const void *record);

/* The line of a figure as its row has it: a step, or without a formula a value. */
void workbook_row(struct workbook *book, enum mensur_scope scope, const char *key,
                  const void *record);

/* The same of several; the keys end with NULL. */
void workbook_rows(struct workbook *book, enum mensur_scope scope, const char *const *keys,
                   const void *record);

/* The line of a figure that is told, follows or comes from elsewhere in another way than its row
 * says; formula NULL: it is taken as it is. */
void workbook_figure(struct workbook *book, const struct mensur_figure *figure, const char *what,
                     const char *formula, const char *source, const void *record);

#endif
