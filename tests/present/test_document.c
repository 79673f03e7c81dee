/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One document in both media: how text is broken and tables are laid out, and what HTML becomes of
 * the same. */
#include "document.h"
#include "fixtures.h"
#include "letters.h"

#define TEN "0123456789"
#define SEVENTY TEN TEN TEN TEN TEN TEN TEN

static const struct mensur_style metric = {.full = true};

/* What a writer makes of a document, which is cleared; the caller's to free. */
static char *written(struct mensur_document *document, bool html) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_out out;
    struct mensur_html writer;
    mensur_out_open(&out, &sink, false);
    mensur_html_open(&writer, &out, "t", 2);
    if (html) {
        mensur_document_html(document, &writer);
        mensur_html_close(&writer);
    } else {
        mensur_document_text(document, &out);
    }
    mensur_out_flush(&out);
    check_status("written", out.status, MENSUR_OK);
    mensur_document_free(document);
    return memory.bytes;
}

static void check_written(struct mensur_document *document, bool html, const char *want) {
    char *got = written(document, html);
    assert_string_equal(got, want);
    if (!html) {
        check_page(got);
    }
    free(got);
}

static const struct {
    const char *name;
    size_t indent;
    const char *first, *second;
    const char *want;
} paragraphs[] = {
    {"short", 0, "a few ", "words", "a few words\n"},
    {"blanks fall together", 2, "  a   few ", "  words ", "a few words\n"},
    {"a word goes on", 0, "neck", "s", "necks\n"},
    {"exactly 80", 0, SEVENTY " ", "123456789", SEVENTY " 123456789\n"},
    {"one more", 2, SEVENTY " ", "1234567890", SEVENTY "\n  1234567890\n"},
    {"no break in a figure", 0, SEVENTY " 1234", MENSUR_NO_BREAK "mmmmmmmm",
     SEVENTY "\n1234 mmmmmmmm\n"},
    {"a word too wide", 4, SEVENTY, SEVENTY,
     SEVENTY "012345\n    6789012345678901234567890123456789012345678901234567890123456789\n"},
    {"nothing", 0, "", " ", "\n"},
};

static void test_paragraphs(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(paragraphs); i++) {
        struct mensur_document document;
        mensur_document_open(&document, &metric, true);
        mensur_paragraph(&document, paragraphs[i].indent, "%s%n", paragraphs[i].first,
                         paragraphs[i].second);
        check_written(&document, false, paragraphs[i].want);
    }
}

/* More marks on one letter than a word has room for. */
static void test_many_marks(void **state) {
    (void)state;
    struct mensur_document document;
    char text[2002] = "a";
    for (size_t i = 1; i + 1 < sizeof(text); i += 2) {
        memcpy(text + i, "\xCC\x81", 2);
    }
    text[sizeof(text) - 1] = '\0';
    mensur_document_open(&document, &metric, true);
    mensur_paragraph(&document, 3, "%s", text);
    char *got = written(&document, false);
    assert_int_equal(strlen(got), strlen(text) + 1);
    check_page(got);
    free(got);
}

static const struct {
    const char *cells[3];
    const char *text;
    const char *html; /* between its tr elements */
} rows[] = {
    {{"wren", "41.3", "good"},
     "wren        41.3  good\n",
     "<th scope=\"row\"><bdi>wren</bdi></th>\n<td>41.3</td>\n<td class=\"words\">good</td>\n"},
    {{"wren", "41.3", ""},
     "wren        41.3\n",
     "<th scope=\"row\"><bdi>wren</bdi></th>\n<td>41.3</td>\n<td class=\"words\"></td>\n"},
    {{"wre\xCC\x81n", "41.3", ""},
     "wre\xCC\x81n        41.3\n",
     "<th scope=\"row\"><bdi>wre\xCC\x81n</bdi></th>\n<td>41.3</td>\n<td class=\"words\"></td>\n"},
    {{"nightjar", "41.3", ""}, "nightjar    41.3\n", NULL},
    {{"nightjars", "41.3", ""}, "nightjars\n            41.3\n", NULL},
    {{"", "?", "x"},
     "               ?  x\n",
     "<th scope=\"row\"></th>\n<td>?</td>\n<td class=\"words\">x</td>\n"},
    {{"wren", "12345678901", "y"}, "wren 12345678901  y\n", NULL},
    {{"<b>&", "1",
      "one two three four five six seven eight nine ten eleven twelve thirteen fourteen"},
     "<b>&           1  one two three four five six seven eight nine ten eleven twelve\n"
     "                  thirteen fourteen\n",
     "<th scope=\"row\"><bdi>&lt;b&gt;&amp;</bdi></th>\n<td>1</td>\n<td class=\"words\">one two "
     "three four five six seven eight nine ten eleven twelve thirteen fourteen</td>\n"},
};

#define TEXT_HEAD "         tension\nname           N  remark\n"
#define HTML_HEAD                                                                                  \
    "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-labelledby=\"t-1\"><table>"           \
    "<caption id=\"t-1\">The tensions of <bdi>heron</bdi></caption>\n<thead><tr>"                  \
    "<th scope=\"col\">name</th>\n<th scope=\"col\">tension, N</th>\n"                             \
    "<th scope=\"col\" class=\"words\">remark</th>\n</tr>\n</thead>\n<tbody>"
#define HTML_END "</tbody>\n</table>\n</div>\n"

static void tell_table(struct mensur_document *document) {
    mensur_table(document, MENSUR_TABLE, "The tensions of %n", "heron");
    mensur_column_of(document, MENSUR_CELLS_NAMES, "name", NULL, 9);
    mensur_column_of(document, MENSUR_CELLS_FIGURES, "tension", "N", 7);
    mensur_column(document,
                  (struct mensur_table_column){
                      .label = "remark", .width = 64, .gap = 2, .cells = MENSUR_CELLS_WORDS});
}

static void test_tables(void **state) {
    (void)state;
    for (size_t i = 0; i < 2 * COUNT_OF(rows); i++) {
        const bool html = i % 2 == 1;
        struct mensur_document document;
        char want[1024];
        if (html && rows[i / 2].html == NULL) {
            continue;
        }
        mensur_document_open(&document, &metric, !html);
        tell_table(&document);
        mensur_row(&document);
        mensur_cells(&document, 3, rows[i / 2].cells[0], rows[i / 2].cells[1],
                     rows[i / 2].cells[2]);
        if (html) {
            snprintf(want, sizeof want, HTML_HEAD "<tr>%s</tr>\n" HTML_END, rows[i / 2].html);
        } else {
            snprintf(want, sizeof want, TEXT_HEAD "%s", rows[i / 2].text);
        }
        check_written(&document, html, want);
    }
}

/* Rows of one table that are written and forgotten one by one. */
static void test_table_in_parts(void **state) {
    (void)state;
    for (int html = 0; html < 2; html++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_document document;
        struct mensur_out out;
        struct mensur_html writer;
        mensur_out_open(&out, &sink, false);
        mensur_html_open(&writer, &out, "t", 2);
        mensur_document_open(&document, &metric, html == 0);
        tell_table(&document);
        for (int part = 0; part < 3; part++) {
            mensur_row(&document);
            mensur_cells(&document, 3, "", "1", "");
            if (html == 1) {
                mensur_document_html(&document, &writer);
            } else {
                mensur_document_text(&document, &out);
            }
            mensur_document_clear_rows(&document);
        }
        mensur_html_close(&writer);
        mensur_out_flush(&out);
        mensur_document_free(&document);
#define ROW_TEXT "               1\n"
#define ROW_HTML "<tr><th scope=\"row\"></th>\n<td>1</td>\n<td class=\"words\"></td>\n</tr>\n"
        assert_string_equal(memory.bytes, html == 1 ? HTML_HEAD ROW_HTML ROW_HTML ROW_HTML HTML_END
                                                    : TEXT_HEAD ROW_TEXT ROW_TEXT ROW_TEXT);
        memory_sink_clear(&memory);
    }
}

/* Everything else once, in both media. */
static void tell_all(struct mensur_document *document) {
    mensur_heading(document, MENSUR_HEADING_PART, "Side by %s", "side");
    mensur_paragraph(document, 2, "%l of %n, %p, %r, %b, %z %%", 0.3619, "heron <i>", 12.34, 2.97,
                     0.5, (size_t)3);
    mensur_line(document);
    mensur_say(document, "and on");
    mensur_point(document, "One.");
    mensur_point(document, "Two!");
    mensur_gap(document);
    mensur_table(document, MENSUR_TABLE_BARE, "Marks");
    mensur_column_of(document, MENSUR_CELLS_WORDS, "", NULL, 6);
    mensur_column(document, (struct mensur_table_column){
                                .label = "a very long name", .width = 8, .number = 7});
    mensur_column_of(document, MENSUR_CELLS_MARKS, "", NULL, 2);
    mensur_row(document);
    mensur_cells(document, 3, "neck", "1.0", "*");
    mensur_footnote(document, MENSUR_FOOTNOTE_WARNING, "it is short");
    mensur_footnote(document, MENSUR_FOOTNOTE_WARNINGS_LEFT, "And 2 more.");
    mensur_footnote(document, MENSUR_FOOTNOTE_SOURCE, "A book");
    mensur_footnote(document, MENSUR_FOOTNOTE_SOURCE, "Another.");
    mensur_footnote(document, MENSUR_FOOTNOTE_SOURCE, "A third");
    mensur_footnote(document, MENSUR_FOOTNOTE_CAUTION, "Mind your eyes.");
    mensur_footnote(document, MENSUR_FOOTNOTE_ORIGIN, "From here.");
}

static void test_text(void **state) {
    (void)state;
    struct mensur_document document;
    mensur_document_open(&document, &metric, true);
    tell_all(&document);
    check_written(&document, false,
                  "\nSide by side\n"
                  "361.9 mm of heron <i>, 1.3 kg (12.3 N), 2 : 2.97, 0.5, 3 %\n"
                  "    and on\n"
                  "- One.\n"
                  "- Two!\n"
                  "\n"
                  "neck       1.0*\n"
                  "\nWarning: it is short\n"
                  "And 2 more.\n"
                  "\nSources: A book; Another. A third.\n"
                  "\nCaution: Mind your eyes.\n"
                  "\nFrom here.\n");
}

static void test_html(void **state) {
    (void)state;
    struct mensur_document document;
    mensur_document_open(&document, &metric, false);
    tell_all(&document);
    check_written(&document, true,
                  "<h3>Side by side</h3>\n"
                  "<p>361.9" MENSUR_NO_BREAK "mm of <bdi>heron &lt;i&gt;</bdi>, 1.3" MENSUR_NO_BREAK
                  "kg" MENSUR_NO_BREAK "(12.3" MENSUR_NO_BREAK "N), 2" MENSUR_NO_BREAK
                  ":" MENSUR_NO_BREAK "2.97, 0.5, 3 % and on</p>\n"
                  "<ul><li>One.</li>\n<li>Two!</li>\n</ul>\n"
                  "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-labelledby=\"t-1\">"
                  "<table><caption id=\"t-1\">Marks</caption>\n<thead><tr>"
                  "<td></td>\n<th scope=\"col\"><bdi>a very long name</bdi></th>\n"
                  "</tr>\n</thead>\n<tbody><tr><th scope=\"row\">neck</th>\n<td>1.0<span "
                  "class=\"mark\">" MENSUR_NO_BREAK "*</span></td>\n</tr>\n"
                  "</tbody>\n</table>\n</div>\n"
                  "<h2>Warnings</h2>\n<ul><li>it is short.</li>\n<li>And 2 more.</li>\n</ul>\n"
                  "<h2>Sources</h2>\n<ul><li>A book.</li>\n<li>Another.</li>\n<li>A third.</li>\n"
                  "</ul>\n<h2>Cautions</h2>\n<ul><li>Mind your eyes.</li>\n</ul>\n"
                  "<p class=\"soft\">From here.</p>\n");
}

/* A name that does not fit over its column stands above the table. */
static void test_numbered(void **state) {
    (void)state;
    struct mensur_document document;
    mensur_document_open(&document, &metric, true);
    mensur_table(&document, MENSUR_TABLE, "");
    mensur_column_of(&document, MENSUR_CELLS_WORDS, "", NULL, 6);
    mensur_column(&document,
                  (struct mensur_table_column){.label = "wren", .width = 8, .number = 1});
    mensur_column(&document, (struct mensur_table_column){
                                 .label = "a very long name", .width = 8, .number = 2});
    check_written(&document, false, "(2) a very long name\n          wren     (2)\n");
}

/* A name that runs from the right is kept apart in a sentence that others composed. */
static void test_name_in_words(void **state) {
    (void)state;
    struct mensur_document document;
    mensur_document_open(&document, &metric, false);
    mensur_paragraph(&document, 0, "%n and %n", "\xD7\x90", "\xD7\x90\xD7\x91");
    mensur_point(&document, "On \xD7\x90\xD7\x91 and \xD7\x90.");
    check_written(&document, true,
                  "<p><bdi>\xD7\x90</bdi> and <bdi>\xD7\x90\xD7\x91</bdi></p>\n<ul><li>On "
                  "<bdi>\xD7\x90\xD7\x91</bdi> and <bdi>\xD7\x90</bdi>.</li>\n</ul>\n");
}

/* The first failure is kept, and comes out with what is written. */
static void test_failure(void **state) {
    (void)state;
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_document document;
    struct mensur_out out;
    mensur_out_open(&out, &sink, false);
    mensur_document_open(&document, &metric, true);
    mensur_paragraph(&document, 0, "before");
    mensur_document_fail(&document, MENSUR_MEMORY);
    mensur_document_fail(&document, MENSUR_WRITE);
    mensur_paragraph(&document, 0, "behind");
    mensur_document_text(&document, &out);
    mensur_out_flush(&out);
    check_status("kept", out.status, MENSUR_MEMORY);
    assert_null(memory.bytes);
    mensur_document_free(&document);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_paragraphs), cmocka_unit_test(test_many_marks),
        cmocka_unit_test(test_tables),     cmocka_unit_test(test_table_in_parts),
        cmocka_unit_test(test_text),       cmocka_unit_test(test_html),
        cmocka_unit_test(test_numbered),   cmocka_unit_test(test_name_in_words),
        cmocka_unit_test(test_failure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
