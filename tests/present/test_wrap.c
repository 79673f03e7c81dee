/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "wrap.h"

#define TEN "0123456789"
#define SEVENTY TEN TEN TEN TEN TEN TEN TEN

static const struct {
    const char *name;
    size_t column, indent;
    const char *first, *second;
    const char *want;
} rows[] = {
    {"short", 0, 0, "a few ", "words", "a few words\n"},
    {"blanks fall together", 0, 2, "  a   few ", "  words ", "a few words\n"},
    {"a word goes on", 0, 0, "neck", "s", "necks\n"},
    {"exactly 80", 0, 0, SEVENTY " ", "123456789", SEVENTY " 123456789\n"},
    {"one more", 0, 2, SEVENTY " ", "1234567890", SEVENTY "\n  1234567890\n"},
    {"no break in a figure", 0, 0, SEVENTY " 1234", MENSUR_NO_BREAK "mmmmmmmm",
     SEVENTY "\n1234 mmmmmmmm\n"},
    {"a word too wide", 0, 4, SEVENTY, SEVENTY,
     SEVENTY "012345\n    6789012345678901234567890123456789012345678901234567890123456789\n"},
    {"behind a label", 75, 10, "seventy", "", "\n          seventy\n"},
    {"nothing", 0, 0, "", " ", "\n"},
};

static void test_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        struct mensur_wrap wrap;
        mensur_out_open(&out, &sink, false);
        mensur_wrap_open(&wrap, &out, rows[i].column, rows[i].indent);
        mensur_wrap_say(&wrap, rows[i].first, rows[i].second, NULL);
        mensur_wrap_close(&wrap);
        mensur_out_flush(&out);
        assert_string_equal(memory.bytes, rows[i].want);
        memory_sink_clear(&memory);
    }
}

/* More marks on one letter than a word has room for. */
static void test_many_marks(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    char text[2002] = "a";
    for (size_t i = 1; i + 1 < sizeof(text); i += 2) {
        memcpy(text + i, "\xCC\x81", 2);
    }
    text[sizeof(text) - 1] = '\0';
    mensur_paragraph(&out, 3, 3, text);
    mensur_out_flush(&out);
    assert_int_equal(memory.length, 3 + strlen(text) + 1);
    check_page(memory.bytes);
    memory_sink_clear(&memory);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),
        cmocka_unit_test(test_many_marks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
