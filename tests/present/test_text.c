/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands around every text answer, and that no name breaks a page. */
#include "fixtures.h"

static void test_check(void **state) {
    (void)state;
    check_text(9, (struct mensur_style){0},
               "instruments.csv: 8 instruments, nothing wrong.\n"
               "players.csv: 3 players, no error, 1 warning.\n"
               "\n"
               "Warning: players.csv:2:4: an unknown column \"shoe\"\n"
               "\n"
               "Sources: Mersenne 1636; geometry of the instrument's side view.\n"
               "From the demonstration shop.\n");
}

/* Every answer, in every unit, with every awkward name. */
static void test_awkward_names(void **state) {
    (void)state;
    static const struct mensur_style styles[] = {
        {.feel = true},
        {.inches = true, .force_unit = MENSUR_FORCE_KG, .feel = true},
        {.force_unit = MENSUR_FORCE_LB},
        {.full = true, .feel = true},
    };
    for (size_t i = 0; i < awkward_name_count; i++) {
        struct fixture *fixture = fixture_make();
        fixture_rename(fixture, awkward_names[i]);
        for (size_t j = 0; j < presentation_count; j++) {
            for (size_t k = 0; k < COUNT_OF(styles); k++) {
                char *text = presented(presentations[j].present, presentations[j].command, fixture,
                                       styles[k]);
                check_page(text);
                free(text);
            }
        }
        fixture_clear(fixture);
    }
}

static enum mensur_status nothing(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    (void)presenter;
    (void)fixture;
    return MENSUR_OK;
}

static void test_nothing(void **state) {
    (void)state;
    char *text = presented(nothing, "lengths", NULL, (struct mensur_style){0});
    check_holds(text, "There is nothing to answer about.\n");
    check_page(text);
    free(text);
}

static char *under(const struct mensur_heading *heading, struct mensur_style style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_presenter *presenter = NULL;
    struct fixture *fixture = fixture_make();
    check_status("open", mensur_present_open(heading, &style, &sink, &presenter), MENSUR_OK);
    check_status("it", mensur_present_profile(presenter, &fixture->kestrel), MENSUR_OK);
    check_status("close", mensur_present_close(presenter, true), MENSUR_OK);
    fixture_clear(fixture);
    return memory.bytes;
}

static void test_own_shop(void **state) {
    (void)state;
    struct mensur_heading heading = heading_for("tension");
    heading.shop = "shop of\nours";
    heading.a4 = 415.3;
    heading.fifths = "equal";
    heading.steps = "just";
    heading.sources = NULL;
    char *text = under(&heading, (struct mensur_style){0});
    check_holds(text, "\nFrom the shop shop of?ours, A4 415.3 Hz, equal fifths, just steps. More: "
                      "--full.\n");
    /* the margin of its D4 is 0.62 semitones */
    check_holds(text, "\nCaution: little or unknown margin to breaking: keep the face away while "
                      "tuning\n");
    free(text);
    text = under(&heading, (struct mensur_style){.full = true});
    check_holds(text, "\nA4 is 415.3 Hz, open strings in equal fifths, stopped notes in just "
                      "steps. From\nthe shop shop of?ours.\n");
    assert_null(strstr(text, "Sources"));
    check_page(text);
    free(text);
}

static void test_bold(void **state) {
    (void)state;
    struct mensur_heading heading = heading_for("tension");
    char *plain = under(&heading, (struct mensur_style){.feel = true});
    char *bold = under(&heading, (struct mensur_style){.feel = true, .bold = true});
    check_holds(bold, "\x1b[1mHow the strings feel\x1b[0m\n");
    char *to = bold;
    for (const char *at = bold; *at != '\0';) {
        if (strncmp(at, "\x1b[1m", 4) == 0 || strncmp(at, "\x1b[0m", 4) == 0) {
            at += 4;
        } else {
            *to++ = *at++;
        }
    }
    *to = '\0';
    assert_string_equal(bold, plain);
    free(plain);
    free(bold);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_check),   cmocka_unit_test(test_awkward_names),
        cmocka_unit_test(test_nothing), cmocka_unit_test(test_own_shop),
        cmocka_unit_test(test_bold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
