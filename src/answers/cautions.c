/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cautions.h"

#include <math.h>

/* A smaller margin calls for care while tuning up; more force on the belly than that share is told,
 * and over the second one the restorer of what is built is to be asked. All are rules of our own;
 * no published limit of the force on a belly was found. */
static const double least_margin_semitones = 2.0;
static const double more_force = 1.05;
static const double much_force = 1.10;
/* What is told to 0.1 mm is cut where it changes by half of that. */
static const double cut_m = 0.00005;

static void add(struct mensur_facts *cautions, enum mensur_fact_kind kind, double number,
                double direction) {
    for (size_t i = 0; i < cautions->count; i++) {
        double *there = cautions->items[i].number;
        if (cautions->items[i].kind == kind) {
            there[0] = fmax(there[0], number);
            there[1] = fmax(there[1], direction);
            return;
        }
    }
    mensur_facts_add(cautions, kind, NULL, MENSUR_NUMBERS(number, direction));
}

void cautions_join(const struct mensur_facts *more, struct mensur_facts *cautions) {
    for (size_t i = 0; i < more->count; i++) {
        add(cautions, more->items[i].kind, more->items[i].number[0], more->items[i].number[1]);
    }
}

static void add_breaking(const struct mensur_string_figures *strings, size_t count,
                         struct mensur_facts *cautions) {
    for (size_t i = 0; i < count; i++) {
        if (strings[i].string != NULL && !(strings[i].breaking_margin >= least_margin_semitones)) {
            add(cautions, MENSUR_FACT_CAUTION_BREAKING, 0.0, -1.0);
        }
    }
}

static void add_belly(const struct mensur_profile *before, double after,
                      struct mensur_facts *cautions) {
    double ratio = after / before->total_force_on_belly;
    if (ratio > more_force) {
        add(cautions, MENSUR_FACT_CAUTION_BELLY, ratio,
            before->lengths.built == MENSUR_YES ? ratio - much_force : -1.0);
    }
}

static bool moves(double before, double after) {
    return fabs(after - before) >= cut_m;
}

static void add_cut(bool cuts_built, struct mensur_facts *cautions) {
    if (cuts_built) {
        add(cautions, MENSUR_FACT_CAUTION_RESTORER, 0.0, -1.0);
    }
}

void cautions_of_profile(const struct mensur_profile *profile, struct mensur_facts *cautions) {
    add_breaking(profile->strings, profile->string_count, cautions);
}

void cautions_of_comparison(const struct mensur_comparison *comparison,
                            struct mensur_facts *cautions) {
    for (size_t i = 0; i < comparison->count; i++) {
        cautions_of_profile(&comparison->instruments[i], cautions);
    }
    for (size_t i = 1; comparison->changed && i < comparison->count; i++) {
        add_belly(&comparison->instruments[0], comparison->instruments[i].total_force_on_belly,
                  cautions);
    }
    add_cut(comparison->cuts_built, cautions);
}

void cautions_of_decision(const struct mensur_decision *decision, struct mensur_facts *cautions) {
    const struct mensur_lengths *present = &decision->present.lengths;
    bool moved =
        decision->has_recommended &&
        moves(decision->for_stop ? present->stop : present->neck, decision->recommended_place);
    const struct mensur_profile *then = moved ? &decision->recommended : &decision->present;
    if (moved || decision->has_before) {
        cautions_of_profile(then, cautions);
        add_belly(decision->has_before ? &decision->before : &decision->present,
                  then->total_force_on_belly, cautions);
        add_cut(decision->cuts_built, cautions);
    }
}

void cautions_of_restringing(const struct mensur_restringing *restringing,
                             struct mensur_facts *cautions) {
    if (restringing->choice_count > 0) {
        const struct mensur_choice *best = &restringing->choices[0];
        add_breaking(best->strings, restringing->string_count, cautions);
        add_belly(&restringing->present, best->total_force_on_belly, cautions);
    }
}

void cautions_of_reaching(const struct mensur_reaching *reaching, struct mensur_facts *cautions) {
    for (size_t i = 0; i < reaching->count; i++) {
        if (!isnan(reaching->instruments[i].distance)) {
            add(cautions, MENSUR_FACT_CAUTION_REACH, 0.0, -1.0);
        }
    }
}
