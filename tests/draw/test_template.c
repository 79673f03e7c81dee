/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template: its pages, what stands on each, that it bears what is not known, and names. */
#include "drawn.h"
#include "template.h"
#include "tiles.h"

static struct mensur_profile viola(const char *name) {
    struct mensur_profile profile = drawn_profile(name, 0.15, 0.222);
    struct mensur_side_points *side = &profile.side;
    side->heel = 0.024;
    side->rib = 0.038;
    side->back_arch = 0.013;
    side->spacing_bridge = 0.036;
    side->spacing_nut = 0.017;
    side->foot_spacing = 0.036;
    side->crown = 0.045;
    side->crossing_count = 4;
    for (size_t i = 0; i < 4; i++) {
        side->crossings[i] = (struct mensur_crossing){.note = "X4",
                                                      .at_bridge = 0.012 * (double)i - 0.018,
                                                      .at_nut = 0.0057 * (double)i - 0.0085,
                                                      .above_belly = 0.038,
                                                      .above_board = 0.0004};
    }
    static const char *const fields[] = {"body_straight", "stop", "neck", "overstand", "board"};
    for (size_t i = 0; i < COUNT_OF(fields); i++) {
        profile.measures[profile.measure_count++] = (struct mensur_measure){
            .field = fields[i],
            .value = 0.1,
            .origin = i % 2 == 0 ? MENSUR_ORIGIN_MEASURED : MENSUR_ORIGIN_ASSUMED};
    }
    return profile;
}

static char *page_of(const struct mensur_template *template, size_t page) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    assert_int_equal(mensur_template_page(template, page, &sink), MENSUR_OK);
    check_well_formed(memory.bytes, NULL);
    check_ids(memory.bytes);
    assert_null(strstr(memory.bytes, "nan"));
    check_holds(memory.bytes, ">100 mm</text>");
    return memory.bytes;
}

static void has_its_pages(void **state) {
    (void)state;
    static const struct {
        enum mensur_sheet_paper paper;
        size_t pages;
        double width, height;
    } rows[] = {{MENSUR_SHEET_A4, 5, 297, 210},
                {MENSUR_SHEET_LETTER, 5, 279.4, 215.9},
                {MENSUR_SHEET_STRIP, 1, 700, 500}};
    struct mensur_profile profile = viola("heron");
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct mensur_template template = {.profile = &profile, .paper = rows[i].paper};
        size_t pages = 0;
        assert_int_equal(mensur_template_pages(&template, &pages), MENSUR_OK);
        assert_int_equal(pages, rows[i].pages);
        for (size_t page = 0; page < pages; page++) {
            char *svg = page_of(&template, page);
            check_range(svg, " x1=\"", 0.0, rows[i].width);
            check_range(svg, " x2=\"", 0.0, rows[i].width);
            check_range(svg, " y1=\"", 0.0, rows[i].height);
            check_range(svg, " y2=\"", 0.0, rows[i].height);
            free(svg);
        }
    }
    mensur_profile_clear(&profile);
}

static void tells_its_title(void **state) {
    (void)state;
    struct mensur_profile profile = viola("heron");
    struct mensur_template template = {
        .profile = &profile, .heading = "A workshop", .date = "2024-05-31"};
    profile.lengths.built = MENSUR_YES;
    char *svg = page_of(&template, 0);
    check_holds(svg, ">A workshop</text>");
    check_holds(svg, ">heron</text>");
    check_holds(svg, ">scale 1 : 1; A4; date 2024-05-31</text>");
    check_holds(svg, "restorer.</text>");
    check_holds(svg, ">as given</text>");
    check_holds(svg, ">assumed</text>");
    free(svg);
    profile.lengths.built = MENSUR_NO;
    template.date = NULL;
    svg = page_of(&template, 0);
    check_holds(svg, "date ____");
    assert_null(strstr(svg, "restorer"));
    free(svg);
    mensur_profile_clear(&profile);
}

/* What is not known is not drawn, and no name breaks a page. */
static void bears_gaps_and_names(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct mensur_profile profile = viola(awkward_names[i]);
        struct mensur_template template = {.profile = &profile, .heading = awkward_names[i]};
        struct mensur_side_points *side = &profile.side;
        size_t pages = 0;
        if (i % 2 == 0) {
            side->body_straight = side->saddle = side->back_angle = NAN;
            side->heel = side->foot_spacing = NAN;
            side->crossing_count = 0;
        }
        assert_int_equal(mensur_template_pages(&template, &pages), MENSUR_OK);
        for (size_t page = 0; page < pages; page++) {
            free(page_of(&template, page));
        }
        template.paper = MENSUR_SHEET_STRIP;
        free(page_of(&template, 0));
        mensur_profile_clear(&profile);
    }
}

static void refuses(void **state) {
    (void)state;
    struct mensur_profile profile = viola("heron");
    struct mensur_template template = {.profile = &profile};
    struct memory_sink memory = {.refuse_after = 1000};
    struct mensur_sink sink = memory_sink(&memory);
    size_t pages = 77;
    assert_int_equal(mensur_template_page(&template, 5, &sink), MENSUR_DOMAIN);
    assert_int_equal(mensur_template_page(&template, 0, &sink), MENSUR_WRITE);
    profile.side.bridge = profile.side.top_y = 2.9;
    assert_int_equal(mensur_template_pages(&template, &pages), MENSUR_NO_ANSWER);
    profile.side.known = false;
    assert_int_equal(mensur_template_pages(&template, &pages), MENSUR_NO_ANSWER);
    assert_int_equal(mensur_template_page(&template, 0, &sink), MENSUR_NO_ANSWER);
    assert_int_equal(pages, 77);
    memory_sink_clear(&memory);
    mensur_profile_clear(&profile);
}

static void counts_windows(void **state) {
    (void)state;
    static const struct {
        double extent;
        size_t want;
    } rows[] = {
        {0, 1},  {-5, 1}, {100, 1}, {100.1, 2}, {180, 2}, {180.1, 3}, {1e9, MENSUR_TILE_PAGES + 1},
        {NAN, 1}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_int_equal(mensur_tile_count(rows[i].extent, 100.0, 20.0), rows[i].want);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(has_its_pages),
                                       cmocka_unit_test(tells_its_title),
                                       cmocka_unit_test(bears_gaps_and_names),
                                       cmocka_unit_test(refuses), cmocka_unit_test(counts_windows)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
