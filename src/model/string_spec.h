/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A string as read from strings.csv, and the materials it is made of. */
#ifndef MENSUR_STRING_SPEC_H
#define MENSUR_STRING_SPEC_H

#include <stdbool.h>

#include "note.h"
#include "quantity.h"

/** The most wrappings around a core. */
#define MENSUR_WRAPS_MAX 3

/** One wrapping, from the inside; thickness NaN where there is none. */
struct mensur_wrap {
    char *material;                   /**< NULL where not given */
    struct mensur_quantity density;   /**< kg/m3; NaN: the material's */
    bool flat;                        /**< ribbon; else round wire */
    struct mensur_quantity thickness; /**< m, of the wire or ribbon */
};

/** A string; owns its texts. Unknown figures are NaN. */
struct mensur_string_spec {
    char *name;
    char *set; /**< NULL: it belongs to no set */
    struct mensur_note note;
    char *material;     /**< of the plain string or the core */
    char *construction; /**< in words */
    char *source;
    struct mensur_quantity linear_density; /**< kg/m */
    struct mensur_quantity weighed_mass;   /**< kg, of all that lay on the scale, whose step is in
                                                the +- */
    struct mensur_quantity weighed_length; /**< m, of one string without its ball */
    double weighed_count;                  /**< strings alike on the scale; NaN: one */
    double scale_step;                     /**< kg that the scale shows; NaN unknown */
    struct mensur_quantity ball_mass;      /**< kg, of one ball; NaN: none */
    struct mensur_quantity stated_tension; /**< N, at stated_length and stated_a4 */
    struct mensur_quantity stated_length;  /**< m */
    struct mensur_quantity stated_a4;      /**< Hz; 440 where the cell is empty */
    bool slack;                      /**< linear_density is that of the string without tension */
    struct mensur_quantity diameter; /**< m, of a plain string */
    struct mensur_quantity density;  /**< kg/m3, of a plain string or the core */
    struct mensur_quantity core_diameter; /**< m */
    double strands;                       /**< 1 solid; NaN unknown */
    struct mensur_wrap wraps[MENSUR_WRAPS_MAX];
    struct mensur_quantity modulus;       /**< Pa, of the core */
    struct mensur_quantity strength;      /**< Pa, of the core */
    struct mensur_quantity made_for_low;  /**< m of string length */
    struct mensur_quantity made_for_high; /**< m of string length */
    long line;                            /**< of its file, from 1 */
    bool own; /**< the shop's own: the built-in catalogue has none of its name */
};

/** What a string's linear density is found from. */
enum mensur_string_way {
    MENSUR_WAY_STATED,  /**< it is stated itself */
    MENSUR_WAY_WEIGHED, /**< mass and length of strings that were weighed */
    MENSUR_WAY_TENSION, /**< a stated tension with its string length and A4 */
    MENSUR_WAY_WRAPPED, /**< core and wrappings */
    MENSUR_WAY_PLAIN    /**< diameter and density of the material */
};

/** The column that stands for each way, in the order of the ways. */
extern const char *const mensur_density_words[];

/* The first of those ways that is given, MENSUR_WAY_PLAIN where none of these is. */
enum mensur_string_way mensur_string_way(bool linear_density, bool weighed, bool stated_tension,
                                         bool wrapped);

/* Adds to the +- of a weighed mass what a scale of that step leaves open: step/sqrt(12), every
 * place within a step being as likely as another (JCGM 100:2008, 4.3.7, from memory). */
void mensur_string_weigh(struct mensur_string_spec *spec);

/* Makes an empty string: no texts, every figure unknown; what the memory held is not freed. */
void mensur_string_spec_init(struct mensur_string_spec *spec);

/* Frees its texts. */
void mensur_string_spec_clear(struct mensur_string_spec *spec);

/** A material; owns its texts. */
struct mensur_material {
    char *name;
    double density;         /**< kg/m3; NaN unknown */
    double modulus;         /**< Pa; NaN unknown */
    double strength;        /**< Pa; NaN unknown, or by diameter in the wire table */
    double low_strength;    /**< Pa, the ends of the range of published strengths; NaN unknown */
    double high_strength;   /**< Pa */
    double density_spread;  /**< standard uncertainty, kg/m3; NaN unknown */
    double strength_spread; /**< the same, Pa */
    double expansion;       /**< 1/K; NaN: no metal, or not known */
    double fast_modulus;    /**< Pa, without stress, for fast changes; NaN: as the modulus */
    double fast_growth; /**< unitless: by how much that grows with the stress; NaN: it does not */
    char *source;
};

/** What a string is made of, or its core: what people choose their strings by. */
enum mensur_core {
    MENSUR_CORE_UNKNOWN, /**< no material is named */
    MENSUR_CORE_GUT,
    MENSUR_CORE_STEEL,
    MENSUR_CORE_SYNTHETIC
};

/* The kind of a material by its name: gut or steel where the name holds that word, else synthetic;
 * unknown without a name. */
enum mensur_core mensur_core_of(const char *material);

/** A row of the table of strength by diameter. */
struct mensur_wire_strength {
    char *material;
    double diameter;      /**< m */
    double strength_low;  /**< Pa, the least that the standard asks for */
    double strength_high; /**< Pa */
    char *source;
};

#endif
