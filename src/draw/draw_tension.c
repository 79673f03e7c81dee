/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tension of each string as a bar, with the tension it has on the lengths it is made for and
 * the tension that breaks it. */
#include <math.h>
#include <string.h>

#include "draw.h"
#include "force_axis.h"
#include "lettering.h"

#define BAR_APART 19.0
/* Right end of the column of differences. */
#define COLUMN_MORE 404.0

struct chart {
    const struct mensur_drawn *drawn;
    struct force_axis axis;
};

static struct chart measure(const struct mensur_drawn *drawn) {
    struct chart chart = {.drawn = drawn};
    double most = 0.0, breaking = 0.0;
    for (size_t i = 0; i < drawn->count; i++) {
        for (size_t j = 0; j < drawn->profiles[i]->string_count; j++) {
            const struct mensur_string_figures *string = &drawn->profiles[i]->strings[j];
            most = fmax(most, fmax(string->tension, string->made_for_tension_high));
            breaking = fmax(breaking, string->breaking_tension);
        }
    }
    chart.axis = force_axis_make(most, breaking);
    return chart;
}

static const struct mensur_string_figures *find_string(const struct mensur_profile *profile,
                                                       const char *note) {
    for (size_t i = 0; i < profile->string_count; i++) {
        if (strcmp(profile->strings[i].note, note) == 0) {
            return &profile->strings[i];
        }
    }
    return NULL;
}

/* |---| from low to high, without its tick where a side is open. */
static void draw_made_for(struct mensur_draw *draw, const struct chart *chart,
                          const struct mensur_string_figures *string, double y) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    double low = string->made_for_tension_low;
    double high = string->made_for_tension_high;
    if (isnan(low) && isnan(high)) {
        return;
    }
    double x1 = force_axis_at(&chart->axis, fmax(low, 0.0));
    double x2 = force_axis_at(&chart->axis, fmin(high, chart->axis.most));
    mensur_shape_line(&draw->shapes, pen, x1, y, x2, y);
    if (!isnan(low)) {
        mensur_shape_line(&draw->shapes, pen, x1, y - 3.0, x1, y + 3.0);
    }
    if (!isnan(high)) {
        mensur_shape_line(&draw->shapes, pen, x2, y - 3.0, x2, y + 3.0);
    }
}

static void draw_bar(struct mensur_draw *draw, const struct chart *chart, size_t i,
                     const struct mensur_string_figures *string, double y) {
    struct mensur_pen pen = {mensur_draw_ink(i), 1.0, MENSUR_DASH_NONE};
    double breaking = string->breaking_tension;
    if (!isnan(string->tension)) {
        mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(i), BARS, y,
                         string->tension * chart->axis.scale, BAR);
    }
    draw_made_for(draw, chart, string, y + BAR + 4.0);
    if (force_axis_holds(&chart->axis, breaking)) {
        force_break_mark(draw, force_axis_at(&chart->axis, breaking), y + BAR / 2.0);
    }
}

static void put_figures(struct mensur_draw *draw, size_t i, double force, double first,
                        double margin, double y) {
    struct mensur_lettering letters = mensur_draw_letters(MENSUR_ANCHOR_END);
    letters.paint = mensur_draw_ink(i);
    mensur_shape_text(&draw->shapes, letters, COLUMN_TENSION, y,
                      mensur_show(draw->style, MENSUR_FORCE, force).text);
    if (i > 0 && isfinite(force - first)) {
        mensur_shape_text(&draw->shapes, letters, COLUMN_MORE, y,
                          mensur_show_difference(draw->style, MENSUR_FORCE, force - first).text);
    }
    if (!isnan(margin)) {
        mensur_shape_text(&draw->shapes, letters, COLUMN_MARGIN, y,
                          mensur_show(draw->style, MENSUR_SEMITONES, margin).text);
    }
}

static void say_string(struct mensur_draw *draw, const struct mensur_string_figures *string) {
    struct mensur_shapes *shapes = &draw->shapes;
    MENSUR_SHAPE_SAY(shapes, "%s: tension %s", string->note,
                     mensur_show_unit(draw->style, MENSUR_FORCE, string->tension).text);
    if (string->in_made_for_range != MENSUR_UNSURE) {
        MENSUR_SHAPE_SAY(shapes, "%s",
                         string->in_made_for_range == MENSUR_YES
                             ? "(within the range it is made for)"
                             : "(outside the range it is made for)");
    }
    if (!isnan(string->breaking_margin)) {
        MENSUR_SHAPE_SAY(
            shapes, "and would break %s higher",
            mensur_show_unit(draw->style, MENSUR_SEMITONES, string->breaking_margin).text);
    }
    MENSUR_SHAPE_SAY(shapes, "(%s).", string->string == NULL ? "no string" : string->string);
}

static bool has_note(const struct mensur_drawn *drawn, size_t before, const char *note) {
    for (size_t i = 0; i < before; i++) {
        if (find_string(drawn->profiles[i], note) != NULL) {
            return true;
        }
    }
    return false;
}

/* The strings of one note on all instruments that have it. */
static void draw_note(struct mensur_draw *draw, const struct chart *chart, const char *note) {
    const struct mensur_drawn *drawn = chart->drawn;
    const struct mensur_string_figures *first = find_string(drawn->profiles[0], note);
    struct mensur_pen rule = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_DOTS};
    mensur_shape_line(&draw->shapes, rule, MENSUR_PAGE_MARGIN, draw->y - 4.0, COLUMN_MARGIN,
                      draw->y - 4.0);
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + BAR, note);
    for (size_t i = 0; i < drawn->count; i++) {
        const struct mensur_string_figures *string = find_string(drawn->profiles[i], note);
        if (string != NULL) {
            draw_bar(draw, chart, i, string, draw->y);
            put_figures(draw, i, string->tension, first == NULL ? NAN : first->tension,
                        string->breaking_margin, draw->y + BAR);
            draw->y += BAR_APART;
        }
    }
    draw->y += 8.0;
}

static double bars_height(const struct mensur_drawn *drawn) {
    double height = 0.0;
    for (size_t i = 0; i < drawn->count; i++) {
        for (size_t j = 0; j < drawn->profiles[i]->string_count; j++) {
            bool again = has_note(drawn, i, drawn->profiles[i]->strings[j].note);
            height += BAR_APART + (again ? 0.0 : 8.0);
        }
    }
    return height;
}

static void put_columns(struct mensur_draw *draw, bool several) {
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_END);
    if (several) {
        mensur_shape_text(&draw->shapes, letters, COLUMN_MORE, draw->y, "differs");
    }
    mensur_shape_text(&draw->shapes, letters, COLUMN_TENSION, draw->y, "tension");
    mensur_shape_text(&draw->shapes, letters, COLUMN_MARGIN, draw->y, "margin");
    draw->y += 14.0;
}

static void put_total(struct mensur_draw *draw, const struct chart *chart, const char *label,
                      bool belly) {
    const struct mensur_drawn *drawn = chart->drawn;
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + BAR, label);
    for (size_t i = 0; i < drawn->count; i++) {
        const struct mensur_profile *own = drawn->profiles[i];
        const struct mensur_profile *first = drawn->profiles[0];
        put_figures(draw, i, belly ? own->total_force_on_belly : own->total_tension,
                    belly ? first->total_force_on_belly : first->total_tension, NAN, draw->y + BAR);
        draw->y += BAR_APART;
    }
}

/* The key of the marks. */
static void put_key(struct mensur_draw *draw) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.2, MENSUR_DASH_NONE};
    struct mensur_lettering letters = mensur_draw_soft(MENSUR_ANCHOR_START);
    double x = MENSUR_PAGE_MARGIN;
    double y = draw->y + 10.0;
    mensur_shape_line(&draw->shapes, pen, x, y - 4.0, x + 22.0, y - 4.0);
    mensur_shape_line(&draw->shapes, pen, x, y - 7.0, x, y - 1.0);
    mensur_shape_line(&draw->shapes, pen, x + 22.0, y - 7.0, x + 22.0, y - 1.0);
    mensur_shape_text(&draw->shapes, letters, x + 30.0, y, "tension on the lengths it is made for");
    force_break_mark(draw, x + 11.0, y + 14.0);
    mensur_shape_text(&draw->shapes, letters, x + 30.0, y + 18.0, "tension that breaks it");
    draw->y += 34.0;
}

static void say_all(struct mensur_draw *draw, const struct mensur_drawn *drawn) {
    MENSUR_SHAPE_SAY(&draw->shapes, "The tension of each string as bars.");
    for (size_t i = 0; i < drawn->count; i++) {
        const struct mensur_profile *profile = drawn->profiles[i];
        mensur_draw_say_name(draw, drawn, i);
        for (size_t j = 0; j < profile->string_count; j++) {
            say_string(draw, &profile->strings[j]);
        }
        MENSUR_SHAPE_SAY(
            &draw->shapes, "In all %s; on the belly %s.",
            mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_tension).text,
            mensur_show_unit(draw->style, MENSUR_FORCE, profile->total_force_on_belly).text);
    }
}

void mensur_draw_tension(struct mensur_draw *draw, const struct mensur_drawn *drawn) {
    struct chart chart = measure(drawn);
    mensur_draw_heading(draw, "Tension of each string");
    mensur_draw_note(draw, FORCE_NOTE, MENSUR_FORCE, false);
    for (size_t i = 0; i < drawn->count; i++) {
        mensur_draw_legend(draw, drawn, i, draw->y + 12.0, true);
        draw->y += 20.0;
    }
    draw->y += 8.0;
    if (bars_height(drawn) <= 0.0) {
        force_say_none(draw);
        return;
    }
    put_columns(draw, drawn->count > 1);
    force_axis_draw(draw, &chart.axis, bars_height(drawn));
    for (size_t i = 0; i < drawn->count; i++) {
        for (size_t j = 0; j < drawn->profiles[i]->string_count; j++) {
            if (!has_note(drawn, i, drawn->profiles[i]->strings[j].note)) {
                draw_note(draw, &chart, drawn->profiles[i]->strings[j].note);
            }
        }
    }
    draw->y += 28.0;
    put_total(draw, &chart, FORCE_TOTAL, false);
    put_total(draw, &chart, FORCE_ON_BELLY, true);
    put_key(draw);
    say_all(draw, drawn);
    draw->y += 6.0;
}
