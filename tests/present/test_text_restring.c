/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_chosen(void **state) {
    (void)state;
    check_text(8, (struct mensur_style){0},
               "kestrel, 362.4 mm of string: these strings pull 203.7 N in all and press the\n"
               "belly with 74.3 N; the present ones pull 151.4 N.\n"
               "The aim is the pull of the strings of heron.\n"
               "\n"
               "                                            mass    pull     now  margin   belly\n"
               "note  string                                 g/m       N       N      st       N\n"
               "C3    viola C3 gut silver-wound            4.271    38.1    38.1     3.8    13.9\n"
               "G3    viola G3 gut silver-wound            2.134    42.9    42.9     2.3    15.6\n"
               "D4    viola D4 gut aluminium-wound         0.893    40.4    40.4     0.6    14.7\n"
               "A4    (no string)                              ?       ?       ?       ?       ?\n"
               "all                                                203.7   151.4            74.3\n"
               "Now: what the present string pulls. Margin: semitones (st) that it could be\n"
               "tuned higher before it breaks.\n"
               "C3: pulls 52.0 N\n"
               "\n"
               "Runners-up\n"
               "The best has cost 0.0713 and evenness 0.0317; of both less is better, and\n"
               "evenness 0 is a pull that steps from string to string just as is wished.\n"
               "2. cost 0.0813, evenness 0.0317, 204.7 N in all: viola C3 gut silver-wound,\n"
               "    viola G3 gut silver-wound, viola D4 gut aluminium-wound, (no string).\n"
               "\n"
               "What the wishes rule out\n"
               "- A4: the catalogue has no string for it.\n"
               "\n"
               "Assumed, not measured: board length 302.0 mm, nut 0.5 mm, friction 0.5,\n"
               "  tuning viola.\n"
               "\n"
               "Warning: kestrel: the set \"viola gut\" has no string for A4\n"
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

static enum mensur_status it(struct mensur_presenter *presenter, const struct fixture *fixture) {
    struct mensur_restringing none = fixture->restringing;
    none.choice_count = 0;
    return mensur_present_restringing(presenter, &none);
}

static void test_none(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    char *text = presented(it, "restring", fixture, (struct mensur_style){0});
    check_holds(text, "kestrel, 362.4 mm of string: no set of the catalogue meets every wish.\n");
    check_holds(text, "\nWhat the wishes rule out\n- A4: the catalogue has no string");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_chosen), cmocka_unit_test(test_none)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
