/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dossier: whole, escaped, nothing twice, nothing loaded. How it looks and whether it is valid
 * is for tests/web. */
#include "dossier.h"
#include "drawing.h"
#include "drawn.h"

static const char *const void_tags[] = {"meta", NULL};

static char *written(struct mensur_dossier *dossier) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    dossier->figures.illustrate = mensur_draw_illustration;
    assert_int_equal(mensur_dossier_write(dossier, &sink), MENSUR_OK);
    check_well_formed(memory.bytes, void_tags);
    check_holds(memory.bytes, "<figure>");
    return memory.bytes;
}

static void check_page_is_whole(const char *html) {
    check_holds(html, "<html lang=\"en\">");
    check_holds(html, "default-src 'none'");
    check_holds(html, "<h1>");
    check_holds(html, "What was assumed");
    check_holds(html, "<h2>Cautions</h2>");
    check_holds(html, "<h2>Sources</h2>");
    check_ids(html);
    assert_null(strstr(html, "<script"));
    assert_null(strstr(html, "<link"));
    assert_null(strstr(html, "src="));
    assert_null(strstr(html, "href="));
    assert_null(strstr(html, "style=\""));
    assert_null(strchr(html, '\x1b'));
}

static void tells_of_one(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct mensur_profile profile = drawn_profile(awkward_names[i], 0.144, 0.214);
        struct mensur_dossier dossier = {
            .heading = &fixture_heading, .profiles = &profile, .count = 1};
        char *html = written(&dossier);
        char *again = written(&dossier);
        check_page_is_whole(html);
        assert_string_equal(html, again);
        free(html);
        free(again);
        mensur_profile_clear(&profile);
    }
}

static void tells_of_several(void **state) {
    (void)state;
    struct mensur_profile trio[] = {drawn_profile("<script>alert('x')</script>", 0.15, 0.222),
                                    drawn_profile(awkward_names[1], 0.144, 0.214),
                                    drawn_profile("kestrel", 0.144, 0.214)};
    struct mensur_profile differences[2] = {drawn_profile("", 0.006, 0.008),
                                            drawn_profile("", 0.006, 0.008)};
    struct mensur_comparison comparison = {
        .count = 3, .instruments = trio, .differences = differences};
    mensur_facts_add(&comparison.remarks, MENSUR_FACT_TENSIONS, MENSUR_NAMES(awkward_names[1]),
                     MENSUR_NUMBERS(1.05));
    struct mensur_dossier dossier = {.heading = &fixture_heading,
                                     .profiles = trio,
                                     .count = 3,
                                     .comparison = &comparison,
                                     .figures = {.inches = true, .full = true}};
    char *html = written(&dossier);
    char want[128];
    check_page_is_whole(html);
    check_holds(html, "&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;");
    snprintf(want, sizeof want,
             "<li>The strings of <bdi>%s</bdi> have 5.0 %% more tension in all.</li>",
             awkward_names[1]);
    check_holds(html, want);
    check_holds(html, "tension, kg");
    free(html);
    mensur_facts_clear(&comparison.remarks);
    mensur_profile_clear(&differences[0]);
    mensur_profile_clear(&differences[1]);
    for (size_t i = 0; i < 3; i++) {
        mensur_profile_clear(&trio[i]);
    }
}

static void tells_the_decision(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    const struct mensur_decision *decisions[] = {&fixture->met, &fixture->unmet};
    for (size_t i = 0; i < 2; i++) {
        struct mensur_dossier dossier = {.heading = &fixture_heading,
                                         .profiles = &decisions[i]->present,
                                         .count = 1,
                                         .decision = decisions[i]};
        char *html = written(&dossier);
        check_page_is_whole(html);
        check_holds(html, "The wishes, and what each allows");
        free(html);
    }
    fixture_clear(fixture);
}

static void refuses_with_its_sink(void **state) {
    (void)state;
    struct mensur_profile profile = drawn_profile("heron", 0.15, 0.222);
    struct mensur_dossier dossier = {.heading = &fixture_heading,
                                     .profiles = &profile,
                                     .count = 1,
                                     .figures = {.illustrate = mensur_draw_illustration}};
    for (size_t room = 1; room < 20000; room += 2711) {
        struct memory_sink memory = {.refuse_after = room};
        struct mensur_sink sink = memory_sink(&memory);
        assert_int_equal(mensur_dossier_write(&dossier, &sink), MENSUR_WRITE);
        memory_sink_clear(&memory);
    }
    mensur_profile_clear(&profile);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tells_of_one),
        cmocka_unit_test(tells_of_several),
        cmocka_unit_test(tells_the_decision),
        cmocka_unit_test(refuses_with_its_sink),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
