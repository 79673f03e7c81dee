/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finger sheet: how it is cut into pages, that its lines stand where they should, that pages
 * meet at their register marks. */
#include "drawn.h"
#include "sheet.h"

static char *page_of(const struct mensur_sheet *sheet, size_t page) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    assert_int_equal(mensur_sheet_page(sheet, page, &sink), MENSUR_OK);
    check_well_formed(memory.bytes, NULL);
    return memory.bytes;
}

/* A string with a place at each semitone, L (1 - 2^(-s/12)): Euclid, Sectio canonis. */
static struct mensur_profile stringed(double length) {
    struct mensur_profile profile = drawn_profile("<heron> & \"kin\"", 0.15, 0.222);
    profile.lengths.string_length = length;
    profile.place_count = MENSUR_RESULT_PLACES;
    for (size_t i = 0; i < MENSUR_RESULT_PLACES; i++) {
        profile.places[i] = (struct mensur_finger_place){
            .semitones = (double)i, .from_nut = length * (1.0 - pow(2.0, -(double)i / 12.0))};
    }
    return profile;
}

static const struct {
    double length;
    enum mensur_sheet_paper paper;
    size_t pages;
    const char *size;
} cuts[] = {
    {0.328, MENSUR_SHEET_A4, 1, "width=\"297mm\" height=\"210mm\""},
    {0.328, MENSUR_SHEET_LETTER, 2, "width=\"279.4mm\" height=\"215.9mm\""},
    {0.3758, MENSUR_SHEET_A4, 2, "width=\"297mm\" height=\"210mm\""},
    {0.69, MENSUR_SHEET_A4, 3, "width=\"297mm\" height=\"210mm\""},
    {1.06, MENSUR_SHEET_A4, 4, "width=\"297mm\" height=\"210mm\""},
    {0.69, MENSUR_SHEET_STRIP, 1, "width=\"728mm\" height=\"133mm\""},
    {0.05, MENSUR_SHEET_STRIP, 1, "width=\"250mm\" height=\"133mm\""},
};

static void cuts_into_pages(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(cuts); i++) {
        struct mensur_profile profile = stringed(cuts[i].length);
        struct mensur_sheet sheet = {.profiles = &profile, .count = 1, .paper = cuts[i].paper};
        size_t pages = 0;
        assert_int_equal(mensur_sheet_pages(&sheet, &pages), MENSUR_OK);
        assert_int_equal(pages, cuts[i].pages);
        for (size_t page = 0; page < pages; page++) {
            char *svg = page_of(&sheet, page);
            check_holds(svg, cuts[i].size);
            check_holds(svg, ">100 mm</text>");
            check_holds(svg, "100 %");
            free(svg);
        }
        mensur_profile_clear(&profile);
    }
}

static void refuses(void **state) {
    (void)state;
    struct mensur_profile profile = stringed(0.328);
    struct mensur_sheet sheet = {.profiles = &profile, .count = 1, .paper = MENSUR_SHEET_A4};
    struct memory_sink memory = {.refuse_after = 10};
    struct mensur_sink sink = memory_sink(&memory);
    size_t pages = 77;
    assert_int_equal(mensur_sheet_page(&sheet, 1, &sink), MENSUR_DOMAIN);
    assert_int_equal(mensur_sheet_page(&sheet, 0, &sink), MENSUR_WRITE);
    profile.place_count = 0;
    assert_int_equal(mensur_sheet_pages(&sheet, &pages), MENSUR_NO_ANSWER);
    assert_int_equal(pages, 77);
    memory_sink_clear(&memory);
    mensur_profile_clear(&profile);
}

/* A vertical line at x mm. */
static void check_line(const char *svg, double x) {
    char want[96], trimmed[64];
    size_t length = (size_t)snprintf(trimmed, sizeof trimmed, "%.3f", x);
    while (trimmed[length - 1] == '0') {
        trimmed[--length] = '\0';
    }
    if (trimmed[length - 1] == '.') {
        trimmed[length - 1] = '\0';
    }
    snprintf(want, sizeof want, "<line x1=\"%s\"", trimmed);
    check_holds(svg, want);
}

/* On every page a place stands 10 mm in, less where the page begins; the seam is common to both. */
static void stands_where_it_should(void **state) {
    (void)state;
    struct mensur_profile profile = stringed(0.69);
    struct mensur_sheet sheet = {.profiles = &profile, .count = 1, .paper = MENSUR_SHEET_A4};
    /* three pages of the same window, with 20 mm in common, from 10 mm before the nut to 8 mm
     * behind the last place */
    double window = (0.75 * 690.0 + 8.0 + 10.0 + 40.0) / 3.0, step = window - 20.0;
    for (size_t page = 0; page < 3; page++) {
        char *svg = page_of(&sheet, page);
        double from = step * (double)page - 10.0;
        size_t shown = 0;
        for (size_t i = 1; i < profile.place_count; i++) {
            double at = profile.places[i].from_nut * 1000.0;
            if (at > from && at < from + window) {
                check_line(svg, 10.0 + at - from);
                shown++;
            }
        }
        assert_true(shown > 0);
        if (page > 0) {
            check_line(svg,
                       20.0); /* the seam: 10 mm into the window, at step * page from the nut */
        }
        if (page < 2) {
            check_line(svg, window);
        }
        free(svg);
    }
    mensur_profile_clear(&profile);
}

static const struct {
    const char *note;
    int semitones;
    const char *want;
} notes[] = {{"C3", 0, "C"},  {"C3", 1, "C#"}, {"A4", 1, "Bb"}, {"A4", 3, "C"},
             {"Bb2", 2, "C"}, {"F#3", 5, "B"}, {"Cb4", 1, "C"}, {"B#3", 0, "C"},
             {"G3", 24, "G"}, {"", 3, ""},     {"x", 3, ""},    {".", 1, ""}};

static void names_notes(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(notes); i++) {
        assert_string_equal(mensur_note_above(notes[i].note, notes[i].semitones), notes[i].want);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cuts_into_pages),
        cmocka_unit_test(refuses),
        cmocka_unit_test(stands_where_it_should),
        cmocka_unit_test(names_notes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
