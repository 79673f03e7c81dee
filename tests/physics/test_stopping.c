/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stopped string against sums over short straight pieces. */
#include "check.h"
#include "pitch.h"
#include "playing.h"
#include "with_solver.h"
#include "taut_string.h"

#include <float.h>
#include <gsl/gsl_errno.h>

/* Strings on their instruments; the clearance grows linearly from the nut to the board's end.
 * Computed strings, no maker's. */
static struct stopped {
    const char *name;
    struct mensur_stopping string; /* m, N, kg/m, N, m, m */
    double at_nut, slope;          /* clearance at the nut, and its growth per m */
} strings[] = {
    {"steel E, held at nut and bridge",
     {0.328, 77.95, 0.000416779, 10618.6, 0.328, 0},
     0.0004,
     0.014},
    {"steel E, sliding", {0.328, 77.95, 0.000416779, 10618.6, 0.398, 0}, 0.0004, 0.014},
    {"gut A", {0.3757, 53.7, 0.00049131, 2177.6, 0.3757, 0.0009}, 0.0005, 0.016},
    {"cello's C, rope core", {0.6895, 137, 0.0169471, 31000, 0.83, 0}, 0.0007, 0.0121},
    {"no stretch", {0.328, 50, 0.0006, 0, 0.328, 0}, 0.0004, 0.014},
    {"no clearance", {0.328, 50, 0.0006, 9000, 0.34, 0}, 0, 0},
    {"7.3 m of rope", {7.3, 31, 0.041, 800, 7.3, 0}, 0.02, 0.03},
};

static const double parts[] = {0.0031, 0.0561, 0.1091, 0.2508, 0.3326, 0.5, 0.7491, 0.83, 0.987};

/* The sums need the precision of a long double, which valgrind reduces to a double's: there the
 * tolerance is 1e-9. */
static double tolerance_here(double tolerance) {
    volatile long double one = 1.0L;
    return one + LDBL_EPSILON > one ? tolerance : 1e-9;
}

/* Length from (x0, y0) to (x1, y1) as the sum of short straight pieces. */
static long double length_by_pieces(long double x0, long double y0, long double x1,
                                    long double y1) {
    const int pieces = 1000;
    long double sum = 0.0L, last_x = x0, last_y = y0;
    for (int i = 1; i <= pieces; i++) {
        long double x = x0 + (x1 - x0) * (long double)i / (long double)pieces;
        long double y = y0 + (y1 - y0) * (long double)i / (long double)pieces;
        sum += hypotl(x - last_x, y - last_y);
        last_x = x;
        last_y = y;
    }
    return sum;
}

/* Frequency of the pressed string: its path measured in pieces, Hooke's law for the tension, the
 * same mass on the longer path, and the taut string's law for the sounding part. */
static long double by_pieces(const struct mensur_stopping *s, double clearance, double x) {
    long double length = s->length, c = clearance, place = x;
    long double sounding = length_by_pieces(place, -c, length, 0.0L);
    long double more = length_by_pieces(0.0L, 0.0L, place, -c) + sounding - length;
    long double strain = more / (long double)s->stretch_length;
    long double tension = (long double)s->tension + (long double)s->stiffness * strain;
    long double density = (long double)s->linear_density * (long double)s->stretch_length /
                          ((long double)s->stretch_length + more);
    return sqrtl(tension / density) / (2.0L * (sounding - (long double)s->soft_end));
}

/* The pitch of a string that is stopped. */
static enum mensur_status stopped_pitch(const struct mensur_stopping *string, double clearance,
                                        double x, double *frequency) {
    struct mensur_stopped way = {NAN, NAN};
    enum mensur_status status = mensur_stopped_way(string->length, clearance, x, &way);
    *frequency = NAN;
    return status == MENSUR_OK ? mensur_stopped_frequency(string, &way, frequency) : status;
}

static void against_pieces(void **state) {
    (void)state;
    double worst = 0.0;
    for (size_t i = 0; i < COUNT_OF(strings); i++) {
        for (size_t j = 0; j < COUNT_OF(parts); j++) {
            const struct mensur_stopping *s = &strings[i].string;
            double x = parts[j] * s->length, found;
            double c = strings[i].at_nut + strings[i].slope * x;
            check_status(strings[i].name, stopped_pitch(s, c, x, &found), MENSUR_OK);
            double want = (double)by_pieces(s, c, x);
            check_close(strings[i].name, found, want, 0, tolerance_here(1e-12));
            struct mensur_stopped stopped = {NAN, NAN};
            check_status(strings[i].name, mensur_stopped_way(s->length, c, x, &stopped), MENSUR_OK);
            long double sounding = hypotl((long double)s->length - x, c);
            long double more = hypotl(x, c) + sounding - (long double)s->length;
            check_close("sounding", stopped.sounding, (double)sounding, 0, tolerance_here(1e-15));
            check_close("stretch", stopped.stretch, (double)more, tolerance_here(1e-18), 1e-15);
            worst = fmax(worst, fabs(found / want - 1.0));
        }
    }
    print_message("# pitch against pieces: off by %.1e at most\n", worst);
}

/* Without stiffness the rise is geometry alone and depends on neither tension nor density; without
 * clearance the pitch is that of the simple law. */
static void reduces(void **state) {
    (void)state;
    for (size_t j = 0; j < COUNT_OF(parts); j++) {
        struct mensur_stopping a = {0.328, 50, 0.0006, 0, 0.391, 0};
        struct mensur_stopping b = {0.328, 1.7, 0.083, 0, 0.391, 0};
        double x = parts[j] * 0.328, open_a, open_b, stopped_a, stopped_b;
        check_status("a", mensur_string_frequency(0.328, 50, 0.0006, &open_a), MENSUR_OK);
        check_status("b", mensur_string_frequency(0.328, 1.7, 0.083, &open_b), MENSUR_OK);
        check_status("a", stopped_pitch(&a, 0.004, x, &stopped_a), MENSUR_OK);
        check_status("b", stopped_pitch(&b, 0.004, x, &stopped_b), MENSUR_OK);
        check_close("geometry alone", stopped_a / open_a, stopped_b / open_b, 0, 1e-15);
        double more = hypot(x, 0.004) + hypot(0.328 - x, 0.004) - 0.328;
        double want = 0.328 / hypot(0.328 - x, 0.004) * sqrt(1 + more / 0.391);
        check_close("geometry alone", stopped_a / open_a, want, 0, 1e-14);
        a.stiffness = 12000;
        check_status("simple law", stopped_pitch(&a, 0, x, &stopped_a), MENSUR_OK);
        check_close("simple law", stopped_a, open_a * 0.328 / (0.328 - x), 0, 1e-14);
    }
}

/* The stretch of a steel string raises the pitch far more than its longer path lowers it, and more
 * for the string held at both ends than for the one that slides (topic 9 of the check values,
 * property). */
static void signs(void **state) {
    (void)state;
    struct mensur_stopping held = strings[0].string, slides = strings[1].string;
    struct mensur_stopping slack = held;
    slack.stiffness = 0;
    double x = 0.109, c = 0.0019, upper, lower, without;
    check_status("held", stopped_pitch(&held, c, x, &upper), MENSUR_OK);
    check_status("slides", stopped_pitch(&slides, c, x, &lower), MENSUR_OK);
    check_status("slack", stopped_pitch(&slack, c, x, &without), MENSUR_OK);
    double simple = sqrt(held.tension / held.linear_density) / (2 * (0.328 - 0.109));
    assert_true(upper > lower);
    assert_true(lower > simple);
    assert_true(upper - simple > 10 * fabs(without - simple));
}

static double clearance_on(double x, void *context) {
    const struct stopped *row = context;
    return row->at_nut + row->slope * x;
}

static double on_short_board(double x, void *context) {
    return x <= 0.1 ? clearance_on(x, context) : NAN;
}

static double on_loose_piece(double x, void *context) {
    return x >= 0.086 ? clearance_on(x, context) + 0.004 : NAN;
}

static double under_the_board(double x, void *context) {
    (void)context;
    return -0.001 - x;
}

/* Bisection in long double until the interval is exhausted. */
static long double place_by_halving(const struct stopped *row, long double note, long double low,
                                    long double high) {
    for (int i = 0; i < 60; i++) {
        long double middle = 0.5L * (low + high);
        long double c = row->at_nut + row->slope * middle;
        if (by_pieces(&row->string, (double)c, (double)middle) < note) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5L * (low + high);
}

static void true_places(void **state) {
    (void)state;
    const double semitones[] = {1, 2, 4.37, 7, 12, 19, 24, 31};
    for (size_t i = 0; i < COUNT_OF(strings); i++) {
        const struct mensur_stopping *s = &strings[i].string;
        for (size_t j = 0; j < COUNT_OF(semitones); j++) {
            double open, x, back;
            check_status("open",
                         mensur_string_frequency(s->length, s->tension, s->linear_density, &open),
                         MENSUR_OK);
            double note = open * exp2(semitones[j] / 12);
            double simple = s->length * (1 - open / note);
            check_status(strings[i].name,
                         mensur_true_place(solver, s, note, clearance_on, &strings[i], &x),
                         MENSUR_OK);
            check_status(strings[i].name, stopped_pitch(s, clearance_on(x, &strings[i]), x, &back),
                         MENSUR_OK);
            check_close(strings[i].name, back, note, 0, 1e-13);
            long double want = place_by_halving(&strings[i], note, 0.5L * simple,
                                                fminl(1.2L * simple, 0.999L * s->length));
            check_close(strings[i].name, x, (double)want, tolerance_here(1e-13) * s->length, 0);
        }
    }
}

/* Nearer the nut than the simple place where the string stretches, and the more so the higher it
 * lies (topic 9 of the check values, direction of compensation); past it where it does not. */
static void directions(void **state) {
    (void)state;
    struct stopped low = strings[0], high = strings[0], slack = strings[4];
    high.at_nut *= 2;
    high.slope *= 2;
    for (int semitones = 5; semitones <= 24; semitones++) {
        double x_low, x_high, x_slack, open;
        check_status(
            "open",
            mensur_string_frequency(0.328, low.string.tension, low.string.linear_density, &open),
            MENSUR_OK);
        double note = open * exp2(semitones / 12.0), simple = 0.328 * (1 - exp2(-semitones / 12.0));
        check_status("low",
                     mensur_true_place(solver, &low.string, note, clearance_on, &low, &x_low),
                     MENSUR_OK);
        check_status("high",
                     mensur_true_place(solver, &high.string, note, clearance_on, &high, &x_high),
                     MENSUR_OK);
        assert_true(x_high < x_low && x_low < simple);
        check_status("open", mensur_string_frequency(0.328, 50, 0.0006, &open), MENSUR_OK);
        check_status("slack",
                     mensur_true_place(solver, &slack.string, open * exp2(semitones / 12.0),
                                       clearance_on, &slack, &x_slack),
                     MENSUR_OK);
        if (semitones > 7) { /* nearer the nut the lower density outweighs the longer path */
            assert_true(x_slack > simple);
        }
    }
}

static const struct {
    const char *name;
    struct mensur_stopping string;
    double clearance, x;
} refusals[] = {
    {"no length", {0, 50, 0.0006, 9000, 0.328, 0}, 0.001, 0.1},
    {"no tension", {0.328, 0, 0.0006, 9000, 0.328, 0}, 0.001, 0.1},
    {"density unknown", {0.328, 50, NAN, 9000, 0.328, 0}, 0.001, 0.1},
    {"stiffness negative", {0.328, 50, 0.0006, -1, 0.328, 0}, 0.001, 0.1},
    {"stiffness unknown", {0.328, 50, 0.0006, NAN, 0.328, 0}, 0.001, 0.1},
    {"shorter stretch than string", {0.328, 50, 0.0006, 9000, 0.3279, 0}, 0.001, 0.1},
    {"stretch infinite", {0.328, 50, 0.0006, 9000, INFINITY, 0}, 0.001, 0.1},
    {"under the board", {0.328, 50, 0.0006, 9000, 0.328, 0}, -0.001, 0.1},
    {"clearance unknown", {0.328, 50, 0.0006, 9000, 0.328, 0}, NAN, 0.1},
    {"at the nut", {0.328, 50, 0.0006, 9000, 0.328, 0}, 0.001, 0},
    {"at the bridge", {0.328, 50, 0.0006, 9000, 0.328, 0}, 0.001, 0.328},
    {"soft end negative", {0.328, 50, 0.0006, 9000, 0.328, -1e-4}, 0.001, 0.1},
    {"soft end unknown", {0.328, 50, 0.0006, 9000, 0.328, NAN}, 0.001, 0.1},
    {"soft end past the bridge", {0.328, 50, 0.0006, 9000, 0.328, 0.3}, 0.001, 0.1},
    {"place unknown", {0.328, 50, 0.0006, 9000, 0.328, 0}, 0.001, NAN},
};

static void refuses(void **state) {
    (void)state;
    double found = 12.5;
    const struct mensur_stopped untouched = {12.5, 12.5};
    struct mensur_stopped way = untouched;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        const struct mensur_stopping *string = &refusals[i].string;
        enum mensur_status status =
            mensur_stopped_way(string->length, refusals[i].clearance, refusals[i].x, &way);
        if (status == MENSUR_OK) {
            status = mensur_stopped_frequency(string, &way, &found);
            way = untouched;
        }
        check_status(refusals[i].name, status, MENSUR_DOMAIN);
    }
    for (size_t i = 0; i < 7; i++) {
        check_status(
            refusals[i].name,
            mensur_true_place(solver, &refusals[i].string, 600, clearance_on, &strings[0], &found),
            MENSUR_DOMAIN);
    }
    check_close("untouched", found, 12.5, 0, 0);
    check_close("untouched", way.stretch, 12.5, 0, 0);
    check_close("untouched", way.sounding, 12.5, 0, 0);
    check_status(
        "no way",
        mensur_stopped_frequency(&strings[0].string, &(struct mensur_stopped){NAN, 0.1}, &found),
        MENSUR_DOMAIN);
    check_status(
        "no way",
        mensur_stopped_frequency(&strings[0].string, &(struct mensur_stopped){1e-4, 0}, &found),
        MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
}

static void no_true_place(void **state) {
    (void)state;
    const struct mensur_stopping *s = &strings[0].string; /* E5, 659.26 Hz */
    struct stopped steep = strings[0];
    steep.at_nut = 0.03;
    double x = 12.5;
    check_status("no note", mensur_true_place(solver, s, 0, clearance_on, &strings[0], &x),
                 MENSUR_DOMAIN);
    check_status("unknown", mensur_true_place(solver, s, NAN, clearance_on, &strings[0], &x),
                 MENSUR_DOMAIN);
    check_status("no board", mensur_true_place(solver, s, 880, NULL, NULL, &x), MENSUR_DOMAIN);
    check_status("under the string",
                 mensur_true_place(solver, s, 440, clearance_on, &strings[0], &x),
                 MENSUR_NO_ANSWER);
    check_status("the string itself",
                 mensur_true_place(solver, s, 659.2, clearance_on, &strings[0], &x),
                 MENSUR_NO_ANSWER);
    check_status("past the board",
                 mensur_true_place(solver, s, 1100, on_short_board, &strings[0], &x),
                 MENSUR_NO_ANSWER);
    check_status("in the board", mensur_true_place(solver, s, 880, under_the_board, NULL, &x),
                 MENSUR_NO_ANSWER);
    check_status("ends before it",
                 mensur_true_place(solver, s, 900, on_loose_piece, &strings[0], &x),
                 MENSUR_NO_ANSWER);
    check_status("too high a nut", mensur_true_place(solver, s, 700, clearance_on, &steep, &x),
                 MENSUR_NO_ANSWER);
    check_close("untouched", x, 12.5, 0, 0);
    check_status("on the short board",
                 mensur_true_place(solver, s, 900, on_short_board, &strings[0], &x), MENSUR_OK);
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(against_pieces), cmocka_unit_test(reduces),    cmocka_unit_test(signs),
        cmocka_unit_test(true_places),    cmocka_unit_test(directions), cmocka_unit_test(refuses),
        cmocka_unit_test(no_true_place),
    };
    return cmocka_run_group_tests(tests, make_solver, free_solver);
}
