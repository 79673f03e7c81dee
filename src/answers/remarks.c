/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One function a remark; each stays silent where there is nothing worth saying. A player notices
 * about a millimetre of string and two percent of tension (common practice, no source), so less
 * than that is not remarked on. */
#include "remarks.h"

#include <math.h>
#include <string.h>

#include "body_air.h"
#include "fingers.h"
#include "named_place.h"

static const double notable_length_m = 0.001;
static const double notable_tension = 0.02;

/* More force on the belly than this share needs the caution (ours). */
static const double much_force = 1.1;

struct pair {
    const struct mensur_profile *first;
    const struct mensur_profile *other;
    bool changed;
    const char *names[MENSUR_FACT_NAMES]; /* of the other and the first; NULL as changed */
};

typedef void remark(const struct pair *pair, struct mensur_facts *remarks);

static bool is_notable(double difference_m) {
    return fabs(difference_m) >= notable_length_m;
}

/* The other's length less the first's. */
#define APART(pair, member) ((pair)->other->lengths.member - (pair)->first->lengths.member)

/* The body says one thing, the string another. */
static void remark_body(const struct pair *pair, struct mensur_facts *remarks) {
    double body = APART(pair, body);
    double string = APART(pair, string_length);
    if (is_notable(body) && is_notable(string) && (body < 0.0) != (string < 0.0)) {
        mensur_facts_add(remarks, MENSUR_FACT_BODY_AGAINST_STRING, pair->names,
                         MENSUR_NUMBERS(body, string));
    }
}

/* The same back, and the hand elsewhere. */
static void remark_reach(const struct pair *pair, struct mensur_facts *remarks) {
    double body = APART(pair, body_straight);
    double reach = APART(pair, left_reach);
    if (!isnan(body) && is_notable(reach) && !is_notable(body) && !pair->changed) {
        mensur_facts_add(remarks, MENSUR_FACT_REACH_SAME_BODY, pair->names, MENSUR_NUMBERS(reach));
    }
}

/* A longer string with the hand nearer, or the other way about. */
static void remark_reach_against_string(const struct pair *pair, struct mensur_facts *remarks) {
    double string = APART(pair, string_length);
    double reach = APART(pair, left_reach);
    if (is_notable(string) && is_notable(reach) && (string < 0.0) != (reach < 0.0)) {
        mensur_facts_add(remarks, MENSUR_FACT_REACH_AGAINST_STRING, pair->names,
                         MENSUR_NUMBERS(string, reach));
    }
}

static void remark_bow(const struct pair *pair, struct mensur_facts *remarks) {
    double bow = APART(pair, bow_reach);
    double left = APART(pair, left_reach);
    if (is_notable(bow) && is_notable(left)) {
        mensur_facts_add(remarks, MENSUR_FACT_BOTH_REACHES, pair->names, MENSUR_NUMBERS(left, bow));
    }
}

static void remark_fingers(const struct pair *pair, struct mensur_facts *remarks) {
    double first = pair->first->lengths.string_length;
    double other = pair->other->lengths.string_length;
    double semitones = NAN;
    /* From the other to the first is meant. NOLINTBEGIN(readability-suspicious-call-argument) */
    if (is_notable(other - first) && !mensur_of_two_families(pair->first, pair->other) &&
        mensur_same_frame_apart(other, first, &semitones) == MENSUR_OK) {
        /* NOLINTEND(readability-suspicious-call-argument) */
        mensur_facts_add(remarks, MENSUR_FACT_FINGERS_APART, pair->names,
                         MENSUR_NUMBERS(other / first, fabs(semitones), other - first));
    }
}

static const struct mensur_position *position_1(const struct mensur_profile *profile) {
    for (size_t i = 0; i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, "1") == 0) {
            return &profile->positions[i];
        }
    }
    return NULL;
}

/* The position on the one in which the hand spans what it spans in position 1 on the other, where
 * it spans less. */
static void remark_frames(const struct pair *pair, struct mensur_facts *remarks) {
    const struct mensur_position *other = position_1(pair->other), *first = position_1(pair->first);
    if (other == NULL || first == NULL || !is_notable(other->frame - first->frame)) {
        return;
    }
    bool narrower = other->frame < first->frame;
    const struct mensur_profile *wide = narrower ? pair->first : pair->other;
    const struct mensur_position *of = narrower ? other : first, *alike = &wide->positions[0];
    for (size_t i = 1; i < wide->position_count; i++) {
        const struct mensur_position *position = &wide->positions[i];
        if (fabs(position->frame - of->frame) < fabs(alike->frame - of->frame)) {
            alike = position;
        }
    }
    if (!is_notable(alike->frame - of->frame)) {
        mensur_facts_add(remarks, MENSUR_FACT_FRAMES_ALIKE,
                         MENSUR_NAMES(pair->names[0], pair->names[1], alike->name),
                         MENSUR_NUMBERS(narrower ? 1.0 : -1.0, of->frame));
    }
}

static void remark_body_note(const struct pair *pair, struct mensur_facts *remarks) {
    double first = pair->first->lengths.body_at_semitones;
    double other = pair->other->lengths.body_at_semitones;
    if (fabs(other - first) >= 0.1) {
        mensur_facts_add(remarks, MENSUR_FACT_BODY_NOTES, pair->names,
                         MENSUR_NUMBERS(other, first));
    }
}

static void remark_heel(const struct pair *pair, struct mensur_facts *remarks) {
    const char *held = pair->other->held;
    if (pair->changed) {
        heel_moves(&pair->first->lengths, &pair->other->lengths,
                   held != NULL && strcmp(held, "chin") != 0, remarks);
    }
}

static bool same_set(const struct pair *pair) {
    return pair->first->set != NULL && pair->other->set != NULL &&
           strcmp(pair->first->set, pair->other->set) == 0;
}

/* Whether the strings are as many and tuned alike. */
static bool same_pitch(const struct pair *pair) {
    if (pair->first->string_count != pair->other->string_count) {
        return false;
    }
    for (size_t i = 0; i < pair->first->string_count; i++) {
        double one = pair->first->strings[i].frequency, other = pair->other->strings[i].frequency;
        if (one < other || one > other) {
            return false;
        }
    }
    return true;
}

static void remark_tension(const struct pair *pair, struct mensur_facts *remarks) {
    double ratio = pair->other->total_tension / pair->first->total_tension;
    double string = APART(pair, string_length);
    if (!(fabs(ratio - 1.0) >= notable_tension) ||
        pair->first->string_count != pair->other->string_count ||
        mensur_of_two_families(pair->first, pair->other)) {
        return;
    }
    enum mensur_fact_kind kind = MENSUR_FACT_TENSIONS;
    if (same_set(pair) && same_pitch(pair)) {
        kind = MENSUR_FACT_SAME_STRINGS_TENSION;
    } else if (is_notable(string) && (string > 0.0) != (ratio > 1.0)) {
        kind = MENSUR_FACT_TENSION_AGAINST_STRING;
    }
    mensur_facts_add(remarks, kind, pair->names, MENSUR_NUMBERS(ratio, string));
}

static void remark_belly(const struct pair *pair, struct mensur_facts *remarks) {
    double ratio = pair->other->total_force_on_belly / pair->first->total_force_on_belly;
    if (fabs(ratio - 1.0) >= notable_tension && !mensur_of_two_families(pair->first, pair->other)) {
        mensur_facts_add(remarks, MENSUR_FACT_BELLY_FORCES, pair->names,
                         MENSUR_NUMBERS(ratio, ratio - much_force));
    }
}

static void remark_air(const struct pair *pair, struct mensur_facts *remarks) {
    body_air_tell(pair->first, pair->other, pair->changed, pair->names, remarks);
}

/* Once of each instrument, though a first one is held against several. */
static void remark_made_for(const struct mensur_profile *profile, const char *name,
                            struct mensur_facts *remarks) {
    double length = profile->lengths.string_length;
    for (size_t i = 0; name != NULL && i < remarks->count; i++) {
        const struct mensur_fact *fact = &remarks->items[i];
        if (fact->kind == MENSUR_FACT_OUTSIDE_MADE_FOR && strcmp(fact->name[0], name) == 0) {
            return;
        }
    }
    if (length < profile->made_for_low || length > profile->made_for_high) {
        mensur_facts_add(remarks, MENSUR_FACT_OUTSIDE_MADE_FOR, MENSUR_NAMES(name),
                         MENSUR_NUMBERS(profile->made_for_low, profile->made_for_high, length,
                                        length < profile->made_for_low ? -1.0 : 1.0,
                                        mensur_ends_known(!isnan(profile->made_for_low),
                                                          !isnan(profile->made_for_high))));
    }
}

static void remark_ranges(const struct pair *pair, struct mensur_facts *remarks) {
    if (!pair->changed) {
        remark_made_for(pair->first, pair->names[1], remarks);
    } else if (same_set(pair) && (!same_pitch(pair) || !is_notable(APART(pair, string_length)))) {
        return; /* the length stays, or its strings are meant for another pitch */
    }
    remark_made_for(pair->other, pair->names[0], remarks);
}

enum mensur_status mensur_remark_fingers(const struct mensur_profile *first,
                                         struct mensur_profile *other) {
    struct pair pair = {first, other, false, {other->instrument, first->instrument}};
    remark_fingers(&pair, &other->remarks);
    remark_frames(&pair, &other->remarks);
    remark_body_note(&pair, &other->remarks);
    return other->remarks.status;
}

/* The teacher's lines about one instrument. */
void remarks_alone(struct mensur_profile *profile) {
    const struct mensur_lengths *lengths = &profile->lengths;
    mensur_facts_add(&profile->remarks, MENSUR_FACT_SPACING, NULL,
                     MENSUR_NUMBERS(lengths->string_length));
    if (*lengths->body_note.low != '\0') {
        const struct mensur_named_place *at = &lengths->body_note;
        mensur_facts_add(
            &profile->remarks, MENSUR_FACT_BODY_NOTE,
            MENSUR_NAMES(at->low, at->open, *at->high != '\0' ? at->high : NULL),
            MENSUR_NUMBERS(lengths->body_at_semitones, *at->high != '\0' ? 1.0 : -1.0));
    }
}

void remarks_add(const struct mensur_profile *first, const struct mensur_profile *other,
                 bool changed, struct mensur_facts *remarks) {
    static remark *const all[] = {remark_body,   remark_reach,   remark_reach_against_string,
                                  remark_bow,    remark_fingers, remark_body_note,
                                  remark_heel,   remark_tension, remark_belly,
                                  remark_ranges, remark_air};
    struct pair pair = {first,
                        other,
                        changed,
                        {changed ? NULL : other->instrument, changed ? NULL : first->instrument}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        all[i](&pair, remarks);
    }
}
