/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The complete sets of the catalogue, as people buy them, and which wishes they do not meet. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"
#include "string_family.h"

/* The range of length that all of a set's strings are made for, where all of them have one. */
static bool common_range(const struct restringer *restringer,
                         const struct restring_candidate *strings, double *low, double *high) {
    *low = *high = NAN;
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (i == 0) {
            *low = strings[0].spec->made_for_low.value;
            *high = strings[0].spec->made_for_high.value;
        }
        double off = fabs(strings[i].spec->made_for_low.value - *low) +
                     fabs(strings[i].spec->made_for_high.value - *high);
        if (!(off <= 0.0)) {
            return false;
        }
    }
    return true; /* what is not known is not that of the first either */
}

static void note_misses(const struct restringer *restringer,
                        const struct restring_candidate *string, size_t i, bool tell_length,
                        struct mensur_facts *misses) {
    const struct restring_aim *aim = &restringer->aims[i];
    const char *const *note = MENSUR_NAMES(restringer->setup->tuning->notes[i].name);
    const struct mensur_string_spec *spec = string->spec;
    if (tell_length && (string->faults & 1u << RESTRING_LENGTH) != 0) {
        double low = spec->made_for_low.value, high = spec->made_for_high.value;
        mensur_facts_add(misses, MENSUR_FACT_MISS_LENGTH, note,
                         MENSUR_NUMBERS(low, high, mensur_ends_known(!isnan(low), !isnan(high))));
    }
    if ((string->faults & 1u << RESTRING_MARGIN) != 0) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_MARGIN, note, MENSUR_NUMBERS(string->margin));
    } else if (string->margin_unknown) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_MARGIN_UNKNOWN, note, NULL);
    }
    if ((string->faults & 1u << RESTRING_LIGHT) != 0) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_LIGHT, note,
                         MENSUR_NUMBERS(aim->low - string->tension));
    }
    if ((string->faults & 1u << RESTRING_HEAVY) != 0) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_HEAVY, note,
                         MENSUR_NUMBERS(string->tension - aim->high));
    }
}

/* By how much the strings together are over the limit on the belly, N; 0 or less: they are not. */
static double force_over(const struct restringer *restringer,
                         const struct restring_candidate *strings) {
    double force = 0.0;
    for (size_t i = 0; i < restringer->note_count; i++) {
        force += strings[i].tension * restringer->setup->geometry.down_factor;
    }
    return isnan(restringer->wishes->most_belly_force)
               ? 0.0
               : force - restringer->wishes->most_belly_force;
}

void restring_misses(const struct restringer *restringer, const struct restring_candidate *strings,
                     bool of_set, struct mensur_facts *misses) {
    double low, high;
    bool common = common_range(restringer, strings, &low, &high);
    bool length = false, core = false;
    for (size_t i = 0; i < restringer->note_count; i++) {
        length = length || (strings[i].faults & 1u << RESTRING_LENGTH) != 0;
        if (of_set && !core && (strings[i].faults & 1u << RESTRING_OTHER_CORE) != 0) {
            core = true;
            mensur_facts_add(misses, MENSUR_FACT_MISS_CORE, NULL,
                             MENSUR_NUMBERS((double)mensur_core_of(strings[i].spec->material)));
        }
    }
    if (length && common) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_LENGTH, NULL,
                         MENSUR_NUMBERS(low, high, mensur_ends_known(!isnan(low), !isnan(high))));
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        note_misses(restringer, &strings[i], i, !common, misses);
    }
    double over = force_over(restringer, strings);
    if (over > 1e-9 * fabs(restringer->wishes->most_belly_force)) {
        mensur_facts_add(misses, MENSUR_FACT_MISS_FORCE, NULL, MENSUR_NUMBERS(over));
    }
}

/* A string of a set, on the way to its group. */
struct member {
    const char *set;
    size_t place; /* in the catalogue */
};

static int by_set(const void *a, const void *b) {
    const struct member *x = a;
    const struct member *y = b;
    int order = strcmp(x->set, y->set);
    return order != 0 ? order : (x->place > y->place) - (x->place < y->place);
}

static int by_rank(const void *a, const void *b) {
    const struct restring_whole *x = a;
    const struct restring_whole *y = b;
    if (x->rank != y->rank) {
        return x->rank < y->rank ? -1 : 1;
    }
    if (x->cost != y->cost) {
        return x->cost < y->cost ? -1 : 1;
    }
    return (x->first > y->first) - (x->first < y->first);
}

/* Whether these strings are one for each note, and no more; all with a known tension. */
static bool make_whole(const struct restringer *restringer, const struct member *members,
                       size_t count, struct restring_whole *out) {
    struct restring_candidate strings[MENSUR_STRINGS_MAX] = {{0}};
    bool core = false, unknown = false, misses = false;
    if (count != restringer->note_count) {
        return false;
    }
    *out = (struct restring_whole){.set = members[0].set, .first = members[0].place};
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < count; k++) {
            const struct mensur_string_spec *spec = &restringer->stock->strings[members[k].place];
            out->specs[i] = restring_is_for(restringer, i, &spec->note) ? spec : out->specs[i];
        }
        if (out->specs[i] == NULL) {
            return false;
        }
        restring_weigh(restringer, i, out->specs[i], false, &strings[i]);
        if (isnan(strings[i].tension)) {
            return false;
        }
        core = core || (strings[i].faults & 1u << RESTRING_OTHER_CORE) != 0;
        unknown = unknown || strings[i].margin_unknown;
        misses = misses || (strings[i].faults & ~(1u << RESTRING_OTHER_CORE)) != 0;
    }
    double over = force_over(restringer, strings);
    misses = misses || over > 0.0;
    out->cost = restring_cost_of(restringer, strings);
    if (over > 0.0) {
        out->cost += restring_term(log1p(over / restringer->wishes->most_belly_force));
    }
    out->rank = misses ? (core ? 5 : 4) : unknown ? (core ? 3 : 1) : core ? 2 : 0;
    return true;
}

/* Whether a set is one for the instrument's family, or the present one. */
static bool is_of_kind(const struct restringer *restringer, const struct mensur_string_spec *spec) {
    const struct mensur_family *family = restringer->setup->family;
    const char *now = restringer->setup->instrument->set;
    return (now != NULL && strcmp(now, spec->set) == 0) ||
           string_set_is_for_family(restringer->stock, family == NULL ? NULL : family->name, spec);
}

enum mensur_status restring_find_sets(const struct restringer *restringer,
                                      struct restring_whole **sets, size_t *count) {
    const struct mensur_stock *stock = restringer->stock;
    const char *from = restringer->wishes->from;
    struct member *members = calloc(stock->string_count + 1, sizeof *members);
    struct restring_whole *found = calloc(stock->string_count + 1, sizeof *found);
    size_t member_count = 0;
    *count = 0;
    if (members == NULL || found == NULL) {
        free(members);
        free(found);
        return MENSUR_MEMORY;
    }
    for (size_t k = 0; k < stock->string_count; k++) {
        const char *set = stock->strings[k].set;
        if (set != NULL &&
            (from != NULL ? strcmp(set, from) == 0 : is_of_kind(restringer, &stock->strings[k]))) {
            members[member_count++] = (struct member){set, k};
        }
    }
    qsort(members, member_count, sizeof *members, by_set);
    for (size_t k = 0, next; k < member_count; k = next) {
        for (next = k + 1; next < member_count && strcmp(members[next].set, members[k].set) == 0;
             next++) {
        }
        *count += make_whole(restringer, &members[k], next - k, &found[*count]);
    }
    qsort(found, *count, sizeof *found, by_rank);
    free(members);
    *sets = found;
    return MENSUR_OK;
}

void restring_tell_set(const struct restringer *restringer, const struct restring_whole *whole,
                       struct mensur_whole_set *out) {
    struct restring_candidate strings[MENSUR_STRINGS_MAX];
    double tensions[MENSUR_STRINGS_MAX];
    struct mensur_string_figures figures[MENSUR_STRINGS_MAX]; /* their tensions alone */
    const char *now = restringer->setup->instrument->set;
    *out = (struct mensur_whole_set){.set = whole->set,
                                     .largest_miss_percent = NAN,
                                     .present = now != NULL && strcmp(now, whole->set) == 0};
    for (size_t i = 0; i < restringer->note_count; i++) {
        restring_weigh(restringer, i, whole->specs[i], false, &strings[i]);
        figures[i].tension = tensions[i] = strings[i].tension;
        out->total_tension += tensions[i];
        out->total_force_on_belly += tensions[i] * restringer->setup->geometry.down_factor;
        double off = fabs(tensions[i] / restringer->aims[i].tension - 1.0);
        out->largest_miss_percent = fmax(out->largest_miss_percent, 100.0 * off);
    }
    struct profile_loads loads =
        profile_loads(restringer->setup, figures, restringer->note_count, out->total_tension);
    out->force_on_treble_foot = loads.treble_foot;
    out->force_on_bass_foot = loads.bass_foot;
    out->neck_moment = loads.neck_moment;
    out->off_aim = restring_off_aim(restringer, tensions);
    out->largest_step = restring_largest_step(restringer, tensions);
    restring_misses(restringer, strings, true, &out->misses);
}
