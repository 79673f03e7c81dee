/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * @file
 * The questions a maker, player or teacher asks. Each is answered by one function;
 * the answer's memory is the caller's to clear.
 *
 * Every function here returns MENSUR_OK, or MENSUR_NO_ANSWER (no physical answer), MENSUR_USE
 * (the question cannot be asked so) or MENSUR_MEMORY, with the reason in fault. `out` may hold any
 * memory; on success it is the caller's to clear.
 */
#ifndef MENSUR_ASK_H
#define MENSUR_ASK_H

#include "result_use.h"
#include "solve.h"
#include "stock.h"
#include "terms.h"
#include "texts.h"
#include "view.h"

/* The usual terms: A4 = 440 Hz, pure fifths, equal steps, what is held not asked. */
void mensur_terms_init(struct mensur_terms *terms);

/* Everything, or some parts (of enum mensur_parts), about one instrument; the lengths always. */
enum mensur_status mensur_ask_profile(const struct mensur_stock *stock,
                                      const struct mensur_instrument *instrument,
                                      const struct mensur_terms *terms, unsigned parts,
                                      struct mensur_fault *fault, struct mensur_profile *out);

/* The same with a solver, for who asks about many: the other questions make one of their own. */
enum mensur_status mensur_ask_profile_with(struct mensur_solver *solver,
                                           const struct mensur_stock *stock,
                                           const struct mensur_instrument *instrument,
                                           const struct mensur_terms *terms, unsigned parts,
                                           struct mensur_fault *fault, struct mensur_profile *out);

/* Instruments, two or more, side by side, differences against the first, and remarks where
 * intuition fails. */
enum mensur_status mensur_ask_compare(const struct mensur_stock *stock,
                                      const struct mensur_instrument *const *instruments,
                                      size_t count, const struct mensur_terms *terms,
                                      struct mensur_fault *fault, struct mensur_comparison *out);

/** What of an instrument is changed. */
enum mensur_change_of {
    MENSUR_CHANGE_MEASURE, /**< a measurement, set or moved by so much */
    MENSUR_CHANGE_STRINGS, /**< the set of its strings */
    MENSUR_CHANGE_TUNING,  /**< its tuning: by name, or the notes written out */
    MENSUR_CHANGE_FAMILY,
    MENSUR_CHANGE_SIZE,  /**< the size that it is built in */
    MENSUR_CHANGE_BUILT, /**< whether it exists */
    MENSUR_CHANGE_A4,    /**< the pitch that it is tuned to */
    MENSUR_CHANGE_COUNT
};

/** One change to an instrument. */
struct mensur_change {
    enum mensur_change_of of;
    enum mensur_field field; /**< of a measurement */
    bool relative; /**< value is added to what the instrument has (or is assumed to have) */
    struct mensur_quantity value; /**< of a measurement, m; of A4, Hz */
    const char *text;             /**< name of a set, tuning or family, or notes; borrowed */
    bool built;
};

/* An instrument as it is against the same instrument as changed; a measured string length keeps
 * its difference from the geometry, the board stays, and terms->hold says what follows the rest. */
enum mensur_status mensur_ask_change(const struct mensur_stock *stock,
                                     const struct mensur_instrument *instrument,
                                     const struct mensur_change *changes, size_t count,
                                     const struct mensur_terms *terms, struct mensur_fault *fault,
                                     struct mensur_comparison *out);

/* The instrument that mensur_ask_change shows as changed.
 *
 * What the change holds (terms->hold, the board, the excess of a measured string length) is written
 * into the copy as if it had been measured, so that its figures are those of the change. A value
 * that was assumed before, and would be assumed otherwise of the changed instrument, is no longer
 * reported as assumed: ask mensur_ask_change for that. */
enum mensur_status mensur_instrument_changed(const struct mensur_stock *stock,
                                             const struct mensur_instrument *instrument,
                                             const struct mensur_change *changes, size_t count,
                                             const struct mensur_terms *terms,
                                             struct mensur_fault *fault,
                                             struct mensur_instrument *out);

/* An instrument that has no answer as it is, with what of the changes it lacks (a family, a size, a
 * measurement that is set) as if the file had it; the caller's to clear. MENSUR_NO_ANSWER where it
 * still has none, and where it has one as it is and so lacks nothing: then `fault` stays. */
enum mensur_status mensur_instrument_completed(const struct mensur_stock *stock,
                                               const struct mensur_instrument *instrument,
                                               const struct mensur_change *changes, size_t count,
                                               const struct mensur_terms *terms,
                                               struct mensur_fault *fault,
                                               struct mensur_instrument *out);

/** All that is wished for. */
struct mensur_wishes {
    const struct mensur_instrument *like; /**< NULL: none */
    const struct mensur_wish *items;
    size_t count;
};

/* Reads a wish as it is typed: `368..376` or `368-376`, `..560`, `2:2.9..2:3.1`, `A4=50..58`,
 * `95%..105%`; `372` is a range too, give or take what is usual of the wish.
 * MENSUR_OK or MENSUR_USE. */
enum mensur_status mensur_wish_read(enum mensur_wish_kind kind, const char *text,
                                    struct mensur_fault *fault, struct mensur_wish *out);

/* Reads a range of any figure, as that of a wish, in SI; an open end is NaN. One value gives 1 mm,
 * 0.2 semitones, 1 degree or 3 % either way. MENSUR_OK or MENSUR_USE. */
enum mensur_status mensur_range_read(enum mensur_kind kind, const char *text, double *low,
                                     double *high);

/* The neck that a stop wants, or the stop that a neck wants (for_stop). The instrument needs both,
 * and at least one wish (like counts). MENSUR_OK also where the wishes cannot all be met:
 * out->can_meet_all says so. */
enum mensur_status mensur_ask_decision(const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_wishes *wishes, bool for_stop,
                                       const struct mensur_terms *terms, struct mensur_fault *fault,
                                       struct mensur_decision *out);

/** What stands on the packet of a string that no catalogue holds. */
struct mensur_packet {
    struct mensur_note note;
    double tension; /**< N, > 0 */
    double length;  /**< m, > 0: the string length that the tension holds for */
    double a4;      /**< Hz, > 0: the A4 that it holds for; NaN: that of the terms */
};

/* Reads a packet as it is typed, NOTE=TENSION@LENGTH or NOTE=TENSION@LENGTH@A4: `A4=55@370`,
 * `C3=4.9 kgf@14.5 in`, `A4=55@370@442`. MENSUR_OK or MENSUR_USE. */
enum mensur_status mensur_packet_read(const char *text, struct mensur_fault *fault,
                                      struct mensur_packet *out);

/* Strings for an instrument out of the stock's: those recommended and their runners-up, none
 * overlooked; the complete sets; the gauges to order. No choices where a note has no string at all.
 *
 * A string fits within its made-for range of length (a side that it does not state is open), the
 * margin to breaking, the wished tensions and the core materials that are looked for: the one asked
 * for, all (mix, or one set to choose from), else those of the present strings, with a steel top
 * string beside synthetic ones. One whose margin is not known, or is a lower bound under the wished
 * one, is looked at only for a note that has no other. A string is exchanged only for one that
 * comes nearer to its aim by 2 % of it; where the aim was not asked for, one that serves on this
 * length stays.
 *
 * Where all strings are to be exchanged and no mixture was asked for, the complete set is
 * recommended that meets every wish, has those materials and costs least; else, one string for each
 * note, all together within the force on the belly, those that make
 *
 *     cost = sum over notes of log(T/t)^2  +  sum over neighbours of (log(T'/T) - log(s))^2
 *
 * least, sets of one cost in the order of the catalogue, lowest string first. T is the tension of a
 * string here, t the tension wished for it: the middle of its wish where both ends are given; else
 * that of the liked instrument's string of that note there, or what gives its impedance here,
 * T = Z 2 L f; else, where no wish has a middle and nothing is liked, that of the present string in
 * the middle of its set's made-for range; without strings, that of the family's synthetic set, in
 * proportion to the length. A profile shares their sum out anew. A note without t has no part in
 * the first sum. s is the wished step to the next string, t'/t; where one of the two has no t, the
 * step of the liked or of the present strings in the middle of their range, else 1. Both sums weigh
 * the same: a weight of our own, without source. Each term is rounded to a whole multiple of 2^-40,
 * so that the sums are exact and ties are ties; a term counts 65536 at most.
 *
 * Where no strings meet every wish (out->met is false) the nearest are chosen: for each string the
 * square of what it misses, as a log of tension, is part of the cost; of a note's strings those
 * alone are looked at that are nearest to hold and to be made for the length. */
enum mensur_status mensur_ask_restring(const struct mensur_stock *stock,
                                       const struct mensur_instrument *instrument,
                                       const struct mensur_restring_wishes *wishes,
                                       const struct mensur_terms *terms, struct mensur_fault *fault,
                                       struct mensur_restringing *out);

/* The left arm and the bow arm of a player on instruments, and the hand's frame against its span.
 *
 * An arm that is not measured follows from the stature, and is reported as assumed. Every elbow has
 * its standard uncertainty, and so has its difference from that on the instrument compared with. */
enum mensur_status mensur_ask_reach(const struct mensur_stock *stock,
                                    const struct mensur_instrument *const *instruments,
                                    size_t count, const struct mensur_player *player,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_reaching *out);

/* The left arm of a pupil on every size of a family: the largest size on which the elbow stands
 * under 105 degrees is the size (a rule of ours for children; from 16 years arms are compared), the
 * next one with the stature at which it will be; of what is not held under the chin by stature. The
 * sizes have the usual values. MENSUR_USE also where the family has no sizes for pupils. */
enum mensur_status mensur_ask_sizes(const struct mensur_stock *stock, const char *family,
                                    const struct mensur_player *player,
                                    const struct mensur_terms *terms, struct mensur_fault *fault,
                                    struct mensur_reaching *out);

/* Adds to the other's remarks how its fingers stand against the first's; both were asked for.
 * MENSUR_OK or MENSUR_MEMORY. */
enum mensur_status mensur_remark_fingers(const struct mensur_profile *first,
                                         struct mensur_profile *other);

#endif
