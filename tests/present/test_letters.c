/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "letters.h"

static const struct {
    const char *text, *shown, *valid;
    size_t width;
} rows[] = {
    {"wren", "wren", "wren", 4},
    {"", "", "", 0},
    {"wre\xCC\x81n", "wre\xCC\x81n", "wre\xCC\x81n", 4}, /* a combining mark */
    {"a\xCD\xAF\xCD\xB0", "a\xCD\xAF\xCD\xB0", "a\xCD\xAF\xCD\xB0",
     2}, /* the last mark, the next */
    {"\xD7\xA2\xD7\xA8", "\xD7\xA2\xD7\xA8", "\xD7\xA2\xD7\xA8", 2},
    {"\xF0\x9F\x8E\xBB", "\xF0\x9F\x8E\xBB", "\xF0\x9F\x8E\xBB", 1},
    {"a\tb\n\x1b\x7f", "a?b???", "a\tb\n\x1b\x7f", 6},
    {"\xC2\x9B"
     "2J",
     "?2J",
     "\xC2\x9B"
     "2J",
     3}, /* a control character of two bytes */
    {"\xE2\x80\xAE"
     "x",
     "?x",
     "\xE2\x80\xAE"
     "x",
     2}, /* turns the direction */
    {"\xC2\xA0"
     "x",
     " x",
     "\xC2\xA0"
     "x",
     2},                            /* no-break blank */
    {"caf\xE9", "caf?", "caf?", 4}, /* no UTF-8 */
    {"\xC3", "?", "?", 1},          /* cut through */
    {"\xE2\x82", "??", "??", 2},
    {"\xC0\xAF", "??", "??", 2},             /* longer than need be */
    {"\xED\xA0\x80", "???", "???", 3},       /* a half of a pair */
    {"\xF4\x90\x80\x80", "????", "????", 4}, /* beyond the last */
    {"\xFF\xFE", "??", "??", 2},
};

static void test_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        mensur_out_shown(&out, rows[i].text);
        mensur_out_flush(&out);
        assert_string_equal(memory.bytes != NULL ? memory.bytes : "", rows[i].shown);
        assert_int_equal(mensur_shown_width(rows[i].text), rows[i].width);
        char *valid = mensur_valid_copy(rows[i].text);
        assert_string_equal(valid, rows[i].valid);
        free(valid);
        memory_sink_clear(&memory);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rows)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
