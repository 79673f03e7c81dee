/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said of new strings: what was aimed at, why this string, what keeps the others away. */
#include <math.h>
#include <string.h>

#include "number.h"
#include "restring.h"

/* Nearer to its aim than this a tension is called the wished one. */
static const double as_wished = 0.0005;

/* "C3, G3": the notes of an origin; empty where all notes have it. */
struct note_list {
    char text[MENSUR_STRINGS_MAX * (MENSUR_NOTE_ROOM + 2) + 8];
};

static size_t list_notes(const struct restringer *restringer, enum restring_origin origin,
                         struct note_list *list) {
    size_t count = 0;
    *list = (struct note_list){""};
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (restringer->aims[i].origin == origin) {
            strcat(list->text, count == 0 ? "" : ", ");
            strcat(list->text, restringer->setup->tuning->notes[i].name);
            count++;
        }
    }
    if (count == restringer->note_count) {
        *list->text = '\0';
    }
    return count;
}

static void add_origin(const struct restringer *restringer, enum restring_origin origin,
                       const char *notes, struct mensur_facts *reason) {
    const char *liked = restringer->like.instrument;
    const char *set = restringer->present->set;
    double middle = restring_middle(restringer->present);
    double grade = restring_grade(restringer);
    switch (origin) {
    case RESTRING_WISHED:
        mensur_facts_add(reason, MENSUR_FACT_AIM_WISHED, MENSUR_NAMES(notes), NULL);
        return;
    case RESTRING_LIKED:
        mensur_facts_add(reason,
                         restringer->wishes->same_impedance ? MENSUR_FACT_AIM_IMPEDANCE
                                                            : MENSUR_FACT_AIM_LIKED,
                         MENSUR_NAMES(notes, liked), NULL);
        return;
    case RESTRING_MADE_FOR:
        mensur_facts_add(reason, isnan(middle) ? MENSUR_FACT_AIM_EACH : MENSUR_FACT_AIM_MADE_FOR,
                         MENSUR_NAMES(notes, set), MENSUR_NUMBERS(middle));
        return;
    case RESTRING_FAMILY:
        mensur_facts_add(
            reason, MENSUR_FACT_AIM_FAMILY, MENSUR_NAMES(notes, restringer->family_set),
            MENSUR_NUMBERS(restringer->family_length,
                           restringer->low_set ? setup_a4(restringer->setup, restringer->terms)
                                               : NAN));
        return;
    case RESTRING_PROFILED:
        mensur_facts_add(reason, MENSUR_FACT_AIM_PROFILE, MENSUR_NAMES(notes),
                         MENSUR_NUMBERS(grade, grade - 1.0));
        return;
    case RESTRING_NO_AIM:
        break;
    }
    mensur_facts_add(reason, MENSUR_FACT_AIM_NONE, MENSUR_NAMES(notes), NULL);
}

/* The tensions of all strings for a note here, of any core and length; NaN without one. */
static void span_of(const struct restringer *restringer, size_t i, double *least, double *most) {
    const struct restring_offer *offer = &restringer->offers[i];
    *least = *most = NAN;
    for (size_t k = 0; k < offer->count; k++) {
        if (!offer->candidates[k].packet) {
            *least = fmin(*least, offer->candidates[k].tension);
            *most = fmax(*most, offer->candidates[k].tension);
        }
    }
}

/* A wish that no string of its note comes near: the unit that was meant, where that would do; else
 * what strings have. */
static void ask_about_wish(const struct restringer *restringer, size_t i,
                           struct mensur_facts *reason) {
    static const struct {
        const char *unit;
        double newtons;
    } units[] = {{"kg", 9.80665}, {"lb", 4.4482216152605}};
    const double far = 2.0; /* times as far as strings go is far off (ours) */
    const struct restring_aim *aim = &restringer->aims[i];
    const char *note = restringer->setup->tuning->notes[i].name;
    double least, most;
    span_of(restringer, i, &least, &most);
    bool light = aim->high * far<least, heavy = aim->low> most * far;
    for (size_t k = 0; light && k < sizeof units / sizeof units[0]; k++) {
        double low = aim->low * units[k].newtons, high = aim->high * units[k].newtons;
        if (high >= least && low <= most) {
            char range[2 * MENSUR_NUMBER_ROOM + 8];
            size_t used = mensur_number_print_significant(aim->low, 3, range);
            strcpy(range + used, "..");
            used += 2 + mensur_number_print_significant(aim->high, 3, range + used + 2);
            strcpy(range + used, units[k].unit);
            mensur_facts_add(reason, MENSUR_FACT_WISH_SLIP, MENSUR_NAMES(note, range),
                             MENSUR_NUMBERS(aim->low, aim->high));
            return;
        }
    }
    if (light || heavy) {
        mensur_facts_add(reason, MENSUR_FACT_WISH_FAR, MENSUR_NAMES(note),
                         MENSUR_NUMBERS(least, most));
    }
}

/* Modern strings at a low pitch, where nothing was asked for: they serve, with less tension. */
static void tell_low_pitch(const struct restringer *restringer,
                           const struct mensur_restringing *answer, struct mensur_facts *reason) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    const double a4 = setup_a4(restringer->setup, restringer->terms);
    const char *set = NULL;
    if (!restring_pitch_is_low(restringer) || !answer->leave || wishes->tension_count > 0 ||
        wishes->like != NULL || wishes->from != NULL || wishes->material != NULL ||
        restring_is_for_low_pitch(restringer->setup->instrument->set)) {
        return;
    }
    for (size_t i = 0; i < answer->set_count && set == NULL; i++) {
        const struct mensur_facts *misses = &answer->sets[i].misses;
        bool core_alone = misses->count == 0 ||
                          (misses->count == 1 && misses->items[0].kind == MENSUR_FACT_MISS_CORE);
        set = core_alone && restring_is_for_low_pitch(answer->sets[i].set) ? answer->sets[i].set
                                                                           : NULL;
    }
    mensur_facts_add(reason, MENSUR_FACT_LOW_PITCH, MENSUR_NAMES(set),
                     MENSUR_NUMBERS(a4, (a4 / 440.0) * (a4 / 440.0)));
}

void restring_reason(const struct restringer *restringer, const struct mensur_restringing *answer,
                     struct mensur_facts *reason) {
    struct note_list notes;
    mensur_facts_add(reason, MENSUR_FACT_AIM, NULL, NULL);
    for (int origin = 0; origin <= RESTRING_NO_AIM; origin++) {
        if (list_notes(restringer, (enum restring_origin)origin, &notes) > 0) {
            add_origin(restringer, (enum restring_origin)origin,
                       *notes.text == '\0' ? NULL : notes.text, reason);
        }
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        ask_about_wish(restringer, i, reason);
    }
    tell_low_pitch(restringer, answer, reason);
    if (answer->met && answer->force_slack > 0.0) {
        /* A part of the limit, rounded up to a tenth of a per cent. */
        double part =
            ceil(1000.0 * answer->force_slack / restringer->wishes->most_belly_force) / 1000.0;
        mensur_facts_add(reason, MENSUR_FACT_NONE_LIGHTER_NEARER, NULL, MENSUR_NUMBERS(1.0 - part));
    } else if (answer->met && !answer->whole && !answer->leave) {
        mensur_facts_add(reason, MENSUR_FACT_NONE_NEARER, NULL, NULL);
    }
}

static void why_tension(const struct restring_aim *aim, double tension, struct mensur_facts *why) {
    double ratio = tension / aim->tension;
    double origin = (double)aim->origin + 1.0;
    if (isnan(ratio)) {
        mensur_facts_add(why, MENSUR_FACT_CHOSEN, NULL, MENSUR_NUMBERS(tension));
    } else if (fabs(ratio - 1.0) < as_wished) {
        mensur_facts_add(why, MENSUR_FACT_CHOSEN_AS_WISH, NULL, MENSUR_NUMBERS(tension, origin));
    } else {
        mensur_facts_add(why, MENSUR_FACT_CHOSEN_OFF_WISH, NULL,
                         MENSUR_NUMBERS(tension, origin, ratio, ratio - 1.0));
    }
}

static void why_length(const struct mensur_string_figures *figures, struct mensur_facts *why) {
    double outside = figures->in_made_for_range == MENSUR_NO ? 1.0 : 0.0;
    double low = figures->made_for_low;
    double high = figures->made_for_high;
    if (figures->in_made_for_range == MENSUR_UNSURE) {
        mensur_facts_add(why, MENSUR_FACT_RANGE_UNKNOWN, NULL, NULL);
    } else if (isnan(high)) {
        mensur_facts_add(why, MENSUR_FACT_RANGE_FROM, NULL, MENSUR_NUMBERS(low, outside));
    } else if (isnan(low)) {
        mensur_facts_add(why, MENSUR_FACT_RANGE_UPTO, NULL, MENSUR_NUMBERS(high, outside));
    } else {
        mensur_facts_add(why, MENSUR_FACT_RANGE, NULL, MENSUR_NUMBERS(low, high, outside));
    }
}

void restring_why(const struct restring_aim *aim, const struct mensur_string_figures *figures,
                  bool kept, struct mensur_facts *why) {
    why_tension(aim, figures->tension, why);
    why_length(figures, why);
    if (isnan(figures->breaking_margin)) {
        mensur_facts_add(why, MENSUR_FACT_STRENGTH_UNKNOWN, NULL, NULL);
    } else {
        double bound = figures->breaking_margin_at_least == MENSUR_YES ? 1.0 : 0.0;
        mensur_facts_add(why, MENSUR_FACT_MARGIN, NULL,
                         MENSUR_NUMBERS(figures->breaking_margin, bound,
                                        bound > 0.0 ? NAN : figures->breaking_margin_high));
    }
    if (kept) {
        mensur_facts_add(why, MENSUR_FACT_KEPT, NULL, NULL);
    }
}

/* How many strings have a fault; nothing where none has. */
static void add_count(struct mensur_facts *excluded, enum mensur_fact_kind kind, size_t count,
                      double limit) {
    if (count > 0) {
        mensur_facts_add(excluded, kind, NULL,
                         MENSUR_NUMBERS((double)count, count > 1 ? 1.0 : 0.0, limit));
    }
}

/* How the strings of a note fared. */
struct tally {
    size_t fit;
    size_t first[RESTRING_FAULTS]; /* whose first fault it is */
    size_t only[RESTRING_FAULTS];  /* ... and that have no other */
    double least_margin;           /* of one that is too near breaking */
};

static struct tally tally_of(const struct restringer *restringer, size_t i) {
    const struct restring_offer *offer = &restringer->offers[i];
    struct tally tally = {.least_margin = NAN};
    for (size_t k = 0; k < offer->count; k++) {
        const struct restring_candidate *candidate = &offer->candidates[k];
        int f = 0;
        while (f < RESTRING_FAULTS && (candidate->faults & 1u << f) == 0) {
            f++;
        }
        if (f == RESTRING_FAULTS) {
            tally.fit++;
            continue;
        }
        tally.first[f]++;
        tally.only[f] += candidate->faults == 1u << f;
        if (f == RESTRING_MARGIN) {
            tally.least_margin = restring_least_margin(restringer, candidate->spec, i);
        }
    }
    return tally;
}

static void exclude_note(const struct restringer *restringer, size_t i,
                         struct mensur_facts *excluded) {
    static const enum mensur_fact_kind unfit[] = {
        MENSUR_FACT_UNFIT_TENSION_UNKNOWN, MENSUR_FACT_UNFIT_CORE,  MENSUR_FACT_UNFIT_LENGTH,
        MENSUR_FACT_UNFIT_MARGIN,          MENSUR_FACT_UNFIT_LIGHT, MENSUR_FACT_UNFIT_HEAVY};
    const size_t all = restringer->offers[i].count;
    const struct tally tally = tally_of(restringer, i);
    const struct restring_aim *aim = &restringer->aims[i];
    const char *const *names =
        MENSUR_NAMES(restringer->setup->tuning->notes[i].name, restringer->wishes->from);
    if (all == 0) {
        mensur_facts_add(
            excluded, names[1] == NULL ? MENSUR_FACT_CATALOGUE_LACKS : MENSUR_FACT_SET_OFFERS_NONE,
            names, NULL);
        return;
    }
    if (tally.fit == all) {
        return;
    }
    if (all == 1) {
        mensur_facts_add(excluded, MENSUR_FACT_ONLY_ONE_UNFIT, names, NULL);
    } else if (tally.fit == 0) {
        mensur_facts_add(excluded, MENSUR_FACT_NONE_FIT, names, MENSUR_NUMBERS((double)all));
    } else {
        mensur_facts_add(excluded, MENSUR_FACT_SOME_FIT, names,
                         MENSUR_NUMBERS((double)tally.fit, (double)all, tally.fit > 1 ? 1.0 : 0.0));
    }
    const double limits[] = {
        NAN, NAN, restringer->setup->string_length, tally.least_margin, aim->low, aim->high};
    for (int f = 0; f < RESTRING_FAULTS; f++) {
        add_count(excluded, unfit[f], tally.first[f], limits[f]);
    }
    if (tally.fit == 0) {
        add_count(excluded, MENSUR_FACT_WOULD_FIT_CORE, tally.only[RESTRING_OTHER_CORE], NAN);
        add_count(excluded, MENSUR_FACT_WOULD_FIT_LENGTH, tally.only[RESTRING_LENGTH], NAN);
        add_count(excluded, MENSUR_FACT_WOULD_FIT_MARGIN, tally.only[RESTRING_MARGIN], NAN);
        add_count(excluded, MENSUR_FACT_WOULD_FIT_TENSION,
                  tally.only[RESTRING_LIGHT] + tally.only[RESTRING_HEAVY], NAN);
    }
}

/* The least force on the belly that strings which fit have together, N; NaN where a note has none.
 */
static double least_force(const struct restringer *restringer) {
    double all = 0.0;
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_offer *offer = &restringer->offers[i];
        double least = NAN;
        for (size_t k = 0; k < offer->count; k++) {
            if (offer->candidates[k].faults == 0) {
                least = fmin(least, offer->candidates[k].tension *
                                        restringer->setup->geometry.down_factor);
            }
        }
        all += least;
    }
    return all;
}

void restring_excluded(const struct restringer *restringer, bool found,
                       struct mensur_facts *excluded) {
    double limit = restringer->wishes->most_belly_force;
    for (size_t i = 0; i < restringer->note_count; i++) {
        exclude_note(restringer, i, excluded);
    }
    if (!found) {
        double least = least_force(restringer);
        if (!isnan(limit) && !isnan(least)) {
            mensur_facts_add(excluded, MENSUR_FACT_FORCE_OVER_LIMIT, NULL,
                             MENSUR_NUMBERS(least, least - limit, limit));
        }
    }
}
