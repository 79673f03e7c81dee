/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The feet of the bridge and the neck's root, against statics in another form. */
#include "check.h"
#include "loads.h"
#include "views.h"

/* A violin; lengths in m. */
static const struct mensur_loaded_bridge bridge = {0.3816, 0.328, 0.0547, 0.0325, 0.031};
static const struct mensur_loaded_string strings[] = {{75, 0.01675, 0.00825, 0.01425},
                                                      {55, 0.0057, 0.0029, 0.0046},
                                                      {45, -0.0055, -0.0026, -0.0049},
                                                      {45, -0.0169, -0.0081, -0.0141}};

/* Forces and moments about the middle of the bridge's foot line are in balance. */
static void feet(void **state) {
    (void)state;
    struct mensur_foot_forces found;
    long double down = 0, moment = 0;
    check_status("feet", mensur_foot_forces(&bridge, strings, 4, &found), MENSUR_OK);
    for (size_t i = 0; i < 4; i++) {
        const struct mensur_loaded_string *s = &strings[i];
        long double force = (long double)s->tension * (long double)bridge.down_factor;
        /* towards the treble, as the string leaves the bridge on both sides */
        long double aside =
            (long double)s->tension *
            ((long double)(s->at_nut - s->at_bridge) / (long double)bridge.string_length +
             (long double)(s->at_tail - s->at_bridge) / (long double)bridge.afterlength);
        down += force;
        moment += force * (long double)s->at_bridge + aside * (long double)bridge.height;
    }
    check_close("sum", found.treble + found.bass, (double)down, 0, 1e-14);
    check_close("moment", (found.treble - found.bass) * bridge.foot_spacing / 2, (double)moment, 0,
                1e-13);
}

/* Alike on both sides, both feet carry half; mirrored strings exchange the feet; and a string that
 * runs towards the treble from the bridge loads the treble foot. */
static void sideways(void **state) {
    (void)state;
    struct mensur_loaded_string mirrored[4];
    struct mensur_foot_forces one, other;
    for (size_t i = 0; i < 4; i++) {
        mirrored[i] = (struct mensur_loaded_string){strings[i].tension, -strings[i].at_bridge,
                                                    -strings[i].at_nut, -strings[i].at_tail};
    }
    check_status("one", mensur_foot_forces(&bridge, strings, 4, &one), MENSUR_OK);
    check_status("other", mensur_foot_forces(&bridge, mirrored, 4, &other), MENSUR_OK);
    check_close("mirrored", one.treble, other.bass, 0, 1e-14);
    check_close("mirrored", one.bass, other.treble, 0, 1e-14);
    struct mensur_loaded_string middle = {50, 0, 0, 0};
    check_status("middle", mensur_foot_forces(&bridge, &middle, 1, &one), MENSUR_OK);
    check_close("middle", one.treble, one.bass, 0, 1e-15);
    middle.at_tail = 0.001;
    check_status("aside", mensur_foot_forces(&bridge, &middle, 1, &other), MENSUR_OK);
    check_close("aside", other.treble - one.treble, 50 * (0.001 / 0.0547) * 0.0325 / 0.031, 0,
                1e-12);
    check_close("aside", other.treble - one.treble, one.bass - other.bass, 0, 1e-12);
}

/* The moment as the sum of the moments of the tension's parts at the nut. */
static void moments(void **state) {
    (void)state;
    static const struct view_mm views[] = {VIOLIN_LEVEL_BOARD, VIOLIN, VIOLA, CELLO};
    for (size_t i = 0; i < COUNT_OF(views); i++) {
        struct mensur_side_view view = view_of(&views[i]);
        struct mensur_geometry found;
        double moment;
        check_status(views[i].name, mensur_geometry_solve(&view, &found), MENSUR_OK);
        check_status(views[i].name, mensur_neck_moment(&found, view.overstand, 220, &moment),
                     MENSUR_OK);
        /* The nut is drawn toward the bridge: by (run, rise)/L of the tension. */
        double run = (found.top_x - found.nut_x) / found.string_length;
        double rise = (found.top_y - found.nut_y) / found.string_length;
        double want = 220 * (run * (found.nut_y - view.overstand) - rise * found.nut_x);
        check_close(views[i].name, moment, want, 0, 1e-13);
    }
}

static void refuses(void **state) {
    (void)state;
    struct mensur_foot_forces found = {12.5, 12.5};
    struct mensur_side_view view = view_of(&(const struct view_mm)VIOLIN);
    struct mensur_geometry geometry;
    double moment = 12.5;
    for (size_t i = 0; i < sizeof bridge / sizeof(double); i++) {
        const double wrong[] = {NAN, INFINITY, i == 0 ? 2.1 : -0.001};
        for (size_t j = 0; j < COUNT_OF(wrong); j++) {
            struct mensur_loaded_bridge bad = bridge;
            ((double *)(void *)&bad)[i] = wrong[j];
            check_status("bridge", mensur_foot_forces(&bad, strings, 4, &found), MENSUR_DOMAIN);
        }
    }
    for (size_t i = 0; i < sizeof strings[0] / sizeof(double); i++) {
        struct mensur_loaded_string bad = strings[0];
        ((double *)(void *)&bad)[i] = NAN;
        check_status("string", mensur_foot_forces(&bridge, &bad, 1, &found), MENSUR_DOMAIN);
    }
    check_status("none", mensur_foot_forces(&bridge, strings, 0, &found), MENSUR_DOMAIN);
    check_close("untouched", found.treble + found.bass, 25, 0, 0);
    check_status("view", mensur_geometry_solve(&view, &geometry), MENSUR_OK);
    check_status("no tension", mensur_neck_moment(&geometry, 0.0065, 0, &moment), MENSUR_DOMAIN);
    check_status("overstand", mensur_neck_moment(&geometry, NAN, 220, &moment), MENSUR_DOMAIN);
    double *const parts[] = {&geometry.nut_x, &geometry.nut_y, &geometry.front_angle};
    const double wrong[] = {NAN, NAN, 1.6}; /* a right angle is 1.57 */
    for (size_t i = 0; i < COUNT_OF(parts); i++) {
        double kept = *parts[i];
        *parts[i] = wrong[i];
        check_status("geometry", mensur_neck_moment(&geometry, 0.0065, 220, &moment),
                     MENSUR_DOMAIN);
        *parts[i] = kept;
    }
    check_close("untouched", moment, 12.5, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(feet),
        cmocka_unit_test(sideways),
        cmocka_unit_test(moments),
        cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
