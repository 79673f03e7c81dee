/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finger places with all nuts at the same x: every semitone on each instrument's string, then the
 * hand's frame in each position. */
#include <math.h>
#include <string.h>

#include "draw.h"
#include "lettering.h"

/* px between the left margin and the nut, for the positions' names, at least. */
#define NAMES 58.0
/* The width of bold letters over that of plain ones, at most. */
#define STRONG 1.15
/* px from one string to the next, height of a bar, px from one bar to the next. */
#define STRING_APART 34.0
#define BAR 11.0
#define BAR_APART 15.0
/* The positions of a brief drawing. */
#define BRIEF_POSITIONS 3

struct board {
    const struct mensur_drawn *drawn;
    double left;  /* px of the nut */
    double scale; /* px per m */
};

static double at(const struct board *board, double from_nut) {
    return board->left + from_nut * board->scale;
}

static struct board measure(const struct mensur_drawn *drawn, double width_px) {
    const double size = mensur_draw_strong(MENSUR_ANCHOR_START).size;
    struct board board = {.drawn = drawn, .left = MENSUR_PAGE_MARGIN + NAMES};
    double longest = 0.0;
    for (size_t i = 0; i < drawn->count; i++) {
        for (size_t j = 0; j < drawn->profiles[i]->position_count; j++) {
            double width = mensur_lettering_width(drawn->profiles[i]->positions[j].name, size);
            board.left = fmax(board.left, MENSUR_PAGE_MARGIN + STRONG * width);
        }
        longest = fmax(longest, drawn->profiles[i]->lengths.string_length);
    }
    board.scale = (width_px - MENSUR_PAGE_MARGIN - 8.0 - board.left) / longest;
    return board;
}

/* Numbers of semitones over the first string, as many as have room. */
static void number_places(struct mensur_draw *draw, const struct board *board) {
    const struct mensur_profile *first = board->drawn->profiles[0];
    double last = -1e9;
    for (size_t j = 0; j < first->place_count; j++) {
        double x = at(board, first->places[j].from_nut);
        if (x - last >= 19.0) {
            mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_MIDDLE), x,
                              draw->y - 8.0, mensur_show_count(j).text);
            last = x;
        }
    }
}

/* Lines from each place to the same semitone on the string below it. */
static void draw_connections(struct mensur_draw *draw, const struct board *board, size_t i) {
    const struct mensur_profile *upper = board->drawn->profiles[i - 1];
    const struct mensur_profile *lower = board->drawn->profiles[i];
    struct mensur_pen pen = {MENSUR_PAINT_SOFT, 1.0, MENSUR_DASH_DOTS};
    size_t count =
        upper->place_count < lower->place_count ? upper->place_count : lower->place_count;
    double top = draw->y + STRING_APART * (double)(i - 1);
    for (size_t j = 0; j < count; j++) {
        mensur_shape_line(&draw->shapes, pen, at(board, upper->places[j].from_nut), top,
                          at(board, lower->places[j].from_nut), top + STRING_APART);
    }
}

static void draw_string(struct mensur_draw *draw, const struct board *board, size_t i) {
    const struct mensur_profile *profile = board->drawn->profiles[i];
    double y = draw->y + STRING_APART * (double)i;
    double bridge = at(board, profile->lengths.string_length);
    struct mensur_pen end = {mensur_draw_ink(i), 3.0, MENSUR_DASH_NONE};
    mensur_shape_line(&draw->shapes, mensur_draw_pen(i, 1.8), board->left, y, bridge, y);
    mensur_shape_line(&draw->shapes, end, board->left - 1.5, y - 8.0, board->left - 1.5, y + 8.0);
    mensur_shape_line(&draw->shapes, end, bridge + 1.5, y - 8.0, bridge + 1.5, y + 8.0);
    for (size_t j = 1; j < profile->place_count; j++) {
        struct mensur_pen tick = {mensur_draw_ink(i), j % 12 == 0 ? 2.2 : 1.2, MENSUR_DASH_NONE};
        double x = at(board, profile->places[j].from_nut);
        mensur_shape_line(&draw->shapes, tick, x, y - 5.0, x, y + 5.0);
    }
}

static void draw_strings(struct mensur_draw *draw, const struct board *board) {
    size_t count = board->drawn->count;
    draw->y += 26.0;
    for (size_t i = 1; i < count; i++) {
        draw_connections(draw, board, i);
    }
    for (size_t i = 0; i < count; i++) {
        draw_string(draw, board, i);
    }
    number_places(draw, board);
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y + 4.0, "nut");
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_END),
                      draw->shapes.width - MENSUR_PAGE_MARGIN,
                      draw->y + STRING_APART * (double)(count - 1) + 24.0, "bridge");
    draw->y += STRING_APART * (double)(count - 1) + 40.0;
}

/* The hand's frame: a bar from first finger to fourth, a dot on each. */
static void draw_frame(struct mensur_draw *draw, const struct board *board, size_t i,
                       const struct mensur_position *position, double y) {
    struct mensur_pen pen = {mensur_draw_ink(i), 1.2, MENSUR_DASH_NONE};
    double first = at(board, position->first_finger);
    double fourth = at(board, position->fourth_finger);
    mensur_shape_box(&draw->shapes, pen, mensur_draw_bar(i), first, y, fourth - first, BAR);
    mensur_shape_disc(&draw->shapes, pen, mensur_draw_ink(i), first, y + BAR / 2.0, 3.6);
    mensur_shape_disc(&draw->shapes, pen, mensur_draw_ink(i), fourth, y + BAR / 2.0, 3.6);
}

static const struct mensur_position *find_position(const struct mensur_profile *profile,
                                                   const char *name) {
    for (size_t i = 0; i < profile->position_count; i++) {
        if (strcmp(profile->positions[i].name, name) == 0) {
            return &profile->positions[i];
        }
    }
    return NULL;
}

/* The frame's width, to the right of its bar. */
static void label_frame(struct mensur_draw *draw, const struct board *board, size_t i,
                        const struct mensur_position *position, const struct mensur_position *first,
                        double y) {
    struct mensur_lettering letters = mensur_draw_letters(MENSUR_ANCHOR_START);
    struct mensur_shown figure =
        mensur_draw_figure(draw, MENSUR_LENGTH, position->frame, first == NULL ? NAN : first->frame,
                           position == first);
    double x = at(board, position->fourth_finger) + 9.0;
    double most =
        draw->shapes.width - MENSUR_PAGE_MARGIN - mensur_lettering_width(figure.text, letters.size);
    letters.paint = mensur_draw_ink(i);
    mensur_shape_text(&draw->shapes, letters, x < most ? x : most, y + BAR - 1.0, figure.text);
}

static void draw_position(struct mensur_draw *draw, const struct board *board, const char *name) {
    const struct mensur_drawn *drawn = board->drawn;
    const struct mensur_position *first = find_position(drawn->profiles[0], name);
    struct mensur_pen rule = {MENSUR_PAINT_SOFT, 0.6, MENSUR_DASH_DOTS};
    double y = draw->y;
    mensur_shape_line(&draw->shapes, rule, MENSUR_PAGE_MARGIN, y - 4.0,
                      draw->shapes.width - MENSUR_PAGE_MARGIN, y - 4.0);
    mensur_shape_text(&draw->shapes, mensur_draw_strong(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      y + BAR, name);
    MENSUR_SHAPE_SAY(&draw->shapes, "Position %s: first to fourth finger", name);
    for (size_t i = 0; i < drawn->count; i++) {
        const struct mensur_position *position = find_position(drawn->profiles[i], name);
        if (position != NULL) {
            draw_frame(draw, board, i, position, y);
            label_frame(draw, board, i, position, first, y);
            MENSUR_SHAPE_SAY(&draw->shapes, "%s%s%s", i > 0 ? "against " : "",
                             mensur_show_unit(draw->style, MENSUR_LENGTH, position->frame).text,
                             i + 1 == drawn->count ? "." : ",");
            y += BAR_APART;
        }
    }
    draw->y = y + 9.0;
}

/* Whether an instrument before this one has the position too. */
static bool is_drawn_before(const struct mensur_drawn *drawn, size_t count, const char *name) {
    for (size_t i = 0; i < count; i++) {
        if (find_position(drawn->profiles[i], name) != NULL) {
            return true;
        }
    }
    return false;
}

static void draw_positions(struct mensur_draw *draw, const struct board *board) {
    const struct mensur_drawn *drawn = board->drawn;
    if (drawn->profiles[0]->position_count == 0) {
        return;
    }
    mensur_shape_text(&draw->shapes, mensur_draw_soft(MENSUR_ANCHOR_START), MENSUR_PAGE_MARGIN,
                      draw->y,
                      draw->brief ? "First finger to fourth, by position:"
                                  : "The hand in each position, first finger to fourth:");
    draw->y += 18.0;
    size_t room = draw->brief ? BRIEF_POSITIONS : MENSUR_RESULT_POSITIONS;
    for (size_t i = 0; i < drawn->count; i++) {
        for (size_t j = 0; j < drawn->profiles[i]->position_count; j++) {
            const char *name = drawn->profiles[i]->positions[j].name;
            if (room > 0 && !is_drawn_before(drawn, i, name)) {
                draw_position(draw, board, name);
                room--;
            }
        }
    }
}

void mensur_draw_places(struct mensur_draw *draw, const struct mensur_drawn *drawn) {
    struct board board = measure(drawn, draw->shapes.width);
    bool several = drawn->count > 1;
    if (!draw->brief) {
        mensur_draw_heading(draw, "Finger places, to scale");
        mensur_draw_note(draw, "Numbers over the string: semitones above the open string.",
                         MENSUR_LENGTH, several);
    }
    MENSUR_SHAPE_SAY(&draw->shapes, "Finger places to one scale, nuts together on the left.");
    for (size_t i = 0; i < drawn->count; i++) {
        mensur_draw_legend(draw, drawn, i, draw->y + 12.0, true);
        mensur_draw_say_name(draw, drawn, i);
        MENSUR_SHAPE_SAY(
            &draw->shapes, "string %s.",
            mensur_show_cut_unit(draw->style, drawn->profiles[i]->lengths.string_length).text);
        draw->y += 20.0;
    }
    draw_strings(draw, &board);
    draw_positions(draw, &board);
    draw->y += 6.0;
}
