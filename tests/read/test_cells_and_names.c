/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cells and names at the limits: UTF-8 sequences, blanks, texts shortened for messages, line ends,
 * short rows, repeated names, many names, suggestions. */
#include "encoding.h"
#include "log.h"
#include "reading.h"
#include "table.h"

#include <stdint.h>

/* The first and last code points of each length, overlong forms, surrogates, beyond the last. */
static const struct {
    const char *bytes;
    bool is;
} letters[] = {
    {"\x7F", true},
    {"\xC2\x80", true},
    {"\xDF\xBF", true},
    {"\xE0\xA0\x80", true},
    {"\xE0\x9F\xBF", false},
    {"\xED\x9F\xBF", true},
    {"\xED\xA0\x80", false},
    {"\xF0\x90\x80\x80", true},
    {"\xF0\x8F\xBF\xBF", false},
    {"\xF4\x8F\xBF\xBF", true},
    {"\xF4\x90\x80\x80", false},
    {"\xC1\xBF", false},
    {"\xC3(", false},
    {"\xE2\x99(", false},
    {"\xE2\x99", false},
    {"\xF5\x80\x80\x80", false},
};

static void recognises_utf8(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(letters); i++) {
        const char *bytes = letters[i].bytes;
        if (mensur_is_utf8((const unsigned char *)bytes, strlen(bytes)) != letters[i].is) {
            fail_msg("row %zu", i);
        }
    }
}

static void trims(void **state) {
    (void)state;
    static const struct {
        const char *text, *left;
    } rows[] = {{"  a b\t\r\n", "a b"},      {"\n\r\ta", "a"},        {" \t\r\n ", ""}, {"", ""},
                {"\xC2\xA0 a\xC2\xA0", "a"}, {"\xC2\xA0\xC2\xA0", ""}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        size_t start = 0, length = strlen(rows[i].text);
        mensur_trim(rows[i].text, &start, &length);
        assert_int_equal(length, strlen(rows[i].left));
        assert_memory_equal(rows[i].text + start, rows[i].left, length);
    }
}

/* Cut between two letters of any length, and on one line. */
static void shortens(void **state) {
    (void)state;
    char out[MENSUR_SHORT_ROOM], text[3 * MENSUR_SHORT_ROOM];
    assert_string_equal(mensur_log_short("a\x01"
                                         "b\tc\x7F"
                                         "d",
                                         out),
                        "a b c d");
    for (size_t lead = 0; lead < 4; lead++) {
        memset(text, 'x', lead);
        text[lead] = '\0';
        while (strlen(text) + 4 < sizeof text) {
            strcat(text, "\xE2\x99\xAF");
        }
        mensur_log_short(text, out);
        const char *cut = strrchr(out, (unsigned char)'\xAF');
        assert_true(strlen(out) < sizeof out);
        assert_non_null(cut);
        assert_int_equal((size_t)(cut + 1 - out - (long)lead) % 3, 0);
    }
    memset(text, 0x80, sizeof text - 1);
    text[sizeof text - 1] = '\0';
    assert_true(strlen(mensur_log_short(text, out)) <
                8); /* continuation bytes alone: only the ellipsis */
}

/* Line ends of all kinds in one file; a cell that begins with a line end, and a NUL byte after it.
 */
static void mixed_ends(void **state) {
    struct outcome outcome;
    static const char *const no_text[] = {"tunings.csv:3:1: a NUL byte", NULL};
    (void)state;
    read_table(MENSUR_TABLE_INSTRUMENTS, "name,stop,neck\ra,222,150\nb,221,150\r\nc,220,150\r", 0,
               &outcome);
    check_status("mixed line ends", outcome.status, MENSUR_OK);
    assert_int_equal(outcome.count, 3);
    assert_int_equal(outcome.instruments[2].line, 4);
    clear_outcome(&outcome);
    read_table(MENSUR_TABLE_TUNINGS, "name,notes\n\"\nviola\0", 19, &outcome);
    check_status("NUL", outcome.status, MENSUR_DATA);
    check_messages("NUL", &outcome.report.errors, no_text);
    clear_outcome(&outcome);
}

/* Names in the last column, and a row without it. */
static void short_row(void **state) {
    struct outcome outcome;
    static const char *const errors[] = {"instruments.csv:3:|", "instruments.csv:4:3: |\"a\"",
                                         NULL};
    (void)state;
    read_table(MENSUR_TABLE_INSTRUMENTS, "stop,neck,name\n222,150,a\n221,150\n220,150,a\n", 0,
               &outcome);
    check_status("short", outcome.status, MENSUR_DATA);
    check_messages("short", &outcome.report.errors, errors);
    clear_outcome(&outcome);
}

/* A repeated name is reported although the file ends with a NUL byte. */
static void repetition_before_nul(void **state) {
    struct outcome outcome;
    static const char text[] = "name,stop,neck\na,222,150\na,221,150\n\0";
    (void)state;
    read_table(MENSUR_TABLE_INSTRUMENTS, text, sizeof text - 1, &outcome);
    check_status("both", outcome.status, MENSUR_DATA);
    assert_int_equal(outcome.report.errors.count, 2);
    check_holds(outcome.report.errors.items[0], "NUL");
    check_holds(outcome.report.errors.items[1], "instruments.csv:3:1:");
    clear_outcome(&outcome);
}

/* More combinations of family, tuning and strings than the reader keeps, and names too long to be
 * kept: each is looked up, and an unknown one is refused in any row. */
static void many_combinations(void **state) {
    (void)state;
    enum { TUNINGS = 12 };
    char tunings[4096] = "name,notes\n", rows[8192] = "name,family,tuning,stop,neck\n";
    const char *end = "last,violin,no such tuning of a name that is too long to be kept,195,130\n";
    for (int i = 0; i < TUNINGS; i++) {
        sprintf(tunings + strlen(tunings), "tuning %d%s,G3 D4\n", i,
                i == 3 ? " of a name that is too long to be kept" : "");
    }
    for (int i = 0; i < 3 * TUNINGS; i++) {
        sprintf(rows + strlen(rows), "bird %d,violin,tuning %d%s,195,130\n", i, i % TUNINGS,
                i % TUNINGS == 3 ? " of a name that is too long to be kept" : "");
    }
    for (int bad = 0; bad < 2; bad++) {
        struct outcome outcome;
        strcat(rows, bad == 1 ? end : "");
        const struct given given[] = {{MENSUR_TABLE_TUNINGS, tunings, 0},
                                      {MENSUR_TABLE_INSTRUMENTS, rows, 0}};
        read_tables(given, 2, &outcome);
        check_status("many", outcome.status, bad == 1 ? MENSUR_DATA : MENSUR_OK);
        assert_int_equal(outcome.count, 3 * TUNINGS);
        assert_int_equal(outcome.report.errors.count, bad);
        clear_outcome(&outcome);
    }
}

/* The list of existing names where there are none, or where some rows have none. */
static void suggests(void **state) {
    (void)state;
    static const struct {
        const char *row;
        struct given given[2];
        const char *said;
    } rows[] = {
        {"nothing",
         {{MENSUR_TABLE_FAMILIES, "name,held,frame_semitones,positions\n", 0},
          {MENSUR_TABLE_INSTRUMENTS, "name,family,stop,neck\na,banjolele,222,150\n", 0}},
         "there are none"},
        {"strings of no set",
         {{MENSUR_TABLE_STRINGS,
           "name,note,set,linear_density\na,A4,,1.1\nb,D4,gut,1.2\nc,A4,gut,1.2\n", 0},
          {MENSUR_TABLE_INSTRUMENTS, "name,strings,stop,neck\na,unobtainable,222,150\n", 0}},
         "there are: gut"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct outcome outcome;
        read_tables(rows[i].given, 2, &outcome);
        check_status(rows[i].row, outcome.status, MENSUR_DATA);
        check_holds(outcome.report.errors.items[0], rows[i].said);
        clear_outcome(&outcome);
    }
}

static void refuses_overflow(void **state) {
    int item = 7;
    (void)state;
    assert_null(mensur_grow(&item, SIZE_MAX / 8 + 1, 8));
    assert_ptr_equal(mensur_grow(&item, 3, sizeof item), &item); /* there is room for it */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(recognises_utf8),   cmocka_unit_test(trims),
        cmocka_unit_test(shortens),          cmocka_unit_test(mixed_ends),
        cmocka_unit_test(short_row),         cmocka_unit_test(repetition_before_nul),
        cmocka_unit_test(many_combinations), cmocka_unit_test(suggests),
        cmocka_unit_test(refuses_overflow)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
