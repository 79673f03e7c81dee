/* SPDX-License-Identifier: GPL-3.0-or-later */
/* SVG to PDF and PNG: same bytes every time, no date, sizes as promised, failures said. */
#include "../present/fixtures.h"
#include "paper.h"

#define SVG(size, inside)                                                                          \
    "<svg xmlns=\"http://www.w3.org/2000/svg\" " size " font-family=\"sans-serif\">" inside "</"   \
    "svg>"

static const char drawing[] = SVG("width=\"97\" height=\"41\" viewBox=\"0 0 97 41\"",
                                  "<line x1=\"1\" y1=\"2\" x2=\"90\" y2=\"37\" "
                                  "stroke=\"black\"/><text x=\"9\" y=\"20\">a</text>");
static const char in_mm[] =
    SVG("width=\"297mm\" height=\"210mm\" viewBox=\"0 0 297 210\"",
        "<line x1=\"10\" y1=\"10\" x2=\"110\" y2=\"10\" stroke=\"black\" stroke-width=\"0.3\"/>");

typedef enum mensur_status write_it(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink);

static enum mensur_status write_pdf(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink) {
    struct mensur_paper_page pages[] = {*page, *page};
    struct mensur_fault fault;
    return mensur_paper_pdf(pages, 2, "two pages", sink, &fault);
}

static enum mensur_status write_png(const struct mensur_paper_page *page,
                                    const struct mensur_sink *sink) {
    struct mensur_fault fault;
    return mensur_paper_png(page, sink, &fault);
}

static write_it *const writers[] = {write_pdf, write_png};

static struct mensur_paper_page page_of(const char *svg) {
    return (struct mensur_paper_page){svg, strlen(svg)};
}

static struct memory_sink written(write_it *write, const char *svg) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_paper_page page = page_of(svg);
    assert_int_equal(write(&page, &sink), MENSUR_OK);
    return memory;
}

static void writes_the_same_twice(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(writers); i++) {
        struct memory_sink once = written(writers[i], drawing);
        struct memory_sink again = written(writers[i], drawing);
        assert_int_equal(once.length, again.length);
        assert_memory_equal(once.bytes, again.bytes, once.length);
        memory_sink_clear(&once);
        memory_sink_clear(&again);
    }
}

static bool holds(const struct memory_sink *memory, const char *part) {
    size_t length = strlen(part);
    for (size_t i = 0; i + length <= memory->length; i++) {
        if (memcmp(memory->bytes + i, part, length) == 0) {
            return true;
        }
    }
    return false;
}

static void writes_no_date(void **state) {
    (void)state;
    struct memory_sink pdf = written(write_pdf, drawing);
    assert_memory_equal(pdf.bytes, "%PDF", 4);
    assert_false(holds(&pdf, "CreationDate"));
    assert_true(holds(&pdf, "two pages"));
    memory_sink_clear(&pdf);
}

/* A4 in points: 297 mm x 72/25.4. */
static void keeps_the_size(void **state) {
    (void)state;
    struct memory_sink pdf = written(write_pdf, in_mm);
    assert_true(holds(&pdf, "841.88976") || holds(&pdf, "841.889764"));
    memory_sink_clear(&pdf);
    struct memory_sink png = written(write_png, drawing);
    static const unsigned char size[] = {0, 0, 0, 194, 0, 0, 0, 82};
    assert_memory_equal(png.bytes + 1, "PNG", 3);
    assert_memory_equal(png.bytes + 16, size, 8);
    memory_sink_clear(&png);
}

static const struct {
    const char *svg;
    size_t refuse_after;
    enum mensur_status pdf, png;
} refusals[] = {
    {"", 0, MENSUR_DATA, MENSUR_DATA},
    {"no drawing", 0, MENSUR_DATA, MENSUR_DATA},
    {"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"><line", 0, MENSUR_DATA,
     MENSUR_DATA},
    {SVG("width=\"0\" height=\"9\"", ""), 0, MENSUR_DATA, MENSUR_DATA},
    {SVG("width=\"9\" height=\"17000\"", ""), 0, MENSUR_OK, MENSUR_DOMAIN},
    {drawing, 20, MENSUR_WRITE, MENSUR_WRITE},
};

static void refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        struct mensur_paper_page page = page_of(refusals[i].svg);
        struct memory_sink memory = {.refuse_after = refusals[i].refuse_after};
        struct mensur_sink sink = memory_sink(&memory);
        check_status(refusals[i].svg, write_pdf(&page, &sink), refusals[i].pdf);
        check_status(refusals[i].svg, write_png(&page, &sink), refusals[i].png);
        memory_sink_clear(&memory);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(writes_the_same_twice),
        cmocka_unit_test(writes_no_date),
        cmocka_unit_test(keeps_the_size),
        cmocka_unit_test(refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
