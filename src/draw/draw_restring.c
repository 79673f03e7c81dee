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
#define NEWTONS 13.0 /* px for the forces in N under those in kg */
#define APART 16.0   /* between notes */
#define TOTAL 19.0
#define LEGEND (MENSUR_PAGE_WIDTH - 2.0 * MENSUR_PAGE_MARGIN - 30.0) /* px for its words */
#define KEY_ROW 24.0
#define KEY_COLUMN 216.0
/* A figure's room where words stand behind it: "at least 10.2". */
#define WORDS 128

/* Whose strings a row shows; the number is that of its pen and its fill. */
enum part { NOW, RECOMMENDED, NEXT, PARTS };

struct chart {
    const struct mensur_restringing *of;
    struct force_axis axis;
};

static const char *title_of(const struct mensur_restringing *of, enum part part) {
    return part == NEXT                      ? "next"
           : part == RECOMMENDED             ? mensur_state_word(MENSUR_STATE_RECOMMENDED)
           : of->present.proposed_count == 0 ? mensur_state_word(MENSUR_STATE_NOW)
                                             : "present";
}

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

/* What a row takes: in a full answer N stand under kg. */
static double row_height(const struct mensur_draw *draw) {
    return ROW + (*mensur_show_in_newtons(draw->style, 0.0).text != '\0' ? NEWTONS : 0.0);
}

static double note_height(const struct mensur_draw *draw, const struct mensur_restringing *of,
                          size_t i) {
    size_t rows = 0;
    for (enum part part = NOW; part < PARTS; part++) {
        rows += row_of(of, part, i) != NULL;
    }
    return (rows > 0 ? (double)rows : 1.0) * row_height(draw) + APART;
}

/* What is wished of a note: a band between dotted lines from the least to the greatest tension,
 * open where a side is; the aim as a dotted line with a head. */
static void draw_wish(struct mensur_draw *draw, const struct chart *chart, size_t i) {
    const struct mensur_aim *aim = &chart->of->aims[i];
    struct mensur_pen edge = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_DOTS};
    double top = draw->y + CAPTION - 2.0,
           bottom = draw->y + note_height(draw, chart->of, i) - APART;
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

/* A force in N under the same in kg at base line y, in a full answer. */
static void put_newtons(struct mensur_draw *draw, struct mensur_lettering letters, double x,
                        double y, double force) {
    struct mensur_shown newtons = mensur_show_in_newtons(draw->style, force);
    letters.size = 11.5;
    if (*newtons.text != '\0') {
        mensur_draw_plate(draw, letters, x, y + NEWTONS, newtons.text);
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
        put_newtons(draw, letters, BARS_END - 10.0, y + 4.0, breaking);
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

/* The name above its bar, which by its fill says whose it is. */
static void put_name(struct mensur_draw *draw, struct mensur_lettering letters, const char *name,
                     bool stays) {
    const char *after = stays ? " (stays)" : "";
    double room = COLUMN_MARGIN - BARS - 3.0 - mensur_lettering_width(after, letters.size);
    char *shown = mensur_lettering_fit_ends(name, letters.size, room);
    char line[512];
    if (shown == NULL) {
        draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    snprintf(line, sizeof line, "%s%s", shown, after);
    free(shown);
    mensur_draw_plate(draw, letters, BARS + 3.0, draw->y + CAPTION - 4.0, line);
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
    put_name(draw, caption, name, stays(chart->of, part, i));
    mensur_shape_box(&draw->shapes, pen, MENSUR_PAINT_PAPER, BARS, y,
                     string->tension * chart->axis.scale, BAR);
    mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(part), BARS, y,
                     string->tension * chart->axis.scale, BAR);
    draw_break(draw, chart, string, y + BAR / 2.0);
    mensur_shape_text(&draw->shapes, figure, COLUMN_TENSION, y + BAR,
                      mensur_show(draw->style, MENSUR_FORCE, string->tension).text);
    put_newtons(draw, figure, COLUMN_TENSION, y + BAR, string->tension);
    write_margin(draw, string, words);
    mensur_shape_text(&draw->shapes, figure, COLUMN_MARGIN, y + BAR, words);
    draw->y += row_height(draw);
}

static void draw_note(struct mensur_draw *draw, const struct chart *chart, size_t i) {
    const struct mensur_restringing *of = chart->of;
    struct mensur_pen rule = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_DOTS};
    double end = draw->y + note_height(draw, of, i);
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
        char line[512];
        if (!is_used(of, part)) {
            continue;
        }
        const char *set = part == NOW ? of->present.set : of->choices[part - 1].set;
        letters.paint = mensur_draw_ink(part);
        snprintf(line, sizeof line, "%s%s%s", title_of(of, part),
                 part == RECOMMENDED && !of->met ? ", misses a wish" : "", set == NULL ? "" : ": ");
        double lead = mensur_lettering_width(line, letters.size);
        char *name = mensur_lettering_fit_ends(set == NULL ? "" : set, letters.size,
                                               LEGEND / MENSUR_DRAW_BOLDER - lead);
        if (name == NULL) {
            draw->shapes.status = MENSUR_MEMORY;
            return;
        }
        size_t used = strlen(line);
        snprintf(line + used, sizeof line - used, "%s", name);
        free(name);
        mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(part), MENSUR_PAGE_MARGIN,
                         draw->y + 2.0, 22.0, BAR);
        mensur_shape_text(&draw->shapes, letters, MENSUR_PAGE_MARGIN + 30.0, draw->y + 12.0, line);
        draw->y += 20.0;
    }
    draw->y += 8.0;
}

/* The marks in and beside the bars. */
enum mark { WISHED, AIMED, BREAKS, BREAKS_AT_LEAST, BREAK_UNKNOWN, MARKS };

/* Which marks the bars of a note bear, a bit each; what breaks beyond the scale is said in words.
 */
static unsigned marks_of(const struct chart *chart, size_t i) {
    const struct mensur_aim *aim = &chart->of->aims[i];
    unsigned marks = (!isnan(aim->low) || !isnan(aim->high) ? 1U << WISHED : 0U) |
                     (!isnan(aim->tension) ? 1U << AIMED : 0U);
    for (enum part part = NOW; part < PARTS; part++) {
        const struct mensur_string_figures *string = row_of(chart->of, part, i);
        if (string == NULL) {
            continue;
        }
        if (isnan(string->breaking_tension)) {
            marks |= 1U << BREAK_UNKNOWN;
        } else if (force_axis_holds(&chart->axis, string->breaking_tension)) {
            bool least = string->breaking_margin_at_least == MENSUR_YES;
            marks |= 1U << (least ? BREAKS_AT_LEAST : BREAKS);
        }
    }
    return marks;
}

static void put_mark(struct mensur_draw *draw, enum mark mark, double x, double y) {
    static const char *const words[MARKS] = {"tension wished", "tension aimed at",
                                             "where it breaks", "breaks there or beyond",
                                             "break not known"};
    struct mensur_pen edge = {MENSUR_PAINT_INK, 1.0, MENSUR_DASH_DOTS};
    struct mensur_pen ring = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    switch (mark) {
    case WISHED:
        mensur_shape_box(&draw->shapes, none, MENSUR_PAINT_TINT, x, y - 6.0, 22.0, 12.0);
        mensur_shape_line(&draw->shapes, edge, x, y - 6.0, x, y + 6.0);
        mensur_shape_line(&draw->shapes, edge, x + 22.0, y - 6.0, x + 22.0, y + 6.0);
        break;
    case AIMED:
        mensur_shape_line(&draw->shapes, edge, x + 11.0, y - 10.0, x + 11.0, y + 1.0);
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x + 11.0, y + 1.0, 0.0, -1.0, 7.0);
        break;
    case BREAKS_AT_LEAST:
        mensur_shape_head(&draw->shapes, MENSUR_PAINT_INK, x + 23.0, y, 1.0, 0.0, 7.0);
        force_break_mark(draw, x + 11.0, y);
        break;
    case BREAKS:
        force_break_mark(draw, x + 11.0, y);
        break;
    default:
        mensur_shape_disc(&draw->shapes, ring, MENSUR_PAINT_PAPER, x + 11.0, y, 4.0);
        break;
    }
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), x + 30.0, y + 4.0,
                      words[mark]);
}

/* What the marks mean that the bars bear, two a row. */
static void put_key(struct mensur_draw *draw, const struct chart *chart) {
    unsigned marks = 0, put = 0;
    for (size_t i = 0; i < chart->of->string_count; i++) {
        marks |= marks_of(chart, i);
    }
    for (enum mark mark = WISHED; mark < MARKS; mark++) {
        if ((marks >> mark & 1U) != 0) {
            bool second = put % 2 == 1;
            put_mark(draw, mark, MENSUR_PAGE_MARGIN + (second ? KEY_COLUMN : 0.0), draw->y + 12.0);
            draw->y += second ? KEY_ROW : 0.0;
            put++;
        }
    }
    draw->y += (put % 2 == 1 ? KEY_ROW : 0.0) + 4.0;
}

/* What the strings of a part do together: of all of them, or on the belly. */
static double total_of(const struct mensur_restringing *of, enum part part, bool belly) {
    if (!is_used(of, part)) {
        return NAN;
    }
    if (part == NOW) {
        return belly ? of->present.total_force_on_belly : of->present.total_tension;
    }
    const struct mensur_choice *choice = &of->choices[part - 1];
    return belly ? choice->total_force_on_belly : choice->total_tension;
}

static void put_total(struct mensur_draw *draw, const struct mensur_restringing *of,
                      const char *label, bool belly) {
    struct mensur_lettering letters = mensur_draw_letters(MENSUR_ANCHOR_END);
    double before = draw->y;
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + BAR, label);
    for (enum part part = NOW; part < PARTS; part++) {
        double total = total_of(of, part, belly);
        struct mensur_lettering beside = mensur_draw_letters(MENSUR_ANCHOR_START);
        if (isnan(total)) {
            continue;
        }
        letters.paint = beside.paint = mensur_draw_ink(part);
        beside.size = 11.5;
        mensur_shape_text(&draw->shapes, letters, BARS_END - 10.0, draw->y + BAR,
                          title_of(of, part));
        mensur_shape_text(&draw->shapes, letters, COLUMN_TENSION, draw->y + BAR,
                          mensur_show(draw->style, MENSUR_FORCE, total).text);
        mensur_shape_text(&draw->shapes, beside, COLUMN_TENSION + 6.0, draw->y + BAR,
                          mensur_show_in_newtons(draw->style, total).text);
        draw->y += TOTAL;
    }
    if (draw->y <= before) {
        mensur_shape_text(&draw->shapes, letters, COLUMN_TENSION, draw->y + BAR, "not known");
        draw->y += TOTAL;
    }
    draw->y += 4.0;
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
                         "%s%s: %s, tension %s, margin to breaking in semitones: %s.",
                         title_of(of, part), stays(of, part, i) ? ", stays" : "",
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
    mensur_draw_note(draw, FORCE_NOTE, MENSUR_FORCE, false);
    if (chart.axis.most <= 0.0) {
        force_say_none(draw);
        return;
    }
    put_legend(draw, restringing);
    mensur_shape_text(&draw->shapes, soft, COLUMN_TENSION, draw->y, "tension");
    mensur_shape_text(&draw->shapes, soft, COLUMN_MARGIN, draw->y, "margin");
    draw->y += 16.0;
    for (size_t i = 0; i < restringing->string_count; i++) {
        height += note_height(draw, restringing, i);
    }
    force_axis_draw(draw, &chart.axis, height - APART + 8.0);
    for (size_t i = 0; i < restringing->string_count; i++) {
        draw_note(draw, &chart, i);
    }
    draw->y += 20.0;
    put_total(draw, restringing, FORCE_TOTAL, false);
    put_total(draw, restringing, FORCE_ON_BELLY, true);
    put_key(draw, &chart);
    say_all(draw, restringing);
}
