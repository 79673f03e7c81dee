/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Uncertainty of a profile's figures: JCGM 100:2008, 5.1.2, by physics' propagation, one figure
 * after the other, each computed as the answer itself computes it. */
#include "spread.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "figures.h"

/* One figure as a function of the measured ones. */
struct figure {
    struct varied *varied;
    enum { FIGURE_LENGTH, FIGURE_STRING, FIGURE_PULL, FIGURE_BELLY } of;
    const struct mensur_figure *column; /* of a length or a string */
    size_t string;
};

static double total(const struct varied *varied, const struct setup *setup, bool belly) {
    double sum = 0.0;
    for (size_t i = 0; i < varied->spec_count; i++) {
        struct string_model model;
        struct mensur_string_figures figures;
        string_model_make(varied->stock, &varied->specs[i], varied->terms->fifths, &model);
        string_figures(setup, &model, varied->terms, i, &figures);
        sum += belly ? figures.force_on_belly : figures.tension;
    }
    return varied->spec_count == 0 ? NAN : sum;
}

static double read_figure(const struct figure *figure, const struct setup *setup) {
    const struct varied *varied = figure->varied;
    struct mensur_lengths lengths;
    struct mensur_string_figures figures;
    struct string_model model;
    switch (figure->of) {
    case FIGURE_LENGTH:
        setup_lengths(setup, &lengths);
        return mensur_figure_value(figure->column, &lengths);
    case FIGURE_STRING:
        string_model_make(varied->stock, &varied->specs[figure->string], varied->terms->fifths,
                          &model);
        string_figures(setup, &model, varied->terms, figure->string, &figures);
        return mensur_figure_value(figure->column, &figures);
    case FIGURE_PULL:
    case FIGURE_BELLY:
        return total(varied, setup, figure->of == FIGURE_BELLY);
    }
    return NAN;
}

/* The figure with the changes made again, or the neck moved again. */
static double with_changes(const struct figure *figure, const struct setup *before) {
    struct varied *varied = figure->varied;
    struct mensur_instrument changed;
    struct setup after;
    double value = NAN;
    enum mensur_status status =
        change_apply(varied->stock, before, varied->changes, varied->change_count, NULL, &changed);
    if (status != MENSUR_OK) {
        varied->failed = status == MENSUR_MEMORY ? status : varied->failed;
        return NAN;
    }
    if (setup_make(varied->stock, &changed, before, varied->terms->hold, NULL, &after) ==
        MENSUR_OK) {
        value = read_figure(figure, &after);
    }
    mensur_instrument_clear(&changed);
    return value;
}

static double figure_at(const double *x, void *context) {
    const struct figure *figure = context;
    struct varied *varied = figure->varied;
    struct setup setup;
    struct setup moved;
    measured_put(varied->measured, varied->measured_count, x);
    if (setup_make(varied->stock, &varied->instrument, NULL, varied->terms->hold, NULL, &setup) !=
        MENSUR_OK) {
        return NAN;
    }
    if (varied->change_count > 0) {
        return with_changes(figure, &setup);
    }
    if (isnan(varied->neck)) {
        return read_figure(figure, &setup);
    }
    return setup_move(&setup, varied->neck, varied->stop, varied->terms->hold, &moved) == MENSUR_OK
               ? read_figure(figure, &moved)
               : NAN;
}

/* The values and uncertainties that everything is computed from. */
struct point {
    double x[MENSUR_MEASUREMENTS_MAX];
    double u[MENSUR_MEASUREMENTS_MAX];
};

static double spread_of(struct figure figure, const struct point *point, double *shares) {
    double out = NAN;
    /* An argument out of range leaves the figure's spread unknown. */
    (void)mensur_propagate(figure_at, &figure, point->x, point->u, figure.varied->measured_count,
                           shares, &out);
    measured_put(figure.varied->measured, figure.varied->measured_count, point->x);
    return out;
}

static void fill_record(struct figure figure, enum mensur_scope scope, const struct point *point,
                        void *record) {
    struct mensur_figures figures = mensur_figures(scope);
    for (size_t i = 0; i < figures.count; i++) {
        figure.column = &figures.items[i];
        if (figure.column->type == MENSUR_FIGURE_NUMBER &&
            (figure.column->flags & MENSUR_FIGURE_PUBLISHED) != 0) {
            mensur_figure_put(figure.column, spread_of(figure, point, NULL), record);
        }
    }
}

static void fill_strings(struct varied *varied, const struct point *point,
                         const struct mensur_profile *profile, struct mensur_spread *spread) {
    spread->string_count = profile->string_count;
    for (size_t i = 0; i < profile->string_count; i++) {
        struct figure figure = {.varied = varied, .of = FIGURE_STRING, .string = i};
        strcpy(spread->strings[i].note, profile->strings[i].note);
        spread->strings[i].in_made_for_range = MENSUR_UNSURE;
        fill_record(figure, MENSUR_SCOPE_STRING, point, &spread->strings[i]);
    }
    spread->total_tension =
        spread_of((struct figure){.varied = varied, .of = FIGURE_PULL}, point, NULL);
    spread->total_force_on_belly =
        spread_of((struct figure){.varied = varied, .of = FIGURE_BELLY}, point, NULL);
}

/* Every place goes as the string length, and so does what it is sure to. */
static void fill_positions(const struct mensur_profile *profile, struct mensur_spread *spread) {
    double part = spread->lengths.string_length / profile->lengths.string_length;
    spread->position_count = profile->position_count;
    for (size_t i = 0; i < profile->position_count; i++) {
        const struct mensur_position *position = &profile->positions[i];
        spread->positions[i] = *position;
        spread->positions[i].first_finger = part * position->first_finger;
        spread->positions[i].fourth_finger = part * position->fourth_finger;
        spread->positions[i].frame = part * position->frame;
    }
}

static void fill_matters(struct varied *varied, const struct point *point,
                         struct mensur_spread *spread) {
    double shares[MENSUR_MEASUREMENTS_MAX] = {0};
    struct figure figure = {.varied = varied,
                            .of = FIGURE_LENGTH,
                            .column =
                                mensur_figure_named(MENSUR_SCOPE_INSTRUMENT, "string_length_mm")};
    if (!(spread_of(figure, point, shares) > 0.0)) {
        figure.of = FIGURE_PULL;
        (void)spread_of(figure, point, shares);
    }
    spread->matter_count =
        matters_most(varied->measured, point->u, shares, varied->measured_count, spread->matters);
}

enum mensur_status spread_fill(struct varied *varied, unsigned parts,
                               struct mensur_profile *profile) {
    struct point point;
    if (varied->measured_count == 0) {
        return MENSUR_OK;
    }
    struct mensur_spread *spread = calloc(1, sizeof *spread);
    if (spread == NULL) {
        return MENSUR_MEMORY;
    }
    measured_values(varied->measured, varied->measured_count, point.x, point.u);
    spread->lengths.string_length_measured = MENSUR_UNSURE;
    fill_record((struct figure){.varied = varied, .of = FIGURE_LENGTH}, MENSUR_SCOPE_INSTRUMENT,
                &point, &spread->lengths);
    spread->total_tension = NAN;
    spread->total_force_on_belly = NAN;
    if ((parts & MENSUR_PART_STRINGS) != 0) {
        fill_strings(varied, &point, profile, spread);
    }
    fill_positions(profile, spread);
    fill_matters(varied, &point, spread);
    profile->spread = spread;
    return varied->failed;
}
