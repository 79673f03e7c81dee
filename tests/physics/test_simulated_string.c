/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The laws of the taut and the stiff string against a numerical simulation of a string.
 *
 *     mu u_tt = T u_xx - E I u_xxxx,  u = u_xx = 0 at both ends,
 * by central differences in place and time (leapfrog), plucked at 0.137 of its length, recorded
 * at 0.313; the frequencies are read from the spectrum (GSL's FFT, Hann's window, the peak
 * interpolated between two lines by the ratio of their sizes). The laws are not used here. The
 * error of the differences is proportional to the square of the step: each frequency is computed on
 * two meshes and extrapolated (Richardson).
 *
 * Reached with these meshes (and printed by the test): fundamental of the flexible string 1e-9 of
 * itself; partials 1 to 7 of the stiff one 4e-12 to 4e-7, B from them 2e-6 to 9e-6. */
#include "check.h"
#include "string_build.h"
#include "taut_string.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_fft_real.h>

#define POINTS_MOST 200
#define SAMPLES 32768
#define PARTIALS 7

struct simulated {
    double length, tension, density, bending; /* m, N, kg/m, E I in N m2 */
    double step;                              /* s, on the coarse mesh */
    int pieces;                               /* of the coarse mesh */
    int every;                                /* coarse steps from one sample to the next */
};

/* The ends are points 1 and pieces + 1; there is one more point beyond each. */
struct mesh {
    double now[POINTS_MOST + 3], before[POINTS_MOST + 3];
    int pieces;
    double stretch, bend; /* T dt^2/(mu h^2), E I dt^2/(mu h^4) */
};

static void pluck(struct mesh *mesh) {
    memset(mesh->now, 0, sizeof mesh->now);
    for (int i = 1; i < mesh->pieces; i++) {
        double x = (double)i / mesh->pieces;
        mesh->now[i + 1] = x < 0.137 ? x / 0.137 : (1.0 - x) / (1.0 - 0.137);
    }
    memcpy(mesh->before, mesh->now, sizeof mesh->now);
}

static double push(const struct mesh *mesh, const double *u) {
    double second = u[-1] - 2.0 * u[0] + u[1];
    double fourth = u[-2] - 4.0 * u[-1] + 6.0 * u[0] - 4.0 * u[1] + u[2];
    return mesh->stretch * second - mesh->bend * fourth;
}

/* One step in time; a point beyond a pinned end is minus its neighbour on the other side. */
static void move(struct mesh *mesh) {
    double *u = mesh->now, next[POINTS_MOST + 3];
    int end = mesh->pieces + 1;
    u[0] = -u[2];
    u[end + 1] = -u[end - 1];
    for (int i = 2; i < end; i++) {
        next[i] = 2.0 * u[i] - mesh->before[i] + push(mesh, u + i);
    }
    memcpy(mesh->before, u, sizeof mesh->now);
    memcpy(u + 2, next + 2, sizeof(double) * (size_t)(end - 2));
}

/* The sound at 0.313 of the string, windowed. */
static void record(const struct simulated *string, int finer, double *sound) {
    struct mesh mesh;
    double dt = string->step / finer;
    mesh.pieces = string->pieces * finer;
    double h = string->length / mesh.pieces;
    mesh.stretch = string->tension * dt * dt / (string->density * h * h);
    mesh.bend = string->bending * dt * dt / (string->density * h * h * h * h);
    pluck(&mesh);
    int ear = (int)lround(0.313 * mesh.pieces) + 1;
    for (int i = 0; i < SAMPLES; i++) {
        double window = 0.5 - 0.5 * cos(2.0 * 3.14159265358979323846 * i / SAMPLES);
        sound[i] = window * mesh.now[ear];
        for (int j = 0; j < string->every * finer; j++) {
            move(&mesh);
        }
    }
}

static double size_at(const double *spectrum, int line) {
    return hypot(spectrum[line], spectrum[SAMPLES - line]); /* GSL's half-complex order */
}

/* Frequency of the greatest line between two frequencies, placed between lines: under Hann's window
 * the peak between two neighbours of sizes a and b is (2 b - a)/(a + b) of a line past the first.
 */
static double peak(const double *spectrum, double per_line, double low, double high) {
    int greatest = (int)(low / per_line);
    for (int i = greatest; i <= (int)(high / per_line); i++) {
        greatest = size_at(spectrum, i) > size_at(spectrum, greatest) ? i : greatest;
    }
    int first =
        size_at(spectrum, greatest - 1) > size_at(spectrum, greatest + 1) ? greatest - 1 : greatest;
    double a = size_at(spectrum, first), b = size_at(spectrum, first + 1);
    return per_line * (first + (2.0 * b - a) / (a + b));
}

/* Frequencies of the first partials on one mesh, searched for around multiples of an approximate
 * fundamental. */
static void find_partials(const struct simulated *string, int finer, double rough, int count,
                          double *partials) {
    double *sound = malloc(SAMPLES * sizeof *sound);
    assert_non_null(sound);
    record(string, finer, sound);
    assert_int_equal(gsl_fft_real_radix2_transform(sound, 1, SAMPLES), GSL_SUCCESS);
    double per_line = 1.0 / (SAMPLES * string->every * string->step);
    for (int n = 1; n <= count; n++) {
        partials[n - 1] = peak(sound, per_line, (n - 0.4) * rough, (n + 0.4) * rough);
    }
    free(sound);
}

static void measure(const struct simulated *string, double rough, int count, double *partials) {
    double coarse[PARTIALS], fine[PARTIALS];
    find_partials(string, 1, rough, count, coarse);
    find_partials(string, 2, rough, count, fine);
    for (int i = 0; i < count; i++) {
        partials[i] = fine[i] + (fine[i] - coarse[i]) / 3.0;
    }
}

static void flexible_string(void **state) {
    (void)state;
    /* about a viola's D: 295 Hz */
    const struct simulated string = {0.3757, 47.3, 0.00096, 0, 12.8e-6, 100, 1};
    double heard[3], law, tension;
    measure(&string, 290, 3, heard);
    check_status("law",
                 mensur_string_frequency(string.length, string.tension, string.density, &law),
                 MENSUR_OK);
    print_message("# flexible: heard %.9f Hz, law %.9f Hz, off by %.1e\n", heard[0], law,
                  heard[0] / law - 1.0);
    check_close("fundamental", heard[0], law, 0, 1e-8);
    check_close("octave", heard[1], 2 * law, 0, 1e-7);
    check_close("twelfth", heard[2], 3 * law, 0, 1e-6);
    check_status("tension", mensur_tension(string.length, heard[0], string.density, &tension),
                 MENSUR_OK);
    check_close("tension", tension, string.tension, 0, 2e-8);
}

static void stiff_string(void **state) {
    (void)state;
    /* 0.9 mm of steel on 328 mm: thicker than any violin string, for a large inharmonicity */
    const double modulus = 203e9, diameter = 0.0009;
    double second_moment, density, law, b, heard[PARTIALS];
    check_status("wire", mensur_core_second_moment(diameter, 1, &second_moment), MENSUR_OK);
    check_status("wire", mensur_plain_density(diameter, 7850, &density), MENSUR_OK);
    const struct simulated wire = {0.328, 310, density, modulus * second_moment, 2.2e-6, 100, 4};
    measure(&wire, 379, PARTIALS, heard);
    check_status("law", mensur_string_frequency(0.328, 310, density, &law), MENSUR_OK);
    check_status("B", mensur_inharmonicity(0.328, 310, modulus, second_moment, &b), MENSUR_OK);
    for (int n = 1; n <= PARTIALS; n++) {
        double partial, stretched = heard[n - 1] / (n * heard[0]);
        check_status("partial", mensur_partial_frequency(law, b, n, &partial), MENSUR_OK);
        check_close("partial", heard[n - 1], partial, 0, n < 4 ? 1e-7 : 1e-6);
        /* B from the simulated partials alone: (f_n/(n f_1))^2 = (1 + B n^2)/(1 + B). */
        double ratio = stretched * stretched;
        double heard_b = (ratio - 1.0) / (n * n - ratio);
        print_message("# stiff, partial %d: off by %.1e, B by %.1e\n", n,
                      heard[n - 1] / partial - 1.0, n > 1 ? heard_b / b - 1.0 : 0.0);
        if (n > 1) {
            check_close("B", heard_b, b, 0, 2e-5);
        }
    }
}

int main(void) {
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flexible_string),
        cmocka_unit_test(stiff_string),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
