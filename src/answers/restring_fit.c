/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the string of each note is to have as its tension, and within which limits; which strings of
 * the catalogue, and which that are known by their packet, fit it, and what keeps the others away.
 *
 * On one length and pitch a string's wave impedance goes with its tension, Z = T/(2 L f), so that a
 * wish for an impedance is one for a tension. */
#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"
#include "restring.h"
#include "string_family.h"
#include "taut_string.h"

/* Common practice, no source. */
static const double usual_grade = 0.9; /* of the upper neighbour's tension */

double restring_middle(const struct mensur_profile *present) {
    return (present->made_for_low + present->made_for_high) / 2.0;
}

/* The tension of the present string in the middle of its set's range, else of its own; N. */
static double made_for_tension(const struct restringer *restringer,
                               const struct string_model *model, size_t i) {
    double length = restring_middle(restringer->present);
    if (model->spec == NULL) {
        return NAN;
    }
    if (isnan(length)) {
        length = (model->spec->made_for_low.value + model->spec->made_for_high.value) / 2.0;
    }
    return string_model_tension(model, length, restringer->frequencies[i]);
}

/* The tension that a string needs here to feel as the liked instrument's of its note; N. */
static double liked_tension(const struct restringer *restringer, size_t i) {
    const char *note = restringer->setup->tuning->notes[i].name;
    const struct mensur_profile *like = &restringer->like;
    size_t k = 0;
    while (k < like->string_count && strcmp(like->strings[k].note, note) != 0) {
        k++;
    }
    if (k == like->string_count) {
        return NAN;
    }
    return restringer->wishes->same_impedance
               ? like->strings[k].impedance * 2.0 * restringer->setup->string_length *
                     restringer->frequencies[i]
               : like->strings[k].tension;
}

static enum mensur_status take_wish(struct restringer *restringer, const struct mensur_wish *wish,
                                    struct mensur_fault *fault) {
    const char *name = restringer->setup->instrument->name;
    bool found = false;
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct restring_aim *aim = &restringer->aims[i];
        const char *note = restringer->setup->tuning->notes[i].name;
        if (wish->note[0] != '\0' && strcmp(wish->note, note) != 0) {
            continue;
        }
        found = true;
        double base = wish->percent ? profile_base_tension(&restringer->present->strings[i],
                                                           &restringer->like)
                                    : 1.0;
        if (isnan(base)) {
            mensur_fault_set(fault,
                             "%s: no percentage of the tension of %s can be wished for, because "
                             "its present string is not known",
                             name, note);
            return MENSUR_USE;
        }
        /* An open side, NaN, gives way. */
        aim->low = fmax(aim->low, wish->low * base);
        aim->high = fmin(aim->high, wish->high * base);
    }
    if (!found) {
        mensur_fault_set(fault, "%s: no string is tuned to %s", name, wish->note);
        return MENSUR_USE;
    }
    return MENSUR_OK;
}

static void aim_at(struct restring_aim *aim, double tension, enum restring_origin origin) {
    if (isnan(aim->tension) && isfinite(tension) && tension > 0.0) {
        aim->tension = tension;
        aim->origin = origin;
    }
}

bool restring_pitch_is_low(const struct restringer *restringer) {
    /* Hz; common practice, no source */
    return setup_a4(restringer->setup, restringer->terms) < 430.0;
}

bool restring_is_for_low_pitch(const char *set) {
    return set != NULL && strstr(set, "baroque") != NULL;
}

/* The first string of the catalogue whose set is called by the family and this word; NULL: none. */
static const struct mensur_string_spec *set_called(const struct restringer *restringer,
                                                   const char *word) {
    const struct mensur_stock *stock = restringer->stock;
    char name[80];
    size_t length =
        (size_t)snprintf(name, sizeof name, "%.60s %s", restringer->setup->family->name, word);
    for (size_t k = 0; k < stock->string_count; k++) {
        const char *set = stock->strings[k].set;
        if (set != NULL && strncmp(set, name, length) == 0 &&
            (set[length] == '\0' || set[length] == ' ')) {
            return &stock->strings[k];
        }
    }
    return NULL;
}

/* The family's set, whose tensions are the aims of an instrument without strings, and whose cores
 * are looked for: a synthetic one; at a low pitch, where no other material is asked for, of gut;
 * gut too where the family has no other. */
static void find_family_set(struct restringer *restringer) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    bool gut = restring_pitch_is_low(restringer) && wishes->from == NULL &&
               (wishes->material == NULL || mensur_core_of(wishes->material) == MENSUR_CORE_GUT);
    const char *const words[] = {"baroque", "gut", "synthetic", "gut", "steel"};
    const size_t low_words = 2;
    const struct mensur_string_spec *first = NULL;
    if (restringer->setup->family == NULL || restringer->setup->instrument->set != NULL) {
        return;
    }
    for (size_t w = gut ? 0 : low_words; w < sizeof words / sizeof words[0] && first == NULL; w++) {
        first = set_called(restringer, words[w]);
        restringer->low_set = w < low_words;
    }
    if (first != NULL) {
        restringer->family_set = first->set;
        restringer->family_length = (first->made_for_low.value + first->made_for_high.value) / 2.0;
    }
}

/* The string for note i of the family's set, which there is; NULL: it has none. */
static const struct mensur_string_spec *family_string(const struct restringer *restringer,
                                                      size_t i) {
    return mensur_stock_set_string(restringer->stock, restringer->family_set,
                                   &restringer->setup->tuning->notes[i]);
}

/* The tension of the family's set on its own length, in proportion to this one (common practice,
 * no source), N. */
static double family_tension(const struct restringer *restringer, size_t i) {
    struct string_model model;
    string_model_make(restringer->stock, family_string(restringer, i), restringer->terms->fifths,
                      &model);
    return string_model_tension(&model, restringer->family_length, restringer->frequencies[i]) *
           restringer->setup->string_length / restringer->family_length;
}

/* The middles of wishes; then the liked strings; then, where no wish says what to aim at and
 * nothing is liked, the present ones where they are made for, or the family's. */
static void aim_all(struct restringer *restringer) {
    struct string_model models[MENSUR_STRINGS_MAX];
    bool liked = restringer->wishes->like != NULL;
    bool wished = false;
    find_family_set(restringer);
    profile_models(restringer->stock, restringer->setup, restringer->terms->fifths, models);
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct restring_aim *aim = &restringer->aims[i];
        restringer->now[i] = models[i].spec;
        aim_at(aim, (aim->low + aim->high) / 2.0, RESTRING_WISHED);
        wished = wished || aim->origin == RESTRING_WISHED;
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct restring_aim *aim = &restringer->aims[i];
        bool family = !liked && restringer->family_set != NULL;
        aim->course = liked    ? liked_tension(restringer, i)
                      : family ? family_tension(restringer, i)
                               : made_for_tension(restringer, &models[i], i);
        if (liked || !wished) {
            aim_at(aim, aim->course,
                   liked    ? RESTRING_LIKED
                   : family ? RESTRING_FAMILY
                            : RESTRING_MADE_FOR);
        }
    }
}

double restring_grade(const struct restringer *restringer) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    return wishes->profile != MENSUR_PROFILE_GRADED ? 1.0
           : wishes->grade > 0.0                    ? wishes->grade
                                                    : usual_grade;
}

/* Shares the aims out by a profile: those wished for where there are any, else all, keep their
 * sum. */
static enum mensur_status shape_aims(struct restringer *restringer, struct mensur_fault *fault) {
    const double grade = restring_grade(restringer);
    const size_t count = restringer->note_count;
    bool wished = false;
    double tensions = 0.0, shares = 0.0;
    for (size_t i = 0; i < count; i++) {
        wished = wished || restringer->aims[i].origin == RESTRING_WISHED;
    }
    for (size_t i = 0; i < count; i++) {
        const struct restring_aim *aim = &restringer->aims[i];
        if (!isnan(aim->tension) && (!wished || aim->origin == RESTRING_WISHED)) {
            tensions += aim->tension;
            shares += pow(grade, (double)(count - 1 - i));
        }
    }
    if (!(tensions > 0.0)) {
        mensur_fault_set(fault,
                         "%s: nothing says how much tension there is to be shared out; wish for "
                         "one, for example --tension %s=50..54",
                         restringer->setup->instrument->name,
                         restringer->setup->tuning->notes[count - 1].name);
        return MENSUR_USE;
    }
    for (size_t i = 0; i < count; i++) {
        restringer->aims[i].tension = tensions / shares * pow(grade, (double)(count - 1 - i));
        restringer->aims[i].origin = RESTRING_PROFILED;
    }
    return MENSUR_OK;
}

static enum mensur_status check_liked(const struct restringer *restringer,
                                      struct mensur_fault *fault) {
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (!isnan(restringer->aims[i].course)) {
            return MENSUR_OK;
        }
    }
    mensur_fault_set(fault,
                     "%s has no string of known feel that is tuned as one of %s; name another "
                     "instrument to be like, or wish for a tension",
                     restringer->like.instrument, restringer->setup->instrument->name);
    return MENSUR_USE;
}

static enum mensur_status find_aims(struct restringer *restringer, struct mensur_fault *fault) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < restringer->note_count; i++) {
        restringer->aims[i] = (struct restring_aim){
            .low = NAN, .high = NAN, .tension = NAN, .origin = RESTRING_NO_AIM, .course = NAN};
    }
    for (size_t i = 0; i < restringer->wishes->tension_count && status == MENSUR_OK; i++) {
        status = take_wish(restringer, &restringer->wishes->tensions[i], fault);
    }
    if (status == MENSUR_OK) {
        aim_all(restringer);
    }
    if (status == MENSUR_OK && restringer->wishes->like != NULL) {
        status = check_liked(restringer, fault);
    }
    bool shaped = restringer->wishes->profile == MENSUR_PROFILE_EQUAL ||
                  restringer->wishes->profile == MENSUR_PROFILE_GRADED;
    return status == MENSUR_OK && shaped ? shape_aims(restringer, fault) : status;
}

/* What the k-th packet's string is called: by its note, and by its A4 (Hz) where that is another
 * than the instrument's. */
static enum mensur_status add_name(const struct mensur_restring_wishes *wishes, size_t k, double a4,
                                   struct mensur_texts *names) {
    const struct mensur_packet *packet = &wishes->packets[k];
    const char *note = packet->note.name;
    int number = 1; /* among the packets of its note */
    char pitch[MENSUR_NUMBER_ROOM + 8] = "";
    for (size_t i = 0; i < k; i++) {
        number += strcmp(wishes->packets[i].note.name, note) == 0;
    }
    if (fabs(packet->a4 - a4) > 1e-6) {
        char number_text[MENSUR_NUMBER_ROOM];
        (void)mensur_number_print(packet->a4, 0, number_text);
        snprintf(pitch, sizeof pitch, " for %s Hz", number_text);
    }
    return number == 1
               ? mensur_texts_add(names, "%s by its packet%s", note, pitch)
               : mensur_texts_add(names, "%s by its packet%s, the %d.", note, pitch, number);
}

static bool is_note(const struct mensur_note *one, const struct mensur_note *other) {
    return one->semitones_from_a4 == other->semitones_from_a4 &&
           one->fifths_from_a == other->fifths_from_a;
}

/* Whether a string for this note is used for some note of the tuning. */
static bool is_used(const struct restringer *restringer, const struct mensur_note *note) {
    for (size_t i = 0; i < restringer->note_count; i++) {
        if (restring_is_for(restringer, i, note)) {
            return true;
        }
    }
    return false;
}

static enum mensur_status make_packets(struct restringer *restringer, struct mensur_texts *names,
                                       struct mensur_fault *fault) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    if (wishes->packet_count == 0) {
        return MENSUR_OK;
    }
    restringer->packets = calloc(wishes->packet_count, sizeof *restringer->packets);
    if (restringer->packets == NULL) {
        return MENSUR_MEMORY;
    }
    for (size_t k = 0; k < wishes->packet_count; k++) {
        const struct mensur_packet *packet = &wishes->packets[k];
        if (!is_used(restringer, &packet->note)) {
            mensur_fault_set(fault,
                             "%s: a packet is given for %s, but no string is tuned to it, and none "
                             "of the present ones is made for it",
                             restringer->setup->instrument->name, packet->note.name);
            return MENSUR_USE;
        }
        const double a4 = setup_a4(restringer->setup, restringer->terms);
        enum mensur_status status = add_name(wishes, k, a4, names);
        if (status != MENSUR_OK) {
            return status;
        }
        struct mensur_string_spec *spec = &restringer->packets[k];
        mensur_string_spec_init(spec);
        spec->name = names->items[k];
        spec->note = packet->note;
        spec->stated_tension.value = packet->tension;
        spec->stated_length.value = packet->length;
        spec->stated_a4.value = isnan(packet->a4) ? a4 : packet->a4;
    }
    return MENSUR_OK;
}

/* Which cores are looked for: those that are asked for, else those of the present strings, without
 * them of the family's set; a steel top string goes with a synthetic set. */
static void find_cores(struct restringer *restringer) {
    const struct mensur_restring_wishes *wishes = restringer->wishes;
    const size_t count = restringer->note_count;
    unsigned lower = 0, all = 0;
    for (size_t i = 0; i < count; i++) {
        const struct mensur_string_spec *now =
            restringer->family_set == NULL ? restringer->now[i] : family_string(restringer, i);
        unsigned bit =
            now == NULL || now->material == NULL ? 0 : 1u << mensur_core_of(now->material);
        all |= bit;
        lower |= i + 1 < count ? bit : 0;
    }
    unsigned asked = wishes->mix || wishes->from != NULL ? ~0u
                     : wishes->material != NULL          ? 1u << mensur_core_of(wishes->material)
                     : all == 0                          ? 1u << MENSUR_CORE_SYNTHETIC
                                                         : 0;
    for (size_t i = 0; i < count; i++) {
        bool top = i + 1 == count;
        unsigned cores = asked != 0 ? asked : top || lower == 0 ? all : lower;
        bool synthetic = (cores & 1u << MENSUR_CORE_SYNTHETIC) != 0;
        restringer->cores[i] = cores | (top && synthetic ? 1u << MENSUR_CORE_STEEL : 0);
    }
}

bool restring_is_gut_top(const struct restringer *restringer, const struct mensur_string_spec *spec,
                         size_t i) {
    return i + 1 == restringer->note_count && mensur_core_of(spec->material) == MENSUR_CORE_GUT &&
           isnan(spec->core_diameter.value) && isnan(spec->wraps[0].thickness.value);
}

double restring_least_margin(const struct restringer *restringer,
                             const struct mensur_string_spec *spec, size_t i) {
    double asked = restringer->wishes->least_margin;
    return !isnan(asked)                              ? asked
           : restring_is_gut_top(restringer, spec, i) ? RESTRING_USUAL_GUT_MARGIN
                                                      : RESTRING_USUAL_MARGIN;
}

/* The square of how far `more` exceeds `less`, as a log; 0 where it does not or one is unknown. */
static double excess(double more, double less) {
    double by = more > less ? log(more / less) : 0.0;
    return isnan(by) ? INFINITY : by * by;
}

void restring_weigh(const struct restringer *restringer, size_t i,
                    const struct mensur_string_spec *spec, bool packet,
                    struct restring_candidate *out) {
    const struct restring_aim *aim = &restringer->aims[i];
    const double length = restringer->setup->string_length;
    const double low = spec->made_for_low.value, high = spec->made_for_high.value;
    const double least = restring_least_margin(restringer, spec, i);
    struct string_model model;
    string_model_make(restringer->stock, spec, restringer->terms->fifths, &model);
    double tension = string_model_tension(&model, length, restringer->frequencies[i]);
    double margin = string_model_margin(&model, tension);
    bool bound = model.at_least && margin < least;
    bool any_length = restringer->wishes->any_length;
    bool core = packet || model.core == MENSUR_CORE_UNKNOWN ||
                (restringer->cores[i] & 1u << model.core) != 0;
    const bool faults[RESTRING_FAULTS] = {[RESTRING_NO_TENSION] = isnan(tension),
                                          [RESTRING_OTHER_CORE] = !core,
                                          [RESTRING_LENGTH] =
                                              !any_length && (length < low || length > high),
                                          [RESTRING_MARGIN] = !bound && margin < least,
                                          [RESTRING_LIGHT] = (tension < aim->low),
                                          [RESTRING_HEAVY] = (tension > aim->high)};
    *out = (struct restring_candidate){.spec = spec,
                                       .tension = tension,
                                       .margin = margin,
                                       .margin_unknown = isnan(margin) || bound,
                                       .made_for_this = !(length < low || length > high),
                                       .packet = packet};
    for (unsigned f = 0; f < RESTRING_FAULTS; f++) {
        out->faults |= faults[f] ? 1u << f : 0;
    }
    /* All as parts of a tension: that goes as the square of the length, and 6 semitones double it.
     */
    double miss = faults[RESTRING_MARGIN] ? (least - margin) * log(2.0) / 6.0 : 0.0;
    out->excess =
        (faults[RESTRING_LENGTH] ? 4.0 * (excess(low, length) + excess(length, high)) : 0.0) +
        miss * miss + excess(aim->low, tension) + excess(tension, aim->high);
}

double restring_step(const struct restringer *restringer, size_t i) {
    const struct restring_aim *aim = &restringer->aims[i];
    const struct restring_aim *next = aim + 1;
    if (i + 1 == restringer->note_count) {
        return 0.0;
    }
    double step = log(next->tension) - log(aim->tension);
    if (isnan(step)) {
        step = log(next->course) - log(aim->course);
    }
    return isfinite(step) ? step : 0.0;
}

bool restring_is_for(const struct restringer *restringer, size_t i,
                     const struct mensur_note *note) {
    const struct mensur_string_spec *now = restringer->now[i];
    return is_note(note, &restringer->setup->tuning->notes[i]) ||
           (now != NULL && is_note(note, &now->note));
}

/* The k-th string, of the catalogue and then the packets, if it is offered for note i; else NULL.
 */
static const struct mensur_string_spec *offered(const struct restringer *restringer, size_t i,
                                                size_t k) {
    const struct mensur_stock *stock = restringer->stock;
    const char *from = restringer->wishes->from;
    bool packet = k >= stock->string_count;
    const struct mensur_string_spec *spec =
        packet ? &restringer->packets[k - stock->string_count] : &stock->strings[k];
    if (!restring_is_for(restringer, i, &spec->note)) {
        return NULL;
    }
    bool in_set = from == NULL || (spec->set != NULL && strcmp(spec->set, from) == 0);
    const struct mensur_family *family = restringer->setup->family;
    bool fits_kind = from != NULL || packet || spec == restringer->now[i] ||
                     string_is_for_family(stock, family == NULL ? NULL : family->name, spec);
    return (packet || in_set) && fits_kind ? spec : NULL;
}

/* Weighs all strings that are offered, and makes room for the problem's. */
static enum mensur_status make_offers(struct restringer *restringer) {
    const size_t strings = restringer->stock->string_count + restringer->wishes->packet_count;
    const size_t count = restringer->note_count;
    size_t all = 0;
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < strings; k++) {
            all += offered(restringer, i, k) != NULL;
        }
    }
    restringer->candidates = calloc(all + 1, sizeof *restringer->candidates);
    restringer->strings = calloc(all + 1, sizeof *restringer->strings);
    if (restringer->candidates == NULL || restringer->strings == NULL) {
        return MENSUR_MEMORY;
    }
    restringer->problem = (struct restring_problem){.note_count = count,
                                                    .wanted = 1 + restringer->wishes->runners_up};
    struct restring_candidate *next = restringer->candidates;
    for (size_t i = 0; i < count; i++) {
        struct restring_offer *offer = &restringer->offers[i];
        *offer = (struct restring_offer){.candidates = next, .present = SIZE_MAX};
        for (size_t k = 0; k < strings; k++) {
            const struct mensur_string_spec *spec = offered(restringer, i, k);
            if (spec != NULL) {
                restring_weigh(restringer, i, spec, k >= restringer->stock->string_count, next++);
                offer->present = spec == restringer->now[i] ? offer->count : offer->present;
                offer->count++;
            }
        }
        offer->present = offer->present < offer->count ? offer->present : offer->count;
    }
    return MENSUR_OK;
}

/* Whether a string comes nearer to its aim than the present one by enough to be exchanged for it.
 */
static bool gains(const struct restring_aim *aim, const struct restring_candidate *now,
                  const struct restring_candidate *other) {
    double gain = fabs(now->tension - aim->tension) - fabs(other->tension - aim->tension);
    return gain >= RESTRING_LEAST_GAIN * aim->tension;
}

/* Which of a note's strings are in a pool. */
struct chosen_pool {
    enum restring_pool pool;
    const struct restring_aim *aim;
    const struct restring_candidate *now; /* NULL: no present string that may stay */
    bool a_margin_is_known;               /* of one that fits */
    bool one_gains;                       /* of those that fit */
    int least_concern;                    /* of those that may be had at all */
};

/* What is worse than a wish for a tension that is not met: to be made for another length, to be
 * near breaking, and not to know how near. */
static int concern_of(const struct restring_candidate *candidate) {
    return (candidate->margin_unknown && !candidate->packet ? 4 : 0) +
           ((candidate->faults & 1u << RESTRING_MARGIN) != 0 ? 2 : 0) +
           ((candidate->faults & 1u << RESTRING_LENGTH) != 0 ? 1 : 0);
}

/* Its tension is known, and its core is looked for. */
static bool may_be_had(const struct restring_candidate *candidate) {
    return (candidate->faults & (1u << RESTRING_NO_TENSION | 1u << RESTRING_OTHER_CORE)) == 0;
}

static bool fits(const struct chosen_pool *pool, const struct restring_candidate *candidate) {
    bool stands_back = pool->pool == RESTRING_GAINING && pool->a_margin_is_known &&
                       candidate->margin_unknown && !candidate->packet;
    return candidate->faults == 0 && !stands_back; /* the present one is asked for before */
}

static bool is_in(const struct chosen_pool *pool, const struct restring_candidate *candidate) {
    const struct restring_candidate *now = pool->now;
    if (pool->pool == RESTRING_NEAREST) {
        return may_be_had(candidate) && concern_of(candidate) == pool->least_concern &&
               (now == NULL || candidate == now || candidate->excess < now->excess ||
                gains(pool->aim, now, candidate));
    }
    if (pool->pool == RESTRING_FITTING || now == NULL) {
        return fits(pool, candidate);
    }
    if (candidate == now) {
        return now->faults == 0 || !pool->one_gains;
    }
    /* That another would lie nearer the middle of a range that the present one lies in is no
     * reason. */
    bool serves = now->faults == 0 && now->made_for_this && pool->aim->origin == RESTRING_MADE_FOR;
    return !serves && fits(pool, candidate) && gains(pool->aim, now, candidate);
}

/* The pool of note i. The present string may stay if it fits; or if nothing but the length that it
 * is made for is wrong, others fit, and none of them gains enough. */
static struct chosen_pool choose_pool(const struct restringer *restringer, size_t i,
                                      enum restring_pool of) {
    const struct restring_offer *offer = &restringer->offers[i];
    struct chosen_pool pool = {.pool = of, .aim = &restringer->aims[i], .least_concern = INT_MAX};
    const struct restring_candidate *now =
        offer->present < offer->count ? &offer->candidates[offer->present] : NULL;
    size_t fitting = 0;
    for (size_t k = 0; k < offer->count; k++) {
        const struct restring_candidate *candidate = &offer->candidates[k];
        bool least = may_be_had(candidate) && concern_of(candidate) < pool.least_concern;
        pool.least_concern = least ? concern_of(candidate) : pool.least_concern;
        fitting += candidate->faults == 0;
        pool.a_margin_is_known |= candidate->faults == 0 && !candidate->margin_unknown;
    }
    for (size_t k = 0; now != NULL && k < offer->count; k++) {
        const struct restring_candidate *candidate = &offer->candidates[k];
        pool.one_gains |= fits(&pool, candidate) && gains(pool.aim, now, candidate);
    }
    bool length_alone = now != NULL && now->faults == 1u << RESTRING_LENGTH && fitting > 0 &&
                        !isnan(pool.aim->tension);
    bool stays = of == RESTRING_NEAREST
                     ? now != NULL && may_be_had(now) && concern_of(now) == pool.least_concern
                     : now != NULL && (now->faults == 0 || length_alone);
    pool.now = stays ? now : NULL;
    return pool;
}

bool restring_fill(struct restringer *restringer, enum restring_pool of) {
    struct restring_problem *problem = &restringer->problem;
    struct restring_string *next = restringer->strings;
    bool each_has_one = true;
    problem->most_force = restringer->wishes->most_belly_force;
    for (size_t i = 0; i < restringer->note_count; i++) {
        const struct restring_offer *offer = &restringer->offers[i];
        const struct chosen_pool pool = choose_pool(restringer, i, of);
        struct restring_note *note = &problem->notes[i];
        *note = (struct restring_note){.strings = next,
                                       .aim = log(restringer->aims[i].tension),
                                       .step = restring_step(restringer, i)};
        for (size_t k = 0; k < offer->count; k++) {
            const struct restring_candidate *candidate = &offer->candidates[k];
            if (is_in(&pool, candidate)) {
                double down =
                    isnan(problem->most_force) ? 0.0 : restringer->setup->geometry.down_factor;
                note->strings[note->count++] = (struct restring_string){
                    .log_tension = log(candidate->tension),
                    .force = candidate->tension * down,
                    .extra = of == RESTRING_NEAREST ? restring_term(sqrt(candidate->excess)) : 0,
                    .spec = candidate->spec};
            }
        }
        next += note->count;
        each_has_one = each_has_one && note->count > 0;
    }
    return each_has_one;
}

int64_t restring_cost_of(const struct restringer *restringer,
                         const struct restring_candidate *strings) {
    int64_t cost = 0;
    for (size_t i = 0; i < restringer->note_count; i++) {
        double own = log(strings[i].tension);
        double aim = log(restringer->aims[i].tension);
        cost += restring_term(sqrt(strings[i].excess));
        cost += isnan(aim) ? 0 : restring_term(own - aim);
        if (i > 0) {
            double before = log(strings[i - 1].tension);
            cost += restring_term(own - (before + restring_step(restringer, i - 1)));
        }
    }
    return cost;
}

double restring_off_aim(const struct restringer *restringer, const double *tensions) {
    double sum = NAN;
    for (size_t i = 0; i < restringer->note_count; i++) {
        double off = fabs(tensions[i] - restringer->aims[i].tension);
        sum = isnan(sum) ? off : isnan(off) ? sum : sum + off;
    }
    return sum;
}

double restring_largest_step(const struct restringer *restringer, const double *tensions) {
    double largest = NAN;
    for (size_t i = 1; i < restringer->note_count; i++) {
        largest = fmax(largest, fabs(tensions[i] - tensions[i - 1]));
    }
    return largest;
}

void restring_clear(struct restringer *restringer) {
    mensur_profile_clear(&restringer->like);
    free(restringer->packets); /* their names are the answer's */
    free(restringer->candidates);
    free(restringer->strings);
}

enum mensur_status restring_ready(struct restringer *restringer, struct mensur_texts *names,
                                  struct mensur_fault *fault) {
    const struct mensur_tuning *tuning = restringer->setup->tuning;
    const struct mensur_instrument *like = restringer->wishes->like;
    enum mensur_status status = MENSUR_OK;
    restringer->note_count = tuning == NULL ? 0 : tuning->count;
    for (size_t i = 0; i < restringer->note_count; i++) {
        restringer->frequencies[i] = profile_frequency(restringer->setup, restringer->terms, i);
    }
    if (like != NULL) {
        status = mensur_ask_profile_with(
            restringer->setup->solver, restringer->stock, like, restringer->terms,
            MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS, fault, &restringer->like);
    }
    if (status == MENSUR_OK) {
        status = find_aims(restringer, fault);
    }
    if (status == MENSUR_OK) {
        status = make_packets(restringer, names, fault);
    }
    find_cores(restringer);
    return status == MENSUR_OK ? make_offers(restringer) : status;
}
