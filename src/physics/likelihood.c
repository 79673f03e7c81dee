/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Probability that normal figures lie within ranges together: their parts are turned into
 * coefficients of independent standard normal directions z, each figure hanging on the first few of
 * them, and the directions are gone through one by one (Genz 1992, from memory).
 *
 * y_k = y + n_k (c_k1 z_1 + c_k2 z_2 + ...), n_k = √(Σ parts²); a and b are a range's ends from y,
 * in n_k. */
#include "likelihood.h"

#include <math.h>
#include <stdbool.h>

/* A row of parts of which less than this is left, in its own size, hangs on the directions before;
 * derivatives are good to about 1e-8. */
static const double least_left = 1e-6;

static const double root_half = 0.70710678118654752440;     /* 1/√2 */
static const double normal_height = 0.39894228040143267794; /* 1/√(2π) */

enum { POINTS = 4096 };

/* The directions are drawn from a logistic distribution of this scale, whose quantiles are closed,
 * and weighed by what the normal one is of it, 0.95 to 1.1 within two standard deviations. */
static const double logistic_scale = 0.6;

/* The figures on their way; rows are exchanged as they are taken. */
struct rows {
    size_t count; /* of the figures that some measurement moves */
    size_t width; /* of a row of parts */
    size_t rank;  /* directions */
    double *left; /* what of each row's parts is left, width numbers each */
    double *of;   /* coefficients c, count numbers each */
    double *from; /* a; -INFINITY open */
    double *to;   /* b */
    double *z;    /* the point */
};

static double cdf(double z) {
    return 0.5 * erfc(-z * root_half);
}

/* Normal probability between two ends; where both are positive their complements lose no digits. */
static double between(double from, double to) {
    return from > 0.0 ? cdf(-from) - cdf(-to) : cdf(to) - cdf(from);
}

static double size_of(const double *row, size_t width) {
    double sum = 0.0;
    for (size_t i = 0; i < width; i++) {
        sum += row[i] * row[i];
    }
    return sqrt(sum);
}

static void exchange(double *a, double *b, size_t count) {
    for (size_t i = 0; i < count; i++) {
        double kept = a[i];
        a[i] = b[i];
        b[i] = kept;
    }
}

/* Takes the figures that move, each in its own size. False where one that does not move lies
 * outside its range: nothing is likely then. */
static bool take(const struct mensur_ranges *ranges, struct rows *rows) {
    for (size_t k = 0; k < ranges->y_count; k++) {
        const double *parts = ranges->parts + k * ranges->x_count;
        double size = size_of(parts, ranges->x_count);
        double from = ranges->low[k] - ranges->y[k];
        double to = ranges->high[k] - ranges->y[k];
        /* Rounding of the figure's own digits is no reason to be outside. */
        double rounding = 1e-12 * fabs(ranges->y[k]);
        if (size <= rounding) {
            if (from > rounding || to < -rounding) {
                return false;
            }
            continue;
        }
        double *row = rows->left + rows->count * rows->width;
        for (size_t i = 0; i < rows->width; i++) {
            row[i] = parts[i] / size;
        }
        rows->from[rows->count] = isnan(from) ? -INFINITY : from / size;
        rows->to[rows->count] = isnan(to) ? INFINITY : to / size;
        rows->count++;
    }
    return true;
}

/* Puts the row of which most is left in place j, with its range and its coefficients. */
static double bring_forward(struct rows *rows, size_t j) {
    size_t most = j;
    double size = 0.0;
    for (size_t k = j; k < rows->count; k++) {
        double own = size_of(rows->left + k * rows->width, rows->width);
        if (own > size) {
            most = k;
            size = own;
        }
    }
    exchange(rows->left + j * rows->width, rows->left + most * rows->width, rows->width);
    exchange(rows->of + j * rows->count, rows->of + most * rows->count, rows->count);
    exchange(&rows->from[j], &rows->from[most], 1);
    exchange(&rows->to[j], &rows->to[most], 1);
    return size;
}

/* Gram and Schmidt with the largest row first: a new direction as long as one is left. */
static void find_directions(struct rows *rows) {
    for (size_t i = 0; i < rows->count * rows->count; i++) {
        rows->of[i] = 0.0;
    }
    for (size_t j = 0; j < rows->count; j++) {
        double size = bring_forward(rows, j);
        double *direction = rows->left + j * rows->width;
        if (size < least_left) {
            return;
        }
        rows->rank = j + 1;
        rows->of[j * rows->count + j] = size;
        for (size_t i = 0; i < rows->width; i++) {
            direction[i] /= size;
        }
        for (size_t k = j + 1; k < rows->count; k++) {
            double *row = rows->left + k * rows->width;
            double along = 0.0;
            for (size_t i = 0; i < rows->width; i++) {
                along += row[i] * direction[i];
            }
            for (size_t i = 0; i < rows->width; i++) {
                row[i] -= along * direction[i];
            }
            rows->of[k * rows->count + j] = fabs(along) < least_left ? 0.0 : along;
        }
    }
}

/* Whether direction j is the last that a row hangs on. */
static bool ends_at(const struct rows *rows, const double *of, size_t j) {
    if (!(fabs(of[j]) > 0.0)) {
        return false;
    }
    for (size_t l = j + 1; l < rows->rank; l++) {
        if (fabs(of[l]) > 0.0) {
            return false;
        }
    }
    return true;
}

/* Where z_j may lie, those before it being known. */
static void limits(const struct rows *rows, size_t j, double *low, double *high) {
    *low = -INFINITY;
    *high = INFINITY;
    for (size_t k = 0; k < rows->count; k++) {
        const double *of = rows->of + k * rows->count;
        if (!ends_at(rows, of, j)) {
            continue;
        }
        double before = 0.0;
        for (size_t l = 0; l < j; l++) {
            before += of[l] * rows->z[l];
        }
        double from = (rows->from[k] - before) / of[j];
        double to = (rows->to[k] - before) / of[j];
        *low = fmax(*low, fmin(from, to));
        *high = fmin(*high, fmax(from, to));
    }
}

static double logistic(double z) {
    return 1.0 / (1.0 + exp(-z / logistic_scale));
}

/* Puts z where the share w of the logistic distribution between two ends lies, and gives the weight
 * of that point. */
static double draw(double low, double high, double w, double *z) {
    double first = logistic(low);
    double span = logistic(high) - first;
    double share = first + w * span;
    *z = logistic_scale * log(share / (1.0 - share));
    double density = share * (1.0 - share) / logistic_scale;
    double normal = normal_height * exp(-0.5 * *z * *z);
    return density > 0.0 ? span * normal / density : 0.0;
}

static unsigned next_prime(unsigned after) {
    for (unsigned n = after + 1;; n++) {
        bool prime = true;
        for (unsigned d = 2; d * d <= n && prime; d++) {
            prime = n % d != 0;
        }
        if (prime) {
            return n;
        }
    }
}

/* The probability by one point of the lattice: steps of 1/POINTS in the first direction, in the
 * others of the square roots of the primes. */
static double at_point(struct rows *rows, int point) {
    double weight = 1.0;
    double low;
    double high;
    unsigned prime = 1;
    for (size_t j = 0;; j++) {
        limits(rows, j, &low, &high);
        if (!(high > low)) {
            return 0.0;
        }
        if (j + 1 == rows->rank) {
            return weight * between(low, high);
        }
        double w = (point + 0.5) / POINTS;
        if (j > 0) {
            prime = next_prime(prime);
            w = (point + 0.5) * sqrt(prime);
            w -= floor(w);
        }
        weight *= draw(low, high, w, &rows->z[j]);
        if (!(weight > 0.0)) {
            return 0.0;
        }
    }
}

enum mensur_status mensur_likelihood(const struct mensur_ranges *ranges, double *out) {
    const size_t n = ranges->x_count;
    const size_t m = ranges->y_count;
    struct rows rows = {.width = n, .left = ranges->work};
    rows.from = rows.left + m * n;
    rows.to = rows.from + m;
    rows.z = rows.to + m;
    rows.of = rows.z + m;
    for (size_t k = 0; k < m; k++) {
        if (!isfinite(ranges->y[k]) || !isfinite(size_of(ranges->parts + k * n, n))) {
            return MENSUR_DOMAIN;
        }
    }
    if (!take(ranges, &rows)) {
        *out = 0.0;
        return MENSUR_OK;
    }
    find_directions(&rows);
    int points = rows.rank > 1 ? POINTS : 1;
    double sum = 0.0;
    for (int point = 0; rows.count > 0 && point < points; point++) {
        sum += at_point(&rows, point);
    }
    *out = rows.count == 0 ? 1.0 : fmin(fmax(sum / points, 0.0), 1.0);
    return MENSUR_OK;
}
