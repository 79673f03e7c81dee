/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in a picture, what is escaped, and the one writer of SVG. */
#include "drawn.h"
#include "lettering.h"
#include "markup.h"
#include "svg.h"

static const struct {
    const char *what, *text, *want;
} escapes[] = {
    {"what XML holds dear", "<b>&\"'x", "&lt;b&gt;&amp;&quot;&#39;x"},
    {"control characters", "a\tb\x1b[2Jc\x7f", "ab[2Jc"},
    {"C1 and a turn of direction",
     "a\xC2\x9B\xE2\x80\xAE"
     "b",
     "ab"},
    {"no UTF-8", "a\xFF\xC3z", "az"},
    {"no character", "a\xEF\xBF\xBEz", "az"},
    {"a no-break blank stays", "1\xC2\xA0mm", "1\xC2\xA0mm"},
    {"isolates in pairs",
     "\xE2\x81\xA8"
     "a\xE2\x81\xA9",
     "\xE2\x81\xA8"
     "a\xE2\x81\xA9"},
    {"an isolate left open is closed",
     "\xE2\x81\xA8"
     "a",
     "\xE2\x81\xA8"
     "a\xE2\x81\xA9"},
    {"an end without a beginning", "a\xE2\x81\xA9", "a"},
    {"a real question mark", "a?", "a?"},
};

static void escapes_text(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(escapes); i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_out out;
        mensur_out_open(&out, &sink, false);
        mensur_markup_text(&out, escapes[i].text);
        mensur_out_flush(&out);
        assert_string_equal(memory.bytes, escapes[i].want);
        memory_sink_clear(&memory);
    }
}

static const struct {
    const char *text;
    double width; /* in font sizes */
    const char *want;
} fits[] = {
    {"kestrel", 20.0, "kestrel"},
    {"", 20.0, ""},
    {"nnnnnnnnnn", 4.0, "nnnnn\xE2\x80\xA6"},
    {"nnnn nnnnn", 4.0, "nnnn\xE2\x80\xA6"},
    {"nnn", 0.1, "\xE2\x80\xA6"},
    {"a\tb", 9.0, "ab"},
    {"a\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81", 9.0, "a\xCC\x81\xCC\x81\xCC\x81"},
    {"\xD7\xA2\xD7\x95", 9.0, "\xE2\x81\xA8\xD7\xA2\xD7\x95\xE2\x81\xA9"},
};

static void shortens_text(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(fits); i++) {
        char *got = mensur_lettering_fit(fits[i].text, 10.0, fits[i].width * 10.0);
        assert_string_equal(got, fits[i].want);
        free(got);
    }
    char *whole = mensur_lettering_whole(awkward_names[0]);
    assert_string_equal(whole, awkward_names[0]);
    free(whole);
    assert_true(mensur_lettering_turns(awkward_names[1]));
    assert_false(mensur_lettering_turns("kestrel"));
}

static const struct {
    const char *text;
    double width; /* in font sizes */
    const char *want;
} fits_at_ends[] = {
    {"nnnnn", 9.0, "nnnnn"},
    /* 4 less 0.9 for the ellipsis: 1.55 on each side, letters of 0.61 */
    {"nnuuuuuuoo", 4.0, "nn\xE2\x80\xA6oo"},
    {"n   uuuu   o", 4.0, "n\xE2\x80\xA6o"},
    {"nnuuuuuoo\xCC\x81", 4.0, "nn\xE2\x80\xA6oo\xCC\x81"},
    {"nnnnn", 0.1, "\xE2\x80\xA6"},
    {"a\tb", 9.0, "ab"},
    {"\xD7\xA2\xD7\x95\xD7\xA2\xD7\x95\xD7\xA2", 2.5,
     "\xE2\x81\xA8\xD7\xA2\xD7\x95\xE2\x80\xA6\xE2\x81\xA9"},
};

static void shortens_in_the_middle(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(fits_at_ends); i++) {
        char *got =
            mensur_lettering_fit_ends(fits_at_ends[i].text, 10.0, fits_at_ends[i].width * 10.0);
        assert_string_equal(got, fits_at_ends[i].want);
        free(got);
    }
}

static void measures_text(void **state) {
    (void)state;
    assert_true(mensur_lettering_width("ii", 10.0) < mensur_lettering_width("WW", 10.0));
    check_close("marks take no room", mensur_lettering_width("a\xCC\x81", 13.0),
                mensur_lettering_width("a", 13.0), 1e-12, 0.0);
    check_close("grows with the size", mensur_lettering_width("kestrel", 26.0),
                2.0 * mensur_lettering_width("kestrel", 13.0), 1e-12, 0.0);
}

/* Up to which text a line goes that has just the room of another. */
static void breaks_lines(void **state) {
    static const struct {
        const char *text, *room, *line;
    } rows[] = {{"the neck this stop wants", "the neck this", "the neck this"},
                {"the neck this stop wants", "the neck thi", "the neck"},
                {"the neck", "the neck", "the neck"},
                {"nightjar, a long one", "night", "nightjar,"},
                {"the  neck", "the  nec", "the"},
                {"  the neck", "  the", "  the"},
                {"±0.5 mm or more", "±0.5 mm", "±0.5 mm"},
                {"the ", "the ", "the "},
                {"", "the", ""}};
    (void)state;
    for (size_t i = 0; i < sizeof(rows) / sizeof(rows[0]); i++) {
        double room = mensur_lettering_width(rows[i].room, 12.0);
        size_t length = mensur_lettering_line(rows[i].text, 12.0, room);
        assert_int_equal(length, strlen(rows[i].line));
        assert_memory_equal(rows[i].text, rows[i].line, length);
    }
}

/* One of each shape. */
static void fill(struct mensur_shapes *shapes) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.5, MENSUR_DASH_LONG};
    struct mensur_point points[] = {{1.0, 2.0}, {3.25, 4.125}, {5.0, 6.00049}};
    struct mensur_lettering letters = {.size = 13.0,
                                       .bold = true,
                                       .paint = MENSUR_PAINT_OTHER,
                                       .anchor = MENSUR_ANCHOR_END,
                                       .upright = true};
    shapes->width = 97.3;
    shapes->height = 41.0;
    shapes->dash = 8.0;
    mensur_shape_line(shapes, pen, 0.1, 0.2, -0.0001, 1.0 / 3.0);
    mensur_shape_path(shapes, pen, MENSUR_PAINT_HATCH, points, 3, true);
    mensur_shape_box(shapes, pen, MENSUR_PAINT_HATCH_OTHER, 1.0, 2.0, 3.0, 4.0);
    mensur_shape_disc(shapes, pen, MENSUR_PAINT_TINT, 7.0, 8.0, 2.5);
    mensur_shape_text(shapes, letters, 9.0, 10.0, "a < b");
    mensur_shape_text(shapes, letters, 9.0, 10.0, "");
    mensur_shape_line(shapes, pen, NAN, 0.0, 1.0, 1.0);
    MENSUR_SHAPE_SAY(shapes, "One of each.");
    MENSUR_SHAPE_SAY(shapes, "And <no> more.");
}

static char *written(bool within_page) {
    struct mensur_shapes shapes = {0};
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_svg svg = {"lead", "A & B", "mm", within_page, NULL};
    struct mensur_out out;
    fill(&shapes);
    assert_int_equal(shapes.count, 5); /* neither the empty text nor the line from nowhere */
    mensur_out_open(&out, &sink, false);
    mensur_svg_write(&out, &svg, &shapes);
    mensur_out_flush(&out);
    assert_int_equal(out.status, MENSUR_OK);
    mensur_shapes_clear(&shapes);
    return memory.bytes;
}

static void writes_each_shape(void **state) {
    (void)state;
    char *svg = written(false);
    check_well_formed(svg, NULL);
    check_ids(svg);
    check_holds(svg, "width=\"97.3mm\" height=\"41mm\" viewBox=\"0 0 97.3 41\"");
    check_holds(svg, "role=\"img\" aria-labelledby=\"lead-title lead-desc\"");
    check_holds(svg, "<title id=\"lead-title\">A &amp; B</title>");
    check_holds(svg, "<desc id=\"lead-desc\">One of each. And &lt;no&gt; more.</desc>");
    check_holds(svg, "<line x1=\"0.1\" y1=\"0.2\" x2=\"0\" y2=\"0.333\"");
    check_holds(svg, "points=\"1,2 3.25,4.125 5,6\" fill=\"url(#lead-hatch)\"");
    check_holds(svg, "fill=\"url(#lead-hatch-other)\"");
    check_holds(svg, "<pattern id=\"lead-hatch\"");
    check_holds(svg, "<circle cx=\"7\" cy=\"8\" r=\"2.5\"");
    check_holds(svg, "text-anchor=\"end\"");
    check_holds(svg, "transform=\"rotate(-90 9 10)\">a &lt; b</text>");
    check_holds(svg, "fill=\"#ffffff\"");
    free(svg);
}

static void takes_the_page_s_colours(void **state) {
    (void)state;
    char *svg = written(true);
    check_holds(svg, "stroke=\"currentColor\"");
    check_holds(svg, "var(--other, #9a3412)");
    assert_null(strstr(svg, "<rect"));
    free(svg);
}

static void keeps_failures(void **state) {
    (void)state;
    struct mensur_shapes shapes = {0};
    struct memory_sink memory = {.refuse_after = 100};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_svg svg = {"lead", "title", "", false, NULL};
    struct mensur_out out;
    fill(&shapes);
    mensur_out_open(&out, &sink, false);
    mensur_svg_write(&out, &svg, &shapes);
    mensur_out_flush(&out);
    assert_int_equal(out.status, MENSUR_WRITE);
    shapes.status = MENSUR_MEMORY;
    mensur_out_open(&out, &sink, false);
    mensur_svg_write(&out, &svg, &shapes);
    mensur_out_flush(&out);
    assert_int_equal(out.status, MENSUR_MEMORY);
    mensur_shapes_clear(&shapes);
    memory_sink_clear(&memory);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(escapes_text),
        cmocka_unit_test(shortens_text),
        cmocka_unit_test(shortens_in_the_middle),
        cmocka_unit_test(measures_text),
        cmocka_unit_test(breaks_lines),
        cmocka_unit_test(writes_each_shape),
        cmocka_unit_test(takes_the_page_s_colours),
        cmocka_unit_test(keeps_failures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
