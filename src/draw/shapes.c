/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shapes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "lettering.h"

void mensur_shapes_clear(struct mensur_shapes *shapes) {
    for (size_t i = 0; i < shapes->count; i++) {
        free(shapes->items[i].text);
    }
    free(shapes->items);
    free(shapes->points);
    mensur_texts_clear(&shapes->words);
    *shapes = (struct mensur_shapes){0};
}

static bool is_same(double one, double other) {
    return !(one < other) && !(one > other);
}

static bool are_pens_alike(struct mensur_pen one, struct mensur_pen other) {
    return one.paint == other.paint && one.dash == other.dash && is_same(one.width, other.width);
}

static bool are_letters_alike(const struct mensur_lettering *one,
                              const struct mensur_lettering *other) {
    return is_same(one->size, other->size) && one->anchor == other->anchor &&
           one->bold == other->bold && one->upright == other->upright && one->paint == other->paint;
}

bool mensur_shapes_alike(const struct mensur_shapes *one, const struct mensur_shapes *other,
                         size_t place) {
    const struct mensur_shape *a = &one->items[place], *b = &other->items[place];
    return a->kind == b->kind && a->fill == b->fill && a->closed == b->closed &&
           a->count == b->count && is_same(a->radius, b->radius) &&
           are_pens_alike(a->pen, b->pen) && are_letters_alike(&a->lettering, &b->lettering) &&
           memcmp(one->points + a->first, other->points + b->first,
                  a->count * sizeof *one->points) == 0 &&
           (a->text == NULL || strcmp(a->text, b->text) == 0);
}

/* Makes room for more items of a list; a failure is kept in status. */
static bool grow(struct mensur_shapes *shapes, void **list, size_t size, size_t needed,
                 size_t *room) {
    if (shapes->status != MENSUR_OK || needed <= *room) {
        return shapes->status == MENSUR_OK;
    }
    size_t wanted = needed * 2 + 64;
    void *more = realloc(*list, wanted * size);
    if (more == NULL) {
        shapes->status = MENSUR_MEMORY;
        return false;
    }
    *list = more;
    *room = wanted;
    return true;
}

static bool are_drawable(const struct mensur_point *points, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(points[i].x) || !isfinite(points[i].y)) {
            return false;
        }
    }
    return true;
}

/* Adds a shape; one with a NaN or infinite point is not drawn. */
static void add(struct mensur_shapes *shapes, struct mensur_shape shape,
                const struct mensur_point *points, size_t count) {
    void *list = shapes->points;
    bool good =
        are_drawable(points, count) &&
        grow(shapes, &list, sizeof(*points), shapes->point_count + count, &shapes->point_room);
    shapes->points = list;
    list = shapes->items;
    good = good && grow(shapes, &list, sizeof(*shapes->items), shapes->count + 1, &shapes->room);
    shapes->items = list;
    if (!good) {
        free(shape.text);
        return;
    }
    memcpy(shapes->points + shapes->point_count, points, count * sizeof(*points));
    shape.first = shapes->point_count;
    shape.count = count;
    shapes->point_count += count;
    shapes->items[shapes->count++] = shape;
}

void mensur_shape_path(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                       const struct mensur_point *points, size_t count, bool closed) {
    add(shapes,
        (struct mensur_shape){
            .kind = MENSUR_SHAPE_PATH, .pen = pen, .fill = fill, .closed = closed},
        points, count);
}

void mensur_shape_line(struct mensur_shapes *shapes, struct mensur_pen pen, double x1, double y1,
                       double x2, double y2) {
    struct mensur_point points[] = {{x1, y1}, {x2, y2}};
    mensur_shape_path(shapes, pen, MENSUR_PAINT_NONE, points, 2, false);
}

void mensur_shape_box(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                      double x, double y, double width, double height) {
    struct mensur_point points[] = {
        {x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
    mensur_shape_path(shapes, pen, fill, points, 4, true);
}

void mensur_shape_disc(struct mensur_shapes *shapes, struct mensur_pen pen, enum mensur_paint fill,
                       double x, double y, double radius) {
    struct mensur_point point = {x, y};
    add(shapes,
        (struct mensur_shape){
            .kind = MENSUR_SHAPE_DISC, .pen = pen, .fill = fill, .radius = radius},
        &point, 1);
}

void mensur_shape_fitted(struct mensur_shapes *shapes, struct mensur_lettering lettering, double x,
                         double y, double width, const char *text) {
    struct mensur_point point = {x, y};
    char *copy = mensur_lettering_fit(text, lettering.size, width);
    if (copy == NULL) {
        shapes->status = MENSUR_MEMORY;
        return;
    }
    if (*copy == '\0') {
        free(copy);
        return;
    }
    add(shapes,
        (struct mensur_shape){.kind = MENSUR_SHAPE_TEXT, .lettering = lettering, .text = copy},
        &point, 1);
}

void mensur_shape_text(struct mensur_shapes *shapes, struct mensur_lettering lettering, double x,
                       double y, const char *text) {
    mensur_shape_fitted(shapes, lettering, x, y, INFINITY, text);
}

void mensur_shape_head(struct mensur_shapes *shapes, enum mensur_paint paint, double x, double y,
                       double dx, double dy, double size) {
    double length = hypot(dx, dy);
    double ux = dx / length * size;
    double uy = dy / length * size;
    struct mensur_point points[] = {
        {x, y}, {x - ux - uy * 0.4, y - uy + ux * 0.4}, {x - ux + uy * 0.4, y - uy - ux * 0.4}};
    mensur_shape_path(shapes, (struct mensur_pen){.paint = MENSUR_PAINT_NONE}, paint, points, 3,
                      true);
}

static void place_shape(struct mensur_shapes *shapes, const struct mensur_shapes *of,
                        const struct mensur_shape *shape, struct mensur_point to, double scale) {
    struct mensur_shape copy = *shape;
    struct mensur_point *points = calloc(shape->count, sizeof(*points));
    copy.text = NULL;
    bool good = points != NULL &&
                (shape->text == NULL ||
                 mensur_text_copy(shape->text, strlen(shape->text), &copy.text) == MENSUR_OK);
    if (!good) {
        free(points);
        shapes->status = MENSUR_MEMORY;
        return;
    }
    for (size_t i = 0; i < shape->count; i++) {
        const struct mensur_point *at = &of->points[shape->first + i];
        points[i] = (struct mensur_point){to.x + at->x * scale, to.y + at->y * scale};
    }
    copy.pen.width *= scale;
    copy.radius *= scale;
    copy.lettering.size *= scale;
    add(shapes, copy, points, shape->count);
    free(points);
}

void mensur_shapes_place(struct mensur_shapes *shapes, const struct mensur_shapes *of, double x,
                         double y, double scale) {
    shapes->status = shapes->status == MENSUR_OK ? of->status : shapes->status;
    for (size_t i = 0; i < of->count && shapes->status == MENSUR_OK; i++) {
        place_shape(shapes, of, &of->items[i], (struct mensur_point){x, y}, scale);
    }
    for (size_t i = 0; i < of->words.count; i++) {
        MENSUR_SHAPE_SAY(shapes, "%s", of->words.items[i]);
    }
}
