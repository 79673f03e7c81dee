/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the string of each note is wished to pull, and within which limits.
 *
 * On one length and pitch a string's wave impedance goes with its tension, Z = T/(2 L f), so that a
 * wish for an impedance is one for a tension. */
#include <math.h>
#include <string.h>

#include "restring.h"

double restring_middle(const struct mensur_profile *present) {
    return (present->made_for_low + present->made_for_high) / 2.0;
}

/* What the present string would pull in the middle of its set's range, else of its own; N. */
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

/* The liked instrument's string of a note; NULL where it has none. */
static const struct mensur_string_figures *liked_string(const struct restringer *restringer,
                                                        size_t i) {
    const char *note = restringer->setup->tuning->notes[i].name;
    for (size_t k = 0; k < restringer->like.string_count; k++) {
        if (strcmp(restringer->like.strings[k].note, note) == 0) {
            return &restringer->like.strings[k];
        }
    }
    return NULL;
}

/* What a string must pull here to feel as the liked one; N. */
static double liked_tension(const struct restringer *restringer, size_t i) {
    const struct mensur_string_figures *liked = liked_string(restringer, i);
    if (liked == NULL) {
        return NAN;
    }
    if (restringer->wishes->same_impedance) {
        return liked->impedance * 2.0 * restringer->setup->string_length *
               restringer->frequencies[i];
    }
    return liked->tension;
}

/* What a percentage is taken of: the liked string's tension, else the present one's; N. */
static double base_tension(const struct restringer *restringer, size_t i) {
    const struct mensur_string_figures *liked = liked_string(restringer, i);
    return liked != NULL && !isnan(liked->tension) ? liked->tension
                                                   : restringer->present->strings[i].tension;
}

static enum mensur_status narrow(const struct restringer *restringer,
                                 const struct mensur_wish *wish, size_t i,
                                 struct mensur_fault *fault, struct restring_aim *aim) {
    double base = wish->percent ? base_tension(restringer, i) : 1.0;
    if (isnan(base)) {
        mensur_fault_set(fault,
                         "%s: no percentage of the tension of %s can be wished for, because its "
                         "present string is not known",
                         restringer->setup->instrument->name,
                         restringer->setup->tuning->notes[i].name);
        return MENSUR_USE;
    }
    /* An open side, NaN, gives way. */
    aim->low = fmax(aim->low, wish->low * base);
    aim->high = fmin(aim->high, wish->high * base);
    return MENSUR_OK;
}

static enum mensur_status take_wish(struct restringer *restringer, const struct mensur_wish *wish,
                                    struct mensur_fault *fault) {
    enum mensur_status status = MENSUR_OK;
    bool found = false;
    for (size_t i = 0; i < restringer->note_count && status == MENSUR_OK; i++) {
        if (wish->note[0] == '\0' ||
            strcmp(wish->note, restringer->setup->tuning->notes[i].name) == 0) {
            found = true;
            status = narrow(restringer, wish, i, fault, &restringer->aims[i]);
        }
    }
    if (!found) {
        mensur_fault_set(fault, "%s: no string is tuned to %s", restringer->setup->instrument->name,
                         wish->note);
        return MENSUR_USE;
    }
    return status;
}

static void aim_at(struct restring_aim *aim, double tension, enum restring_origin origin) {
    if (isnan(aim->tension) && isfinite(tension) && tension > 0.0) {
        aim->tension = tension;
        aim->origin = origin;
    }
}

/* The middles of wishes; then the liked strings; then, where no wish says what to aim at and
 * nothing is liked, the present ones where they are made for. */
static void find_aims(struct restringer *restringer) {
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

enum mensur_status restring_aims(struct restringer *restringer, struct mensur_fault *fault) {
    enum mensur_status status = MENSUR_OK;
    for (size_t i = 0; i < restringer->note_count; i++) {
        restringer->aims[i] = (struct restring_aim){
            .low = NAN, .high = NAN, .tension = NAN, .origin = RESTRING_NO_AIM, .course = NAN};
    }
    for (size_t i = 0; i < restringer->wishes->tension_count && status == MENSUR_OK; i++) {
        status = take_wish(restringer, &restringer->wishes->tensions[i], fault);
    }
    if (status == MENSUR_OK) {
        find_aims(restringer);
        status = restringer->wishes->like != NULL ? check_liked(restringer, fault) : MENSUR_OK;
    }
    return status;
}
