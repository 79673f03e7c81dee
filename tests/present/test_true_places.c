/* SPDX-License-Identifier: GPL-3.0-or-later */
/* True places below the fingers as text, as rows of CSV, and as a key of JSON. */
#include "fixtures.h"

#include <jansson.h>

static const char *const notes[] = {"C3", "G3", "D4", "A4", "E5"};
enum { STEPS = 3 };

/* Places of that many strings, the last of the third one not known. */
static void add_places(struct mensur_profile *profile, size_t strings) {
    profile->true_places = calloc(strings * STEPS, sizeof(*profile->true_places));
    assert_non_null(profile->true_places);
    for (size_t i = 0; i < strings * STEPS; i++) {
        struct mensur_true_place *place = &profile->true_places[i];
        double s = (double)(i % STEPS + 1);
        *place = (struct mensur_true_place){.string = i / STEPS == 1 ? NULL : "gut, plain",
                                            .semitones = s,
                                            .from_nut_low = 0.0191 * s - 1e-4 * (double)(i / STEPS),
                                            .from_nut_high = 0.0191 * s};
        strcpy(place->note, notes[i / STEPS]);
    }
    profile->true_place_count = strings * STEPS;
    if (strings > 2) {
        profile->true_places[3 * STEPS - 1].from_nut_low = NAN;
        profile->true_places[3 * STEPS - 1].from_nut_high = NAN;
    }
}

/* The fixture does not know of what was added to it. */
static void drop(struct fixture *fixture) {
    free(fixture->kestrel.true_places);
    mensur_facts_clear(&fixture->kestrel.remarks);
    fixture_clear(fixture);
}

static char *present(const struct mensur_profile *profile, struct mensur_style style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_heading heading = heading_for("fingers");
    struct mensur_presenter *presenter;
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    check_status("present", mensur_present_profile(presenter, profile), MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    return memory.bytes;
}

/* Four strings beside each other, the fifth below them. */
static void text(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    add_places(&fixture->kestrel, 5);
    char *bytes = present(&fixture->kestrel, (struct mensur_style){.true_places = true});
    check_holds(bytes,
                "\nTrue places\n"
                " semitones    simple             C3             G3             D4             A4\n"
                "                  mm             mm             mm             mm             mm\n"
                "         1      20.3      19.0-19.5      19.0-19.5      18.5-19.5      18.5-19.5\n"
                "         2      39.5      38.0-38.5      38.0-38.5      38.0-38.5      37.5-38.5\n"
                "         3      57.7      57.0-57.5      57.0-57.5              ?      57.0-57.5\n"
                " semitones    simple             E5\n"
                "                  mm             mm\n"
                "         1      20.3      18.5-19.5\n");
    check_page(bytes);
    free(bytes);
    bytes = present(&fixture->kestrel, (struct mensur_style){.true_places = true, .inches = true});
    check_holds(bytes, "\n         2      1.56      1.50-1.52");
    check_page(bytes);
    free(bytes);
    /* Unasked, they are not shown. */
    bytes = present(&fixture->kestrel, (struct mensur_style){.true_places = false});
    assert_null(strstr(bytes, "True places"));
    free(bytes);
    drop(fixture);
}

/* One block that is just full, and none at all. */
static void edges(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    add_places(&fixture->kestrel, 4);
    char *bytes = present(&fixture->kestrel, (struct mensur_style){.true_places = true});
    const char *head = strstr(bytes, "\n semitones    simple ");
    assert_non_null(head);
    assert_null(strstr(head + 1, "\n semitones    simple "));
    free(bytes);
    bytes = present(&fixture->heron, (struct mensur_style){.true_places = true});
    check_holds(bytes, "True places\nNot known: they need stop, neck and the stiffness of the "
                       "strings.\n");
    check_page(bytes);
    free(bytes);
    drop(fixture);
}

static void csv(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    add_places(&fixture->kestrel, 3);
    char *bytes = present(&fixture->kestrel,
                          (struct mensur_style){.format = MENSUR_FORMAT_CSV, .true_places = true});
    assert_string_equal(bytes, "instrument,note,string,semitones,from_nut_low_mm,from_nut_high_mm\n"
                               "kestrel,C3,\"gut, plain\",1,19.1000,19.1000\n"
                               "kestrel,C3,\"gut, plain\",2,38.2000,38.2000\n"
                               "kestrel,C3,\"gut, plain\",3,57.3000,57.3000\n"
                               "kestrel,G3,,1,19.0000,19.1000\n"
                               "kestrel,G3,,2,38.1000,38.2000\n"
                               "kestrel,G3,,3,57.2000,57.3000\n"
                               "kestrel,D4,\"gut, plain\",1,18.9000,19.1000\n"
                               "kestrel,D4,\"gut, plain\",2,38.0000,38.2000\n"
                               "kestrel,D4,\"gut, plain\",3,,\n");
    free(bytes);
    bytes = present(&fixture->kestrel, (struct mensur_style){.format = MENSUR_FORMAT_CSV});
    check_holds(bytes,
                "from_nut_mm,to_next_mm,frets\n"); /* the simple places, where nothing is asked */
    free(bytes);
    drop(fixture);
}

static void json(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    json_error_t error;
    add_places(&fixture->kestrel, 3);
    mensur_facts_add(&fixture->kestrel.remarks, MENSUR_FACT_BODY_NOTE, MENSUR_NAMES("F5", "A4"),
                     MENSUR_NUMBERS(8.4));
    char *bytes = present(&fixture->kestrel, (struct mensur_style){.format = MENSUR_FORMAT_JSON});
    json_t *whole = json_loads(bytes, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(whole);
    json_t *answer = json_array_get(json_object_get(whole, "answers"), 0);
    json_t *places = json_object_get(answer, "true_places");
    assert_int_equal(json_array_size(places), 9);
    json_t *last = json_array_get(places, 8), *fourth = json_array_get(places, 3);
    assert_int_equal(json_object_size(last), 5);
    assert_true(json_is_null(json_object_get(last, "from_nut_low_mm")));
    assert_true(json_is_null(json_object_get(fourth, "string")));
    assert_string_equal(json_string_value(json_object_get(fourth, "note")), "G3");
    check_close("low", json_number_value(json_object_get(fourth, "from_nut_low_mm")), 19.0, 0,
                1e-14);
    check_close("high", json_number_value(json_object_get(fourth, "from_nut_high_mm")), 19.1, 0,
                1e-14);
    assert_string_equal(json_string_value(json_array_get(json_object_get(answer, "remarks"), 0)),
                        "The hand meets the body 8.4 semitones up, at F5 on "
                        "the A string");
    json_decref(whole);
    free(bytes);
    drop(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(text), cmocka_unit_test(edges),
                                       cmocka_unit_test(csv), cmocka_unit_test(json)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
