/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "string_build.h"

static const double pi = 3.14159265358979323846;

/* A string in mm and kg/m3, up to three windings. */
static const struct built {
    const char *name;
    double core, density;
    size_t count;
    struct mensur_winding windings[3];
} built[] = {
    {"plain steel", 0.26, 7850, 0, {{0, 0, false, 0}}},
    {"gut, silver wire", 0.71, 1300, 1, {{0.117, 10490, false, 0}}},
    {"steel rope, three layers",
     0.93,
     7800,
     3,
     {{0.08, 8440, false, 0}, {0.13, 19300, true, 0}, {0.05, 8908, true, 0}}},
    {"winding of 1 nm", 0.5, 1140, 1, {{1e-9, 2700, true, 0}}},
    {"core of 0.1 micrometres", 1e-7, 1140, 2, {{0.7, 19300, true, 0}, {0.21, 7190, false, 0}}},
};

static struct mensur_winding *in_metres(const struct built *row, struct mensur_winding out[3]) {
    for (size_t i = 0; i < row->count; i++) {
        out[i] = row->windings[i];
        out[i].thickness *= 1e-3;
    }
    return out;
}

/* Rings as differences of circles, in long double: another form than the library's. */
static long double density_by_circles(double core, double density,
                                      const struct mensur_winding *windings, size_t count) {
    long double d = core;
    long double sum = (long double)density * d * d;
    long double quarter = acosl(-1.0L) / 4.0L;
    for (size_t i = 0; i < count; i++) {
        long double wider = d + 2.0L * (long double)windings[i].thickness;
        long double fill = windings[i].flat ? 1.0L : quarter;
        sum += (long double)windings[i].density * fill * (wider * wider - d * d);
        d = wider;
    }
    return quarter * sum;
}

static void densities(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(built); i++) {
        struct mensur_winding windings[3] = {{0, 0, false, 0}};
        double found;
        double core = built[i].core * 1e-3;
        check_status(built[i].name,
                     mensur_wrapped_density(core, built[i].density, in_metres(&built[i], windings),
                                            built[i].count, &found),
                     MENSUR_OK);
        long double want = density_by_circles(core, built[i].density, windings, built[i].count);
        check_close(built[i].name, found, (double)want, 0, 1e-14);
    }
    double plain, wrapped;
    check_status("plain", mensur_plain_density(0.00081, 1291.5, &plain), MENSUR_OK);
    check_status("bare", mensur_wrapped_density(0.00081, 1291.5, NULL, 0, &wrapped), MENSUR_OK);
    check_close("plain", plain, pi / 4 * 1291.5 * 0.00081 * 0.00081, 0, 1e-15);
    check_close("bare", wrapped, plain, 0, 0);
}

static void diameters(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(built); i++) {
        struct mensur_winding windings[3] = {{0, 0, false, 0}};
        double found, want = built[i].core;
        for (size_t j = 0; j < built[i].count; j++) {
            want += 2 * built[i].windings[j].thickness;
        }
        check_status(built[i].name,
                     mensur_outer_diameter(built[i].core * 1e-3, in_metres(&built[i], windings),
                                           built[i].count, &found),
                     MENSUR_OK);
        check_close(built[i].name, found, want * 1e-3, 0, 1e-15);
    }
}

static void cores(void **state) {
    (void)state;
    double area, solid, rope;
    check_status("area", mensur_core_area(0.00073, &area), MENSUR_OK);
    check_close("area", area, pi * 0.00073 * 0.00073 / 4, 0, 1e-15);
    check_status("solid", mensur_core_second_moment(0.00073, 1, &solid), MENSUR_OK);
    check_close("solid", solid, pi * pow(0.00073, 4) / 64, 0, 1e-15);
    /* I = A d^2/16; a rope of n strands of the same area bends n times as easily. */
    check_close("solid", solid, area * 0.00073 * 0.00073 / 16, 0, 1e-15);
    const double strands[] = {7, 19, 112};
    for (size_t i = 0; i < COUNT_OF(strands); i++) {
        double one = 0.00073 / sqrt(strands[i]);
        check_status("rope", mensur_core_second_moment(0.00073, strands[i], &rope), MENSUR_OK);
        check_close("rope", rope, strands[i] * pi * pow(one, 4) / 64, 0, 1e-14);
    }
}

static const struct {
    const char *name;
    double core, density;
    size_t count;
    struct mensur_winding winding;
} refusals[] = {
    {"no core", 0, 7850, 0, {0, 0, false, 0}},
    {"core unknown", NAN, 7850, 1, {1e-4, 8900, true, 0}},
    {"core infinite", INFINITY, 7850, 1, {1e-4, 8900, true, 0}},
    {"core of density 0", 1e-3, 0, 1, {1e-4, 8900, true, 0}},
    {"density negative", 1e-3, -7850, 0, {0, 0, false, 0}},
    {"winding of no thickness", 1e-3, 7850, 1, {0, 8900, true, 0}},
    {"winding unknown", 1e-3, 7850, 1, {NAN, 8900, false, 0}},
    {"winding of density 0", 1e-3, 7850, 1, {1e-4, 0, false, 0}},
    {"winding infinite", 1e-3, 7850, 1, {1e-4, INFINITY, false, 0}},
};

static void refuses(void **state) {
    (void)state;
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        check_status(refusals[i].name,
                     mensur_wrapped_density(refusals[i].core, refusals[i].density,
                                            &refusals[i].winding, refusals[i].count, &found),
                     MENSUR_DOMAIN);
    }
    check_status("no list", mensur_wrapped_density(1e-3, 7850, NULL, 1, &found), MENSUR_DOMAIN);
    check_status("no list", mensur_outer_diameter(1e-3, NULL, 2, &found), MENSUR_DOMAIN);
    check_status("no core", mensur_outer_diameter(0, NULL, 0, &found), MENSUR_DOMAIN);
    check_status("winding", mensur_outer_diameter(1e-3, &refusals[5].winding, 1, &found),
                 MENSUR_DOMAIN);
    check_status("plain", mensur_plain_density(-1e-3, 7850, &found), MENSUR_DOMAIN);
    check_status("plain", mensur_plain_density(1e-3, NAN, &found), MENSUR_DOMAIN);
    check_status("area", mensur_core_area(0, &found), MENSUR_DOMAIN);
    check_status("area", mensur_core_area(NAN, &found), MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
}

static void refuses_strands(void **state) {
    (void)state;
    const double pairs[][2] = {{0, 7},      {NAN, 7},    {1e-3, 0},        {1e-3, 0.99},
                               {1e-3, 6.5}, {1e-3, NAN}, {1e-3, INFINITY}, {1e-3, -7}};
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(pairs); i++) {
        check_status("strands", mensur_core_second_moment(pairs[i][0], pairs[i][1], &found),
                     MENSUR_DOMAIN);
    }
    check_close("untouched", found, 12.5, 0, 0);
}

/* By how much a metre of a coil is bent by a moment of 1 N m across it, 1/m: the work of the moment
 * along the wire, summed over one turn of the curve as it lies, with its pitch; its directions by
 * differences, its twist by the series of Saint-Venant. The wire is t thick, w wide along the
 * curve's side, on the radius R; E and G in Pa. */
static double coil_bent(double t, double w, bool flat, double radius, double e, double g) {
    const int steps = 4000;
    double on_edge = flat ? t * pow(w, 3) / 12 : pi * pow(t, 4) / 64;
    double lying = flat ? w * pow(t, 3) / 12 : on_edge;
    double series = 0.0, twist = 2 * on_edge, work = 0.0;
    for (int n = 1; flat && n < 60; n += 2) {
        series += tanh(n * pi * w / (2 * t)) / pow(n, 5);
    }
    if (flat) {
        twist = w * pow(t, 3) / 3 * (1 - 192 * t / (pow(pi, 5) * w) * series);
    }
    /* of a turn, so that the next lies beside it */
    double rise = w / sqrt(1 - pow(w / (2 * pi * radius), 2));
    for (int i = 0; i < steps; i++) {
        double u = 2 * pi * (i + 0.5) / steps, h = 2 * pi / steps;
        double along[3] = {radius * (cos(u + h / 2) - cos(u - h / 2)),
                           radius * (sin(u + h / 2) - sin(u - h / 2)), rise / steps};
        double length = sqrt(along[0] * along[0] + along[1] * along[1] + along[2] * along[2]);
        double out[3] = {cos(u), sin(u), 0};
        /* of the third direction, along x out: its part along the moment (1, 0, 0) */
        double side = (along[1] * out[2] - along[2] * out[1]) / length;
        work += length * (pow(along[0] / length, 2) / (g * twist) +
                          out[0] * out[0] / (e * on_edge) + side * side / (e * lying));
    }
    return work / rise;
}

/* The coil's part against the sum along its wire. */
static void coils(void **state) {
    (void)state;
    static const struct {
        double thickness, around; /* m: of the wire, of what it is wound on */
        bool flat;
        double below, above; /* the bound over the sum lies between */
    } rows[] = {
        {1e-5, 2e-3, false, 1 - 1e-4, 1 + 1e-3},
        {1.1e-4, 6.4e-4, false, 1 - 1e-3, 1 + 1e-2},
        /* the bound leaves out a ribbon's pitch, and that its corners bear less of the twist */
        {5e-6, 5e-3, true, 1, 1.06},
        {3e-5, 5.5e-4, true, 1, 1.09},
        {1.05e-4, 7.1e-4, true, 1, 1.14},
        {1.8e-4, 7.9e-4, true, 1, 1.19},
    };
    const double e = 83e9, core = 5.5e9;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        double t = rows[i].thickness, with, without;
        struct mensur_winding winding = {t, 0, rows[i].flat, e};
        check_status("with",
                     mensur_greatest_second_moment(rows[i].around, 1, core, &winding, 1, &with),
                     MENSUR_OK);
        check_status("without",
                     mensur_greatest_second_moment(rows[i].around, 1, core, NULL, 0, &without),
                     MENSUR_OK);
        double bent = coil_bent(t, rows[i].flat ? rows[i].around : t, rows[i].flat,
                                (rows[i].around + t) / 2, e, e / 2.6);
        double ratio = core * (with - without) * bent;
        if (!(ratio >= rows[i].below && ratio <= rows[i].above)) {
            fail_msg("coil %zu: %g of the sum", i, ratio);
        }
    }
}

/* The bound in long double: the strands' circle, and coils as 1/(1/bent + 1/twisted). */
static void greatest(void **state) {
    (void)state;
    static const struct mensur_winding windings[] = {{1.17e-4, 0, false, 83e9},
                                                     {0.5e-4, 0, true, 210e9}};
    static const struct {
        double strands, across; /* the circle round them over one of them */
    } ropes[] = {{1, 1}, {7, 3}, {19, 5}, {37, 7}};
    const double core = 0.00073, modulus = 206e9;
    for (size_t i = 0; i < COUNT_OF(ropes); i++) {
        long double d =
            (long double)core / sqrtl((long double)ropes[i].strands) * (long double)ropes[i].across;
        long double want = acosl(-1.0L) / 64.0L * d * d * d * d, inner = core;
        for (size_t count = 0; count <= COUNT_OF(windings); count++) {
            double found, least;
            check_status("greatest",
                         mensur_greatest_second_moment(core, ropes[i].strands, modulus, windings,
                                                       count, &found),
                         MENSUR_OK);
            check_close("greatest", found, (double)want, 0, 1e-14);
            check_status("least", mensur_core_second_moment(core, ropes[i].strands, &least),
                         MENSUR_OK);
            assert_true(found > least * (ropes[i].strands > 1 || count > 0 ? 1.00001 : 1 - 1e-15));
            if (count < COUNT_OF(windings)) {
                long double t = windings[count].thickness, w = windings[count].flat ? inner : t;
                long double bent = windings[count].flat ? t * w * w * w / 12.0L
                                                        : acosl(-1.0L) * t * t * t * t / 64.0L;
                long double twisted = windings[count].flat ? w * t * t * t / 3.0L : 2.0L * bent;
                want += (long double)(windings[count].modulus / modulus) * w /
                        (acosl(-1.0L) * (inner + t) / 2.0L * (1.0L / bent + 2.6L / twisted));
                inner += 2.0L * t;
            }
        }
    }
    double found = 12.5;
    struct mensur_winding unknown = {1e-4, 0, false, NAN}, thin = {0, 0, false, 83e9};
    check_status("modulus of the wrapping",
                 mensur_greatest_second_moment(core, 1, modulus, &unknown, 1, &found),
                 MENSUR_DOMAIN);
    check_status("no thickness", mensur_greatest_second_moment(core, 1, modulus, &thin, 1, &found),
                 MENSUR_DOMAIN);
    check_status("no list", mensur_greatest_second_moment(core, 1, modulus, NULL, 1, &found),
                 MENSUR_DOMAIN);
    check_status("modulus", mensur_greatest_second_moment(core, 1, 0, NULL, 0, &found),
                 MENSUR_DOMAIN);
    check_status("strands", mensur_greatest_second_moment(core, 6.5, modulus, NULL, 0, &found),
                 MENSUR_DOMAIN);
    check_close("untouched", found, 12.5, 0, 0);
}

static void weighed(void **state) {
    (void)state;
    double one, ten, ball;
    check_status("one", mensur_weighed_density(0.36e-3, 1, 0, 0.58, &one), MENSUR_OK);
    check_close("one", one, 0.36e-3 / 0.58, 0, 1e-15);
    check_status("ten", mensur_weighed_density(3.6e-3, 10, 0, 0.58, &ten), MENSUR_OK);
    check_close("ten", ten, one, 0, 1e-15);
    check_status("ball", mensur_weighed_density(0.42e-3, 1, 0.06e-3, 0.58, &ball), MENSUR_OK);
    check_close("ball", ball, one, 0, 1e-15);
}

static void refuses_weighing(void **state) {
    (void)state;
    const double wrong[][4] = {{0, 1, 0, 0.58},        {NAN, 1, 0, 0.58},    {1e-3, 0, 0, 0.58},
                               {1e-3, 1.5, 0, 0.58},   {1e-3, 1, -1, 0.58},  {1e-3, 1, NAN, 0.58},
                               {1e-3, 1, 0, 0},        {1e-3, 1, 0, NAN},    {1e-3, 1, 1e-3, 0.58},
                               {1e-3, 10, 2e-4, 0.58}, {1e-3, NAN, 0, 0.58}, {1e-3, 0.5, 0, 0.58}};
    double found = 12.5;
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        check_status(
            "weighing",
            mensur_weighed_density(wrong[i][0], wrong[i][1], wrong[i][2], wrong[i][3], &found),
            MENSUR_DOMAIN);
    }
    check_close("untouched", found, 12.5, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(densities),
        cmocka_unit_test(diameters),
        cmocka_unit_test(cores),
        cmocka_unit_test(refuses),
        cmocka_unit_test(refuses_strands),
        cmocka_unit_test(greatest),
        cmocka_unit_test(coils),
        cmocka_unit_test(weighed),
        cmocka_unit_test(refuses_weighing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
