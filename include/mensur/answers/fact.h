/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * What an answer has to say beside its figures, as facts: which one, of whom, and the numbers in
 * it. Present holds a sentence for each kind and is alone in knowing words and shown units.
 */
#ifndef MENSUR_FACT_H
#define MENSUR_FACT_H

#include <stddef.h>

#include "status.h"

/** The most names and numbers that a fact holds. */
#define MENSUR_FACT_NAMES 3
#define MENSUR_FACT_NUMBERS 6

/** The kinds of facts. Behind each, in this order: its names; its numbers (SI; m unless said). A
 * direction is a number of which only the sign counts. */
enum mensur_fact_kind {
    /* warnings about an instrument; the first name is the instrument's */
    MENSUR_FACT_CLEARANCE_SMALL,          /**< ; clearance */
    MENSUR_FACT_BRIDGE_AGAINST_CLEARANCE, /**< ; bridge as given, as the clearances want it */
    MENSUR_FACT_SLIP,                     /**< the cell as it stands, what would mend it */
    MENSUR_FACT_LENGTH_AGAINST_GEOMETRY,  /**< ; measured, by geometry */
    MENSUR_FACT_NO_FAMILY,
    MENSUR_FACT_PITCH_UNUSUAL,  /**< no name; Hz of A4 */
    MENSUR_FACT_OWN_PITCH,      /**< ; Hz of its A4, of the question's */
    MENSUR_FACT_LENGTH_ALONE,   /**< stop, neck or set-up are unknown */
    MENSUR_FACT_SET_LACKS_NOTE, /**< set, note */
    MENSUR_FACT_SLACK_UNKNOWN,  /**< string: slack density without modulus and core */
    MENSUR_FACT_WOULD_BREAK,    /**< string, note */
    MENSUR_FACT_NEAR_BREAKING,  /**< string, note */
    /* what is to be said of a change first */
    MENSUR_FACT_STRINGS_BREAK,     /**< notes; several: direction */
    MENSUR_FACT_STRINGS_HOLD,      /**< note of the string that is nearest to breaking; semitones */
    MENSUR_FACT_STRENGTHS_UNKNOWN, /**< notes */
    MENSUR_FACT_STRING_TUNED_TO,   /**< note before, note now; N before, N now, their ratio */
    MENSUR_FACT_SLOPE_HELD, /**< instrument; projection before and now, clearance now less that
                                 before, measured bridge, bridge that would keep the clearance */
    MENSUR_FACT_SLOPE_HELD_CLEARANCE, /**< instrument; projection before and now */
    MENSUR_FACT_NEW_NECK,             /**< instrument */
    MENSUR_FACT_NECK_RESET,           /**< instrument */
    /* remarks on another instrument against a first one. Names: the other, the first; NULL where
     * they are one instrument as changed and as it is. Numbers: the other's less the first's. */
    MENSUR_FACT_BODY_AGAINST_STRING,    /**< ; body, string length */
    MENSUR_FACT_REACH_SAME_BODY,        /**< ; left reach */
    MENSUR_FACT_REACH_AGAINST_STRING,   /**< ; string length, left reach */
    MENSUR_FACT_BOTH_REACHES,           /**< ; left reach, bow reach */
    MENSUR_FACT_FRET_TAKEN,             /**< fret, which note, option; place, of the other note */
    MENSUR_FACT_FINGERS_APART,          /**< ; ratio of the lengths, semitones apart, direction */
    MENSUR_FACT_FRAMES_ALIKE,           /**< , , position on the wider; direction, frame */
    MENSUR_FACT_BODY_NOTES,             /**< ; semitones of the other, of the first */
    MENSUR_FACT_SAME_STRINGS_TENSION,   /**< ; ratio of the tensions */
    MENSUR_FACT_TENSION_AGAINST_STRING, /**< ; ratio of the tensions, string length */
    MENSUR_FACT_TENSIONS,               /**< ; ratio of the tensions */
    MENSUR_FACT_BELLY_FORCES,           /**< ; ratio of the forces, over a tenth more: direction */
    MENSUR_FACT_OUTSIDE_MADE_FOR,       /**< the instrument; least and greatest length, its length,
                                             longer: direction, which ends are known */
    MENSUR_FACT_AIR_APART,      /**< ; semitones, Hz of the other's, semitones of that above its
                                     lowest string, usual as on a violin (1), a viola or a
                                     cello (2), not known (3) */
    MENSUR_FACT_AIR_ALIKE,      /**< ; the same */
    MENSUR_FACT_AIR_UNMEASURED, /**< the instrument, its measurements that are missing */
    MENSUR_FACT_AIR_OF_ANOTHER_MAKE, /**< the instrument; flat back (1), cut shoulders (2) */
    MENSUR_FACT_AIR_TOO_UNLIKE,      /**< no name; two families (1), too far apart in size (2) */
    /* remarks on the fingers of one instrument */
    MENSUR_FACT_SPACING,   /**< no name; string length */
    MENSUR_FACT_BODY_NOTE, /**< note at it or below it, of the open string, above it where it lies
                                between the two (else NULL); semitones, between: direction */
    /* a player on instruments; ± is a standard uncertainty, NaN where there is none */
    MENSUR_FACT_ELBOWS_APART, /**< player, other, first; rad apart, its ±, the first's, its ± */
    MENSUR_FACT_ELBOWS_ALIKE, /**< player, other, first; rad of the other's, its ± */
    MENSUR_FACT_ELBOW,        /**< instrument, player; rad, its ±: NaN where nearly stretched */
    MENSUR_FACT_ELBOW_STRETCHED, /**< instrument, player; shoulder to wrist, arm's length */
    MENSUR_FACT_ELBOW_FOLDED,    /**< instrument, player */
    MENSUR_FACT_NO_ARM_MODEL,    /**< instrument, family; string length, frame in position 1 */
    MENSUR_FACT_NO_LEFT_REACH,   /**< instrument; the same, NaN where not known */
    MENSUR_FACT_REACHES_APART,   /**< first, other; left, bow: 0 where nobody would notice */
    MENSUR_FACT_FRAMES_APART,    /**< other, first; frame in position 1 */
    MENSUR_FACT_FRAME_TOO_WIDE,  /**< instrument, positions; span, widest frame */
    MENSUR_FACT_FRAME_WITHIN,    /**< instrument; span */
    MENSUR_FACT_FRAMES_WITHIN,   /**< ; span */
    MENSUR_FACT_CHILD_FITS,
    /* the sizes of a family for a pupil */
    MENSUR_FACT_SIZE_ELBOW, /**< size, the next or NULL; rad, its ±, the next's: NaN stretched */
    MENSUR_FACT_SIZE_OVER,  /**< the smallest size; rad: NaN stretched, its ± */
    MENSUR_FACT_SIZES_OF_ADULT,  /**< smallest, largest; rad on each: NaN folded, NaN stretched */
    MENSUR_FACT_SIZE_BY_STATURE, /**< size, another or NULL, family; stature */
    MENSUR_FACT_SIZE_TOO_SHORT,  /**< the smallest size; stature, from which it is usual */
    MENSUR_FACT_SIZE_LARGEST,    /**< size */
    MENSUR_FACT_SIZES_OPEN,      /**< sizes; the arm was measured: direction */
    MENSUR_FACT_SIZE_WHEN, /**< size; stature, or upper arm and forearm, years: NaN not told, the
                                stature: direction */
    MENSUR_FACT_SIZE_AGE_UNKNOWN,
    MENSUR_FACT_SIZE_RULE,
    /* where the parts of an arm that were not measured come from, in hundredths */
    MENSUR_FACT_ARM_MEASURED,
    MENSUR_FACT_ARM_OF_ADULTS,   /**< ; upper arm, forearm, hand of the stature */
    MENSUR_FACT_ARM_OF_CHILDREN, /**< ; the same, years */
    MENSUR_FACT_ARM_OF_SEGMENTS, /**< ; upper arm, forearm, hand of both together */
    MENSUR_FACT_REST_IS_OURS,    /**< ; wrist before the nut of the hand, least and greatest */
    MENSUR_FACT_WRIST_IS_OURS,   /**< ; the same */
    /* the reason of a decision; the last number is a direction: the stop is decided on */
    MENSUR_FACT_PLACE_MADE_FOR,   /**< ; place, string length, least and greatest length that the
                                       strings are made for, in the middle: direction */
    MENSUR_FACT_PLACE_BY_LIKE,    /**< ; place, string length */
    MENSUR_FACT_PLACE_BY_LENGTH,  /**< ; place, string length */
    MENSUR_FACT_PLACE_BY_PRESENT, /**< ; place, string length */
    MENSUR_FACT_WISHES_CONFLICT,  /**< wish, wish; most of the first, least of the second, gap */
    MENSUR_FACT_WISH_UNREACHABLE, /**< wish; least and greatest place */
    MENSUR_FACT_WISH_UNMOVED,     /**< wish; left reach, whatever the stop */
    MENSUR_FACT_WISHES_EXCLUDE,
    MENSUR_FACT_LEFT_WITHIN, /**< ; least and greatest place that meet all, which of them something
                                  binds (1 both, 2 the least, 3 the greatest, 4 none), several
                                  wishes: direction */
    MENSUR_FACT_LEFT_ASIDE,  /**< ; place, to the middle of the made-for range: direction (else of
                                  the length wish) */
    MENSUR_FACT_LEFT_MADE_FOR, /**< ; place, string length */
    MENSUR_FACT_LEFT_BUILT,    /**< nothing is wished of a built instrument */
    MENSUR_FACT_LEFT_USUAL,    /**< ; place, strings: direction; no made-for range */
    MENSUR_FACT_LEFT_NOTHING,  /**< neither made-for range nor usual place are known */
    MENSUR_FACT_PLACE_INSIDE,  /**< ; place, string length */
    MENSUR_FACT_PLACE_USUAL,   /**< ; place, strings: direction */
    MENSUR_FACT_MADE_FOR_IS,   /**< ; least and greatest length, least and greatest place, which are
                                    known as above */
    MENSUR_FACT_USUAL_IS,      /**< ; usual place, stop per 2 neck */
    MENSUR_FACT_OUTSIDE_RANGE, /**< ; string length, least and greatest that its strings are made
                                    for, longer: direction, which are known as above, the
                                    range was just told: direction */
    /* what a decision changes, the recommended less the present */
    MENSUR_FACT_LEFT_MOVES,     /**< ; left reach */
    MENSUR_FACT_BOW_MOVES,      /**< ; bow reach */
    MENSUR_FACT_BOW_ROOM_MOVES, /**< ; bow room recommended, present, the board was measured:
                                   direction, the present one is proposed: direction */
    MENSUR_FACT_FINGERS_MOVE,   /**< ; ratio of the lengths */
    MENSUR_FACT_NOTE_MOVES,    /**< ; semitones recommended, present, that is proposed: direction */
    MENSUR_FACT_HEEL_MOVES,    /**< note with the thumb in the heel now, then, open string; low
                                  family: direction */
    MENSUR_FACT_TENSION_MOVES, /**< ; ratio of the tensions, of the forces on the belly */
    /* how sure a decision is */
    MENSUR_FACT_LIKELY, /**< measurement to be made better, or NULL; likelihood in percent; over 95
                             (1), over 80 (2), less (3); one wish (1) or more (2); left as it is:
                             direction */
    MENSUR_FACT_ENDS,   /**< ; low end, its standard uncertainty, high end, its own, which of them
                             something binds as above, all wishes are met: direction */
    MENSUR_FACT_FINE_ENOUGH,     /**< */
    MENSUR_FACT_COARSE_CONFLICT, /**< measurement to be made better */
    /* the aim of new strings; each origin with the notes that it holds for, NULL where all */
    MENSUR_FACT_AIM,
    MENSUR_FACT_AIM_WISHED,    /**< notes */
    MENSUR_FACT_AIM_LIKED,     /**< notes, instrument */
    MENSUR_FACT_AIM_IMPEDANCE, /**< notes, instrument */
    MENSUR_FACT_AIM_EACH,      /**< notes, set: in the middle of each string's own range */
    MENSUR_FACT_AIM_MADE_FOR,  /**< notes, set; middle of the range common to all */
    MENSUR_FACT_AIM_FAMILY,    /**< notes, set; the string length it is made for, a low A4 */
    MENSUR_FACT_AIM_PROFILE, /**< notes; part of the upper neighbour's tension (1: equal), less 1 */
    MENSUR_FACT_AIM_NONE,    /**< notes */
    MENSUR_FACT_WISH_SLIP,   /**< note, wish as it should be written, its unit; N of the wish's ends
                              */
    MENSUR_FACT_WISH_FAR,    /**< note; N of the least and the greatest tension of its strings */
    MENSUR_FACT_LOW_PITCH,   /**< set made for it, NULL: none; A4, tension as a ratio to 440 Hz */
    MENSUR_FACT_NONE_NEARER,
    MENSUR_FACT_NONE_LIGHTER_NEARER, /**< ; share of the limit on the belly that is meant */
    /* why a string was chosen */
    MENSUR_FACT_CHOSEN,          /**< ; tension in N */
    MENSUR_FACT_CHOSEN_AS_WISH,  /**< ; tension in N; as the wish (1), liked string (2), aim (3) */
    MENSUR_FACT_CHOSEN_OFF_WISH, /**< ; tension in N, as above, ratio to it */
    MENSUR_FACT_RANGE_UNKNOWN,
    MENSUR_FACT_RANGE_FROM, /**< ; least length, outside it: direction */
    MENSUR_FACT_RANGE_UPTO, /**< ; greatest length, outside it: direction */
    MENSUR_FACT_RANGE,      /**< ; least and greatest length, outside them: direction */
    MENSUR_FACT_STRENGTH_UNKNOWN,
    MENSUR_FACT_MARGIN, /**< ; semitones, a lower bound: direction, by the high end of the strength
                         */
    MENSUR_FACT_KEPT,
    /* what a set or a string of a note misses */
    MENSUR_FACT_MISS_CORE,           /**< ; gut (1), steel (2), synthetic (3) */
    MENSUR_FACT_MISS_LENGTH,         /**< note, NULL: all; least and greatest length, which of
                                          them are known */
    MENSUR_FACT_MISS_MARGIN,         /**< note; semitones */
    MENSUR_FACT_MISS_MARGIN_UNKNOWN, /**< note */
    MENSUR_FACT_MISS_LIGHT,          /**< note; N under what is wished */
    MENSUR_FACT_MISS_HEAVY,          /**< note; N over it */
    MENSUR_FACT_MISS_FORCE,          /**< ; N on the belly over the limit */
    MENSUR_FACT_LENGTH_COUNTS,       /**< ; N in all for a millimetre of string, as a ratio to 1 */
    /* which wish excludes what */
    MENSUR_FACT_CATALOGUE_LACKS,       /**< note */
    MENSUR_FACT_SET_OFFERS_NONE,       /**< note, set */
    MENSUR_FACT_ONLY_ONE_UNFIT,        /**< note */
    MENSUR_FACT_NONE_FIT,              /**< note; strings */
    MENSUR_FACT_SOME_FIT,              /**< note; that fit, strings, more than one: direction */
    MENSUR_FACT_UNFIT_TENSION_UNKNOWN, /**< ; how many, more than one: direction */
    MENSUR_FACT_UNFIT_CORE,            /**< ; the same */
    MENSUR_FACT_UNFIT_LENGTH,          /**< ; the same, string length */
    MENSUR_FACT_UNFIT_MARGIN,          /**< ; the same, semitones */
    MENSUR_FACT_UNFIT_LIGHT,           /**< ; the same, N */
    MENSUR_FACT_UNFIT_HEAVY,           /**< ; the same, N */
    MENSUR_FACT_WOULD_FIT_CORE,        /**< ; how many */
    MENSUR_FACT_WOULD_FIT_LENGTH,      /**< ; how many */
    MENSUR_FACT_WOULD_FIT_MARGIN,      /**< ; how many */
    MENSUR_FACT_WOULD_FIT_TENSION,     /**< ; how many */
    MENSUR_FACT_FORCE_OVER_LIMIT,      /**< ; N of the lightest, over the limit, the limit */
    /* cautions; no name */
    MENSUR_FACT_CAUTION_BREAKING, /**< a margin under 2 semitones, or unknown */
    MENSUR_FACT_CAUTION_BELLY,    /**< ; ratio of the forces on the belly; of what is built, over
                                        a tenth: direction */
    MENSUR_FACT_CAUTION_RESTORER, /**< a built instrument is to be cut */
    MENSUR_FACT_CAUTION_REACH,    /**< an arm was computed */
    MENSUR_FACT_KIND_COUNT
};

/** One fact; owns its names. */
struct mensur_fact {
    enum mensur_fact_kind kind;
    char *name[MENSUR_FACT_NAMES];
    double number[MENSUR_FACT_NUMBERS];
};

/** A growing list of facts that it owns. */
struct mensur_facts {
    struct mensur_fact *items;
    size_t count;
    size_t room;
    enum mensur_status status; /**< MENSUR_MEMORY once a fact found no room; none is added then */
};

#endif
