/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "sink.h"

static void test_all_arrives(void **state) {
    (void)state;
    static const size_t lengths[] = {1, 4095, 4096, 4097, 12345};
    for (size_t i = 0; i < COUNT_OF(lengths); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        for (size_t j = 0; j < lengths[i]; j++) {
            char letter = (char)('a' + j % 23);
            mensur_out_bytes(&out, &letter, 1);
        }
        mensur_out_flush(&out);
        check_status("all", out.status, MENSUR_OK);
        assert_int_equal(memory.length, lengths[i]);
        for (size_t j = 0; j < lengths[i]; j++) {
            assert_int_equal(memory.bytes[j], 'a' + j % 23);
        }
        memory_sink_clear(&memory);
    }
}

static void test_no_blank_at_an_end(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    mensur_out_open(&out, &sink, true);
    mensur_out_blanks(&out, 3);
    mensur_out_strong(&out, true);
    mensur_out_text(&out, "a");
    mensur_out_strong(&out, false);
    mensur_out_blanks(&out, 2);
    mensur_out_text(&out, "b");
    mensur_out_blanks(&out, 7);
    mensur_out_line(&out);
    mensur_out_text(&out, "c");
    mensur_out_line(&out);
    mensur_out_flush(&out);
    assert_string_equal(memory.bytes, "\x1b[1m   a\x1b[0m  b\nc\n");
    memory_sink_clear(&memory);
}

static void test_first_failure_stays(void **state) {
    (void)state;
    struct memory_sink memory = {.refuse_after = 10};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    mensur_out_text(&out, "more than ten bytes");
    mensur_out_flush(&out);
    check_status("refused", out.status, MENSUR_WRITE);
    mensur_out_fail(&out, MENSUR_MEMORY);
    mensur_out_text(&out, "few");
    mensur_out_flush(&out);
    check_status("still", out.status, MENSUR_WRITE);
    assert_int_equal(memory.length, 0);
    memory_sink_clear(&memory);
}

/* What was gathered before a failure is not written after it. */
static void test_nothing_after_a_failure(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    mensur_out_text(&out, "half an answer");
    mensur_out_fail(&out, MENSUR_MEMORY);
    mensur_out_flush(&out);
    check_status("kept", out.status, MENSUR_MEMORY);
    assert_int_equal(memory.length, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_arrives),
        cmocka_unit_test(test_no_blank_at_an_end),
        cmocka_unit_test(test_first_failure_stays),
        cmocka_unit_test(test_nothing_after_a_failure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
