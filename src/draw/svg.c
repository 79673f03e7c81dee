/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "svg.h"

#include "markup.h"

/* In a file of its own a drawing is dark on white; within a page it takes the page's colours, so
 * that it follows light and dark. All stand out from the paper by 5 : 1 or more. */
static const char *const file_paints[MENSUR_PAINT_COUNT] = {
    [MENSUR_PAINT_NONE] = "none",      [MENSUR_PAINT_INK] = "#1c1a17",
    [MENSUR_PAINT_SOFT] = "#5f5a52",   [MENSUR_PAINT_OTHER] = "#9a3412",
    [MENSUR_PAINT_SECOND] = "#1c1a17", [MENSUR_PAINT_PAPER] = "#ffffff",
    [MENSUR_PAINT_TINT] = "#efe7d9"};
static const char *const page_paints[MENSUR_PAINT_COUNT] = {
    [MENSUR_PAINT_NONE] = "none",
    [MENSUR_PAINT_INK] = "currentColor",
    [MENSUR_PAINT_SOFT] = "var(--soft, #5f5a52)",
    [MENSUR_PAINT_OTHER] = "var(--other, #9a3412)",
    [MENSUR_PAINT_SECOND] = "var(--second, currentColor)",
    [MENSUR_PAINT_PAPER] = "var(--paper, #ffffff)",
    [MENSUR_PAINT_TINT] = "var(--wood, #efe7d9)"};

static void put_paint(struct mensur_out *out, const struct mensur_svg *svg, const char *attribute,
                      enum mensur_paint paint) {
    if (paint == MENSUR_PAINT_HATCH || paint == MENSUR_PAINT_HATCH_OTHER) {
        mensur_markup_id(out, attribute, "url(#", svg->id,
                         paint == MENSUR_PAINT_HATCH ? "hatch" : "hatch-other", ")");
        return;
    }
    mensur_markup_attribute(out, attribute, (svg->within_page ? page_paints : file_paints)[paint]);
}

static void put_pen(struct mensur_out *out, const struct mensur_svg *svg,
                    const struct mensur_pen *pen, double dash) {
    if (pen->paint == MENSUR_PAINT_NONE) {
        return;
    }
    put_paint(out, svg, "stroke", pen->paint);
    mensur_markup_number(out, "stroke-width", pen->width);
    if (pen->dash != MENSUR_DASH_NONE) {
        double on = pen->dash == MENSUR_DASH_LONG ? dash : dash * 0.3;
        mensur_out_text(out, " stroke-dasharray=\"");
        mensur_markup_bare_number(out, on);
        mensur_out_text(out, " ");
        mensur_markup_bare_number(out, pen->dash == MENSUR_DASH_LONG ? dash * 0.6 : on * 1.5);
        mensur_out_text(out, "\"");
    }
}

static void put_line(struct mensur_out *out, const struct mensur_svg *svg,
                     const struct mensur_shapes *shapes, const struct mensur_shape *shape) {
    const struct mensur_point *points = shapes->points + shape->first;
    mensur_markup_start(out, "line");
    mensur_markup_number(out, "x1", points[0].x);
    mensur_markup_number(out, "y1", points[0].y);
    mensur_markup_number(out, "x2", points[1].x);
    mensur_markup_number(out, "y2", points[1].y);
    put_pen(out, svg, &shape->pen, shapes->dash);
    mensur_markup_close(out);
}

static void put_path(struct mensur_out *out, const struct mensur_svg *svg,
                     const struct mensur_shapes *shapes, const struct mensur_shape *shape) {
    const struct mensur_point *points = shapes->points + shape->first;
    mensur_markup_start(out, shape->closed ? "polygon" : "polyline");
    mensur_out_text(out, " points=\"");
    for (size_t i = 0; i < shape->count; i++) {
        mensur_out_text(out, i > 0 ? " " : "");
        mensur_markup_bare_number(out, points[i].x);
        mensur_out_text(out, ",");
        mensur_markup_bare_number(out, points[i].y);
    }
    mensur_out_text(out, "\"");
    put_paint(out, svg, "fill", shape->fill);
    put_pen(out, svg, &shape->pen, shapes->dash);
    mensur_markup_close(out);
}

static void put_disc(struct mensur_out *out, const struct mensur_svg *svg,
                     const struct mensur_shapes *shapes, const struct mensur_shape *shape) {
    mensur_markup_start(out, "circle");
    mensur_markup_number(out, "cx", shapes->points[shape->first].x);
    mensur_markup_number(out, "cy", shapes->points[shape->first].y);
    mensur_markup_number(out, "r", shape->radius);
    put_paint(out, svg, "fill", shape->fill);
    put_pen(out, svg, &shape->pen, shapes->dash);
    mensur_markup_close(out);
}

static void put_upright(struct mensur_out *out, const struct mensur_point *at) {
    mensur_out_text(out, " transform=\"rotate(-90 ");
    mensur_markup_bare_number(out, at->x);
    mensur_out_text(out, " ");
    mensur_markup_bare_number(out, at->y);
    mensur_out_text(out, ")\"");
}

static void put_text(struct mensur_out *out, const struct mensur_svg *svg,
                     const struct mensur_shapes *shapes, const struct mensur_shape *shape) {
    static const char *const anchors[] = {"start", "middle", "end"};
    const struct mensur_lettering *lettering = &shape->lettering;
    const struct mensur_point *at = &shapes->points[shape->first];
    mensur_markup_start(out, "text");
    mensur_markup_number(out, "x", at->x);
    mensur_markup_number(out, "y", at->y);
    mensur_markup_number(out, "font-size", lettering->size);
    if (lettering->bold) {
        mensur_markup_attribute(out, "font-weight", "bold");
    }
    if (lettering->anchor != MENSUR_ANCHOR_START) {
        mensur_markup_attribute(out, "text-anchor", anchors[lettering->anchor]);
    }
    put_paint(out, svg, "fill", lettering->paint);
    if (lettering->upright) {
        put_upright(out, at);
    }
    mensur_markup_end(out);
    mensur_markup_text(out, shape->text);
    mensur_markup_finish(out, "text");
}

static void put_shape(struct mensur_out *out, const struct mensur_svg *svg,
                      const struct mensur_shapes *shapes, const struct mensur_shape *shape) {
    switch (shape->kind) {
    case MENSUR_SHAPE_PATH:
        if (shape->count == 2) {
            put_line(out, svg, shapes, shape);
        } else {
            put_path(out, svg, shapes, shape);
        }
        break;
    case MENSUR_SHAPE_DISC:
        put_disc(out, svg, shapes, shape);
        break;
    case MENSUR_SHAPE_TEXT:
        put_text(out, svg, shapes, shape);
        break;
    }
}

/* The description, for readers who do not see the picture. */
static void put_words(struct mensur_out *out, const struct mensur_svg *svg,
                      const struct mensur_shapes *shapes) {
    mensur_markup_start(out, "title");
    mensur_markup_id(out, "id", "", svg->id, "title", "");
    mensur_markup_end(out);
    mensur_markup_text(out, svg->title);
    mensur_markup_finish(out, "title");
    mensur_markup_start(out, "desc");
    mensur_markup_id(out, "id", "", svg->id, "desc", "");
    mensur_markup_end(out);
    for (size_t i = 0; i < shapes->words.count; i++) {
        mensur_out_text(out, i > 0 ? " " : "");
        mensur_markup_text(out, shapes->words.items[i]);
    }
    mensur_markup_finish(out, "desc");
}

static bool is_used(const struct mensur_shapes *shapes, enum mensur_paint paint) {
    for (size_t i = 0; i < shapes->count; i++) {
        if (shapes->items[i].kind != MENSUR_SHAPE_TEXT && shapes->items[i].fill == paint) {
            return true;
        }
    }
    return false;
}

/* Lines one dash length apart, at 45 degrees one way or the other. */
static void put_hatch(struct mensur_out *out, const struct mensur_svg *svg, double dash,
                      enum mensur_paint paint) {
    bool other = paint == MENSUR_PAINT_HATCH_OTHER;
    struct mensur_pen pen = {other ? MENSUR_PAINT_OTHER : MENSUR_PAINT_INK, dash * 0.22,
                             MENSUR_DASH_NONE};
    mensur_markup_start(out, "pattern");
    mensur_markup_id(out, "id", "", svg->id, other ? "hatch-other" : "hatch", "");
    mensur_markup_number(out, "width", dash * 0.75);
    mensur_markup_number(out, "height", dash * 0.75);
    mensur_markup_attribute(out, "patternUnits", "userSpaceOnUse");
    mensur_markup_attribute(out, "patternTransform", other ? "rotate(-45)" : "rotate(45)");
    mensur_markup_end(out);
    mensur_markup_start(out, "line");
    mensur_markup_number(out, "x1", dash * 0.375);
    mensur_markup_number(out, "y1", 0.0);
    mensur_markup_number(out, "x2", dash * 0.375);
    mensur_markup_number(out, "y2", dash * 0.75);
    put_pen(out, svg, &pen, dash);
    mensur_markup_close(out);
    mensur_markup_finish(out, "pattern");
}

static void put_definitions(struct mensur_out *out, const struct mensur_svg *svg,
                            const struct mensur_shapes *shapes) {
    bool hatch = is_used(shapes, MENSUR_PAINT_HATCH);
    bool other = is_used(shapes, MENSUR_PAINT_HATCH_OTHER);
    if (!hatch && !other) {
        return;
    }
    mensur_markup_open(out, "defs");
    if (hatch) {
        put_hatch(out, svg, shapes->dash, MENSUR_PAINT_HATCH);
    }
    if (other) {
        put_hatch(out, svg, shapes->dash, MENSUR_PAINT_HATCH_OTHER);
    }
    mensur_markup_finish(out, "defs");
}

static void put_size(struct mensur_out *out, const char *name, double value, const char *unit) {
    mensur_out_text(out, " ");
    mensur_out_text(out, name);
    mensur_out_text(out, "=\"");
    mensur_markup_bare_number(out, value);
    mensur_out_text(out, unit);
    mensur_out_text(out, "\"");
}

static void put_head(struct mensur_out *out, const struct mensur_svg *svg,
                     const struct mensur_shapes *shapes) {
    mensur_markup_start(out, "svg");
    mensur_markup_attribute(out, "xmlns", "http://www.w3.org/2000/svg");
    put_size(out, "width", shapes->width, svg->unit);
    put_size(out, "height", shapes->height, svg->unit);
    mensur_out_text(out, " viewBox=\"0 0 ");
    mensur_markup_bare_number(out, shapes->width);
    mensur_out_text(out, " ");
    mensur_markup_bare_number(out, shapes->height);
    mensur_out_text(out, "\"");
    mensur_markup_attribute(out, "role", "img");
    mensur_out_text(out, " aria-labelledby=\"");
    mensur_markup_text(out, svg->id);
    mensur_out_text(out, "-title ");
    mensur_markup_text(out, svg->id);
    mensur_out_text(out, "-desc\"");
    mensur_markup_attribute(out, "font-family", "sans-serif");
    mensur_markup_attribute(out, "stroke-linecap", "butt");
    mensur_markup_end(out);
    mensur_out_line(out);
}

/* Whether two drawings have the same lines but for what stands in them. */
static bool are_comparable(const struct mensur_shapes *one, const struct mensur_shapes *other) {
    return one->count == other->count &&
           is_used(one, MENSUR_PAINT_HATCH) == is_used(other, MENSUR_PAINT_HATCH) &&
           is_used(one, MENSUR_PAINT_HATCH_OTHER) == is_used(other, MENSUR_PAINT_HATCH_OTHER);
}

void mensur_svg_write(struct mensur_out *out, const struct mensur_svg *svg,
                      const struct mensur_shapes *shapes) {
    const struct mensur_shapes *before =
        svg->before != NULL && are_comparable(svg->before, shapes) ? svg->before : NULL;
    mensur_out_fail(out, shapes->status);
    put_head(out, svg, shapes);
    if (before == NULL) {
        put_words(out, svg, shapes);
    } else {
        mensur_out_line(out);
        mensur_out_line(out);
    }
    put_definitions(out, svg, shapes);
    if (!svg->within_page) {
        mensur_markup_start(out, "rect");
        mensur_markup_number(out, "width", shapes->width);
        mensur_markup_number(out, "height", shapes->height);
        put_paint(out, svg, "fill", MENSUR_PAINT_PAPER);
        mensur_markup_close(out);
    }
    for (size_t i = 0; i < shapes->count; i++) {
        if (before != NULL && mensur_shapes_alike(before, shapes, i)) {
            mensur_out_line(out);
        } else {
            put_shape(out, svg, shapes, &shapes->items[i]);
        }
    }
    mensur_markup_finish(out, "svg");
}
