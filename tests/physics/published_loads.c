/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topic 6 of the published table: feet of the bridge and root of the neck. */
#include "published_checks.h"

#include "check.h"
#include "loads.h"
#include "views.h"

static const char *inputs(const struct published_row *row) {
    return row->cells[INPUTS];
}

/* The feet under strings at places in mm, equal ones between the outer two; straight from nut to
 * tailpiece. */
static struct mensur_foot_forces feet_under(const struct published_row *row, const double *tension,
                                            size_t count, double spacing, double feet,
                                            double factor) {
    struct mensur_loaded_bridge bridge = {factor, 0.328, 0.0547, 0.0325, feet / 1000};
    struct mensur_loaded_string strings[4];
    struct mensur_foot_forces found;
    for (size_t i = 0; i < count; i++) {
        double at = spacing / 1000 * (0.5 - (double)i / 3);
        strings[i] = (struct mensur_loaded_string){tension[i], at, at, at};
    }
    MUST(mensur_foot_forces(&bridge, strings, count, &found));
    return found;
}

/* What the treble foot carries of each string alone. */
static size_t shares(const struct published_row *row, double spacing, double feet, double *out) {
    for (size_t i = 0; i < 4; i++) {
        double at = spacing / 1000 * (0.5 - (double)i / 3);
        struct mensur_loaded_bridge bridge = {0.38, 0.328, 0.0547, 0.0325, feet / 1000};
        struct mensur_loaded_string string = {50, at, at, at};
        struct mensur_foot_forces found;
        MUST(mensur_foot_forces(&bridge, &string, 1, &found));
        out[i] = found.treble / (50 * 0.38);
    }
    return 4;
}

static size_t equal_shares(const struct published_row *row, double *out) {
    return shares(row, 33.5, 33.5, out);
}

static size_t usual_shares(const struct published_row *row, double *out) {
    return shares(row, number_after(inputs(row), "spacing "), number_after(inputs(row), "centres "),
                  out);
}

static size_t both_feet(const struct published_row *row, double *out) {
    /* "pull 75, 55, 45, 45 N" */
    double tensions[VALUES_MOST];
    assert_int_equal(numbers_after(inputs(row), "pull ", tensions, VALUES_MOST), 4);
    struct mensur_foot_forces found =
        feet_under(row, tensions, 4, number_after(inputs(row), "spacing "),
                   number_after(inputs(row), "feet "), number_after(inputs(row), "factor "));
    out[0] = found.treble;
    out[1] = found.bass;
    return 2;
}

/* About the gluing surface and about the edge. */
static size_t moments(const struct published_row *row, double *out) {
    struct mensur_side_view view = view_of(&(const struct view_mm)VIOLIN_LEVEL_BOARD);
    struct mensur_geometry found;
    MUST(mensur_geometry_solve(&view, &found));
    MUST(mensur_neck_moment(&found, view.overstand, number_after(inputs(row), "T = "), &out[0]));
    MUST(mensur_neck_moment(&found, 0, number_after(inputs(row), "T = "), &out[1]));
    return 2;
}

#define T6 "6 bridge load"

const struct published_check load_checks[] = {
    {T6, "share on the treble foot", "1st; 2nd; 3rd; 4th string", equal_shares, "1; 2/3; 1/3; 0",
     "1e-9"},
    {T6, "share on the treble foot = 1/2 + x/s", "x = 16.75, 5.583, -5.583, -16.75 mm; s = 33.5 mm",
     equal_shares, NULL, NULL},
    {T6, "the same, usual violin", "string spacing 33.5 mm over all; foot centres 31 mm",
     usual_shares, NULL, NULL},
    {T6, "treble foot; bass foot",
     "pull 75, 55, 45, 45 N; down factor 0.3816; spacing 33.5; feet 31", both_feet, NULL, NULL},
    {T6, "neck moment",
     "T = 220 N in all; line of the strings 12.603 mm above the gluing surface, 19.049 mm above "
     "the "
     "belly edge (both square to the string), at the edge",
     moments, NULL, NULL},
};
const size_t load_check_count = COUNT_OF(load_checks);
