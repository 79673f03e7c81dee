/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_few(void **state) {
    (void)state;
    check_text(0, (struct mensur_style){0},
               "kestrel: the string is 362.4 mm long; neck : stop is 2 : 2.97.\n"
               "\n"
               "  string length        362.4 mm        nut to bridge, the part that sounds\n"
               "  stop                 214.0 mm        belly's upper edge to the bridge\n"
               "  neck                 144.0 mm        belly's upper edge to the nut\n"
               "  neck : stop       2 : 2.97           the mensur\n"
               "  note at the body       8.7 semitones up the string, where the hand meets it\n"
               "  left reach           552.9 mm        lower end of the body to the nut\n"
               "  bow reach            194.9 mm        lower end of the body to the bridge\n"
               "  body                 410.0 mm        the back, with a tape over the arching\n"
               "  body by calipers     408.9 mm        the same in a straight line\n"
               "  break angle          158.4 degrees   string over the bridge; 180: straight\n"
               "  down factor          0.365           part of the pull that presses the belly\n"
               "  neck slope             5.3 degrees   neck against the plane of the edge\n"
               "  afterlength           60.4 mm        bridge to tailpiece\n"
               "  clearance              5.3 mm        strings above the board's end, in mean\n"
               "  bow room              60.4 mm        from the board's end to the bridge\n"
               "\n"
               "dipper: the string is 358.0 mm long, as measured.\n"
               "\n"
               "  string length        358.0 mm        nut to bridge, the part that sounds\n"
               "Not known: stop, neck, neck : stop, note at the body, left reach, bow reach,\n"
               "  body, body by calipers, break angle, down factor, neck slope, afterlength,\n"
               "  clearance, bow room.\n"
               "\n"
               "Assumed, not measured (kestrel): board length 302.0 mm, nut 0.5 mm,\n"
               "  friction 0.5, tuning viola.\n"
               "\n"
               "Warning: kestrel: the set \"viola gut\" has no string for A4\n"
               "\n"
               "Sources: Mersenne 1636; geometry of the instrument's side view.\n"
               "\n"
               "Caution: A string under tension can break and injure an eye.\n"
               "Caution: More tension than the instrument was built for can sink the belly or\n"
               "  pull the neck.\n"
               "\n"
               "From the demonstration shop, invented (mensur start FOLDER writes your own to\n"
               "edit).\n");
}

static void test_inches(void **state) {
    (void)state;
    check_text(0, (struct mensur_style){.inches = true},
               "kestrel: the string is 14.27 in long; neck : stop is 2 : 2.97.\n"
               "\n"
               "  string length        14.27 in        nut to bridge, the part that sounds\n"
               "  stop                  8.43 in        belly's upper edge to the bridge\n"
               "  neck                  5.67 in        belly's upper edge to the nut\n"
               "  neck : stop       2 : 2.97           the mensur\n"
               "  note at the body       8.7 semitones up the string, where the hand meets it\n"
               "  left reach           21.77 in        lower end of the body to the nut\n"
               "  bow reach             7.67 in        lower end of the body to the bridge\n"
               "  body                 16.14 in        the back, with a tape over the arching\n"
               "  body by calipers     16.10 in        the same in a straight line\n"
               "  break angle          158.4 degrees   string over the bridge; 180: straight\n"
               "  down factor          0.365           part of the pull that presses the belly\n"
               "  neck slope             5.3 degrees   neck against the plane of the edge\n"
               "  afterlength           2.38 in        bridge to tailpiece\n"
               "  clearance             0.21 in        strings above the board's end, in mean\n"
               "  bow room              2.38 in        from the board's end to the bridge\n"
               "\n"
               "dipper: the string is 14.09 in long, as measured.\n"
               "\n"
               "  string length        14.09 in        nut to bridge, the part that sounds\n"
               "Not known: stop, neck, neck : stop, note at the body, left reach, bow reach,\n"
               "  body, body by calipers, break angle, down factor, neck slope, afterlength,\n"
               "  clearance, bow room.\n"
               "\n"
               "Assumed, not measured (kestrel): board length 11.89 in, nut 0.02 in,\n"
               "  friction 0.5, tuning viola.\n"
               "\n"
               "Warning: kestrel: the set \"viola gut\" has no string for A4\n"
               "\n"
               "Sources: Mersenne 1636; geometry of the instrument's side view.\n"
               "\n"
               "Caution: A string under tension can break and injure an eye.\n"
               "Caution: More tension than the instrument was built for can sink the belly or\n"
               "  pull the neck.\n"
               "\n"
               "From the demonstration shop, invented (mensur start FOLDER writes your own to\n"
               "edit).\n");
}

/* One more than are held back: a table, row by row. */
static void test_many(void **state) {
    (void)state;
    check_text(1, (struct mensur_style){0},
               "                       string   stop   neck neck:stop  note at    left  break\n"
               "instrument                 mm     mm     mm      2 to the body   reach  angle\n"
               "kestrel                 362.4  214.0  144.0      2.97      8.7   552.9  158.4 *\n"
               "dipper                  358.0      ?      ?         ?        ?       ?      ?\n"
               "kestrel                 362.4  214.0  144.0      2.97      8.7   552.9  158.4 *\n"
               "dipper                  358.0      ?      ?         ?        ?       ?      ?\n"
               "kestrel                 362.4  214.0  144.0      2.97      8.7   552.9  158.4 *\n"
               "dipper                  358.0      ?      ?         ?        ?       ?      ?\n"
               "\n"
               "String: nut to bridge. Note at the body: where the hand meets the body, in\n"
               "semitones above the open string. Left reach: lower end of the body to the nut.\n"
               "Break angle: of the string over the bridge, in degrees. ? is not known; * has a\n"
               "warning.\n"
               "\n"
               "Assumed, not measured (kestrel): board length 302.0 mm, nut 0.5 mm,\n"
               "  friction 0.5, tuning viola.\n"
               "\n"
               "Warning: kestrel: the set \"viola gut\" has no string for A4\n"
               "\n"
               "Sources: Mersenne 1636; geometry of the instrument's side view.\n"
               "\n"
               "Caution: A string under tension can break and injure an eye.\n"
               "Caution: More tension than the instrument was built for can sink the belly or\n"
               "  pull the neck.\n"
               "\n"
               "From the demonstration shop, invented (mensur start FOLDER writes your own to\n"
               "edit).\n");
}

static enum mensur_status only(struct mensur_presenter *presenter, const struct fixture *fixture) {
    return mensur_present_lengths(presenter, &fixture->kestrel);
}

/* What is not held under the chin has no reach, and that is no gap in the measurements. */
static void test_knee(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->kestrel.held = "knee";
    fixture->kestrel.lengths.left_reach = NAN;
    fixture->kestrel.lengths.bow_reach = NAN;
    fixture->kestrel.lengths.body = NAN;
    char *text = presented(only, "lengths", fixture, (struct mensur_style){0});
    check_holds(text, "\nNot known: body.\n"
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
    char *text = presented(only, "lengths", fixture, (struct mensur_style){0});
    check_holds(text, "kestrel: the string is 361.1 mm long, as measured (the other measurements "
                      "give\n362.4 mm); neck : stop is 2 : 2.97.\n");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_few),  cmocka_unit_test(test_inches),   cmocka_unit_test(test_many),
        cmocka_unit_test(test_knee), cmocka_unit_test(test_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
