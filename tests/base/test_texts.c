/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Messages, lists of texts, and how many letters two words are apart. */
#include "check.h"

#include "texts.h"

#include <stdint.h>
#include <wchar.h>

static void sets_a_fault(void **state) {
    (void)state;
    struct mensur_fault fault;
    mensur_fault_set(&fault, "%s of %d", "heron", 7);
    assert_string_equal(fault.text, "heron of 7");
    mensur_fault_set(NULL, "no fault to fill");
}

/* letters of 2 to 4 bytes at and across the end */
static void cuts_at_a_letter(void **state) {
    (void)state;
    static const char *const letters[] = {"a", "\xC3\xA9", "\xE2\x99\xAF", "\xF0\x9D\x84\x9E"};
    for (size_t i = 0; i < COUNT_OF(letters); i++) {
        for (size_t lead = 1010; lead < 1030; lead++) {
            char text[1100];
            struct mensur_fault fault;
            size_t size = strlen(letters[i]);
            memset(text, 'x', lead);
            snprintf(text + lead, sizeof(text) - lead, "%s%s", letters[i], letters[i]);
            mensur_fault_set(&fault, "%s", text);
            size_t whole = lead + 2 * size <= 1023 ? lead + 2 * size
                           : lead + size <= 1023   ? lead + size
                                                   : lead;
            assert_int_equal(strlen(fault.text), whole < 1023 ? whole : 1023);
        }
    }
}

/* A message of continuation bytes only; a letter that the C locale cannot print. */
static void invalid_letters(void **state) {
    (void)state;
    char text[1100];
    const wchar_t wide[] = {0x20AC, 0}; /* not printable in the C locale */
    struct mensur_fault fault = {.text = "before"};
    struct mensur_texts list = {0};
    memset(text, 0x80, sizeof text - 1);
    text[sizeof text - 1] = '\0';
    mensur_fault_set(&fault, "%s", text);
    assert_int_equal(strlen(fault.text), sizeof fault.text - 1);
    mensur_fault_set(&fault, "%ls", wide);
    assert_string_equal(fault.text, "");
    check_status("unwritten", mensur_texts_add(&list, "%ls", wide), MENSUR_MEMORY);
    assert_int_equal(list.count, 0);
    mensur_texts_clear(&list);
}

/* A list whose next size overflows. */
static void refuses_overflow(void **state) {
    (void)state;
    struct mensur_texts list = {.count = SIZE_MAX / 4, .room = SIZE_MAX / 4};
    check_status("full", mensur_texts_add(&list, "%d", 7), MENSUR_MEMORY);
    assert_true(list.count == SIZE_MAX / 4);
    assert_null(list.items);
}

static void keeps_texts(void **state) {
    (void)state;
    struct mensur_texts list = {0};
    for (int i = 0; i < 100; i++) {
        check_status("add", mensur_texts_add(&list, "%d and %s", i, "more"), MENSUR_OK);
    }
    char longer[3000];
    memset(longer, 'y', sizeof(longer));
    longer[2999] = '\0';
    check_status("long", mensur_texts_add(&list, "%s", longer), MENSUR_OK);
    assert_int_equal(list.count, 101);
    assert_string_equal(list.items[42], "42 and more");
    assert_string_equal(list.items[100], longer);
    mensur_texts_clear(&list);
    assert_int_equal(list.count, 0);
    assert_null(list.items);
    mensur_texts_clear(&list);
}

static void copies(void **state) {
    (void)state;
    char *copy = NULL;
    check_status("part", mensur_text_copy("kestrel", 4, &copy), MENSUR_OK);
    assert_string_equal(copy, "kest");
    free(copy);
    check_status("nothing", mensur_text_copy("kestrel", 0, &copy), MENSUR_OK);
    assert_string_equal(copy, "");
    free(copy);
}

static const struct {
    const char *a, *b;
    int apart;
} distances[] = {
    {"neck", "neck", 0},
    {"neck", "Neck", 0},
    {"neck", "nekc", 1},
    {"neck", "nec", 1},
    {"neck", "necks", 1},
    {"neck", "nock", 1},
    {"stop", "stpo", 1},
    {"bridge", "brigde", 1},
    {"arch_full", "archfull", 1},
    {"", "neck", 4},
    {"neck", "", 4},
    {"", "", 0},
    {"violin", "viola", 2},
    {"saddle", "overstand", 8},
    {"ca", "abc", 3}, /* restricted form */
    {"kitten", "sitting", 3},
    {"wren", "heron", 3},
};

static void counts_letters(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(distances); i++) {
        print_message("# %s %s\n", distances[i].a, distances[i].b);
        assert_int_equal(mensur_text_distance(distances[i].a, distances[i].b), distances[i].apart);
        assert_int_equal(mensur_text_distance(distances[i].b, distances[i].a), distances[i].apart);
    }
}

static void long_words_are_far_apart(void **state) {
    (void)state;
    char word[66];
    memset(word, 'z', 65);
    word[65] = '\0';
    assert_int_equal(mensur_text_distance(word, word), 1000);
    assert_int_equal(mensur_text_distance("neck", word), 1000);
    word[64] = '\0';
    assert_int_equal(mensur_text_distance(word, word), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sets_a_fault),     cmocka_unit_test(cuts_at_a_letter),
        cmocka_unit_test(keeps_texts),      cmocka_unit_test(invalid_letters),
        cmocka_unit_test(refuses_overflow), cmocka_unit_test(copies),
        cmocka_unit_test(counts_letters),   cmocka_unit_test(long_words_are_far_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
