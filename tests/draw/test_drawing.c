/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every part of every drawing: what it says, that it stays on its page, that the same answer gives
 * the same bytes, and that no name breaks it. */
#include "drawing.h"
#include "drawn.h"

static const unsigned parts[] = {MENSUR_DRAW_SIDE, MENSUR_DRAW_BRIDGE, MENSUR_DRAW_PLACES,
                                 MENSUR_DRAW_TENSION,
                                 MENSUR_DRAW_SIDE | MENSUR_DRAW_PLACES | MENSUR_DRAW_TENSION};

static char *draw_as(const struct mensur_profile *profiles, size_t count, unsigned which,
                     struct mensur_drawing_style style) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    const struct mensur_illustration drawing = {
        .parts = which, .profiles = profiles, .count = count};
    assert_int_equal(mensur_draw_file(&drawing, &style, &sink), MENSUR_OK);
    return memory.bytes;
}

static char *draw(const struct mensur_profile *profiles, size_t count, unsigned which,
                  struct mensur_drawing_style style) {
    char *svg = draw_as(profiles, count, which, style);
    check_well_formed(svg, NULL);
    check_ids(svg);
    check_holds(svg, "<title id=");
    check_holds(svg, "<desc id=");
    check_range(svg, " x=\"", 0.0, 480.0);
    check_range(svg, " x1=\"", 0.0, 480.0);
    check_range(svg, " x2=\"", 0.0, 480.0);
    check_range(svg, " y1=\"", 0.0, 4000.0);
    check_range(svg, " font-size=\"", 12.0, 20.0);
    assert_null(strstr(svg, "nan"));
    assert_null(strstr(svg, "=\"?"));
    return svg;
}

static void bears_every_name(void **state) {
    (void)state;
    for (size_t i = 0; i < awkward_name_count; i++) {
        for (size_t j = 0; j < COUNT_OF(parts); j++) {
            struct mensur_profile pair[] = {drawn_profile(awkward_names[i], 0.144, 0.214),
                                            drawn_profile("<b>&\"'", 0.1501, 0.2222)};
            char *svg = draw(pair, 2, parts[j], (struct mensur_drawing_style){.id = "a"});
            if (parts[j] != MENSUR_DRAW_BRIDGE) {
                check_holds(svg, "&lt;b&gt;&amp;&quot;&#39;:");
            }
            assert_null(strchr(svg, '\x1b'));
            assert_null(strstr(svg, "\xE2\x80\xAE"));
            free(svg);
            mensur_profile_clear(&pair[0]);
            mensur_profile_clear(&pair[1]);
        }
    }
}

/* The whole name stands in the words, a shortened one in the picture. */
static void shortens_in_the_picture_alone(void **state) {
    (void)state;
    struct mensur_profile profile = drawn_profile(awkward_names[0], 0.144, 0.214);
    char *svg = draw(&profile, 1, MENSUR_DRAW_SIDE, (struct mensur_drawing_style){.id = NULL});
    const char *words_end = strstr(svg, "</desc>");
    const char *whole = strstr(svg, awkward_names[0]);
    assert_true(whole != NULL && whole < words_end);
    assert_null(strstr(words_end, awkward_names[0]));
    check_holds(words_end, "\xE2\x80\xA6</text>");
    free(svg);
    mensur_profile_clear(&profile);
}

static void says_its_figures(void **state) {
    (void)state;
    struct mensur_profile pair[] = {drawn_profile("heron", 0.15, 0.222),
                                    drawn_profile("kestrel", 0.144, 0.214)};
    char *svg = draw(pair, 2, parts[4], (struct mensur_drawing_style){.id = "a"});
    check_holds(svg, ">string 376.4</text>");
    check_holds(svg, ">string 362.4 (-14.0)</text>");
    check_holds(svg, ">144.0 (-6.0)</text>");
    check_holds(svg, ">left reach 552.9 (-6.0)</text>");
    check_holds(svg, "heron: String 376.4\xC2\xA0mm.");
    char *again = draw(pair, 2, parts[4], (struct mensur_drawing_style){.id = "a"});
    assert_string_equal(svg, again);
    free(svg);
    free(again);
    struct mensur_drawing_style inches = {
        .figures = {.inches = true, .force_unit = MENSUR_FORCE_LB}};
    svg = draw(pair, 2, parts[4], inches);
    check_holds(svg, ">string 14 17/64 (-0.55)</text>");
    check_holds(svg, "Figures in lb");
    assert_null(strstr(svg, " mm"));
    free(svg);
    mensur_profile_clear(&pair[0]);
    mensur_profile_clear(&pair[1]);
}

/* Side views to scale: on the page the nuts are as far apart as they are, 0.8 px a mm or so. */
static void is_to_scale(void **state) {
    (void)state;
    struct mensur_profile profile = drawn_profile("heron", 0.15, 0.222);
    char *svg = draw(&profile, 1, MENSUR_DRAW_PLACES, (struct mensur_drawing_style){.id = NULL});
    double left = 16.0 + 58.0;
    double scale = (480.0 - 16.0 - 8.0 - left) / profile.lengths.string_length;
    char want[64];
    assert_true(profile.place_count > 3);
    snprintf(want, sizeof want, "<line x1=\"%.3f\"", left + scale * profile.places[3].from_nut);
    check_holds(svg, want);
    free(svg);
    mensur_profile_clear(&profile);
}

/* What is not known is not drawn. */
static void bears_gaps(void **state) {
    (void)state;
    struct mensur_profile trio[] = {drawn_profile("whole", 0.15, 0.222),
                                    drawn_profile("string alone", 0.144, 0.214),
                                    drawn_profile("no lower end", 0.144, 0.214)};
    trio[1].side = (struct mensur_side_points){.known = false};
    trio[1].string_count = 0;
    trio[1].position_count = 0;
    trio[2].side.body_straight = NAN;
    trio[2].side.back_angle = NAN;
    trio[2].lengths.left_reach = NAN;
    trio[2].lengths.bow_reach = NAN;
    for (size_t i = 0; i < COUNT_OF(parts); i++) {
        for (size_t first = 0; first < 3; first++) {
            struct mensur_profile turned[3];
            for (size_t j = 0; j < 3; j++) {
                turned[j] = trio[(first + j) % 3];
            }
            free(draw(turned, 3, parts[i], (struct mensur_drawing_style){.id = "a"}));
            free(draw(turned, 1, parts[i], (struct mensur_drawing_style){.id = "a"}));
        }
    }
    for (size_t i = 0; i < 3; i++) {
        mensur_profile_clear(&trio[i]);
    }
}

static void draws_decisions(void **state) {
    (void)state;
    struct fixture *fixture = fixture_make();
    const struct mensur_decision *decisions[] = {&fixture->met, &fixture->unmet};
    for (size_t i = 0; i < 2; i++) {
        struct memory_sink memory = {0};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_drawing_style style = {.id = "d"};
        const struct mensur_illustration drawing = {.parts = MENSUR_DRAW_WISHES | MENSUR_DRAW_SIDE,
                                                    .decision = decisions[i]};
        assert_int_equal(mensur_draw_file(&drawing, &style, &sink), MENSUR_OK);
        check_well_formed(memory.bytes, NULL);
        check_range(memory.bytes, " x1=\"", 0.0, 480.0);
        check_holds(memory.bytes, ">now ");
        check_holds(memory.bytes, i == 0 ? ">recommended " : " lie between");
        memory_sink_clear(&memory);
    }
    fixture_clear(fixture);
}

static void refuses_with_its_sink(void **state) {
    (void)state;
    struct mensur_profile profile = drawn_profile("heron", 0.15, 0.222);
    for (size_t room = 1; room < 13000; room += 3001) {
        struct memory_sink memory = {.refuse_after = room};
        struct mensur_sink sink = memory_sink(&memory);
        struct mensur_drawing_style style = {.id = "d"};
        const struct mensur_illustration drawing = {
            .parts = parts[4], .profiles = &profile, .count = 1};
        assert_int_equal(mensur_draw_file(&drawing, &style, &sink), MENSUR_WRITE);
        memory_sink_clear(&memory);
    }
    mensur_profile_clear(&profile);
}

/* The lengths of kestrel of the demonstration as they stand, so far as each kind goes. */
static struct mensur_profile measured_profile(void) {
    struct mensur_profile profile = drawn_profile("kestrel", 0.144, 0.214);
    const struct mensur_measure measures[] = {
        {"body", 0.41, MENSUR_ORIGIN_MEASURED},          {"stop", 0.214, MENSUR_ORIGIN_MEASURED},
        {"neck", 0.144, MENSUR_ORIGIN_MEASURED},         {"board", 0.0093, MENSUR_ORIGIN_ASSUMED},
        {"board_nut", 0.0076, MENSUR_ORIGIN_ASSUMED},    {"rib", NAN, MENSUR_ORIGIN_UNKNOWN},
        {"string_length", 0.3619, MENSUR_ORIGIN_FOLLOWS}};
    memcpy(profile.measures, measures, sizeof measures);
    profile.measure_count = COUNT_OF(measures);
    return profile;
}

static char *draw_measured(const struct mensur_profile *profile, bool inches) {
    return draw(profile, 1, MENSUR_DRAW_MEASURES,
                (struct mensur_drawing_style){.id = "m", .figures = {.inches = inches}});
}

/* The colour of the text that begins so. */
static const char *fill_of(const char *svg, const char *text) {
    const char *words = strstr(svg, "</desc>");
    const char *at = strstr(words, text);
    assert_non_null(at);
    while (*at != '<') {
        at--;
    }
    return strstr(at, "fill=");
}

/* Every length bears its name; what was not measured stands in brackets and grey. */
static void names_where_lengths_are_measured(void **state) {
    (void)state;
    struct mensur_profile profile = measured_profile();
    char *svg = draw_measured(&profile, false);
    const char *ink[] = {">body 410.0</text>", ">stop 214.0</text>", ">neck 144.0</text>"};
    const char *grey[] = {">(board 9.3)</text>", ">(board nut 7.6)</text>", ">(rib ?)</text>",
                          ">(string length 361.9)</text>"};
    for (size_t i = 0; i < COUNT_OF(ink); i++) {
        assert_memory_equal(fill_of(svg, ink[i]), fill_of(svg, ">Where each length"), 12);
    }
    for (size_t i = 0; i < COUNT_OF(grey); i++) {
        assert_memory_equal(fill_of(svg, grey[i]), fill_of(svg, ">Not to scale"), 12);
    }
    check_holds(svg, "(board 9.3): assumed.");
    check_holds(svg, "(string length 361.9): follows from the others.");
    check_holds(svg, "(rib ?): not known.");
    assert_null(strstr(svg, "saddle"));
    check_holds(svg, "no ± is stated");
    free(svg);
    svg = draw_measured(&profile, true);
    check_holds(svg, ">neck 5 43/64</text>");
    check_holds(svg, "in inches");
    free(svg);
    mensur_profile_clear(&profile);
}

/* The first length behind the string length's uncertainty is framed, and said to be. */
static void marks_what_matters_most(void **state) {
    (void)state;
    struct mensur_profile profile = measured_profile();
    char *plain = draw_measured(&profile, false);
    struct mensur_spread spread = {.matter_count = 2,
                                   .matters = {{"A4 diameter", 1e-5, 0.9, false, "total_tension_n"},
                                               {"neck", 0.0005, 0.85, false, "string_length_mm"}}};
    profile.spread = &spread;
    char *svg = draw_measured(&profile, false);
    check_holds(svg, "neck 144.0, matters most.");
    check_holds(svg, "Framed: matters most, 85 % of the string length&#39;s ±.");
    size_t boxes[2] = {0, 0};
    const char *drawings[] = {plain, svg};
    for (int i = 0; i < 2; i++) {
        for (const char *at = drawings[i]; (at = strstr(at, "<polygon")) != NULL; at++) {
            boxes[i]++;
        }
    }
    assert_int_equal(boxes[1], boxes[0] + 1);
    free(svg);
    free(plain);
    profile.spread = NULL;
    mensur_profile_clear(&profile);
}

/* Numbers in place of names: of the rows of the measurements, in letters of 20 px, which are 11 px
 * where the drawing is 264 px wide; each said beside its name. */
static void numbers_what_is_measured(void **state) {
    (void)state;
    struct mensur_profile profile = measured_profile();
    char *svg = draw(&profile, 1, MENSUR_DRAW_MEASURES | MENSUR_DRAW_NUMBERED,
                     (struct mensur_drawing_style){.id = "m"});
    for (size_t i = 0; i < profile.measure_count; i++) {
        char number[32];
        snprintf(number, sizeof number, ">%zu</text>", i + 1);
        check_holds(svg, number);
    }
    assert_memory_equal(fill_of(svg, ">4</text>"), fill_of(svg, ">Where each"), 12);
    assert_memory_equal(fill_of(svg, ">1</text>"), "fill=\"#1c1a17", 12);
    check_holds(svg, "2: stop 214.0.");
    check_holds(svg, "4: (board 9.3): assumed.");
    assert_null(strstr(strstr(svg, "</desc>"), "stop 214"));
    check_range(svg, " font-size=\"", 20.0, 20.0);
    free(svg);
    mensur_profile_clear(&profile);
}

static char *draw_decided(const struct mensur_decision *decision, unsigned more) {
    struct memory_sink memory = {0};
    struct mensur_sink sink = memory_sink(&memory);
    struct mensur_drawing_style style = {.id = "m"};
    const struct mensur_illustration drawing = {.parts = MENSUR_DRAW_MEASURES | more,
                                                .decision = decision};
    assert_int_equal(mensur_draw_file(&drawing, &style, &sink), MENSUR_OK);
    check_well_formed(memory.bytes, NULL);
    return memory.bytes;
}

/* Of a decision that is framed of which most of its ± comes, in the drawing of the instrument that
 * it belongs to; the other's says whose it is. */
static void marks_what_a_decision_hangs_on(void **state) {
    (void)state;
    struct mensur_decision decision = {
        .present = measured_profile(),
        .like = measured_profile(),
        .has_like = true,
        .matter_count = 2,
        .matters = {{"heron stop", 0.0005, 0.7, false, NULL}, {"board", 0.0005, 0.3, true, NULL}}};
    struct mensur_spread spread = {.matter_count = 1,
                                   .matters = {{"neck", 0.0005, 0.85, false, "string_length_mm"}}};
    decision.present.spread = &spread;
    assert_true(strlen(decision.like.instrument) >= sizeof "heron");
    memcpy(decision.like.instrument, "heron", sizeof "heron");
    char *svg = draw_decided(&decision, 0);
    check_holds(svg, "None is framed: 70 % of the ± of the verdict&#39;s neck comes from<");
    check_holds(svg, ">heron stop.</text>");
    assert_null(strstr(svg, "matters most."));
    free(svg);
    svg = draw_decided(&decision, MENSUR_DRAW_MODEL);
    check_holds(svg, "stop 214.0, matters most.");
    check_holds(svg, "Framed: matters most, 70 % of the ± of the verdict&#39;s neck.");
    free(svg);
    decision.matters[0] = decision.matters[1];
    decision.for_stop = true;
    svg = draw_decided(&decision, 0);
    check_holds(svg, "(board 9.3): assumed, matters most.");
    check_holds(svg, "Framed: matters most, 30 % of the ± of the verdict&#39;s stop.");
    free(svg);
    svg = draw_decided(&decision, MENSUR_DRAW_MODEL);
    check_holds(svg, "None is framed: 30 % of the ± of the verdict&#39;s stop comes from");
    check_holds(svg, "board.</text>");
    free(svg);
    decision.matter_count = 0; /* then the string length's */
    svg = draw_decided(&decision, 0);
    check_holds(svg, "Framed: matters most, 85 % of the string length&#39;s ±.");
    free(svg);
    decision.present.spread = NULL;
    mensur_profile_clear(&decision.present);
    mensur_profile_clear(&decision.like);
}

/* Of three the model stands over what is proposed: two rows, as high as of those two alone. */
static void draws_the_model_over_another(void **state) {
    (void)state;
    struct mensur_profile trio[] = {drawn_profile("kestrel", 0.144, 0.214),
                                    drawn_profile("kestrel", 0.15, 0.214),
                                    drawn_profile("heron", 0.15, 0.222)};
    struct mensur_comparison three = {.instruments = trio, .count = 3};
    struct mensur_comparison two = {.instruments = trio, .count = 2, .changed = true};
    const unsigned parts_over = MENSUR_DRAW_SIDE | MENSUR_DRAW_BRIEF | MENSUR_DRAW_OVER;
    struct mensur_drawing_style style = {.id = "a"};
    struct memory_sink memory[2] = {{0}};
    for (int i = 0; i < 2; i++) {
        struct mensur_sink sink = memory_sink(&memory[i]);
        const struct mensur_illustration drawing = {.parts = parts_over,
                                                    .comparison = i == 0 ? &three : &two};
        assert_int_equal(mensur_draw_file(&drawing, &style, &sink), MENSUR_OK);
        check_well_formed(memory[i].bytes, NULL);
        check_holds(memory[i].bytes, ">now: kestrel</text>");
        check_holds(memory[i].bytes, ">proposed: kestrel</text>");
    }
    check_holds(memory[0].bytes, ">model:</text>");
    check_holds(memory[0].bytes, ">heron</text>");
    check_holds(memory[0].bytes, "heron: String 376.4");
    assert_null(strstr(memory[1].bytes, ">model:</text>"));
    const char *heights[2] = {strstr(memory[0].bytes, " height="),
                              strstr(memory[1].bytes, " height=")};
    assert_memory_equal(heights[0], heights[1], sizeof " height=\"300");
    for (size_t i = 0; i < 3; i++) {
        mensur_profile_clear(&trio[i]);
    }
    memory_sink_clear(&memory[0]);
    memory_sink_clear(&memory[1]);
}

/* A brief drawing is 300 px wide, and bears no letter smaller than a label's: where it is 647 px
 * wide on a screen, all are of 28 px. */
static void is_brief(void **state) {
    (void)state;
    struct mensur_profile pair[] = {drawn_profile("heron", 0.15, 0.222),
                                    drawn_profile("kestrel", 0.144, 0.214)};
    const unsigned brief[] = {MENSUR_DRAW_SIDE, MENSUR_DRAW_PLACES};
    for (size_t i = 0; i < COUNT_OF(brief); i++) {
        struct mensur_drawing_style style = {.id = "a"};
        char *svg = draw(pair, 2, brief[i] | MENSUR_DRAW_BRIEF, style);
        char *whole = draw(pair, 2, brief[i], style);
        check_range(svg, " width=\"", 0.0, 300.0);
        check_range(svg, " x=\"", 0.0, 300.0);
        check_range(svg, " x1=\"", 0.0, 300.0);
        check_range(svg, " x2=\"", 0.0, 300.0);
        check_range(svg, " height=\"", 0.0, 330.0);
        check_range(svg, " font-size=\"", 13.0, 14.0);
        check_holds(svg, "heron</text>");
        check_holds(svg, "kestrel</text>");
        check_holds(whole, "to scale</text>");
        assert_null(strstr(svg, "to scale</text>"));
        assert_null(strstr(svg, "left reach 5"));
        free(svg);
        free(whole);
    }
    mensur_profile_clear(&pair[0]);
    mensur_profile_clear(&pair[1]);
}

/* The plate behind the string's length ends over the line, however long its text is. */
static void leaves_the_strings_line_whole(void **state) {
    (void)state;
    struct mensur_profile pair[] = {drawn_profile("heron", 0.15, 0.222),
                                    drawn_profile("kestrel", 0.144, 0.214)};
    char *svg = draw(pair, 2, MENSUR_DRAW_SIDE, (struct mensur_drawing_style){.id = "a"});
    const char *text = strstr(svg, ">string 362.4 (-14.0)</text>"), *plate = NULL, *line = NULL;
    assert_non_null(text);
    for (const char *at = svg; (at = strstr(at, "<polygon points=\"")) != NULL && at < text; at++) {
        plate = at;
    }
    double left, top, right, bottom, x1 = 0.0, y1 = 0.0, x2 = 0.0, y2 = 0.0;
    assert_int_equal(
        sscanf(plate, "<polygon points=\"%lf,%lf %lf,%*f %*f,%lf", &left, &top, &right, &bottom),
        4);
    for (const char *at = svg; (at = strstr(at, "<polyline points=\"")) != NULL && at < plate;
         at++) {
        double a, b, c, d; /* behind the first tick; it rises to the right, and is longer than the
                              text */
        if (sscanf(at, "<polyline points=\"%*f,%*f %*f,%*f %lf,%lf %lf,%lf", &a, &b, &c, &d) == 4 &&
            a < left && c > right && d < b - 10.0) {
            line = at;
            x1 = a;
            y1 = b;
            x2 = c;
            y2 = d;
        }
    }
    assert_non_null(line);
    assert_true(bottom < y1 + (y2 - y1) * (right - x1) / (x2 - x1));
    free(svg);
    mensur_profile_clear(&pair[0]);
    mensur_profile_clear(&pair[1]);
}

/* Each line of the changes, or where it is empty that of the drawing before; but for the title and
 * the description, lines 2 and 3, that of the whole. How many are empty. */
static size_t check_changes(const char *before, const char *changes, const char *whole) {
    size_t empty = 0;
    for (size_t line = 1; *whole != '\0'; line++) {
        size_t had = strcspn(before, "\n"), has = strcspn(changes, "\n"), is = strcspn(whole, "\n");
        assert_true(before[had] == '\n' && changes[has] == '\n' && whole[is] == '\n');
        if (has == 0) {
            empty++;
        }
        if (line == 2 || line == 3) {
            assert_int_equal(has, 0);
        } else {
            assert_int_equal(has == 0 ? had : has, is);
            assert_memory_equal(has == 0 ? before : changes, whole, is);
        }
        before += had + 1;
        changes += has + 1;
        whole += is + 1;
    }
    assert_true(*before == '\0' && *changes == '\0');
    return empty;
}

/* What is as it was is left out, nothing else; with another instrument or none before it, nothing
 * is. */
static void writes_what_has_changed(void **state) {
    (void)state;
    struct mensur_kept_drawing kept = {0};
    struct mensur_drawing_style whole = {.id = "a", .within_page = true}, style = whole;
    struct mensur_profile before[] = {drawn_profile("heron", 0.15, 0.222),
                                      drawn_profile("kestrel", 0.144, 0.214)};
    struct mensur_profile after[] = {drawn_profile("heron", 0.15, 0.222),
                                     drawn_profile("kestrel", 0.1445, 0.214)};
    style.kept = &kept;
    style.changes = true;
    char *first = draw_as(before, 2, MENSUR_DRAW_SIDE, style),
         *changes = draw_as(after, 2, MENSUR_DRAW_SIDE, style);
    char *expected = draw_as(after, 2, MENSUR_DRAW_SIDE, whole),
         *again = draw_as(after, 2, MENSUR_DRAW_SIDE, style);
    char *fewer = draw_as(after, 1, MENSUR_DRAW_SIDE, style),
         *alone = draw_as(after, 1, MENSUR_DRAW_SIDE, whole);
    style.changes = false;
    char *at_rest = draw_as(after, 1, MENSUR_DRAW_SIDE, style);
    assert_true(check_changes(first, changes, expected) > 40);
    check_changes(expected, again, expected);
    assert_true(strlen(again) < strlen(expected) / 8);
    assert_string_equal(fewer, alone);
    assert_string_equal(at_rest, alone);
    free(first);
    free(changes);
    free(expected);
    free(again);
    free(fewer);
    free(alone);
    free(at_rest);
    mensur_kept_drawing_clear(&kept);
    mensur_kept_drawing_clear(&kept);
    for (size_t i = 0; i < 2; i++) {
        mensur_profile_clear(&before[i]);
        mensur_profile_clear(&after[i]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(writes_what_has_changed),
        cmocka_unit_test(bears_every_name),
        cmocka_unit_test(shortens_in_the_picture_alone),
        cmocka_unit_test(says_its_figures),
        cmocka_unit_test(is_to_scale),
        cmocka_unit_test(bears_gaps),
        cmocka_unit_test(draws_decisions),
        cmocka_unit_test(names_where_lengths_are_measured),
        cmocka_unit_test(marks_what_matters_most),
        cmocka_unit_test(draws_the_model_over_another),
        cmocka_unit_test(numbers_what_is_measured),
        cmocka_unit_test(marks_what_a_decision_hangs_on),
        cmocka_unit_test(is_brief),
        cmocka_unit_test(leaves_the_strings_line_whole),
        cmocka_unit_test(refuses_with_its_sink),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
