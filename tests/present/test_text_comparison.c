/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_compare(void **state) {
    (void)state;
    check_text(4, (struct mensur_style){0},
               "The string: kestrel 362.4 mm, heron 376.4 mm (+14.0).\n"
               "- The strings of heron pull 5.0 % more in all.\n"
               "\n"
               "                             kestrel      heron difference\n"
               "string length, mm              362.4      376.4      +14.0\n"
               "stop, mm                       214.0      222.0       +8.0\n"
               "neck, mm                       144.0      150.0       +6.0\n"
               "neck : stop                 2 : 2.97   2 : 2.96      -0.01\n"
               "note at the body, st             8.7        8.7        0.0\n"
               "left reach, mm                 552.9      558.9       +6.0\n"
               "bow reach, mm                  194.9      186.9       -8.0\n"
               "body, mm                       410.0      410.0        0.0\n"
               "body by calipers, mm           408.9      408.9        0.0\n"
               "break angle, deg               158.4      158.4        0.0\n"
               "down factor                    0.365      0.365      0.000\n"
               "neck slope, deg                  5.3        5.3        0.0\n"
               "afterlength, mm                 60.4       62.7       +2.3\n"
               "clearance, mm                    5.3        5.3        0.0\n"
               "bow room, mm                    60.4       62.7       +2.3\n"
               "pull of C3, N                   38.1       41.1       +3.0\n"
               "pull of G3, N                   42.9       46.2       +3.4\n"
               "pull of D4, N                   40.4       43.5       +3.2\n"
               "pull in all, N                 151.4      151.4        0.0\n"
               "force on the belly, N           55.2       55.2        0.0\n"
               "frame, position half, mm        85.8       89.1       +3.3\n"
               "frame, position 1, mm           81.0       84.1       +3.1\n"
               "frame, position 2, mm           72.1       74.9       +2.8\n"
               "\n"
               "Differences are against the first. Note at the body: where the hand meets the\n"
               "body, in semitones (st) above the open string. Break angle: of the string over\n"
               "the bridge. Frame: first finger to fourth in that position.\n"
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

static void test_change(void **state) {
    (void)state;
    check_text(5, (struct mensur_style){.inches = true, .force_unit = MENSUR_FORCE_KGF},
               "The string: kestrel as it is 14.27 in, kestrel as changed 14.82 in (+0.55).\n"
               "- The strings of kestrel pull 5.0 % more in all.\n"
               "\n"
               "                            as it is    changed difference\n"
               "string length, in              14.27      14.82      +0.55\n"
               "stop, in                        8.43       8.74      +0.31\n"
               "neck, in                        5.67       5.91      +0.24\n"
               "neck : stop                 2 : 2.97   2 : 2.96      -0.01\n"
               "note at the body, st             8.7        8.7        0.0\n"
               "left reach, in                 21.77      22.00      +0.24\n"
               "bow reach, in                   7.67       7.36      -0.31\n"
               "body, in                       16.14      16.14       0.00\n"
               "body by calipers, in           16.10      16.10       0.00\n"
               "break angle, deg               158.4      158.4        0.0\n"
               "down factor                    0.365      0.365      0.000\n"
               "neck slope, deg                  5.3        5.3        0.0\n"
               "afterlength, in                 2.38       2.47      +0.09\n"
               "clearance, in                   0.21       0.21       0.00\n"
               "bow room, in                    2.38       2.47      +0.09\n"
               "pull of C3, kgf                 3.89       4.19      +0.31\n"
               "pull of G3, kgf                 4.37       4.72      +0.34\n"
               "pull of D4, kgf                 4.12       4.44      +0.32\n"
               "pull in all, kgf               15.44      15.44       0.00\n"
               "force on the belly, kgf         5.63       5.63       0.00\n"
               "frame, position half, in        3.38       3.51      +0.13\n"
               "frame, position 1, in           3.19       3.31      +0.12\n"
               "frame, position 2, in           2.84       2.95      +0.11\n"
               "\n"
               "Differences are against the first. Note at the body: where the hand meets the\n"
               "body, in semitones (st) above the open string. Break angle: of the string over\n"
               "the bridge. Frame: first finger to fourth in that position.\n"
               "\n"
               "Assumed, not measured (as it is, as changed): nut 0.02 in, friction 0.5,\n"
               "  tuning viola.\n"
               "Assumed, not measured (as changed): board length 12.35 in.\n"
               "Assumed, not measured (as it is): board length 11.89 in.\n"
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

static enum mensur_status six(struct mensur_presenter *presenter, const struct fixture *fixture) {
    return mensur_present_comparison(presenter, &fixture->comparison);
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
    char *text = presented(six, "compare", fixture, (struct mensur_style){0});
    check_holds(text, "\n(2) a viola with a long name\n"
                      "                             kestrel        (2) difference       wren "
                      "difference\n");
    check_holds(text, "\n(5) bittern of ours\n"
                      "                             kestrel      swift difference        (5) "
                      "difference\n");
    check_holds(text, "\n                             kestrel     dipper difference\n");
    check_holds(text, "\npull of E5, N                      ?       71.3          ?          ?"
                      "          ?\n");
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_compare),
        cmocka_unit_test(test_change),
        cmocka_unit_test(test_blocks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
