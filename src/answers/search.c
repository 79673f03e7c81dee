/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Along the neck (or the stop) each figure rises or falls throughout, so that a wish is one
 * interval. Closed forms where the geometry has one, GSL's bracketing solver elsewhere. */
#include "search.h"

#include <math.h>

#include "figures.h"
#include "profile.h"
#include "solve.h"
#include "taut_string.h"

static const double shortest = 0.5; /* of the present place */
static const double longest = 1.5;

/* The place nearest to a search's end at which an instrument can still be made: with the clearances
 * given, say, no bridge fits where the board would reach past it. */
static double feasible_end(const struct search *search, double end) {
    struct setup setup;
    double good = search->present;
    double bad = end;
    if (search_setup(search, end, &setup) == MENSUR_OK) {
        return end;
    }
    while (fabs(bad - good) > 1e-7) {
        double middle = (good + bad) / 2.0;
        if (search_setup(search, middle, &setup) == MENSUR_OK) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    return good;
}

enum mensur_status search_make(const struct mensur_stock *stock, const struct setup *setup,
                               const struct mensur_terms *terms, bool for_stop,
                               struct mensur_fault *fault, struct search *out) {
    if (!setup->has_geometry) {
        mensur_fault_set(fault,
                         "%s: a decision on the %s needs its stop, and only its string length is "
                         "known; measure the stop, from the belly's upper edge to the bridge",
                         setup->instrument->name, for_stop ? "stop" : "neck");
        return MENSUR_NO_ANSWER;
    }
    struct search search = {.stock = stock, .terms = terms, .setup = setup, .for_stop = for_stop};
    enum mensur_field field = for_stop ? MENSUR_FIELD_STOP : MENSUR_FIELD_NECK;
    search.present = setup->value[field];
    search.present_known = setup->origin[field] == SETUP_GIVEN;
    search.low = shortest * search.present;
    search.high = longest * search.present;
    double body = setup->view.body_straight;
    if (for_stop && search.high >= body) {
        /* The bridge stays on the body, with room for the strings behind it. */
        search.high = 0.95 * body;
    }
    search.low = feasible_end(&search, search.low);
    search.high = feasible_end(&search, search.high);
    search.string_count = setup->tuning == NULL ? 0 : setup->tuning->count;
    profile_models(stock, setup, terms->fifths, search.models);
    for (size_t i = 0; i < search.string_count; i++) {
        search.frequencies[i] = profile_frequency(setup, terms, i);
    }
    *out = search;
    return MENSUR_OK;
}

double search_usual(const struct search *search) {
    const struct setup *setup = search->setup;
    double stop = setup->value[MENSUR_FIELD_STOP];
    double neck = mensur_size_usual(&setup->size, MENSUR_FIELD_NECK);
    return search->for_stop ? setup->value[MENSUR_FIELD_NECK] * stop / neck : neck;
}

enum mensur_status search_setup(const struct search *search, double place, struct setup *out) {
    const double *v = search->setup->value;
    double neck = search->for_stop ? v[MENSUR_FIELD_NECK] : place;
    double stop = search->for_stop ? place : v[MENSUR_FIELD_STOP];
    return setup_move(search->setup, neck, stop, search->terms->hold, out);
}

double search_tensions(const struct search *search, double length, double *each) {
    double total = search->string_count == 0 ? NAN : 0.0;
    for (size_t i = 0; i < search->string_count; i++) {
        each[i] = string_model_tension(&search->models[i], length, search->frequencies[i]);
        total += each[i];
    }
    return total;
}

double search_figure_of(const struct search *search, const struct setup *setup,
                        enum mensur_wish_kind kind, size_t string) {
    struct mensur_lengths lengths;
    double each[MENSUR_STRINGS_MAX];
    double total;
    switch (mensur_wish_info(kind)->scope) {
    case MENSUR_SCOPE_STRING:
        return string_model_tension(&search->models[string], setup->string_length,
                                    search->frequencies[string]);
    case MENSUR_SCOPE_TOTAL:
        total = search_tensions(search, setup->string_length, each);
        return kind == MENSUR_WISH_BELLY_FORCE ? total * setup->geometry.down_factor : total;
    default:
        setup_lengths(setup, &lengths);
        return mensur_figure_value(mensur_wish_figure(kind), &lengths);
    }
}

double search_figure(const struct search *search, enum mensur_wish_kind kind, size_t string,
                     double place) {
    struct setup setup;
    return search_setup(search, place, &setup) == MENSUR_OK
               ? search_figure_of(search, &setup, kind, string)
               : NAN;
}

struct figure_at {
    const struct search *search;
    enum mensur_wish_kind kind;
    size_t string;
    double wanted;
};

static double less_wanted(double place, void *context) {
    const struct figure_at *at = context;
    return search_figure(at->search, at->kind, at->string, place) - at->wanted;
}

/* A closed form, or the geometry's own inverse, where nothing but the projection is held. */
static enum mensur_status closed_place(const struct search *search, enum mensur_wish_kind kind,
                                       double figure, double *place) {
    const struct setup *setup = search->setup;
    const struct mensur_side_view *view = &setup->view;
    bool plain = setup_hold(search->terms->hold, setup->instrument, search->for_stop) ==
                     MENSUR_HOLD_PROJECTION &&
                 !setup->bridge_follows;
    if (kind == MENSUR_WISH_RATIO) {
        return search->for_stop ? mensur_stop_for_ratio(view->neck, figure, place)
                                : mensur_neck_for_ratio(view->stop, figure, place);
    }
    if (kind == MENSUR_WISH_STRING_LENGTH && plain) {
        double length = figure - setup->length_excess;
        return search->for_stop ? mensur_stop_for_length(setup->solver, view, length, place)
                                : mensur_neck_for_length(setup->solver, view, length, place);
    }
    if (kind == MENSUR_WISH_LEFT_REACH && plain && !search->for_stop) {
        return mensur_neck_for_left_reach(setup->solver, view, figure, place);
    }
    return MENSUR_NO_ANSWER;
}

enum mensur_status search_place(const struct search *search, enum mensur_wish_kind kind,
                                size_t string, double figure, double *place) {
    double closed = NAN;
    if (closed_place(search, kind, figure, &closed) == MENSUR_OK && closed >= search->low &&
        closed <= search->high) {
        *place = closed;
        return MENSUR_OK;
    }
    struct figure_at at = {search, kind, string, figure};
    return mensur_solve_root(search->setup->solver, less_wanted, &at, search->low, search->high,
                             place);
}

/* One end of the interval: `limit` is the wish's end on that side (NaN: open), `figure_at_end` the
 * figure at the search's end there, and `rising` whether the figure grows with the place. */
static double interval_end(const struct search *search, const struct wish_line *line, double limit,
                           double search_end, double figure_at_end, bool low_side, bool rising) {
    if (isnan(limit)) {
        return NAN;
    }
    bool met_at_end = low_side == rising ? figure_at_end >= limit : figure_at_end <= limit;
    double place = NAN;
    if (met_at_end) {
        return search_end;
    }
    return search_place(search, line->kind, line->string, limit, &place) == MENSUR_OK ? place : NAN;
}

void search_interval(const struct search *search, struct wish_line *line) {
    struct mensur_want *want = &line->want;
    double at_low = search_figure(search, line->kind, line->string, search->low);
    double at_high = search_figure(search, line->kind, line->string, search->high);
    if (search->for_stop && line->kind == MENSUR_WISH_LEFT_REACH) {
        /* Over 80 mm of stop the nut moves 0.4 mm from the body's end: none decides on that. */
        double now = search_figure(search, line->kind, line->string, search->present);
        want->unmoved = true;
        want->place_low = want->place_high = NAN;
        want->within_reach = !(now < want->low) && !(now > want->high);
        return;
    }
    bool rising = at_high >= at_low;
    double least = fmin(at_low, at_high);
    double most = fmax(at_low, at_high);
    want->place_low = NAN;
    want->place_high = NAN;
    want->within_reach =
        !(isnan(at_low) || isnan(at_high)) && !(want->low > most) && !(want->high < least);
    if (want->within_reach) {
        want->place_low = interval_end(search, line, rising ? want->low : want->high, search->low,
                                       at_low, true, rising);
        want->place_high = interval_end(search, line, rising ? want->high : want->low, search->high,
                                        at_high, false, rising);
    }
}
