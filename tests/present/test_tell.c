/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is told of answers that the demonstration does not have; whole screens of those that it has
 * are in tests/cli/screens.txt. */
#include "fixtures.h"

static enum mensur_status lengths_alone(struct mensur_presenter *presenter,
                                        const struct fixture *fixture) {
    return mensur_present_profile(presenter, &fixture->kestrel);
}

/* What is not held under the chin has no reach, and that is no gap in the measurements. */
static void test_knee(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->kestrel.held = "knee";
    fixture->kestrel.lengths.left_reach = NAN;
    fixture->kestrel.lengths.bow_reach = NAN;
    fixture->kestrel.lengths.body = NAN;
    char *text = presented(lengths_alone, "lengths", fixture, (struct mensur_style){.full = true});
    check_holds(text, "\nNot known: body, note at the heel.\n"
                      "Only for what is held under the chin: left reach, bow reach.\n");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

static void test_measured(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->kestrel.lengths.string_length_measured = MENSUR_YES;
    fixture->kestrel.lengths.string_length = 0.3611;
    char *text = presented(lengths_alone, "lengths", fixture, (struct mensur_style){0});
    check_holds(text, "kestrel: the string is 361.1 mm long, as measured (the other measurements "
                      "give\n362.4 mm); neck : stop is 2 : 2.97.\n");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

static enum mensur_status tension_alone(struct mensur_presenter *presenter,
                                        const struct fixture *fixture) {
    return mensur_present_profile(presenter, &fixture->kestrel);
}

static void test_would_break(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->kestrel.strings[0].breaking_margin = -0.31;
    fixture->kestrel.strings[1].breaking_margin = 0.97;
    fixture->kestrel.total_tension = NAN;
    char *text = presented(tension_alone, "tension", fixture, (struct mensur_style){.full = true});
    check_holds(text, "\n* Would break before it is in tune: C3.\n"
                      "* Near breaking, under one semitone from it: G3, D4.\n"
                      "* Outside the length that the string is made for: C3.\n");
    check_holds(text, ": the tension in all is not known, ");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

/* A figure that no string can have still breaks no table. */
static void test_absurd(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    for (size_t i = 0; i < fixture->kestrel.string_count; i++) {
        struct mensur_figures figures = mensur_figures(MENSUR_SCOPE_STRING);
        for (size_t j = 0; j < figures.count; j++) {
            if (figures.items[j].type == MENSUR_FIGURE_NUMBER) {
                mensur_figure_put(&figures.items[j], -7.7777e77, &fixture->kestrel.strings[i]);
            }
        }
    }
    char *text = presented(tension_alone, "tension", fixture, (struct mensur_style){.feel = true});
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

static enum mensur_status fingers_of_dipper(struct mensur_presenter *presenter,
                                            const struct fixture *fixture) {
    return mensur_present_profile(presenter, &fixture->dipper);
}

/* Without a family there is no frame and no position. */
static void test_no_position(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->dipper.places[0] = (struct mensur_finger_place){0, 0, NAN};
    fixture->dipper.place_count = 1;
    char *text = presented(fingers_of_dipper, "fingers", fixture, (struct mensur_style){0});
    check_holds(text, "dipper, 358.0 mm of string.\n");
    assert_null(strstr(text, "position"));
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

static enum mensur_status compared(struct mensur_presenter *presenter,
                                   const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_comparison_answer, &fixture->comparison);
}

/* More than three: blocks, the first instrument in each; long names are told by number. */
static void test_blocks(void **state) {
    (void)state;
    static const char *const names[] = {"kestrel", "a viola with a long name", "wren",
                                        "swift",   "bittern of ours",          "dipper"};
    struct fixture *fixture = fixture_make();
    fixture_compare(fixture, names, COUNT_OF(names));
    snprintf(fixture->comparison.instruments[3].strings[3].note, 8, "E5");
    snprintf(fixture->comparison.differences[2].strings[3].note, 8, "E5");
    fixture->comparison.instruments[3].strings[3].tension = 71.3;
    char *text = presented(compared, "compare", fixture, (struct mensur_style){.full = true});
    check_holds(text, "\n(2) a viola with a long name\n"
                      "                             kestrel        (2) difference       wren "
                      "difference\n");
    check_holds(text, "\n(5) bittern of ours\n"
                      "                             kestrel      swift difference        (5) "
                      "difference\n");
    check_holds(text, "\n                             kestrel     dipper difference\n");
    check_holds(text, "\ntension of E5, kg                  ?        7.3          ?          ?"
                      "          ?\n");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

static enum mensur_status decided(struct mensur_presenter *presenter,
                                  const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_decision_answer, &fixture->met);
}

static char *met(struct fixture *fixture) {
    char *text = presented(decided, "neck", fixture, (struct mensur_style){0});
    check_page(text);
    return text;
}

static void test_stays(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->met.recommended_place = 0.14402;
    fixture->met.steps[3].recommended = true;
    fixture->met.wants[0].give = 0.001;
    char *text = met(fixture);
    check_holds(text, "kestrel: leave the neck as it is, 144.0 mm: it meets every wish.\n");
    check_holds(text, " <- stays\n");
    check_holds(text, " heron\n2 to: neck : stop as 2 to this.");
    free(text);
    fixture_clear(fixture);
}

/* The reason why nothing can be told comes first, and once. */
static void test_reason_against(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->met.can_meet_all = false;
    fixture->met.recommended_place = NAN;
    fixture->met.conflict = (struct mensur_conflict){true, 2, 0, 0.0053, 0.0861, 0.0049};
    char *text = met(fixture);
    check_holds(text,
                "kestrel: a neck of 150.5 mm gives 375.8 mm of string: it meets every wish, and\n"
                "comes nearest to the liked instrument's string.\n"
                "The least that would do: either the wish for neck : stop 2 : 2.80 to "
                "2 : 3.10\ngives 0.09, or the one for string length 374.8 to 376.8 mm gives "
                "4.9 mm.\n");
    free(text);
    fixture_clear(fixture);
}

/* In brief the tension in all; in full five strings stand side by side, and of more, and of none,
 * the tension in all. */
static void test_many_strings(void **state) {
    (void)state;
    static const char brief[] = "\n   neck string  2 to note  reach  room  tension   belly\n";
    static const struct {
        size_t count;
        bool full;
        const char *want;
    } of[] = {
        {4, false, brief},
        {0, true, brief},
        {4, true, "\n   neck string  2 to note  reach  room    C3    G3    D4    A4\n"},
        {5, true, "\n   neck string  2 to note  reach  room   C3   G3   D4   A4   E5\n"},
        {16, true, brief},
    };
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        struct fixture *fixture = fixture_make();
        memcpy(fixture->met.present.strings[4].note, "E5", 3);
        fixture->met.present.string_count = of[i].count;
        char *text = presented(decided, "neck", fixture, (struct mensur_style){.full = of[i].full});
        check_page(text);
        check_holds(text, of[i].want);
        free(text);
        fixture_clear(fixture);
    }
}

/* In brief at most nine steps, from the present place to the recommended one and one beyond; every
 * one in full. */
static void test_steps(void **state) {
    (void)state;
    for (int full = 0; full < 2; full++) {
        struct fixture *fixture = fixture_make();
        size_t lines = 0;
        fixture->met.want_count = 1;
        char *text = presented(decided, "neck", fixture, (struct mensur_style){.full = full != 0});
        for (const char *at = text; (at = strstr(at, "\n  1")) != NULL; at++) {
            lines++;
        }
        /* and the liked instrument */
        size_t all = fixture->met.step_count + 1;
        assert_in_range(lines, full ? all : 6, full ? all : 10);
        assert_int_equal(strstr(text, "Side by side") != NULL, full);
        assert_int_equal(strstr(text, "The other way: leave the neck and change") != NULL, !full);
        free(text);
        fixture_clear(fixture);
    }
}

static enum mensur_status undecided(struct mensur_presenter *presenter,
                                    const struct fixture *fixture) {
    return mensur_present(presenter, &mensur_decision_answer, &fixture->unmet);
}

/* By how much the nearest place misses which wishes. */
static void test_nearest(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    char *text = presented(undecided, "stop", fixture, (struct mensur_style){0});
    check_holds(text, "Nearest: a stop of 216.5 mm misses string length by 2.6 mm, tension A4 by");
    assert_null(strstr(text, "Step by step"));
    free(text);
    fixture_clear(fixture);
}

/* A plan without a neck; and an instrument that is built. */
static void test_built(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->met.present.lengths.built = MENSUR_YES;
    char *text = met(fixture);
    check_holds(text, "kestrel: a new neck of 150.5 mm (now 144.0, +6.5).\n");
    free(text);
    fixture->met.present_known = false;
    text = met(fixture);
    check_holds(text, "kestrel: no neck yet: usual is 142.7 mm, recommended 150.5 mm.\n");
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_knee),         cmocka_unit_test(test_measured),
        cmocka_unit_test(test_would_break),  cmocka_unit_test(test_absurd),
        cmocka_unit_test(test_no_position),  cmocka_unit_test(test_blocks),
        cmocka_unit_test(test_stays),        cmocka_unit_test(test_reason_against),
        cmocka_unit_test(test_many_strings), cmocka_unit_test(test_steps),
        cmocka_unit_test(test_nearest),      cmocka_unit_test(test_built),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
