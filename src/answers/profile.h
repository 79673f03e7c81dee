/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a profile, for the questions that build one. */
#ifndef MENSUR_PROFILE_H
#define MENSUR_PROFILE_H

#include "loads.h"
#include "playing.h"
#include "setup.h"
#include "string_model.h"

/* Profile of an instrument that has been made ready. It is made in its place: after a failure it
 * holds nothing to clear, but may be changed. */
enum mensur_status profile_make(const struct mensur_stock *stock, const struct setup *setup,
                                const struct mensur_terms *terms, unsigned parts,
                                struct mensur_fault *fault, struct mensur_profile *profile);

/* The strings of a tuning made ready, in its order; all unknown without a set. */
void profile_models(const struct mensur_stock *stock, const struct setup *setup,
                    enum mensur_fifths fifths, struct string_model *models);

/* Pitch of the tuning's string i, Hz. */
double profile_frequency(const struct setup *setup, const struct mensur_terms *terms, size_t i);

/* The tension that a percentage is taken of: that of the liked instrument's string of the same note
 * (NULL: none is liked) where it is known, else the present one's; N. */
double profile_base_tension(const struct mensur_string_figures *present,
                            const struct mensur_profile *like);

/* Figures of one string on the instrument, the i-th of its tuning; feel figures too. */
void string_figures(const struct setup *setup, const struct string_model *model,
                    const struct mensur_terms *terms, size_t i, struct mensur_string_figures *out);

/* What strings do to belly and neck: N and N m; NaN where a string or a place across is unknown. */
struct profile_loads {
    double treble_foot, bass_foot, neck_moment;
};
struct profile_loads profile_loads(const struct setup *setup,
                                   const struct mensur_string_figures *strings, size_t count,
                                   double total_tension);

/* The bridge and the strings as those loads are computed from them. */
size_t profile_loaded(const struct setup *setup, const struct mensur_string_figures *strings,
                      size_t count, struct mensur_loaded_bridge *bridge,
                      struct mensur_loaded_string *loaded);

/* How it is bowed: as the terms say, else as is usual. m/s, unitless, m from the bridge. */
double playing_bow_speed(const struct mensur_terms *terms);
double playing_friction(const struct mensur_terms *terms);
double playing_bow_distance(const struct mensur_terms *terms, double length);

/* Notes what of that is as is usual, on a string of a length in m. */
void assume_playing(const struct mensur_terms *terms, double length,
                    struct mensur_assumptions *assumed);

/* The points of the side view, for those who draw it. */
void profile_side(const struct setup *setup, struct mensur_side_points *out);

/* Every length of the instrument as it stands, into a profile that has its string length. */
void profile_measures(const struct setup *setup, struct mensur_profile *profile);

/* Where each string crosses bridge and nut, into a side view that is filled in. */
void profile_crossings(const struct setup *setup, const struct mensur_lengths *lengths,
                       struct mensur_side_points *out);

/* Across, from the middle toward the highest, of string i of count between two outer ones, m. */
double profile_across(double spacing, size_t i, size_t count);

/* Clearance of the i-th string over the board at x from the nut, m; NaN without geometry. */
double string_clearance(const struct setup *setup, size_t i, double x);

/* The string about to be stopped, as it is sharpened most: held at nut and bridge, as stiff as it
 * can be, the finger's end stiff too; and least: free to slide there, the finger a hard edge. */
struct mensur_stopping string_held(const struct setup *setup,
                                   const struct mensur_string_figures *figures);
struct mensur_stopping string_free(const struct setup *setup,
                                   const struct mensur_string_figures *figures);

/* What shares the stretch of a stopped string that slides at nut and bridge, m. */
double string_stretch_length(const struct setup *setup);

/* Fills in the strings, the totals and the range that they are made for; without remarks neither
 * warnings nor what was assumed. */
void profile_strings(const struct mensur_stock *stock, const struct setup *setup,
                     const struct mensur_terms *terms, bool remarks,
                     struct mensur_profile *profile);

/* The same with strings of their own, one for each note of the tuning, rather than the
 * instrument's; without remarks. */
void profile_strings_of(const struct mensur_stock *stock, const struct setup *setup,
                        const struct mensur_terms *terms,
                        const struct mensur_string_spec *const *strings,
                        struct mensur_profile *profile);

/* Fills in places and positions. */
void profile_fingers(const struct setup *setup, const struct mensur_terms *terms,
                     struct mensur_profile *profile);

/* Ratio of a step above the open string, as the terms say. */
enum mensur_status terms_step_ratio(const struct mensur_terms *terms, int semitones, double *ratio);

/* Remarks on the frets that stand for two notes where it was not asked for one. */
void fret_remarks(const struct mensur_terms *terms, struct mensur_profile *profile);

/* Fills in the true places of the strings whose stiffness is known. */
enum mensur_status profile_true_places(const struct mensur_stock *stock, const struct setup *setup,
                                       const struct mensur_terms *terms,
                                       struct mensur_profile *profile);

#endif
