/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Topics 6, 7 and 13 of the published table: what the families' table takes for usual. */
#include "published_checks.h"

#include "check.h"
#include "geometry.h"
#include "usual.h"

/* Of a viola, mm or degrees, at a stop in mm. */
static double viola(enum mensur_field field, double stop) {
    const struct mensur_family *family = mensur_stock_family(published_stock, "viola");
    assert_non_null(family);
    return mensur_family_usual(published_stock, family, field, stop / 1000) * 1000;
}

/* The sizes of the table The Viola: the middle of a range. */
static const double bodies[] = {390, 407.5, 430}, stops[] = {219, 225, 227.5};

static size_t at_sizes(enum mensur_field field, double *out) {
    for (size_t i = 0; i < COUNT_OF(stops); i++) {
        out[i] = viola(field, stops[i]);
    }
    return COUNT_OF(stops);
}

static size_t projections(const struct published_row *row, double *out) {
    (void)row;
    return at_sizes(MENSUR_FIELD_PROJECTION, out);
}

static size_t overstands(const struct published_row *row, double *out) {
    (void)row;
    return at_sizes(MENSUR_FIELD_OVERSTAND, out);
}

static size_t medium_and_small(enum mensur_field field, double *out) {
    out[0] = viola(field, stops[1]);
    out[1] = viola(field, stops[0]);
    return 2;
}

static size_t spacings_at_nut(const struct published_row *row, double *out) {
    (void)row;
    return medium_and_small(MENSUR_FIELD_SPACING_NUT, out);
}

static size_t spacings_at_bridge(const struct published_row *row, double *out) {
    (void)row;
    return medium_and_small(MENSUR_FIELD_SPACING_BRIDGE, out);
}

/* A viola of 2 : 3 of which all else is usual. */
static size_t angles(const struct published_row *row, double *out) {
    for (size_t i = 0; i < 2; i++) {
        struct mensur_back back;
        struct mensur_geometry found;
        MUST(mensur_body_straight(bodies[i] / 1000, viola(MENSUR_FIELD_BACK_ARCH, stops[i]) / 1000,
                                  &back));
        const struct mensur_side_view view = {
            .body_straight = back.straight,
            .stop = stops[i] / 1000,
            .neck = stops[i] / 1500,
            .overstand = viola(MENSUR_FIELD_OVERSTAND, stops[i]) / 1000,
            .board = viola(MENSUR_FIELD_BOARD, stops[i]) / 1000,
            .board_nut = viola(MENSUR_FIELD_BOARD_NUT, stops[i]) / 1000,
            .nut = viola(MENSUR_FIELD_NUT, stops[i]) / 1000,
            .arch = viola(MENSUR_FIELD_ARCH, stops[i]) / 1000,
            .projection = viola(MENSUR_FIELD_PROJECTION, stops[i]) / 1000,
            .bridge = viola(MENSUR_FIELD_BRIDGE, stops[i]) / 1000,
            .saddle = viola(MENSUR_FIELD_SADDLE, stops[i]) / 1000};
        MUST(mensur_geometry_solve(&view, &found));
        out[i] = found.break_angle * 57.295779513082321;
    }
    return 2;
}

static size_t sixth(const struct published_row *row, double *out) {
    out[0] = number_after(row->cells[INPUTS], "length ") * MENSUR_USUAL_AFTERLENGTH_SHARE;
    return 1;
}

static size_t sixth_in_inches(const struct published_row *row, double *out) {
    (void)row;
    out[0] = (12 + 15.0 / 16) * MENSUR_USUAL_AFTERLENGTH_SHARE;
    return 1;
}

#define T7 "7 proportions"

const struct published_check usual_checks[] = {
    /* of the small and the medium one; the large one comes to 159.1 with the usual heights */
    {"6 bridge load", "string angle over the bridge, viola", "small, medium, large", angles,
     "157; 157", "1"},
    {T7, "viola projection (elevation)", "small; medium; large", projections, NULL, NULL},
    {T7, "viola overstand (neck root elevation)", "small; medium; large", overstands, NULL, NULL},
    {T7, "viola string spacing at the nut, 1 to 4", "15.5 to 17 in body; smaller", spacings_at_nut,
     NULL, NULL},
    {T7, "viola string spacing at the bridge, 1 to 4", "16 in and larger; 15.5 in and smaller",
     spacings_at_bridge, NULL, NULL},
    {T7, "afterlength, one-sixth rule", "string length 325 mm", sixth, NULL, NULL},
    {"13 afterlength", "afterlength for 1/6 of the string", "12 15/16 in", sixth_in_inches, NULL,
     NULL},
};
const size_t usual_check_count = COUNT_OF(usual_checks);
