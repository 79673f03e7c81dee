/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a view tells in each format, of a question that has no words of its own. */
#include "fixtures.h"
#include "sources.h"

#include <stdlib.h>

static const char *const keys[] = {"note", "tension_N", "breaking_margin_semitones", NULL};

static const struct mensur_view view = {
    .parts = MENSUR_PART_LENGTHS | MENSUR_PART_STRINGS,
    .behind = MENSUR_VIEW_BEHIND_STRINGS,
    .sources = mensur_sources_tension,
    .remarks = true,
    .told = {{MENSUR_VIEW_EACH, MENSUR_SCOPE_STRING, "strings", keys}}};

static const enum mensur_format formats[] = {MENSUR_FORMAT_TEXT, MENSUR_FORMAT_CSV,
                                             MENSUR_FORMAT_JSON, MENSUR_FORMAT_HTML};

/* Of two strings and a remark, in a format; NULL profile: of no instrument. The caller frees it. */
static char *told(const struct mensur_profile *profile, enum mensur_format format) {
    struct mensur_heading heading = heading_for("strings");
    struct mensur_style style = {.format = format};
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_presenter *presenter = NULL;
    heading.view = &view;
    check_status("open", mensur_present_open(&heading, &style, &sink, &presenter), MENSUR_OK);
    if (profile != NULL) {
        check_status("present", mensur_present_profile(presenter, profile), MENSUR_OK);
    }
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    return memory.bytes;
}

static struct mensur_profile two_strings(void) {
    static char name[] = "siskin";
    struct mensur_profile profile = {.instrument = name, .string_count = 2};
    static const struct {
        const char *note;
        double tension, margin;
    } rows[] = {{"G3", 44.1299, 6.5}, {"D4", 49.0333, 5.5}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        mensur_figures_unknown(MENSUR_SCOPE_STRING, &profile.strings[i]);
        strcpy(profile.strings[i].note, rows[i].note);
        profile.strings[i].tension = rows[i].tension;
        profile.strings[i].breaking_margin = rows[i].margin;
    }
    mensur_facts_add(&profile.remarks, MENSUR_FACT_STRINGS_HOLD, MENSUR_NAMES("D4"),
                     MENSUR_NUMBERS(5.5));
    return profile;
}

static void is_told(void **state) {
    static const char *const holds[][3] = {
        [MENSUR_FORMAT_TEXT] = {"No string breaks: nearest to it is the one for D4, 5.5 semitones "
                                "from breaking.\n\n",
                                "note            kg       st\n",
                                "G3             4.5      6.5\nD4             5.0      5.5\n"},
        [MENSUR_FORMAT_CSV] = {"instrument,note,tension_N,breaking_margin_semitones\n",
                               "siskin,G3,44.1299,6.5\nsiskin,D4,49.0333,5.5\n", ""},
        [MENSUR_FORMAT_JSON] = {"{\"instrument\": \"siskin\", \"strings\": [{\"note\": \"G3\", "
                                "\"tension_N\": 44.1299, \"breaking_margin_semitones\": 6.5}, ",
                                "], \"remarks\": [\"No string breaks: nearest to it is the one for "
                                "D4, 5.5 semitones from breaking\"], \"assumed\": []",
                                ""},
        [MENSUR_FORMAT_HTML] = {"<p>No string breaks: nearest to it is the one for D4, 5.5",
                                "<th scope=\"col\">tension, kg</th>",
                                "<tbody><tr><th scope=\"row\">G3</th>\n<td>4.5</td>\n<td>6.5</td>"},
    };
    struct mensur_profile profile = two_strings();
    (void)state;
    for (size_t i = 0; i < COUNT_OF(formats); i++) {
        char *text = told(&profile, formats[i]);
        for (size_t k = 0; k < COUNT_OF(holds[0]); k++) {
            check_holds(text, holds[formats[i]][k]);
        }
        free(text);
    }
    mensur_facts_clear(&profile.remarks);
}

/* Without a remark the name stands first; without an instrument CSV has its head. */
static void says_less(void **state) {
    struct mensur_profile profile = two_strings();
    (void)state;
    mensur_facts_clear(&profile.remarks);
    char *text = told(&profile, MENSUR_FORMAT_TEXT);
    check_holds(text, "siskin:\n\n");
    free(text);
    text = told(NULL, MENSUR_FORMAT_CSV);
    assert_string_equal(text, "instrument,note,tension_N,breaking_margin_semitones\n");
    free(text);
}

/* The records that each scope has of a profile. */
static void has_records(void **state) {
    const struct mensur_profile profile = two_strings();
    (void)state;
    assert_int_equal(mensur_records_of(&profile, MENSUR_SCOPE_STRING).count, 2);
    assert_ptr_equal(mensur_records_of(&profile, MENSUR_SCOPE_STRING).items, profile.strings);
    assert_int_equal(mensur_records_of(&profile, MENSUR_SCOPE_PLACE).count, 0);
    assert_int_equal(mensur_records_of(&profile, MENSUR_SCOPE_POSITION).count, 0);
    assert_int_equal(mensur_records_of(&profile, MENSUR_SCOPE_TRUE_PLACE).count, 0);
    assert_ptr_equal(mensur_records_of(&profile, MENSUR_SCOPE_INSTRUMENT).items, &profile.lengths);
    assert_ptr_equal(mensur_records_of(&profile, MENSUR_SCOPE_TOTAL).items, &profile);
    struct mensur_facts remarks = profile.remarks;
    mensur_facts_clear(&remarks);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(is_told), cmocka_unit_test(says_less),
                                       cmocka_unit_test(has_records)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
