/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_two(void **state) {
    (void)state;
    check_text(2, (struct mensur_style){0},
               "kestrel, 362.4 mm of string: the strings pull 151.4 N in all and press the belly\n"
               "with 55.2 N. Its set is viola gut, made for 370.0 to 380.0 mm.\n"
               "\n"
               "                                     pitch   mass   pull stress margin  belly\n"
               "note string                             Hz    g/m      N    MPa     st      N\n"
               "C3   viola C3 gut silver-wound      130.37  4.271   38.1     93    3.8   13.9 *\n"
               "G3   viola G3 gut silver-wound      195.56  2.134   42.9    105    2.3   15.6\n"
               "D4   viola D4 gut aluminium-wound   293.33  0.893   40.4     98    0.6   14.7 *\n"
               "A4   (no string)                    440.00      ?      ?      ?      ?      ?\n"
               "all                                                151.4                 55.2\n"
               "* Near breaking, under one semitone from it: D4.\n"
               "* Outside the length that the string is made for: C3.\n"
               "Stress is in the core; margin is how many semitones (st) higher the string could\n"
               "be tuned before it breaks; belly is the force on the belly.\n"
               "\n"
               "heron, 376.4 mm of string: the strings pull 151.4 N in all and press the belly\n"
               "with 55.2 N. Its set is viola gut, made for 370.0 to 380.0 mm.\n"
               "\n"
               "                                     pitch   mass   pull stress margin  belly\n"
               "note string                             Hz    g/m      N    MPa     st      N\n"
               "C3   viola C3 gut silver-wound      130.37  4.271   41.1    100    3.8   15.0 *\n"
               "G3   viola G3 gut silver-wound      195.56  2.134   46.2    113    2.3   16.9\n"
               "D4   viola D4 gut aluminium-wound   293.33  0.893   43.5    106    0.6   15.9 *\n"
               "A4   (no string)                    440.00      ?      ?      ?      ?      ?\n"
               "all                                                151.4                 55.2\n"
               "* Near breaking, under one semitone from it: D4.\n"
               "* Outside the length that the string is made for: C3.\n"
               "\n"
               "Assumed, not measured (kestrel, heron): nut 0.5 mm, friction 0.5, tuning viola.\n"
               "Assumed, not measured (heron): board length 313.6 mm.\n"
               "Assumed, not measured (kestrel): board length 302.0 mm.\n"
               "\n"
               "Warning: kestrel: the set \"viola gut\" has no string for A4\n"
               "Warning: heron: the set \"viola gut\" has no string for A4\n"
               "\n"
               "Sources: Mersenne 1636; geometry of the instrument's side view.\n"
               "\n"
               "Caution: A string under tension can break and injure an eye.\n"
               "Caution: More tension than the instrument was built for can sink the belly or\n"
               "  pull the neck.\n"
               "\n"
               "A4 is 440 Hz, open strings in pure fifths, stopped notes in equal steps. From\n"
               "the demonstration shop, invented (mensur start FOLDER writes your own to edit).\n");
}

static enum mensur_status only(struct mensur_presenter *presenter, const struct fixture *fixture) {
    return mensur_present_tension(presenter, &fixture->kestrel);
}

static void test_would_break(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->kestrel.strings[0].breaking_margin = -0.31;
    fixture->kestrel.strings[1].breaking_margin = 0.97;
    fixture->kestrel.total_tension = NAN;
    char *text = presented(only, "tension", fixture, (struct mensur_style){0});
    check_holds(text, "\n* Would break before it is in tune: C3.\n"
                      "* Near breaking, under one semitone from it: G3, D4.\n"
                      "* Outside the length that the string is made for: C3.\n");
    check_holds(text, ": what the strings pull in all is not known and press");
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
    char *text = presented(only, "tension", fixture, (struct mensur_style){.feel = true});
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_two),
        cmocka_unit_test(test_would_break),
        cmocka_unit_test(test_absurd),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
