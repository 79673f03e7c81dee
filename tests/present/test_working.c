/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The working below an answer: values and steps as text, the same as JSON, nowhere in CSV. */
#include "fixtures.h"

#include <jansson.h>

static struct mensur_working_line line(const char *about, const char *what, const char *formula,
                                       const char *numbers, const char *result,
                                       const char *source) {
    const char *const texts[] = {about, what, formula, numbers, result, source};
    char *copies[6];
    for (size_t i = 0; i < 6; i++) {
        assert_int_equal(mensur_text_copy(texts[i], strlen(texts[i]), &copies[i]), MENSUR_OK);
    }
    return (struct mensur_working_line){0,         copies[0], copies[1], copies[2],
                                        copies[3], copies[4], copies[5]};
}

enum { LINES = 10 };

static void make(struct mensur_working *out) {
    *out = (struct mensur_working){.count = LINES, .room = LINES};
    out->lines = calloc(LINES, sizeof(*out->lines));
    assert_non_null(out->lines);
    const struct mensur_working_line lines[LINES] = {
        line("", "stop", "S", "", "214.00 mm", "given"),
        line("", "board_nut", "board_nut", "", "7.80 mm", "assumed, usual for viola"),
        line("", "slope of the neck", "θ = ψ − φ", "7.407° − 0.716°", "6.691°", "plane geometry"),
        line("", "bow room", "bow_room = L − board_length", "361.89 − 301.58", "60.32 mm",
             "plane geometry"),
        line("", "tension of C3", "T = 4·L²·f²·μ, in m, Hz and kg/m",
             "4·0.36189²·130.370²·0.0048628", "43.30 N", "Mersenne 1636"),
        line("", "tension of G3", "T = 4·L²·f²·μ, in m, Hz and kg/m",
             "4·0.36189²·195.556²·0.0021794", "43.66 N", "Mersenne 1636"),
        line("heron", "tension of G3", "T = 4·L²·f²·μ, in m, Hz and kg/m",
             "4·0.37576²·195.556²·0.0021794", "47.07 N", "Mersenne 1636"),
        line("heron", "way from nut to bridge along the board's line",
             "D = (S − nut.x)·cos(ψ) + (top.y − nut.y)·sin(ψ)",
             "(214.00 − (−143.99))·cos(7.407°) + (52.50 − (−0.53))·sin(7.407°)", "361.84 mm",
             "plane geometry"),
        line("heron", "way from nut to bridge along the board's line, and back",
             "D = (S − nut.x)·cos(ψ) + (top.y − nut.y)·sin(ψ)",
             "(214.00 − (−143.99))·cos(7.407°) + (52.50 − (−0.53))·sin(7.407°)", "361.84 mm",
             "plane geometry"),
        line("conflict", "what the wish for left reach would have to give", "give1", "", "5.64 mm",
             "its figure at the other's end, less that at its own"),
    };
    memcpy(out->lines, lines, sizeof(lines));
}

static const char *const want =
    "\n"
    "Working\n"
    "stop: S = 214.00 mm (given)\n"
    "board_nut = 7.80 mm (assumed, usual for viola)\n"
    "slope of the neck: θ = ψ − φ = 7.407° − 0.716° = 6.691° (plane geometry)\n"
    "bow_room = L − board_length = 361.89 − 301.58 = 60.32 mm\n"
    "tension of C3: T = 4·L²·f²·μ, in m, Hz and kg/m\n"
    "    = 4·0.36189²·130.370²·0.0048628\n"
    "    = 43.30 N (Mersenne 1636)\n"
    "tension of G3: 4·0.36189²·195.556²·0.0021794 = 43.66 N\n"
    "\n"
    "heron\n"
    "tension of G3: T = 4·L²·f²·μ, in m, Hz and kg/m\n"
    "    = 4·0.37576²·195.556²·0.0021794\n"
    "    = 47.07 N\n"
    "way from nut to bridge along the board's line:\n"
    "    D = (S − nut.x)·cos(ψ) + (top.y − nut.y)·sin(ψ)\n"
    "    = (214.00 − (−143.99))·cos(7.407°) + (52.50 − (−0.53))·sin(7.407°)\n"
    "    = 361.84 mm (plane geometry)\n"
    "way from nut to bridge along the board's line, and back:\n"
    "    = (214.00 − (−143.99))·cos(7.407°) + (52.50 − (−0.53))·sin(7.407°)\n"
    "    = 361.84 mm\n"
    "\n"
    "conflict\n"
    "what the wish for left reach would have to give: give1 = 5.64 mm (its figure at\n"
    "    the other's end, less that at its own)\n"
    "\n";

static char *present(const struct presentation *what, const struct fixture *fixture,
                     const struct mensur_working *working, struct mensur_style style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_heading heading = heading_for(what->command);
    struct mensur_presenter *presenter;
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    mensur_present_set_working(presenter, working);
    check_status(what->command, what->present(presenter, fixture), MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    return memory.bytes;
}

/* Below the tables and above what was assumed, for every answer there is. */
static void text(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    struct mensur_working working;
    make(&working);
    for (size_t i = 0; i < presentation_count; i++) {
        char *bytes = present(&presentations[i], fixture, &working, (struct mensur_style){0});
        const char *at = strstr(bytes, "\nWorking\n");
        if (at == NULL) {
            fail_msg("%s has no working", presentations[i].command);
            return;
        }
        bool check = strcmp(presentations[i].command, "check") == 0;
        if (!check && strncmp(at, want, strlen(want) - 1) != 0) {
            fail_msg("%s:\n%s", presentations[i].command, at);
        }
        const char *assumed = strstr(bytes, "\nAssumed");
        assert_true(assumed == NULL || assumed > at);
        const char *caution = strstr(bytes, "\nCaution");
        assert_true(caution == NULL || caution > at);
        check_page(bytes);
        free(bytes);
    }
    mensur_working_clear(&working);
    assert_null(working.lines);
    fixture_clear(fixture);
}

/* It belongs to one answer, the next: a second one without it has none. */
static void one_answer(void **state) {
    (void)state;
    static const enum mensur_format formats[] = {MENSUR_FORMAT_TEXT, MENSUR_FORMAT_JSON};
    struct fixture *fixture = fixture_make();
    struct mensur_working working;
    make(&working);
    for (size_t i = 0; i < COUNT_OF(formats); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_heading heading = heading_for("tension");
        struct mensur_style style = {.format = formats[i]};
        struct mensur_presenter *presenter;
        check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
        mensur_present_set_working(presenter, &working);
        check_status("first", mensur_present_profile(presenter, &fixture->kestrel), MENSUR_OK);
        check_status("second", mensur_present_profile(presenter, &fixture->heron), MENSUR_OK);
        check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
        const char *mark = formats[i] == MENSUR_FORMAT_TEXT ? "\nWorking\n" : "\"working\"";
        const char *first = strstr(memory.bytes, mark);
        assert_non_null(first);
        assert_null(strstr(first + 1, mark));
        memory_sink_clear(&memory);
    }
    mensur_working_clear(&working);
    fixture_clear(fixture);
}

/* Lengths wait for one another, to be told at length or as rows; with their working they do not. */
static void lengths_at_once(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    struct mensur_working working;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_heading heading = heading_for("lengths");
    struct mensur_style style = {.inches = false};
    struct mensur_presenter *presenter;
    const struct mensur_profile *const five[] = {
        &fixture->kestrel, &fixture->heron, &fixture->dipper, &fixture->kestrel, &fixture->heron};
    make(&working);
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    for (size_t i = 0; i < COUNT_OF(five); i++) {
        mensur_present_set_working(presenter, &working);
        check_status("lengths", mensur_present_profile(presenter, five[i]), MENSUR_OK);
    }
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    const char *at = memory.bytes;
    for (size_t i = 0; i < COUNT_OF(five); i++) {
        char sentence[64];
        snprintf(sentence, sizeof(sentence), "%s: the string is ", five[i]->instrument);
        at = strstr(at, sentence);
        assert_non_null(at);
        at = strstr(at, "\nWorking\n");
        assert_non_null(at);
    }
    assert_null(strstr(memory.bytes, "* has a warning"));
    check_page(memory.bytes);
    memory_sink_clear(&memory);
    mensur_working_clear(&working);
    fixture_clear(fixture);
}

static void json(void **state) {
    (void)state;
    static const char *const keys[] = {"what", "formula", "with_numbers", "result", "source"};
    struct fixture *fixture = fixture_make();
    struct mensur_working working;
    json_error_t error;
    make(&working);
    for (size_t i = 0; i < presentation_count; i++) {
        char *bytes = present(&presentations[i], fixture, &working,
                              (struct mensur_style){.format = MENSUR_FORMAT_JSON});
        json_t *whole = json_loads(bytes, JSON_REJECT_DUPLICATES, &error);
        assert_non_null(whole);
        json_t *answer = json_array_get(json_object_get(whole, "answers"), 0);
        json_t *steps = json_object_get(answer, "working");
        assert_int_equal(json_array_size(steps), LINES);
        for (size_t k = 0; k < LINES; k++) {
            const char *key;
            json_t *value;
            size_t at = 0;
            json_object_foreach(json_array_get(steps, k), key, value) {
                assert_string_equal(key, keys[at++]);
                assert_true(json_is_string(value));
            }
            assert_int_equal(at, COUNT_OF(keys));
        }
        assert_string_equal(json_string_value(json_object_get(json_array_get(steps, 6), "what")),
                            "heron: tension of G3");
        assert_string_equal(
            json_string_value(json_object_get(json_array_get(steps, 4), "with_numbers")),
            "4·0.36189²·130.370²·0.0048628");
        json_decref(whole);
        free(bytes);
        /* No key where it was not asked for. */
        bytes = present(&presentations[i], fixture, NULL,
                        (struct mensur_style){.format = MENSUR_FORMAT_JSON});
        assert_null(strstr(bytes, "\"working\""));
        free(bytes);
    }
    mensur_working_clear(&working);
    fixture_clear(fixture);
}

static void csv(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    struct mensur_working working;
    make(&working);
    for (size_t i = 0; i < presentation_count; i++) {
        struct mensur_style style = {.format = MENSUR_FORMAT_CSV};
        char *with = present(&presentations[i], fixture, &working, style);
        char *without = present(&presentations[i], fixture, NULL, style);
        assert_string_equal(with, without);
        free(with);
        free(without);
    }
    mensur_working_clear(&working);
    fixture_clear(fixture);
}

/* Results and names that are longer than any line keep to the page. */
static void long_texts(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < awkward_name_count; i++) {
        const char *name = awkward_names[i];
        struct mensur_working working = {.count = 3, .room = 3};
        working.lines = calloc(3, sizeof(*working.lines));
        assert_non_null(working.lines);
        working.lines[0] = line(name, name, name, "", name, name);
        working.lines[1] = line(name, name, name, name, name, name);
        working.lines[2] = line(name, name, name, name, name, "");
        char *bytes = present(&presentations[0], fixture, &working, (struct mensur_style){0});
        check_page(bytes);
        free(bytes);
        free(present(&presentations[0], fixture, &working,
                     (struct mensur_style){.format = MENSUR_FORMAT_JSON}));
        mensur_working_clear(&working);
    }
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text), cmocka_unit_test(one_answer), cmocka_unit_test(lengths_at_once),
        cmocka_unit_test(json), cmocka_unit_test(csv),        cmocka_unit_test(long_texts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
