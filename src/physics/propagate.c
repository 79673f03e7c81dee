/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Law of propagation of uncertainty: JCGM 100:2008 (GUM; clause from memory) 5.1.2, equation 10.
 *
 * y: figures; x_i: measurements; u(x_i): standard uncertainties; dy/dx_i: sensitivities, each from
 * one pair of evaluations at x_i - h and x_i + h. */
#include "propagate.h"

#include <math.h>
#include <string.h>

/* A hundredth of u. The difference leaves out h^2/6 y'''; of 2 S/N, the most bent of the side
 * view's figures, that is (h/N)^2 of the slope: with u = 1 mm of a neck of 147 mm 5e-9 for u/100,
 * and 5e-7 for u/10. What it loses to rounding is about 1e-16 y/(h y'): for a ± of 0.05 mm in
 * 370 mm 1e-10. */
static const double step_in_u = 0.01;
/* Of |x|: below this the last digits of the figure would show. */
static const double least_step = 1e-6;

static int is_sound(const struct mensur_propagation *from) {
    for (size_t i = 0; i < from->x_count; i++) {
        if (!isfinite(from->x[i]) || !isfinite(from->u[i]) || from->u[i] < 0.0) {
            return 0;
        }
    }
    return 1;
}

enum mensur_status mensur_propagate(const struct mensur_propagation *from, double *shares,
                                    double *out) {
    const size_t n = from->x_count;
    double *x = from->work;
    double *below = x + n;
    double *above = below + from->y_count;
    if (!is_sound(from)) {
        return MENSUR_DOMAIN;
    }
    memcpy(x, from->x, n * sizeof *x);
    for (size_t k = 0; k < from->y_count; k++) {
        /* A figure that is unknown is not known to within nothing. */
        out[k] = isnan(from->y[k]) ? NAN : 0.0;
    }
    for (size_t i = 0; i < n; i++) {
        const double u = from->u[i];
        const double h = fmax(step_in_u * u, least_step * fabs(x[i]));
        /* The steps as they come out in numbers of 53 bits. */
        const double low = x[i] - h;
        const double high = x[i] + h;
        if (u > 0.0) {
            x[i] = low;
            from->figures(x, from->context, below);
            x[i] = high;
            from->figures(x, from->context, above);
            x[i] = from->x[i];
        }
        for (size_t k = 0; k < from->y_count; k++) {
            const double own = u > 0.0 ? (above[k] - below[k]) / (high - low) * u : 0.0;
            out[k] += own * own;
            if (from->parts != NULL) {
                from->parts[k * n + i] = own;
            }
            if (shares != NULL) {
                shares[k * n + i] = own * own;
            }
        }
    }
    for (size_t k = 0; k < from->y_count; k++) {
        out[k] = sqrt(out[k]);
    }
    return MENSUR_OK;
}
