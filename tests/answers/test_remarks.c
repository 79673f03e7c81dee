/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is said of instruments side by side and of fingers: the whole sentences, and when they are
 * left out. */
#include "demo.h"
#include "said.h"

static void check_all(const struct mensur_facts *remarks, const char *const *want, size_t count) {
    assert_int_equal(said_count(remarks), count);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(said(remarks, i), want[i]);
    }
}

static struct mensur_comparison compare(const struct demo *demo,
                                        const struct mensur_instrument *first,
                                        const struct mensur_instrument *other,
                                        const struct mensur_terms *terms) {
    const struct mensur_instrument *const two[] = {first, other};
    struct mensur_comparison out;
    struct mensur_fault fault;
    check_status(other->name, mensur_ask_compare(&demo->shop.stock, two, 2, terms, &fault, &out),
                 MENSUR_OK);
    return out;
}

/* The lengths and what the text shows agree: 361.9 and 375.8 mm, 144 and 150 mm of neck. */
static void side_by_side(void **state) {
    const struct demo *demo = *state;
    static const char *const want[] = {
        "The backs are the same, yet on heron the left hand is 6.0 mm farther from the body's "
        "lower end",
        "On heron the left hand reaches 6.0 mm farther, the bow arm 8.0 mm less far",
        "On heron all fingers stand 3.8 % wider, because every spacing goes as the string length; "
        "moved 0.6 semitones up, the hand on heron spans just what it spans on kestrel",
        "The same strings have 7.7 % more tension on heron: tension goes as the square of the "
        "length",
        "The strings press the belly of heron 8.7 % harder",
        "The strings of kestrel are made for 370.0 to 380.0 mm; on its 361.9 mm they are slacker "
        "than their maker meant",
    };
    struct mensur_comparison comparison = compare(demo, &demo->kestrel, &demo->heron, &demo->terms);
    check_all(&comparison.remarks, want, COUNT_OF(want));
    mensur_comparison_clear(&comparison);
}

/* Where intuition fails: the shorter back has the longer string. */
static void shorter_back(void **state) {
    const struct demo *demo = *state;
    struct mensur_comparison comparison = compare(demo, &demo->kestrel, &demo->wren, &demo->terms);
    check_holds(said(&comparison.remarks, 0),
                "wren has the shorter back (by 15.0 mm), yet the longer string (by 9.7 mm)");
    /* Inches too. */
    check_holds(said_as(&comparison.remarks, &(struct mensur_style){.inches = true}, 0),
                "(by 0.59 in), yet the longer string (by 0.38 in)");
    mensur_comparison_clear(&comparison);
}

/* The hand meets the body at another note, and strings that are no longer have less tension. */
static void cello(void **state) {
    const struct demo *demo = *state;
    struct mensur_comparison comparison = compare(demo, &demo->heron, &demo->bittern, &demo->terms);
    bool found = false;
    for (size_t i = 0; i < said_count(&comparison.remarks); i++) {
        found = found ||
                strcmp(said(&comparison.remarks, i), "On bittern the hand meets the body 9.0 "
                                                     "semitones above the open string, on heron "
                                                     "8.8") == 0;
        assert_null(strstr(said(&comparison.remarks, i), "left hand reaches")); /* none is known */
        assert_null(strchr(said(&comparison.remarks, i), '%')); /* of another family's */
    }
    assert_true(found);
    mensur_comparison_clear(&comparison);
}

/* An instrument against itself leaves nothing to say but what is true of it alone. */
static void the_same(void **state) {
    const struct demo *demo = *state;
    struct mensur_comparison comparison = compare(demo, &demo->heron, &demo->heron, &demo->terms);
    assert_int_equal(said_count(&comparison.remarks), 0);
    mensur_comparison_clear(&comparison);
}

/* Less than a tenth of a semitone is told to a hundredth, never as nought. */
static void small_change(void **state) {
    const struct demo *demo = *state;
    const struct mensur_change change = {
        .field = MENSUR_FIELD_NECK, .relative = true, .value = {.value = 0.0013}};
    struct mensur_comparison comparison;
    struct mensur_fault fault;
    check_status("change",
                 mensur_ask_change(&demo->shop.stock, &demo->kestrel, &change, 1, &demo->terms,
                                   &fault, &comparison),
                 MENSUR_OK);
    bool found = false;
    for (size_t i = 0; i < said_count(&comparison.remarks); i++) {
        const char *text = said(&comparison.remarks, i);
        found =
            found ||
            (strstr(text, "On the instrument as proposed all fingers stand 0.4 % wider") != NULL &&
             strstr(text, "moved 0.06 semitones up") != NULL);
    }
    assert_true(found);
    mensur_comparison_clear(&comparison);
}

static struct mensur_profile fingers(const struct demo *demo,
                                     const struct mensur_instrument *instrument) {
    struct mensur_profile out;
    struct mensur_fault fault;
    check_status(instrument->name,
                 mensur_ask_profile(&demo->shop.stock, instrument, &demo->terms,
                                    MENSUR_PART_FINGERS, &fault, &out),
                 MENSUR_OK);
    return out;
}

/* The teacher's lines: one instrument alone, then against another. */
static void teacher(void **state) {
    const struct demo *demo = *state;
    static const char *const alone[] = {
        "Every spacing is a fixed share of the string length, here 371.7 mm: a string longer by "
        "1 % sets all fingers 1 % wider",
        "The hand meets the body 8.8 semitones up, between F5 and F#5 on the A string",
    };
    struct mensur_profile wren = fingers(demo, &demo->wren);
    struct mensur_profile bittern = fingers(demo, &demo->bittern);
    check_all(&wren.remarks, alone, COUNT_OF(alone));
    check_holds(said(&bittern.remarks, 1), "at F#4 on the A string");
    check_status("against", mensur_remark_fingers(&wren, &bittern), MENSUR_OK);
    assert_int_equal(said_count(&bittern.remarks), 4);
    check_holds(said(&bittern.remarks, 2), "In position 1 the hand on wren spans 83.1 mm, what it "
                                           "spans on bittern in position 3 lower");
    check_holds(said(&bittern.remarks, 3), "On bittern the hand meets the body 9.0 semitones");
    struct mensur_profile heron = fingers(demo, &demo->heron);
    check_status("against", mensur_remark_fingers(&wren, &heron), MENSUR_OK);
    check_holds(said(&heron.remarks, 2), "On heron all fingers stand 1.1 % wider");
    mensur_profile_clear(&heron);
    mensur_profile_clear(&wren);
    mensur_profile_clear(&bittern);
    /* Without a neck nobody knows where the body is. */
    struct mensur_profile dipper = fingers(demo, &demo->dipper);
    assert_int_equal(said_count(&dipper.remarks), 1);
    check_holds(said(&dipper.remarks, 0), "here 358.0 mm");
    mensur_profile_clear(&dipper);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(side_by_side), cmocka_unit_test(shorter_back), cmocka_unit_test(cello),
        cmocka_unit_test(the_same),     cmocka_unit_test(small_change), cmocka_unit_test(teacher),
    };
    return cmocka_run_group_tests(tests, demo_open, demo_close);
}
