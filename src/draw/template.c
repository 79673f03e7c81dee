/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template's pages: how the figures are cut into them, the title block, and what is around a
 * figure on each. */
#include "template.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "draw_side.h"
#include "shown.h"
#include "svg.h"
#include "template_figures.h"
#include "tiles.h"

/* All in mm. From the paper's edge to the window: the upright bar stands on its left. */
#define LEFT (MENSUR_TILE_MARGIN + 10.0)
#define ABOVE 22.0
#define BELOW 22.0

#define FRONT_HEIGHT 152.0 /* of the title block in a strip */

enum { FIGURES = 2, NAME_ROOM = 96 };

static const struct mensur_pen fine = {MENSUR_PAINT_INK, 0.2, MENSUR_DASH_NONE};
static const struct mensur_pen soft_pen = {MENSUR_PAINT_SOFT, 0.2, MENSUR_DASH_NONE};

/* One figure, cut into pages: columns from the left, and rows from the top. */
struct cut {
    struct mensur_area area;
    size_t first; /* page, counted from 0 */
    size_t columns, rows;
};

/* The whole template, laid out. */
struct layout {
    const struct mensur_template *template;
    double width, height; /* of a page */
    struct mensur_area window;
    struct cut cuts[FIGURES]; /* by enum mensur_template_figure */
    size_t pages;
};

struct view {
    const struct layout *layout;
    struct mensur_shapes shapes;
    size_t page;
};

static struct cut cut_up(const struct layout *layout, enum mensur_template_figure which,
                         size_t first) {
    struct cut cut = {mensur_template_area(which, layout->template->profile), first, 0, 0};
    cut.columns = mensur_tile_count(cut.area.width, layout->window.width, MENSUR_CANVAS_OVERLAP);
    cut.rows = mensur_tile_count(cut.area.height, layout->window.height, MENSUR_CANVAS_OVERLAP);
    /* in the middle of its page, clear of the register marks */
    cut.area.top += fmax(layout->window.height - cut.area.height, 0.0) / 2.0;
    return cut;
}

/* Paper that lies, or stands. */
static struct layout lay_out(const struct mensur_template *template, bool lying) {
    struct mensur_tile_size size = mensur_tile_paper(template->paper);
    struct layout layout = {.template = template,
                            .width = lying ? size.width : size.height,
                            .height = lying ? size.height : size.width,
                            .pages = 1};
    layout.window = (struct mensur_area){LEFT, ABOVE, layout.width - LEFT - MENSUR_TILE_MARGIN,
                                         layout.height - ABOVE - BELOW};
    for (int i = 0; i < FIGURES; i++) {
        layout.cuts[i] = cut_up(&layout, (enum mensur_template_figure)i, layout.pages);
        layout.pages += layout.cuts[i].columns * layout.cuts[i].rows;
    }
    return layout;
}

/* All in one drawing, the figures under each other. */
static struct layout lay_strip(const struct mensur_template *template) {
    struct layout layout = {.template = template, .pages = 1};
    double width = 200.0, height = ABOVE + FRONT_HEIGHT;
    for (int i = 0; i < FIGURES; i++) {
        layout.cuts[i].area =
            mensur_template_area((enum mensur_template_figure)i, template->profile);
        width = fmax(width, layout.cuts[i].area.width);
        height += layout.cuts[i].area.height;
    }
    layout.width = LEFT + width + MENSUR_TILE_MARGIN;
    layout.height = height + BELOW;
    layout.window = (struct mensur_area){LEFT, ABOVE, width, height - ABOVE};
    return layout;
}

/* The way of laying the paper that takes fewer pages. */
static enum mensur_status lay(const struct mensur_template *template, struct layout *out) {
    if (!template->profile->side.known) {
        return MENSUR_NO_ANSWER;
    }
    if (template->paper == MENSUR_SHEET_STRIP) {
        *out = lay_strip(template);
        return MENSUR_OK;
    }
    struct layout lying = lay_out(template, true), standing = lay_out(template, false);
    *out = standing.pages < lying.pages ? standing : lying;
    return out->pages <= MENSUR_TILE_PAGES ? MENSUR_OK : MENSUR_NO_ANSWER;
}

static struct mensur_lettering letters_of(double size, enum mensur_anchor anchor) {
    return (struct mensur_lettering){.size = size, .anchor = anchor, .paint = MENSUR_PAINT_INK};
}

static void put_frame(struct view *view, const char *name, const char *what) {
    const struct layout *layout = view->layout;
    struct mensur_lettering bold = letters_of(4.0, MENSUR_ANCHOR_START);
    struct mensur_lettering letters = letters_of(3.2, MENSUR_ANCHOR_START);
    double right = layout->width - MENSUR_TILE_MARGIN, foot = layout->height - 15.0;
    bold.bold = true;
    mensur_shape_fitted(&view->shapes, bold, LEFT, 13.5, right - LEFT - 40.0, name);
    mensur_shape_text(&view->shapes, letters, LEFT, 18.5, what);
    mensur_tile_number(&view->shapes, right, 13.5, view->page, layout->pages, "");
    mensur_tile_bar(&view->shapes, LEFT, foot, 10.0, 10, "100 mm");
    mensur_tile_bar_upright(&view->shapes, MENSUR_TILE_MARGIN + 4.5, ABOVE + 104.0, 10.0, 10,
                            "100 mm");
    mensur_shape_text(&view->shapes, letters, LEFT + 106.0, foot - 3.6, "Measure both bars");
    mensur_shape_text(&view->shapes, letters, LEFT + 106.0, foot + 0.6, "before you cut.");
}

/* The measurements of the title block. */
static const struct {
    const char *name;
    size_t offset;
    const char *field;
} title_block[] = {
#define ROW(name, member, field)                                                                   \
    { name, offsetof(struct mensur_side_points, member), field }
    ROW("body, straight", body_straight, "body_straight"),
    ROW("stop", top_x, "stop"),
    ROW("neck", neck, "neck"),
    ROW("heel", heel, "heel"),
    ROW("overstand", overstand, "overstand"),
    ROW("board at the edge", board, "board"),
    ROW("board at the nut", board_nut, "board_nut"),
    ROW("board's length", board_length, "board_length"),
    ROW("nut over the board", nut, "nut"),
    ROW("arch", arch, "arch"),
    ROW("projection", projection, "projection"),
    ROW("bridge", bridge, "bridge"),
    ROW("saddle", saddle, "saddle"),
    ROW("outer strings, bridge", spacing_bridge, "spacing_bridge"),
    ROW("outer strings, nut", spacing_nut, "spacing_nut"),
    ROW("bridge's feet", foot_spacing, "foot_spacing"),
#undef ROW
};

static void put_row(struct view *view, double y, const char *name, double value, const char *from) {
    const struct mensur_style *style = &view->layout->template->figures;
    struct mensur_lettering letters = letters_of(3.2, MENSUR_ANCHOR_START);
    struct mensur_shown shown = mensur_show_cut_unit(style, value);
    mensur_shape_text(&view->shapes, letters, LEFT, y, name);
    letters.anchor = MENSUR_ANCHOR_END;
    mensur_shape_text(&view->shapes, letters, LEFT + 62.0, y, shown.text);
    letters.anchor = MENSUR_ANCHOR_START;
    letters.paint = MENSUR_PAINT_SOFT;
    mensur_shape_text(&view->shapes, letters, LEFT + 66.0, y, from);
    MENSUR_SHAPE_SAY(&view->shapes, "%s %s, %s.", name, shown.text, from);
}

static void put_table(struct view *view, double y) {
    static const char *const origins[] = {"not known", "as given", "assumed",
                                          "follows from the others"};
    const struct mensur_profile *profile = view->layout->template->profile;
    const struct mensur_side_points *side = &profile->side;
    for (size_t i = 0; i < sizeof title_block / sizeof title_block[0]; i++) {
        double value = *(const double *)(const void *)((const char *)side + title_block[i].offset);
        if (!isnan(value)) {
            put_row(view, y, title_block[i].name, value,
                    origins[mensur_side_origin(profile, title_block[i].field, value)]);
            y += 5.0;
        }
    }
    if (!isnan(side->crown) && side->crossing_count > 0) {
        put_row(view, y, "radius of the bridge's top", side->crown, "assumed");
    }
}

/* The string's line on the small plan of the side view's pages, so that they are told apart. */
static void put_plan_line(struct view *view, double x, double y, double scale) {
    const struct layout *layout = view->layout;
    const struct mensur_area *area = &layout->cuts[MENSUR_TEMPLATE_SIDE].area;
    const struct mensur_side_points *side = &layout->template->profile->side;
    bool open = isnan(side->body_straight);
    const double places[][2] = {{side->nut_x, side->nut_y},
                                {side->top_x, side->top_y},
                                {side->body_straight, side->saddle}};
    struct mensur_point points[3];
    for (int i = 0; i < 3; i++) {
        points[i] = (struct mensur_point){x + scale * (places[i][0] * 1000.0 - area->left),
                                          y + scale * (area->top - places[i][1] * 1000.0)};
    }
    mensur_shape_path(&view->shapes, soft_pen, MENSUR_PAINT_NONE, points, open ? 2 : 3, false);
}

/* The pages of one figure, small, with their numbers in the order in which they are joined; where
 * the next may stand. */
static double put_plan(struct view *view, enum mensur_template_figure which, double x, double y,
                       double width) {
    const struct layout *layout = view->layout;
    const struct cut *cut = &layout->cuts[which];
    const double step_x = layout->window.width - MENSUR_CANVAS_OVERLAP;
    const double step_y = layout->window.height - MENSUR_CANVAS_OVERLAP;
    const struct mensur_pen none = {MENSUR_PAINT_NONE, 0.0, MENSUR_DASH_NONE};
    double scale = fmin(width / (step_x * (double)cut->columns + MENSUR_CANVAS_OVERLAP), 0.08);
    struct mensur_lettering letters = letters_of(3.0, MENSUR_ANCHOR_START);
    mensur_shape_text(&view->shapes, letters, x, y,
                      which == MENSUR_TEMPLATE_SIDE ? "Side view" : "Bridge and nut");
    letters.anchor = MENSUR_ANCHOR_MIDDLE;
    y += 2.5;
    if (which == MENSUR_TEMPLATE_SIDE) {
        put_plan_line(view, x, y, scale);
    }
    for (size_t i = 0; i < cut->rows * cut->columns; i++) {
        double left = x + scale * step_x * (double)(i % cut->columns);
        size_t row = i / cut->columns;
        double top = y + scale * step_y * (double)row;
        double wide = scale * step_x, high = scale * step_y;
        mensur_shape_box(&view->shapes, fine, MENSUR_PAINT_NONE, left, top, wide, high);
        mensur_shape_box(&view->shapes, none, MENSUR_PAINT_PAPER, left + wide / 2.0 - 2.6,
                         top + high / 2.0 - 2.0, 5.2, 4.0);
        mensur_shape_text(&view->shapes, letters, left + wide / 2.0, top + high / 2.0 + 1.1,
                          mensur_show_count(cut->first + i + 1).text);
    }
    return y + scale * step_y * (double)cut->rows + 8.0;
}

static const char *paper_name(enum mensur_sheet_paper paper) {
    static const char *const names[] = {[MENSUR_SHEET_A4] = "A4",
                                        [MENSUR_SHEET_LETTER] = "Letter",
                                        [MENSUR_SHEET_STRIP] = "one drawing"};
    return names[paper];
}

static void put_title_block(struct view *view) {
    const struct layout *layout = view->layout;
    const struct mensur_template *template = layout->template;
    const struct mensur_profile *profile = template->profile;
    struct mensur_lettering letters = letters_of(3.4, MENSUR_ANCHOR_START);
    struct mensur_lettering bold = letters_of(5.0, MENSUR_ANCHOR_START);
    double y = ABOVE + 6.0, room = layout->window.width;
    char line[NAME_ROOM];
    bold.bold = true;
    if (template->heading != NULL) {
        mensur_shape_fitted(&view->shapes, letters, LEFT, 8.8, room, template->heading);
    }
    mensur_shape_fitted(&view->shapes, bold, LEFT, y, room, profile->instrument);
    snprintf(line, sizeof line, "scale 1 : 1; %s; date %s", paper_name(template->paper),
             template->date == NULL ? "______________" : template->date);
    mensur_shape_text(&view->shapes, letters, LEFT, y + 6.0, line);
    MENSUR_SHAPE_SAY(&view->shapes, MENSUR_TEMPLATE_TITLE ", %s.", line);
    mensur_shape_text(&view->shapes, letters, LEFT, y + 12.0,
                      "Print at 100 % (actual size, no fitting to the page).");
    mensur_shape_text(&view->shapes, letters, LEFT, y + 17.0,
                      "Measure the bars before you cut: 100 mm across and upwards, on each page.");
    y += 22.0;
    if (profile->lengths.built == MENSUR_YES) {
        mensur_shape_text(&view->shapes, letters, LEFT, y,
                          "It is built: to cut it is work for a qualified restorer.");
        MENSUR_SHAPE_SAY(&view->shapes, "It is built: to cut it is work for a qualified restorer.");
        y += 5.0;
    }
    put_table(view, y + 4.0);
    if (layout->pages > 1) {
        double x = LEFT + 108.0, width = layout->width - MENSUR_TILE_MARGIN - x;
        letters.bold = true;
        mensur_shape_text(&view->shapes, letters, x, y + 4.0, "The pages, as they are joined");
        double next = put_plan(view, MENSUR_TEMPLATE_BRIDGE, x, y + 10.0, width);
        (void)put_plan(view, MENSUR_TEMPLATE_SIDE, x, next, width);
    }
}

/* Crosses where this page and its neighbours to the right and below, and to the left and above,
 * have the same place: letters from the left, numbers from the top. */
static void put_marks(struct view *view, const struct cut *cut, size_t column, size_t row) {
    const struct mensur_area *window = &view->layout->window;
    double half = MENSUR_CANVAS_OVERLAP / 2.0;
    char name[16];
    for (int side = 0; side < 2; side++) {
        size_t seam = column + (size_t)side; /* left of column `seam` */
        if (seam > 0 && seam < cut->columns) {
            double x = side == 0 ? window->left + half : window->left + window->width - half;
            snprintf(name, sizeof name, "%c%zu", (char)('A' + (int)((seam - 1) % 26)), row + 1);
            mensur_tile_cross(&view->shapes, x, window->top + 4.0, name);
            mensur_tile_cross(&view->shapes, x, window->top + window->height - 4.0, name);
        }
        seam = row + (size_t)side;
        if (seam > 0 && seam < cut->rows) {
            double y = side == 0 ? window->top + half : window->top + window->height - half;
            snprintf(name, sizeof name, "%zu%c", seam, (char)('A' + (int)(column % 26)));
            mensur_tile_cross(&view->shapes, window->left + 4.0, y, name);
            mensur_tile_cross(&view->shapes, window->left + window->width - 8.0, y, name);
        }
    }
}

static void put_figure_page(struct view *view, enum mensur_template_figure which) {
    const struct layout *layout = view->layout;
    const struct cut *cut = &layout->cuts[which];
    size_t place = view->page - cut->first;
    size_t column = place % cut->columns, row = place / cut->columns;
    char what[NAME_ROOM];
    const struct mensur_canvas canvas = {
        .shapes = &view->shapes,
        .page = layout->window,
        .left = cut->area.left + (layout->window.width - MENSUR_CANVAS_OVERLAP) * (double)column,
        .top = cut->area.top - (layout->window.height - MENSUR_CANVAS_OVERLAP) * (double)row};
    snprintf(what, sizeof what, "%s at true size, 1 : 1%s",
             which == MENSUR_TEMPLATE_SIDE ? "Side view for setting the neck" : "Bridge and nut",
             cut->columns * cut->rows > 1 ? "; lay crosses of one name on each other" : "");
    put_frame(view, layout->template->profile->instrument, what);
    put_marks(view, cut, column, row);
    mensur_template_draw(which, &canvas, layout->template->profile, &layout->template->figures);
}

static void put_strip(struct view *view) {
    const struct layout *layout = view->layout;
    double top = ABOVE + FRONT_HEIGHT;
    put_frame(view, MENSUR_TEMPLATE_TITLE, "");
    put_title_block(view);
    for (int i = 0; i < FIGURES; i++) {
        const struct mensur_area *area = &layout->cuts[i].area;
        const struct mensur_canvas canvas = {
            .shapes = &view->shapes,
            .page = {LEFT, top, layout->window.width, area->height},
            .left = area->left,
            .top = area->top};
        mensur_template_draw((enum mensur_template_figure)i, &canvas, layout->template->profile,
                             &layout->template->figures);
        top += area->height;
    }
}

enum mensur_status mensur_template_pages(const struct mensur_template *template, size_t *pages) {
    struct layout layout;
    enum mensur_status status = lay(template, &layout);
    if (status == MENSUR_OK) {
        *pages = layout.pages;
    }
    return status;
}

enum mensur_status mensur_template_page(const struct mensur_template *template, size_t page,
                                        const struct mensur_sink *sink) {
    struct mensur_svg svg = {.id = "template", .title = MENSUR_TEMPLATE_TITLE, .unit = "mm"};
    struct layout layout;
    struct mensur_out out;
    enum mensur_status status = lay(template, &layout);
    if (status != MENSUR_OK || page >= layout.pages) {
        return status == MENSUR_OK ? MENSUR_DOMAIN : status;
    }
    struct view view = {.layout = &layout,
                        .shapes = {.width = layout.width, .height = layout.height, .dash = 2.0},
                        .page = page};
    if (template->paper == MENSUR_SHEET_STRIP) {
        put_strip(&view);
    } else if (page == 0) {
        put_frame(&view, MENSUR_TEMPLATE_TITLE, "");
        put_title_block(&view);
    } else {
        put_figure_page(&view, page < layout.cuts[MENSUR_TEMPLATE_SIDE].first
                                   ? MENSUR_TEMPLATE_BRIDGE
                                   : MENSUR_TEMPLATE_SIDE);
    }
    mensur_out_open(&out, sink, false);
    mensur_svg_write(&out, &svg, &view.shapes);
    mensur_out_flush(&out);
    mensur_shapes_clear(&view.shapes);
    return out.status;
}
