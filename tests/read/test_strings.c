/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of strings.csv: the five ways to give the density, materials, sets. */
#include "reading.h"

#define MATERIALS "name,density,modulus,strength\ngut,1300,5.5,320\nsilver,10490,,\nmystery,,5,\n"
#define HEAD                                                                                       \
    "name,note,set,material,linear_density,stated_tension,stated_length,diameter,density,"         \
    "core_diameter,wrap1_material,wrap1_density,wrap1_shape,wrap1_thickness,wrap2_material,"       \
    "wrap2_density,wrap2_shape,wrap2_thickness,modulus,made_for_low,made_for_high,strands,"        \
    "density_state,stated_a4\n"

static void read_rows(const char *rows, struct outcome *got) {
    static char text[2000]; /* must be valid as long as the shop */
    snprintf(text, sizeof(text), HEAD "%s", rows);
    const struct given given[] = {{MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
                                  {MENSUR_TABLE_MATERIALS, MATERIALS, 0},
                                  {MENSUR_TABLE_STRINGS, text, 0}};
    read_tables(given, COUNT_OF(given), got);
}

#define IN "strings.csv:2:"

static const struct {
    const char *name, *rows;
    const char *errors[8];
} refusals[] = {
    {"no note", "a,,,,1.8,,,,,,,,,,,,,,,,,,,\n", {IN "2: note: \"\" is no note"}},
    {"a set with strings for a sharp, its flat, and the sharp again",
     "a,Db4,gut,,1.8,,,,,,,,,,,,,,,,,,,\nb,C#4,gut,,1.9,,,,,,,,,,,,,,,,,,,\n"
     "c,C#4,gut,,2.0,,,,,,,,,,,,,,,,,,,\n",
     {"strings.csv:4:2: note: the set \"gut\" has a string for C#4 already, \"b\" in line 3"}},
    {"a bad note", "a,H4,,,1.8,,,,,,,,,,,,,,,,,,,\n", {IN "2: note: \"H4\" is no note|F#3"}},
    {"no way", "a,A4,,gut,,,,,,,,,,,,,,,,,,,,\n", {IN "5: linear_density: the cell is empty"}},
    {"tension without length",
     "a,A4,,gut,,60,,0.65,,,,,,,,,,,,,,,,\n",
     {IN "7: stated_length: the cell is empty"}},
    {"length without tension", "a,A4,,gut,,,328,,,,,,,,,,,,,,,,,\n", {IN "5: linear_density"}},
    {"wrap without core",
     "a,A4,,gut,,,,0.65,,,silver,,flat,0.1,,,,,,,,,,\n",
     {IN "10: core_diameter: the cell is empty; a wrapped string needs it"}},
    {"wrap without thickness",
     "a,A4,,gut,,,,,,0.65,silver,,flat,,,,,,,,,,,\n",
     {IN "14: wrap1_thickness: the cell is empty"}},
    {"wrap without shape",
     "a,A4,,gut,,,,,,0.65,silver,,,0.1,,,,,,,,,,\n",
     {IN "13: wrap1_shape: the cell is empty; write round or flat"}},
    {"wrap of another shape",
     "a,A4,,gut,,,,,,0.65,silver,,oval,0.1,,,,,,,,,,\n",
     {IN "13: wrap1_shape: \"oval\" will not do; write round or flat"}},
    {"wrap without material",
     "a,A4,,gut,,,,,,0.65,,,flat,0.1,,,,,,,,,,\n",
     {IN "11: wrap1_material: the cell is empty|wrap1_density"}},
    {"wrap of unknown material",
     "a,A4,,gut,,,,,,0.65,sliver,,flat,0.1,,,,,,,,,,\n",
     {IN "11: wrap1_material: \"sliver\" is unknown|did you mean \"silver\"?"}},
    {"a gap in the wraps",
     "a,A4,,gut,,,,,,0.65,,,,,silver,,flat,0.1,,,,,,\n",
     {IN "18: wrap2_thickness: the wrapping inside it is missing"}},
    {"core of unknown material",
     "a,A4,,gutt,,,,,,0.65,silver,,flat,0.1,,,,,,,,,,\n",
     {IN "4: material: \"gutt\" is unknown, and the density is to be taken from it; "
         "did you mean \"gut\"?"}},
    {"plain of unknown material",
     "a,A4,,catgut,,,,0.65,,,,,,,,,,,,,,,,\n",
     {IN "4: material: \"catgut\" is unknown|there are: gut, silver, mystery"}},
    {"plain without material",
     "a,A4,,,,,,0.65,,,,,,,,,,,,,,,,\n",
     {IN "4: material: the cell is empty|needs it or a density"}},
    {"material without density",
     "a,A4,,mystery,,,,0.65,,,,,,,,,,,,,,,,\n",
     {IN "4: material: the density of \"mystery\" is not known"}},
    {"range of length turned round",
     "a,A4,,,1.8,,,,,,,,,,,,,,,380,370,,,\n",
     {IN "20: made_for_low: it is more than made_for_high"}},
    {"zero strands", "a,A4,,,1.8,,,,,,,,,,,,,,,,,0,,\n", {IN "22: strands: \"0\" is out"}},
    {"half a strand", "a,A4,,,1.8,,,,,,,,,,,,,,,,,1.5,,\n", {IN "22: strands: it is no whole"}},
    {"an unknown density_state",
     "a,A4,,,1.8,,,,,,,,,,,,,,,,,,loose,\n",
     {IN "23: density_state: \"loose\" will not do; write tuned or slack"}},
    {"A4 of 0",
     "a,A4,,,1.8,,,,,,,,,,,,,,,,,,,0\n",
     {IN "24: stated_a4: \"0\" is out of its range"}},
    {"no density", "a,A4,,,0,,,,,,,,,,,,,,,,,,,\n", {IN "5: linear_density: \"0\" is out"}},
    {"two for a note",
     "a,A4,one,,1.8,,,,,,,,,,,,,,,,,,,\nb,A4,one,,1.7,,,,,,,,,,,,,,,,,,,\n",
     {"strings.csv:3:2: note: the set \"one\" has a string for A4 already, \"a\" in line 2"}},
    {"all of a row",
     "a,H4,,,x,60,,,,,,,oval,y,,,,,,380,370,0.5,,\n",
     {IN "2: note", IN "5: linear_density", IN "20: made_for_low", IN "22: strands",
      IN "13: wrap1_shape", IN "14: wrap1_thickness"}},
};

/* Strings that were weighed. */
#define WEIGHED_HEAD                                                                               \
    "name,note,weighed_mass,weighed_length,weighed_count,scale_step,ball_mass,linear_density\n"

static void read_weighed(const char *row, struct outcome *got) {
    static char text[500]; /* must be valid as long as the shop */
    snprintf(text, sizeof text, WEIGHED_HEAD "%s\n", row);
    const struct given given[] = {{MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
                                  {MENSUR_TABLE_STRINGS, text, 0}};
    read_tables(given, COUNT_OF(given), got);
}

static void weighs(void **state) {
    (void)state;
    static const struct {
        const char *row;
        double mass, mass_plus_minus, count, ball;
    } sound[] = {
        {"a,A4,0.36,580,,,,", 0.36e-3, 0, NAN, NAN},
        {"a,A4,360 mg,58 cm,1,,,", 0.36e-3, 0, 1, NAN},
        {"a,A4,0.36,580,,0.1,,", 0.36e-3, 0.1e-3 / 3.4641016151377546, NAN, NAN},
        {"a,A4,0.36 ±0.04,580,,0.1 g,,", 0.36e-3, 4.932883e-5, NAN, NAN},
        {"a,A4,4.2,580,10,0.1,0.06 ±0.01,", 4.2e-3, 0.1e-3 / 3.4641016151377546, 10, 0.06e-3},
    };
    for (size_t i = 0; i < COUNT_OF(sound); i++) {
        struct outcome got;
        read_weighed(sound[i].row, &got);
        check_status(sound[i].row, got.status, MENSUR_OK);
        const struct mensur_string_spec *spec = &got.shop.stock.strings[0];
        check_close(sound[i].row, spec->weighed_mass.value, sound[i].mass, 0, 1e-15);
        check_close(sound[i].row, spec->weighed_mass.plus_minus, sound[i].mass_plus_minus, 0, 1e-6);
        check_close(sound[i].row, spec->weighed_length.value, 0.58, 0, 1e-15);
        check_close(sound[i].row, spec->weighed_count, sound[i].count, 0, 0);
        check_close(sound[i].row, spec->ball_mass.value, sound[i].ball, 0, 1e-15);
        clear_outcome(&got);
    }
    static const struct {
        const char *row, *errors[3];
    } wrong[] = {
        {"a,A4,0.36,,,,,", {IN "4: weighed_length: the cell is empty; a weighed_mass holds for a"}},
        {"a,A4,,580,,,,", {IN "8: linear_density: the cell is empty|weighed_mass and weighed_len"}},
        {"a,A4,0,580,,,,", {IN "3: weighed_mass: \"0\" is out of its range"}},
        {"a,A4,0.36 N,580,,,,", {IN "3: weighed_mass: \"0.36 N\" is not a mass|0.36 g"}},
        {"a,A4,0.36,580,2.5,,,", {IN "5: weighed_count: it is no whole number from 1 upwards"}},
        {"a,A4,0.36,580,0,,,", {IN "5: weighed_count: \"0\" is out"}},
        {"a,A4,0.36,580,,-0.1,,", {IN "6: scale_step: \"-0.1\" is out"}},
        {"a,A4,0.6,580,10,,0.06,", {IN "7: ball_mass: it is not less than the whole string's"}},
    };
    for (size_t i = 0; i < COUNT_OF(wrong); i++) {
        struct outcome got;
        read_weighed(wrong[i].row, &got);
        check_messages(wrong[i].row, &got.report.errors, wrong[i].errors);
        check_status(wrong[i].row, got.status, MENSUR_DATA);
        clear_outcome(&got);
    }
}

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct outcome got;
        read_rows(refusals[i].rows, &got);
        check_messages(refusals[i].name, &got.report.errors, refusals[i].errors);
        check_status(refusals[i].name, got.status, MENSUR_DATA);
        clear_outcome(&got);
    }
}

static const struct {
    const char *name, *rows;
    const char *warnings[3];
} taken[] = {
    {"stated density", "a,A4,,gut,1.8,,,,,,,,,,,,,,,,,,,\n", {NULL}},
    {"stated tension", "a,A4,,,,60,328,,,,,,,,,,,,,,,,,\n", {NULL}},
    {"plain", "a,A4,,gut,,,,0.65,,,,,,,,,,,,,,,,\n", {NULL}},
    {"plain with a density", "a,A4,,,,,,0.65,1310,,,,,,,,,,,,,,,\n", {NULL}},
    {"wrapped", "a,A4,,gut,,,,,,0.65,silver,,round,0.1,silver,,flat,0.1,,,,,,\n", {NULL}},
    {"wrapped, densities given", "a,A4,,,,,,,1300,0.65,,10490,round,0.1,,,,,,,,,,\n", {NULL}},
    {"core alone", "a,A4,,gut,,,,,,0.65,,,,,,,,,,,,,,\n", {NULL}},
    {"wraps described beside a stated density",
     "a,A4,,gut,1.8,,,,,,platinum,,,,,,,,,,,,,\n",
     {NULL}},
    {"unknown material, density stated",
     "a,A4,,gutt,1.8,,,,,,,,,,,,,,,,,,,\n",
     {IN "4: material: \"gutt\" is unknown, so modulus and strength are too; did you mean"}},
    {"unknown material, own density",
     "a,A4,,gutt,,,,0.65,1300,,,,,,,,,,,,,,,\n",
     {IN "4: material: \"gutt\" is unknown"}},
    {"unknown material, own modulus", "a,A4,,gutt,1.8,,,,,,,,,,,,,,5,,,,,\n", {NULL}},
    {"two for a note in two sets",
     "a,A4,one,,1.8,,,,,,,,,,,,,,,,,,,\nb,A4,two,,1.7,,,,,,,,,,,,,,,,,,,\n",
     {NULL}},
    {"two for a note in no set",
     "a,A4,,,1.8,,,,,,,,,,,,,,,,,,,\nb,A4,,,1.7,,,,,,,,,,,,,,,,,,,\n",
     {NULL}},
};

static void takes(void **state) {
    (void)state;
    const char *const nothing[] = {NULL};
    for (size_t i = 0; i < COUNT_OF(taken); i++) {
        struct outcome got;
        read_rows(taken[i].rows, &got);
        check_messages(taken[i].name, &got.report.errors, nothing);
        check_messages(taken[i].name, &got.report.warnings, taken[i].warnings);
        check_status(taken[i].name, got.status, MENSUR_OK);
        assert_true(got.shop.stock.string_count >= 1);
        clear_outcome(&got);
    }
}

static void keeps_what_stands_there(void **state) {
    (void)state;
    struct outcome got;
    read_rows("a,F#3,one,gut,2.4 +-0.05,,,,1.31 g/cm3,0.65,silver,,flat,0.1,copper,8900,round,"
              "0.05,5.2,370,380,7,slack,442\n"
              "b,A4,,,1.8,,,,,,,,,,,,,,,,,,,\n",
              &got);
    check_status("rows", got.status, MENSUR_OK);
    const struct mensur_string_spec *a = &got.shop.stock.strings[0];
    const struct mensur_string_spec *b = &got.shop.stock.strings[1];
    assert_string_equal(a->name, "a");
    assert_string_equal(a->set, "one");
    assert_string_equal(a->material, "gut");
    assert_null(a->construction);
    assert_string_equal(a->note.name, "F#3");
    assert_string_equal(a->wraps[0].material, "silver");
    assert_string_equal(a->wraps[1].material, "copper");
    assert_null(a->wraps[2].material);
    assert_true(a->wraps[0].flat && !a->wraps[1].flat && a->slack);
    assert_int_equal(a->line, 2);
    check_close("linear_density", a->linear_density.value, 0.0024, 0, 1e-15);
    check_close("linear_density", a->linear_density.plus_minus, 0.00005, 0, 1e-15);
    check_close("density", a->density.value, 1310, 0, 1e-15);
    check_close("core", a->core_diameter.value, 0.00065, 0, 1e-15);
    check_close("wrap 1", a->wraps[0].thickness.value, 0.0001, 0, 1e-15);
    check_close("wrap 2", a->wraps[1].density.value, 8900, 0, 1e-15);
    check_close("wrap 3", a->wraps[2].thickness.value, NAN, 0, 0);
    check_close("modulus", a->modulus.value, 5.2e9, 0, 1e-15);
    check_close("made for", a->made_for_high.value, 0.38, 0, 1e-15);
    check_close("strands", a->strands, 7, 0, 0);
    check_close("A4", a->stated_a4.value, 442, 0, 0);
    check_close("A4 left out", b->stated_a4.value, 440, 0, 0);
    check_close("diameter left out", b->diameter.value, NAN, 0, 0);
    check_close("strands left out", b->strands, NAN, 0, 0);
    assert_false(b->slack);
    clear_outcome(&got);
}

/* The diameter of plain gut is a slack gauge where the row does not say tuned. */
static void gauges(void **state) {
    (void)state;
    static const struct {
        const char *name, *rows;
        bool slack;
    } rows[] = {
        {"plain gut", "a,A4,,gut,,,,0.76,,,,,,,,,,,,,,,,\n", true},
        {"plain gut, tuned", "a,A4,,gut,,,,0.76,,,,,,,,,,,,,,,tuned,\n", false},
        {"gut by its density", "a,A4,,gut,0.6,,,0.76,,,,,,,,,,,,,,,,\n", false},
        {"gut by its tension", "a,A4,,gut,,60,370,0.76,,,,,,,,,,,,,,,,\n", false},
        {"wound gut", "a,A4,,gut,,,,,,0.7,silver,,flat,0.1,,,,,,,,,,\n", false},
        {"a core alone", "a,A4,,gut,,,,,,0.7,,,,,,,,,,,,,,\n", false},
        {"silver", "a,A4,,silver,,,,0.3,,,,,,,,,,,,,,,,\n", false},
        {"gut of another name, without a modulus", "a,A4,,new gut,,,,0.76,1300,,,,,,,,,,,,,,,\n",
         false},
        {"the same with a modulus of its own", "a,A4,,new gut,,,,0.76,1300,,,,,,,,,,5,,,,,\n",
         true},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct outcome got;
        read_rows(rows[i].rows, &got);
        check_status(rows[i].name, got.status, MENSUR_OK);
        if (got.shop.stock.strings[0].slack != rows[i].slack) {
            fail_msg("%s: slack is %d", rows[i].name, !rows[i].slack);
        }
        clear_outcome(&got);
    }
}

/* A set may have a sharp and its flat, and strings may be of none: a thousand of each. */
static void takes_many_sets(void **state) {
    const size_t sets = 1000;
    char *text = malloc(sets * 120 + 40), *at = text;
    struct outcome got;
    (void)state;
    assert_non_null(text);
    at += sprintf(at, "name,note,set,linear_density\n");
    for (size_t i = 0; i < sets; i++) {
        at +=
            sprintf(at, "a%zu,Db4,set %zu,1.8\nb%zu,C#4,set %zu,1.9\nc%zu,C#4,,2\n", i, i, i, i, i);
    }
    const struct given given[] = {{MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
                                  {MENSUR_TABLE_SETTINGS, "name,value\ncatalogue,no\n", 0},
                                  {MENSUR_TABLE_STRINGS, text, (size_t)(at - text)}};
    const char *const nothing[] = {NULL};
    read_tables(given, COUNT_OF(given), &got);
    check_messages("sets", &got.report.errors, nothing);
    assert_int_equal(got.shop.stock.string_count, 3 * sets);
    clear_outcome(&got);
    free(text);
}

/* The built-in strings stand beside a shop's own unless it says no; a setting of no value says
 * nothing. */
static void stands_beside_the_catalogue(void **state) {
    static const struct {
        const char *settings;
        bool there;
    } rows[] = {{"name,value\n", true},
                {"name,value\ncatalogue,\n", true},
                {"name,value\nunits,mm\ncatalogue,yes\n", true},
                {"name,value\ncatalogue,no\n", false}};
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const struct given given[] = {
            {MENSUR_TABLE_INSTRUMENTS, "name,string_length\nx,372\n", 0},
            {MENSUR_TABLE_STRINGS, "name,note,linear_density\na,A4,1.8\n", 0},
            {MENSUR_TABLE_SETTINGS, rows[i].settings, 0}};
        struct outcome got;
        read_tables(given, COUNT_OF(given), &got);
        check_status(rows[i].settings, got.status, MENSUR_OK);
        assert_int_equal(got.shop.stock.string_count > 1, rows[i].there);
        clear_outcome(&got);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(weighs),          cmocka_unit_test(refuses),
        cmocka_unit_test(takes),           cmocka_unit_test(keeps_what_stands_there),
        cmocka_unit_test(gauges),

        cmocka_unit_test(takes_many_sets), cmocka_unit_test(stands_beside_the_catalogue),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
