/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strings for a length: of each note the tension of the present string, of the recommended one and
 * of the next, against what is wished and against what breaks them. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "force_axis.h"
#include "lettering.h"

#define CAPTION 14.0 /* px for a string's name above its bar */
#define ROW 31.0
#define APART 12.0 /* between notes */
/* A figure's room where words stand behind it: "at least 10.2". */
#define WORDS 128

/* Whose strings a row shows; the number is that of its pen and its fill. */
enum part { NOW, RECOMMENDED, NEXT, PARTS };

struct chart {
    const struct mensur_restringing *of;
    struct force_axis axis;
};

static const char *const titles[PARTS] = {"now", "recommended", "next"};

/* The strings of a part; NULL where there are none. */
static const struct mensur_string_figures *strings_of(const struct mensur_restringing *of,
                                                      enum part part) {
    if (part == NOW) {
        return of->present.strings;
    }
    size_t choice = part == RECOMMENDED ? 0 : 1;
    return choice < of->choice_count ? of->choices[choice].strings : NULL;
}

/* The string of a note that a row of a part shows; NULL where there is none, or a row above shows
 * the same. */
static const struct mensur_string_figures *row_of(const struct mensur_restringing *of,
                                                  enum part part, size_t i) {
    const struct mensur_string_figures *strings = strings_of(of, part);
    if (strings == NULL || isnan(strings[i].tension)) {
        return NULL;
    }
    if (part == RECOMMENDED && of->choices[0].kept[i]) {
        return NULL;
    }
    if (part == NEXT) {
        const char *name = strings[i].string, *best = of->choices[0].strings[i].string;
        bool same = name != NULL && best != NULL && strcmp(name, best) == 0;
        return same || of->choices[1].kept[i] ? NULL : &strings[i];
    }
    return &strings[i];
}

static bool is_used(const struct mensur_restringing *of, enum part part) {
    for (size_t i = 0; i < of->string_count; i++) {
        if (row_of(of, part, i) != NULL) {
            return true;
        }
    }
    return false;
}

static bool stays(const struct mensur_restringing *of, enum part part, size_t i) {
    return part == NOW && of->choice_count > 0 && of->choices[0].kept[i];
}

static struct chart measure(const struct mensur_restringing *of) {
    struct chart chart = {.of = of};
    double most = 0.0, breaking = 0.0;
    for (size_t i = 0; i < of->string_count; i++) {
        most = fmax(fmax(most, of->aims[i].high), fmax(of->aims[i].low, of->aims[i].tension));
        for (enum part part = NOW; part < PARTS; part++) {
            const struct mensur_string_figures *string = row_of(of, part, i);
            most = fmax(most, string != NULL ? string->tension : 0.0);
            breaking = fmax(breaking, string != NULL ? string->breaking_tension : 0.0);
        }
    }
    chart.axis = force_axis_make(most, breaking);
    return chart;
}

static double note_height(const struct mensur_restringing *of, size_t i) {
    size_t rows = 0;
    for (enum part part = NOW; part < PARTS; part++) {
        rows += row_of(of, part, i) != NULL;
    }
    return (rows > 0 ? (double)rows : 1.0) * ROW + APART;
}

/* What is wished of a note: a band between dotted lines from the least to the greatest tension,
 * open where a side is; the aim as a dotted line with a head. */
static void draw_wish(struct mensur_draw *draw, const struct chart *chart, size_t i) {
    const struct mensur_aim *aim = &chart->of->aims[i];
    struct mensur_pen edge = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_DOTS};
    double top = draw->y - 2.0, bottom = draw->y + note_height(chart->of, i) - APART;
    double x1 = force_axis_at(&chart->axis, isnan(aim->low) ? 0.0 : fmax(aim->low, 0.0));
    double x2 = force_axis_at(&chart->axis, fmin(aim->high, chart->axis.most));
    if (!isnan(aim->low) || !isnan(aim->high)) {
        struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
        mensur_shape_box(&draw->shapes, none, MENSUR_PAINT_TINT, x1, top, x2 - x1, bottom - top);
    }
    if (!isnan(aim->low)) {
        mensur_shape_line(&draw->shapes, edge, x1, top, x1, bottom);
    }
    if (!isnan(aim->high)) {
        mensur_shape_line(&draw->shapes, edge, x2, top, x2, bottom);
    }
    if (!isnan(aim->tension)) {
        double x = force_axis_at(&chart->axis, aim->tension);
        mensur_shape_line(&draw->shapes, edge, x, top, x, bottom);
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x, bottom, 0.0, -1.0, 7.0);
    }
}

/* A cross where the string breaks; beyond the scale an arrow with the tension; an open ring where
 * none is known. A head behind the cross: there or beyond. */
static void draw_break(struct mensur_draw *draw, const struct chart *chart,
                       const struct mensur_string_figures *string, double y) {
    struct mensur_lettering letters = mensur_draw_letters(MENSUR_ANCHOR_END);
    bool least = string->breaking_margin_at_least == MENSUR_YES;
    double breaking = string->breaking_tension;
    letters.size = 11.5;
    if (isnan(breaking)) {
        struct mensur_pen pen = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
        mensur_shape_disc(&draw->shapes, pen, MENSUR_PAINT_PAPER, BARS_END - 5.0, y, 4.0);
    } else if (force_axis_holds(&chart->axis, breaking)) {
        double x = force_axis_at(&chart->axis, breaking);
        force_break_mark(draw, x, y);
        if (least) {
            mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x + 12.0, y, 1.0, 0.0, 7.0);
        }
    } else {
        char words[WORDS];
        snprintf(words, sizeof words, "breaks at %s%s", least ? "least " : "",
                 mensur_show(draw->style, MENSUR_FORCE, breaking).text);
        mensur_draw_plate(draw, letters, BARS_END - 10.0, y + 4.0, words);
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, BARS_END, y, 1.0, 0.0, 7.0);
    }
}

/* "7.1", "at least 7.1", "unknown". */
static void write_margin(const struct mensur_draw *draw, const struct mensur_string_figures *string,
                         char words[WORDS]) {
    snprintf(words, WORDS, "%s%s",
             string->breaking_margin_at_least == MENSUR_YES ? "at least " : "",
             isnan(string->breaking_margin)
                 ? "unknown"
                 : mensur_show(draw->style, MENSUR_SEMITONES, string->breaking_margin).text);
}

static void draw_row(struct mensur_draw *draw, const struct chart *chart, enum part part, size_t i,
                     const struct mensur_string_figures *string) {
    struct mensur_pen pen = {mensur_draw_ink(part), 1.0, MENSUR_DASH_NONE};
    struct mensur_lettering caption = mensur_draw_letters(MENSUR_ANCHOR_START);
    struct mensur_lettering figure = mensur_draw_letters(MENSUR_ANCHOR_END);
    const char *name = string->string == NULL ? "a string without a name" : string->string;
    double y = draw->y + CAPTION;
    char words[WORDS];
    caption.size = 12.0;
    caption.paint = figure.paint = mensur_draw_ink(part);
    char *shown = mensur_lettering_fit(name, caption.size, BARS_END - BARS - 70.0);
    if (shown == NULL) {
        draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    char line[512];
    snprintf(line, sizeof line, "%s%s: %s", titles[part],
             stays(chart->of, part, i) ? ", stays" : "", shown);
    free(shown);
    mensur_draw_plate(draw, caption, BARS + 3.0, draw->y + CAPTION - 4.0, line);
    mensur_shape_box(&draw->shapes, pen, MENSUR_PAINT_PAPER, BARS, y,
                     string->tension * chart->axis.scale, BAR);
    mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(part), BARS, y,
                     string->tension * chart->axis.scale, BAR);
    draw_break(draw, chart, string, y + BAR / 2.0);
    mensur_shape_text(&draw->shapes, figure, COLUMN_TENSION, y + BAR,
                      mensur_show(draw->style, MENSUR_FORCE, string->tension).text);
    write_margin(draw, string, words);
    mensur_shape_text(&draw->shapes, figure, COLUMN_MARGIN, y + BAR, words);
    draw->y += ROW;
}

static void draw_note(struct mensur_draw *draw, const struct chart *chart, size_t i) {
    const struct mensur_restringing *of = chart->of;
    struct mensur_pen rule = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_DOTS};
    double end = draw->y + note_height(of, i);
    mensur_shape_line(&draw->shapes, rule, MENSUR_PAGE_MARGIN, draw->y - 6.0, COLUMN_MARGIN,
                      draw->y - 6.0);
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + CAPTION + BAR, of->present.strings[i].note);
    draw_wish(draw, chart, i);
    for (enum part part = NOW; part < PARTS; part++) {
        const struct mensur_string_figures *string = row_of(of, part, i);
        if (string != NULL) {
            draw_row(draw, chart, part, i, string);
        }
    }
    draw->y = end;
}

/* Whose bars are whose; a whole set by its name. */
static void put_legend(struct mensur_draw *draw, const struct mensur_restringing *of) {
    for (enum part part = NOW; part < PARTS; part++) {
        struct mensur_pen pen = {mensur_draw_ink(part), 1.0, MENSUR_DASH_NONE};
        struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_START);
        const char *set = part == NOW ? of->present.set : NULL;
        char line[512];
        if (!is_used(of, part)) {
            continue;
        }
        if (part != NOW) {
            set = of->choices[part - 1].set;
        }
        letters.paint = mensur_draw_ink(part);
        snprintf(line, sizeof line, "%s%s%s%s", titles[part],
                 part == RECOMMENDED && !of->met ? " (nearest: it misses a wish)" : "",
                 set == NULL ? "" : ": ", set == NULL ? "" : set);
        mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(part), MENSUR_PAGE_MARGIN,
                         draw->y + 2.0, 22.0, BAR);
        mensur_shape_fitted(&draw->shapes, letters, MENSUR_PAGE_MARGIN + 30.0, draw->y + 12.0,
                            MENSUR_PAGE_WIDTH - 2.0 * MENSUR_PAGE_MARGIN - 60.0, line);
        draw->y += 20.0;
    }
    draw->y += 8.0;
}

static void put_key(struct mensur_draw *draw) {
    struct mensur_pen edge = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_DOTS};
    struct mensur_pen ring = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    double x = MENSUR_PAGE_MARGIN, y = draw->y + 6.0;
    mensur_shape_box(&draw->shapes, none, MENSUR_PAINT_TINT, x, y - 6.0, 22.0, 12.0);
    mensur_shape_line(&draw->shapes, edge, x, y - 6.0, x, y + 6.0);
    mensur_shape_line(&draw->shapes, edge, x + 22.0, y - 6.0, x + 22.0, y + 6.0);
    mensur_shape_text(&draw->shapes, letters, x + 30.0, y + 4.0, "tension wished");
    mensur_shape_line(&draw->shapes, edge, x + 171.0, y - 6.0, x + 171.0, y + 6.0);
    mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x + 171.0, y + 6.0, 0.0, -1.0, 7.0);
    mensur_shape_text(&draw->shapes, letters, x + 182.0, y + 4.0, "tension aimed at");
    y += 20.0;
    force_break_mark(draw, x + 11.0, y);
    mensur_shape_text(&draw->shapes, letters, x + 30.0, y + 4.0, "where it breaks");
    force_break_mark(draw, x + 167.0, y);
    mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x + 179.0, y, 1.0, 0.0, 7.0);
    mensur_shape_text(&draw->shapes, letters, x + 188.0, y + 4.0, "there or beyond");
    mensur_shape_disc(&draw->shapes, ring, MENSUR_PAINT_PAPER, x + 315.0, y, 4.0);
    mensur_shape_text(&draw->shapes, letters, x + 328.0, y + 4.0, "not known");
    draw->y += 40.0;
}

static void put_totals(struct mensur_draw *draw, const struct mensur_restringing *of) {
    static const char *const labels[] = {"all strings together", "pressing the belly"};
    for (size_t which = 0; which < 2; which++) {
        mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START),
                          MENSUR_PAGE_MARGIN, draw->y + BAR, labels[which]);
        for (enum part part = NOW; part < PARTS; part++) {
            struct mensur_lettering letters = mensur_draw_letters(MENSUR_ANCHOR_END);
            double total =
                which == 0 ? of->present.total_tension : of->present.total_force_on_belly;
            if (part != NOW && strings_of(of, part) != NULL) {
                const struct mensur_choice *choice = &of->choices[part - 1];
                total = which == 0 ? choice->total_tension : choice->total_force_on_belly;
            }
            if (!is_used(of, part) || isnan(total)) {
                continue;
            }
            letters.paint = mensur_draw_ink(part);
            mensur_shape_text(&draw->shapes, letters, BARS_END - 10.0, draw->y + BAR, titles[part]);
            mensur_shape_text(&draw->shapes, letters, COLUMN_TENSION, draw->y + BAR,
                              mensur_show(draw->style, MENSUR_FORCE, total).text);
            draw->y += 19.0;
        }
        draw->y += 4.0;
    }
}

static void say_aim(struct mensur_draw *draw, const struct mensur_aim *aim) {
    const struct {
        const char *what;
        double force;
    } rows[] = {
        {"wished at least", aim->low}, {"wished at most", aim->high}, {"aimed at", aim->tension}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (!isnan(rows[i].force)) {
            MENSUR_SHAPE_SAY(&draw->shapes, "%s %s.", rows[i].what,
                             mensur_show_unit(draw->style, MENSUR_FORCE, rows[i].force).text);
        }
    }
}

static void say_string(struct mensur_draw *draw, const struct mensur_restringing *of,
                       enum part part, size_t i) {
    const struct mensur_string_figures *string = row_of(of, part, i);
    if (string != NULL) {
        char words[WORDS];
        write_margin(draw, string, words);
        MENSUR_SHAPE_SAY(&draw->shapes,
                         "%s%s: %s, tension %s, margin to breaking in semitones: %s.", titles[part],
                         stays(of, part, i) ? ", stays" : "",
                         string->string == NULL ? "no name" : string->string,
                         mensur_show_unit(draw->style, MENSUR_FORCE, string->tension).text, words);
    }
}

static void say_all(struct mensur_draw *draw, const struct mensur_restringing *of) {
    MENSUR_SHAPE_SAY(&draw->shapes, "The tension of each string as bars, now and as recommended.");
    for (size_t i = 0; i < of->string_count; i++) {
        MENSUR_SHAPE_SAY(&draw->shapes, "%s:", of->present.strings[i].note);
        say_aim(draw, &of->aims[i]);
        for (enum part part = NOW; part < PARTS; part++) {
            say_string(draw, of, part, i);
        }
    }
}

void mensur_draw_restring(struct mensur_draw *draw, const struct mensur_restringing *restringing) {
    struct chart chart = measure(restringing);
    struct mensur_lettering soft = mensur_draw_soft(MENSUR_ANCHOR_END);
    double height = 0.0;
    mensur_draw_heading(draw, restringing->leave ? "The strings stay" : "Strings for this length");
    mensur_draw_note(draw, "At pitch; margin: semitones higher, until it breaks.", MENSUR_FORCE,
                     false);
    if (chart.axis.most <= 0.0) {
        mensur_shape_text(&draw->shapes, mensur_draw_letters(MENSUR_ANCHOR_START),
                          MENSUR_PAGE_MARGIN, draw->y + 8.0, "No strings are known.");
        MENSUR_SHAPE_SAY(&draw->shapes, "No strings are known.");
        draw->y += 24.0;
        return;
    }
    put_legend(draw, restringing);
    mensur_shape_text(&draw->shapes, soft, COLUMN_TENSION, draw->y, "tension");
    mensur_shape_text(&draw->shapes, soft, COLUMN_MARGIN, draw->y, "margin");
    draw->y += 16.0;
    for (size_t i = 0; i < restringing->string_count; i++) {
        height += note_height(restringing, i);
    }
    force_axis_draw(draw, &chart.axis, height - APART + 4.0);
    for (size_t i = 0; i < restringing->string_count; i++) {
        draw_note(draw, &chart, i);
    }
    draw->y += 20.0;
    put_totals(draw, restringing);
    put_key(draw);
    say_all(draw, restringing);
}
