/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the string of each note is to have as its tension, and within which limits; which strings of
 * the catalogue, and which that are known by their packet, fit it, and what keeps the others away.
 *
 * On one length and pitch a string's wave impedance goes with its tension, Z = T/(2 L f), so that a
 * wish for an impedance is one for a tension. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "restring.h"
#include "taut_string.h"

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

/* The middles of wishes; then the liked strings; then, where no wish says what to aim at and
 * nothing is liked, the present ones where they are made for. */
static void aim_all(struct restringer *restringer) {
    struct string_model models[MENSUR_STRINGS_MAX];
    bool liked = restringer->wishes->like != NULL;
    bool wished = false;
    profile_models(restringer->stock, restringer->setup, restringer->terms->fifths, models);
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct restring_aim *aim = &restringer->aims[i];
        aim_at(aim, (aim->low + aim->high) / 2.0, RESTRING_WISHED);
        wished = wished || aim->origin == RESTRING_WISHED;
    }
    for (size_t i = 0; i < restringer->note_count; i++) {
        struct restring_aim *aim = &restringer->aims[i];
        aim->course =
            liked ? liked_tension(restringer, i) : made_for_tension(restringer, &models[i], i);
        if (liked || !wished) {
            aim_at(aim, aim->course, liked ? RESTRING_LIKED : RESTRING_MADE_FOR);
        }
    }
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
    return status == MENSUR_OK && restringer->wishes->like != NULL ? check_liked(restringer, fault)
                                                                   : status;
}

static enum mensur_status add_name(const struct mensur_restring_wishes *wishes, size_t k,
                                   struct mensur_texts *names) {
    const char *note = wishes->packets[k].note.name;
    int number = 1; /* among the packets of its note */
    for (size_t i = 0; i < k; i++) {
        number += strcmp(wishes->packets[i].note.name, note) == 0;
    }
    return number == 1 ? mensur_texts_add(names, "%s by its packet", note)
                       : mensur_texts_add(names, "%s by its packet, the %d.", note, number);
}

static bool is_note(const struct mensur_note *one, const struct mensur_note *other) {
    return one->semitones_from_a4 == other->semitones_from_a4 &&
           one->fifths_from_a == other->fifths_from_a;
}

static bool is_tuned_to(const struct mensur_tuning *tuning, const struct mensur_note *note) {
    for (size_t i = 0; i < tuning->count; i++) {
        if (is_note(&tuning->notes[i], note)) {
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
        if (!is_tuned_to(restringer->setup->tuning, &packet->note)) {
            mensur_fault_set(fault, "%s: a packet is given for %s, but no string is tuned to it",
                             restringer->setup->instrument->name, packet->note.name);
            return MENSUR_USE;
        }
        enum mensur_status status = add_name(wishes, k, names);
        if (status != MENSUR_OK) {
            return status;
        }
        struct mensur_string_spec *spec = &restringer->packets[k];
        mensur_string_spec_init(spec);
        spec->name = names->items[k];
        spec->note = packet->note;
        spec->stated_tension.value = packet->tension;
        spec->stated_length.value = packet->length;
        spec->stated_a4.value =
            isnan(packet->a4) ? setup_a4(restringer->setup, restringer->terms) : packet->a4;
    }
    return MENSUR_OK;
}

/* Semitones to breaking; NaN where the strength is not known. */
static double margin_of(const struct string_model *model, double tension) {
    double stress = NAN;
    double margin = NAN;
    (void)mensur_stress(tension, model->core_area, &stress);
    (void)mensur_breaking_margin(stress, model->strength, &margin);
    return margin;
}

/* Whether nothing keeps a string of that `tension` away from note i; counts what does. What is
 * not known, a side of the range that is not stated or a strength, keeps none away. */
static bool fits(struct restringer *restringer, const struct string_model *model, size_t i,
                 double tension) {
    const struct restring_aim *aim = &restringer->aims[i];
    const struct mensur_string_spec *spec = model->spec;
    const double length = restringer->setup->string_length;
    const bool faults[RESTRING_FAULTS] = {
        [RESTRING_NO_TENSION] = isnan(tension),
        [RESTRING_LENGTH] = !restringer->wishes->any_length && (length < spec->made_for_low.value ||
                                                                length > spec->made_for_high.value),
        [RESTRING_MARGIN] = margin_of(model, tension) < restringer->least_margin,
        [RESTRING_LIGHT] = (tension < aim->low),
        [RESTRING_HEAVY] = (tension > aim->high)};
    struct restring_tally *tally = &restringer->tallies[i];
    size_t count = 0;
    int first = RESTRING_FAULTS;
    for (int f = RESTRING_FAULTS; f-- > 0;) {
        first = faults[f] ? f : first;
        count += faults[f];
    }
    tally->all++;
    if (count == 0) {
        tally->fit++;
        return true;
    }
    tally->first[first]++;
    tally->only[first] += count == 1;
    return false;
}

/* Puts a string among those of note i if it fits. */
static void weigh(struct restringer *restringer, size_t i, const struct mensur_string_spec *spec) {
    struct restring_note *note = &restringer->problem.notes[i];
    struct string_model model;
    string_model_make(restringer->stock, spec, restringer->terms->fifths, &model);
    double tension =
        string_model_tension(&model, restringer->setup->string_length, restringer->frequencies[i]);
    if (fits(restringer, &model, i, tension)) {
        bool limited = !isnan(restringer->wishes->most_belly_force);
        note->strings[note->count++] = (struct restring_string){
            .log_tension = log(tension),
            .force = limited ? tension * restringer->setup->geometry.down_factor : 0.0,
            .spec = spec};
    }
}

/* The wished log step from note i to the next. */
static double step_after(const struct restringer *restringer, size_t i) {
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

/* The k-th string, of the catalogue and then the packets, if it is offered for note i; else NULL.
 */
static const struct mensur_string_spec *offered(const struct restringer *restringer, size_t i,
                                                size_t k) {
    const struct mensur_stock *stock = restringer->stock;
    const char *from = restringer->wishes->from;
    bool packet = k >= stock->string_count;
    const struct mensur_string_spec *spec =
        packet ? &restringer->packets[k - stock->string_count] : &stock->strings[k];
    return is_note(&spec->note, &restringer->setup->tuning->notes[i]) &&
                   (packet || from == NULL || (spec->set != NULL && strcmp(spec->set, from) == 0))
               ? spec
               : NULL;
}

/* Finds the strings that fit each note, and fills in the problem. */
static enum mensur_status fit(struct restringer *restringer) {
    const size_t strings = restringer->stock->string_count + restringer->wishes->packet_count;
    const size_t count = restringer->note_count;
    size_t all = 0;
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < strings; k++) {
            all += offered(restringer, i, k) != NULL;
        }
    }
    restringer->strings = calloc(all == 0 ? 1 : all, sizeof *restringer->strings);
    if (restringer->strings == NULL) {
        return MENSUR_MEMORY;
    }
    restringer->problem =
        (struct restring_problem){.note_count = count,
                                  .most_force = restringer->wishes->most_belly_force,
                                  .wanted = 1 + restringer->wishes->runners_up};
    struct restring_string *next = restringer->strings;
    for (size_t i = 0; i < count; i++) {
        struct restring_note *note = &restringer->problem.notes[i];
        *note = (struct restring_note){.strings = next,
                                       .aim = log(restringer->aims[i].tension),
                                       .step = step_after(restringer, i)};
        for (size_t k = 0; k < strings; k++) {
            const struct mensur_string_spec *spec = offered(restringer, i, k);
            if (spec != NULL) {
                weigh(restringer, i, spec);
            }
        }
        next += note->count;
    }
    return MENSUR_OK;
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
    return status == MENSUR_OK ? fit(restringer) : status;
}
