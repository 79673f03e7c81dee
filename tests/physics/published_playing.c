/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topics 5 and 9 of the published table: bow force, and the stopped string. Laws are checked as the
 * law, typed here, over the library's value. */
#include "published_checks.h"

#include "check.h"
#include "pitch.h"
#include "playing.h"
#include "taut_string.h"

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

/* A string, bow and bridge with no round number. */
static const double z = 0.2137, v = 0.173, delta = 0.41, beta = 0.0877, r = 283.0;

static size_t greatest_law(const struct published_row *row, double *out) {
    double force;
    MUST(mensur_bow_force_greatest(z, v, delta, beta, &force));
    out[0] = 2 * z * v / (beta * delta) / force;
    return 1;
}

/* The bridge's series for an admittance of 1/R: its range over the period is found by summing N
 * terms; the terms beyond are added as 1/N - 1/(2 N^2) at theta = pi, -1/(2 N^2) at theta = 0. */
static size_t least_from_series(const struct published_row *row, double *out) {
    const int terms = 200000;
    double low = 0.0, high = 0.0, force;
    for (int n = terms; n >= 1; n--) {
        double term = 1.0 / ((double)n * n);
        high += term;                     /* theta = pi */
        low += n % 2 == 0 ? term : -term; /* theta = 0 */
    }
    high += 1.0 / terms - 0.5 / ((double)terms * terms);
    low -= 0.5 / ((double)terms * terms);
    MUST(mensur_bow_force_least(z, v, delta, beta, r, &force));
    double pi = 3.14159265358979323846;
    double prefactor = 2 * v * z * z / (pi * pi * beta * beta * delta);
    out[0] = prefactor * (high - low) / r / force;
    return 1;
}

static size_t force_ratio(const struct published_row *row, double *out) {
    double most, least;
    MUST(mensur_bow_force_greatest(z, v, delta, beta, &most));
    MUST(mensur_bow_force_least(z, v, delta, beta, r, &least));
    out[0] = 4 * r * beta / z / (most / least);
    return 1;
}

static size_t worked_forces(const struct published_row *row, double *out) {
    double impedance = number_after(inputs(row), "Z0="), speed = number_after(inputs(row), "vb=");
    double place = number_after(inputs(row), "beta="),
           friction = number_after(inputs(row), "mu_d=");
    MUST(mensur_bow_force_greatest(impedance, speed, friction, place, &out[0]));
    MUST(mensur_bow_force_least(impedance, speed, friction, place, number_after(inputs(row), "R="),
                                &out[1]));
    out[2] = out[0] / out[1];
    return 3;
}

static size_t impedance_identity(const struct published_row *row, double *out) {
    double length = 0.3757, f = 219.3, mu = 0.00071, tension, impedance;
    MUST(mensur_tension(length, f, mu, &tension));
    MUST(mensur_impedance(tension, mu, &impedance));
    double speed = 2 * length * f;
    out[0] = tension / speed / impedance;
    out[1] = mu * speed / impedance;
    return 2;
}

/* A steel string with clearance c at x: pitch with and without its stiffness. */
static const struct mensur_stopping steel = {0.328, 77.95, 0.000416779, 10618.6, 0.391, 0};
static const double place = 0.109, clearance = 0.0019;

static void stop_both(const struct published_row *row, double *stiff, double *geometric) {
    struct mensur_stopping slack = steel;
    slack.stiffness = 0;
    struct mensur_stopped way;
    MUST(mensur_stopped_way(steel.length, clearance, place, &way));
    MUST(mensur_stopped_frequency(&steel, &way, stiff));
    MUST(mensur_stopped_frequency(&slack, &way, geometric));
}

/* dT of Hooke's law over the tension, for the longer path to the board. */
static double hooke(void) {
    long double c = clearance, x = place, rest = 0.328L - x;
    long double more = hypotl(x, c) - x + hypotl(rest, c) - rest;
    return (double)((long double)steel.stiffness * more / (long double)steel.stretch_length) /
           steel.tension;
}

static size_t stretch_law(const struct published_row *row, double *out) {
    double stiff, geometric;
    stop_both(row, &stiff, &geometric);
    double ratio = stiff / geometric;
    out[0] = hooke() / (ratio * ratio - 1);
    return 1;
}

static size_t pitch_rise(const struct published_row *row, double *out) {
    double stiff, geometric, cents;
    stop_both(row, &stiff, &geometric);
    MUST(mensur_cents(geometric, stiff, &cents));
    out[0] = 600 * log2(1 + hooke()) / cents;
    return 1;
}

/* 1 where the stretch raises the pitch by over ten times what the longer path lowers it. */
static size_t stretch_wins(const struct published_row *row, double *out) {
    double stiff, geometric;
    stop_both(row, &stiff, &geometric);
    double simple = sqrt(steel.tension / steel.linear_density) / (2 * (0.328 - place));
    out[0] = stiff - geometric > 10 * fabs(geometric - simple) ? 1 : 0;
    return 1;
}

static double clearance_at(double x, void *context) {
    const double *times = context;
    return *times * (0.0004 + 0.014 * x);
}

/* How much longer the sounding part must be than the simple law has it. */
static double longer(const struct published_row *row, const struct mensur_stopping *string,
                     double times) {
    double open, x;
    MUST(mensur_string_frequency(string->length, string->tension, string->linear_density, &open));
    MUST(mensur_true_place(published_solver, string, 1.5 * open, clearance_at, &times, &x));
    return string->length / 3 - x;
}

/* 1 where it is longer, and longer still for a higher, a slacker and a stiffer string. */
static size_t compensation(const struct published_row *row, double *out) {
    struct mensur_stopping slacker = steel, stiffer = steel;
    slacker.tension *= 0.8;
    stiffer.stiffness *= 1.2;
    double usual = longer(row, &steel, 1);
    bool more = longer(row, &steel, 1.3) > usual && longer(row, &slacker, 1) > usual &&
                longer(row, &stiffer, 1) > usual;
    out[0] = usual > 0 && usual < 0.003 && more ? 1 : 0;
    return 1;
}

#define T5 "5 bowed string"
#define T9 "9 stopped string"

const struct published_check playing_checks[] = {
    {T5, "maximum bow force", "f_max = 2 Z0 vb / (beta (mu_s - mu_d))", greatest_law, "1", "exact"},
    {T5, "same, from the verified series with Y=1/R",
     "range of sum (-1)^n cos(n theta)/n^2 is pi^2/4", least_from_series, "1", "1e-10"},
    {T5, "force-limit ratio", "f_max/f_min = 4 R beta / Z0", force_ratio, "1", NULL},
    {T5, "worked numbers", "Z0=0.25 kg/s; vb=0.1 m/s; beta=0.1; mu_s-mu_d=0.5; R=100 kg/s",
     worked_forces, NULL, NULL},
    {T5, "wave impedance", "Z=sqrt(T mu)=T/c=mu c=2 L f mu", impedance_identity, "1; 1", NULL},
    {T9, "elastic stretch law", "dL = (1/Y)(F/A) L0, so dT = E A dL/L", stretch_law, "1", "1e-12"},
    {T9, "pitch rise", "cents = 600 log2(1 + dT/T) when length effects are taken separately",
     pitch_rise, "1", "1e-12"},
    {T9, "sign and size of the effects", "guitar", stretch_wins, "1", "exact"},
    {T9, "direction of compensation", "fretted strings", compensation, "1", "exact"},
};
const size_t playing_check_count = COUNT_OF(playing_checks);
