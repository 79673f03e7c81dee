/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"

static void test_places(void **state) {
    (void)state;
    check_text(3, (struct mensur_style){0},
               "kestrel, 362.4 mm of string: in position 1 the hand spans 81.0 mm from first\n"
               "finger to fourth (5 semitones).\n"
               "\n"
               " semitones   from nut   to next         semitones   from nut   to next\n"
               "                   mm        mm                           mm        mm\n"
               "         0        0.0      20.3                13      191.4       9.6\n"
               "         1       20.3      19.2                14      201.0       9.1\n"
               "         2       39.5      18.1                15      210.0       8.5\n"
               "         3       57.7      17.1                16      218.6       8.1\n"
               "         4       74.8      16.1                17      226.6       7.6\n"
               "         5       90.9      15.2                18      234.3       7.2\n"
               "         6      106.1      14.4                19      241.4       6.8\n"
               "         7      120.5      13.6                20      248.2       6.4\n"
               "         8      134.1      12.8                21      254.6       6.0\n"
               "         9      146.9      12.1                22      260.7       5.7\n"
               "        10      159.0      11.4                23      266.4       5.4\n"
               "        11      170.4      10.8                24      271.8\n"
               "        12      181.2      10.2\n"
               "\n"
               "             first finger  fourth finger   hand's frame\n"
               "position               mm             mm             mm\n"
               "half                 20.3          106.1           85.8\n"
               "1                    39.5          120.5           81.0\n"
               "2                    74.8          146.9           72.1\n"
               "Fingers are measured from the nut; the frame is first finger to fourth.\n"
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

static enum mensur_status dipper(struct mensur_presenter *presenter,
                                 const struct fixture *fixture) {
    return mensur_present_fingers(presenter, &fixture->dipper);
}

/* Without a family there is no frame and no position. */
static void test_no_position(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    fixture->dipper.places[0] = (struct mensur_finger_place){0, 0, NAN};
    fixture->dipper.place_count = 1;
    char *text = presented(dipper, "fingers", fixture, (struct mensur_style){0});
    check_holds(text, "dipper, 358.0 mm of string.\n");
    assert_null(strstr(text, "position"));
    check_page(text);
    free(text);
    fixture_clear(fixture);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places),
        cmocka_unit_test(test_no_position),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
