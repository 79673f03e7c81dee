/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Side views for several tests: four usual instruments, and random ones, the same in every run. */
#ifndef MENSUR_TEST_VIEWS_H
#define MENSUR_TEST_VIEWS_H

#include <math.h>
#include <stdint.h>

#include "geometry.h"

#define MM 0.001
#define DEGREE (3.14159265358979323846264338327950288 / 180.0)

/* Everything in mm; body is measured with a tape over the arching, back_arch is its rise. */
struct view_mm {
    const char *name;
    double body, back_arch, stop, neck, overstand, board, board_nut, nut, arch, projection, bridge,
        saddle;
};

/* Common practice, no source. */
#define VIOLIN_LEVEL_BOARD                                                                         \
    { "violin, level board", 355, 11, 195, 130, 6.5, 10, 10, 0.4, 11.5, 27, 33, 4 }
#define VIOLIN                                                                                     \
    { "violin", 355, 11, 195, 130, 6.5, 8.7, 7, 0.4, 11.5, 27, 33, 4 }
#define VIOLA                                                                                      \
    { "viola", 410, 13, 222, 150, 8, 9.6, 7.8, 0.5, 13.5, 32, 39, 5 }
#define CELLO                                                                                      \
    { "cello", 755, 20, 400, 280, 20, 20, 15, 0.7, 23, 81, 91, 12 }

/* The view in m; body_straight NaN where the back has no chord. */
static inline struct mensur_side_view view_of(const struct view_mm *mm) {
    struct mensur_side_view view = {.body_straight = NAN,
                                    .stop = mm->stop * MM,
                                    .neck = mm->neck * MM,
                                    .overstand = mm->overstand * MM,
                                    .board = mm->board * MM,
                                    .board_nut = mm->board_nut * MM,
                                    .nut = mm->nut * MM,
                                    .arch = mm->arch * MM,
                                    .projection = mm->projection * MM,
                                    .bridge = mm->bridge * MM,
                                    .saddle = mm->saddle * MM};
    struct mensur_back back;
    if (mensur_body_straight(mm->body * MM, mm->back_arch * MM, &back) == MENSUR_OK) {
        view.body_straight = back.straight;
    }
    return view;
}

/* Knuth's 64-bit linear congruential generator (The Art of Computer Programming 2, 3.3.4; from
 * memory): its high bits are random enough for test points. */
static inline double random_between(uint64_t *state, double low, double high) {
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * ((double)(*state >> 11) / 9007199254740992.0);
}

/* An instrument of 0.2 to 5 times a violin's size, of any proportions that have a solution. */
static inline struct mensur_side_view random_view(uint64_t *state) {
    double size = exp(random_between(state, log(0.2), log(5.0)));
    struct mensur_side_view view;
    view.stop = size * random_between(state, 0.120, 0.270);
    view.neck = size * random_between(state, 0.070, 0.210);
    view.overstand = size * random_between(state, 0.0, 0.015);
    view.board = size * random_between(state, 0.004, 0.016);
    view.board_nut = view.board * random_between(state, 0.5, 1.2);
    view.nut = size * random_between(state, 0.0, 0.002);
    view.arch = size * random_between(state, 0.006, 0.020);
    view.projection = size * random_between(state, 0.015, 0.045);
    view.bridge = view.projection + size * random_between(state, 0.0005, 0.014);
    view.saddle = size * random_between(state, 0.0, 0.010);
    view.body_straight = view.stop + size * random_between(state, 0.05, 0.25);
    return view;
}

#endif
