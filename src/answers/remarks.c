/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One function a remark; each stays silent where there is nothing worth saying. A player notices
 * about a millimetre of string and two percent of pull (common practice, no source), so less than
 * that is not remarked on. */
#include "remarks.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fingers.h"
#include "words.h"

static const double notable_length_m = 0.001;
static const double notable_pull = 0.02;

struct pair {
    const struct mensur_profile *first;
    const struct mensur_profile *other;
    const char *first_name; /* as it is called in a sentence */
    const char *other_name;
    bool changed;
    bool inches;
};

typedef enum mensur_status remark(const struct pair *pair, struct mensur_texts *remarks);

static double difference(double other, double first) {
    return other - first;
}

static bool is_notable(double difference_m) {
    return fabs(difference_m) >= notable_length_m;
}

/* The body says one thing, the string another. */
static enum mensur_status remark_body(const struct pair *pair, struct mensur_texts *remarks) {
    double body = difference(pair->other->lengths.body, pair->first->lengths.body);
    double string =
        difference(pair->other->lengths.string_length, pair->first->lengths.string_length);
    struct words a;
    struct words b;
    if (!is_notable(body) || !is_notable(string) || (body < 0.0) == (string < 0.0)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks,
                            "%s has the %s back (by %s), yet the %s string (by %s): the string "
                            "follows stop and neck, not the back",
                            pair->other_name, body < 0.0 ? "shorter" : "longer",
                            words_length(fabs(body), pair->inches, &a),
                            string < 0.0 ? "shorter" : "longer",
                            words_length(fabs(string), pair->inches, &b));
}

/* The same back, and the hand elsewhere. */
static enum mensur_status remark_reach(const struct pair *pair, struct mensur_texts *remarks) {
    double body =
        difference(pair->other->lengths.body_straight, pair->first->lengths.body_straight);
    double reach = difference(pair->other->lengths.left_reach, pair->first->lengths.left_reach);
    struct words a;
    if (isnan(body) || !is_notable(reach) || is_notable(body) || pair->changed) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks,
                            "The backs are the same, yet on %s the left hand is %s %s the body's "
                            "lower end",
                            pair->other_name, words_length(fabs(reach), pair->inches, &a),
                            reach > 0.0 ? "farther from" : "nearer to");
}

/* A longer string with the hand nearer, or the other way about. */
static enum mensur_status remark_reach_against_string(const struct pair *pair,
                                                      struct mensur_texts *remarks) {
    double string =
        difference(pair->other->lengths.string_length, pair->first->lengths.string_length);
    double reach = difference(pair->other->lengths.left_reach, pair->first->lengths.left_reach);
    struct words a;
    struct words b;
    if (!is_notable(string) || !is_notable(reach) || (string < 0.0) == (reach < 0.0)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(
        remarks, "%s has the %s string (by %s), yet the left hand is %s (by %s)", pair->other_name,
        string > 0.0 ? "longer" : "shorter", words_length(fabs(string), pair->inches, &a),
        reach > 0.0 ? "farther out" : "nearer", words_length(fabs(reach), pair->inches, &b));
}

static enum mensur_status remark_bow(const struct pair *pair, struct mensur_texts *remarks) {
    double bow = difference(pair->other->lengths.bow_reach, pair->first->lengths.bow_reach);
    double left = difference(pair->other->lengths.left_reach, pair->first->lengths.left_reach);
    struct words a;
    struct words b;
    if (!is_notable(bow) || !is_notable(left)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(
        remarks, "On %s the left hand reaches %s %s, the bow arm %s %s", pair->other_name,
        words_length(fabs(left), pair->inches, &a), left > 0.0 ? "farther" : "less far",
        words_length(fabs(bow), pair->inches, &b), bow > 0.0 ? "farther" : "less far");
}

/* The teacher's one line. */
static enum mensur_status remark_fingers(const struct pair *pair, struct mensur_texts *remarks) {
    double first = pair->first->lengths.string_length;
    double other = pair->other->lengths.string_length;
    double apart = NAN;
    struct words a;
    struct words b;
    /* From the other to the first is meant. NOLINTNEXTLINE(readability-suspicious-call-argument) */
    if (!is_notable(other - first) || mensur_same_frame_apart(other, first, &apart) != MENSUR_OK) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks,
                            "On %s all fingers stand %s %s, because every spacing goes as the "
                            "string length; moved %s semitones up, the hand on %s spans just what "
                            "it spans on %s",
                            pair->other_name, words_percent(other / first, &a),
                            other > first ? "wider" : "closer",
                            words_number(fabs(apart), fabs(apart) < 0.1 ? 2 : 1, &b),
                            other > first ? pair->other_name : pair->first_name,
                            other > first ? pair->first_name : pair->other_name);
}

static enum mensur_status remark_body_note(const struct pair *pair, struct mensur_texts *remarks) {
    double first = pair->first->lengths.body_at_semitones;
    double other = pair->other->lengths.body_at_semitones;
    struct words a;
    struct words b;
    if (!(fabs(other - first) >= 0.1)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks,
                            "On %s the hand meets the body %s semitones above the open string, on "
                            "%s %s",
                            pair->other_name, words_number(other, 1, &a), pair->first_name,
                            words_number(first, 1, &b));
}

static bool same_set(const struct pair *pair) {
    return pair->first->set != NULL && pair->other->set != NULL &&
           strcmp(pair->first->set, pair->other->set) == 0;
}

static enum mensur_status remark_pull(const struct pair *pair, struct mensur_texts *remarks) {
    double ratio = pair->other->total_tension / pair->first->total_tension;
    double string = pair->other->lengths.string_length - pair->first->lengths.string_length;
    struct words a;
    if (!(fabs(ratio - 1.0) >= notable_pull) ||
        pair->first->string_count != pair->other->string_count) {
        return MENSUR_OK;
    }
    const char *more = ratio > 1.0 ? "more" : "less";
    if (same_set(pair)) {
        return mensur_texts_add(remarks,
                                "The same strings pull %s %s on %s: the pull goes as the square of "
                                "the length",
                                words_percent(ratio, &a), more, pair->other_name);
    }
    if (is_notable(string) && (string > 0.0) != (ratio > 1.0)) {
        return mensur_texts_add(remarks,
                                "%s has the %s string, yet its strings pull %s %s in all: they are "
                                "%s ones",
                                pair->other_name, string > 0.0 ? "longer" : "shorter",
                                words_percent(ratio, &a), more,
                                ratio > 1.0 ? "heavier" : "lighter");
    }
    return mensur_texts_add(remarks, "The strings of %s pull %s %s in all", pair->other_name,
                            words_percent(ratio, &a), more);
}

static enum mensur_status remark_belly(const struct pair *pair, struct mensur_texts *remarks) {
    double ratio = pair->other->total_force_on_belly / pair->first->total_force_on_belly;
    struct words a;
    if (!(fabs(ratio - 1.0) >= notable_pull)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks, "The strings press the belly of %s %s %s%s", pair->other_name,
                            words_percent(ratio, &a), ratio > 1.0 ? "harder" : "less hard",
                            ratio > 1.1 ? "; see the caution" : "");
}

static enum mensur_status remark_made_for(const struct mensur_profile *profile, const char *name,
                                          bool inches, struct mensur_texts *remarks) {
    double length = profile->lengths.string_length;
    struct words a;
    struct words b;
    struct words c;
    if (!(length < profile->made_for_low) && !(length > profile->made_for_high)) {
        return MENSUR_OK;
    }
    return mensur_texts_add(remarks,
                            "The strings of %s are made for %s to %s; on its %s they are %s than "
                            "their maker meant",
                            name, words_length_bare(profile->made_for_low, inches, &a),
                            words_length(profile->made_for_high, inches, &b),
                            words_length(length, inches, &c),
                            length < profile->made_for_low ? "slacker" : "tighter");
}

static enum mensur_status remark_ranges(const struct pair *pair, struct mensur_texts *remarks) {
    enum mensur_status status = MENSUR_OK;
    if (!pair->changed) {
        status = remark_made_for(pair->first, pair->first_name, pair->inches, remarks);
    }
    return status == MENSUR_OK
               ? remark_made_for(pair->other, pair->other_name, pair->inches, remarks)
               : status;
}

enum mensur_status mensur_remark_fingers(const struct mensur_profile *first, bool inches,
                                         struct mensur_profile *other) {
    struct pair pair = {.first = first,
                        .other = other,
                        .first_name = first->instrument,
                        .other_name = other->instrument,
                        .inches = inches};
    enum mensur_status status = remark_fingers(&pair, &other->remarks);
    return status == MENSUR_OK ? remark_body_note(&pair, &other->remarks) : status;
}

/* The place of the highest note in a tuning that has one. */
static size_t highest(const struct mensur_tuning *tuning) {
    size_t found = 0;
    for (size_t i = 1; i < tuning->count; i++) {
        if (tuning->notes[i].semitones_from_a4 > tuning->notes[found].semitones_from_a4) {
            found = i;
        }
    }
    return found;
}

/* "F#5": the note so many keys above A4. */
static void name_note(int semitones_from_a4, char *room, size_t size) {
    static const char *const names[] = {"C",  "C#", "D",  "Eb", "E",  "F",
                                        "F#", "G",  "G#", "A",  "Bb", "B"};
    int from_c0 = semitones_from_a4 + 57;
    int octave = (from_c0 >= 0 ? from_c0 : from_c0 - 11) / 12;
    snprintf(room, size, "%s%d", names[from_c0 - 12 * octave], octave);
}

/* The teacher's lines about one instrument. */
enum mensur_status remarks_alone(const struct mensur_tuning *tuning, bool inches,
                                 struct mensur_profile *profile) {
    double semitones = profile->lengths.body_at_semitones;
    struct words a;
    enum mensur_status status =
        mensur_texts_add(&profile->remarks,
                         "Every spacing is a fixed share of the string length, here %s: a string "
                         "longer by 1 %% sets all fingers 1 %% wider",
                         words_length(profile->lengths.string_length, inches, &a));
    if (status != MENSUR_OK || isnan(semitones) || tuning == NULL || tuning->count == 0) {
        return status;
    }
    const struct mensur_note *open = &tuning->notes[highest(tuning)];
    char note[16];
    name_note(open->semitones_from_a4 + (int)lround(fmin(semitones, 120.0)), note, sizeof note);
    return mensur_texts_add(&profile->remarks,
                            "The hand meets the body %s semitones above the open string, near %s "
                            "on the %s string",
                            words_number(semitones, 1, &a), note, open->name);
}

enum mensur_status remarks_add(const struct mensur_profile *first,
                               const struct mensur_profile *other, bool changed, bool inches,
                               struct mensur_texts *remarks) {
    static remark *const all[] = {remark_body, remark_reach,   remark_reach_against_string,
                                  remark_bow,  remark_fingers, remark_body_note,
                                  remark_pull, remark_belly,   remark_ranges};
    struct pair pair = {.first = first,
                        .other = other,
                        .first_name = changed ? "the instrument as it is" : first->instrument,
                        .other_name = changed ? "the changed instrument" : other->instrument,
                        .changed = changed,
                        .inches = inches};
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < sizeof all / sizeof all[0] && status == MENSUR_OK; i++) {
        status = all[i](&pair, remarks);
    }
    return status;
}
