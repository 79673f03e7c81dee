/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The first row: columns missing, repeated, misspelt, unknown; and names given twice. */
#include "reading.h"

static const struct refusal refusals[] = {
    {"name is missing",
     MENSUR_TABLE_INSTRUMENTS,
     "stop,neck\n222,150\n",
     0,
     {"instruments.csv:1:1: column \"name\": is missing"}},
    {"no column for the length",
     MENSUR_TABLE_INSTRUMENTS,
     "name,body\nheron,410\n",
     0,
     {"instruments.csv:1:1: the columns are missing that every row needs: string_length|stop"}},
    {"stop without neck or family",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop\nheron,222\n",
     0,
     {"instruments.csv:2:1: neck: it is missing, and no family says how long it usually is"}},
    {"a column twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,Stop\nheron,222,150,222\n",
     0,
     {"instruments.csv:1:4: column \"stop\": stands twice"}},
    {"an unknown column twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,colour of it,colour-of-it\nheron,222,150,,\n",
     0,
     {"instruments.csv:1:5: column \"colour_of_it\": stands twice"}},
    {"misspelt",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,nekc\nheron,222,150\n",
     0,
     {"instruments.csv:1:3: column \"nekc\" is unknown; did you mean \"neck\"?"}},
    {"misspelt, not needed",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck,brigde\nheron,222,150,39\n",
     0,
     {"instruments.csv:1:4: column \"brigde\" is unknown; did you mean \"bridge\"?"}},
    {"misspelt name",
     MENSUR_TABLE_INSTRUMENTS,
     "nam,stop,neck\nheron,222,150\n",
     0,
     {"instruments.csv:1:1: column \"nam\" is unknown; did you mean \"name\"?"}},
    {"a bad head, and a bad cell",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,nekc\nheron,x,150\n",
     0,
     {"instruments.csv:1:3: column \"nekc\"", "instruments.csv:2:2: stop: \"x\" is not a length"}},
    {"strings without note",
     MENSUR_TABLE_STRINGS,
     "name,linear_density\na,2.4\n",
     0,
     {"strings.csv:1:1: column \"note\": is missing"}},
    {"strings without a density",
     MENSUR_TABLE_STRINGS,
     "name,note,material\na,A4,gut\n",
     0,
     {"strings.csv:1:1: the columns are missing that lead to a string's density"}},
    {"tension without its length",
     MENSUR_TABLE_STRINGS,
     "name,note,stated_tension\na,A4,60\n",
     0,
     {"strings.csv:1:1: the columns are missing that lead to a string's density"}},
    {"tunings",
     MENSUR_TABLE_TUNINGS,
     "name,note\nviola,A4\n",
     0,
     {"tunings.csv:1:2: column \"note\" is unknown; did you mean \"notes\"?"}},
    {"players",
     MENSUR_TABLE_PLAYERS,
     "name,upper_arm\na,300\n",
     0,
     {"players.csv:1:1: the columns are missing that every row needs: stature"}},
    {"families",
     MENSUR_TABLE_FAMILIES,
     "name,held\nviola,chin\n",
     0,
     {"families.csv:1:1: column \"frame_semitones\": is missing",
      "families.csv:1:1: column \"positions\": is missing"}},
    {"materials",
     MENSUR_TABLE_MATERIALS,
     "density\n1300\n",
     0,
     {"materials.csv:1:1: column \"name\": is missing"}},
    {"wires",
     MENSUR_TABLE_WIRES,
     "material,diameter,strength_low\nsteel,0.3,2000\n",
     0,
     {"wire_strength.csv:1:1: column \"strength_high\": is missing"}},
    {"a name twice",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nheron,222,150\nwren,220,148\nheron,221,150\nheron,222,151\n",
     0,
     {"instruments.csv:4:1: name: \"heron\" stands in line 2 already",
      "instruments.csv:5:1: name: \"heron\" stands in line 2 already"}},
    {"instruments called name",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nname,222,150\nwren,220,148\nname,221,150\n",
     0,
     {"instruments.csv:4:1: name: \"name\" stands in line 2 already"}},
    {"two names twice, in turn",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nb,222,150\na,222,150\na,222,150\nb,222,150\n",
     0,
     {"instruments.csv:4:1: name: \"a\" stands in line 3",
      "instruments.csv:5:1: name: \"b\" stands "
      "in line 2"}},
    {"a name twice, in a row with an error",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\nb,222,x\nb,222,y\n",
     0,
     {"instruments.csv:2:3: neck: \"x\"", "instruments.csv:3:3: neck: \"y\"",
      "instruments.csv:3:1: name: \"b\" stands in line 2"}},
    {"names in another column",
     MENSUR_TABLE_PLAYERS,
     "stature,name\n1700,a\n1700,a\n",
     0,
     {"players.csv:3:2: name: \"a\" stands in line 2"}},
    {"a string twice",
     MENSUR_TABLE_STRINGS,
     "name,note,linear_density\na,A4,1\na,D4,1\n",
     0,
     {"strings.csv:3:1: name: \"a\" stands in line 2"}},
    {"a material twice",
     MENSUR_TABLE_MATERIALS,
     "name,density\ngut,1300\nsilver,10490\ngut,1300\ncopper,8900\naluminium,2700\n",
     0,
     {"materials.csv:4:1: name: \"gut\" stands in line 2"}},
    {"no name",
     MENSUR_TABLE_INSTRUMENTS,
     "name,stop,neck\n,222,150\n",
     0,
     {"instruments.csv:2:1: name: the cell is empty"}},
};

static void refuses(void **state) {
    (void)state;
    check_refusals(refusals, COUNT_OF(refusals));
}

static const struct {
    const char *name, *text;
    const char *warnings[3];
} taken[] = {
    {"unknown columns",
     "name,stop,neck,colour,price in my town\nheron,222,150,red,1\n",
     {"instruments.csv:1:4: column \"colour\" is unknown, and is not read",
      "instruments.csv:1:5: column \"price_in_my_town\" is unknown"}},
    {"like a column that is there",
     "name,stop,neck,necks\nheron,222,150,1\n",
     {"instruments.csv:1:4: column \"necks\" is unknown, and is not read"}},
    {"without a name",
     "name,stop,neck,\nheron,222,150,1\n",
     {"instruments.csv:1:4: this column has no name"}},
    {"hyphens and blanks", "name,string length,Body-Straight\nheron,372,400\n", {NULL}},
    {"names that differ in capitals", "name,stop,neck\nheron,222,150\nHeron,222,150\n", {NULL}},
    {"a head alone", "name,stop,neck\n", {NULL}},
};

static void takes(void **state) {
    (void)state;
    const char *const nothing[] = {NULL};
    for (size_t i = 0; i < COUNT_OF(taken); i++) {
        struct outcome got;
        read_table(MENSUR_TABLE_INSTRUMENTS, taken[i].text, 0, &got);
        check_messages(taken[i].name, &got.report.errors, nothing);
        check_messages(taken[i].name, &got.report.warnings, taken[i].warnings);
        check_status(taken[i].name, got.status, MENSUR_OK);
        clear_outcome(&got);
    }
}

/* Many rows, each name twice: the list of hashes grows, and each first line is found. */
static void finds_every_repetition(void **state) {
    (void)state;
    const size_t rows = 3000;
    char *text = malloc(2 * rows * 24 + 40), *at = text;
    assert_non_null(text);
    at += sprintf(at, "name,string_length\n");
    for (size_t i = 0; i < 2 * rows; i++) {
        at += sprintf(at, "bird %zu,372\n", i % rows);
    }
    struct outcome got;
    read_table(MENSUR_TABLE_INSTRUMENTS, text, 0, &got);
    check_status("repeated", got.status, MENSUR_DATA);
    assert_int_equal(got.report.errors.count, rows);
    assert_int_equal(got.count, 2 * rows); /* repetitions are known only at the end */
    for (size_t i = 0; i < rows; i++) {
        char wanted[80];
        snprintf(wanted, sizeof(wanted),
                 "instruments.csv:%zu:1: name: \"bird %zu\" stands in line %zu ", rows + 2 + i, i,
                 2 + i);
        check_holds(got.report.errors.items[i], wanted);
    }
    clear_outcome(&got);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refuses),
        cmocka_unit_test(takes),
        cmocka_unit_test(finds_every_repetition),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
