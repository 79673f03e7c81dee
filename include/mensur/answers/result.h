/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What an answer holds: plain figures in SI, NaN where unknown, with all that was
 * assumed and every warning. Present reads these structs and computes nothing.
 */
#ifndef MENSUR_RESULT_H
#define MENSUR_RESULT_H

#include <stdbool.h>
#include <stddef.h>

#include "fact.h"
#include "messages.h"
#include "units.h"

/** The most strings, positions, places and assumptions an answer holds. */
#define MENSUR_RESULT_STRINGS 16
#define MENSUR_RESULT_POSITIONS 24
#define MENSUR_RESULT_PLACES 25
#define MENSUR_RESULT_ASSUMED 48

/** Yes, no, or not known. */
enum mensur_known { MENSUR_NO, MENSUR_YES, MENSUR_UNSURE };

/** What an assumed value stands behind (added together): figures that print otherwise where the
 * value is off by its usual spread. */
enum mensur_behind {
    MENSUR_BEHIND_LENGTH = 1, /**< the string length, and what follows from it */
    MENSUR_BEHIND_BREAK = 2,  /**< the break angle, and the force on the belly */
    MENSUR_BEHIND_SLOPE = 4,  /**< the neck's slope */
    MENSUR_BEHIND_REACH = 8,  /**< left and bow reach */
    MENSUR_BEHIND_CLEARANCE = 16,
    MENSUR_BEHIND_ROOM = 32,     /**< the bow room */
    MENSUR_BEHIND_BEHIND = 64,   /**< the string behind the bridge */
    MENSUR_BEHIND_FEEL = 128,    /**< what bow and finger feel, and true places */
    MENSUR_BEHIND_STRINGS = 256, /**< pitches and tensions */
    MENSUR_BEHIND_CHOICE = 512,  /**< which strings are chosen */
    MENSUR_BEHIND_HEEL = 1024,   /**< the note with the thumb in the heel */
    MENSUR_BEHIND_FEET = 2048,   /**< the forces of the bridge's feet */
    MENSUR_BEHIND_ALL = 4095
};

/** A value that the program filled in. */
struct mensur_assumed {
    const char *field;     /**< what was filled in; static text */
    double value;          /**< SI unit of its kind; NaN where it is a text */
    enum mensur_kind kind; /**< MENSUR_NUMBER for unitless */
    bool scaled;           /**< the family's usual value, scaled to the stop */
    const char *text;      /**< borrowed from the stock; NULL where it is a number */
    unsigned behind;       /**< some of enum mensur_behind */
};

/** All that was filled in for one answer. */
struct mensur_assumptions {
    size_t count;
    struct mensur_assumed items[MENSUR_RESULT_ASSUMED];
};

/** A place on a string by the names of notes. */
struct mensur_named_place {
    char low[8];  /**< the note at it, or the next below it; "" unknown */
    char high[8]; /**< the next above where it lies between two; "" where it does not */
    char open[8]; /**< of the string that the notes are on */
};

/** The lengths of an instrument; m and rad; NaN where unknown. */
struct mensur_lengths {
    double body;
    double body_straight;
    double stop;
    double neck;
    double string_length; /**< the one used: measured, else by geometry */
    enum mensur_known string_length_measured;
    double string_length_geometry;
    double stop_per_2_neck;   /**< unitless: neck : stop = 2 : this */
    double body_at_semitones; /**< semitones above the open string */
    double neck_slope;        /**< rad */
    double break_angle;       /**< rad */
    double down_factor;       /**< unitless */
    double left_reach;
    double bow_reach;
    double afterlength;
    double clearance_at_board_end;         /**< of the mean string */
    double bow_room;                       /**< string length less board length */
    enum mensur_known built;               /**< it exists; no: a plan or a model */
    double clearance_low, clearance_high;  /**< above the board's end: lowest, highest string */
    double first_finger_at_heel_semitones; /**< with the thumb in the heel */
    double afterlength_semitones;          /**< above the open string; NaN: none was measured */
    double air_volume;                     /**< m3 */
    double air_note;                       /**< Hz: measured; in a comparison also told from that of
                                                the body compared with */
    struct mensur_named_place body_note;   /**< where the hand meets the body, highest string */
    struct mensur_named_place heel_note;   /**< of the first finger with the thumb in the heel */
};

/** Whether the law of the air holds for a body, and why not. */
enum mensur_air_known {
    MENSUR_AIR_NOT_ASKED,     /**< neither a width nor an f-hole was measured */
    MENSUR_AIR_KNOWN,         /**< all that it needs was measured */
    MENSUR_AIR_UNMEASURED,    /**< something was not */
    MENSUR_AIR_FLAT_BACK,     /**< it holds for arched backs alone */
    MENSUR_AIR_CUT_SHOULDERS, /**< as basses have */
};

/** The air inside a body; NaN unless it is known. */
struct mensur_body_air {
    enum mensur_air_known known;
    char missing[96]; /**< the measurements that it lacks, where it is unmeasured */
    double body;      /**< m */
    double outline;   /**< m2 */
    double depth;     /**< m */
    double volume;    /**< m3 */
    double f_length;  /**< m */
    double note;      /**< Hz, measured on this body; NaN: it was not */
};

/** Where a measurement comes from. */
enum mensur_origin {
    MENSUR_ORIGIN_UNKNOWN,
    MENSUR_ORIGIN_MEASURED,
    MENSUR_ORIGIN_ASSUMED, /**< the family's usual one, or a share of another */
    MENSUR_ORIGIN_FOLLOWS  /**< from the other measurements */
};

/** A measurement of an instrument as it stands: a length. */
struct mensur_measure {
    const char *field; /**< as in the files, "board_nut"; NULL: no row */
    double value;      /**< m; NaN unknown */
    enum mensur_origin origin;
};

/** The most measurements of an instrument that are lengths. */
#define MENSUR_RESULT_MEASURES 36

/** Where one string crosses bridge and nut, seen from the tailpiece; m. */
struct mensur_crossing {
    char note[8];
    double at_bridge, at_nut; /**< across from the middle, positive toward the highest string */
    double above_belly;       /**< at the bridge line; NaN unknown */
    double above_board;       /**< at the nut, above the middle of the board's top */
};

/** The side view, to be drawn: origin at the belly's upper edge on the top of the edge, x toward
 * the lower end, y away from the belly; m and rad; NaN where unknown. */
struct mensur_side_points {
    bool known;           /**< false: stop, neck or set-up are unknown, and so is all else here */
    double nut_x, nut_y;  /**< the string at the nut */
    double top_x, top_y;  /**< the string at the bridge */
    double body_straight; /**< x of the lower end and of the saddle */
    double saddle;        /**< y of the string behind the bridge, at body_straight */
    double neck;          /**< origin to the nut along the gluing surface */
    double overstand;     /**< y of the board's gluing surface at x = 0 */
    double arch;          /**< y of the belly under the bridge */
    double projection;    /**< line of the board's top above the belly, at the bridge */
    double bridge;        /**< the string above the belly, at the bridge */
    double board;         /**< thickness of the board at x = 0 */
    double board_nut;     /**< the same at the nut */
    double board_length;
    double nut;         /**< the string above the board at the nut */
    double board_slope; /**< rad, of the board's top against the edge */
    double neck_slope;  /**< rad, of the gluing surface */
    double front_angle; /**< rad, of the string before the bridge */
    double back_angle;  /**< rad, behind it */
    double heel;        /**< origin to the thumb in the heel, along the neck */
    double rib;         /**< mean height of the ribs; NaN unless measured */
    double back_arch;   /**< rise of the back above its edge */
    double spacing_bridge, spacing_nut, foot_spacing; /**< the usual ones where not measured */
    double crown; /**< radius of the arc on which the strings lie at the bridge; always assumed */
    size_t crossing_count; /**< 0 where the tuning or the spacings are unknown */
    struct mensur_crossing crossings[MENSUR_RESULT_STRINGS]; /**< lowest string first */
};

/** The figures of one string; SI; NaN where unknown. */
struct mensur_string_figures {
    const char *string; /**< name, borrowed from the stock; NULL where the set has none */
    char note[8];
    char tuned_to[8];            /**< the note, where the string is made for another; empty else */
    const char *density_from;    /**< what its linear density is found from, a word of
                                      mensur_density_words; NULL where there is no string */
    enum mensur_known own;       /**< the shop's own: the built-in catalogue has none of its name */
    double frequency;            /**< Hz */
    double linear_density;       /**< kg/m at pitch */
    double tension;              /**< N */
    double stress;               /**< Pa in the core */
    double breaking_margin;      /**< semitones, by the low end of the strength */
    double breaking_margin_high; /**< the same, by the high end; NaN where there is none */
    double inharmonicity;        /**< unitless; NaN where only a range is known */
    double impedance;            /**< kg/s */
    double force_on_belly;       /**< N */
    enum mensur_known in_made_for_range;
    double made_for_low;       /**< m */
    double made_for_high;      /**< m */
    double strength;           /**< Pa, of the core */
    double highest_frequency;  /**< Hz that the core's material bears on this length */
    double bow_force_least;    /**< N */
    double bow_force_greatest; /**< N */
    double press_force_first;  /**< N to press it down two semitones from the nut */
    double press_force_octave; /**< N to press it down at the octave */
    double
        rise_low_cents; /**< pitch rise of stopping at the octave: string free at nut and bridge */
    double rise_high_cents;       /**< the same: string held there, as stiff as it can be, the
                                       finger shortening it by soft_end */
    double breaking_tension;      /**< N at which the core breaks */
    double made_for_tension_low;  /**< N at pitch on the shortest length it is made for */
    double made_for_tension_high; /**< N at pitch on the longest */
    enum mensur_known breaking_margin_at_least; /**< the margin is a lower bound */
    double inharmonicity_low;                   /**< unitless: strands that slide */
    double inharmonicity_high;                  /**< unitless: one solid core, tight wrappings */
    double clamped_rise_cents; /**< of the fundamental, were nut and bridge clamps, at most */
    double tuning_stretch;     /**< m drawn from slack to pitch */
    double cents_per_mm;       /**< for each millimetre drawn */
    double cents_per_kelvin;   /**< of steel; NaN else */
    /* On the way to these, shown in a working alone: */
    double stiffness;         /**< N, of the core, against slow changes */
    double fast_modulus;      /**< Pa, of the core, against fast changes at its stress */
    double fast_stiffness;    /**< N, the same of the core */
    double greatest_moment;   /**< m4, second moment of the core as one piece and its wrappings as
                                 coils */
    double core_moment;       /**< m4, the same of the core alone */
    double soft_end;          /**< m, by which a finger shortens the string, at most */
    double tuning_strain;     /**< unitless, of the string at pitch */
    double unthinned_tension; /**< N, of a string stated slack, if it did not thin; else NaN */
    double clearance_offset;  /**< m, against the mean string at the board's end */
    double first_place;       /**< m from the nut, two semitones up */
    double first_clearance;   /**< m, there */
    double octave_place;      /**< m from the nut */
    double octave_clearance;  /**< m, there */
    double half_place;        /**< m: half the length */
    double half_clearance;    /**< m, there */
    double stretch;           /**< m, of stopping it there */
    double sounding;          /**< m, of the string stopped there */
    double stopped_low;       /**< Hz, stopped there, string free at nut and bridge */
    double stopped_high;      /**< Hz, the same: string held at nut and bridge */
};

/** One finger place. */
struct mensur_finger_place {
    double semitones; /**< above the open string */
    double from_nut;  /**< m */
    double to_next;   /**< m; NaN for the last */
};

/** One position of the hand. */
struct mensur_position {
    char name[24];          /**< "half", "1", "2-3", "1 extended" ... */
    double first_finger;    /**< m from the nut; of a thumb position the thumb */
    double fourth_finger;   /**< m from the nut; of a thumb position the third finger */
    double frame;           /**< m from the one to the other */
    double first_semitones; /**< of the first finger above the open string */
};

/** Where a finger truly stops a string, which the stopping stretches, between two bounds. */
struct mensur_true_place {
    char note[8];         /**< of the open string */
    const char *string;   /**< its name, borrowed from the stock */
    double semitones;     /**< above the open string */
    double from_nut_low;  /**< m: string held at nut and bridge; NaN unknown */
    double from_nut_high; /**< m: string free to slide there; NaN unknown */
};

/** The most bytes of a liked instrument's name in front of a measurement that matters. */
#define MENSUR_MATTER_OWNER 24

/** A measurement that a figure hangs on. */
struct mensur_matter {
    char field[64];    /**< "stop"; of a string "A4 diameter"; of a liked instrument "heron stop";
                          of a material "gut density" */
    double plus_minus; /**< how sure it is, SI */
    double share;      /**< of the figure's variance, 0 to 1 */
    bool assumed;      /**< the program filled it in, with its usual spread */
    const char *of;    /**< key of the figure; NULL: the end of a choice */
};

/** The most measurements named as those that matter most to a figure, and the most such figures. */
#define MENSUR_MATTERS_MAX 3
#define MENSUR_MATTERED_MAX 2

/** How sure the figures of a profile are: each member holds the standard uncertainty (JCGM
 * 100:2008) of the profile's like-named one, SI; NaN where the figure is unknown. */
struct mensur_spread {
    struct mensur_lengths lengths;
    size_t string_count;
    struct mensur_string_figures strings[MENSUR_RESULT_STRINGS];
    double total_tension;
    double total_force_on_belly;
    double force_on_treble_foot;
    double force_on_bass_foot;
    double neck_moment;
    size_t position_count;
    struct mensur_position positions[MENSUR_RESULT_POSITIONS];
    /** Those behind the string length (where nothing that was stated moves that, behind the total
     * tension), then those behind the break angle; of each figure most first. */
    size_t matter_count;
    struct mensur_matter matters[MENSUR_MATTERED_MAX * MENSUR_MATTERS_MAX];
};

/** One cell in which an instrument is not as the file has it. */
struct mensur_proposal {
    const char *field;              /**< its name in the files; static text */
    enum mensur_kind kind;          /**< of the numbers */
    double now, proposed;           /**< SI; NaN: it is a text, or not given */
    char *now_text, *proposed_text; /**< owned; NULL: it is a number, or not given */
};

/** Everything about one instrument; owns its name, its texts and its true places. */
struct mensur_profile {
    char *instrument;                 /**< owned, with the name of its strings behind it */
    struct mensur_proposal *proposed; /**< owned: in what it is not as the file has it */
    size_t proposed_count;
    const char *family; /**< name, borrowed from the stock; NULL without one */
    const char *held;   /**< "chin", "knee", "standing"; NULL without a family */
    const char *set;    /**< name of its strings; NULL without any */
    struct mensur_lengths lengths;
    struct mensur_side_points side; /**< to draw the lengths from */
    size_t measure_count;           /**< 0 where figures alone were asked for */
    struct mensur_measure measures[MENSUR_RESULT_MEASURES]; /**< in the order of the columns */
    struct mensur_body_air air;
    size_t string_count; /**< strings of its tuning */
    struct mensur_string_figures strings[MENSUR_RESULT_STRINGS];
    double total_tension;        /**< N; NaN where one string is unknown */
    double total_force_on_belly; /**< N */
    double made_for_low; /**< m: the range of length common to all its strings; NaN unknown */
    double made_for_high;
    double force_on_treble_foot;      /**< N, of the bridge */
    double force_on_bass_foot;        /**< N */
    double neck_moment;               /**< N m, at the neck's root */
    double air_semitones_above_first; /**< the air's note in a comparison, above the first one's */
    double frame_semitones;           /**< NaN without a family */
    double frets;                     /**< how many the family has; NaN without any */
    double spacing_nut;               /**< m, outer strings there; NaN unknown */
    double spacing_bridge;            /**< m, the same at the bridge */
    bool spacing_assumed;             /**< one of both is the usual one */
    size_t place_count;
    struct mensur_finger_place places[MENSUR_RESULT_PLACES];
    size_t position_count;
    struct mensur_position positions[MENSUR_RESULT_POSITIONS];
    size_t true_place_count;               /**< of the strings whose stiffness is known */
    struct mensur_true_place *true_places; /**< owned; string by string */
    struct mensur_assumptions assumed;
    struct mensur_facts warnings;
    struct mensur_facts remarks;  /**< of the fingers */
    struct mensur_spread *spread; /**< owned; NULL where no measurement says how sure it is */
};

/** Two or more instruments side by side, each held against the first; or one as it is and as
 * changed. */
struct mensur_comparison {
    size_t count;                       /**< 2 or more */
    struct mensur_profile *instruments; /**< owned */
    struct mensur_profile
        *differences; /**< owned; count - 1 of them: instrument i+1 minus the first; strings
                           by note (string NULL), positions by name, only those both have */
    struct mensur_facts remarks;
    size_t verdict_count; /**< of the remarks on a change: the first ones, said before all else */
    bool changed;         /**< the second is the first as changed */
    bool cuts_built;      /**< the change is one of the neck of a built instrument */
};

/** A family as a row for families.csv, with what is usual in the shop. */
struct mensur_learned_family {
    const char *name;   /**< borrowed from the shop */
    size_t instruments; /**< of the shop, with a stop that was measured */
    bool learnt;        /**< the row is made from them; else it stands as it was */
    size_t cell_count;
    struct mensur_table_cell *cells; /**< owned: the same heads in every family */
    struct mensur_texts warnings;    /**< what was left out */
};

/** What is learnt from instruments; the library's own. */
struct mensur_learning;

/** What is usual in a shop. */
struct mensur_learned {
    size_t count;
    struct mensur_learned_family *families; /**< owned: all of the shop's, in its order */
    struct mensur_learning *learning;       /**< owned: what they borrow from; the library's own */
};

/** One wish and the necks (or stops) that meet it. */
struct mensur_want {
    char what[32]; /**< its word as in JSON, "string_length"; of a tension with its note: "tension
                      A4" */
    enum mensur_kind kind; /**< of low and high */
    const char *unit;   /**< of low and high in the kind's bare unit: "mm", "N", "semitones", "stop
                           per 2 neck" */
    double low, high;   /**< SI; NaN open */
    double place_low;   /**< m of neck (stop); NaN where the wish leaves that side open */
    double place_high;  /**< m */
    bool within_reach;  /**< some neck (stop) of the search meets it */
    bool unmoved;       /**< the stop does not move it: it is met everywhere or nowhere */
    const char *origin; /**< why it is wished: "asked" or "like"; static text */
    double
        give; /**< SI: what a single value was widened by, either way; 0 where a range was asked */
    double miss; /**< SI of its kind, > 0: by how much the nearest place misses it; 0 where that
                      meets it, or where all are met */
};

/** One step of the neck (or the stop) with what moves. */
struct mensur_step {
    double place; /**< m of neck (stop) */
    bool present; /**< it is the present one */
    bool recommended;
    double string_length, stop_per_2_neck, body_at_semitones, left_reach, bow_reach, bow_room;
    double clearance_at_board_end;
    double total_tension, total_force_on_belly;
    double tension[MENSUR_RESULT_STRINGS]; /**< N, in the tuning's order */
};

/** The string a note would need if the neck (stop) stays. */
struct mensur_instead {
    char note[8];
    double present_linear_density; /**< kg/m */
    double needed_linear_density;  /**< kg/m */
    double nearest_linear_density; /**< kg/m */
    const char *present_string;    /**< borrowed from the stock; NULL */
    const char *nearest_string;    /**< borrowed from the stock; NULL */
    double wished_tension;         /**< N of the present one on the wished length */
    double wished_linear_density;  /**< kg/m of it there */
};

/** Two wishes that no one neck (stop) meets. */
struct mensur_conflict {
    bool exists;
    size_t first, second; /**< of the wants: first wants the shorter neck (stop) */
    double gap;           /**< m of neck (stop) between them */
    double give_first; /**< what first would have to give, in SI of its kind, > 0, if second is kept
                          whole */
    double give_second;
};

/** The decision on the neck, or on the stop. */
struct mensur_decision {
    bool for_stop;
    struct mensur_profile present; /**< as it is asked about */
    struct mensur_profile before;  /**< as the file has it, where the present one has changes and
                                      this can be computed; else all zero */
    struct mensur_profile recommended; /**< all zero where not met; where the present place is left
                                          it is that one */
    struct mensur_profile like;        /**< all zero where none was named */
    bool has_before, has_recommended, has_like;
    bool place_proposed; /**< the present place is not the file's */
    double place_before; /**< m: the file's, where the present one is not; NaN: it has none */
    bool cuts_built;     /**< the recommended place, or what is proposed, asks for another neck, or
                              another slope of it, of a built instrument */
    size_t want_count;
    struct mensur_want *wants; /**< owned */
    bool can_meet_all;
    double place_low, place_high;   /**< m: what all wishes have in common; NaN where nothing */
    bool present_known;             /**< the present place was measured; else it is the usual one */
    bool leave;                     /**< the present place is recommended */
    double usual_place;             /**< m: by the family's usual neck : stop; NaN unknown */
    double made_for_place_low;      /**< m: where the string is as short as all its strings are made
                                         for; NaN open, or they have no such length */
    double made_for_place_high;     /**< m: as long; NaN open, or none */
    double made_for_low_plus_minus; /**< m: standard uncertainty of the two; NaN none stated */
    double made_for_high_plus_minus; /**< m */
    double recommended_place;        /**< m; NaN where not met */
    double aside_place;   /**< m: nearer to the middle of what the strings are made for, or
                               of the length wish, where the present place is left; NaN */
    double nearest_place; /**< m: the place that misses the wishes least; NaN where met */
    double likelihood; /**< 0 to 1: that the recommended place meets every wish; NaN where no ± is
                            stated, nothing is wished, or not all are met */
    char measure_better[64]; /**< the measurement that the least sure wish hangs on most; "" */
    double wished_length;    /**< m: the string length that stands for the wishes; NaN none */
    struct mensur_facts reason;
    struct mensur_conflict conflict;
    size_t step_count;
    struct mensur_step *steps; /**< owned */
    size_t instead_count;
    struct mensur_instead instead[MENSUR_RESULT_STRINGS];
    struct mensur_facts changes; /**< what moves with it */
    double
        place_low_plus_minus; /**< m: standard uncertainty of where the places in common begin (or,
                                   in a conflict, of what the second wish needs); NaN none stated */
    double place_high_plus_minus; /**< m: of where they end (or of what the first wish allows) */
    enum mensur_known
        too_coarse; /**< the measurements cannot decide; unsure where none is stated */
    size_t matter_count;
    struct mensur_matter matters[MENSUR_MATTERS_MAX]; /**< behind the less sure end, most first */
    struct mensur_facts how_sure;                     /**< none where no ± is stated */
};

/** A set of strings chosen for an instrument. */
struct mensur_choice {
    struct mensur_string_figures strings[MENSUR_RESULT_STRINGS];
    struct mensur_facts why[MENSUR_RESULT_STRINGS]; /**< the reason for each */
    double total_tension;                           /**< N */
    double total_force_on_belly;                    /**< N */
    double force_on_treble_foot;                    /**< N, of the bridge */
    double force_on_bass_foot;                      /**< N */
    double neck_moment;                             /**< N m, at the neck's root */
    double evenness; /**< root mean square of log tension steps between neighbours less the wished
                        steps; unitless */
    double cost;     /**< what was made least; unitless */
    double off_aim;  /**< N: the sum of the amounts by which tensions are off their aims; NaN: no
                        aim */
    double
        largest_step; /**< N: largest difference of tension between neighbours; NaN: one string */
    bool kept[MENSUR_RESULT_STRINGS]; /**< the present string stays */
    const char *set; /**< the set that these are all strings of, borrowed; NULL: of several */
};

/** A complete set of the catalogue. */
struct mensur_whole_set {
    const char *set;             /**< borrowed from the stock */
    double total_tension;        /**< N */
    double total_force_on_belly; /**< N; NaN unknown */
    double force_on_treble_foot; /**< N, of the bridge; NaN unknown */
    double force_on_bass_foot;   /**< N */
    double neck_moment;          /**< N m, at the neck's root */
    double largest_miss_percent; /**< of the tension of a string from its aim; NaN: no aim */
    double off_aim;              /**< N, as in a choice */
    double largest_step;         /**< N, as in a choice */
    bool present;                /**< the instrument has it */
    struct mensur_facts misses;  /**< which wishes it does not meet; none: it meets all */
};

/** A string to be ordered by its gauge. */
struct mensur_order {
    char note[8];
    const char *material;    /**< borrowed */
    double diameter;         /**< m, slack */
    double diameter_thou;    /**< the same in thousandths of an inch */
    double tension;          /**< N */
    double stress;           /**< Pa: the tension over the slack area */
    double margin;           /**< semitones to breaking */
    double linear_density;   /**< kg/m at pitch */
    double tenth_below;      /**< m: the gauge in whole tenths of a millimetre below; NaN: none */
    double tension_below;    /**< N, of that gauge */
    double tenth_above;      /**< m */
    double tension_above;    /**< N */
    double thickest;         /**< m: plain string of the family's is ordered up to it */
    enum mensur_known plain; /**< no: it is thicker than that, and ordered by its mass */
};

/** What is aimed at for a note's string; N. */
struct mensur_aim {
    double low;     /**< it is to have no less; NaN: open */
    double high;    /**< and no more; NaN: open */
    double tension; /**< it is to have; NaN: none */
};

/** What a string of a note would weigh. */
struct mensur_needed {
    char note[8];
    double linear_density; /**< kg/m at pitch */
};

/** Strings for an instrument: those recommended and the runners-up. */
struct mensur_restringing {
    struct mensur_profile present; /**< the instrument with the strings it has */
    size_t string_count;
    bool met;            /**< the recommended strings meet every wish; else they are the nearest */
    bool leave;          /**< they are the present ones */
    bool whole;          /**< they are a whole set, preferred to mixtures that come nearer */
    size_t choice_count; /**< 0: a note has no string at all */
    struct mensur_choice
        *choices; /**< owned; the recommended first, then mixtures, nearest first */
    struct mensur_aim aims[MENSUR_RESULT_STRINGS];
    struct mensur_facts misses; /**< what the recommended strings miss */
    size_t set_count;
    struct mensur_whole_set *sets; /**< owned; the best first */
    size_t needed_count;           /**< 0 where every wish is met */
    struct mensur_needed needed[MENSUR_RESULT_STRINGS];
    size_t order_count;
    struct mensur_order orders[MENSUR_RESULT_STRINGS];
    double force_slack; /**< N; 0: no other sets that meet every wish cost less; else none of those
                           that press the belly with so much less than the limit, or lighter */
    struct mensur_facts excluded; /**< which wish excludes what */
    struct mensur_facts reason;
    struct mensur_facts how_sure;
    struct mensur_spread *spread; /**< owned: how sure the recommended strings' figures are; NULL
                                       where no measurement says it */
    struct mensur_texts
        packet_names; /**< owned: what the strings known by their packets are called */
};

/** One player's left arm and bow arm on one instrument; owns its name and its warnings. */
struct mensur_reach {
    char *instrument;
    double string_length;        /**< m; NaN unknown */
    double left_reach;           /**< m; NaN where it is not held under the chin, or unknown */
    double bow_reach;            /**< m; the same */
    double distance;             /**< m, left shoulder joint to nut, seen from above; NaN unknown */
    double nut_side;             /**< m, of it to the left; NaN unknown */
    double nut_forward;          /**< m, of it forward; NaN unknown */
    double wrist;                /**< m, left shoulder joint to wrist, the hand in first position;
                                      NaN unknown */
    double elbow;                /**< rad, pi stretched; NaN where stretched, folded or unknown */
    double elbow_plus_minus;     /**< rad, standard uncertainty; NaN where the elbow is, and where
                                      it would pass pi, so that the first order does not hold */
    enum mensur_known stretched; /**< the wrist lies beyond the arm's length */
    double elbow_apart;          /**< rad, less that of the instrument compared with; NaN unknown */
    double elbow_apart_plus_minus; /**< rad, of the difference: both have the same arm */
    size_t position_count;
    struct mensur_position positions[MENSUR_RESULT_POSITIONS];
    struct mensur_assumptions assumed; /**< of the instrument */
    struct mensur_facts warnings;
};

/** A size of a family for a pupil. */
struct mensur_pupil_size {
    double age_low, age_high;         /**< years at which teachers give it; NaN unknown */
    double stature_low, stature_high; /**< m, the same; NaN unknown */
    enum mensur_known recommended;    /**< by our rule or by the stature; unsure: adults */
    enum mensur_known open; /**< another answer lies within the ± of its elbow; unsure: no
                                 elbow, or adults */
    double from_stature;    /**< m, from which it is the size; NaN where that is not told:
                                 of the next size alone it is */
    double from_age;        /**< years, the same */
};

/** The most points of a map, and how finely its lines are drawn. */
#define MENSUR_MAP_POINTS 400
#define MENSUR_MAP_COLUMNS 97
#define MENSUR_MAP_LINES 24

/** An instrument on the plane of stop and neck. */
struct mensur_map_point {
    char *name; /**< owned */
    struct mensur_lengths lengths;
    double stop_plus_minus, neck_plus_minus; /**< m, standard uncertainty; 0 none is stated */
    bool asked;                              /**< it was named */
    bool changed;                            /**< and is shown as changed */
    enum mensur_known meets_all;             /**< the wishes; unsure without any */
};

/** Stops and necks of one string length. */
struct mensur_map_line {
    double string_length; /**< m */
    double
        necks[MENSUR_MAP_COLUMNS]; /**< m, one for each stop of the map; NaN where there is none */
};

/** What a wish allows. */
struct mensur_map_band {
    struct mensur_want want;         /**< its places are those of the instrument in question */
    double low[MENSUR_MAP_COLUMNS];  /**< m of neck, for each stop of the map; NaN nothing */
    double high[MENSUR_MAP_COLUMNS]; /**< m */
};

/** The plane of stop and neck. Lines and bands are those of an instrument with the heights and the
 * strings of the one in question, its neck set to the projection unless another is held. */
struct mensur_map {
    char *instrument;                 /**< the one in question; owned */
    char *family;                     /**< the points' family; owned; NULL: it names none */
    const char *held;                 /**< "chin", "knee", "standing"; static; NULL not known */
    double stop_low, stop_high;       /**< m, the edges */
    double neck_low, neck_high;       /**< m */
    double stops[MENSUR_MAP_COLUMNS]; /**< m */
    double neck_per_stop; /**< how much longer the neck has to be, the string as long as it is, for
                               each mm that the stop is longer: about -1 */
    size_t line_count;
    struct mensur_map_line *lines; /**< owned */
    size_t band_count;
    struct mensur_map_band *bands;          /**< owned */
    double common_low[MENSUR_MAP_COLUMNS];  /**< m of neck: every wish is met; NaN nowhere */
    double common_high[MENSUR_MAP_COLUMNS]; /**< m */
    size_t point_count;
    struct mensur_map_point *points; /**< owned: those named, then the shop's in its order */
    size_t beyond;                   /**< of the family, outside the edges */
    size_t crowded;  /**< of the family, and not drawn: where one is drawn, or the map is full */
    size_t others;   /**< of other families */
    size_t unplaced; /**< without a stop or a neck */
    struct mensur_assumptions assumed;
    struct mensur_facts warnings;
    struct mensur_facts remarks; /**< where intuition fails */
};

/** One player on instruments, side by side. */
struct mensur_reaching {
    char *player;
    struct mensur_pupil_size *sizes; /**< owned: of each instrument, where it is asked over the
                                        sizes of a family; else NULL */
    double upper_arm, forearm, hand; /**< m */
    double longest;                  /**< m: upper arm and forearm stretched out */
    double rest_side, rest_forward;  /**< m: where the lower end of the body rests */
    double yaw;                      /**< rad, to the left of straight ahead */
    double span;                     /**< m, index tip to little finger's tip; NaN unknown */
    size_t count;
    size_t reference;                  /**< the instrument that the others are compared with: the
                                            first whose elbow is known, else the first */
    struct mensur_reach *instruments;  /**< owned */
    struct mensur_assumptions assumed; /**< of the player */
    struct mensur_facts warnings;      /**< about the player */
    struct mensur_facts remarks;       /**< what differs first */
    struct mensur_facts basis;         /**< where the parts that were not measured come from */
};

/** A step of a working that is about all instruments of an answer. */
#define MENSUR_WORKING_ALL ((size_t)-1)

/** One step of the working of an answer; owns its texts, none of which is NULL. */
struct mensur_working_line {
    size_t instrument; /**< which of the answer's instruments it is about, from 0 */
    char *about;   /**< what part of the answer it belongs to: "kestrel"; "" where there is one */
    char *what;    /**< "string length" */
    char *formula; /**< "L = ...", or a symbol alone where it is no step but a value taken */
    char *with_numbers; /**< the right side of the formula with the numbers in it; "" of a value */
    char *result;       /**< with its unit: "361.93 mm" */
    char *source;       /**< where formula or value come from */
};

/** Formula by formula how an answer came about, in the order of reasoning. */
struct mensur_working {
    size_t count;
    size_t room;
    struct mensur_working_line *lines; /**< owned */
};

/** The most habits of a shop that an answer obeys. */
#define MENSUR_HABITS_MOST 8

/** A habit of the shop that an answer obeys, as it stands in settings.csv. */
struct mensur_habit {
    const char *name;  /**< "a4" */
    const char *value; /**< "442" */
};

/** What is told of each instrument; the library's own. */
struct mensur_view;

/** What stands above the answers of one command. */
struct mensur_heading {
    const char *command;        /**< "lengths" ... */
    const char *shop;           /**< "demonstration", or the folder as named */
    double a4;                  /**< Hz */
    const char *fifths;         /**< "pure" or "equal" */
    const char *steps;          /**< "equal", "pythagorean" or "just" */
    const char *const *sources; /**< ends with NULL */
    size_t habit_count;
    const struct mensur_habit *habits; /**< of the shop, that differ from the program's own */
    const char *title;                 /**< the shop's heading; NULL: none */
    const struct mensur_texts *owners; /**< heads of the owner's columns; NULL: none */
    const struct mensur_view *view; /**< what is told of each instrument; the library's own; NULL:
                                       the command tells none after the other */
};

#endif
