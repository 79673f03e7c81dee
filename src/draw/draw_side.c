/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Side views to one scale, the lower ends of all bodies at the same x, so that reaches can be
 * compared. */
#include "draw_side.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lettering.h"

/* Greatest height of a row, px: a stop of a few millimetres would make it as high as it is wide. */
#define TOP_MAX 260.0
/* The same of a brief drawing, two rows of which are no higher than it is wide. */
#define BRIEF_TOP_MAX 49.0
/* px between a row's name and the highest string, and below the instrument. */
#define ABOVE 44.0
/* The place of an instrument that is drawn over the one before it, and px from the body down to its
 * name. */
#define OVER 2
#define LABEL_BELOW 28.0
#define BELOW 106.0

static bool is_assumed(const struct mensur_profile *profile, const char *field, double drawn) {
    return mensur_side_origin(profile, field, drawn) == MENSUR_ORIGIN_ASSUMED;
}

static double larger(double value, double least) {
    return value > least ? value : least;
}

/* The scale that all rows share. */
struct rows {
    const struct mensur_drawn *drawn;
    size_t count;         /* of them, one above the other */
    double bridge_to_end; /* m, of the first whose lower end is known; used for the others */
    double width;         /* px of the page */
    double scale;
    double above, below; /* m, of the first row above and below the edge */
    bool brief;
};

/* Distances along the edge from an instrument's origin, m: lower end, bridge, nut. */
static double end_of(const struct rows *rows, const struct mensur_profile *profile) {
    const struct mensur_side_points *side = &profile->side;
    double bridge = side->known ? side->top_x : 0.0;
    return side->known && !isnan(side->body_straight) ? side->body_straight
                                                      : bridge + rows->bridge_to_end;
}

static double nut_of(const struct mensur_profile *profile) {
    return profile->side.known ? profile->side.nut_x : -profile->lengths.string_length;
}

static double top_of(const struct mensur_profile *profile) {
    return profile->side.known ? larger(profile->side.top_y, profile->side.nut_y) : 0.0;
}

static double below_edge_of(const struct mensur_profile *profile) {
    return profile->side.known ? larger(mensur_side_room(profile).below, 0.0) : 0.0;
}

/* From the nut to the end of the head, m. */
static double head_of(const struct mensur_profile *profile) {
    return profile->side.known ? mensur_side_room(profile).head : 0.0;
}

/* Keeps the scale and the first row's room, where everything fits in them; else both are made with
 * something to spare, so that what follows fits. */
static void keep_axes(struct rows *rows, double extent, struct mensur_axes *axes) {
    const double spare = 8.0; /* px */
    if (axes->keep && axes->side_scale > 0.0) {
        bool fits = axes->side_scale * extent <= rows->width - MENSUR_PAGE_MARGIN;
        rows->scale = fits ? axes->side_scale : 0.97 * rows->scale;
        rows->above =
            rows->above <= axes->side_above ? axes->side_above : rows->above + spare / rows->scale;
        rows->below =
            rows->below <= axes->side_below ? axes->side_below : rows->below + spare / rows->scale;
    }
    axes->side_scale = rows->scale;
    axes->side_above = rows->above;
    axes->side_below = rows->below;
}

static struct rows measure(const struct mensur_drawn *drawn, const struct mensur_draw *draw) {
    struct mensur_axes *axes = draw->axes;
    bool over = draw->over && drawn->count == OVER + 1 && drawn->profiles[OVER]->side.known &&
                drawn->profiles[OVER - 1]->side.known;
    struct rows rows = {.drawn = drawn,
                        .count = over ? OVER : drawn->count,
                        .width = draw->shapes.width,
                        .brief = draw->brief};
    double extent = 0.0;
    double height = 0.0;
    for (size_t i = drawn->count; i > 0; i--) {
        const struct mensur_side_points *side = &drawn->profiles[i - 1]->side;
        if (side->known && !isnan(side->body_straight)) {
            rows.bridge_to_end = side->body_straight - side->top_x;
        }
    }
    for (size_t i = 0; i < drawn->count; i++) {
        const struct mensur_profile *profile = drawn->profiles[i];
        extent = larger(end_of(&rows, profile) - nut_of(profile) + head_of(profile), extent);
        height = larger(top_of(profile) + below_edge_of(profile), height);
    }
    rows.scale = (rows.width - 2.0 * MENSUR_PAGE_MARGIN) / extent;
    rows.scale = fmin(rows.scale, (rows.brief ? BRIEF_TOP_MAX : TOP_MAX) / height);
    rows.above = top_of(drawn->profiles[0]);
    rows.below = below_edge_of(drawn->profiles[0]);
    if (axes != NULL) {
        keep_axes(&rows, extent, axes);
    }
    return rows;
}

/* px below the edge: for neck, stop, bow reach and left reach, for neck and stop, or for a line of
 * text. */
static double below(const struct rows *rows, const struct mensur_profile *profile) {
    return !profile->side.known                 ? 30.0
           : rows->brief                        ? BELOW - 54.0
           : isnan(profile->lengths.left_reach) ? BELOW - 46.0
                                                : BELOW;
}

/* Room of a row above and below the edge, m. */
static double room_above(const struct rows *rows, const struct mensur_profile *profile) {
    return profile == rows->drawn->profiles[0] ? rows->above : top_of(profile);
}

static double room_below(const struct rows *rows, const struct mensur_profile *profile) {
    return profile == rows->drawn->profiles[0] ? rows->below : below_edge_of(profile);
}

static double row_height(const struct rows *rows, const struct mensur_profile *profile) {
    return ABOVE + (room_above(rows, profile) + room_below(rows, profile)) * rows->scale +
           below(rows, profile);
}

static struct mensur_side_frame frame_of(const struct rows *rows,
                                         const struct mensur_profile *profile, double top) {
    double right = rows->width - MENSUR_PAGE_MARGIN;
    return (struct mensur_side_frame){.x = right - end_of(rows, profile) * rows->scale,
                                      .y = top + ABOVE + room_above(rows, profile) * rows->scale,
                                      .scale = rows->scale};
}

/* A figure and its label under a dimension line, as much as fits between its ticks: the label with
 * the word that the figure is assumed, without it, none. */
static void label_dimension(struct mensur_draw *draw, double x1, double x2, double y,
                            const char *label, bool assumed, double value, double first,
                            bool is_first) {
    double size = MENSUR_SIZE_LABEL;
    double room = fabs(x2 - x1) - 4.0;
    double middle = (x1 + x2) / 2.0;
    if (isnan(value)) {
        return;
    }
    struct mensur_shown figure = mensur_draw_cut(draw, value, first, is_first);
    if (mensur_lettering_width(figure.text, size) > room) {
        figure = mensur_show_cut(draw->style, value);
    }
    if (mensur_lettering_width(figure.text, size) > room) {
        return;
    }
    char text[64];
    snprintf(text, sizeof text, "%s%s", label, assumed ? ", assumed" : "");
    const char *fitting = mensur_lettering_width(text, size) <= room    ? text
                          : mensur_lettering_width(label, size) <= room ? label
                                                                        : NULL;
    if (fitting != NULL) {
        mensur_draw_plate(draw, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), middle, y, fitting);
    }
    mensur_draw_plate(draw, mensur_draw_letters(MENSUR_ANCHOR_MIDDLE), middle, y + 15.0,
                      figure.text);
}

/* Dimension lines of neck, stop and bow reach in a row below the edge, left reach below them. */
static void draw_dimensions(struct mensur_draw *draw, const struct rows *rows,
                            const struct mensur_profile *profile,
                            const struct mensur_side_frame *frame) {
    const struct mensur_profile *first = rows->drawn->profiles[0];
    const struct mensur_lengths *own = &profile->lengths;
    const struct mensur_lengths *than = &first->lengths;
    bool is_first = profile == first;
    double y = frame->y + room_below(rows, profile) * frame->scale + 14.0;
    double nut = mensur_side_at(frame, profile->side.nut_x, 0.0).x;
    double bridge = mensur_side_at(frame, profile->side.top_x, 0.0).x;
    double end = mensur_side_at(frame, profile->side.body_straight, 0.0).x;
    mensur_draw_level(draw, nut, frame->x, y);
    mensur_draw_level(draw, frame->x, bridge, y);
    label_dimension(draw, nut, frame->x, y + 17.0, "neck", is_assumed(profile, "neck", own->neck),
                    own->neck, than->neck, is_first);
    label_dimension(draw, frame->x, bridge, y + 17.0, "stop",
                    is_assumed(profile, "stop", own->stop), own->stop, than->stop, is_first);
    if (draw->brief || isnan(own->bow_reach) || isnan(own->left_reach)) {
        return;
    }
    mensur_draw_level(draw, bridge, end, y);
    label_dimension(draw, bridge, end, y + 17.0, "bow reach", false, own->bow_reach,
                    than->bow_reach, is_first);
    mensur_draw_level(draw, nut, end, y + 44.0);
    struct mensur_shown reach = mensur_draw_cut(draw, own->left_reach, than->left_reach, is_first);
    char text[96];
    snprintf(text, sizeof text, "left reach %s", reach.text);
    mensur_draw_plate(draw, mensur_draw_letters(MENSUR_ANCHOR_MIDDLE), (nut + end) / 2.0, y + 61.0,
                      text);
}

/* The string's length, over the string, which rises by so much a px to either side; where a
 * measured one is not the line's, by more than the line shows, both. */
static void label_string(struct mensur_draw *draw, const struct mensur_profile *profile,
                         const struct mensur_profile *first, double x, double y, double rise) {
    double drawn = profile->lengths.string_length_geometry;
    struct mensur_shown figure = mensur_draw_cut(draw, profile->lengths.string_length,
                                                 first->lengths.string_length, profile == first);
    char text[192];
    bool apart = profile->side.known && fabs(profile->lengths.string_length - drawn) > 0.002;
    snprintf(text, sizeof text, "string %s%s%s", figure.text, apart ? ", drawn as " : "",
             apart ? mensur_show_cut(draw->style, drawn).text : "");
    double half = 0.5 * MENSUR_DRAW_BOLDER * mensur_lettering_width(text, MENSUR_SIZE_LABEL) + 3.0;
    mensur_draw_plate(draw, mensur_draw_strong(MENSUR_ANCHOR_MIDDLE), x,
                      y - fmax(half, 60.0) * rise, text);
}

static void draw_string_dimension(struct mensur_draw *draw, const struct mensur_profile *profile,
                                  const struct mensur_profile *first,
                                  const struct mensur_side_frame *frame) {
    struct mensur_point nut = mensur_side_at(frame, profile->side.nut_x, profile->side.nut_y);
    struct mensur_point top = mensur_side_at(frame, profile->side.top_x, profile->side.top_y);
    double sine = sin(profile->side.front_angle);
    double cosine = cos(profile->side.front_angle);
    double away = 11.0;
    struct mensur_point from = {nut.x - away * sine, nut.y - away * cosine};
    struct mensur_point to = {top.x - away * sine, top.y - away * cosine};
    mensur_draw_dimension(draw, from, to);
    /* above the line, which rises to the right */
    label_string(draw, profile, first, (from.x + to.x) / 2.0, (from.y + to.y) / 2.0 - 5.0,
                 fabs(sine));
}

/* An instrument of which only the string length was measured. */
static void draw_string_alone(struct mensur_draw *draw, const struct mensur_profile *profile,
                              const struct mensur_profile *first,
                              const struct mensur_side_frame *frame) {
    struct mensur_pen pen = {MENSUR_PAINT_INK, 1.8, MENSUR_DASH_NONE};
    struct mensur_point nut = mensur_side_at(frame, nut_of(profile), 0.0);
    mensur_shape_line(&draw->shapes, pen, nut.x, nut.y, frame->x, nut.y);
    mensur_shape_line(&draw->shapes, pen, nut.x, nut.y - 6.0, nut.x, nut.y + 6.0);
    mensur_shape_line(&draw->shapes, pen, frame->x, nut.y - 6.0, frame->x, nut.y + 6.0);
    label_string(draw, profile, first, (nut.x + frame->x) / 2.0, nut.y - 8.0, 0.0);
    mensur_draw_plate(draw, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), (nut.x + frame->x) / 2.0,
                      nut.y + 18.0, "only the string was measured");
}

static enum mensur_side_look look_of(const struct mensur_drawn *drawn, size_t i) {
    if (drawn->count < 2 || drawn->states == NULL) {
        return i % 2 == 0 ? MENSUR_SIDE_INK : MENSUR_SIDE_LIKED;
    }
    return drawn->states[i] == MENSUR_STATE_NOW     ? MENSUR_SIDE_THIN
           : drawn->states[i] == MENSUR_STATE_MODEL ? MENSUR_SIDE_LIKED
                                                    : MENSUR_SIDE_INK;
}

/* The bridge's height between belly and back, under it, where the ribs leave room. */
static void label_bridge(struct mensur_draw *draw, const struct mensur_profile *profile,
                         const struct mensur_side_frame *frame) {
    bool assumed = is_assumed(profile, "bridge", profile->side.bridge);
    double ribs = mensur_side_ribs(profile);
    char text[96];
    snprintf(text, sizeof text, "bridge %s%s",
             mensur_show_cut(draw->style, profile->side.bridge).text, assumed ? ", assumed" : "");
    double width = mensur_lettering_width(text, MENSUR_SIZE_LABEL);
    struct mensur_point middle = mensur_side_at(frame, profile->side.top_x, -0.5 * ribs);
    double left = frame->x + 6.0;
    double right = draw->shapes.width - MENSUR_PAGE_MARGIN - 8.0;
    double x = fmin(fmax(middle.x, left + width / 2.0), right - width / 2.0);
    if (ribs * frame->scale >= MENSUR_SIZE_LABEL + 4.0 && width <= right - left) {
        mensur_draw_plate(draw, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), x, middle.y + 6.0, text);
    }
}

/* A bar of a round length at the drawing's scale, and what a dotted outline means. */
static void draw_scale_bar(struct mensur_draw *draw, const struct rows *rows) {
    bool inches = draw->style->inches;
    double unit = inches ? MENSUR_MM_PER_INCH / 1000.0 : 0.001;
    double length = mensur_draw_step(60.0 / rows->scale / unit, 1);
    double x = MENSUR_PAGE_MARGIN, end = x + length * unit * rows->scale, y = draw->y + 8.0;
    bool dotted = false;
    char text[96];
    for (size_t i = 0; i < rows->drawn->count; i++) {
        const struct mensur_side_points *side = &rows->drawn->profiles[i]->side;
        dotted = dotted || (side->known && !(side->rib > 0.0));
    }
    snprintf(text, sizeof text, "%s %s%s", mensur_show_number(length, length < 1.0 ? 1 : 0, 8).text,
             inches ? "in" : "mm", dotted ? "; dotted: ribs not measured" : "");
    mensur_draw_level(draw, x, end, y);
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), end + 8.0, y + 4.5,
                      text);
    draw->y += 24.0;
}

static void draw_row(struct mensur_draw *draw, const struct rows *rows, size_t i) {
    const struct mensur_profile *profile = rows->drawn->profiles[i];
    const struct mensur_profile *first = rows->drawn->profiles[0];
    struct mensur_side_frame frame = frame_of(rows, profile, draw->y);
    mensur_draw_legend(draw, rows->drawn, i, draw->y + 14.0, false);
    if (profile->side.known) {
        mensur_side_instrument(draw, profile, &frame, look_of(rows->drawn, i));
        label_bridge(draw, profile, &frame);
        draw_string_dimension(draw, profile, first, &frame);
        draw_dimensions(draw, rows, profile, &frame);
    } else {
        draw_string_alone(draw, profile, first, &frame);
    }
    draw->y += row_height(rows, profile);
}

/* The third instrument over the second: its nut, bridge and strings, and its name at the
 * body's end. */
static void draw_over(struct mensur_draw *draw, const struct rows *rows, double top) {
    const struct mensur_profile *profile = rows->drawn->profiles[OVER];
    const struct mensur_profile *under = rows->drawn->profiles[OVER - 1];
    struct mensur_side_frame frame = frame_of(rows, profile, top),
                             base = frame_of(rows, under, top);
    struct mensur_lettering letters = mensur_draw_strong(MENSUR_ANCHOR_END);
    char *name = mensur_lettering_whole(profile->instrument);
    double right = rows->width - MENSUR_PAGE_MARGIN;
    double y = base.y + room_below(rows, under) * rows->scale + LABEL_BELOW;
    char word[32];
    if (name == NULL) {
        draw->shapes.status = MENSUR_MEMORY;
        return;
    }
    frame.y = base.y;
    letters.paint = MENSUR_PAINT_OTHER;
    mensur_side_instrument(draw, profile, &frame, MENSUR_SIDE_OVER);
    snprintf(word, sizeof word, "%s:", mensur_state_word(MENSUR_STATE_MODEL));
    mensur_shape_text(&draw->shapes, letters, right - 5.0, y, word);
    mensur_shape_fitted(&draw->shapes, letters, right - 5.0, y + 16.0, 0.3 * rows->width, name);
    free(name);
}

/* Vertical lines through all rows at the first instrument's nut, edge, bridge and lower end. */
static void draw_reference_lines(struct mensur_draw *draw, const struct rows *rows) {
    const struct mensur_profile *first = rows->drawn->profiles[0];
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_DOTS};
    struct mensur_side_frame frame = frame_of(rows, first, draw->y);
    double bottom = draw->y;
    double xs[] = {nut_of(first), 0.0, first->side.top_x, first->side.body_straight};
    for (size_t i = 0; i < rows->count; i++) {
        bottom += row_height(rows, rows->drawn->profiles[i]);
    }
    const struct mensur_profile *last = rows->drawn->profiles[rows->count - 1];
    bottom += (last->side.known ? 14.0 : 0.0) - below(rows, last);
    for (size_t i = 0; i < (first->side.known ? 4 : 2); i++) {
        double x = mensur_side_at(&frame, xs[i], 0.0).x;
        mensur_shape_line(&draw->shapes, pen, x, frame.y, x, bottom);
    }
}

static void say_length(struct mensur_draw *draw, const char *what, double value) {
    if (!isnan(value)) {
        MENSUR_SHAPE_SAY(&draw->shapes, "%s%s.", what,
                         mensur_show_cut_unit(draw->style, value).text);
    }
}

static void say_row(struct mensur_draw *draw, const struct mensur_drawn *drawn, size_t i) {
    const struct mensur_lengths *own = &drawn->profiles[i]->lengths;
    const struct mensur_lengths *first = &drawn->profiles[0]->lengths;
    mensur_draw_say_name(draw, drawn, i);
    say_length(draw, "String ", own->string_length);
    say_length(draw, "Neck ", own->neck);
    say_length(draw, "Stop ", own->stop);
    say_length(draw, "Lower end of the body to the nut (left reach) ", own->left_reach);
    say_length(draw, "Lower end to the bridge (bow reach) ", own->bow_reach);
    double longer = own->string_length - first->string_length;
    if (i > 0 && isfinite(longer)) {
        MENSUR_SHAPE_SAY(&draw->shapes, "Its string differs from the first one's by %s %s.",
                         mensur_show_difference(draw->style, MENSUR_LENGTH, longer).text,
                         mensur_shown_unit(draw->style, MENSUR_LENGTH));
    }
}

void mensur_draw_side(struct mensur_draw *draw, const struct mensur_drawn *drawn) {
    struct rows rows = measure(drawn, draw);
    bool several = drawn->count > 1;
    if (!draw->brief) {
        mensur_draw_heading(draw, "Side view, to scale");
        mensur_draw_note(draw,
                         several ? "Lower ends together; dotted: nut, edge, bridge of the first."
                                 : "From the nut to the lower end of the body.",
                         MENSUR_LENGTH, several);
    }
    MENSUR_SHAPE_SAY(&draw->shapes, "Side views to one scale, nut on the left%s",
                     several ? ", the lower ends of the body together on the right." : ".");
    if (several) {
        draw_reference_lines(draw, &rows);
    }
    for (size_t i = 0; i < drawn->count; i++) {
        double top = draw->y;
        if (i < rows.count) {
            draw_row(draw, &rows, i);
        }
        if (rows.count < drawn->count && i == OVER - 1) {
            draw_over(draw, &rows, top);
        }
        say_row(draw, drawn, i);
    }
    if (!draw->brief && (!isnan(drawn->profiles[0]->side.top_x) || several)) {
        draw_scale_bar(draw, &rows);
    }
    draw->y += 6.0;
}
