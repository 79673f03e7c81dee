/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The table of figures: one row for each figure of each record of an answer. Keys of JSON and CSV,
 * labels, units, differences, unknowns, uncertainties and wishes follow from it.
 */
#ifndef MENSUR_FIGURES_H
#define MENSUR_FIGURES_H

#include "quantity.h"
#include "result.h"
#include "wishes.h"

/** The records that figures belong to. */
enum mensur_scope {
    MENSUR_SCOPE_INSTRUMENT,   /**< struct mensur_lengths */
    MENSUR_SCOPE_TOTAL,        /**< struct mensur_profile: of all its strings */
    MENSUR_SCOPE_HAND,         /**< struct mensur_profile: of the hand on it */
    MENSUR_SCOPE_FRETS,        /**< struct mensur_profile: of its frets, behind the places */
    MENSUR_SCOPE_COMPARED,     /**< struct mensur_profile: against the first of a comparison */
    MENSUR_SCOPE_STRING,       /**< struct mensur_string_figures */
    MENSUR_SCOPE_PLACE,        /**< struct mensur_finger_place */
    MENSUR_SCOPE_POSITION,     /**< struct mensur_position */
    MENSUR_SCOPE_TRUE_PLACE,   /**< struct mensur_true_place */
    MENSUR_SCOPE_STEP,         /**< struct mensur_step: what goes before its tensions */
    MENSUR_SCOPE_STEP_TOTAL,   /**< struct mensur_step: what follows them */
    MENSUR_SCOPE_INSTEAD,      /**< struct mensur_instead */
    MENSUR_SCOPE_CHOICE,       /**< struct mensur_choice: how good it is */
    MENSUR_SCOPE_CHOICE_TOTAL, /**< struct mensur_choice: of all its strings */
    MENSUR_SCOPE_WHOLE_SET,    /**< struct mensur_whole_set */
    MENSUR_SCOPE_NEEDED,       /**< struct mensur_needed */
    MENSUR_SCOPE_ORDER,        /**< struct mensur_order */
    MENSUR_SCOPE_REACH,        /**< struct mensur_reach */
    MENSUR_SCOPE_PUPIL_SIZE,   /**< struct mensur_pupil_size */
    MENSUR_SCOPE_GEOMETRY,     /**< struct mensur_geometry: in a working alone */
    MENSUR_SCOPE_BACK,         /**< struct mensur_back: in a working alone */
    MENSUR_SCOPE_MODEL,        /**< a string made ready, inside the library: in a working alone */
    MENSUR_SCOPE_AIR,          /**< struct mensur_body_air: in a working alone */
    MENSUR_SCOPE_COUNT
};

/** How a figure's member is held. */
enum mensur_figure_type {
    MENSUR_FIGURE_NUMBER,  /**< double in SI; NaN unknown */
    MENSUR_FIGURE_KNOWN,   /**< enum mensur_known */
    MENSUR_FIGURE_POINTER, /**< const char *; NULL unknown */
    MENSUR_FIGURE_TEXT     /**< char array */
};

/** What holds of a figure (added together). */
enum mensur_figure_flag {
    MENSUR_FIGURE_PUBLISHED = 1, /**< JSON and CSV have its key */
    MENSUR_FIGURE_MOVES = 2,     /**< it moves with the neck or the stop: shown beside a decision */
    MENSUR_FIGURE_PLUS_MINUS = 4, /**< a text says how sure it is */
    MENSUR_FIGURE_CHIN = 8,       /**< known only of what is held under the chin */
    MENSUR_FIGURE_RATIO = 16,     /**< shown as 2 : it */
    MENSUR_FIGURE_FULL = 32,      /**< told in a full answer alone */
    MENSUR_FIGURE_CUT = 64, /**< a length that is cut or set: a fraction where inches are shown */
    MENSUR_FIGURE_SELDOM = 128 /**< of few instruments: that it is not known is not told */
};

/** One figure. */
struct mensur_figure {
    const char *key;       /**< unit included: "string_length_mm" */
    const char *label;     /**< in the trade's words: "string length"; NULL: it is not shown */
    const char *gloss;     /**< what it is; NULL: its label says it */
    enum mensur_kind kind; /**< of a number: mensur_from_si(kind, value) is published */
    int decimals;          /**< of a number without a unit, where it is shown */
    enum mensur_figure_type type;
    unsigned flags;       /**< some of enum mensur_figure_flag */
    unsigned told;        /**< its turn among the shown ones, from 1; 0: by its key alone */
    const char *symbol;   /**< in formulas: "L"; NULL: it stands in none */
    const char *what;     /**< in a working; NULL: its label */
    const char *formula;  /**< what the symbol equals, with the symbols of other figures in braces,
                               behind a blank the unit to write them in: "4·{L m}²·{f}²·{μ kg/m}";
                               NULL: it is taken as it is */
    const char *note;     /**< behind the formula; NULL: none */
    const char *source;   /**< of the formula, or of the value; NULL: the answer says it */
    const char *unit;     /**< in a working; NULL: as usual for its kind */
    const char *rests_on; /**< a measurement: where that is assumed, so is all of this, and a brief
                               answer leaves it out; NULL: none */
    size_t offset;        /**< of its member in the scope's record */
};

/** Figures one behind the other. */
struct mensur_figures {
    const struct mensur_figure *items;
    size_t count;
};

/* The figures of a record in the order of their keys in JSON and CSV. */
struct mensur_figures mensur_figures(enum mensur_scope scope);

/* The figure of a key; NULL where the record has none. */
const struct mensur_figure *mensur_figure_named(enum mensur_scope scope, const char *key);

/* A figure by the order in which a text tells them, from 0; NULL behind the last. */
const struct mensur_figure *mensur_figure_told(enum mensur_scope scope, size_t place);

/* The value of a figure of type NUMBER in its record: SI; NaN unknown. */
double mensur_figure_value(const struct mensur_figure *figure, const void *record);

/* Sets a figure of type NUMBER in its record: SI; NaN unknown. */
void mensur_figure_put(const struct mensur_figure *figure, double value, void *record);

/* The value of a figure of type KNOWN. */
enum mensur_known mensur_figure_known(const struct mensur_figure *figure, const void *record);

/* The value of a figure of type POINTER or TEXT, borrowed; NULL unknown. */
const char *mensur_figure_text(const struct mensur_figure *figure, const void *record);

/* Makes all figures of a record unknown: NaN, MENSUR_UNSURE, NULL, an empty text. Other members
 * are left alone. */
void mensur_figures_unknown(enum mensur_scope scope, void *record);

/* Every number of a record minus that of another; other members are left alone. */
void mensur_figures_subtract(enum mensur_scope scope, const void *record, const void *first,
                             void *out);

/** A wish: a figure that may be asked for within a range; a row of MENSUR_WISH_LIST. */
struct mensur_wish_info {
    const char *word;        /**< as in JSON: "string_length" */
    const char *option;      /**< as it is asked: "string-length" */
    enum mensur_scope scope; /**< of its figure */
    const char *key;         /**< of its figure */
    const char *unit;        /**< of its ends in JSON: "mm", "stop per 2 neck" */
    const char *in_sentence; /**< after "the wish for the": "string length" */
    const char *example;     /**< of a range as it is typed: "368..376" */
    const char *one;         /**< of a single value as it is typed: "372" */
    double give;             /**< what a single value gives either way: SI, or a part of it */
    bool give_is_part;
};

/* What may be wished for. */
const struct mensur_wish_info *mensur_wish_info(enum mensur_wish_kind kind);

/* The figure that a wish is about; its label and its kind are the wish's. */
const struct mensur_figure *mensur_wish_figure(enum mensur_wish_kind kind);

/* Finds the wish that a want is about ("string_length", "tension A4"), MENSUR_WISH_TENSION where no
 * word fits; returns what follows the word, a string's note ("A4"), else "". */
const char *mensur_wish_of(const char *what, enum mensur_wish_kind *out);

#endif
