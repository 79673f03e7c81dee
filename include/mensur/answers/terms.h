/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * On which terms a question is asked, and what is wished.
 */
#ifndef MENSUR_TERMS_H
#define MENSUR_TERMS_H

#include <stdbool.h>
#include <stddef.h>

#include "pitch.h"
#include "result.h"
#include "wishes.h"

/** What is held when stop, neck or set-up change. */
enum mensur_hold {
    MENSUR_HOLD_PROJECTION, /**< the neck is set to the projection */
    MENSUR_HOLD_SLOPE,      /**< an existing instrument whose bridge moves: projection follows */
    MENSUR_HOLD_UNASKED     /**< the slope of a built instrument whose stop changes and whose neck
                                 stays as it is; else the projection */
};

/** How sure the ends of a decision's choice are; all zero: not known yet. */
struct mensur_sure_ends {
    bool known;
    double at[4]; /**< m: where the choice begins and ends, and the made-for range; NaN none */
    double plus_minus[4];         /**< m: standard uncertainty of each; NaN none stated */
    enum mensur_known too_coarse; /**< as of the decision */
    size_t matter_count;
    struct mensur_matter matters[MENSUR_MATTERS_MAX]; /**< as of the decision */
};

/** The terms on which every question is asked. */
struct mensur_terms {
    double a4;                 /**< Hz, MENSUR_A4_LEAST to MENSUR_A4_MOST */
    enum mensur_fifths fifths; /**< of the open strings */
    enum mensur_steps steps;   /**< of stopped notes */
    unsigned frets_asked; /**< of quarter-comma steps: bit s for semitone 1, 3 or 6 whose note is
                               asked for; of the others what is usual is taken */
    unsigned frets_low;   /**< and of those asked for the bits of the lower notes */
    enum mensur_hold hold;
    double bow_speed;    /**< m/s, > 0; NaN: the usual 0.2, reported as assumed */
    double bow_distance; /**< m from the bridge, > 0; NaN: the usual 30 mm scaled by L/328 mm */
    double friction;     /**< unitless, > 0: static less dynamic; NaN: the usual 0.5 */
    double resistance;   /**< kg/s of the bridge, > 0; NaN: unknown, and no least bow force */
    bool inches;         /**< lengths of a working are in inches */
    bool without_spread; /**< figures carry no ±, and no likelihood is told: of what is being moved,
                              and is asked again at rest; every other figure is the same */
    bool place_alone;    /**< of a decision neither steps, nor what strings would do instead, nor
                              where fingers fall: of what is being moved where none of them is in
                              sight; all else is the same */
    struct mensur_sure_ends *ends; /**< where without_spread: of the latest of several decisions on
                                        one instrument, one measurement of which moves. Taken where
                                        the ends lie within 1 nm of it: they do not hang on what
                                        moves. Else filled in; NULL: none is kept */
};

/** One wish: a range, ends included. */
struct mensur_wish {
    enum mensur_wish_kind kind;
    char note[8]; /**< of a tension; empty: every note */
    bool percent; /**< of the present (or the liked) instrument's; low and high are then ratios */
    double low, high; /**< SI; NaN open */
    double give;      /**< what a single value gives either way, as low and high; 0 of a range */
};

/** The most sets that come after the best one. */
#define MENSUR_RUNNERS_UP_MAX 16

/** By what the size of a scaled model is told. */
enum mensur_scale_by {
    MENSUR_SCALE_TO_NOTHING, /**< it was not told */
    MENSUR_SCALE_TO_BODY,
    MENSUR_SCALE_TO_STRING_LENGTH,
    MENSUR_SCALE_TO_RATIO
};

/** How a model is scaled. */
struct mensur_scaling {
    enum mensur_scale_by by;
    double value;            /**< m; of a ratio unitless */
    bool relative;           /**< it is added to what the model has */
    unsigned long long keep; /**< bit 1 << i: the measurement at that place of the list stays */
    bool keep_air;           /**< the depth follows so that the air note stays */
    const char *name;        /**< of the scaled model; NULL: the model's and the body in mm */
};

/** How the tensions of neighbouring strings go together. */
enum mensur_string_profile {
    MENSUR_PROFILE_NONE,   /**< each has its own aim */
    MENSUR_PROFILE_EQUAL,  /**< all the same */
    MENSUR_PROFILE_GRADED, /**< each `grade` times its upper neighbour's */
    MENSUR_PROFILE_LIKE    /**< as on the liked instrument */
};

/** What is wished of a set of strings. */
struct mensur_restring_wishes {
    const struct mensur_instrument *like; /**< same feel as its strings have; NULL: none */
    bool same_impedance;                /**< with like: the same impedance; else the same tension */
    const struct mensur_wish *tensions; /**< of kind TENSION, by note or for all */
    size_t tension_count;
    double least_margin;     /**< semitones to breaking, >= 0; NaN: the usual 2, of a plain gut top
                                string 1 */
    bool any_length;         /**< true: strings outside their made-for range too */
    double most_belly_force; /**< N in all, > 0; NaN: no limit */
    const char *from;        /**< name of a set to choose from; NULL: the whole catalogue */
    size_t runners_up;       /**< how many besides the best, at most MENSUR_RUNNERS_UP_MAX */
    const struct mensur_packet *packets; /**< strings besides the catalogue's, each behind the last
                                            of its note; of any `from` */
    size_t packet_count;
    bool mix; /**< strings of every core material, mixed as they come nearest */
    const char
        *material; /**< of the cores: "gut", "steel" or "synthetic"; NULL: the present ones */
    enum mensur_string_profile profile;
    double grade;         /**< of a graded profile, > 0; NaN or 0: the usual 0.9 */
    const char *to_order; /**< a material whose plain strings are to be ordered; NULL: none */
};

#endif
