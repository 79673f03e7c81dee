/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lengths of an instrument in the trade's words, each with what it is. */
#include <math.h>
#include <string.h>

#include "text.h"

#define LENGTH(label, member, moves, gloss)                                                        \
    { label, gloss, offsetof(struct mensur_lengths, member), MENSUR_LENGTH, 0, false, moves }
#define REACH(label, member, gloss)                                                                \
    { label, gloss, offsetof(struct mensur_lengths, member), MENSUR_LENGTH, 0, true, true }
#define OTHER(label, member, kind, decimals, moves, gloss)                                         \
    { label, gloss, offsetof(struct mensur_lengths, member), kind, decimals, false, moves }

static const struct mensur_figure figures[] = {
    LENGTH("string length", string_length, true, "nut to bridge, the part that sounds"),
    LENGTH("stop", stop, true, "belly's upper edge to the bridge"),
    LENGTH("neck", neck, true, "belly's upper edge to the nut"),
    OTHER("neck : stop", stop_per_2_neck, MENSUR_NUMBER, 2, true, "the mensur"),
    OTHER("note at the body", body_at_semitones, MENSUR_SEMITONES, 0, true,
          "up the string, where the hand meets it"),
    REACH("left reach", left_reach, "lower end of the body to the nut"),
    REACH("bow reach", bow_reach, "lower end of the body to the bridge"),
    LENGTH("body", body, false, "the back, with a tape over the arching"),
    LENGTH("body by calipers", body_straight, false, "the same in a straight line"),
    OTHER("break angle", break_angle, MENSUR_ANGLE, 0, true,
          "string over the bridge; 180: straight"),
    OTHER("down factor", down_factor, MENSUR_NUMBER, 3, false,
          "part of the pull that presses the belly"),
    OTHER("neck slope", neck_slope, MENSUR_ANGLE, 0, false, "neck against the plane of the edge"),
    LENGTH("afterlength", afterlength, false, "bridge to tailpiece"),
    LENGTH("clearance", clearance_at_board_end, false, "strings above the board's end, in mean"),
    LENGTH("bow room", bow_room, true, "from the board's end to the bridge"),
};

const struct mensur_figure *mensur_text_figures(size_t *count) {
    *count = sizeof(figures) / sizeof(figures[0]);
    return figures;
}

double mensur_figure_value(const struct mensur_figure *figure,
                           const struct mensur_lengths *lengths) {
    double value;
    memcpy(&value, (const char *)lengths + figure->offset, sizeof(value));
    return value;
}

/* The one figure that is a ratio is told as the trade tells it. */
static bool is_ratio(const struct mensur_figure *figure) {
    return figure->offset == offsetof(struct mensur_lengths, stop_per_2_neck);
}

static struct mensur_shown show_bare(const struct mensur_figure *figure,
                                     const struct mensur_style *style, double value) {
    return figure->kind == MENSUR_NUMBER ? mensur_show_number(value, figure->decimals, 7)
                                         : mensur_show(style, figure->kind, value);
}

struct mensur_shown mensur_figure_show(const struct mensur_figure *figure,
                                       const struct mensur_style *style, double value) {
    return is_ratio(figure) && !isnan(value) ? mensur_show_ratio(value)
                                             : show_bare(figure, style, value);
}

struct mensur_shown mensur_figure_difference(const struct mensur_figure *figure,
                                             const struct mensur_style *style, double value) {
    return mensur_shown_signed(show_bare(figure, style, value));
}
