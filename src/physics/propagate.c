/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Law of propagation of uncertainty: JCGM 100:2008 (GUM; clause from memory) 5.1.2, equation 10.
 *
 * y: figure; x_i: measurements; u(x_i): standard uncertainties; c_i = dy/dx_i: sensitivities.
 *
 * The first step of the differences is a tenth of u: small against what the measurement leaves
 * open, and yet, for any ± that a ruler or a balance gives, large against the last digits of y. GSL
 * then chooses its own best step from the error it sees. */
#include "propagate.h"

#include <gsl/gsl_deriv.h>
#include <math.h>
#include <string.h>

/* One measurement moves, the others stand. */
struct moved {
    mensur_figure *figure;
    void *context;
    double x[MENSUR_MEASUREMENTS_MAX];
    size_t which;
};

static double figure_at(double value, void *context) {
    struct moved *moved = context;
    double there = moved->x[moved->which];
    moved->x[moved->which] = value;
    double figure = moved->figure(moved->x, moved->context);
    moved->x[moved->which] = there;
    return figure;
}

static double first_step(double x, double u) {
    /* Below this the last digits of the figure would show. */
    return fmax(u / 10.0, fabs(x) * 1e-6);
}

static double sensitivity(struct moved *moved, double u) {
    gsl_function function = {.function = figure_at, .params = moved};
    double x = moved->x[moved->which];
    double slope = NAN;
    double error = NAN;
    gsl_deriv_central(&function, x, first_step(x, u), &slope, &error);
    return slope;
}

static int is_sound(const double *x, const double *u, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(x[i]) || !isfinite(u[i]) || u[i] < 0.0) {
            return 0;
        }
    }
    return count <= MENSUR_MEASUREMENTS_MAX;
}

enum mensur_status mensur_propagate(mensur_figure *figure, void *context, const double *x,
                                    const double *u, size_t count, double *shares, double *out) {
    struct moved moved = {.figure = figure, .context = context};
    double sum = 0.0;
    if (!is_sound(x, u, count)) {
        return MENSUR_DOMAIN;
    }
    memcpy(moved.x, x, count * sizeof *x);
    for (moved.which = 0; moved.which < count; moved.which++) {
        double own =
            u[moved.which] > 0.0 ? sensitivity(&moved, u[moved.which]) * u[moved.which] : 0.0;
        sum += own * own;
        if (shares != NULL) {
            shares[moved.which] = own * own;
        }
    }
    /* A figure that is unknown is not known to within nothing. */
    *out = isnan(figure(x, context)) ? NAN : sqrt(sum);
    return MENSUR_OK;
}
