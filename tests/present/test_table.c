/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixtures.h"
#include "table.h"

static const struct mensur_table_column columns[] = {
    {{"", "name"}, 9, true},
    {{"pull", "N"}, 7, false},
    {{NULL, NULL}, 2, true},
    {{"", "remark"}, 62, true},
};

static const struct {
    const char *cells[4];
    const char *want;
} rows[] = {
    {{"wren", "41.3", "", "good"}, "wren        41.3  good\n"},
    {{"wren", "41.3", "", ""}, "wren        41.3\n"},
    {{"wre\xCC\x81n", "41.3", "", ""}, "wre\xCC\x81n        41.3\n"},
    {{"nightjar", "41.3", "", ""}, "nightjar    41.3\n"},
    {{"nightjars", "41.3", "", ""}, "nightjars\n            41.3\n"},
    {{"", "?", "", "x"}, "               ?  x\n"},
    {{"wren", "12345678901", "", "y"}, "wren 12345678901  y\n"},
    {{"a", "1", "",
      "one two three four five six seven eight nine ten eleven twelve thirteen fourteen"},
     "a              1  one two three four five six seven eight nine ten eleven twelve\n"
     "                  thirteen fourteen\n"},
};

static void test_rows(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        struct mensur_table table = {&out, columns, COUNT_OF(columns)};
        mensur_table_row(&table, rows[i].cells);
        mensur_out_flush(&out);
        assert_string_equal(memory.bytes, rows[i].want);
        check_page(memory.bytes);
        memory_sink_clear(&memory);
    }
}

static void test_head(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    struct mensur_table table = {&out, columns, COUNT_OF(columns)};
    mensur_table_head(&table);
    mensur_out_flush(&out);
    assert_string_equal(memory.bytes, "            pull\nname           N  remark\n");
    memory_sink_clear(&memory);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),
        cmocka_unit_test(test_head),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
