/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stopped string: pressed down it is longer, so its tension is higher and its density lower.
 *
 * Derived from Pythagoras and Hooke, not from a paper. With c the clearance at x from the nut, L
 * the length, EA the core's stiffness, T the tension, mu the density: delta = c^2/(x + sqrt(x^2 +
 * c^2)) + c^2/((L - x) + sqrt((L - x)^2 + c^2)) f = sqrt((T + EA delta/lf) (1 + delta/lf)/mu)/(2
 * l),  l = sqrt((L - x)^2 + c^2), lf the length that is stretched; a stiff string that ends on a
 * finger sounds as one that is shorter by soft_end. This form of delta does not cancel; the
 * difference of the two path lengths would. */
#include "playing.h"

#include <stddef.h>

#include "domain.h"
#include "solve.h"

/* The search for a true place starts at the simple one and goes towards a string's end in
 * twentieths of the way there, until four of them are left. */
#define STEPS 20
#define STEPS_LEFT 4

static bool is_stopping(const struct mensur_stopping *string) {
    return is_positive(string->length) && is_positive(string->tension) &&
           is_positive(string->linear_density) && is_not_negative(string->stiffness) &&
           is_positive(string->stretch_length) && string->stretch_length >= string->length &&
           is_not_negative(string->soft_end);
}

/* sqrt(run^2 + rise^2) - run in a form that does not cancel. */
static double slant_excess(double run, double rise) {
    return rise * (rise / (run + hypot(run, rise)));
}

enum mensur_status mensur_stopped_way(double length, double clearance, double x,
                                      struct mensur_stopped *out) {
    if (!is_positive(length) || !is_not_negative(clearance) || !is_positive(x) || !(x < length)) {
        return MENSUR_DOMAIN;
    }
    double rest = length - x;
    *out = (struct mensur_stopped){.stretch =
                                       slant_excess(x, clearance) + slant_excess(rest, clearance),
                                   .sounding = hypot(rest, clearance)};
    return MENSUR_OK;
}

enum mensur_status mensur_stopped_frequency(const struct mensur_stopping *string,
                                            const struct mensur_stopped *way, double *frequency) {
    if (!is_stopping(string) || !is_not_negative(way->stretch) || !is_positive(way->sounding)) {
        return MENSUR_DOMAIN;
    }
    double strain = way->stretch / string->stretch_length;
    double tension = string->tension + string->stiffness * strain;
    double speed = sqrt(tension * (1.0 + strain) / string->linear_density);
    double sounding = way->sounding - string->soft_end;
    return sounding > 0.0 ? give(speed / (2.0 * sounding), frequency) : MENSUR_DOMAIN;
}

struct wanted_note {
    const struct mensur_stopping *string;
    double frequency;
    mensur_clearance_at *clearance;
    void *context;
};

/* Frequency of the string stopped at x less the wanted one, Hz; NaN where there is no board. */
static double frequency_off(double x, void *context) {
    const struct wanted_note *note = context;
    struct mensur_stopped way;
    double frequency = NAN;
    double clearance = note->clearance(x, note->context);
    if (mensur_stopped_way(note->string->length, clearance, x, &way) == MENSUR_OK) {
        (void)mensur_stopped_frequency(note->string, &way, &frequency);
    }
    return frequency - note->frequency;
}

/* Goes from the simple place towards an end, step by step, to the first change of sign: that finds
 * the root nearest the simple place. */
static enum mensur_status search_towards(struct mensur_solver *solver, struct wanted_note *note,
                                         double simple, double end, double *x) {
    double here = simple;
    double off_here = frequency_off(here, note);
    for (int left = STEPS - 1; left >= STEPS_LEFT; left--) {
        double next = end + (simple - end) * left / STEPS;
        double off_next = frequency_off(next, note);
        if (isnan(off_next)) {
            return MENSUR_NO_ANSWER;
        }
        if ((off_here > 0.0) != (off_next > 0.0)) {
            return mensur_solve_root(solver, frequency_off, note, fmin(here, next),
                                     fmax(here, next), x);
        }
        here = next;
        off_here = off_next;
    }
    return MENSUR_NO_ANSWER;
}

enum mensur_status mensur_true_place(struct mensur_solver *solver,
                                     const struct mensur_stopping *string, double frequency,
                                     mensur_clearance_at *clearance, void *context, double *x) {
    if (!is_stopping(string) || !is_positive(frequency) || clearance == NULL) {
        return MENSUR_DOMAIN;
    }
    double open = sqrt(string->tension / string->linear_density) / (2.0 * string->length);
    double simple = string->length * ((frequency - open) / frequency);
    if (!is_positive(simple)) {
        return MENSUR_NO_ANSWER; /* not above the open string */
    }
    struct wanted_note note = {string, frequency, clearance, context};
    double off = frequency_off(simple, &note);
    if (isnan(off)) {
        return MENSUR_NO_ANSWER;
    }
    return search_towards(solver, &note, simple, off > 0.0 ? 0.0 : string->length, x);
}
