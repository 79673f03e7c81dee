/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_met(void **state) {
    (void)state;
    check_text(6, (struct mensur_style){0},
               "kestrel: cut the neck 150.5 mm (now 144.0, +6.5).\n"
               "Why: a neck of 150.5 mm gives 375.8 mm of string: it meets every wish, and comes\n"
               "nearest to the liked instrument's string.\n"
               "What it costs the player:\n"
               "- the left hand reaches 6.5 mm farther.\n"
               "\n"
               "                                                 neck    neck\n"
               "wish                 wanted                   from mm   to mm  why\n"
               "string length        374.8 to 376.8 mm          148.7   151.3  like\n"
               "left reach           up to 565.0 mm               any   156.1  asked\n"
               "neck : stop          2 : 2.80 to 2 : 3.10       138.1   152.9  asked\n"
               "all together                                    148.7   151.3\n"
               "\n"
               "Side by side\n"
               "Like is heron.\n"
               "                                  as it is       best       like\n"
               "string length        mm              362.4      368.9      376.4\n"
               "stop                 mm              214.0      214.0      222.0\n"
               "neck                 mm              144.0      150.5      150.0\n"
               "neck : stop                       2 : 2.97   2 : 2.84   2 : 2.96\n"
               "note at the body     semitones         8.7        8.7        8.7\n"
               "left reach           mm              552.9      559.4      558.9\n"
               "bow reach            mm              194.9      194.9      186.9\n"
               "break angle          deg             158.4      158.4      158.4\n"
               "bow room             mm               60.4       61.5       62.7\n"
               "pull in all          N               151.4      151.4      151.4\n"
               "force on the belly   N                55.2       55.2       55.2\n"
               "\n"
               "Step by step\n"
               "   neck  string  2 to  note   reach  room     C3     G3     D4     A4\n"
               "     mm      mm          st      mm    mm      N      N      N      N\n"
               "  141.0   359.4  3.04   8.6   549.9  60.3   48.3   51.3   54.3      ?\n"
               "  142.0   360.4  3.01   8.6   550.9  60.3   49.3   52.3   55.3      ?\n"
               "  143.0   361.4  2.99   8.6   551.9  60.3   50.3   53.3   56.3      ?\n"
               "  144.0   362.4  2.97   8.6   552.9  60.3   51.3   54.3   57.3      ? <- now\n"
               "  145.0   363.4  2.95   8.6   553.9  60.3   52.3   55.3   58.3      ?\n"
               "  146.0   364.4  2.93   8.6   554.9  60.3   53.3   56.3   59.3      ?\n"
               "  147.0   365.4  2.91   8.6   555.9  60.3   54.3   57.3   60.3      ?\n"
               "  148.0   366.4  2.89   8.6   556.9  60.3   55.3   58.3   61.3      ?\n"
               "  149.0   367.4  2.87   8.6   557.9  60.3   56.3   59.3   62.3      ?\n"
               "  150.0   368.4  2.85   8.6   558.9  60.3   57.3   60.3   63.3      ?\n"
               "  151.0   369.4  2.83   8.6   559.9  60.3   58.3   61.3   64.3      ? <- best\n"
               "  152.0   370.4  2.82   8.6   560.9  60.3   59.3   62.3   65.3      ?\n"
               "  153.0   371.4  2.80   8.6   561.9  60.3   60.3   63.3   66.3      ?\n"
               "  154.0   372.4  2.78   8.6   562.9  60.3   61.3   64.3   67.3      ?\n"
               "2 to: neck : stop as 2 to this. Note: where the hand meets the body, in\n"
               "semitones (st) above the open string. Reach: lower end of the body to the nut.\n"
               "Room: between the board's end and the bridge, for the bow. Below the notes: the\n"
               "pull of each string.\n"
               "\n"
               "The other way: other strings\n"
               "Leave the neck as it is, and these strings would pull as the present ones do on\n"
               "375.8 mm:\n"
               "            now   needed  nearest\n"
               "note        g/m      g/m      g/m  nearest string\n"
               "C3        4.271    4.583    4.611  viola C3 synthetic silver-wound\n"
               "A4            ?        ?        ?  (none in the catalogue)\n"
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

static void test_unmet(void **state) {
    (void)state;
    check_text(7, (struct mensur_style){.inches = true, .force_unit = MENSUR_FORCE_KGF},
               "kestrel: no stop meets every wish.\n"
               "The least that would do: either the wish for tension A4 up to 6.22 kgf gives\n"
               "0.63 kgf, or the one for string length 14.65 in or more gives 0.19 in.\n"
               "\n"
               "                                                 stop    stop\n"
               "wish                 wanted                   from in   to in  why\n"
               "string length        14.65 in or more            8.63     any  asked\n"
               "tension A4           up to 6.22 kgf               any    8.42  asked\n"
               "note at the body     19.5 to 20.5 semitones      none    none  asked\n"
               "all together                                     none    none\n"
               "\n"
               "Step by step\n"
               "   stop  string  2 to  note   reach  room     C3     G3     D4     A4\n"
               "     in      in          st      in    in    kgf    kgf    kgf    kgf\n"
               "   8.31   16.90  2.03   8.6   24.41  2.37   4.93   5.23   5.54      ?\n"
               "   8.39   16.98  2.01   8.6   24.48  2.37   5.13   5.44   5.74      ?\n"
               "   8.43   17.02  2.00   8.6   24.52  2.37   5.23   5.54   5.84      ? <- now\n"
               "   8.46   17.06  1.99   8.6   24.56  2.37   5.33   5.64   5.95      ?\n"
               "   8.54   17.14  1.97   8.6   24.64  2.37   5.54   5.84   6.15      ?\n"
               "   8.62   17.22  1.95   8.6   24.72  2.37   5.74   6.05   6.35      ?\n"
               "   8.70   17.30  1.94   8.6   24.80  2.37   5.95   6.25   6.56      ?\n"
               "   8.78   17.38  1.92   8.6   24.88  2.37   6.15   6.46   6.76      ?\n"
               "   8.86   17.46  1.90   8.6   24.96  2.37   6.35   6.66   6.97      ?\n"
               "   8.94   17.53  1.89   8.6   25.04  2.37   6.56   6.86   7.17      ?\n"
               "   9.02   17.61  1.87   8.6   25.11  2.37   6.76   7.07   7.37      ?\n"
               "   9.09   17.69  1.85   8.6   25.19  2.37   6.97   7.27   7.58      ?\n"
               "   9.17   17.77  1.84   8.6   25.27  2.37   7.17   7.48   7.78      ?\n"
               "   9.25   17.85  1.82   8.6   25.35  2.37   7.37   7.68   7.99      ?\n"
               "   9.33   17.93  1.81   8.6   25.43  2.37   7.58   7.88   8.19      ?\n"
               "   9.41   18.01  1.79   8.6   25.51  2.37   7.78   8.09   8.39      ?\n"
               "   9.49   18.09  1.78   8.6   25.59  2.37   7.99   8.29   8.60      ?\n"
               "   9.57   18.16  1.76   8.6   25.67  2.37   8.19   8.50   8.80      ?\n"
               "   9.65   18.24  1.75   8.6   25.74  2.37   8.39   8.70   9.01      ?\n"
               "   9.72   18.32  1.73   8.6   25.82  2.37   8.60   8.90   9.21      ?\n"
               "   9.80   18.40  1.72   8.6   25.90  2.37   8.80   9.11   9.41      ?\n"
               "   9.88   18.48  1.71   8.6   25.98  2.37   9.01   9.31   9.62      ?\n"
               "2 to: neck : stop as 2 to this. Note: where the hand meets the body, in\n"
               "semitones (st) above the open string. Reach: lower end of the body to the nut.\n"
               "Room: between the board's end and the bridge, for the bow. Below the notes: the\n"
               "pull of each string.\n"
               "\n"
               "Assumed, not measured: board length 11.89 in, nut 0.02 in, friction 0.5,\n"
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
    return mensur_present_decision(presenter, &fixture->met);
}

static char *met(struct fixture *fixture) {
    char *text = presented(it, "neck", fixture, (struct mensur_style){0});
    check_page(text);
    return text;
}

static void test_stays(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->met.recommended_place = 0.14402;
    fixture->met.steps[3].recommended = true;
    char *text = met(fixture);
    check_holds(text, "kestrel: leave the neck as it is, 144.0 mm.\n");
    check_holds(text, "? <- stays\n");
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

/* Five strings stand side by side; of more, and of none, the pull in all. */
static void test_many_strings(void **state) {
    (void)state;
    static const struct {
        size_t count;
        const char *want;
    } of[] = {
        {0, "\n   neck  string  2 to  note   reach  room    pull\n"},
        {5, "\n   neck  string  2 to  note   reach  room    C3    G3    D4    A4    E5\n"},
        {16, "\n   neck  string  2 to  note   reach  room    pull\n"},
    };
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        struct fixture *fixture = fixture_make();
        memcpy(fixture->met.present.strings[4].note, "E5", 3);
        fixture->met.present.string_count = of[i].count;
        char *text = met(fixture);
        check_holds(text, of[i].want);
        free(text);
        fixture_clear(fixture);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_met),          cmocka_unit_test(test_unmet),
        cmocka_unit_test(test_stays),        cmocka_unit_test(test_reason_against),
        cmocka_unit_test(test_many_strings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
