/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CSV files: separators, quotes, line ends, encoding, and files that are refused. */
#include "reading.h"

#define HEAD "name,stop,neck,note\n"

/* Each file holds one instrument with stop 222 and neck 150. */
static const struct {
    const char *name, *text;
    const char *instrument, *note;
    long line;
} forms[] = {
    {"plain", HEAD "heron,222,150,x\n", "heron", "x", 2},
    {"no last line end", HEAD "heron,222,150,x", "heron", "x", 2},
    {"CRLF", "name,stop,neck,note\r\nheron,222,150,x\r\n", "heron", "x", 2},
    {"CR alone", "name,stop,neck,note\rheron,222,150,x\r", "heron", "x", 2},
    {"byte-order mark", "\xEF\xBB\xBF" HEAD "heron,222,150,x\n", "heron", "x", 2},
    {"byte-order mark before a quote", "\xEF\xBB\xBF\"name\",stop,neck,note\nheron,222,150,x\n",
     "heron", "x", 2},
    {"semicolons", "name;stop;neck;note\nheron;222,0;150,0;x\n", "heron", "x", 2},
    {"semicolons, point", "name;stop;neck;note\nheron;222.0;150;x\n", "heron", "x", 2},
    {"tabs", "name\tstop\tneck\tnote\nheron\t222,0\t150\tx\n", "heron", "x", 2},
    {"tab with an empty cell", "name\tnote\tstop\tneck\nheron\t\t222\t150\n", "heron", NULL, 2},
    {"quoted separator in the head", "name,stop,neck,\"a;b;c;d;e\"\nheron,222,150,x\n", "heron",
     NULL, 2},
    {"quoted", HEAD "\"heron\",\"222\",\"150\",\"x\"\n", "heron", "x", 2},
    {"separator in quotes", HEAD "\"heron, large\",222,150,\n", "heron, large", NULL, 2},
    {"quote in quotes", HEAD "\"abc\"\"def\",222,150,\n", "abc\"def", NULL, 2},
    {"quote in an unquoted cell", HEAD "the \"heron\",222,150,\n", "the \"heron\"", NULL, 2},
    {"inches", HEAD "heron,8.74015748031496062992\",150,\n", "heron", NULL, 2},
    {"line end in quotes", HEAD "\"her\non\",222,150,\n", "her\non", NULL, 2},
    {"blanks around", HEAD "  heron ,\t222 , 150,\xC2\xA0x\xC2\xA0 \n", "heron", "x", 2},
    {"blanks in quotes", HEAD "\" heron \",222,150,\n", "heron", NULL, 2},
    {"blanks around quotes", HEAD "heron,222,150, \"x\" \n", "heron", "x", 2},
    {"blank lines", "\n\r\n" HEAD "\n\n,,,\n \nheron,222,150,x\n\n\n", "heron", "x", 8},
    {"blank CRLF lines", HEAD "\r\n\r\nheron,222,150,x\r\n", "heron", "x", 4},
    {"blank CR lines", "name,stop,neck,note\r\r\rheron,222,150,x\r", "heron", "x", 4},
    {"short row", "name,stop,neck,note\nheron,222,150\n", "heron", NULL, 2},
    {"capitals and blanks in the head", " Name ,STOP,Neck, NOTE\nheron,222,150,x\n", "heron", "x",
     2},
    {"a line that names the separator", "sep=;\nname;stop;neck;note\nheron;222,0;150;x\n", "heron",
     "x", 3},
    {"the same, CRLF and a byte-order mark",
     "\xEF\xBB\xBFsep=;\r\nname;stop;neck;note\r\nheron;222;150;x\r\n", "heron", "x", 3},
    {"the same, CR", "sep=,\rname,stop,neck,note\rheron,222,150,x\r", "heron", "x", 3},
    {"a separator against the head", "sep=;\nname;stop;neck;a,b,c,d,e\nheron;222;150;x\n", "heron",
     NULL, 3},
    {"a tab", "sep=\t\nname\tstop\tneck\tnote\nheron\t222,0\t150\tx\n", "heron", "x", 3},
    {"a column called so", "name,stop,neck,note,sep=;\nheron,222,150,x,\n", "heron", "x", 2},
    {"letters", HEAD "h\xC3\xA9ron,222,150,\xE2\x99\xAF\n", "h\xC3\xA9ron", "\xE2\x99\xAF", 2},
};

static void reads_any_form(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(forms); i++) {
        struct outcome got;
        const char *const nothing[] = {NULL};
        read_table(MENSUR_TABLE_INSTRUMENTS, forms[i].text, 0, &got);
        check_messages(forms[i].name, &got.report.errors, nothing);
        check_status(forms[i].name, got.status, MENSUR_OK);
        assert_int_equal(got.count, 1);
        assert_string_equal(got.instruments[0].name, forms[i].instrument);
        check_close(forms[i].name, got.instruments[0].measure[MENSUR_FIELD_STOP].value, 0.222, 0,
                    1e-15);
        check_close(forms[i].name, got.instruments[0].measure[MENSUR_FIELD_NECK].value, 0.15, 0,
                    1e-15);
        if (forms[i].note == NULL) {
            assert_null(got.instruments[0].note);
        } else {
            assert_string_equal(got.instruments[0].note, forms[i].note);
        }
        assert_int_equal(got.instruments[0].line, forms[i].line);
        assert_int_equal(got.shop.sources[MENSUR_TABLE_INSTRUMENTS].rows, 1);
        clear_outcome(&got);
    }
}

/* The line of an error after cells and rows of several lines. */
static const struct {
    const char *name, *text, *error;
} places[] = {
    {"after a quoted LF", HEAD "\"a\nb\",222,150,\nheron,x,150,\n", "instruments.csv:4:2: "},
    {"after a quoted CRLF", HEAD "\"a\r\nb\",222,150,\r\nheron,x,150,\r\n",
     "instruments.csv:4:2: "},
    {"after a quoted CR", HEAD "\"a\rb\rc\",222,150,\rheron,x,150,\r", "instruments.csv:5:2: "},
    {"in a row of two lines", HEAD "\"a\nb\",x,150,\n", "instruments.csv:3:2: "},
    {"after blank lines", HEAD "\n\n,,,\nheron,x,150,\n", "instruments.csv:5:2: "},
    {"mixed line ends", HEAD "\r\n\n\r\rheron,x,150,\n", "instruments.csv:6:2: "},
    {"last row without line end", HEAD "heron,222,x", "instruments.csv:2:3: "},
};

static void counts_lines(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(places); i++) {
        struct outcome got;
        const char *const wanted[] = {places[i].error, NULL};
        read_table(MENSUR_TABLE_INSTRUMENTS, places[i].text, 0, &got);
        check_messages(places[i].name, &got.report.errors, wanted);
        clear_outcome(&got);
    }
}

#define BYTES(text) text, sizeof(text) - 1

static const struct {
    const char *name, *text;
    size_t size;
    const char *errors[3];
} broken[] = {
    {"a byte-order mark alone", BYTES("\xEF\xBB\xBF"), {"instruments.csv:1:1: the file is empty"}},
    {"blank lines alone", BYTES("\n\n ,,\n"), {"instruments.csv:1:1: the file is empty"}},
    {"a NUL byte",
     BYTES(HEAD "heron,222,150,\nwren,2\0,148,\n"),
     {"instruments.csv:3:2: a NUL byte|UTF-8"}},
    {"a NUL byte in a quoted cell",
     BYTES(HEAD "heron,222,150,\n\"wr\nen\0\",2,148,\n"),
     {"instruments.csv:4:1: a NUL byte"}},
    {"a NUL byte behind a quoted cell of two lines",
     BYTES(HEAD "heron,222,150,\n\"wr\nen\" \0,2,148,\n"),
     {"instruments.csv:4:1: a NUL byte"}},
    {"UTF-16", BYTES("\xFF\xFEn\0a\0m\0"), {"instruments.csv:1:1: this is text in UTF-16; save"}},
    {"UTF-16, the other way",
     BYTES("\xFE\xFF\0n\0a\0m"),
     {"instruments.csv:1:1: this is text in UTF-16; save"}},
    {"UTF-16 without a mark", BYTES("n\0a\0m\0"), {"instruments.csv:1:1: a NUL byte|UTF-16"}},
    {"xlsx",
     BYTES("PK\3\4\24\0\6\0"),
     {"instruments.csv:1:1: this is a spreadsheet (.xlsx or .ods) by another name; open it"}},
    {"xls",
     BYTES("\xD0\xCF\x11\xE0\xA1"),
     {"instruments.csv:1:1: this is a spreadsheet (.xls) by another name; open it"}},
    {"a separator and nothing else", BYTES("sep=;"), {"instruments.csv:1:1: the file is empty"}},
    {"a separator that is none",
     BYTES("sep=|\nname|stop|neck\n"),
     {"instruments.csv:1:1: column \"name\": is missing",
      "instruments.csv:1:1: the columns are missing"}},
    {"a separator and more",
     BYTES("sep=;x\n"),
     {"instruments.csv:1:1: column \"name\": is missing",
      "instruments.csv:1:1: the columns are missing"}},
    {"an error before a NUL byte",
     BYTES(HEAD "heron,x,150,\nwren,2\0"),
     {"instruments.csv:2:2: stop: \"x\"", "instruments.csv:3:2: a NUL byte"}},
    {"an unclosed quote",
     BYTES(HEAD "heron,222,150,x\nwren,220,148,\"y\nkestrel,1,2,3\n"),
     {"instruments.csv:3:4: the quote that opens this cell is never closed"}},
    {"an unclosed quote in a cell of many lines",
     BYTES(HEAD "\"a\nb\",222,150,\"\n\n\n"),
     {"instruments.csv:3:4: the quote"}},
    {"a quote that text follows",
     BYTES(HEAD "\"heron\" x,222,150,\n"),
     {"instruments.csv:2:1: the quote"}},
    {"an unclosed quote in the head",
     BYTES("name,\"stop\n1,2\n"),
     {"instruments.csv:1:2: the quote"}},
    {"more cells than the head",
     BYTES(HEAD "heron,222,150,x,y\nwren,220,148,\n"),
     {"instruments.csv:2:5: the row has 5 cells, and the head names 4 columns"}},
    {"a decimal comma with commas",
     BYTES("name,stop,neck\nheron,222,5,150\n"),
     {"instruments.csv:2:4: the row has 4 cells"}},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(broken); i++) {
        struct outcome got;
        read_table(MENSUR_TABLE_INSTRUMENTS, broken[i].text, broken[i].size, &got);
        check_messages(broken[i].name, &got.report.errors, broken[i].errors);
        check_status(broken[i].name, got.status, MENSUR_DATA);
        clear_outcome(&got);
    }
}

static void refuses_no_bytes(void **state) {
    (void)state;
    struct mensur_bytes none = {MENSUR_TABLE_PLAYERS, (const unsigned char *)"", 0};
    struct mensur_report report = {0};
    struct mensur_shop shop;
    const char *const wanted[] = {"players.csv:1:1: the file is empty", NULL};
    check_status("open", mensur_shop_open_bytes("x", &none, 1, &report, &shop), MENSUR_DATA);
    check_messages("no bytes", &report.errors, wanted);
    mensur_report_clear(&report);
}

/* A missing closing quote must not read a whole file into memory. */
static void refuses_a_long_cell(void **state) {
    (void)state;
    size_t size = 3000000;
    char *text = malloc(size);
    assert_non_null(text);
    for (int quoted = 0; quoted < 2; quoted++) {
        struct outcome got;
        const char *const wanted[] = {quoted ? "instruments.csv:2:1: the quote that opens"
                                             : "instruments.csv:2:1: the cell is longer",
                                      NULL};
        memset(text, 'a', size);
        memcpy(text, HEAD, strlen(HEAD));
        text[strlen(HEAD)] = quoted ? '"' : 'b';
        read_table(MENSUR_TABLE_INSTRUMENTS, text, size, &got);
        check_messages("endless", &got.report.errors, wanted);
        clear_outcome(&got);
    }
    free(text);
}

/* So many times a text, behind another. */
static char *repeat(const char *first, const char *text, size_t times, size_t *size) {
    size_t length = strlen(text), before = strlen(first);
    char *all = malloc(before + times * length);
    assert_non_null(all);
    memcpy(all, first, before);
    for (size_t i = 0; i < times; i++) {
        memcpy(all + before + i * length, text, length);
    }
    *size = before + times * length;
    return all;
}

/* A row that no table has: of too many cells, of too many bytes; and a head of too many columns. */
static void refuses_a_long_row(void **state) {
    static char cell[500000];
    static const struct {
        const char *first, *text;
        size_t times;
        const char *error;
    } rows[] = {
        {HEAD, "x,", 20000, "instruments.csv:2:16385: the row has more than 16384 cells; this is"},
        {HEAD, cell, 20, "instruments.csv:2:9: the row has more than 4000000 bytes; this is"},
        {"name,stop,neck", ",x", 998, "instruments.csv:1:1001: the head names 1001 columns; this"},
    };
    (void)state;
    memset(cell, 'a', sizeof cell - 2);
    cell[sizeof cell - 2] = ',';
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const char *const wanted[] = {rows[i].error, NULL};
        struct outcome got;
        size_t size;
        char *text = repeat(rows[i].first, rows[i].text, rows[i].times, &size);
        read_table(MENSUR_TABLE_INSTRUMENTS, text, size, &got);
        check_messages(rows[i].error, &got.report.errors, wanted);
        check_status(rows[i].error, got.status, MENSUR_DATA);
        clear_outcome(&got);
        free(text);
    }
}

/* Of what is wrong with every row of a long file the first 10,000 are told, and how many more there
 * are; of names that come twice 20,000 are looked for. */
static void tells_so_many(void **state) {
    static const struct {
        const char *text, *first, *last;
        size_t times, errors;
    } rows[] = {
        {"a,x,150,\n", "instruments.csv:2:2: stop: \"x\"",
         "instruments.csv:1:1: 3 more errors of this file are not told; mend these first", 5002,
         10001},
        {",222,150,\n", "instruments.csv:2:1: name: the cell is empty", ":10001:1: name", 10000,
         10000},
        {",222,150,\n", "instruments.csv:2:1: name: the cell is empty",
         "instruments.csv:1:1: 1 more error of this file is not told; mend these first", 10001,
         10001},
        {"\"a\",222,150,\n",
         "instruments.csv:1:1: name: more than 20000 rows share their name with another; give each",
         "instruments.csv:1:1: 10000 more errors of this file are not told", 20001, 10001},
    };
    (void)state;
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct outcome got;
        size_t size;
        char *text = repeat(HEAD, rows[i].text, rows[i].times, &size);
        read_table(MENSUR_TABLE_INSTRUMENTS, text, size, &got);
        check_status(rows[i].text, got.status, MENSUR_DATA);
        struct mensur_shop untold = {.label = NULL};
        const struct mensur_bytes bytes = {MENSUR_TABLE_INSTRUMENTS, (const unsigned char *)text,
                                           size};
        check_status("open", mensur_shop_open_bytes("untold", &bytes, 1, NULL, &untold), MENSUR_OK);
        check_status(rows[i].text, mensur_shop_instruments(&untold, true, NULL, NULL, NULL),
                     MENSUR_DATA);
        mensur_shop_clear(&untold);
        assert_int_equal(got.report.errors.count, rows[i].errors);
        check_holds(got.report.errors.items[0], rows[i].first);
        check_holds(got.report.errors.items[rows[i].errors - 1], rows[i].last);
        clear_outcome(&got);
        free(text);
    }
}

static void warns_so_often(void **state) {
    const size_t rows = 10003;
    struct outcome got;
    char *text = malloc(rows * 40), *at = text;
    (void)state;
    assert_non_null(text);
    at += sprintf(at, "name,tuning,strings,string_length\n");
    for (size_t i = 0; i < rows; i++) {
        at += sprintf(at, "bird %zu,C1,violin steel,328\n", i);
    }
    read_table(MENSUR_TABLE_INSTRUMENTS, text, (size_t)(at - text), &got);
    check_status("strings", got.status, MENSUR_OK);
    assert_int_equal(got.report.warnings.count, 10001);
    check_holds(got.report.warnings.items[9999], "instruments.csv:10001:");
    check_holds(got.report.warnings.items[10000],
                "instruments.csv:1:1: 3 more warnings of this file are not told");
    clear_outcome(&got);
    free(text);
}

/* Rows and cells that extend over several of the pieces in which a source is read. */
static void reads_across_pieces(void **state) {
    (void)state;
    const size_t rows = 5000;
    char *text = malloc(rows * 80 + 100), *at = text;
    assert_non_null(text);
    at += sprintf(at, "name,stop,neck,note\r\n");
    for (size_t i = 0; i < rows; i++) {
        at += sprintf(at, "\"bird \"\"%zu\"\"\",222,150,\"caf\xC3\xA9 %0*zu\"\r\n", i,
                      (int)(i % 37), i);
    }
    struct outcome got;
    const char *const nothing[] = {NULL};
    read_table(MENSUR_TABLE_INSTRUMENTS, text, (size_t)(at - text), &got);
    check_messages("pieces", &got.report.errors, nothing);
    check_messages("pieces", &got.report.warnings, nothing);
    assert_int_equal(got.count, rows);
    assert_string_equal(got.instruments[7].name, "bird \"7\"");
    assert_int_equal(got.instruments[7].line, 9);
    clear_outcome(&got);
    free(text);
}

/* Windows-1252: the Euro sign, an umlaut and the ± are 0x80, 0xFC and 0xB1 there (from memory). */
static void reads_windows_1252(void **state) {
    (void)state;
    struct outcome got;
    const char *const nothing[] = {NULL};
    const char *const once[] = {"instruments.csv:2:1: the text is not UTF-8|Windows-1252", NULL};
    read_table(MENSUR_TABLE_INSTRUMENTS,
               HEAD "gr\xFCn,222 \xB1"
                    "0.5,150,\x80\n\xFC"
                    "ber,222,150,\xE9\n",
               0, &got);
    check_messages("1252", &got.report.errors, nothing);
    check_messages("1252", &got.report.warnings, once);
    assert_int_equal(got.count, 2);
    assert_string_equal(got.instruments[0].name, "gr\xC3\xBCn");
    assert_string_equal(got.instruments[0].note, "\xE2\x82\xAC");
    assert_string_equal(got.instruments[1].note, "\xC3\xA9");
    check_close("1252", got.instruments[0].measure[MENSUR_FIELD_STOP].plus_minus, 0.0005, 0, 1e-15);
    clear_outcome(&got);
}

/* Bytes that are not UTF-8: overlong forms, a surrogate, a cut sequence, beyond the last code
 * point. */
static void knows_utf8(void **state) {
    (void)state;
    static const struct {
        const char *text;
        bool good;
    } rows[] = {
        {"\xC3\xA9", true},          {"\xE2\x82\xAC", true},
        {"\xF0\x9D\x84\x9E", true},  {"\xC0\xAF", false},
        {"\xE0\x80\xAF", false},     {"\xED\xA0\x80", false},
        {"\xF4\x90\x80\x80", false}, {"\xF0\x82\x82\xAC", false},
        {"\xE2\x82", false},         {"\xA9", false},
        {"\xF8\x88\x80\x80", false},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct outcome got;
        char text[100];
        snprintf(text, sizeof(text), HEAD "heron,222,150,%s\n", rows[i].text);
        read_table(MENSUR_TABLE_INSTRUMENTS, text, 0, &got);
        assert_int_equal(got.report.warnings.count, rows[i].good ? 0 : 1);
        if (rows[i].good) {
            assert_string_equal(got.instruments[0].note, rows[i].text);
        }
        clear_outcome(&got);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_any_form),
        cmocka_unit_test(counts_lines),
        cmocka_unit_test(refuses),
        cmocka_unit_test(refuses_no_bytes),
        cmocka_unit_test(refuses_a_long_cell),
        cmocka_unit_test(refuses_a_long_row),
        cmocka_unit_test(tells_so_many),
        cmocka_unit_test(warns_so_often),
        cmocka_unit_test(reads_across_pieces),
        cmocka_unit_test(reads_windows_1252),
        cmocka_unit_test(knows_utf8),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
