/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topics 6, 7 and 8 of the published table: load on the bridge, proportions, body measurements. */
#include "published_checks.h"

#include "check.h"
#include "geometry.h"
#include "player_reach.h"
#include "solve.h"
#include "taut_string.h"
#include "views.h"

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

static double front_over(double bridge, void *context) {
    struct mensur_side_view view = view_of(&(const struct view_mm)VIOLIN);
    struct mensur_geometry found;
    view.bridge = bridge;
    return mensur_geometry_solve(&view, &found) == MENSUR_OK
               ? found.front_angle - *(double *)context
               : NAN;
}

/* The down factor of a violin whose bridge and saddle stand so that the string bends by equal
 * angles to a break angle in degrees. */
static double even_down_factor(const struct published_row *row, double degrees) {
    double angle = 0.5 * (180 - degrees) * DEGREE;
    struct mensur_side_view view = view_of(&(const struct view_mm)VIOLIN);
    struct mensur_geometry found;
    MUST(mensur_solve_root(published_solver, front_over, &angle, 0.0275, 0.2, &view.bridge));
    view.body_straight = view.stop + (view.arch + view.bridge - view.saddle) / tan(angle);
    MUST(mensur_geometry_solve(&view, &found));
    check_close("break angle", found.break_angle / DEGREE, degrees, 0, 1e-12);
    return found.down_factor;
}

struct load_wish {
    const struct published_row *row;
    double factor;
};

static double load_over(double degrees, void *context) {
    const struct load_wish *wish = context;
    return even_down_factor(wish->row, degrees) - wish->factor;
}

static size_t angle_of_four_ninths(const struct published_row *row, double *out) {
    struct load_wish wish = {row, 4.0 / 9.0};
    MUST(mensur_solve_root(published_solver, load_over, &wish, 150, 160, out));
    return 1;
}

static size_t down_factors(const struct published_row *row, double *out) {
    double angles[VALUES_MOST];
    size_t count = numbers_after(inputs(row), "", angles, VALUES_MOST);
    for (size_t i = 0; i < count; i++) {
        out[i] = even_down_factor(row, angles[i]);
    }
    return count;
}

static size_t down_forces(const struct published_row *row, double *out) {
    double tensions[VALUES_MOST];
    double factor = even_down_factor(row, number_after(inputs(row), ""));
    size_t count = numbers_after(inputs(row), "T=", tensions, VALUES_MOST);
    for (size_t i = 0; i < count; i++) {
        MUST(mensur_force_on_belly(tensions[i], factor, &out[i]));
    }
    return count;
}

/* Unequal angles against the bridge's axis, over the library's force. */
static size_t uneven_force(const struct published_row *row, double *out) {
    struct mensur_side_view view = view_of(&(const struct view_mm)VIOLA);
    struct mensur_geometry found;
    double force;
    MUST(mensur_geometry_solve(&view, &found));
    MUST(mensur_force_on_belly(53.7, found.down_factor, &force));
    double a = atan2(found.top_x - found.nut_x, found.top_y - found.nut_y);
    double b = atan2(view.body_straight - found.top_x, found.top_y - view.saddle);
    out[0] = 53.7 * (cos(a) + cos(b)) / force;
    return 1;
}

static size_t stop_to_neck(const struct published_row *row, double *out) {
    MUST(mensur_stop_per_2_neck(195, 130, &out[0])); /* full-size violin and cello: common */
    MUST(mensur_stop_per_2_neck(400, 280, &out[1])); /* practice, no source */
    out[0] /= 2;
    out[1] /= 2;
    return 2;
}

/* Necks of 2 : 3 for the stops that the row prints. */
static size_t neck_for_stop(const struct published_row *row, double *out) {
    double printed[VALUES_MOST];
    assert_int_equal(expected_numbers(row->cells[EXPECTED], printed, VALUES_MOST), 3);
    MUST(mensur_neck_for_ratio(printed[1], 3, out));
    return 1;
}

static size_t necks_for_stops(const struct published_row *row, double *out) {
    MUST(mensur_neck_for_ratio(225, 3, &out[0]));
    MUST(mensur_neck_for_ratio(230, 3, &out[1]));
    return 2;
}

static size_t longer_than_sum(const struct published_row *row, double *out) {
    struct view_mm mm = VIOLIN;
    struct mensur_geometry found;
    mm.neck = number_after(inputs(row), "neck ");
    mm.stop = number_after(inputs(row), "stop ");
    struct mensur_side_view view = view_of(&mm);
    MUST(mensur_geometry_solve(&view, &found));
    out[0] = found.string_length / MM;
    return 1;
}

#define T6 "6 bridge load"
#define T7 "7 proportions"

const struct published_check setup_checks[] = {
    {T6, "included angle implied by 4/9", "F/T = 2 cos(theta/2), equal angles",
     angle_of_four_ninths, NULL, NULL},
    {T6, "F/T at included angle", "154, 155, 156, 157, 158, 160 deg", down_factors, NULL, NULL},
    {T6, "down force", "158 deg; total T=220, 235, 250 N", down_forces, NULL, NULL},
    {T6, "unequal angles",
     "F = T (cos a + cos b), a and b measured from the bridge axis (or T(sin+sin) from the string "
     "plane)",
     uneven_force, "1", NULL},
    {T7, "belly stop : neck stop", "violins; cellos", stop_to_neck, "3/2; 10/7", "exact"},
    {T7, "viola body; stop; neck", "small", neck_for_stop, "146", NULL},
    {T7, "viola body; stop; neck", "medium", neck_for_stop, "150", NULL},
    {T7, "viola body; stop; neck", "large", necks_for_stops, "150; 154", NULL},
    {T7, "string length against stop + neck",
     "neck 130; stop 195; string 20 mm above the edge plane at the neck root and 48 mm at the "
     "bridge",
     longer_than_sum, "327.65", NULL},
};
const size_t setup_check_count = COUNT_OF(setup_checks);
