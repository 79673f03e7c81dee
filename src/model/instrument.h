/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An instrument as read from instruments.csv, a family, a tuning and a player. */
#ifndef MENSUR_INSTRUMENT_H
#define MENSUR_INSTRUMENT_H

#include "field.h"
#include "note.h"
#include "texts.h"

/** The most strings a tuning may have. */
#define MENSUR_STRINGS_MAX 16
/** The most positions a family may list. */
#define MENSUR_POSITIONS_MAX 24
/** Room for the name of a position, its end mark included. */
#define MENSUR_POSITION_ROOM 24

/** A tuning: its open strings in the order of the file, the lowest first. */
struct mensur_tuning {
    char *name;
    size_t count; /**< 1 to MENSUR_STRINGS_MAX */
    struct mensur_note notes[MENSUR_STRINGS_MAX];
};

/* Reads notes, the lowest first, with blanks, commas or semicolons between them ("C3 G3 D4 A4"), as
 * a tuning's; its name is left alone. MENSUR_OK; MENSUR_DATA, with what is wrong in the fault,
 * which may be NULL. */
enum mensur_status mensur_tuning_read(const char *text, struct mensur_fault *fault,
                                      struct mensur_tuning *out);

/* Tells whether a text that is no tuning's name may be meant as notes: it begins with one. */
bool mensur_tuning_is_written(const char *text);

/** The cells of the columns that are the owner's own, in the order of their heads. */
struct mensur_owners {
    char *cells; /**< their texts behind each other, each with its end mark; NULL: none */
    size_t size; /**< bytes of them all */
};

/** An instrument or a model; owns its texts, NULL where a cell was empty. */
struct mensur_instrument {
    char *name;
    char *family; /**< name of a family; NULL: none, and no usual values */
    char *tuning; /**< name of a tuning, or its notes written out; NULL: the one that bears the
                       family's name */
    char *set;    /**< name of a set of strings; NULL: none */
    char *note;
    const struct mensur_named_size *size; /**< borrowed from the stock: whose body, stop and neck
                                               it has where it gives none; NULL: none */
    bool built;                           /**< it exists; false: a plan or a model */
    double a4;                /**< Hz: the pitch that it is tuned to; 0: the question's */
    struct mensur_tuning own; /**< the tuning, where it is written out or is that of the set, whose
                                   name, borrowed from the stock, is then the tuning's; count 0:
                                   none, it is looked up by its name */
    long line;                /**< of instruments.csv, from 1; 0 where it was not read from there */
    struct mensur_owners owners;
    struct mensur_quantity measure[MENSUR_FIELD_COUNT]; /**< SI; NaN where not given */
    /** What is added to a value that is assumed, where it is asked how sure an answer is; borrowed,
     * by field, in the unit of a family's spread; NULL: nothing. */
    const double *assumed_off;
    /** It as the file has it, where this is it with changes; borrowed; NULL: this is as it is. */
    const struct mensur_instrument *was;
    unsigned long long proposed; /**< bit 1 << field: that measurement was asked to be another */
};

/* Makes an empty instrument: no texts, every measurement unknown; what the memory held is not
 * freed. */
void mensur_instrument_init(struct mensur_instrument *instrument);

/* Copies an instrument and its texts; the copy is the caller's to clear. MENSUR_MEMORY. */
enum mensur_status mensur_instrument_copy(const struct mensur_instrument *from,
                                          struct mensur_instrument *to);

/* Frees what an instrument owns and leaves it empty. */
void mensur_instrument_clear(struct mensur_instrument *instrument);

/* Reads "yes" or "no", in any mix of capitals; false where the word is another. */
bool mensur_built_read(const char *word, bool *built);

/** How an instrument is held. */
enum mensur_held { MENSUR_CHIN, MENSUR_KNEE, MENSUR_STANDING };

/* Its word in families.csv and in answers: "chin"; static. */
const char *mensur_held_word(enum mensur_held held);

/** A position of the left hand; semitones. */
struct mensur_hand {
    char name[MENSUR_POSITION_ROOM]; /**< "half", "1", "2-3", "1 extended" ... */
    double first;                    /**< first finger, or thumb, above the open string; > 0 */
    double frame;                    /**< from there to the last finger; > 0 */
};

/** A row of positions.csv: a position, and the list that it stands in, which families name. */
struct mensur_list_position {
    char *list;
    char *name;
    double first, frame; /**< as in struct mensur_hand */
    char *source;
};

/** A family: how it is held, and the usual value of each measurement that an instrument omits. */
struct mensur_family {
    char *name;
    enum mensur_held held;
    double frets;               /**< tied round the neck, one a semitone, 1 to 24; NaN: none */
    double frame_semitones;     /**< first to fourth finger, not extended, semitones, > 0 */
    char *positions_as_written; /**< the list's name in positions.csv, or the counts */
    size_t position_count;      /**< up to MENSUR_POSITIONS_MAX */
    struct mensur_hand positions[MENSUR_POSITIONS_MAX];
    double usual[MENSUR_FIELD_COUNT];  /**< SI, at the reference stop, which is that of the
                                          stop; NaN where nothing is usual */
    double spread[MENSUR_FIELD_COUNT]; /**< standard uncertainty of that, in the same unit; of
                                          the bridge that of bridge less projection, of
                                          board_length and afterlength in parts of themselves;
                                          NaN: not known */
    char *like;                        /**< whose values and sizes it shares, where it has none
                                          of its own; NULL: none */
    double neck_semitones;             /**< above the open string, where the thumb in the heel
                                          stands; NaN: the neck goes with the stop */
    double board_share;                /**< board_length / string length; NaN: 5/6 */
    double afterlength_share;          /**< afterlength / string length; NaN: 1/6 */
    char *small_family;                /**< whose usual values small sizes take; NULL: none */
    double small_to;                   /**< m; up to this stop; NaN without small_family */
    double own_from;                   /**< m, more; from this stop on they are its own */
    double clearance_high_offset;      /**< m; highest string's clearance less the mean */
    double clearance_low_offset;       /**< m; lowest string's clearance less the mean */
    char *source;
};

/** A size that instruments of a family are made in; SI, NaN where it is not known. */
struct mensur_named_size {
    char *name;   /**< "violin 1/2" */
    char *family; /**< name of a family */
    char *tuning; /**< name of a tuning; NULL: the one that bears the family's name */
    double body, stop, neck, string_length, width_upper, width_middle, width_lower, rib;
    double age_low, age_high;         /**< years at which teachers give it to pupils */
    double stature_low, stature_high; /**< the same, statures */
    char *source;
};

/** A player; lengths in m, NaN where not given. */
struct mensur_player {
    char *name;
    char *note;
    double age; /**< years; NaN: an adult */
    struct mensur_quantity stature, upper_arm, forearm, hand, span, rest_side, rest_forward;
    struct mensur_quantity yaw; /**< rad, to the left of straight ahead */
};

#endif
