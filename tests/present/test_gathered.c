/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "tell.h"

static const struct mensur_style metric = {.full = true}, brief = {0};

static char *written_as(const struct mensur_gathered *gathered, const struct mensur_style *style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    struct mensur_document document;
    mensur_out_open(&out, &sink, false);
    mensur_document_open(&document, style, true);
    mensur_tell_gathered(&document, gathered);
    mensur_document_text(&document, &out);
    mensur_document_free(&document);
    mensur_out_flush(&out);
    if (memory.bytes != NULL) {
        check_page(memory.bytes);
    }
    return memory.bytes;
}

static char *written(const struct mensur_gathered *gathered) {
    return written_as(gathered, &metric);
}

static struct mensur_assumptions assumed(double board, const char *tuning) {
    return (struct mensur_assumptions){2,
                                       {{.field = "board_nut",
                                         .value = board,
                                         .kind = MENSUR_LENGTH,
                                         .behind = MENSUR_BEHIND_SLOPE},
                                        {.field = "tuning",
                                         .value = NAN,
                                         .kind = MENSUR_NUMBER,
                                         .text = tuning,
                                         .behind = MENSUR_BEHIND_STRINGS}}};
}

static void gather(struct mensur_gathered *gathered, const char *name, double board,
                   const char *tuning) {
    struct mensur_assumptions items = assumed(board, tuning);
    mensur_gather_assumed(gathered, &metric, name, &items, MENSUR_BEHIND_ALL);
    check_status(name, gathered->status, MENSUR_OK);
}

static void test_nothing(void **state) {
    (void)state;
    struct mensur_gathered gathered = {0};
    assert_null(written(&gathered));
    mensur_gathered_clear(&gathered);
}

static void test_shared(void **state) {
    (void)state;
    struct mensur_gathered gathered = {0};
    gather(&gathered, "kestrel", 0.0078, "viola");
    gather(&gathered, "heron", 0.0081, "viola");
    gather(&gathered, "heron", 0.0081, "viola"); /* once more: the same instrument */
    char *text = written(&gathered);
    assert_string_equal(text, "\nAssumed, not measured (kestrel, heron): tuning viola.\n"
                              "Assumed, not measured (heron): board nut 8.1 mm.\n"
                              "Assumed, not measured (kestrel): board nut 7.8 mm.\n");
    free(text);
    mensur_gathered_clear(&gathered);
}

/* In brief only what stands behind a figure that is shown, and in one paragraph. */
static void test_brief(void **state) {
    (void)state;
    struct mensur_assumptions items[] = {assumed(0.0078, "viola"), assumed(0.0081, "viola")};
    static const struct {
        unsigned shown;
        const char *text;
    } of[] = {
        {MENSUR_BEHIND_STRINGS, "\nAssumed: tuning viola.\n"},
        {MENSUR_BEHIND_SLOPE, "\nAssumed: board nut 8.1 mm (heron); board nut 7.8 mm (kestrel).\n"},
        {MENSUR_BEHIND_LENGTH, NULL}};
    for (size_t i = 0; i < COUNT_OF(of); i++) {
        struct mensur_gathered gathered = {0};
        mensur_gather_assumed(&gathered, &brief, "kestrel", &items[0], of[i].shown);
        mensur_gather_assumed(&gathered, &brief, "heron", &items[1], of[i].shown);
        char *text = written_as(&gathered, &brief);
        if (of[i].text == NULL) {
            assert_null(text);
        } else {
            assert_string_equal(text, of[i].text);
        }
        free(text);
        mensur_gathered_clear(&gathered);
    }
}

static void test_many(void **state) {
    (void)state;
    struct mensur_gathered gathered = {0};
    for (int i = 0; i < 1000; i++) {
        char name[16];
        snprintf(name, sizeof(name), "n%d", i);
        gather(&gathered, name, 0.007 + 1e-6 * i, i == 500 ? "violin" : "viola");
    }
    char *text = written(&gathered);
    assert_string_equal(text, "\nAssumed where it was not measured (for how many of 1000 "
                              "instruments):\n  board nut 7.0 to 8.0 mm (1000), "
                              "tuning by its family (1000).\n");
    free(text);
    mensur_gathered_clear(&gathered);
}

static void test_warnings(void **state) {
    (void)state;
    struct mensur_gathered gathered = {0};
    struct mensur_texts warnings = {0};
    for (int i = 0; i < 30; i++) {
        assert_int_equal(mensur_texts_add(&warnings, "kestrel: the %dth", i), MENSUR_OK);
    }
    mensur_gather_warnings(&gathered, &warnings);
    check_status("first", gathered.status, MENSUR_OK);
    assert_int_equal(gathered.warnings.count, MENSUR_GATHERED_WARNINGS);
    assert_int_equal(gathered.warnings_left_out, 30 - MENSUR_GATHERED_WARNINGS);
    char *text = written(&gathered);
    check_holds(text, "\nWarning: kestrel: the 0th\n");
    check_holds(text, "\nAnd 6 warnings more; --format json has them all.\n");
    free(text);
    mensur_texts_clear(&warnings);
    mensur_gathered_clear(&gathered);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing),  cmocka_unit_test(test_shared),
        cmocka_unit_test(test_brief),    cmocka_unit_test(test_many),
        cmocka_unit_test(test_warnings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
