/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which strings of a set belong to which notes of a tuning, and notes written out. */
#include "check.h"

#include "stock.h"

/* The rows are worked out by hand from the rule: by name, the others in their places up to five
 * semitones away, else all in order up to seven. */
static const struct {
    const char *row;
    const char *set;    /* its strings' notes, in the order of the file */
    const char *tuning; /* the lowest first */
    const char *taken;  /* the string for each note; - for none */
} rows[] = {
    {"as it is", "C3 G3 D4 A4", "C3 G3 D4 A4", "C3 G3 D4 A4"},
    {"a file out of order", "A4 C3 D4 G3", "C3 G3 D4 A4", "C3 G3 D4 A4"},
    {"no string at all", "", "C3 G3 D4 A4", "- - - -"},
    {"one string up", "C3 G3 D4 A4", "C3 G3 D4 Bb4", "C3 G3 D4 A4"},
    {"one string down a tone", "C3 G3 D4 A4", "Bb2 G3 D4 A4", "C3 G3 D4 A4"},
    {"scordatura of two", "G3 D4 A4 E5", "A3 D4 A4 C#5", "G3 D4 A4 E5"},
    {"scordatura with a name of another place", "G3 D4 A4 E5", "A3 E4 A4 E5", "G3 D4 A4 E5"},
    {"a violin as A3 D4 A4 D5", "G3 D4 A4 E5", "A3 D4 A4 D5", "G3 D4 A4 E5"},
    {"a cello's fifth suite", "C2 G2 D3 A3", "C2 G2 D3 G3", "C2 G2 D3 A3"},
    {"a whole tone down", "C3 G3 D4 A4", "Bb2 F3 C4 G4", "C3 G3 D4 A4"},
    {"a semitone down, other names", "C3 G3 D4 A4", "B2 F#3 C#4 G#4", "C3 G3 D4 A4"},
    {"a fourth up", "C3 G3 D4 A4", "F3 C4 G4 D5", "C3 G3 D4 A4"},
    {"a fifth down: names of other places", "C3 G3 D4 A4", "F2 C3 G3 D4", "C3 G3 D4 A4"},
    {"a fifth up", "C3 G3 D4 A4", "G3 D4 A4 E5", "C3 G3 D4 A4"},
    {"an octave down is too far", "C3 G3 D4 A4", "C2 G2 D3 A3", "- - - -"},
    {"in order, one too far", "C3 G3 D4 A4", "C3 G3 D4 F5", "C3 G3 D4 -"},
    {"five semitones", "C3 G3 D4 A4", "C3 G3 D4 D5", "C3 G3 D4 A4"},
    {"seven semitones", "C3 G3 D4 A4", "C3 G3 D4 E5", "C3 G3 D4 A4"},
    {"five strings", "C3 G3 D4 A4 E5", "C3 G3 D4 A4 E5", "C3 G3 D4 A4 E5"},
    {"five strings a tone down", "C3 G3 D4 A4 E5", "Bb2 F3 C4 G4 D5", "C3 G3 D4 A4 E5"},
    {"five notes, the set has four", "C3 G3 D4 A4", "C3 G3 D4 A4 E5", "C3 G3 D4 A4 -"},
    {"five notes, the lowest has none", "G3 D4 A4 E5", "C3 G3 D4 A4 E5", "- G3 D4 A4 E5"},
    {"four notes of a set of five", "C3 G3 D4 A4 E5", "C3 G3 D4 A4", "C3 G3 D4 A4"},
    {"four notes of a set of five, one tuned", "C3 G3 D4 A4 E5", "C3 G3 D4 Bb4", "C3 G3 D4 A4"},
    {"a missing string", "C3 G3 A4", "C3 G3 D4 A4", "C3 G3 - A4"},
    {"a missing string beside a tuned one", "C3 G3 A4", "C3 G3 D4 Bb4", "C3 G3 - A4"},
    {"a missing string, all tuned", "C3 G3 A4", "Bb2 F3 C4 G4", "C3 G3 - A4"},
    {"another spelling is another name", "C3 Gb3 D4", "C3 F#3 D4", "C3 Gb3 D4"},
    {"the tuning begins with its highest", "C3 G3 D4 A4", "A4 D4 G3 Bb2", "A4 D4 G3 C3"},
    {"a single string", "A4", "Bb4", "A4"},
};

static char set_name[] = "gut", other_name[] = "steel";

/* Strings of a set for the notes of a list, behind one of another set. */
static void string_up(const char *notes, struct mensur_string_spec *strings,
                      struct mensur_stock *stock) {
    struct mensur_tuning list = {.count = 0};
    *stock = (struct mensur_stock){.strings = strings};
    if (*notes != '\0') {
        check_status(notes, mensur_tuning_read(notes, NULL, &list), MENSUR_OK);
    }
    mensur_string_spec_init(&strings[0]);
    strings[0].set = other_name;
    check_status("A4", mensur_note_read("A4", 2, &strings[0].note), MENSUR_OK);
    for (size_t i = 0; i < list.count; i++) {
        mensur_string_spec_init(&strings[i + 1]);
        strings[i + 1].set = set_name;
        strings[i + 1].note = list.notes[i];
    }
    stock->string_count = list.count + 1;
}

static void belong(void **state) {
    (void)state;
    for (size_t r = 0; r < COUNT_OF(rows); r++) {
        struct mensur_string_spec strings[MENSUR_STRINGS_MAX + 1];
        const struct mensur_string_spec *taken[MENSUR_STRINGS_MAX];
        struct mensur_stock stock;
        struct mensur_tuning tuning = {.count = 0};
        char got[200] = "";
        string_up(rows[r].set, strings, &stock);
        check_status(rows[r].row, mensur_tuning_read(rows[r].tuning, NULL, &tuning), MENSUR_OK);
        mensur_stock_set_strings(&stock, "gut", &tuning, taken);
        for (size_t i = 0; i < tuning.count; i++) {
            strcat(got, i == 0 ? "" : " ");
            strcat(got, taken[i] == NULL ? "-" : taken[i]->note.name);
        }
        if (strcmp(got, rows[r].taken) != 0) {
            fail_msg("%s: %s, wanted %s", rows[r].row, got, rows[r].taken);
        }
        mensur_stock_set_strings(&stock, NULL, &tuning, taken);
        assert_null(taken[0]);
    }
}

/* No string is farther than seven semitones from its own note, none is used twice, and a note that
 * has its own has that one, unless all go by their order. */
static void bounds_hold(void **state) {
    (void)state;
    unsigned seed = 7;
    for (int draw = 0; draw < 20000; draw++) {
        struct mensur_string_spec strings[9];
        const struct mensur_string_spec *taken[MENSUR_STRINGS_MAX];
        struct mensur_stock stock = {.strings = strings};
        struct mensur_tuning tuning = {.count = 0};
        int pitch[2] = {-30, -30};
        for (int i = 0; i < 16; i++) {
            seed = seed * 1103515245u + 12345u;
            int which = (int)(seed >> 16 & 1u);
            struct mensur_note note = {.name = "A4", .fifths_from_a = 0};
            pitch[which] += 1 + (int)(seed >> 20 & 7u);
            note.semitones_from_a4 = pitch[which];
            if (which == 0 && stock.string_count < COUNT_OF(strings)) {
                mensur_string_spec_init(&strings[stock.string_count]);
                strings[stock.string_count].set = set_name;
                strings[stock.string_count++].note = note;
            } else if (which == 1) {
                tuning.notes[tuning.count++] = note;
            }
        }
        mensur_stock_set_strings(&stock, "gut", &tuning, taken);
        for (size_t i = 0; i < tuning.count; i++) {
            if (taken[i] == NULL) {
                continue;
            }
            assert_true(abs(taken[i]->note.semitones_from_a4 - tuning.notes[i].semitones_from_a4) <=
                        7);
            for (size_t j = i + 1; j < tuning.count; j++) {
                assert_true(taken[j] == NULL || taken[j] > taken[i]);
            }
        }
    }
}

static void tuning_of_a_set(void **state) {
    (void)state;
    struct mensur_string_spec strings[MENSUR_STRINGS_MAX + 1];
    struct mensur_stock stock;
    struct mensur_tuning tuning;
    string_up("A4 C3 D4 G3", strings, &stock);
    check_status("set", mensur_stock_set_tuning(&stock, "gut", &tuning), MENSUR_OK);
    assert_int_equal(tuning.count, 4);
    assert_string_equal(tuning.notes[0].name, "C3");
    assert_string_equal(tuning.notes[3].name, "A4");
    assert_string_equal(tuning.name, "gut");
    check_status("no such set", mensur_stock_set_tuning(&stock, "silk", &tuning), MENSUR_USE);
    check_status("no set", mensur_stock_set_tuning(&stock, NULL, &tuning), MENSUR_USE);
}

static void reads_notes(void **state) {
    (void)state;
    static const struct {
        const char *text, *fault; /* fault NULL: they are read */
    } texts[] = {{"C3 G3 D4 A4", NULL},
                 {" c3,g3;Bb4 ", NULL},
                 {"A4", NULL},
                 {"", "\"\" is no note"},
                 {" , ", "\"\" is no note"},
                 {"C3 X4", "\"X4\" is no note"},
                 {"viola", "\"viola\" is no note"},
                 {"C3 G3 C3", "C3 stands twice"},
                 {"C1 C2 C3 C4 C5 C6 C7 D1 D2 D3 D4 D5 D6 D7 E1 E2 E3", "at most 16 strings"}};
    for (size_t i = 0; i < COUNT_OF(texts); i++) {
        struct mensur_fault fault = {""};
        struct mensur_tuning tuning = {.count = 77};
        enum mensur_status status = mensur_tuning_read(texts[i].text, &fault, &tuning);
        check_status(texts[i].text, status, texts[i].fault == NULL ? MENSUR_OK : MENSUR_DATA);
        if (texts[i].fault != NULL) {
            check_holds(fault.text, texts[i].fault);
            assert_int_equal(tuning.count, 77); /* untouched on failure */
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(belong), cmocka_unit_test(bounds_hold),
                                       cmocka_unit_test(tuning_of_a_set),
                                       cmocka_unit_test(reads_notes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
