/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remarks on profiles that no instrument of the demonstration has, and their silence. */
#include "demo.h"
#include "named_place.h"
#include "remarks.h"
#include "said.h"

/* Nothing known but a name and a string length. */
static struct mensur_profile made_up(const char *name, double length) {
    struct mensur_profile profile = {.lengths = {.body = NAN,
                                                 .body_straight = NAN,
                                                 .string_length = length,
                                                 .body_at_semitones = NAN,
                                                 .left_reach = NAN,
                                                 .bow_reach = NAN},
                                     .total_tension = NAN,
                                     .total_force_on_belly = NAN,
                                     .made_for_low = NAN,
                                     .made_for_high = NAN};
    check_status(name, mensur_text_copy(name, strlen(name), &profile.instrument), MENSUR_OK);
    return profile;
}

/* What is said of two with tensions of 200 and 300 N, with sets of these names on so many strings.
 */
static const struct {
    const char *row, *first_set, *other_set;
    size_t first_count, other_count;
    const char *said; /* NULL: nothing */
} tensions[] = {
    {"same", "gut", "gut", 4, 4, "The same strings have 50 % more tension"},
    {"other", "gut", "steel", 4, 4, "The strings of other have 50 % more tension"},
    {"first unknown", NULL, "steel", 4, 4, "The strings of other have 50 % more tension"},
    {"other unknown", "gut", NULL, 4, 4, "The strings of other have 50 % more tension"},
    {"more strings", "gut", "gut", 4, 5, NULL},
};

static void tension(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(tensions); i++) {
        struct mensur_profile first = made_up("first", 0.33), other = made_up("other", 0.33);
        struct mensur_facts remarks = {0};
        first.total_tension = 200;
        other.total_tension = 300;
        first.set = tensions[i].first_set;
        other.set = tensions[i].other_set;
        first.string_count = tensions[i].first_count;
        other.string_count = tensions[i].other_count;
        remarks_add(&first, &other, false, &remarks);
        check_status(tensions[i].row, remarks.status, MENSUR_OK);
        assert_int_equal(said_count(&remarks), tensions[i].said == NULL ? 0 : 1);
        if (tensions[i].said != NULL) {
            check_holds(said(&remarks, 0), tensions[i].said);
        }
        mensur_facts_clear(&remarks);
        mensur_profile_clear(&first);
        mensur_profile_clear(&other);
    }
}

/* A longer back is worth a remark only beside a shorter string. mm of back and string. */
static const struct {
    const char *row;
    double body, length;
    bool said;
} bodies[] = {
    {"the same string", 12, 0, false},  {"hardly another", 12, -0.9, false},
    {"a longer one too", 12, 3, false}, {"a shorter one", 12, -3, true},
    {"the same back", 0.9, -3, false},
};

static void body(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(bodies); i++) {
        struct mensur_profile first = made_up("first", 0.33), other = made_up("other", 0.33);
        struct mensur_facts remarks = {0};
        first.lengths.body = 0.355;
        other.lengths.body = 0.355 + bodies[i].body / 1000;
        other.lengths.string_length += bodies[i].length / 1000;
        remarks_add(&first, &other, false, &remarks);
        check_status(bodies[i].row, remarks.status, MENSUR_OK);
        assert_int_equal(said_holds(&remarks, "longer back"), bodies[i].said);
        mensur_facts_clear(&remarks);
        mensur_profile_clear(&first);
        mensur_profile_clear(&other);
    }
}

/* A string of no length has no fingers to stand wider. */
static void no_length(void **state) {
    (void)state;
    struct mensur_profile first = made_up("first", 0.33), other = made_up("other", 0);
    check_status("none", mensur_remark_fingers(&first, &other), MENSUR_OK);
    assert_int_equal(said_count(&other.remarks), 0);
    mensur_profile_clear(&first);
    mensur_profile_clear(&other);
}

/* At which note, or between which two, the hand meets the body: on the highest string, wherever it
 * stands in the tuning; below C0, which is 57 keys under A4, too; and on none where there is no
 * string. */
static const struct {
    const char *row;
    size_t count;
    int keys[3]; /* from A4 */
    double semitones;
    const char *said; /* NULL: nothing */
} notes[] = {
    {"rising", 3, {-14, -7, 0}, 8.4, "8.4 semitones up, between F5 and F#5 on the C string"},
    {"falling", 3, {0, -7, -14}, 8.05, "at F5 on the A string"},
    {"lowest of all", 1, {-57, 0, 0}, 1.96, "at D0 on the A string"},
    {"lower", 1, {-60, 0, 0}, 2.04, "at B-1 on the A string"},
    {"lower by octaves", 1, {-84, 0, 0}, 1.2, "between Bb-3 and B-3 on the A string"},
    {"no string", 0, {0, 0, 0}, 8.4, NULL},
    {"no neck", 1, {0, 0, 0}, NAN, NULL},
};

static void alone(void **state) {
    (void)state;
    static char name[] = "three";
    for (size_t i = 0; i < COUNT_OF(notes); i++) {
        struct mensur_profile profile = made_up("alone", 0.33);
        struct mensur_tuning tuning = {.name = name, .count = notes[i].count};
        for (size_t k = 0; k < notes[i].count; k++) {
            tuning.notes[k].semitones_from_a4 = notes[i].keys[k];
            tuning.notes[k].name[0] = (char)("ABC"[k]);
        }
        profile.lengths.body_at_semitones = notes[i].semitones;
        name_place(&tuning, 0, notes[i].semitones, 0.1, &profile.lengths.body_note);
        remarks_alone(&profile);
        check_status(notes[i].row, profile.remarks.status, MENSUR_OK);
        assert_int_equal(said_count(&profile.remarks), notes[i].said == NULL ? 1 : 2);
        if (notes[i].said != NULL) {
            check_holds(said(&profile.remarks, 1), notes[i].said);
        }
        mensur_profile_clear(&profile);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(tension), cmocka_unit_test(body),
                                       cmocka_unit_test(no_length), cmocka_unit_test(alone)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
