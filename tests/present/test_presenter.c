/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of an answer when its sink refuses it, and of a presentation broken off. */
#include "cautions.h"
#include "drawing.h"
#include "drawn.h"

static const struct mensur_style styles[] = {
    {.format = MENSUR_FORMAT_TEXT, .feel = true},
    {.format = MENSUR_FORMAT_TEXT, .inches = true, .force_unit = MENSUR_FORCE_KG, .bold = true},
    {.format = MENSUR_FORMAT_CSV},
    {.format = MENSUR_FORMAT_JSON},
    {.format = MENSUR_FORMAT_HTML, .feel = true},
    {.format = MENSUR_FORMAT_HTML,
     .inches = true,
     .illustrate = mensur_draw_illustration,
     .heading_level = 2},
};

static void test_refusing_sink(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < presentation_count; i++) {
        for (size_t j = 0; j < COUNT_OF(styles); j++) {
            struct memory_sink whole = {0};
            check_status("whole", present_all(&presentations[i], fixture, &styles[j], &whole),
                         MENSUR_OK);
            for (size_t after = 1; after < whole.length; after += 97) {
                struct memory_sink part = {.refuse_after = after};
                check_status(presentations[i].command,
                             present_all(&presentations[i], fixture, &styles[j], &part),
                             MENSUR_WRITE);
                assert_true(part.length <= after);
                assert_memory_equal(part.bytes != NULL ? part.bytes : "", whole.bytes, part.length);
                memory_sink_clear(&part);
            }
            memory_sink_clear(&whole);
        }
    }
    fixture_clear(fixture);
}

/* Answers that were given stand whole; nothing comes after them. */
static void test_broken_off(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(styles); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_presenter *presenter = NULL;
        struct mensur_heading heading = heading_for("tension");
        check_status("open", mensur_present_open(&heading, &styles[i], &sink, &presenter),
                     MENSUR_OK);
        check_status("one", mensur_present_profile(presenter, &fixture->kestrel), MENSUR_OK);
        size_t length = memory.length;
        assert_true(length > 0);
        check_status("close", mensur_present_close(presenter, false), MENSUR_OK);
        assert_int_equal(memory.length, length);
        memory_sink_clear(&memory);
    }
    fixture_clear(fixture);
}

static void test_no_presenter(void **state) {
    (void)state;
    check_status("none", mensur_present_close(NULL, true), MENSUR_OK);
}

/* The same answer gives the same bytes. */
static void test_same_bytes(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < presentation_count; i++) {
        for (size_t j = 0; j < COUNT_OF(styles); j++) {
            struct memory_sink one = {0}, two = {0};
            present_all(&presentations[i], fixture, &styles[j], &one);
            present_all(&presentations[i], fixture, &styles[j], &two);
            assert_string_equal(one.bytes, two.bytes);
            memory_sink_clear(&one);
            memory_sink_clear(&two);
        }
    }
    fixture_clear(fixture);
}

/* Every answer as a part of a page, with every awkward name. */
static void test_html(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct fixture *fixture = fixture_make();
        fixture_rename(fixture, awkward_names[i]);
        for (size_t j = 0; j < presentation_count; j++) {
            for (size_t k = 0; k < COUNT_OF(styles); k++) {
                struct memory_sink memory = {0};
                if (styles[k].format != MENSUR_FORMAT_HTML) {
                    continue;
                }
                check_status(presentations[j].command,
                             present_all(&presentations[j], fixture, &styles[k], &memory),
                             MENSUR_OK);
                check_well_formed(memory.bytes, NULL);
                check_ids(memory.bytes);
                assert_null(strchr(memory.bytes, '\x1b'));
                assert_null(strstr(memory.bytes, styles[k].heading_level == 2 ? "<h3" : "<h2"));
                memory_sink_clear(&memory);
            }
        }
        fixture_clear(fixture);
    }
}

/* Presents some answers of a longer presentation, of which so many stand before them. */
static void write_within(const struct fixture *fixture, const struct mensur_style *style,
                         size_t before, size_t count, struct memory_sink *memory) {
    struct mensur_sink sink = memory_sink(memory);
    struct mensur_presenter *presenter = NULL;
    struct mensur_heading heading = heading_for("tension");
    check_status("within", mensur_present_open_within(&heading, style, before, &sink, &presenter),
                 MENSUR_OK);
    for (size_t i = 0; i < count; i++) {
        check_status("one", mensur_present_profile(presenter, &fixture->kestrel), MENSUR_OK);
    }
    check_status("close", mensur_present_close(presenter, false), MENSUR_OK);
}

/* Answers that were written apart, none, two and one, are those written one after the other. */
static void test_written_apart(void **state) {
    static const size_t counts[] = {0, 2, 1};
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < COUNT_OF(styles); i++) {
        if (styles[i].format != MENSUR_FORMAT_CSV && styles[i].format != MENSUR_FORMAT_JSON) {
            continue;
        }
        struct memory_sink whole = {0}, joined = {0};
        struct mensur_sink sinks[2] = {memory_sink(&whole), memory_sink(&joined)};
        struct mensur_presenter *presenters[2];
        struct mensur_heading heading = heading_for("tension");
        for (int k = 0; k < 2; k++) {
            check_status("open",
                         mensur_present_open(&heading, &styles[i], &sinks[k], &presenters[k]),
                         MENSUR_OK);
        }
        struct mensur_facts cautions = {0};
        size_t before = 0;
        for (size_t k = 0; k < COUNT_OF(counts); k++) {
            struct memory_sink part = {0};
            write_within(fixture, &styles[i], before, counts[k], &part);
            if (counts[k] > 0) {
                cautions_of_profile(&fixture->kestrel, &cautions);
                mensur_present_cautions(presenters[1], &cautions);
                mensur_facts_clear(&cautions);
            }
            check_status("written",
                         mensur_present_written(presenters[1], part.length > 0 ? part.bytes : "",
                                                part.length, counts[k]),
                         MENSUR_OK);
            before += counts[k];
            memory_sink_clear(&part);
        }
        for (size_t k = 0; k < before; k++) {
            check_status("one", mensur_present_profile(presenters[0], &fixture->kestrel),
                         MENSUR_OK);
        }
        for (int k = 0; k < 2; k++) {
            check_status("close", mensur_present_close(presenters[k], true), MENSUR_OK);
        }
        assert_string_equal(joined.bytes, whole.bytes);
        memory_sink_clear(&whole);
        memory_sink_clear(&joined);
    }
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_refusing_sink), cmocka_unit_test(test_broken_off),
        cmocka_unit_test(test_no_presenter),  cmocka_unit_test(test_same_bytes),
        cmocka_unit_test(test_html),          cmocka_unit_test(test_written_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
