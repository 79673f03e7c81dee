/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of figures. That each row reads the member it names is held by the tests of JSON, CSV
 * and text, which compare the figures of every answer; here the functions, and the table as such.
 */
#include "check.h"
#include "figures.h"

static const struct mensur_figure *find(enum mensur_scope scope, const char *key) {
    const struct mensur_figure *figure = mensur_figure_named(scope, key);
    assert_non_null(figure);
    assert_string_equal(figure->key, key);
    return figure;
}

static void test_values(void **state) {
    (void)state;
    const struct mensur_string_figures string = {.string = "viola C3",
                                                 .note = "C3",
                                                 .linear_density = 0.004271,
                                                 .stress = 93.1e6,
                                                 .inharmonicity = 1.26e-4,
                                                 .in_made_for_range = MENSUR_UNSURE,
                                                 .made_for_low = 0.37,
                                                 .rise_low_cents = 3.17,
                                                 .tension = NAN};
    static const struct {
        const char *key;
        double want; /* in the key's unit */
    } of[] = {{"linear_density_g_per_m", 4.271}, {"stress_MPa", 93.1}, {"inharmonicity", 1.26e-4},
              {"made_for_low_mm", 370},          {"tension_N", NAN},   {"rise_low_cents", 3.17}};
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        const struct mensur_figure *figure = find(MENSUR_SCOPE_STRING, of[i].key);
        check_close(of[i].key, mensur_from_si(figure->kind, mensur_figure_value(figure, &string)),
                    of[i].want, 0, 1e-14);
    }
    assert_string_equal(mensur_figure_text(find(MENSUR_SCOPE_STRING, "string"), &string),
                        "viola C3");
    assert_string_equal(mensur_figure_text(find(MENSUR_SCOPE_STRING, "note"), &string), "C3");
    assert_int_equal(mensur_figure_known(find(MENSUR_SCOPE_STRING, "in_made_for_range"), &string),
                     MENSUR_UNSURE);
    assert_null(mensur_figure_named(MENSUR_SCOPE_STRING, "string_length_mm"));
}

/* Numbers are subtracted, unknown ones stay unknown, all else is left alone. */
static void test_subtract(void **state) {
    (void)state;
    const struct mensur_instead first = {"C3", 0.0042, 0.0045, 0.003, "a", "b", NAN, NAN};
    const struct mensur_instead other = {"G3", 0.0021, NAN, 0.001, "c", "d", NAN, NAN};
    struct mensur_instead out = {"D4", 1, 1, 7, "e", "f", 7, 7};
    mensur_figures_subtract(MENSUR_SCOPE_INSTEAD, &other, &first, &out);
    check_close("present", out.present_linear_density, -0.0021, 0, 1e-14);
    check_close("needed", out.needed_linear_density, NAN, 0, 0);
    check_close("nearest", out.nearest_linear_density, -0.002, 0, 1e-14);
    assert_string_equal(out.note, "D4");
    assert_string_equal(out.nearest_string, "f");
}

/* Every member that is a figure becomes unknown, and no byte beside them changes. */
static void test_unknown(void **state) {
    (void)state;
    struct mensur_string_figures string;
    struct mensur_reach reach = {.position_count = 3};
    memset(&string, 0x55, sizeof(string));
    mensur_figures_unknown(MENSUR_SCOPE_STRING, &string);
    struct mensur_figures figures = mensur_figures(MENSUR_SCOPE_STRING);
    for (size_t i = 0; i < figures.count; i++) {
        if (figures.items[i].type == MENSUR_FIGURE_NUMBER) {
            check_close(figures.items[i].key, mensur_figure_value(&figures.items[i], &string), NAN,
                        0, 0);
        }
    }
    assert_null(string.string);
    assert_string_equal(string.note, "");
    assert_int_equal(string.note[1], 0x55);
    assert_int_equal(string.in_made_for_range, MENSUR_UNSURE);
    mensur_figures_unknown(MENSUR_SCOPE_REACH, &reach);
    assert_int_equal(reach.stretched, MENSUR_UNSURE);
    assert_int_equal(reach.position_count, 3);
    const struct mensur_figure *elbow = find(MENSUR_SCOPE_REACH, "elbow_deg");
    mensur_figure_put(elbow, 2.0, &reach);
    check_close("put", reach.elbow, 2.0, 0, 0);
}

/* Two rows of one key, or over one member, would be a slip; each turn is taken once, from 1. */
static void test_apart(void **state) {
    (void)state;
    for (enum mensur_scope scope = 0; scope < MENSUR_SCOPE_COUNT; scope++) {
        struct mensur_figures all = mensur_figures(scope);
        size_t told = 0;
        assert_true(all.count > 0);
        for (size_t j = 0; j < all.count; j++) {
            told += all.items[j].told > 0;
            for (size_t k = 0; k < j; k++) {
                assert_string_not_equal(all.items[j].key, all.items[k].key);
                assert_int_not_equal(all.items[j].offset, all.items[k].offset);
            }
        }
        for (size_t i = 0; i < told; i++) {
            assert_non_null(mensur_figure_told(scope, i));
            assert_non_null(mensur_figure_told(scope, i)->label);
        }
        assert_null(mensur_figure_told(scope, told));
    }
}

/* A key ends with the unit that its kind is published in. */
static void test_units(void **state) {
    (void)state;
    static const char *const ends[MENSUR_KIND_COUNT] = {[MENSUR_LENGTH] = "_mm",
                                                        [MENSUR_FORCE] = "_N",
                                                        [MENSUR_LINEAR_DENSITY] = "_g_per_m",
                                                        [MENSUR_STRESS] = "_MPa",
                                                        [MENSUR_FREQUENCY] = "_Hz",
                                                        [MENSUR_ANGLE] = "_deg",
                                                        [MENSUR_SEMITONES] = "semitones"};
    for (enum mensur_scope scope = 0; scope < MENSUR_SCOPE_COUNT; scope++) {
        struct mensur_figures all = mensur_figures(scope);
        for (size_t i = 0; i < all.count; i++) {
            const char *key = all.items[i].key;
            for (size_t kind = 0; kind < MENSUR_KIND_COUNT; kind++) {
                size_t length = ends[kind] == NULL ? 0 : strlen(ends[kind]);
                bool so = length > 0 && strlen(key) >= length &&
                          strcmp(key + strlen(key) - length, ends[kind]) == 0;
                bool counted = strcmp(key, "air_semitones_above_first") == 0 ||
                               strcmp(key, "cents_per_mm") == 0; /* a unit within it, or for one */
                if (!counted && so != (length > 0 && all.items[i].kind == (enum mensur_kind)kind)) {
                    fail_msg("%s is not of its kind", key);
                }
            }
        }
    }
}

/* What a formula comes to has a symbol, a name and a source; its braces are closed. */
static void test_formulas(void **state) {
    (void)state;
    size_t count = 0;
    for (enum mensur_scope scope = 0; scope < MENSUR_SCOPE_COUNT; scope++) {
        struct mensur_figures all = mensur_figures(scope);
        for (size_t i = 0; i < all.count; i++) {
            const struct mensur_figure *figure = &all.items[i];
            int open = 0;
            for (const char *at = figure->formula; at != NULL && *at != '\0'; at++) {
                open += *at == '{' ? 1 : *at == '}' ? -1 : 0;
                assert_in_range(open, 0, 1);
            }
            assert_int_equal(open, 0);
            if (figure->formula != NULL) {
                assert_non_null(figure->symbol);
                assert_non_null(figure->source);
                assert_true(figure->what != NULL || figure->label != NULL);
                count++;
            }
        }
    }
    assert_true(count > 40);
}

static void test_wishes(void **state) {
    (void)state;
    static const struct {
        const char *what, *note, *label;
        enum mensur_wish_kind kind;
    } rows[] = {{"string_length", "", "string length", MENSUR_WISH_STRING_LENGTH},
                {"ratio", "", "neck : stop", MENSUR_WISH_RATIO},
                {"body_note", "", "note at the body", MENSUR_WISH_BODY_NOTE},
                {"left_reach", "", "left reach", MENSUR_WISH_LEFT_REACH},
                {"tension A4", "A4", "tension", MENSUR_WISH_TENSION},
                {"total_tension", "", "tension in all", MENSUR_WISH_TOTAL_TENSION},
                {"belly_force", "", "force on the belly", MENSUR_WISH_BELLY_FORCE}};
    assert_int_equal(COUNT_OF(rows), MENSUR_WISH_COUNT);
    enum mensur_wish_kind none = MENSUR_WISH_COUNT;
    assert_string_equal(mensur_wish_of("string", &none), ""); /* the start of a word is no word */
    assert_int_equal(none, MENSUR_WISH_TENSION);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        enum mensur_wish_kind kind = MENSUR_WISH_COUNT;
        assert_string_equal(mensur_wish_of(rows[i].what, &kind), rows[i].note);
        assert_int_equal(kind, rows[i].kind);
        const char *word = mensur_wish_info(kind)->word;
        assert_memory_equal(word, rows[i].what, strlen(word));
        assert_string_equal(mensur_wish_figure(kind)->label, rows[i].label);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_values),  cmocka_unit_test(test_subtract),
        cmocka_unit_test(test_unknown), cmocka_unit_test(test_apart),
        cmocka_unit_test(test_units),   cmocka_unit_test(test_formulas),
        cmocka_unit_test(test_wishes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
