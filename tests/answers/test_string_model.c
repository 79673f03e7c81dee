/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A string of the catalogue made ready: each way to its density, its core and what that bears, by
 * figures computed apart with 30 digits from the equations of the physics notes. */
#include "check.h"
#include "string_model.h"

/* Texts of a stock are its own to change. */
static char gut[] = "gut";
static char steel[] = "steel";
static char polyamide[] = "multifilament polyamide";
static char silver[] = "silver";
static char copper[] = "copper";
static char fog[] = "fog";
static char tinsel[] = "tinsel";
static char moonlight[] = "moonlight";

/* Least strengths: ASTM A228/A228M tensile table as reproduced on a general wire supplier's page;
 * ksi converted at 6.894757 (strings/wire_strength.csv). The rows of another material stand
 * between. */
static struct mensur_wire_strength wires[] = {
    {.material = steel, .diameter = 0.1016e-3, .strength_low = 3027e6, .strength_high = 3344e6},
    {.material = tinsel, .diameter = 0.15e-3, .strength_low = 1e6, .strength_high = 2e6},
    {.material = steel, .diameter = 0.2032e-3, .strength_low = 2751e6, .strength_high = 3041e6},
    {.material = steel, .diameter = 0.2540e-3, .strength_low = 2668e6, .strength_high = 2951e6},
    {.material = steel, .diameter = 0.3048e-3, .strength_low = 2599e6, .strength_high = 2875e6},
};

/* Gut from memory, the rest as in strings/materials.csv; the tests need the figures, not their
 * truth. */
static struct mensur_material materials[] = {
    {.name = gut,
     .density = 1300,
     .modulus = 5.5e9,
     .strength = 314e6,
     .low_strength = 283e6,
     .high_strength = 345e6},
    {.name = steel, .density = 7850, .modulus = 206e9, .strength = NAN},
    {.name = polyamide,
     .density = 1140,
     .modulus = 5e9,
     .strength = 600e6,
     .low_strength = NAN,
     .high_strength = NAN},
    {.name = silver, .density = 10490, .modulus = 83e9, .strength = NAN},
    {.name = copper, .density = 8920, .modulus = 110e9, .strength = NAN},
    {.name = fog, .density = NAN, .modulus = NAN, .strength = NAN},
};

static const struct mensur_stock stock = {.materials = materials,
                                          .material_count = COUNT_OF(materials),
                                          .wires = wires,
                                          .wire_count = COUNT_OF(wires)};

/* A string as a row would give it: mm, g/m, N, kg/m3, MPa; 0 where the cell is empty. */
struct row {
    const char *name;
    const char *note;
    char *material;
    double linear_density, stated_tension, stated_length, stated_a4, diameter, density,
        core_diameter;
    double strands, modulus, strength;
    bool slack;
    struct {
        char *material;
        double density, thickness;
        bool flat;
    } wraps[MENSUR_WRAPS_MAX];
    enum mensur_fifths fifths;
    /* what is wanted, SI; 0 where it must be unknown */
    double want_density, want_area, want_moment, want_modulus, want_strength, want_high;
    bool at_least; /* the strength */
};

static double si(double value, double unit) {
    return value == 0.0 ? NAN : value * unit;
}

static struct mensur_string_spec spec_of(const struct row *row) {
    struct mensur_string_spec spec;
    mensur_string_spec_init(&spec);
    check_status(row->name, mensur_note_read(row->note, strlen(row->note), &spec.note), MENSUR_OK);
    spec.material = row->material;
    spec.linear_density.value = si(row->linear_density, 1e-3);
    spec.stated_tension.value = si(row->stated_tension, 1.0);
    spec.stated_length.value = si(row->stated_length, 1e-3);
    spec.stated_a4.value = si(row->stated_a4, 1.0);
    spec.diameter.value = si(row->diameter, 1e-3);
    spec.density.value = si(row->density, 1.0);
    spec.core_diameter.value = si(row->core_diameter, 1e-3);
    spec.strands = si(row->strands, 1.0);
    spec.modulus.value = si(row->modulus, 1e6);
    spec.strength.value = si(row->strength, 1e6);
    spec.slack = row->slack;
    for (size_t i = 0; i < MENSUR_WRAPS_MAX; i++) {
        spec.wraps[i].material = row->wraps[i].material;
        spec.wraps[i].density.value = si(row->wraps[i].density, 1.0);
        spec.wraps[i].thickness.value = si(row->wraps[i].thickness, 1e-3);
        spec.wraps[i].flat = row->wraps[i].flat;
    }
    return spec;
}

#define STEEL_028 6.15752160103599514738678103123e-8

static const struct row rows[] = {
    {.name = "a stated density stands above all else",
     .note = "A4",
     .material = gut,
     .linear_density = 0.85,
     .stated_tension = 52.5,
     .stated_length = 370,
     .stated_a4 = 440,
     .diameter = 0.65,
     .want_density = 0.85e-3,
     .want_area = 3.31830724035421910812616707359e-7,
     .want_moment = 8.76240505656035983239565992869e-15,
     .want_modulus = 5.5e9,
     .want_strength = 283e6,
     .want_high = 345e6},
    {.name = "a stated tension",
     .note = "A4",
     .stated_tension = 52.5,
     .stated_length = 370,
     .stated_a4 = 440,
     .want_density = 4.95211259953274695289437304179e-4},
    {.name = "a stated tension stands above a construction",
     .note = "A4",
     .material = steel,
     .stated_tension = 52.5,
     .stated_length = 370,
     .stated_a4 = 440,
     .diameter = 0.3048,
     .want_density = 4.95211259953274695289437304179e-4,
     .want_area = 7.2965876990039676206e-8,
     .want_moment = 4.2367198679004597751e-16,
     .want_modulus = 206e9,
     .want_strength = 2599e6},
    {.name = "its own A4, pure fifths",
     .note = "C3",
     .stated_tension = 48,
     .stated_length = 370,
     .stated_a4 = 442,
     .want_density = 5.11070500243863119648140761882e-3},
    {.name = "its own A4, equal fifths",
     .note = "C3",
     .stated_tension = 48,
     .stated_length = 370,
     .stated_a4 = 442,
     .fifths = MENSUR_FIFTHS_EQUAL,
     .want_density = 5.07619438107161567908778956863e-3},
    {.name = "a tension without its length says nothing",
     .note = "A4",
     .stated_tension = 52.5,
     .stated_a4 = 440},
    {.name = "plain gut",
     .note = "A4",
     .material = gut,
     .diameter = 0.65,
     .want_density = 4.31379941246048484056401719567e-4,
     .want_area = 3.31830724035421910812616707359e-7,
     .want_moment = 8.76240505656035983239565992869e-15,
     .want_modulus = 5.5e9,
     .want_strength = 283e6,
     .want_high = 345e6},
    {.name = "its own density, modulus and strength",
     .note = "A4",
     .material = gut,
     .diameter = 0.65,
     .density = 1320,
     .modulus = 6100,
     .strength = 333,
     .want_density = 4.38016555726756922272654053714e-4,
     .want_area = 3.31830724035421910812616707359e-7,
     .want_moment = 8.76240505656035983239565992869e-15,
     .want_modulus = 6.1e9,
     .want_strength = 333e6},
    {.name = "unknown material",
     .note = "A4",
     .material = moonlight,
     .diameter = 0.65,
     .want_area = 3.31830724035421910812616707359e-7,
     .want_moment = 8.76240505656035983239565992869e-15},
    {.name = "known material of unknown figures",
     .note = "A4",
     .material = fog,
     .diameter = 0.65,
     .want_area = 3.31830724035421910812616707359e-7,
     .want_moment = 8.76240505656035983239565992869e-15},
    {.name = "gut in round silver",
     .note = "G3",
     .material = gut,
     .core_diameter = 0.6,
     .strands = 1,
     .wraps = {{silver, 0, 0.1, false}},
     .want_density = 2.17937896839998481735267096115e-3,
     .want_area = 2.82743338823081391461637904495e-7,
     .want_moment = 6.36172512351933130788685285114e-15,
     .want_modulus = 5.5e9,
     .want_strength = 283e6,
     .want_high = 345e6},
    {.name = "two wrappings, strands unknown",
     .note = "G3",
     .material = polyamide,
     .core_diameter = 0.5,
     .wraps = {{copper, 0, 0.05, false}, {silver, 0, 0.06, true}},
     .want_density = 2.13412212113689215597082441361e-3,
     .want_area = 1.963495408493620774e-7,
     .want_modulus = 5e9,
     .want_strength = 600e6},
    {.name = "a wrapping of unknown density",
     .note = "G3",
     .material = gut,
     .core_diameter = 0.6,
     .strands = 1,
     .wraps = {{fog, 0, 0.1, false}},
     .want_area = 2.82743338823081391461637904495e-7,
     .want_moment = 6.36172512351933130788685285114e-15,
     .want_modulus = 5.5e9,
     .want_strength = 283e6,
     .want_high = 345e6},
    {.name = "steel between two rows",
     .note = "E5",
     .material = steel,
     .diameter = 0.26,
     .want_density = 4.1677938938848991998e-4,
     .want_area = 5.309291584566750573e-8,
     .want_moment = 2.2431756944794521171e-16,
     .want_modulus = 206e9,
     .want_strength = 2659.85039370078740157480314961e6},
    {.name = "steel on a row",
     .note = "E5",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.254,
     .want_density = 1e-3,
     .want_area = 5.0670747909749775143e-8,
     .want_moment = 2.0431712325908853082e-16,
     .want_modulus = 206e9,
     .want_strength = 2668e6},
    {.name = "steel on the first row",
     .note = "E5",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.1016,
     .want_density = 1e-3,
     .want_area = 8.1073196655599640229e-9,
     .want_moment = 5.230518355432666389e-18,
     .want_modulus = 206e9,
     .want_strength = 3027e6,
     .want_high = 3344e6},
    {.name = "steel thinner than the table",
     .note = "E5",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.1015,
     .want_density = 1e-3,
     .want_area = 8.0913682288613618477e-9,
     .want_moment = 5.2099561459866853185e-18,
     .want_modulus = 206e9,
     .want_strength = 3027e6,
     .want_high = 3344e6,
     .at_least = true},
    {.name = "steel thicker than the table",
     .note = "E5",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.3049,
     .want_density = 1e-3,
     .want_area = 7.301376271606201863e-8,
     .want_moment = 4.2422826045460104128e-16,
     .want_modulus = 206e9},
    {.name = "a strength of its own outside the table",
     .note = "E5",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.3049,
     .strength = 2500,
     .want_density = 1e-3,
     .want_area = 7.301376271606201863e-8,
     .want_moment = 4.2422826045460104128e-16,
     .want_modulus = 206e9,
     .want_strength = 2500e6},
    {.name = "seven strands: the single one's strength",
     .note = "D4",
     .material = steel,
     .linear_density = 1,
     .core_diameter = 0.28,
     .wraps = {{silver, 0, 0.06, true}},
     .strands = 7,
     .want_density = 1e-3,
     .want_area = STEEL_028,
     .want_moment = 4.31026512072519632317074672186e-17,
     .want_modulus = 206e9,
     .want_strength = 3015.50891265597362087462757953e6},
    {.name = "nineteen strands, each thinner than the table",
     .note = "D4",
     .material = steel,
     .linear_density = 1,
     .core_diameter = 0.28,
     .wraps = {{silver, 0, 0.06, true}},
     .strands = 19,
     .want_density = 1e-3,
     .want_area = STEEL_028,
     .want_moment = 1.5879924128987565401e-17,
     .want_modulus = 206e9,
     .want_strength = 3027e6,
     .want_high = 3344e6,
     .at_least = true},
    {.name = "strands unknown: no moment, no strength by diameter",
     .note = "D4",
     .material = steel,
     .linear_density = 1,
     .core_diameter = 0.28,
     .wraps = {{silver, 0, 0.06, true}},
     .want_density = 1e-3,
     .want_area = STEEL_028,
     .want_modulus = 206e9},
    {.name = "wound, its core not told",
     .note = "D4",
     .material = steel,
     .linear_density = 1,
     .diameter = 0.4,
     .strands = 1,
     .wraps = {{silver, 0, 0.06, true}},
     .want_density = 1e-3,
     .want_modulus = 206e9},
};

static void check_known(const char *row, const char *what, double got, double want) {
    char name[160];
    snprintf(name, sizeof name, "%s: %s", row, what);
    check_close(name, got, want == 0.0 ? NAN : want, 0, 1e-14);
}

static void test_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct row *row = &rows[i];
        struct mensur_string_spec spec = spec_of(row);
        struct string_model model;
        string_model_make(&stock, &spec, row->fifths, &model);
        check_known(row->name, "density", model.linear_density, row->want_density);
        check_known(row->name, "area", model.core_area, row->want_area);
        check_known(row->name, "moment", model.second_moment, row->want_moment);
        check_known(row->name, "modulus", model.modulus, row->want_modulus);
        check_known(row->name, "strength", model.strength, row->want_strength);
        if (row->want_high > 0.0) {
            check_known(row->name, "high strength", model.strength_high, row->want_high);
        }
        assert_int_equal(model.at_least, row->at_least);
    }
}

/* A gut of 0.65 mm whose density holds for the slack string, at 440 Hz on 375.7 mm: unstretched it
 * would pull 47.15 N. */
static void test_slack(void **state) {
    (void)state;
    struct row row = {
        .name = "slack gut", .note = "A4", .material = gut, .diameter = 0.65, .slack = true};
    struct mensur_string_spec spec = spec_of(&row);
    struct string_model model;
    string_model_make(&stock, &spec, MENSUR_FIFTHS_PURE, &model);
    double tension = string_model_tension(&model, 0.3757, 440);
    assert_true(model.slack);
    check_close(row.name, tension, 45.9937289838123022919598033342, 0, 1e-13);
    check_close("thinned", string_model_tuned_density(&model, tension),
                4.20775928890831901703535902834e-4, 0, 1e-13);
    row.material = moonlight;
    row.linear_density = 0.43;
    spec = spec_of(&row);
    string_model_make(&stock, &spec, MENSUR_FIFTHS_PURE, &model);
    check_close("without a modulus", string_model_tension(&model, 0.3757, 440), NAN, 0, 0);
    check_close("nor a density at pitch", string_model_tuned_density(&model, 46), NAN, 0, 0);
}

/* A tension holds at pitch: its density is no slack one, whatever the row says of another. */
static void test_stated_at_pitch(void **state) {
    (void)state;
    struct row row = {.name = "tension, slack",
                      .note = "A4",
                      .material = gut,
                      .stated_tension = 52.5,
                      .stated_length = 370,
                      .stated_a4 = 440,
                      .diameter = 0.65,
                      .slack = true};
    struct mensur_string_spec spec = spec_of(&row);
    struct string_model model;
    string_model_make(&stock, &spec, MENSUR_FIFTHS_PURE, &model);
    assert_false(model.slack);
    check_close(row.name, string_model_tension(&model, 0.370, 440), 52.5, 0, 1e-14);
    check_close("as it is", string_model_tuned_density(&model, 52.5),
                4.95211259953274695289437304179e-4, 0, 1e-14);
}

static void test_none(void **state) {
    (void)state;
    struct string_model model;
    string_model_make(&stock, NULL, MENSUR_FIFTHS_PURE, &model);
    assert_null(model.spec);
    check_close("no string, no density", model.linear_density, NAN, 0, 0);
    check_close("no string, no pull", string_model_tension(&model, 0.37, 440), NAN, 0, 0);
    check_close("no string, no area", model.core_area, NAN, 0, 0);
    check_close("no string, no strength", model.strength, NAN, 0, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),
        cmocka_unit_test(test_slack),
        cmocka_unit_test(test_stated_at_pitch),
        cmocka_unit_test(test_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
